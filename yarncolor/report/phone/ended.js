// A single that came to its end while plying: every length brought into line with that.

import { lengthOf, longer } from "./singles.js";

const NEAR = 1e-9; // parts of a single that are nothing
const LEAST_LOST = -0.2;
const MOST_LOST = 0.6;

const isAll = (single) => single.every(({ measured }) => measured);

// The singles in line with an end, what is then lost in plying, and what that tells; or only
// `wrong`: which misfit, and the metres between which an end may lie.
export function inLine({ singles, lost, lostEach }, { ply, at_m: atM }) {
  const reckoned = singles.map(lengthOf);
  const tells = isAll(singles[ply]);
  const kept = tells ? singles.map(() => atM / reckoned[ply]) : lostEach.map((share) => 1 - share);
  const wrong = misfit(singles, reckoned, ply, atM, kept);
  if (wrong) return { wrong };
  const needs = kept.map((share) => atM / share);
  const also = reckoned.flatMap((m, k) => (k !== ply && m < needs[k] * (1 - NEAR) ? [k] : []));
  const scaled = tells ? also : [ply, ...also];
  const own = singles.map((single, k) => (scaled.includes(k) ? asLong(single, needs[k]) : single));
  const ended = { ply, atM, reckonedM: reckoned[ply], singleM: needs[ply], tells, also };
  const found = tells ? { lost: 1 - kept[ply], lostEach: kept.map((share) => 1 - share) } : { lost, lostEach };
  return { singles: own, ...found, ended };
}

function misfit(singles, reckoned, ply, atM, kept) {
  const measuredM = lengthOf(singles[ply].filter(({ measured }) => measured));
  let [kind, least, most] = ["measured", measuredM * kept[ply] * (1 + 2 * NEAR), Infinity];
  if (isAll(singles[ply]))
    [kind, least, most] = ["lost", measuredM * (1 - MOST_LOST), measuredM * (1 - LEAST_LOST)];
  if (atM < least * (1 - NEAR) || atM > most * (1 + NEAR)) return { kind, least, most };
  const reach = Math.max(...reckoned.map((m, k) => (k === ply ? 0 : m * kept[k])));
  return atM > reach * (1 + NEAR) ? { kind: "beyond", least: 0, most: reach } : null;
}

// So long in all, with the same grams; measured pieces keep their metres where others are.
function asLong(single, wholeM) {
  const keeps = ({ measured }) => measured && !isAll(single);
  const keptM = lengthOf(single.filter(keeps));
  const share = (wholeM - keptM) / lengthOf(single.filter((piece) => !keeps(piece)));
  return single.flatMap((piece) => (keeps(piece) ? [piece] : longer([piece], share)));
}
