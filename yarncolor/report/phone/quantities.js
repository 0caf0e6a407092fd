// Numbers with their units as they are typed: "27,5", "1 1/4 oz", "½ oz", "1 lb 2 oz". Read as a
// bench reads its fields: one grammar, with units that the page is told.

import { asNumber, fraction, inverse, product, sum } from "./fractions.js";

const DIGIT = "\\p{Nd}";
const PARTS = "¼½¾⅐⅑⅒⅓⅔⅕⅖⅗⅘⅙⅚⅛⅜⅝⅞";
const THOUSANDS = `[1-9]${DIGIT}{0,2}(?:(?:,${DIGIT}{3})+|(?:['’\\u00a0\\u202f]${DIGIT}{3})+)(?!${DIGIT})|[1-9]${DIGIT}{0,2}(?:\\.${DIGIT}{3})+(?=,${DIGIT})`;
const DIVIDED = `(?:${DIGIT}+(?:\\s+|-))?${DIGIT}+\\s?[/⁄]\\s?${DIGIT}+(?![.,]?${DIGIT})`;
const NUMBER = `[+\\-−]?(?:(?:${DIGIT}+\\s?)?[${PARTS}]|${DIVIDED}|(?:${THOUSANDS}|${DIGIT}+)(?:[.,]${DIGIT}+)?|\\.${DIGIT}+)`;
const WHOLE = `${DIGIT}+(?:_${DIGIT}+)*`;
const ALONE = new RegExp(`^[+-]?(?:${WHOLE}(?:\\.(?:${WHOLE})?)?|\\.${WHOLE})(?:e[+-]?${WHOLE})?$`, "u");
const BLANKS = new RegExp(`(^|[^${DIGIT}.,])([1-9]${DIGIT}{0,2})((?: ${DIGIT}{3})+)(?!${DIGIT})`, "gu");
const BEGINS_WITH_THOUSANDS = new RegExp(`^[+\\-−]*(?:${THOUSANDS})`, "u");
const VALUE = new RegExp(NUMBER, "uy");
const NO_LETTER = "(?![\\p{L}\\p{Nl}\\p{No}])";
const NO_WORD = "(?![\\p{L}\\p{N}_])";
const BETWEEN = new RegExp(
  `(?:\\s|[,;/+&]|\\b(?:and|in|of|weighs?|wide|long|high|each|to(?!\\s*1\\b))${NO_WORD}|(?::|\\bto\\b)\\s*1\\b)*`,
  "uy",
);
const PER = `(?:/|=|\\b(?:per|in|to|an?|over|across|for|on)${NO_WORD})\\s*(?:(?:an?|the|one|each)${NO_WORD}\\s*)?(?<count>${NUMBER})?\\s*`;
const ALSO_BLANK = "\u001c\u001d\u001e\u001f\u0085";
const LONGEST = 60;
const BEYOND = 1e15; // no number of a plan is so large

const ascii = (text) => text.replace(/\p{Nd}/gu, (digit) => valueOf(digit.codePointAt(0)));

// Digits of every script stand in a row from 0 to 9.
function valueOf(code) {
  let before = 0;
  while (/\p{Nd}/u.test(String.fromCodePoint(code - before - 1))) before += 1;
  return String(before % 10);
}

function grammarOf(units) {
  const words = units.flatMap(({ names }) => names);
  const escaped = words.map((name) => name.replace(/[.*+?^${}()|[\]\\/]/g, "\\$&"));
  const unit = escaped.toSorted((one, other) => other.length - one.length).join("|");
  return {
    byName: new Map(units.flatMap((one) => one.names.map((name) => [name, { size: fraction(one.size), powers: one.powers }]))),
    ratio: new RegExp(`(?<of>${unit})?\\s*${PER}(?<per>${unit})${NO_LETTER}`, "uy"),
    plain: new RegExp(`(?<of>${unit})${NO_LETTER}`, "uy"),
    before: new RegExp(`(?<of>nm|nec?|nek|[dk]?tex)\\s*(?=${DIGIT})`, "uy"),
  };
}

const matchAt = (pattern, text, at) => {
  pattern.lastIndex = at;
  return pattern.exec(text);
};

// The number that a text is, exactly; null where it is none.
function numberOf(text, thousands) {
  if (text.length > LONGEST) return null;
  const sign = /^[-−]/.test(text) ? "-" : "";
  const digits = text.replace(/^[+\-−]/, "");
  const last = digits.at(-1);
  if (PARTS.includes(last)) return divided(sign, `${digits.slice(0, -1)} ${last.normalize("NFKD")}`);
  return /[/⁄]/.test(digits) ? divided(sign, digits) : fraction(sign + plainDigits(digits, thousands));
}

