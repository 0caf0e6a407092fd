// A form of every option: one field a line, its fault beside it; nothing typed is lost.

import { el, isolated, rootIn } from "../element.js";
import { listen } from "../protocol.js";

let made = 0;

class Form {
  constructor(model, root) {
    this.model = model;
    this.fields = new Map();
    made += 1;
    this.id = `yc-form-${made}`;
    this.said = el("p", { class: "said", role: "status", "aria-live": "polite" });
    this.groups = el("div", { class: "groups" });
    this.assumed = el("ul");
    root.append(this.said, this.groups,
      el("details", {}, el("summary", { text: "What is assumed where nothing is said" }), this.assumed));
    this.deaf = listen(model, this);
    model.send({ do: "ready" });
  }

  leave() {
    this.deaf();
  }

  on_form({ groups, assumed }) {
    const parts = groups.flatMap((group) => group.parts);
    const fields = parts.flatMap((part) => part.fields);
    const names = JSON.stringify(fields.map(({ name, words, choices }) => [name, words, choices]));
    if (names !== this.names) this.make(groups);
    this.names = names;
    for (const field of fields) this.fill(field);
    parts.forEach(({ needed }, at) => this.ask(this.asked[at], needed));
    this.assumed.replaceChildren(...assumed.map((text) => el("li", { text })));
    const wrong = fields.filter(({ fault }) => fault).map(({ words }) => `“${words}”`);
    this.said.textContent = wrong.length ? `Not in the plan, because something there is not right: ${wrong.join(", ")}.` : "";
  }

  ask(asked, needed) {
    const words = needed ? `still needed: ${needed}` : "";
    if (asked.textContent !== words) asked.textContent = words;
    asked.hidden = !needed;
  }

  make(groups) {
    const focused = this.groups.getRootNode().activeElement?.dataset?.name;
    const before = this.fields.get(focused)?.input;
    this.fields.clear();
    this.asked = [];
    this.groups.replaceChildren(...groups.map(({ words, parts }) =>
      el("fieldset", {}, el("legend", { text: words }), ...parts.map((part) => this.part(part)))));
    const input = this.fields.get(focused)?.input;
    if (input && before.tagName === input.tagName) [input.value, input.shown] = [before.value, before.shown];
    input?.focus({ preventScroll: true });
  }

  part({ words, fields }) {
    const asked = el("p", { class: "needed", "aria-live": "polite" });
    this.asked.push(asked);
    const inside = el("div", { class: "fields" }, asked, ...fields.map((field) => this.field(field)));
    return words ? el("fieldset", { class: "part" }, el("legend", { text: words }), inside) : inside;
  }

  field({ name, words, choices, tall }) {
    const id = `${this.id}-${name.replace(".", "-")}`;
    const about = { id, "data-name": name, "aria-describedby": `${id}-used ${id}-fault`, onchange: () => this.put(name) };
    const tag = choices.length ? "select" : tall ? "textarea" : "input";
    const input = el(tag, tall ? { ...about, rows: 3 } : about);
    input.shown = "";
    const usual = el("option", { value: "" });
    if (choices.length) input.append(usual, ...choices.map(([value, text]) => el("option", { value, text })));
    const used = el("span", { class: "sr", id: `${id}-used` });
    const fault = el("span", { id: `${id}-fault` });
    const back = el("button", { type: "button", class: "back", text: "put back", "aria-label": `put back: ${words}`,
      onclick: () => this.back(name) });
    const wrong = el("p", { class: "fault", "aria-live": "polite" }, fault, back);
    this.fields.set(name, { input, usual, used, fault, wrong });
    return el("div", { class: tall ? "field tall" : "field" }, el("label", { for: id, text: words }), input, used, wrong);
  }

  fill({ name, text, used: usedWords, fault: words, waits }) {
    const { input, usual, used, fault, wrong } = this.fields.get(name);
    const typing = input === input.getRootNode().activeElement && input.value !== input.shown;
    if (!typing && input.value !== text) input.value = text;
    input.shown = text;
    if (usual.parentNode) usual.textContent = usedWords;
    else input.placeholder = input.title = usedWords;
    used.textContent = waits ? "waits for what is still needed" : text || usual.parentNode ? "" : `left empty: ${usedWords}`;
    input.setAttribute("aria-invalid", words ? "true" : "false");
    fault.textContent = isolated(words);
    wrong.hidden = !words && !waits;
    wrong.classList.toggle("fault", Boolean(words));
  }

  back(name) {
    this.fields.get(name).input.focus();
    this.model.send({ do: "back", name });
  }

  put(name) {
    this.model.send({ do: "put", name, text: this.fields.get(name).input.value });
  }
}

export default {
  render({ model, el: host }) {
    const root = rootIn(host);
    const form = new Form(model, root);
    return () => form.leave();
  },
};
