// Several lots at once: lines that are typed or pasted, and added all together or not at all.

import { button, el, inRow } from "../element.js";

const HOW = "One lot a line: its name, its weight and its colour, as in a list or copied from a spreadsheet.";
const SHORTEST = 5;
const TALLEST = 16;

const kept = new WeakMap(); // what was typed and not added, by model: a page may be drawn anew

export class LotLines {
  constructor(id, model) {
    this.model = model;
    this.field = el("textarea", {
      id: `${id}-lines`, class: "lines", rows: SHORTEST, spellcheck: "false", 
      "aria-describedby": `${id}-lines-how ${id}-lines-wrong`, oninput: () => this.grow(),
    });
    this.said = el("span", { class: "counted", role: "status", "aria-live": "polite" });
    this.wrong = el("ul", { class: "fault", id: `${id}-lines-wrong`, "aria-live": "polite" });
    this.fold = el("details", { class: "several" }, el("summary", { text: "Several lots at once" }),
      el("label", { for: this.field.id, id: `${id}-lines-how`, text: HOW }), this.field,
      inRow(button("Add these lots", () => model.send({ do: "lines", view: id, text: this.field.value })), this.said),
      this.wrong);
    this.field.value = kept.get(model) ?? "";
    this.fold.open = this.field.value !== "";
    this.grow();
  }

  // Lines as they may be typed, in the units of the plan.
  show(example) {
    this.field.placeholder = example;
  }

  open() {
    this.fold.open = true;
  }

  // What is in the field is known to nobody else until it is added.
  grow() {
    this.field.rows = Math.min(Math.max(this.field.value.split("\n").length + 1, SHORTEST), TALLEST);
    kept.set(this.model, this.field.value);
    this.field.toggleAttribute("data-only-here", this.field.value.trim() !== "");
  }

  tell({ added, said, wrong }) {
    this.said.textContent = said;
    this.wrong.replaceChildren(...wrong.map((words) => el("li", { text: words })));
    this.field.setAttribute("aria-invalid", String(wrong.length > 0));
    if (added) this.field.value = "";
    if (!added) this.field.focus();
    this.grow();
  }
}
