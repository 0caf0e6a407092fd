// One piece of a ply's page: a tick, what to weigh, what was found; more of it unfolds.

import { button, el } from "../element.js";
import { TypedField } from "../typed_field.js";

const INPUT = { date: { type: "date" }, number: { inputmode: "decimal" }, "whole number": { inputmode: "numeric" } };
const TOO_MANY = "too many";

export class PieceRow {
  constructor(id, told, fields, lots, asks) {
    Object.assign(this, { id, fields, lots, asks, key: told.piece });
    this.what = el("span", { class: "chip" });
    this.number = el("span", { class: "number" });
    this.tick = el("input", { type: "checkbox", onchange: () => this.ticked() });
    this.weigh = el("span", { class: "weigh" });
    this.after = el("span", { class: "after" });
    this.found = el("span", { class: "found" });
    this.wrong = el("span", { class: "fault" });
    this.whose = el("span", { class: "sr" });
    this.inside = el("div", { class: "inside" });
    this.fold = el("details", { ontoggle: () => this.unfold() }, el("summary", {}, "more", this.whose, this.wrong), this.inside);
    this.row = el("li", {}, el("label", { class: "tick" }, this.tick, this.number, this.what), this.weigh, this.found, this.after, this.fold);
  }

  // Painted at once; the kernel says what follows from it.
  ticked() {
    this.row.className = this.tick.checked ? "spun" : "to-spin";
    this.row.dispatchEvent(new CustomEvent("painted", { bubbles: true }));
    this.asks.tick(this.key, this.tick.checked);
  }

  show(told, lots, isLast) {
    this.told = told;
    this.isLast = isLast;
    this.lots = lots;
    const [name, colour, ink] = lots[told.lot];
    const isSpun = told.state === "spun";
    this.row.className = told.state.replace(" ", "-");
    this.tick.checked = isSpun;
    this.number.textContent = told.row ? `${told.row}` : TOO_MANY;
    this.what.textContent = name;
    Object.assign(this.what.style, { background: colour, color: ink });
    const words = told.row ? `row ${told.row}, ${name}` : `piece too many, ${name}`;
    this.tick.setAttribute("aria-label", `${words}: spun as planned`);
    this.whose.textContent = ` about ${words}`;
    this.weigh.textContent = told.weigh && `weigh ${told.weigh}`;
    this.after.textContent = told.after;
    this.found.textContent = told.state === "left out" ? `left out, ${told.found}` : told.found;
    const isWrong = Object.keys(told.faults).length > 0;
    this.wrong.textContent = isWrong ? " Something here cannot stay as typed." : "";
    if (isWrong || Object.keys(told.waits).length) this.fold.open = true;
    if (this.inputs) this.fill();
  }

  unfold() {
    if (!this.fold.open || this.inputs) return;
    this.inputs = new Map();
    const cells = this.fields.map((field) => this.cell(field));
    this.buttons = el("div", { class: "row" });
    this.inside.append(el("div", { class: "cells" }, ...cells), this.buttons);
    this.fill();
  }

  cell({ name, words, kind }) {
    const look = kind === "lot" ? { tag: "select" } : { about: INPUT[kind] };
    const field = new TypedField(`${this.id}-${name}`, { name: `${this.key}.${name}`, words, ...look }, this.asks);
    this.inputs.set(name, field);
    return field.cell;
  }

  fill() {
    const { fields, faults, waits } = this.told;
    for (const [name, field] of this.inputs) {
      if (field.input.tagName === "SELECT") field.offer(this.choices());
      field.show({ text: fields[name] ?? "", fault: faults[name], waits: waits[name] });
    }
    this.act();
  }

  choices() {
    const none = this.told.row ? "as the row has it" : "say which";
    return [["", none], ...this.lots.map(([name]) => [name, name])];
  }

  // What can be said of it with one press; buttons stay while they say the same.
  act() {
    const acts = this.acts();
    const said = acts.map(([words]) => words).join("|");
    if (said === this.said) return;
    this.said = said;
    const at = [...this.buttons.children].indexOf(this.buttons.getRootNode().activeElement);
    this.buttons.replaceChildren(...acts.map(([words, act]) => button(words, act)));
    if (at >= 0) (this.buttons.children[at] ?? this.tick).focus();
  }

  acts() {
    const { row, state } = this.told;
    const slip = (name) => () => this.asks.slip(name, this.key);
    const later = [["it was spun sooner", () => this.asks.shift(this.key, -1)], ["it was spun later", () => this.asks.shift(this.key, 1)]];
    const more = ["a piece too many after it", () => this.asks.extra(this.key)];
    if (!row) return state === "spun" ? [...later, more] : [];
    const all = ["all up to here as planned", () => this.asks.upTo(this.key)];
    const swapped = [`swapped with row ${row + 1}`, slip("swapped")];
    const leftOut = ["left out", slip("left_out")];
    if (state === "left out") return [];
    const withNext = this.isLast ? [] : [leftOut, swapped];
    if (state === "spun") return [...withNext, more, ...later];
    return [all, ...withNext, more];
  }
}
