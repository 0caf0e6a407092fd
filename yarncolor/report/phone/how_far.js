// How far the plying is: in metres, by turns of a niddy-noddy, or by what the bobbin weighs.

import { el } from "./element.js";
import { numberField } from "./fields.js";
import { fixed, metres } from "./numbers.js";

const MOST = 2; // times the yarn that was planned

export const turnOf = ({ plan, held }) => held.plied.turn_m ?? plan.plying.turn_m;
const tareOf = ({ plan, held }) => held.plied.tare_g ?? plan.plying.tare_g;

export const turnsTo = (lengthM, turnM, decimals) => fixed(lengthM / turnM, decimals);

const tenths = (value) => Number(value.toFixed(1));

// The fields; `changed` is called when another length is said.
export function howFar(at, changed) {
  const { plan } = at;
  const tooMuch = (m) => (m > plan.plying.yarn_m * MOST ? "More than there is yarn" : "");
  const soFar = () => at.again().held.plied.so_far_m;
  const say = (m, ...others) => {
    at.keep(({ plied }) => (plied.so_far_m = m));
    for (const [field, value] of others) field.querySelector("input").value = value ?? "";
    changed();
  };
  const turnsSaid = (m) => (m && turnOf(at.again()) ? tenths(m / turnOf(at.again())) : "");
  const byTurns = (turns) => tenths(turns * (turnOf(at.again()) ?? 0));
  const byWeight = (g) => tenths(((g - (tareOf(at.again()) ?? 0)) / plan.plying.tex) * 1000);
  const metresField = numberField({
    label: "Plied so far",
    unit: "m",
    value: soFar(),
    hint: `of about ${metres(plan.plying.yarn_m)}`,
    wrong: tooMuch,
    keep: (m) => say(m, [turns, turnsSaid(m)]),
  });
  const turns = numberField({
    label: "Turns so far",
    unit: "turns",
    value: turnsSaid(soFar()),
    wrong: (count) => (turnOf(at.again()) ? tooMuch(byTurns(count)) : "Type first how long a turn is"),
    tells: (count) => (turnOf(at.again()) ? `that is ${metres(byTurns(count))}` : ""),
    keep: (count) => turnOf(at.again()) && say(count && byTurns(count), [metresField, count && byTurns(count)]),
  });
  const turn = numberField({
    label: "One turn of the niddy-noddy",
    unit: "m",
    value: turnOf(at),
    keep: (m) => {
      at.keep(({ plied }) => (plied.turn_m = m));
      turns.querySelector("input").value = turnsSaid(soFar());
      changed();
    },
  });
  const tare = numberField({
    label: "The empty plying bobbin",
    unit: "g",
    value: tareOf(at),
    keep: (g) => at.keep(({ plied }) => (plied.tare_g = g)),
  });
  const gross = numberField({
    label: "Plying bobbin with its yarn",
    unit: "g",
    wrong: (g) => wrongWeight(tareOf(at.again()), g) || tooMuch(byWeight(g)),
    tells: (g) => `that is about ${metres(byWeight(g))}`,
    keep: (g) => g && say(byWeight(g), [metresField, byWeight(g)], [turns, turnsSaid(byWeight(g))]),
  });
  const isOpen = Boolean(turnOf(at));
  return [
    metresField,
    el("details", { open: isOpen }, el("summary", {}, "Count turns instead"), turn, turns),
    el("details", {}, el("summary", {}, "Or weigh the bobbin"), tare, gross),
  ];
}

function wrongWeight(tare, grams) {
  if (tare === null || tare === undefined) return "Type first what the empty bobbin weighs";
  return grams <= tare ? `The empty bobbin alone weighs ${tare} g` : "";
}
