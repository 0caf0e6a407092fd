// Sentences with slots, filled in: a row of texts and of { name }s, names as the plan file has them.

import { named } from "./element.js";

const SLOT = /\{(\w+)\}/;

export function say(sentence, slots = {}) {
  const parts = sentence.split(SLOT);
  return parts.flatMap((part, at) => (at % 2 ? slots[part] : part)).filter((part) => part !== "");
}

// Words in a row: a, b and c.
export const inRow = (words) =>
  words.flatMap((each, at) => {
    const before = at === words.length - 1 ? " and " : ", ";
    return at ? [before, each].flat() : [each].flat();
  });

export const capital = ([first, ...rest]) => [first.slice(0, 1).toUpperCase() + first.slice(1), ...rest];

export const text = (parts) => parts.map((part) => part.name ?? part).join("");

// As it stands on the page, each name by itself, whichever way it is read.
export const shown = (parts) =>
  parts.map((part) => (part.name === undefined ? part : named(part.name)));
