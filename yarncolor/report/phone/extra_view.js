// A piece too many: fibre on the bobbin that the plan does not have there.

import { button, el } from "./element.js";
import { lotField, numberField } from "./fields.js";
import { measuresOf } from "./measures.js";
import { addExtra, goWithout } from "./noting.js";

// Of a piece that was decided beside the rows: what went in instead, or that it is not spun.
export function extraSheet(at, beside = null) {
  const { plan, ply } = at;
  const { mass, length } = measuresOf(plan);
  const piece = { lot: beside?.lot ?? plan.lots[0].name };
  const said = el("p", { class: "wrong", role: "alert" });
  const keep = (key) => (value) => {
    if (value === null) delete piece[key];
    else piece[key] = value;
  };
  const add = () => {
    if (piece.mass_g || piece.length_m) at.note((held) => addExtra(held, ply, piece), null);
    else said.textContent = `Type its ${mass.plural}, or its ${length.plural}`;
  };
  return {
    inside: [
      el("h2", {}, beside ? "The piece beside the rows" : "A piece too many"),
      lotField({ label: "Lot", lots: plan.lots, value: piece.lot, keep: keep("lot") }),
      numberField({ label: "Fibre weighed out", measure: mass, key: "mass_g", keep: keep("mass_g") }),
      numberField({ label: "Or single, measured", measure: length, key: "length_m", keep: keep("length_m") }),
      said,
    ],
    actions: [
      button("Back", () => at.open(null)),
      beside && button("It is not spun", () => at.note((held) => goWithout(held, ply, beside), null)),
      button("It is spun", add, "main"),
    ].filter(Boolean),
  };
}
