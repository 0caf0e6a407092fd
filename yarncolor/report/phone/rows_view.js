// All rows of a bobbin: a tick and a name each, and what was noted of it one touch away.

import { button, el, lotLine } from "./element.js";
import { isTouched, lying, massOf } from "./lying.js";
import { measuresOf } from "./measures.js";
import { addExtra, tick, undo } from "./noting.js";

const SIGNS = { spun: "✓", out: "–", off: "–", unsaid: "?", "to spin": "" };
const WORDS = {
  spun: "spun",
  out: "left out",
  off: "not to be spun any more",
  unsaid: "not ticked",
  "to spin": "to spin",
};

export function rowsView(at) {
  const found = lying(at.plan, at.held.entries, at.ply);
  const items = found.rows.flatMap((row) => [
    row.row.heading && el("li", { class: "time" }, row.row.heading),
    ...(row === found.next ? besideItems(at, found) : []),
    rowItem(at, row),
    ...extrasAfter(found, row.number).map((entry) => extraItem(at, entry)),
  ]);
  const last = found.next ? [] : besideItems(at, found);
  const first = extrasAfter(found, null).map((entry) => extraItem(at, entry));
  return {
    inside: [el("ol", { class: "list" }, first, items.filter(Boolean), last)],
    actions: [button("A piece too many", () => at.open({ part: "extra" }))],
  };
}

// Extra pieces that lie right behind a row's, or before all.
function extrasAfter({ spun }, number) {
  const found = [];
  let behind = null;
  for (const entry of spun) {
    if (entry.row !== null) behind = entry.row;
    else if (behind === number) found.push(entry);
  }
  return found;
}

function rowItem(at, { number, row, entry, did }) {
  const { plan, ply } = at;
  const isSpun = did === "spun";
  const lot = plan.lots.find(({ name }) => name === entry?.lot) ?? plan.lots[row.lot];
  const { mass, onScale } = measuresOf(plan);
  const shown = isSpun || isTouched(entry ?? {}) ? onScale(massOf(plan, entry)) : row.weigh;
  const turn = (held) =>
    isSpun ? undo(held, entry) : tick(plan, held.entries, ply, number);
  const box = button(SIGNS[did], () => at.note(turn), "tick", {
    role: "checkbox",
    "aria-checked": String(isSpun),
    "aria-label": `Row ${number}, ${lot.name}, spun`,
  });
  const words = `${shown ? `${shown} ${mass.unit}` : "of its heap"}, ${WORDS[did]}`;
  const more = button("", () => at.open({ number }), "more");
  more.append(
    el("span", { class: "number" }, String(number)),
    el("span", { class: "what" }, lotLine(lot), el("span", { class: "quiet" }, words)),
  );
  return el("li", { class: isSpun ? "is-spun" : null }, box, more);
}

// Pieces decided beside the rows, before the row that is next.
function besideItems(at, { beside }) {
  const { unit } = measuresOf(at.plan).mass;
  return beside.map((piece) => {
    const lot = at.plan.lots[piece.lot];
    const spun = { lot: lot.name, mass_g: piece.mass_g };
    const box = button("", () => at.note((held) => addExtra(held, at.ply, spun)), "tick", {
      role: "checkbox",
      "aria-checked": "false",
      "aria-label": `The piece beside the rows, ${lot.name}, spun`,
    });
    const words = el("span", { class: "quiet" }, `${piece.weigh} ${unit}, a piece beside the rows, to spin`);
    const what = el("span", { class: "what" }, lotLine(lot), words);
    return el("li", { class: "is-extra" }, box, el("div", { class: "more" }, what));
  });
}

function extraItem(at, entry) {
  const lot = at.plan.lots.find(({ name }) => name === entry.lot);
  const grams = massOf(at.plan, entry);
  const away = button("✕", () => at.note((held) => undo(held, entry)), "tick", {
    "aria-label": `Take away the piece too many, ${lot.name}`,
  });
  const words = `a piece too many${grams ? `, ${measuresOf(at.plan).weight(grams)}` : ""}`;
  const what = el("span", { class: "what" }, lotLine(lot), el("span", { class: "quiet" }, words));
  return el("li", { class: "is-extra" }, away, el("div", { class: "more" }, what));
}
