// One thing at a time: weigh this, spin it, stop and weigh, say what became of a row.

import { button, chip, el, named } from "./element.js";
import { numberField } from "./fields.js";
import { afterBeside, expected, isAllSaid, isToWeigh, lying, massOf, rowOf, wentIn } from "./lying.js";
import { measuresOf } from "./measures.js";
import { addExtra, leaveOut, pass, set, spinNext, tick, undo } from "./noting.js";
import { offBy, weightOf, wrongReading } from "./scales.js";

const line = (words, look = null) => el("p", { class: look }, words);

// A weight in large type.
const large = (plan, words) =>
  el("p", { class: "grams" }, words, el("small", {}, ` ${measuresOf(plan).mass.unit}`));

// The step that a bobbin is at, and what can be done about it.
export function spinView(at) {
  const found = lying(at.plan, at.held.entries, at.ply);
  const step = stepOf(at.plan, found)(at, found);
  return { inside: step.inside, actions: [...doneLine(at, found), ...step.actions] };
}

function stepOf(plan, found) {
  if (isToWeigh(plan, found)) return weighStep;
  if (found.unsaid.length) return askStep;
  if (found.beside.length) return besideStep;
  return found.next ? pieceStep : endStep;
}

function doneLine(at, { last }) {
  if (!last) return [];
  const piece = last.did === "without" ? "The piece beside the rows" : "A piece too many";
  const place = last.row === null ? piece : `Row ${last.row}`;
  const isSpun = last.did === "spun";
  const what = isSpun ? `${measuresOf(at.plan).weight(massOf(at.plan, last))} spun` : "left out";
  const words = el("span", {}, `${place}, `, named(wentIn(at.plan, last)), `, ${what}`);
  const back = button("Undo", () => at.note((held) => undo(held, last)), "small");
  return [el("div", { class: "done" }, words, back)];
}

const heading = (lot, words) => [
  el("p", { class: "lead" }, words),
  chip(lot, "chip large"),
  el("h2", {}, named(lot.name)),
];

function weighNow(at, row) {
  if (row.heap === undefined) return { words: "Weigh", grams: row.weigh, more: [row.words] };
  const [, heap, words] = at.plan.plies[at.ply - 1].heaps[row.heap];
  if (row.piece > 0) return { words: "From its heap", grams: "", more: [row.words] };
  const more = heap ? [`a heap: ${words}`, `spin ${row.words}`] : [words];
  return { words: heap ? "Weigh once, as a heap" : "Take", grams: heap, more };
}

function pieceStep(at, found) {
  const { number, row } = found.next;
  const lot = at.plan.lots[row.lot];
  const now = weighNow(at, row);
  const inside = [
    row.heading && line(row.heading, "time"),
    row.before && line(row.before, "aside"),
    ...heading(lot, now.words),
    now.grams && large(at.plan, now.grams),
    ...(row.full ?? []).map((words) => line(words, "aside")),
    ...now.more.map((words) => line(words, "words")),
    row.meant && line(row.meant, "aside"),
    bobbinLine(at, found),
    thenLine(at, found, number),
  ];
  const { plan, ply } = at;
  return {
    inside,
    actions: [
      button("Spun", () => at.note((held) => tick(plan, held.entries, ply, number)), "main"),
      button("Something else", () => at.open({ number })),
    ],
  };
}

// A piece that was decided beside the rows, to put right what is missing.
function besideStep(at, found) {
  const [piece] = found.beside;
  const lot = at.plan.lots[piece.lot];
  const spun = (held) => addExtra(held, at.ply, { lot: lot.name, mass_g: piece.mass_g });
  return {
    inside: [
      ...heading(lot, "Weigh"),
      large(at.plan, piece.weigh),
      line("a piece beside the rows, as decided", "words"),
      thenWeighs(at, afterBeside(found, 1)),
    ],
    actions: [
      button("Spun", () => at.note(spun), "main"),
      button("Something else", () => at.open({ part: "extra", beside: { ...piece, lot: lot.name } })),
    ],
  };
}

