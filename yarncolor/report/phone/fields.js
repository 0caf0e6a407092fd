// What is typed at the wheel: kept with every digit that makes sense, asked about otherwise.

import { el } from "./element.js";
import { numberIn } from "./numbers.js";

let count = 0;

// A number with its unit. `wrong(value)` says what speaks against it; `keep(value)` keeps it.
export function numberField({ label, unit, value, hint = "", wrong = () => "", keep }) {
  const id = `field${(count += 1)}`;
  const said = el("p", { class: "wrong", id: `${id}s`, role: "alert" });
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
    return Number.isNaN(found) ? `Type ${unit === "m" ? "metres" : "grams"}, as 3.4` : wrong(found);
  };
  const tell = () => {
    said.textContent = judge();
    input.setAttribute("aria-invalid", String(said.textContent !== ""));
  };
  input.addEventListener("input", () => {
    if (said.textContent) tell();
    keep(judge() ? null : numberIn(input.value));
  });
  input.addEventListener("change", tell);
  return el(
    "div",
    { class: "field" },
    el("label", { for: id }, label),
    el("div", { class: "typed" }, input, el("span", {}, unit)),
    el("p", { class: "quiet", id: `${id}h` }, hint),
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
