// What the phone's page reckons when a single runs out, for tests that ask it alone.

import { bringIn } from "../../yarncolor/report/phone/agreeing.js";
import { rescued } from "../../yarncolor/report/phone/rescued.js";
import { text } from "../../yarncolor/report/phone/sentences.js";

globalThis.phoneRescues = (plan, ended) => {
  const held = { entries: [], gone: [], plied: { so_far_m: null, before_m: [] } };
  bringIn(plan, held);
  if (ended) held.plied.ended = ended;
  const found = rescued(plan, held);
  return {
    ...found,
    out: null,
    wrong: found.wrong && text(found.wrong),
    told: found.told.map(text),
    stands: found.stands && text(found.stands),
    ways: found.ways.map((one) => ({
      ...one,
      name: text(one.name),
      worth: text(one.worth),
      hands: one.hands.map(text),
      strands: null,
    })),
  };
};
