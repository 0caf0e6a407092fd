// A piece too many: fibre on the bobbin that the plan does not have there.

import { button, el } from "./element.js";
import { lotField, numberField } from "./fields.js";
import { addExtra } from "./noting.js";

export function extraSheet(at) {
  const { plan, ply } = at;
  const piece = { lot: plan.lots[0].name };
  const said = el("p", { class: "wrong", role: "alert" });
  const keep = (key) => (value) => {
    if (value === null) delete piece[key];
    else piece[key] = value;
  };
  const add = () => {
    if (piece.mass_g || piece.length_m) at.note((held) => addExtra(held, ply, piece), null);
    else said.textContent = "Type its grams, or its metres";
  };
  return {
    inside: [
      el("h2", {}, "A piece too many"),
      lotField({ label: "Lot", lots: plan.lots, value: piece.lot, keep: keep("lot") }),
      numberField({ label: "Fibre weighed out", unit: "g", keep: keep("mass_g") }),
      numberField({ label: "Or single, measured", unit: "m", keep: keep("length_m") }),
      said,
    ],
    actions: [
      button("Back", () => at.open(null)),
      button("It is spun", add, "main"),
    ],
  };
}
