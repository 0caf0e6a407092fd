// A new version of the plan meets what the phone has kept: nothing is dropped, and what no longer
// agrees is said.

import { agrees, rowOf } from "./lying.js";

const SAID = ["lot", "mass_g", "length_m", "sample_m", "sample_g", "gross_g"];

const alike = (one, other) => SAID.every((key) => (one[key] ?? null) === (other[key] ?? null));
const isSame = (given) => (entry) =>
  entry.ply === given.ply &&
  entry.row === given.row &&
  entry.did === "spun" &&
  (given.row !== null || alike(entry, given));

// Whether a row that was ticked as it was then, and is another lot's by now, is what the file says.
const isSameFibre = (entry, given) =>
  given.row !== null &&
  entry.was[0] !== given.was[0] &&
  given.lot === (entry.lot ?? entry.was[0]) &&
  SAID.every((key) => key === "lot" || entry[key] === undefined);

// Puts in what the plan file says was spun; of one thing said differently the phone's stays.
export function bringIn(plan, held) {
  let after = 0;
  for (const given of plan.spun) {
    const known = knownOf(held, given);
    if (!known && held.gone.includes(given.from)) continue;
    const isOther = known && !known.from && !alike(known, given) && !isSameFibre(known, given);
    if (isOther) held.gone.push(given.from);
    else if (known) takeFrom(given, known);
    const entry = known ?? { ...given };
    if (!known) held.entries.splice(after, 0, entry);
    after = held.entries.indexOf(entry) + 1;
  }
  if (plan.plied && held.plied.so_far_m === null) held.plied.so_far_m = plan.plied.so_far_m;
  if (plan.plied?.ended && !held.plied.ended) held.plied.ended = plan.plied.ended;
}

// A row is one entry, however it was changed at home; of pieces alike each is its own.
const knownOf = ({ entries }, given) => {
  const same = entries.filter(isSame(given));
  const own = same.find((entry) => !entry.from);
  return same.find(({ from }) => from === given.from) ?? own ?? (given.row ? same[0] : undefined);
};

function takeFrom(given, entry) {
  for (const key of SAID) delete entry[key];
  Object.assign(entry, given);
}

// What was ticked and the plan has no more, or has otherwise.
export const strays = (plan, entries) =>
  entries.filter((entry) => entry.did && !agrees(plan, entry));

// Rows that agree but weigh otherwise in this version: what was weighed then stands.
export const weighedOtherwise = (plan, entries) =>
  entries.filter((entry) => {
    if (entry.did !== "spun" || entry.row === null || !agrees(plan, entry)) return false;
    return entry.was[1] !== rowOf(plan, entry).put_g;
  });

// What a stray entry is in this version, as the spinner says: its row, or an extra piece.
export function isThatRow(plan, entry) {
  const row = rowOf(plan, entry);
  const [lot, putG] = entry.was;
  Object.assign(entry, { lot: entry.lot ?? lot, mass_g: entry.mass_g ?? putG });
  entry.was = [plan.lots[row.lot].name, row.put_g];
}

export function isExtra(entry) {
  const [lot, putG] = entry.was;
  Object.assign(entry, { row: null, lot: entry.lot ?? lot, mass_g: entry.mass_g ?? putG });
}
