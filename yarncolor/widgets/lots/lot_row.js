// One lot as a row: fields in sight, and more that unfold. What is typed stays until it is taken.

import { el, isolated } from "../element.js";
import { LotPhoto } from "./lot_photo.js";

const COUNTED = "from its rolags";
const UNCOUNTED = "waits for its rolags";
const toWeigh = (masses) => `${masses[0].toUpperCase()}${masses.slice(1)} follow from these; clear rolags to type ${masses}.`;
const LONGEST_BRIEF = 24;
const ROLAGS = ["rolag", "rolags"];

const plainLines = (text) => text.replace(/\r\n?/g, "\n");

function shortened(text) {
  const letters = Array.from(text.trim().replace(/\s+/g, " "));
  return letters.length > LONGEST_BRIEF ? `${letters.slice(0, LONGEST_BRIEF - 1).join("")}…` : letters.join("");
}

function numberIn(text, units) {
  const typed = text.trim().toLowerCase();
  const unit = units.findLast((each) => typed.endsWith(each)) ?? "";
  const digits = typed.slice(0, typed.length - unit.length).trim().replace(",", ".");
  return digits ? Number(digits) : NaN;
}

const shade = ([words, colour]) => el("option", { value: words, text: words, style: `background: linear-gradient(90deg, ${colour} 1em, transparent 1em)` });

// Common dyed colours by dyestuff and shade; what is chosen goes into the field of the colour.
function dyeChooser(palette, choose) {
  const chooser = el("select", { class: "dyes", "aria-label": "a dyed colour to begin with",
    onchange: () => { if (chooser.value) choose(chooser.value); chooser.value = ""; } },
  el("option", { value: "", text: "dyes" }),
  ...palette.map(({ name, shades }) => el("optgroup", { label: name }, ...shades.map(shade))));
  return chooser;
}

export class LotRow {
  constructor(id, { fields, more, palette, weighed }, { changed, flush, remove, photograph }) {
    this.id = id;
    this.changed = changed;
    this.flush = flush;
    this.key = null;
    this.makes = ""; // how many rolags its grams make, in words
    this.field = {};
    this.fault = {};
    this.label = {};
    this.told = {}; // what the plan had when it was last heard of
    this.sent = {}; // what was sent last
    Object.assign(this, { more, weighed });
    this.names = [...fields, ...more].map(({ key }) => key);
    this.chip = el("span", { class: "chip" });
    this.pick = el("input", { type: "color", "aria-label": "pick a colour", oninput: () => { this.field.colour.value = this.pick.value; changed(); } });
    this.dyes = dyeChooser(palette, (words) => { this.field.colour.value = words; changed(); flush(); });
    this.guess = el("span", { class: "counted", id: `${id}-guess` });
    this.counted = el("span", { class: "counted", id: `${id}-counted` });
    this.toWeigh = el("span", { class: "counted", id: `${id}-to-weigh` });
    this.photo = new LotPhoto(id, (about, buffers) => photograph({ ...about, name: this.told.name ?? "" }, buffers));
    const cells = fields.map((field) => this.cell(field));
    this.remove = el("button", { type: "button", text: "Remove", onclick: () => remove(this) });
    this.row = el("li", {}, this.chip, ...cells, this.remove, this.photo.panel, this.folded());
    this.listen();
  }

  // --- its parts ---------------------------------------------------------------------------------

  cell({ key, words, kind, choices }) {
    const id = `${this.id}-${key}`;
    const about = { colour: this.guess, mass_g: this.counted, rolag_g: this.toWeigh }[key];
    const input = el({ lines: "textarea", word: "select" }[kind] ?? "input", {
      id, class: key, "aria-describedby": `${id}-fault${about ? ` ${about.id}` : ""}`,
      oninput: () => this.changed(), onchange: () => this.flush(),
      ...(kind === "lines" ? { rows: 1 } : {}),
      ...(kind === "number" || kind === "per cent" ? { inputmode: "decimal" } : {}),
    });
    if (kind === "word") input.append(...["", ...choices].map((value) => el("option", { value, text: value || "not said" })));
    this.field[key] = input;
    this.label[key] = el("label", { for: id, text: words });
    this.fault[key] = el("span", { class: "fault", id: `${id}-fault`, "aria-live": "polite" });
    return el("div", { class: `cell ${key}` }, this.label[key],
      el("div", { class: "pair" }, ...(key === "colour" ? [this.pick, input, this.dyes] : [input])),
      ...(key === "colour" ? [this.photo.chooser] : []), ...(about ? [about] : []), this.fault[key]);
  }

