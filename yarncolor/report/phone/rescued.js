// All that can be said when a single runs out, by what is noted on the phone.

import { endedLines, handsOf, lengthSaid, misfitOf, nameOf, speaker, standsOf, worthOf } from "./rescue_words.js";
import { rescues, runOut } from "./rescues.js";
import { singlesOf } from "./singles.js";

// Where a single ended `told` says what that tells and `wrong` why it cannot be; `ways` are the
// yarns that can be made, each with its name, what it comes to and what the hands do.
export function rescued(plan, held) {
  const { ended } = held.plied;
  const out = runOut(plan, singlesOf(plan, held.entries), ended);
  const by = speaker(plan);
  if (out.wrong) return { wrong: misfitOf(by, out.wrong, ended.ply), told: [], ways: [] };
  const found = rescues(out);
  return {
    out,
    told: out.fact ? endedLines(by, out) : [],
    stands: standsOf(by, out, found),
    ways: found.map((one) => ({
      ...one,
      length: lengthSaid(by, out, one),
      name: nameOf(by, out, one),
      worth: worthOf(by, out, one),
      hands: handsOf(by, out, one),
    })),
  };
}
