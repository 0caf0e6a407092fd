// A field of the plan: what is typed stays while fingers are in it, what is wrong or still needed
// stands beside it, and it can be put back.

import { button, el, isolated } from "./element.js";

export class TypedField {
  constructor(id, { name, words, tag = "input", about = {} }, { put, back }) {
    this.shown = ""; // what the kernel said last
    this.label = el("label", { for: id });
    this.input = el(tag, { id, "aria-describedby": `${id}-fault`, onchange: () => put(name, this.input.value), ...about });
    this.fault = el("span", { class: "fault", id: `${id}-fault`, "aria-live": "polite" });
    this.back = button("put back", () => { this.input.focus(); back(name); });
    this.call(words);
  }

  call(words) {
    if (this.label.textContent !== words) this.label.textContent = words;
    this.back.setAttribute("aria-label", `put back: ${words}`);
  }

  get cell() {
    return el("div", { class: "cell" }, this.label, this.input, this.fault, this.back);
  }

  offer(choices) {
    if (choices.length === this.input.options.length) return;
    this.input.replaceChildren(...choices.map(([value, text]) => el("option", { value, text })));
  }

  show({ text, words = "", fault = "", waits = "" }) {
    if (words) this.call(words);
    const isTyping = this.input === this.input.getRootNode().activeElement && this.input.value !== this.shown;
    if (!isTyping && this.input.value !== text) this.input.value = text;
    this.shown = text;
    this.fault.textContent = isolated(fault || (waits && `still needed: ${waits}`));
    this.input.setAttribute("aria-invalid", String(Boolean(fault)));
    this.back.hidden = !this.fault.textContent;
  }
}