  // What its fields are called, in the units of the plan.
  name({ fields, more, weighed }) {
    Object.assign(this, { more, weighed });
    for (const { key, words } of [...fields, ...more]) this.label[key].textContent = words;
  }

  folded() {
    this.whose = el("span", { class: "sr" });
    this.brief = el("span", { class: "brief" });
    this.wrong = el("span", { class: "fault" });
    this.details = el("details", { class: "more" },
      el("summary", {}, "more about this lot", this.whose, this.brief, this.wrong),
      el("div", { class: "cells" }, ...this.more.map((field) => this.cell(field))));
    return this.details;
  }

  listen() {
    for (const name of ["rolags", "rolag_g"]) this.field[name].addEventListener("input", () => this.count());
    for (const { key } of this.more) this.field[key].addEventListener("input", () => this.tellBrief());
  }

  // --- what it says ------------------------------------------------------------------------------

  // Grams follow rolags where those are typed; else they are typed, and rolags follow.
  count() {
    const { mass_g: grams, rolags, rolag_g: each } = this.field;
    const isCounted = Boolean(rolags.value.trim());
    const product = numberIn(rolags.value, ROLAGS) * numberIn(each.value, this.weighed);
    const isKnown = ["rolags", "rolag_g"].every((name) => this.field[name].value === this.told[name]);
    grams.readOnly = isCounted;
    this.counted.textContent = !isCounted ? this.makes : Number.isFinite(product) || isKnown ? COUNTED : UNCOUNTED;
    this.toWeigh.textContent = isCounted ? toWeigh(this.label.mass_g.textContent) : "";
    if (isCounted && Number.isFinite(product)) grams.value = String(Number(product.toPrecision(10)));
  }

  // The grams of one rolag; those of the lot stay, and its rolags follow.
  giveRolag(grams) {
    this.field.rolags.value = "";
    this.field.rolag_g.value = grams;
    this.count();
    this.tellBrief();
  }

  tellMakes(words) {
    this.makes = words;
    this.count();
  }

  tellBrief() {
    const said = this.more.filter(({ key }) => this.field[key].value.trim())
      .map(({ key, brief }) => brief.split("{}").join(shortened(this.field[key].value)));
    this.brief.textContent = said.length ? `: ${said.join(", ")}` : "";
  }

  values() {
    for (const name of this.names) this.sent[name] = this.field[name].value;
    return { key: this.key, ...this.sent };
  }

  // As the plan has it. What was typed since it was sent stays, and so does a field that
  // fingers are in, unless nothing was typed there.
  take(told) {
    const active = this.row.getRootNode().activeElement;
    const stays = (name) => {
      const { value } = this.field[name];
      return value !== this.sent[name] || (this.field[name] === active && value !== this.told[name]);
    };
    this.put(told, stays);
  }

  put(told, stays = () => false) {
    this.key = told.key;
    for (const name of this.names) {
      const text = plainLines(told[name]);
      const input = this.field[name];
      if (!stays(name) && input.value !== text) input.value = text;
      this.told[name] = text;
    }
    this.clear();
    this.count();
    this.tellBrief();
  }

  // As fingers had it.
  type(row) {
    this.key = row.key;
    for (const name of this.names) this.field[name].value = plainLines(row[name]);
    this.count();
    this.tellBrief();
  }

  tellGuess(words) {
    this.guess.textContent = isolated(words);
  }

  paint(name, colour, ink) {
    this.chip.textContent = name;
    this.chip.style.background = colour;
    this.chip.style.color = ink;
    this.pick.value = colour;
    this.pick.setAttribute("aria-label", `pick a colour for ${name}`);
    this.dyes.setAttribute("aria-label", `a dyed colour to begin with for ${name}`);
    this.remove.setAttribute("aria-label", `remove ${name}`);
    this.whose.textContent = `, ${name}`;
    this.photo.name(name);
  }

  // --- what is wrong with it ---------------------------------------------------------------------

  clear() {
    for (const name of this.names) {
      this.field[name].setAttribute("aria-invalid", "false");
      this.fault[name].textContent = "";
    }
    this.wrong.textContent = "";
  }

  mark(name, words) {
    this.field[name].setAttribute("aria-invalid", "true");
    this.fault[name].textContent = isolated(words);
    if (!this.more.some(({ key }) => key === name)) return;
    this.details.open = true;
    this.wrong.textContent = " Something here is not right yet.";
  }
}
