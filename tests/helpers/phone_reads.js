// How the phone's page reads what is typed for a key, for tests that ask it alone.

import { measuresOf } from "../../yarncolor/report/phone/measures.js";

globalThis.phoneReads = (plan, texts) => {
  const measures = measuresOf(plan);
  return texts.map(([kind, key, text]) => {
    const found = measures[kind].read(text, key);
    return Number.isFinite(found) ? found : null;
  });
};
