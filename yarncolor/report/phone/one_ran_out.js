// A ply ran out at the plying wheel: noted in one press, and what can still be made, at once.

import { button, el } from "./element.js";
import { numberField } from "./fields.js";
import { isTouched } from "./lying.js";
import { measuresOf } from "./measures.js";
import { rescued } from "./rescued.js";
import { shown } from "./sentences.js";
import { wayCard } from "./way_card.js";

export function oneRanOut(at) {
  const { plan, held } = at;
  if (!plan.ran_out) return [];
  const { ended } = held.plied;
  const ways = el("div", {}, waysOf(at));
  const again = () => ways.replaceChildren(...waysOf(at.again()));
  return [el("h3", {}, "One ran out"), ...(ended ? noted(at, ended, again) : asked(at, held.plied.so_far_m)), ways];
}

function asked(at, so) {
  if (!so) return [el("p", { class: "quiet" }, "Say first how much is plied so far.")];
  const { plies } = at.plan;
  const press = (ply) =>
    at.note(({ plied }) => (plied.ended = { ply, at_m: plied.so_far_m }));
  return plies.map(({ short }, k) => button(`The single of ${short} ran out here`, () => press(k + 1), "choice"));
}

function noted(at, { ply, at_m: atM }, again) {
  const back = () => at.note(({ plied }) => delete plied.ended);
  const isFromPlan = at.plan.plied?.ended?.ply === ply && at.plan.plied.ended.at_m === atM;
  const keep = (value) => {
    if (value === null) return;
    at.keep(({ plied }) => (plied.ended = { ply, at_m: value }));
    again();
  };
  const field = numberField({
    label: `The single of ${at.plan.plies[ply - 1].short} ran out after`,
    measure: measuresOf(at.plan).length,
    key: "at_m",
    value: atM,
    keep,
  });
  return isFromPlan ? [] : [field, button("It did not run out", back, "small")];
}

const isWeighed = (entry) => !entry.from && (entry.gross_g || entry.sample_m || entry.length_m);

function waysOf({ plan, held }) {
  const { wrong, told, stands, ways, out } = rescued(plan, held);
  if (wrong) return [el("p", { class: "wrong", role: "alert" }, shown(wrong))];
  const longest = Math.max(...ways.map(({ extraM }) => extraM));
  const words = told.map((line) => el("p", { class: "words" }, shown(line)));
  const later =
    held.entries.some((entry) => isTouched(entry) && isWeighed(entry)) &&
    `Bobbins weighed and ${measuresOf(plan).length.plural} measured here tell the grist of the rest only when you take them home.`;
  return [
    ...words,
    el("p", { class: "aside" }, shown(stands)),
    ...(ways.length
      ? [
          el(
            "details",
            { open: Boolean(held.plied.ended) },
            el("summary", {}, "What can still be made"),
            ways.map((one) => wayCard(plan, out, one, longest)),
            el("p", { class: "caution" }, plan.ran_out.cautions),
            later && el("p", { class: "quiet" }, later),
          ),
        ]
      : []),
  ].filter(Boolean);
}
