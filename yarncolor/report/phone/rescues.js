// When a single runs out: what can still be made of what the others have left. Each kind is a
// function from what is left to yarns; lengths are metres of single from where the first ran out.

import { between, byLot, lengthOf, longer, turned } from "./singles.js";
import { foldedInThree, stretches } from "./stretches.js";
import { inLine } from "./ended.js";

const SAME = 1e-8; // parts of the yarn by which a single that has run out may seem longer
const WORTH = 0.005; // part of the yarn that is left before anything is offered for it
const NOTHING_G = 1e-9;

// What every single has left where the first runs out; with `wrong` alone where none can have.
export function runOut(plan, singles, ended) {
  const { contraction, contractions, has_g: has } = plan.ran_out;
  const reckoned = { singles, lost: contraction, lostEach: contractions };
  const found = ended ? inLine(reckoned, { ...ended, ply: ended.ply - 1 }) : reckoned;
  if (found.wrong) return found;
  const counts = found.lostEach.map((share) => (1 - share) / (1 - found.lost));
  const whole = found.singles.map((single, k) => longer(single, counts[k]));
  const usedM = Math.min(...whole.map(lengthOf));
  const left = whole.map((single) => between(single, usedM, lengthOf(single)));
  const leftM = left.map(lengthOf).map((m) => (m <= SAME * usedM ? 0 : m));
  const spun = byLot(whole, has.length);
  return {
    ...found,
    counts,
    usedM,
    left,
    leftM,
    lots: has.length,
    endedOn: whole.map((single) => between(single, 0, usedM).at(-1).lot),
    ended: leftM.flatMap((m, k) => (m === 0 ? [k] : [])),
    going: leftM.flatMap((m, k) => (m === 0 ? [] : [k])),
    fullest: leftM.findIndex((m) => m >= Math.max(...leftM) - SAME * usedM),
    spare: has.map((g, lot) => g * (1 - plan.spin_loss) - spun[lot]),
    tex: plan.plies.map(({ tex }, k) => tex / counts[k]),
    loopM: plan.ran_out.loop_m,
    kept: 1 - plan.spin_loss,
    fact: found.ended ?? null,
  };
}

const beyond = (out, usedM) =>
  new Map(out.going.map((k) => [k, [between(out.left[k], usedM, lengthOf(out.left[k]))]]));

function plied(kind, singleM, rests, out) {
  const plies = [...rests.keys()].toSorted((one, other) => one - other);
  const strands = plies.map((k) => between(rests.get(k), 0, singleM));
  return { kind, singleM, plies, strands, over: beyond(out, singleM), spins: [], joined: [] };
}

const goingOn = (out, more = []) => new Map([...out.going.map((k) => [k, out.left[k]]), ...more]);

const shortest = (out) => Math.min(...out.going.map((k) => out.leftM[k]));

function fewerPlies(out) {
  return out.going.length > 1 ? [plied("fewer_plies", shortest(out), goingOn(out), out)] : [];
}

// The fullest goes twice into the yarn, as far as all going plies reach.
const doubledM = (out) => Math.min(lengthOf(out.left[out.fullest]) / 2, shortest(out));

function spliced(kind, singleM, far, over, out) {
  const [ended] = out.ended;
  const found = plied(kind, singleM, goingOn(out, [[ended, far]]), out);
  found.over.set(out.fullest, over);
  found.joined = [[out.endedOn[ended], far[0].lot]];
  return found;
}

function fold(out) {
  if (out.ended.length !== 1) return [];
  const [rest, m] = [out.left[out.fullest], doubledM(out)];
  return [spliced("fold", m, turned(rest), [between(rest, m, lengthOf(rest) - m)], out)];
}

function halves(out) {
  if (out.ended.length !== 1) return [];
  const [rest, m] = [out.left[out.fullest], doubledM(out)];
  const half = lengthOf(rest) / 2;
  const far = between(rest, half, lengthOf(rest));
  return [spliced("halves", m, far, [between(rest, m, half), between(far, m, half)], out)];
}

const without = (out, ply) => new Map([...beyond(out, 0)].filter(([k]) => k !== ply));

function alone(kind, parts, strands, out) {
  const singleM = lengthOf(out.left[out.fullest]) / parts;
  const plies = Array.from({ length: parts }, () => out.fullest);
  return { kind, singleM, plies, strands, over: without(out, out.fullest), spins: [], joined: [] };
}

function bothEnds(out) {
  const rest = out.left[out.fullest];
  const half = lengthOf(rest) / 2;
  return [alone("both_ends", 2, [between(rest, 0, half), between(turned(rest), 0, half)], out)];
}

const chain = (out) => [alone("chain", 3, foldedInThree(out.left[out.fullest], out.loopM), out)];

// More spun for what ended: of the lot it ended on; of the lot with most to spare.
function topUp(out) {
  const most = out.spare.indexOf(Math.max(...out.spare));
  const ways = [(k) => out.endedOn[k], ...(out.ended.every((k) => out.endedOn[k] === most) ? [] : [() => most])];
  return ways.map((lotOf) => toppedUp(out, out.ended.map((k) => [k, lotOf(k)])));
}

function toppedUp(out, spins) {
  const takes = new Map();
  for (const [k, lot] of spins) takes.set(lot, (takes.get(lot) ?? 0) + out.tex[k] / 1000);
  const spare = [...takes].map(([lot, gPerM]) => Math.max(out.spare[lot], 0) / gPerM);
  const m = Math.min(shortest(out), ...spare);
  const spun = spins.map(([k, lot]) => [k, [{ lot, m, tex: out.tex[k] }]]);
  const found = plied("top_up", m, goingOn(out, spun), out);
  found.spins = spins;
  found.joined = spins.map(([k, lot]) => [out.endedOn[k], lot]);
  return found;
}

const keep = (out) => [
  { kind: "keep", singleM: 0, plies: [], strands: [], over: beyond(out, 0), spins: [], joined: [] },
];

const KINDS = [fewerPlies, fold, halves, bothEnds, chain, topUp, keep];

// Every yarn that can still be made: as many plies first, the longest first of those; none where
// hardly anything is left.
export function rescues(out) {
  if (!out.leftM.some((m) => m > WORTH * out.usedM)) return [];
  const rank = ({ plies, singleM }) => [
    plies.length ? 0 : 1,
    plies.length === out.left.length ? 0 : 1,
    -Number((singleM / out.usedM).toFixed(9)),
  ];
  return KINDS.flatMap((make) => make(out))
    .filter(({ singleM, plies }) => singleM > SAME * out.usedM || !plies.length)
    .map((one) => [rank(one), one])
    .toSorted(([one], [other]) => one.reduce((order, value, at) => order || value - other[at], 0))
    .map(([, one]) => asYarn(out, one));
}

function asYarn(out, one) {
  const along = one.plies.length ? stretches(one.strands, out.lost) : null;
  return {
    ...one,
    along,
    extraM: along ? along.edges.at(-1) : 0,
    over: [...one.over].toSorted(([k], [other]) => k - other).flatMap(([ply, rests]) => onPly(out, ply, rests)),
    needs: one.spins.map(([ply, lot]) => ({ ply, lot, massG: (one.singleM * out.tex[ply]) / 1000 / out.kept })),
    isSame: one.joined.length ? one.joined.every(([from, to]) => from === to) : null,
  };
}

const onPly = (out, ply, rests) =>
  byLot(rests, out.lots)
    .map((g, lot) => ({ ply, lot, massG: g / out.kept }))
    .filter(({ massG }) => massG > NOTHING_G);
