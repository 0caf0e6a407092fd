// What tells why of the figures of a section: a native disclosure, of which one is open at a time.

import { el } from "./element.js";

export class WhyThese {
  constructor(about, words = "Why these figures?") {
    this.told = el("div");
    this.root = el("details", { class: "why these", name: "why", hidden: true }, el("summary", { "aria-label": `${words} ${about}`, text: words }), this.told);
  }

  tell(why) {
    this.root.hidden = !why.length;
    this.told.replaceChildren(...why.flatMap(([heading, lines]) => [el("p", {}, el("b", { text: heading })), ...lines.map((text) => el("p", { text }))]));
  }
}
