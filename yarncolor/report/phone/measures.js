// What grams and metres are said in, as the plan has it, and what a number that is typed means.

import { fixed, times } from "./numbers.js";
import { meant } from "./quantities.js";

const WHOLE_FROM = 20; // from so many on a length is said in whole ones
const TYPED = 4; // decimals that can be typed
const TURNS = { unit: "turns", plural: "turns", size: 1, finer: 0 };
const BASES = { mass: "g", length: "m", turns: "turn" };

class Measure {
  constructor(about) {
    Object.assign(this, about);
  }

  of(value) {
    return value / this.size;
  }

  // What is typed for a key means in grams or metres, with a unit or without; NaN for nothing.
  read(text, key) {
    const { size, base, units } = this;
    return meant(text, units, { size: String(size), base, ...this.limits(key) });
  }

  limits(key) {
    return this.typed_keys[key] ?? { least: 0, most: Infinity, things: [] };
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

  // As it is in this unit, where it was typed in another.
  turned(value) {
    return `${Number(this.of(value).toFixed(TYPED))} ${this.unit}`;
  }

  given(value) {
    return `${this.typed(value)} ${this.unit}`;
  }

  // The nearest whole tenth of the unit.
  tenths(value) {
    return this.meant(this.of(value).toFixed(1));
  }
}

export function measuresOf({ measures, decimals, units, typed_keys }) {
  const [mass, length, short, grist, turns] = ["mass", "length", "short", "grist", "turns"].map(
    (kind) => new Measure({ ...(measures[kind] ?? TURNS), base: BASES[kind], units, typed_keys }),
  );
  const onScale = (g) => fixed(mass.of(g), decimals);
  const long = (m) => {
    const count = length.of(m);
    if (count > 0 && count < 1) return short.said(m);
    return length.said(m, count >= WHOLE_FROM ? 0 : 1);
  };
  return { mass, length, grist, turns, onScale, weight: (g) => `${onScale(g)} ${mass.unit}`, long };
}
