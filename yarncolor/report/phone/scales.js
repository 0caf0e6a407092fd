// What a bobbin weighs, in words, and what speaks against a reading.

import { lying, onBobbin } from "./lying.js";
import { fixed, withTare } from "./numbers.js";

export const gramsOf = (plan, massG) => fixed(massG, plan.decimals);

// With the bobbin where the empty one is known, else without.
export function weightOf(plan, ply, on) {
  const tare = plan.plies[ply - 1].tares_g[on.bobbin - 1] ?? null;
  const net = gramsOf(plan, on.net_g);
  return { net, tare, shown: tare === null ? net : withTare(net, tare) };
}

// Why the bobbin cannot weigh so much after a piece; nothing where it can.
export function wrongReading(plan, entries, ply, bobbin, entry) {
  const tare = plan.plies[ply - 1].tares_g[bobbin - 1];
  const { spun } = lying(plan, entries, ply);
  const ons = onBobbin(plan, spun);
  const upTo = entry && spun.includes(entry) ? spun.indexOf(entry) : spun.length;
  const readings = spun.flatMap((other, at) =>
    other.gross_g && at !== upTo && ons[at].bobbin === bobbin ? [[at, other.gross_g]] : [],
  );
  const least = Math.max(tare, ...readings.filter(([at]) => at < upTo).map(([, gross]) => gross));
  const most = Math.min(...readings.filter(([at]) => at > upTo).map(([, gross]) => gross));
  return (gross) => {
    if (gross <= tare) return `The empty bobbin alone weighs ${tare} g`;
    if (gross < least) return `It weighed ${least} g already, before this piece`;
    return gross > most ? `It weighed ${most} g later on` : "";
  };
}

// How far a reading is off what is expected, in words.
export function offBy(plan, shown) {
  return (gross) => {
    const off = gross - Number(shown);
    const grams = gramsOf(plan, Math.abs(off));
    if (Number(grams) === 0) return `as expected, ${shown} g`;
    return `${grams} g ${off > 0 ? "more" : "less"} than ${shown} g, which is expected`;
  };
}
