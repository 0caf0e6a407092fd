// When a single runs out, in words: what each way is called, what it comes to, what the hands do.
// The sentences are the plan's; here they are filled in.

import { fixed } from "./numbers.js";
import { measuresOf } from "./measures.js";
import { capital, inRow, say, text } from "./sentences.js";
import { lengthOf } from "./singles.js";
import { ringRadius } from "./ring.js";

const TOGETHER = 1e-4;
const INCH = 0.0254; // in metres
const SAME = 0.001; // a single that is longer or shorter by less than this part is as reckoned

// Whoever fills in: the plan's words, and its ways to say lengths, weights and plies.
export function speaker(plan) {
  const { words, about, step_g: stepG, less } = plan.ran_out;
  const { length, grist, long, weight } = measuresOf(plan);
  const ply = (k) => say(words.ply, { ply: String(k + 1) });
  return {
    plan,
    words,
    length,
    about: (m) => `${about}${long(m)}`,
    metres: long,
    isSeen: (g) => g > stepG / 2,
    grams: (g) => (g > stepG / 2 ? weight(g) : less),
    grist: (tex) => grist.number(perHundred(tex), 0),
    lot: (at) => ({ name: plan.lots[at].name }),
    ply,
    plies: (each) => inRow(each.map(ply)),
  };
}

const distinct = (rows) => [...new Map(rows.map((row) => [row.join(), row])).values()];

// Which of the plies that go on run out first, all of those that do.
function runsOut({ words, plies }, out) {
  const left = out.going.map((k) => out.leftM[k]);
  const least = Math.min(...left) * (1 + TOGETHER);
  const first = out.going.filter((k) => out.leftM[k] <= least);
  return say(words[first.length > 1 ? "run_out" : "runs_out"], { plies: plies(first) });
}

function usedUp(by, out, one) {
  const most = Math.min(...out.going.map((k) => out.leftM[k]));
  return one.singleM >= most * (1 - TOGETHER) ? runsOut(by, out) : [by.words.used_up];
}

function meets({ words, lot }, one) {
  const met = distinct(one.joined).map(([left, right]) =>
    say(words[left === right ? "both_are" : "meets"], { left: lot(left), right: lot(right) }),
  );
  return inRow(met);
}

function needs({ words, lot, ply, grams }, one) {
  const each = one.needs.map((need) =>
    say(words.need, { mass: grams(need.massG), lot: lot(need.lot), ply: ply(need.ply) }),
  );
  return inRow(each);
}

const perHundred = (tex) => 100000 / tex;

// Linear density of what is left of a ply, as it was spun.
function meanTex(out, k) {
  const single = out.left[k];
  const grams = single.reduce((sum, { m, tex }) => sum + m * tex, 0);
  return (grams / lengthOf(single)) * out.counts[k];
}

const sum = (values) => values.reduce((all, value) => all + value, 0);

// How another number of plies changes the yarn: its grist, its twist, what it loses.
function twist({ plan, words, grist }, out, one) {
  if (one.plies.length === out.left.length) return [words.as_thick];
  const { tex: before, density, ply_twist_tpm: twistTpm } = plan.ran_out;
  const now = one.plies.map((k) => meanTex(out, k));
  const [nowTex, thenTex] = [now, before].map((tex) => sum(tex) / (1 - out.lost));
  const turns = (tpm) => say(words.turns, { turns: fixed(tpm * INCH, 1) });
  const wanted = () => (twistTpm * ringRadius(before, density)) / ringRadius(now, density);
  const wants = twistTpm === null ? [] : say(words.wants, { now: turns(wanted()), had: turns(twistTpm) });
  return say(words.other, {
    thick: words[nowTex < thenTex ? "thinner" : "thicker"],
    now: grist(nowTex),
    had: grist(thenTex),
    wants,
    less: words[one.plies.length < out.left.length ? "less" : "more"],
  });
}

const SLOTS = {
  full: (by, out) => by.ply(out.fullest),
  ended: (by, out) => by.plies(out.ended),
  going: (by, out) => inRow(out.going.map((k) => String(k + 1))),
  left: (by, out) => by.about(leftOf(out, out.fullest)),
  half: (by, out) => by.about(leftOf(out, out.fullest) / 2),
  loop: (by, out) => by.metres(out.loopM),
  single: (by, out, one) => by.about(one.singleM),
  comes_first: (by, out) => by.lot(out.left[out.fullest][0].lot),
  spun: (by, out, one) => inRow([...new Set(one.needs.map(({ lot }) => lot))].map(by.lot)),
  needs: (by, out, one) => needs(by, one),
  runs_out: (by, out) => runsOut(by, out),
  used_up: usedUp,
  meets: (by, out, one) => meets(by, one),
  begins: (by, out, one) => inRow([...new Set(one.along.lots[0])].map(by.lot)),
  twist,
};

