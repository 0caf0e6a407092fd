// What is typed at the wheel: kept with every digit that makes sense, asked about otherwise.

import { el } from "./element.js";
import { numberIn } from "./numbers.js";

const UNITS = { m: "metres", g: "grams", turns: "turns" };
let count = 0;

// A number with its unit. `wrong(value)` says what speaks against it, `tells(value)` what it means
// where it is good, in the place of the hint; `keep(value)` keeps it.
export function numberField(about) {
  const { label, unit, value, hint = "", wrong = () => "", tells = () => hint, keep } = about;
  const id = `field${(count += 1)}`;
  const said = el("p", { class: "wrong", id: `${id}s`, role: "alert" });
  const meant = el("p", { class: "quiet", id: `${id}h` }, value ? tells(value) : hint);
  const input = el("input", {
    id,
    type: "text",
    inputmode: "decimal",
    autocomplete: "off",
    value: value ?? "",
    "aria-describedby": `${id}h ${id}s`,
  });
  const judge = () => {
    const found = numberIn(input.value);
    if (found === null) return "";
    return Number.isNaN(found) ? `Type ${UNITS[unit]}, as 3.4` : wrong(found);
  };
  const tell = () => {
    said.textContent = judge();
    input.setAttribute("aria-invalid", String(said.textContent !== ""));
  };
  input.addEventListener("input", () => {
    if (said.textContent) tell();
    const good = judge() ? null : numberIn(input.value);
    meant.textContent = good === null ? hint : tells(good);
    keep(good);
  });
  input.addEventListener("change", tell);
  return el(
    "div",
    { class: "field" },
    el("label", { for: id }, label),
    el("div", { class: "typed" }, input, el("span", {}, unit)),
    meant,
    said,
  );
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
