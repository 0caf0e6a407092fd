// What is typed at the wheel: kept with every digit that makes sense, asked about otherwise.

import { button, el } from "./element.js";

const BARE = /^\d+(?:[.,]\d+)?$/;

let count = 0;

// A number in the unit of its measure, or with another unit beside it. `wrong(value)` says what
// speaks against it, `tells(value)` what it means where it is good, in the place of the hint;
// `keep(value)` keeps it.
export function numberField(about) {
  const { label, measure, key, value, hint = "", wrong = () => "", tells, keep } = about;
  const id = `field${(count += 1)}`;
  const said = el("p", { class: "wrong", id: `${id}s`, role: "alert" });
  const meant = el("p", { class: "quiet", id: `${id}h` }, (value && tells?.(value)) || hint);
  const input = el("input", {
    id,
    type: "text",
    inputmode: "decimal",
    autocomplete: "off",
    autocapitalize: "off",
    value: measure.typed(value),
    "aria-describedby": `${id}h ${id}s`,
  });
  const read = () => valueOf(input.value.trim(), measure, key, value);
  const judge = () => faultIn(read(), measure, key) || (read() === null ? "" : wrong(read()));
  const tell = () => {
    said.textContent = judge();
    input.setAttribute("aria-invalid", String(said.textContent !== ""));
  };
  input.addEventListener("input", () => {
    if (said.textContent) tell();
    const good = judge() ? null : read();
    meant.textContent = good === null ? hint : (tells?.(good) ?? turned(input.value, measure, good, hint));
    keep(good);
  });
  input.addEventListener("change", tell);
  return el(
    "div",
    { class: "field" },
    el("label", { for: id }, label),
    el("div", { class: "typed" }, input, unitOf(measure, input)),
    meant,
    said,
  );
}

// Null where nothing is typed, NaN for what is none; what is shown of a value is that value.
function valueOf(typed, measure, key, value) {
  if (!typed) return null;
  if (value && typed === measure.typed(value)) return value;
  const found = measure.read(typed, key);
  return found > 0 ? found : NaN;
}

function faultIn(found, measure, key) {
  const { least, most } = measure.limits(key);
  if (Number.isNaN(found)) return `Type ${measure.plural}, as 3.4 or 3 1/2 ${measure.unit}`;
  if (found === null) return "";
  if (found > most) return "More than a plan can say";
  return found < least ? "Less than a plan can say" : "";
}

const turned = (typed, measure, value, hint) =>
  BARE.test(typed.trim()) ? hint : [`that is ${measure.turned(value)}`, hint].filter(Boolean).join("; ");

// The unit beside a field; pressed, it brings the keys with letters.
function unitOf(measure, input) {
  if (measure.base === "turn") return el("span", {}, measure.unit);
  const letters = () => {
    input.inputMode = "text";
    input.focus();
  };
  return button(measure.unit, letters, "unit", { "aria-label": `${measure.unit}, type another unit` });
}

// Shows another value in a field.
export function show(field, measure, value) {
  field.querySelector("input").value = measure.typed(value);
}

// One of the plan's lots, by name.
export function lotField({ label, lots, value, keep }) {
  const id = `field${(count += 1)}`;
  const options = lots.map(({ name }) =>
    el("option", { value: name, selected: name === value }, name),
  );
  const select = el("select", { id, onchange: () => keep(select.value) }, options);
  return el("div", { class: "field" }, el("label", { for: id }, label), select);
}
