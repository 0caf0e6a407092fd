// Each thing that can be otherwise with a row: what is said of it now, and the fields to say it.

import { el } from "./element.js";
import { lotField, numberField } from "./fields.js";
import { expected, isTouched, massOf, onBobbin } from "./lying.js";
import { measuresOf } from "./measures.js";
import { weightOf, wrongReading } from "./scales.js";
import { capital } from "./sentences.js";

const caution = ({ at }) => el("p", { class: "caution" }, at.plan.caution);

function gramsNow({ at: { plan }, row, entry }) {
  const { mass, weight } = measuresOf(plan);
  if (isTouched(entry)) return weight(massOf(plan, entry));
  return row.weigh ? `${row.weigh} ${mass.unit} in the plan` : "of its heap";
}

function gramsFields({ at, row, kept }) {
  const { mass } = measuresOf(at.plan);
  return [
    numberField({
      ...kept("mass_g"),
      label: "Fibre weighed out",
      measure: mass,
      hint: row.weigh ? `${row.weigh} ${mass.unit} in the plan` : "of its heap, in the plan",
    }),
  ];
}

function lotFields({ at, row, entry, kept }) {
  const planned = at.plan.lots[row.lot].name;
  const { keep } = kept("lot");
  return [
    lotField({
      label: "Lot that went in",
      lots: at.plan.lots,
      value: entry.lot ?? planned,
      keep: (name) => keep(name === planned ? null : name),
    }),
  ];
}

export const hasTare = (one) => weightOf(one.at.plan, one.at.ply, onAfter(one)).tare !== null;

// What is on the bobbin after a row, by what was weighed out or as the plan has it.
function onAfter({ at, found, number, entry }) {
  const behind = found.spun.indexOf(entry);
  return behind < 0 ? expected(found, number) : onBobbin(at.plan, found.spun)[behind];
}

function scaleNow(one) {
  const { at, entry } = one;
  const { mass } = measuresOf(at.plan);
  if (entry.gross_g) return `${mass.given(entry.gross_g)} found`;
  return `${weightOf(at.plan, at.ply, onAfter(one)).shown} ${mass.unit} expected after it`;
}

function scaleFields(one) {
  const { at, entry, kept } = one;
  const on = onAfter(one);
  return [
    caution(one),
    numberField({
      ...kept("gross_g"),
      label: "Bobbin on the scale, after it",
      measure: measuresOf(at.plan).mass,
      hint: scaleNow(one),
      wrong: wrongReading(at.plan, at.held.entries, at.ply, on.bobbin, entry),
    }),
  ];
}

const metresNow = ({ at, entry }) =>
  entry.length_m ? measuresOf(at.plan).length.given(entry.length_m) : "";

const metresFields = (one) => [
  caution(one),
  numberField({
    ...one.kept("length_m"),
    label: "Single of this piece",
    measure: measuresOf(one.at.plan).length,
  }),
];

function sampleNow({ at, entry: { sample_m: m, sample_g: g } }) {
  const { length, mass } = measuresOf(at.plan);
  return m && g ? `${length.given(m)}, ${mass.given(g)}` : "";
}

function sampleFields(one) {
  const { length, mass } = measuresOf(one.at.plan);
  return [
    caution(one),
    numberField({ ...one.kept("sample_m"), label: "Length broken off", measure: length }),
    numberField({ ...one.kept("sample_g"), label: "What it weighs", measure: mass }),
  ];
}

// What can be said of a row, by what the page calls it in its plan's units.
export function partsOf(plan) {
  const { mass, length } = measuresOf(plan);
  const [lengths] = capital([length.plural]);
  return {
    grams: { words: `Other ${mass.plural}`, now: gramsNow, fields: gramsFields },
    lot: { words: "Another lot went in", now: ({ entry }) => entry.lot ?? "", fields: lotFields },
    scale: { words: "Weigh the bobbin", now: scaleNow, fields: scaleFields },
    metres: { words: `${lengths} measured`, now: metresNow, fields: metresFields },
    sample: { words: "A sample weighed", now: sampleNow, fields: sampleFields },
  };
}
