// Lengths of single, as pieces of one lot each: { lot, m, tex, measured }. What lies on a bobbin by
// what was noted, then all that is still to spin, as they come off.

import { lying, massOf, rowOf, wentIn } from "./lying.js";

const NOTHING = 1e-9; // parts of a length that are nothing

export const lengthOf = (single) => single.reduce((sum, { m }) => sum + m, 0);
export const turned = (single) => single.toReversed();

// What lies between two places of a single, from the end that comes off first.
export function between(single, startM, endM) {
  const least = NOTHING * lengthOf(single);
  let at = 0;
  return single.flatMap((piece) => {
    const from = Math.max(at, startM);
    at += piece.m;
    const m = Math.min(at, endM) - from;
    return m > least ? [{ ...piece, m }] : [];
  });
}

export const longer = (single, by) =>
  single.map((piece) => ({ ...piece, m: piece.m * by, tex: piece.tex / by }));

const gramsOn = ({ m, tex }) => (m * tex) / 1000;

// Grams of single of each lot.
export function byLot(singles, lots) {
  const found = Array.from({ length: lots }, () => 0);
  for (const piece of singles.flat()) found[piece.lot] += gramsOn(piece);
  return found;
}

// Every single of a plan whole, as it comes off its bobbin.
export const singlesOf = (plan, entries) =>
  plan.ran_out.singles.map((own, k) => {
    const { spun, beside, rows, next } = lying(plan, entries, k + 1);
    const waiting = rows.filter(({ did }) => did === "to spin");
    const first = next ? [next, ...waiting.filter((row) => row !== next)] : [];
    const pieces = [
      ...spun.map((entry) => ofEntry(plan, own, entry)),
      ...beside.map(({ lot, number }) => asPiece(plan, k, lot, own.beside[number])),
      ...first.map(({ row, number }) => asPiece(plan, k, row.lot, own.rows[number - 1])),
    ];
    return own.turned ? pieces : pieces.toReversed();
  });

function asPiece(plan, k, lot, said, measured = false) {
  const [m, tex] = Array.isArray(said) ? said : [said, plan.plies[k].tex];
  return { lot, m, tex, measured };
}

const lotAt = (plan, name) => plan.lots.findIndex((lot) => lot.name === name);

function ofEntry(plan, own, entry) {
  const k = entry.ply - 1;
  const lot = lotAt(plan, wentIn(plan, entry));
  if (entry.from) return asPiece(plan, k, lot, ...own.lies[givenAt(plan, entry)]);
  const row = rowOf(plan, entry);
  const isPlain = row && !entry.mass_g && !entry.length_m && entry.was[1] === row.put_g;
  if (isPlain) return asPiece(plan, k, lot, own.rows[entry.row - 1]);
  const single = massOf(plan, entry) * (1 - plan.spin_loss) * 1000;
  const m = entry.length_m || single / plan.plies[k].tex;
  return asPiece(plan, k, lot, [m, single / m], Boolean(entry.length_m));
}

// Which of the pieces of its ply, as the plan file says them.
const givenAt = (plan, { ply, row, from }) =>
  plan.spun.filter((given) => given.ply === ply).findIndex((given) => given.from === from && given.row === row);
