// A row for each thing that is drawn: what it is called, where it lies, what is wrong with it.

import { button, el, inRow } from "../element.js";
import { fill, labelled, numberField, percent, shareField, tell } from "./photo_shapes.js";

const SIDES = ["left", "top", "width", "height"];
const DIGITS = 5;

// Rows by their keys. One whose thing stays the same thing is kept, with the fingers in it.
export class Rows {
  constructor(more = "") {
    this.rows = new Map();
    this.root = el("div", { class: `marks ${more}`.trim() });
  }

  // Show what is wanted: for each row its key, the thing it is of, and how it is made.
  show(wanted, faults) {
    const things = new Map(wanted.map(([key, thing]) => [key, thing]));
    for (const [key, made] of this.rows) if (things.get(key) !== made.thing) this.drop(key);
    wanted.forEach(([key, thing, make], at) => {
      if (!this.rows.has(key)) this.rows.set(key, { ...make(), thing });
      const made = this.rows.get(key);
      const there = this.root.children[at];
      if (there !== made.root) this.root.insertBefore(made.root, there ?? null);
      made.sync?.();
      if (made.fault) tell(made.fault, faults[key] ?? "");
    });
  }

  drop(key) {
    this.rows.get(key).root.remove();
    this.rows.delete(key);
  }

  reveal(key) {
    const made = this.rows.get(key);
    if (made) this.root.scrollTop = made.root.offsetTop - this.root.offsetTop;
  }

  focus(key) {
    this.rows.get(key)?.first.focus();
  }
}

function group(label, ...lines) {
  return el("div", { class: "mark", role: "group", "aria-label": label }, ...lines);
}

function shareFields(mark, bench) {
  return SIDES.map((side, at) =>
    shareField(side, (share) => bench.put(mark, mark.box.with(at, share))),
  );
}

function removal(bench, list, one) {
  return button("Remove", () => bench.removed(list, one));
}

// A box on something white, grey or for the light.
export function thingRow(bench, mark) {
  const shares = shareFields(mark, bench);
  const title = el("strong");
  const fault = el("p", { class: "fault" });
  const remove = removal(bench, bench.drawn.boxes, mark);
  const where = [...shares.map((one) => one.label), el("span", {}, "%")];
  const root = group("", inRow(title, ...where, remove), fault);
  const sync = () => {
    const called = bench.titleOf(mark);
    tell(title, called);
    root.setAttribute("aria-label", called);
    remove.setAttribute("aria-label", `Remove ${called}`);
    shares.forEach((one, at) => fill(one.field, percent(mark.box[at])));
  };
  return { root, fault, sync, first: shares[0].field };
}

// A box on fibre: beside where it lies, the lot that it is.
export function fibreRow(bench, mark) {
  const made = thingRow(bench, mark);
  const [title, ...where] = made.root.firstChild.childNodes;
  const swatch = el("span", { class: "swatch" });
  const name = nameField(bench, mark);
  const grams = gramsField(bench, mark);
  made.root.prepend(inRow(swatch, title, name.label, grams.label, where.at(-1)));
  const sync = () => {
    made.sync();
    title.hidden = Boolean(mark.name.trim());
    swatch.style.background = bench.colourOf(mark);
    grams.sync();
  };
  return { ...made, sync, first: name.field };
}

function nameField(bench, mark) {
  const oninput = () => {
    mark.name = field.value;
    bench.changed();
  };
  const about = { type: "text", maxlength: 60, autocomplete: "off", value: mark.name };
  const field = el("input", { ...about, list: bench.lots.id, oninput });
  const label = labelled("name", field);
  label.className = "long";
  return { field, label };
}

// Grams as the plan says masses: as many digits as a scale tells.
function shownMass(grams, size) {
  if (grams === null) return "";
  return String(size === 1 ? grams : Number((grams / size).toPrecision(DIGITS)));
}

function gramsField(bench, mark) {
  const weighed = ({ target }) => {
    mark.mass_g = target.value === "" ? null : Number(target.value) * bench.plan.mass_g;
    bench.changed();
  };
  const { field, label } = numberField(bench.plan.mass, { min: 0, step: "any" }, weighed);
  const sync = () => {
    const known = bench.plan.lots.find(([one]) => one === mark.name.trim());
    field.disabled = Boolean(known);
    const { mass } = bench.plan;
    field.title = known ? `the plan has this lot: its ${mass} stand in Lots` : "";
    fill(field, shownMass(known ? known[1] : mark.mass_g, bench.plan.mass_g));
    tell(label.firstChild, known ? `${mass}, as in the plan` : mass);
  };
  return { label, sync };
}

export function cornersRow(bench) {
  const { corners } = bench.drawn;
  const fields = corners.flatMap((_, at) =>
    ["left", "top"].map((side, axis) =>
      shareField(`${at + 1} ${side}`, (share) => {
        corners[at] = corners[at].with(axis, share);
        bench.cornersChanged();
      }),
    ),
  );
  const remove = button("Remove", () => bench.cornersRemoved());
  remove.setAttribute("aria-label", "Remove the corners");
  const title = el("strong", {}, "corners");
  const where = [...fields.map((one) => one.label), el("span", {}, "%")];
  const root = group("corners", inRow(title, ...where, remove));
  const sync = () => fields.forEach((one, at) => fill(one.field, percent(corners.flat()[at])));
  return { root, sync, first: fields[0].field };
}

export function proposalRow(bench, one) {
  const called = `proposal ${one.number}`;
  const keep = button("Keep as fibre", () => bench.kept(one));
  const leave = removal(bench, bench.drawn.proposed, one);
  leave.textContent = "Leave";
  for (const each of [keep, leave])
    each.setAttribute("aria-label", `${each.textContent}: ${called}`);
  return { root: group(called, inRow(keep, leave, el("span", {}, `${called}: ${one.words}`))) };
}

export function readingRow(told) {
  const swatch = el("span", { class: "swatch" });
  swatch.style.background = told.colour;
  const name = el("th", { scope: "row" }, swatch, told.name);
  const cells = [told.colour, told.out_by, told.even, told.pixels, told.doubts];
  return el("tr", {}, name, ...cells.map((cell) => el("td", {}, cell)));
}
