// A ply ran out at the plying wheel: noted in one press, and what hands can do until home.

import { button, el } from "./element.js";
import { metres } from "./numbers.js";

export function oneRanOut(at) {
  const { plan, held } = at;
  if (plan.plies.length < 2) return [];
  const { ended, so_far_m: so } = held.plied;
  return [el("h3", {}, "One ran out"), ...(ended ? noted(at, ended) : asked(at, so)), ways(plan, ended)];
}

function asked(at, so) {
  if (!so) return [el("p", { class: "quiet" }, "Say first how much is plied so far.")];
  const { plies } = at.plan;
  const press = (ply) =>
    at.note(({ plied }) => (plied.ended = { ply, at_m: plied.so_far_m }));
  return plies.map(({ short }, k) => button(`The single of ${short} ran out here`, () => press(k + 1), "choice"));
}

function noted(at, { ply, at_m: atM }) {
  const back = () => at.note(({ plied }) => delete plied.ended);
  const isFromPlan = at.plan.plied?.ended?.ply === ply && at.plan.plied.ended.at_m === atM;
  return [
    el("p", { class: "aside" }, `The single of ${at.plan.plies[ply - 1].short} ran out at ${metres(atM)}. Take home tells the plan; the bench then draws every way to go on, with its metres and colours.`),
    isFromPlan ? "" : button("It did not run out", back, "small"),
  ];
}

function ways({ plying }, ended) {
  const each = plying.ran_out.map(([name, ...lines]) =>
    el("div", {}, el("h3", {}, name), ...lines.map((line) => el("p", { class: "words" }, line))),
  );
  return el("details", { open: Boolean(ended) }, el("summary", {}, "What can still be made"), ...each);
}
