// What is typed at the wheel: kept with every digit that makes sense, asked about otherwise.

import { el } from "./element.js";
import { numberIn } from "./numbers.js";

let count = 0;

// A number in the unit of its measure. `wrong(value)` says what speaks against it, `tells(value)`
// what it means where it is good, in the place of the hint; `keep(value)` keeps it.
export function numberField(about) {
  const { label, measure, value, hint = "", wrong = () => "", tells = () => hint, keep } = about;
  const id = `field${(count += 1)}`;
  const said = el("p", { class: "wrong", id: `${id}s`, role: "alert" });
  const meant = el("p", { class: "quiet", id: `${id}h` }, value ? tells(value) : hint);
  const input = el("input", {
    id,
    type: "text",
    inputmode: "decimal",
    autocomplete: "off",
    value: measure.typed(value),
    "aria-describedby": `${id}h ${id}s`,
  });
  const judge = () => {
    const found = numberIn(input.value, measure);
    if (found === null) return "";
    return Number.isNaN(found) ? `Type ${measure.plural}, as 3.4` : wrong(found);
  };
  const tell = () => {
    said.textContent = judge();
    input.setAttribute("aria-invalid", String(said.textContent !== ""));
  };
  input.addEventListener("input", () => {
    if (said.textContent) tell();
    const good = judge() ? null : numberIn(input.value, measure);
    meant.textContent = good === null ? hint : tells(good);
    keep(good);
  });
  input.addEventListener("change", tell);
  return el(
    "div",
    { class: "field" },
    el("label", { for: id }, label),
    el("div", { class: "typed" }, input, el("span", {}, measure.unit)),
    meant,
    said,
  );
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
