// Does it matter, and how to go on: the ways side by side, each with its yarn on one scale.

import { button, el, inRow } from "../element.js";
import { longest, paint, strip } from "./strips.js";

const READ_SO = "Each band is a ply, from where plying begins; equal lengths are equally long in all. A line below: there a ply shows another colour than planned.";
const STAY = "carry_on";

export class Ways {
  constructor(take) {
    this.take = take;
    this.matters = el("p", { class: "matters" });
    this.reason = el("p", { class: "reason" });
    this.list = el("ul", { class: "ways" });
    this.best = button("", () => this.take(this.best.dataset.best));
    this.count = el("summary");
    this.how = el("p", { class: "quiet", text: READ_SO });
    this.root = el("section", { "aria-label": "does it matter, and how to go on" },
      el("h4", { text: "Does it matter?" }), this.matters, this.reason, this.best, this.fold = el("details", {}, this.count, this.how, this.list));
    this.root.hidden = true;
    this.watcher = new ResizeObserver(() => this.paint());
    this.watcher.observe(this.list);
  }

  leave() {
    this.watcher.disconnect();
  }

  tell(told, lots) {
    this.root.hidden = !told.matters;
    this.matters.textContent = told.matters;
    this.reason.textContent = told.reason;
    this.colours = lots.map(([, colour]) => colour);
    const isOpen = told.choices.length > 1;
    this.fold.hidden = !isOpen;
    this.count.textContent = `The yarn under each of ${told.choices.length} ways to go on, side by side`;
    const best = told.choices.find((each) => each.best && each.way !== STAY);
    this.best.hidden = !best;
    this.best.textContent = best ? `Take the best: ${best.name}` : "";
    this.best.dataset.best = best?.way ?? "";
    const focused = this.list.getRootNode().activeElement?.dataset?.way;
    this.planned = told.planned;
    this.painted = [];
    this.list.replaceChildren(...(isOpen ? [this.asPlanned(told), ...told.choices.map((each) => this.way(each))] : []));
    if (focused) this.list.querySelector(`[data-way="${focused}"]`)?.focus();
    this.paint();
  }

  asPlanned({ planned, planned_words: words }) {
    return el("li", {}, el("div", { class: "row" }, el("strong", { text: "as planned" }), el("span", { text: words })), this.yarn(planned, `as planned: ${words}`));
  }

  yarn(yarn, words) {
    const canvas = strip(words);
    this.painted.push([canvas, yarn]);
    return canvas;
  }

  way({ way, name, worth, hands, takes, can, best, strip: yarn }) {
    const take = button(`Take this: ${name}`, () => this.take(way));
    take.dataset.way = way;
    take.disabled = !can;
    if (!can) take.title = takes;
    const isSame = way === STAY;
    return el("li", { class: best ? "best" : "" },
      el("div", { class: "row" }, el("strong", { text: isSame ? `${name}: as it stands` : name }), ...(best ? [el("span", { class: "mark", text: "best" })] : []), el("span", { text: worth })),
      this.yarn(yarn, `${name}: ${worth}`),
      ...(isSame ? [] : [el("p", { text: `${hands}.` }), el("p", { class: can ? "quiet" : "fault", text: `${takes}.` }), inRow(take)]));
  }

  paint() {
    const ink = getComputedStyle(this.root).color;
    const longestM = longest(this.painted?.map(([, yarn]) => yarn) ?? []);
    for (const [canvas, yarn] of this.painted ?? []) paint(canvas, yarn, this.planned, this.colours, longestM, ink);
  }
}
