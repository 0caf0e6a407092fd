// Twist that is seen in the yarn: counted, by a loop, by hooks; what to do about it.

import { el } from "../element.js";

const cell = (words, input) => el("div", { class: "cell" }, el("label", { for: input.id, text: words }), input);

export class Care {
  constructor(id, look) {
    const ask = () => look({ bumps: this.bumps.value, over_cm: this.over.value, loop: this.loop.value, catches: this.hooks.checked });
    const field = (name, about = {}) => el("input", { id: `${id}-${name}`, inputmode: "decimal", onchange: ask, ...about });
    this.bumps = field("bumps");
    this.over = field("over");
    this.width = el("label", { for: this.over.id });
    this.loop = el("select", { id: `${id}-loop`, onchange: ask });
    this.hooks = el("input", { id: `${id}-hooks`, type: "checkbox", onchange: ask });
    this.told = el("div", { role: "status", "aria-live": "polite" });
    this.root = el("section", {}, el("details", {}, el("summary", { text: "How does the twist look?" }),
      el("div", { class: "cells" },
        cell("bumps along one side, counted", this.bumps),
        el("div", { class: "cell" }, this.width, this.over),
        cell("a loop of fresh yarn, ends held together", this.loop)),
      el("label", { class: "hooks", for: this.hooks.id }, this.hooks, "the yarn catches on the hooks"),
      this.told));
  }

  offer(loops, width, over) {
    if (this.width.textContent !== width) [this.width.textContent, this.over.value] = [width, over];
    if (this.loop.options.length) return;
    this.loop.replaceChildren(...loops.map(([value, text]) => el("option", { value, text })));
  }

  tell({ lines }) {
    this.told.replaceChildren(...lines.map((text) => el("p", { text })));
  }
}
