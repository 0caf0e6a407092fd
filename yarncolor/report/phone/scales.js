// What a bobbin weighs, in words, and what speaks against a reading.

import { lying, onBobbin } from "./lying.js";
import { measuresOf } from "./measures.js";
import { withTare } from "./numbers.js";

// With the bobbin where the empty one is known, else without.
export function weightOf(plan, ply, on) {
  const tare = plan.plies[ply - 1].tares[on.bobbin - 1] ?? null;
  const net = measuresOf(plan).onScale(on.net_g);
  return { net, tare, shown: tare === null ? net : withTare(net, tare) };
}

// Why the bobbin cannot weigh so much after a piece; nothing where it can.
export function wrongReading(plan, entries, ply, bobbin, entry) {
  const tare = plan.plies[ply - 1].tares_g[bobbin - 1];
  const { mass } = measuresOf(plan);
  const { spun } = lying(plan, entries, ply);
  const ons = onBobbin(plan, spun);
  const upTo = entry && spun.includes(entry) ? spun.indexOf(entry) : spun.length;
  const readings = spun.flatMap((other, at) =>
    other.gross_g && at !== upTo && ons[at].bobbin === bobbin ? [[at, other.gross_g]] : [],
  );
  const least = Math.max(tare, ...readings.filter(([at]) => at < upTo).map(([, gross]) => gross));
  const most = Math.min(...readings.filter(([at]) => at > upTo).map(([, gross]) => gross));
  return (gross) => {
    if (gross <= tare) return `The empty bobbin alone weighs ${mass.given(tare)}`;
    if (gross < least) return `It weighed ${mass.given(least)} already, before this piece`;
    return gross > most ? `It weighed ${mass.given(most)} later on` : "";
  };
}

// How far a reading is off what is expected, in words.
export function offBy(plan, shown) {
  const { mass, onScale, weight } = measuresOf(plan);
  const expected = mass.meant(shown);
  return (gross) => {
    const off = Math.abs(gross - expected);
    if (Number(onScale(off)) === 0) return `as expected, ${shown} ${mass.unit}`;
    return `${weight(off)} ${gross > expected ? "more" : "less"} than ${shown} ${mass.unit}, which is expected`;
  };
}