function bobbinLine(at, { on, next }) {
  if (next.row.bobbin <= on.bobbin || next.row.full) return null;
  const tare = at.plan.plies[at.ply - 1].tares[next.row.bobbin - 1];
  const empty = tare ? `, empty ${tare} ${measuresOf(at.plan).mass.unit}` : "";
  return line(`Take its bobbin number ${next.row.bobbin}${empty}.`, "aside");
}

const thenLine = (at, found, number) => thenWeighs(at, expected(found, number));

function thenWeighs(at, on) {
  const { tare, shown } = weightOf(at.plan, at.ply, on);
  const more = tare === null ? " of single on the bobbin" : " with the bobbin";
  return el("p", { class: "then" }, "Then ", el("b", {}, `${shown} ${measuresOf(at.plan).mass.unit}`), more);
}

function weighStep(at, found) {
  const { last, on } = found;
  const { plan, ply } = at;
  const weight = weightOf(plan, ply, onWithoutReading(plan, found));
  const known = weight.tare !== null;
  const parts = `${weight.tare} + ${weight.net} ${measuresOf(plan).mass.unit} of single`;
  const inside = [
    el("h2", {}, found.next || found.unsaid.length ? "Stop and weigh" : "All spun: weigh"),
    line(at.plan.caution, "quiet"),
    large(plan, weight.shown),
    line(known ? parts : "of single, and your empty bobbin beside it", "words"),
    known && readingField(at, last, on.bobbin, weight.shown),
    rowOf(plan, last).after && line(rowOf(plan, last).after, "aside"),
    !known && line("To note what it weighs, give the empty bobbins in the plan.", "quiet"),
  ];
  const onward = button("Go on", () => at.note((held) => pass(held, at.fresh(held, last))), "main");
  return { inside: inside.filter(Boolean), actions: [onward] };
}

// What should be on the bobbin by what was weighed out, whatever this reading says.
function onWithoutReading(plan, { spun, last }) {
  const entries = spun.map((entry) => (entry === last ? { ...entry, gross_g: undefined } : entry));
  return lying(plan, entries, last.ply).on;
}

function readingField(at, entry, bobbin, shown) {
  const { mass } = measuresOf(at.plan);
  return numberField({
    label: "It weighs",
    measure: mass,
    key: "gross_g",
    value: entry.gross_g,
    hint: `${shown} ${mass.unit} is expected`,
    tells: offBy(at.plan, shown),
    wrong: wrongReading(at.plan, at.held.entries, at.ply, bobbin, entry),
    keep: (value) =>
      at.keep((held) => set(held, at.fresh(held, entry), "gross_g", value)),
  });
}

function askStep(at, found) {
  const [{ number, row }] = found.unsaid;
  const { plan, ply } = at;
  const say = (words, how, look) =>
    button(words, () => at.note((held) => how(plan, held.entries, ply, number)), look);
  return {
    inside: [
      ...heading(plan.lots[row.lot], `Row ${number} is not ticked, and later ones are`),
      line("What became of it?", "words"),
    ],
    actions: [
      say("Spun in its place", tick, "main"),
      say("Spin it next", spinNext),
      say("Leave it out", leaveOut),
    ],
  };
}

function endStep(at) {
  const { plan } = at;
  const waits = plan.plies.findIndex(
    (_, k) => !isAllSaid(plan, lying(plan, at.held.entries, k + 1)),
  );
  const inside = [el("p", { class: "lead" }, "Nothing left to spin here"), el("h2", {}, "All spun")];
  const onward =
    waits < 0
      ? button("On to plying", () => at.go("ply"), "main")
      : button(`On to ${plan.plies[waits].short}`, () => at.turn(waits + 1), "main");
  return { inside, actions: [onward, button("A piece too many", () => at.open({ part: "extra" }))] };
}
