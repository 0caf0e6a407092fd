// What grams and metres are said in, as the plan has it, and what a number that is typed means.

import { fixed, times } from "./numbers.js";

const WHOLE_FROM = 20; // from so many on a length is said in whole ones
const TYPED = 4; // decimals that can be typed
const TURNS = { unit: "turns", plural: "turns", size: 1, finer: 0 };

class Measure {
  constructor(about) {
    Object.assign(this, about);
  }

  of(value) {
    return value / this.size;
  }

  // What a number in this unit means, in grams or metres, to the last digit.
  meant(text) {
    return times(text, String(this.size));
  }

  number(value, decimals = 1) {
    return fixed(this.of(value), decimals + this.finer);
  }

  said(value, decimals = 1) {
    return `${this.number(value, decimals)} ${this.unit}`;
  }

  // As it would be typed; what was typed is shown as it was.
  typed(value) {
    if (value === null || value === undefined) return "";
    return String(this.size === 1 ? value : Number(this.of(value).toFixed(TYPED)));
  }

  given(value) {
    return `${this.typed(value)} ${this.unit}`;
  }

  // The nearest whole tenth of the unit.
  tenths(value) {
    return this.meant(this.of(value).toFixed(1));
  }
}

export function measuresOf({ measures, decimals }) {
  const [mass, length, short, grist, turns] = [
    ...["mass", "length", "short", "grist"].map((kind) => measures[kind]),
    TURNS,
  ].map((about) => new Measure(about));
  const onScale = (g) => fixed(mass.of(g), decimals);
  const long = (m) => {
    const count = length.of(m);
    if (count > 0 && count < 1) return short.said(m);
    return length.said(m, count >= WHOLE_FROM ? 0 : 1);
  };
  return { mass, length, grist, turns, onScale, weight: (g) => `${onScale(g)} ${mass.unit}`, long };
}
