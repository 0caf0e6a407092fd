// A bobbin's rows as a strip of their colours, with a mark where spinning is: beside the words.

import { el } from "./element.js";

export function strip(plan, rows, next) {
  const made = el("div", { class: "strip", "aria-hidden": "true" });
  for (const { row, number, did } of rows) {
    const part = el("span", { class: number === next?.number ? "here" : null });
    part.style.flexGrow = row.put_g;
    part.style.backgroundColor = plan.lots[row.lot].colour;
    if (did === "spun") part.classList.add("is-spun");
    made.append(part);
  }
  return made;
}
