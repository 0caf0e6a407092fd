// What was otherwise with a row: first what it is, then one thing to type.

import { button, el, lotLine } from "./element.js";
import { extraSheet } from "./extra_view.js";
import { lying } from "./lying.js";
import { entryOf, leaveOut, set, spinNext, tick, undo } from "./noting.js";
import { hasTare, partsOf } from "./parts.js";

const back = (at, to, words = "Back") => button(words, () => at.open(to), "main");
const choice = (words, now, onclick) => {
  const made = button("", onclick, "choice");
  made.append(el("b", {}, words), el("span", { class: "quiet" }, now));
  return made;
};

// A row as it stands, and how what is typed of it is kept.
function about(at, number) {
  const { plan, ply } = at;
  const found = lying(plan, at.held.entries, ply);
  const { row, entry = {}, did } = found.rows[number - 1];
  const keep = (key) => (value) =>
    at.keep((held) => set(held, entryOf(plan, held.entries, ply, number), key, value));
  const kept = (key) => ({ key, value: entry[key], keep: keep(key) });
  return { at, found, number, row, entry, did, kept };
}

const titleOf = ({ at, number, row }) => [
  el("h2", {}, `Row ${number}`),
  el("p", { class: "words" }, lotLine(at.plan.lots[row.lot])),
];

export function rowSheet(at, number) {
  const one = about(at, number);
  const parts = Object.entries(partsOf(at.plan)).filter(([part]) => part !== "scale" || hasTare(one));
  return {
    inside: [
      ...titleOf(one),
      ...standing(one),
      ...parts.map(([part, { words, now }]) =>
        choice(words, now(one), () => at.open({ number, part })),
      ),
      choice("A piece too many", "not in the plan", () => at.open({ part: "extra" })),
    ],
    actions: [back(at, null)],
  };
}

export function partSheet(at, { number, part, beside }) {
  if (part === "extra") return extraSheet(at, beside);
  const one = about(at, number);
  const inside = [...titleOf(one), ...partsOf(at.plan)[part].fields(one)];
  return { inside, actions: [back(at, { number }, "Done")] };
}

// Spun, left out or not yet, with the way to say otherwise.
function standing({ at, number, did, entry }) {
  const { plan, ply } = at;
  const say = (words, now, how) =>
    choice(words, now, () => at.note((held) => how(plan, held.entries, ply, number), null));
  if (did === "spun" || entry.did === "out") {
    const now = did === "spun" ? "it is spun" : "it is left out";
    return [choice("Undo", now, () => at.note((held) => undo(held, entry), null))];
  }
  const late = did === "unsaid" || did === "out" ? [say("It is spun next", "after what is spun", spinNext)] : [];
  return [say("It is spun", "", tick), ...late, say("It is left out", "", leaveOut)];
}
