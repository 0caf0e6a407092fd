// A ply's page: its rows in the order spun, which row a weight tells, and slips of the whole ply.

import { button, el, inRow } from "../element.js";
import { PieceRow } from "./piece_row.js";

export class PlyPage {
  constructor(id, ply, fields, slips, asks) {
    const extra = (piece) => { this.awaitsExtra = true; asks.extra(piece); };
    Object.assign(this, { id: `${id}-${ply}`, ply, fields, asks: { ...asks, extra }, rows: new Map() });
    this.heading = el("h4");
    this.stands = el("p", { class: "stands" });
    this.list = el("ol", { class: "pieces" });
    this.root = el("section", { class: "ply" }, this.heading, this.stands, this.list, this.weighing(), this.slips(slips));
  }

  weighing() {
    const id = `${this.id}-weighs`;
    this.gross = el("input", { id, inputmode: "decimal", "aria-describedby": `${id}-told`, onchange: () => this.ask() });
    this.bobbin = el("select", { "aria-label": `which bobbin of ply ${this.ply}`, onchange: () => this.ask() });
    this.told = el("p", { class: "said", id: `${id}-told`, role: "status", "aria-live": "polite" });
    this.upTo = button("all up to there as planned", () => this.asks.upTo(this.upTo.dataset.piece));
    this.upTo.hidden = true;
    return el("details", {}, el("summary", {}, "Which row am I at?", el("span", { class: "sr", text: ` ply ${this.ply}` })),
      inRow(el("label", { for: id, text: this.fields.find(({ name }) => name === "gross_g").words }), this.gross, this.bobbin), this.told, this.upTo);
  }

  ask() {
    if (this.gross.value.trim()) this.asks.weigh(this.ply, Number(this.bobbin.value) || 1, this.gross.value);
  }

  slips(slips) {
    return el("details", {}, el("summary", {}, "Something went wrong", el("span", { class: "sr", text: ` on ply ${this.ply}` })),
      inRow(...slips.map(([slip, words]) => button(words, () => this.asks.plySlip(slip, this.ply)))),
      el("p", { class: "quiet", text: "Of one row, such as left out, swapped or a piece too many: under “more” beside it." }));
  }

  show({ words, stands, bobbins, rows }, lots) {
    this.heading.textContent = words;
    this.stands.textContent = stands;
    this.list.setAttribute("aria-label", `rows of ${words.toLowerCase()}`);
    if (this.bobbin.options.length !== bobbins)
      this.bobbin.replaceChildren(...Array.from({ length: bobbins }, (_, at) => el("option", { value: at + 1, text: `bobbin ${at + 1}` })));
    this.bobbin.hidden = bobbins < 2;
    const there = new Set(rows.map(({ piece }) => piece));
    for (const [key, made] of this.rows) if (!there.has(key)) { made.row.remove(); this.rows.delete(key); }
    this.last = Math.max(...rows.map(({ row }) => row));
    rows.forEach((told, at) => this.put(told, at, lots));
  }

  put(told, at, lots) {
    const isNew = !this.rows.has(told.piece);
    const made = this.rows.get(told.piece) ?? new PieceRow(`${this.id}-${told.piece}`, told, this.fields, lots, this.asks);
    this.rows.set(told.piece, made);
    if (isNew && !told.row && this.awaitsExtra) this.awaitsExtra = !(made.fold.open = true);
    if (this.list.children[at] !== made.row) this.list.insertBefore(made.row, this.list.children[at] ?? null);
    made.show(told, lots, told.row === this.last);
  }

  tell({ words, piece, fault }) {
    this.told.textContent = words;
    this.told.classList.toggle("fault", fault);
    this.gross.setAttribute("aria-invalid", String(fault));
    this.upTo.hidden = !piece;
    this.upTo.dataset.piece = piece;
  }
}
