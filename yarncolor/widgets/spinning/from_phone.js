// What the phone took home: pasted or opened as a file, and brought in whole or not at all.

import { button, el, inRow, takeDrops } from "../element.js";

export class FromPhone {
  constructor(id, bring) {
    this.bring = bring;
    this.field = el("textarea", { id: `${id}-home`, rows: 5, spellcheck: "false", "aria-describedby": `${id}-wrong`, oninput: () => this.typed() });
    this.file = el("input", { type: "file", accept: ".toml,.txt,text/plain", "aria-label": "a file that the phone saved", onchange: () => this.open(this.file.files[0]) });
    this.said = el("span", { role: "status", "aria-live": "polite" });
    this.wrong = el("ul", { class: "fault", id: `${id}-wrong`, "aria-live": "polite" });
    this.root = el("details", { class: "home" }, el("summary", { text: "Bring in from the phone" }),
      el("label", { for: `${id}-home`, text: "the text that the phone gives under “take home”, whole" }), this.field,
      inRow(button("Bring it in", () => bring(this.field.value)), el("span", { class: "quiet", text: "or its file:" }), this.file, this.said), this.wrong);
    takeDrops(this.root, (file) => this.open(file));
  }

  async open(file) {
    if (!file) return;
    this.field.value = await file.text();
    this.typed();
    this.bring(this.field.value);
    this.file.value = "";
  }

  typed() {
    this.field.toggleAttribute("data-only-here", this.field.value.trim() !== "");
  }

  tell({ brought, said, wrong }) {
    this.said.textContent = said;
    this.wrong.replaceChildren(...wrong.map((words) => el("li", { text: words })));
    this.field.setAttribute("aria-invalid", String(wrong.length > 0));
    if (brought) this.field.value = "";
    this.typed();
  }
}