// Metres that a single has left on its bobbin.
const leftOf = (out, k) => out.leftM[k] / out.counts[k];

function filled(sentence, by, out, one) {
  const slots = [...sentence.matchAll(/\{(\w+)\}/g)].map(([, slot]) => slot);
  return say(sentence, Object.fromEntries(slots.map((slot) => [slot, SLOTS[slot](by, out, one)])));
}

export const nameOf = (by, out, one) => filled(by.plan.ran_out.names[one.kind], by, out, one);

export const handsOf = (by, out, one) =>
  by.plan.ran_out.hands[one.kind].map((line) => filled(line, by, out, one));

function over({ words, lot, grams, isSeen }, one) {
  const whole = new Map();
  for (const { lot: at, massG } of one.over.filter((part) => isSeen(part.massG)))
    whole.set(at, (whole.get(at) ?? 0) + massG);
  if (!whole.size) return [words.hardly_over];
  const told = [...whole].map(([at, g]) => say(words.over, { mass: grams(g), lot: lot(at) }));
  return say(words[told.length > 1 ? "stay" : "stays"], { over: inRow(told) });
}

// What a rescue comes to: metres, plies, splices, colours there, what stays over.
export function worthOf(by, out, one) {
  const { words } = by;
  const parts = one.plies.length ? yarnOf(by, out, one) : [[words.nothing]];
  return [...parts, over(by, one)].flatMap((part, at) => (at ? ["; ", ...part] : part));
}

// Its metres; of another number of plies always about, for it loses otherwise in plying.
export const lengthSaid = ({ about, metres }, out, { plies, extraM }) =>
  plies.length === out.left.length ? about(extraM) : `about ${metres(extraM)}`;

function yarnOf(by, out, one) {
  const { words } = by;
  const count = one.plies.length;
  const plied = words[`plied${count}`] ?? text(say(words.plied, { plies: String(count) }));
  const joins = one.joined.length;
  const agree = words[one.isSame ? "agree" : "disagree"];
  const splices = say(words[joins > 1 ? "splices" : "splice"], { count: String(joins), agree });
  return [say(words.comes_to, { metres: lengthSaid(by, out, one), plied }), ...(joins ? [splices] : [])];
}

// What runs out first, after how much yarn, and what the others then have.
export function standsOf(by, out, found) {
  const { words, about, plies, ply } = by;
  if (!found.length) return [words.together];
  const left = inRow(out.going.map((k) => say(words.of_ply, { metres: about(leftOf(out, k)), ply: ply(k) })));
  const yarnM = out.usedM * (1 - out.lost);
  const first = plies(out.ended);
  const many = out.ended.length > 1;
  if (!out.fact)
    return say(words.first, { plies: first, out: words[many ? "outs" : "out"], metres: about(yarnM), left });
  return say(words[many ? "have" : "has"], { plies: capital(first), metres: by.metres(yarnM), left });
}

// Where a single ended, and what that says of it.
export function endedLines({ plan, plies, metres }, out) {
  const { ended: told } = plan.ran_out;
  const { ply, atM, also } = out.fact;
  const lines = [
    say(told.ran_out, { ply: capital(plies([ply])), metres: metres(atM), tells: tells(told, metres, out) }),
  ];
  const were = told[also.length > 1 ? "also_were" : "also_was"];
  return also.length ? [...lines, say(were, { plies: capital(plies(also)) })] : lines;
}

function tells(told, metres, { fact, lost }) {
  if (fact.tells)
    return say(told[lost > 0 ? "lost" : "won"], { share: `${fixed(Math.abs(lost) * 100, 1)}%` });
  const ratio = fact.singleM / fact.reckonedM;
  if (Math.abs(ratio - 1) < SAME) return [told.as_reckoned];
  const slots = { was: metres(fact.singleM), not_: metres(fact.reckonedM) };
  return say(told[ratio > 1 ? "longer" : "shorter"], slots);
}

const up = (value) => Math.ceil(value * 10 - 1e-4) / 10;

// Why a single cannot have ended there, and what could be.
export function misfitOf({ plan, length }, { kind, least, most }, ply) {
  const bounds = [up(length.of(least)), -up(-length.of(most))];
  const [low, high] = bounds.map((each) => `${each.toFixed(1)} ${length.unit}`);
  const slots = { ply: String(ply), least: low, most: high };
  return capital(say(plan.ran_out.misfits[kind], slots));
}
