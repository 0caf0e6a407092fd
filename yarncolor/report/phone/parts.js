// Each thing that can be otherwise with a row: what is said of it now, and the fields to say it.

import { el } from "./element.js";
import { lotField, numberField } from "./fields.js";
import { expected, isTouched, massOf, onBobbin } from "./lying.js";
import { gramsOf, weightOf, wrongReading } from "./scales.js";

const caution = ({ at }) => el("p", { class: "caution" }, at.plan.caution);

function gramsNow({ at, row, entry }) {
  if (isTouched(entry)) return `${gramsOf(at.plan, massOf(at.plan, entry))} g`;
  return row.weigh ? `${row.weigh} g in the plan` : "of its heap";
}

const gramsFields = ({ row, kept }) => [
  numberField({
    ...kept("mass_g"),
    label: "Fibre weighed out",
    unit: "g",
    hint: row.weigh ? `${row.weigh} g in the plan` : "of its heap, in the plan",
  }),
];

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
  const { entry } = one;
  if (entry.gross_g) return `${entry.gross_g} g found`;
  return `${weightOf(one.at.plan, one.at.ply, onAfter(one)).shown} g expected after it`;
}

function scaleFields(one) {
  const { at, entry, kept } = one;
  const on = onAfter(one);
  return [
    caution(one),
    numberField({
      ...kept("gross_g"),
      label: "Bobbin on the scale, after it",
      unit: "g",
      hint: scaleNow(one),
      wrong: wrongReading(at.plan, at.held.entries, at.ply, on.bobbin, entry),
    }),
  ];
}

const metresNow = ({ entry }) => (entry.length_m ? `${entry.length_m} m` : "");

const metresFields = (one) => [
  caution(one),
  numberField({ ...one.kept("length_m"), label: "Single of this piece", unit: "m" }),
];

const sampleNow = ({ entry }) =>
  entry.sample_m && entry.sample_g ? `${entry.sample_m} m, ${entry.sample_g} g` : "";

const sampleFields = (one) => [
  caution(one),
  numberField({ ...one.kept("sample_m"), label: "Length broken off", unit: "m" }),
  numberField({ ...one.kept("sample_g"), label: "What it weighs", unit: "g" }),
];

export const PARTS = {
  grams: { words: "Other grams", now: gramsNow, fields: gramsFields },
  lot: { words: "Another lot went in", now: ({ entry }) => entry.lot ?? "", fields: lotFields },
  scale: { words: "Weigh the bobbin", now: scaleNow, fields: scaleFields },
  metres: { words: "Metres measured", now: metresNow, fields: metresFields },
  sample: { words: "A sample weighed", now: sampleNow, fields: sampleFields },
};
