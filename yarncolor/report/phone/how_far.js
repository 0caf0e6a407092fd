// How far the plying is: as a length, by turns of a niddy-noddy, or by what the bobbin weighs.

import { el } from "./element.js";
import { numberField, show } from "./fields.js";
import { measuresOf } from "./measures.js";
import { fixed } from "./numbers.js";

const MOST = 2; // times the yarn that was planned

export const turnOf = ({ plan, held }) => held.plied.turn_m ?? plan.plying.turn_m;
const tareOf = ({ plan, held }) => held.plied.tare_g ?? plan.plying.tare_g;

export const turnsTo = (lengthM, turnM, decimals) => fixed(lengthM / turnM, decimals);

// The fields; `changed` is called when another length is said.
export function howFar(at, changed) {
  const { plan } = at;
  const { mass, length, turns: count } = measuresOf(plan);
  const tooMuch = (m) => (m > plan.plying.yarn_m * MOST ? "More than there is yarn" : "");
  const soFar = () => at.again().held.plied.so_far_m;
  const say = (m, ...others) => {
    at.keep(({ plied }) => (plied.so_far_m = m));
    for (const [field, measure, value] of others) show(field, measure, value);
    changed();
  };
  const turnsIn = (m) => (m && turnOf(at.again()) ? count.tenths(m / turnOf(at.again())) : null);
  const byTurns = (turned) => length.tenths(turned * (turnOf(at.again()) ?? 0));
  const byWeight = (g) => length.tenths(((g - (tareOf(at.again()) ?? 0)) / plan.plying.tex) * 1000);
  const metresField = numberField({
    label: "Plied so far",
    measure: length,
    key: "so_far_m",
    value: soFar(),
    hint: `of about ${length.said(plan.plying.yarn_m)}`,
    wrong: tooMuch,
    keep: (m) => say(m, [turns, count, turnsIn(m)]),
  });
  const turns = numberField({
    label: "Turns so far",
    measure: count,
    value: turnsIn(soFar()),
    wrong: (turned) => (turnOf(at.again()) ? tooMuch(byTurns(turned)) : "Type first how long a turn is"),
    tells: (turned) => (turnOf(at.again()) ? `that is ${length.said(byTurns(turned))}` : ""),
    keep: (turned) => turnOf(at.again()) && say(turned && byTurns(turned), [metresField, length, turned && byTurns(turned)]),
  });
  const turn = numberField({
    label: "One turn of the niddy-noddy",
    measure: length,
    key: "turn_m",
    value: turnOf(at),
    keep: (m) => {
      at.keep(({ plied }) => (plied.turn_m = m));
      show(turns, count, turnsIn(soFar()));
      changed();
    },
  });
  const tare = numberField({
    label: "The empty plying bobbin",
    measure: mass,
    key: "plying_tare_g",
    value: tareOf(at),
    keep: (g) => at.keep(({ plied }) => (plied.tare_g = g)),
  });
  const gross = numberField({
    label: "Plying bobbin with its yarn",
    measure: mass,
    key: "gross_g",
    wrong: (g) => wrongWeight(mass, tareOf(at.again()), g) || tooMuch(byWeight(g)),
    tells: (g) => `that is about ${length.said(byWeight(g))}`,
    keep: (g) => g && say(byWeight(g), [metresField, length, byWeight(g)], [turns, count, turnsIn(byWeight(g))]),
  });
  const isOpen = Boolean(turnOf(at));
  return [
    metresField,
    el("details", { open: isOpen }, el("summary", {}, "Count turns instead"), turn, turns),
    el("details", {}, el("summary", {}, "Or weigh the bobbin"), tare, gross),
  ];
}

function wrongWeight(mass, tare, grams) {
  if (tare === null || tare === undefined) return "Type first what the empty bobbin weighs";
  return grams <= tare ? `The empty bobbin alone weighs ${mass.given(tare)}` : "";
}