function divided(sign, digits) {
  const numbers = ascii(digits.replace(/\s?[/⁄]\s?/, " ")).split(/\s+|-/).filter(Boolean);
  const [above, below] = numbers.slice(-2);
  if (BigInt(below) === 0n) return null;
  const whole = fraction(numbers.length > 2 ? numbers[0] : "0");
  return product(fraction(`${sign}1`), sum([whole, fraction(`${above}/${below}`)]));
}

// Digits with a decimal point, and nothing that parts thousands.
function plainDigits(digits, thousands) {
  const mayBeDecimal = new RegExp(`^${DIGIT}+,${DIGIT}+$`, "u").test(digits);
  const found = mayBeDecimal && !thousands ? null : digits.match(new RegExp(`^(?:${THOUSANDS})`, "u"));
  const end = found ? found[0].length : 0;
  const whole = ascii(digits.slice(0, end)).replace(/\D/g, "");
  return whole + ascii(digits.slice(end)).replace(",", ".");
}

function unitAt(grammar, text, from) {
  const at = from + text.slice(from).length - text.slice(from).trimStart().length;
  const ratio = matchAt(grammar.ratio, text, at);
  if (!ratio) {
    const plain = matchAt(grammar.plain, text, at);
    return plain ? [grammar.byName.get(plain.groups.of), at + plain[0].length] : [null, at];
  }
  const { of, count, per } = ratio.groups;
  const many = count ? numberOf(count.trim(), true) : fraction("1");
  if (!many?.[0]) return [null, at];
  return [over(of ? grammar.byName.get(of) : { size: fraction("1"), powers: {} }, grammar.byName.get(per), many), at + ratio[0].length];
}

function over(of, per, count) {
  const powers = { ...of.powers };
  for (const [base, power] of Object.entries(per.powers)) powers[base] = (powers[base] ?? 0) - power;
  const left = Object.entries(powers).filter(([, power]) => power);
  return { size: product(of.size, inverse(product(per.size, count))), powers: Object.fromEntries(left) };
}

function quantities(grammar, text, thousands) {
  const found = [];
  let at = matchAt(BETWEEN, text, 0)[0].length;
  while (at < text.length) {
    const before = matchAt(grammar.before, text, at);
    const start = at + (before?.[0].length ?? 0);
    const value = matchAt(VALUE, text, start);
    const number = value && numberOf(value[0].trim(), thousands);
    if (!number) return [];
    const [unit, end] = unitAt(grammar, text, start + value[0].length);
    found.push({ number, unit: before ? grammar.byName.get(before.groups.of) : unit });
    at = end + matchAt(BETWEEN, text, end)[0].length;
  }
  return found;
}

// How much of its own unit a quantity is; null where it is of another kind.
function inOwn({ number, unit }, { size, base, things }) {
  if (!unit) return product(number, fraction(size));
  const others = Object.entries(unit.powers).filter(([each]) => each !== base);
  const isLike = unit.powers[base] === 1 && others.every(([each]) => things.includes(each));
  return isLike ? product(number, unit.size) : null;
}

function together(parts, own) {
  const values = parts.map((part) => inOwn(part, own));
  if (!parts.length || values.includes(null)) return null;
  return parts.length > 1 && parts.some(({ unit }) => !unit) ? null : asNumber(sum(values));
}

// A number alone, as a keypad types it: in the unit beside its field.
function numberAlone(text, size) {
  const typed = text.split(",").length === 2 ? text.replace(",", ".") : text;
  if (BEGINS_WITH_THOUSANDS.test(text) || !ALONE.test(typed)) return null;
  const value = Number(ascii(typed).replaceAll("_", ""));
  return Math.abs(value) < BEYOND ? asNumber(product(fraction(String(value)), fraction(size))) : value;
}

const grammars = new WeakMap();

function grammarFor(units) {
  if (!grammars.has(units)) grammars.set(units, grammarOf(units));
  return grammars.get(units);
}

// With the blanks that the bench knows: what else is blank to a browser or to it alone is put right.
const asBlanks = (text) =>
  [...text.replaceAll("\ufeff", "\u2060")].map((sign) => (ALSO_BLANK.includes(sign) ? "\t" : sign)).join("");

// What a text means in a base unit; NaN where it cannot be read. `units` are all that there are;
// `own` is the size of the unit beside the field, its base, the most there can be of it, and what
// may be counted in it.
export function meant(typed, units, own) {
  const text = asBlanks(typed).trim().toLowerCase();
  const alone = numberAlone(text, own.size);
  if (alone !== null) return alone;
  const joined = text.replace(BLANKS, (_, before, first, rest) => before + first + rest.replaceAll(" ", ""));
  const read = [true, false]
    .map((thousands) => together(quantities(grammarFor(units), joined, thousands), own))
    .filter((value) => value !== null);
  return read.find((value) => value <= own.most) ?? read[0] ?? NaN;
}
