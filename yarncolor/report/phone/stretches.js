// Strands side by side, from where a yarn begins: lengths over which none of them changes.

import { lengthOf } from "./singles.js";

const WHOLE = 1e9; // edges are whole billionths of the yarn, compared exactly
const HALF_UP = 0.5 + 1e-5;

const ends = (single) => {
  let at = 0;
  return single.map(({ m }) => (at += m));
};

// The yarn of some strands: `edges` in metres, from 0; `lots` of each strand between them.
export function stretches(strands, lost) {
  const shortest = Math.min(...strands.map(lengthOf));
  const edges = strands.map((single) =>
    ends(single).map((m) => Math.floor(Math.min((m / shortest) * WHOLE + HALF_UP, WHOLE))),
  );
  const at = strands.map(() => 0);
  const yarnM = shortest * (1 - lost);
  const found = { edges: [0], lots: [] };
  for (const end of [...new Set(edges.flat())].toSorted((one, other) => one - other)) {
    const lots = strands.map((single, k) => single[Math.min(at[k], single.length - 1)].lot);
    at.forEach((piece, k) => {
      while (edges[k][at[k]] <= end) at[k] += 1;
    });
    if (end <= 0) continue;
    const goesOn = found.lots.at(-1)?.every((lot, k) => lot === lots[k]);
    if (goesOn) found.edges.pop();
    else found.lots.push(lots);
    found.edges.push((end / WHOLE) * yarnM);
  }
  return found;
}

// The three strands of a single that is looped through itself, each loop of three thirds.
export function foldedInThree(single, loopM) {
  const edges = [0, ...ends(single)];
  const wholeM = edges.at(-1);
  const loops = Math.max(1, Math.ceil((wholeM / (3 * loopM)) * (1 - 1e-12)));
  const third = wholeM / (3 * loops);
  const places = [0, wholeM / 3];
  for (const edge of edges) {
    const loop = Math.min(Math.max(Math.floor(edge / (3 * third)), 0), loops - 1);
    const within = edge - 3 * third * loop;
    places.push(loop * third, (loop + 1) * third, loop * third + Math.abs(within < third ? within : within - 2 * third));
  }
  const at = [...new Set(places)].toSorted((one, other) => one - other);
  const lotAt = (m) => single[Math.min(edges.findLastIndex((edge) => edge <= m), single.length - 1)].lot;
  const strands = [[], [], []];
  for (let n = 1; n < at.length; n += 1) {
    const middle = (at[n] + at[n - 1]) / 2;
    const loop = Math.floor(middle / third);
    const t = middle - loop * third;
    [t, 2 * third - t, 2 * third + t].forEach((along, k) => {
      strands[k].push({ lot: lotAt(along + 3 * third * loop), m: at[n] - at[n - 1] });
    });
  }
  return strands;
}
