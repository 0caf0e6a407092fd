// The stash, to edit: every row is sent as it is typed; what is wrong is told beside its field.

import { button, el, inRow, isolated, rootIn } from "../element.js";
import { listen } from "../protocol.js";
import { LotLines } from "./lot_lines.js";
import { LotRow } from "./lot_row.js";

class Lots {
  constructor(model, root) {
    this.model = model;
    this.rows = [];
    this.gone = []; // rows taken out since the last answer: they come back where others need them
    this.count = 0;
    this.serial = 0;
    this.inFlight = null;
    this.isTyped = false; // typed and not sent yet
    this.isFaulty = false;
    this.id = `yc-lots-${Math.random().toString(36).slice(2)}`;
    this.tools = { add: button("Add a lot", () => this.add()) };
    this.everyRolag();
    this.lines = new LotLines(this.id, model);
    this.total = el("strong", { class: "total" });
    this.said = el("p", { class: "said", role: "status", "aria-live": "polite" });
    this.hint = el("ul", { class: "hint" });
    this.list = el("ul", { class: "lots", "aria-label": "lots of the stash" });
    this.caution = el("p", { class: "quiet" });
    root.append(
      inRow(...Object.values(this.tools), this.total),
      this.lines.fold,
      inRow(this.every.label, this.every.input, this.every.fault),
      el("details", { class: "quiet" }, el("summary", { text: "How to type a colour" }), this.hint),
      this.said,
      this.list,
      this.caution,
    );
    this.deaf = listen(model, this);
    model.send({ do: "ready", view: this.id });
  }

  // One field that gives the grams of one rolag to all lots.
  everyRolag() {
    const id = `${this.id}-every`;
    const give = (input) => {
      for (const made of this.rows) made.giveRolag(input.value);
      this.changed();
    };
    const input = el("input", { id, class: "every", inputmode: "decimal", "aria-describedby": `${id}-fault`, oninput: () => give(input), onchange: () => this.isTyped && this.changed(0) });
    const fault = el("span", { class: "fault", id: `${id}-fault`, "aria-live": "polite" });
    this.every = { label: el("label", { for: id }), input, fault };
  }

  // What all lots say, where they say the same.
  tellEvery() {
    const { input, fault } = this.every;
    const said = new Set(this.rows.map(({ field }) => field.rolag_g.value));
    const isOne = said.size === 1 && this.rows.every(({ field }) => !field.rolags.value.trim());
    if (input.getRootNode().activeElement !== input) input.value = isOne ? [...said][0] : "";
    input.setAttribute("aria-invalid", "false");
    fault.textContent = "";
  }

  leave() {
    this.deaf();
    clearTimeout(this.soon);
    for (const { photo } of this.rows) photo.leave();
  }

  // --- messages: one at a time, always with all rows as they stand --------------------------------

  changed(wait = 250) {
    this.isTyped = true;
    clearTimeout(this.soon);
    this.soon = setTimeout(() => this.send(), wait);
  }

  send() {
    clearTimeout(this.soon);
    if (this.inFlight !== null) { this.isTyped = true; return; }
    this.isTyped = false;
    this.serial += 1;
    this.inFlight = this.serial;
    this.sent = [...this.rows];
    this.model.send({ do: "rows", view: this.id, rows: this.values(), serial: this.serial, version: this.version });
  }

  values() {
    return this.rows.map((made) => made.values());
  }

  isMine(told) {
    return told.view === this.id;
  }

  // True where an answer is to rows that are on their way from here.
  hasArrived(told) {
    if (!this.isMine(told) || told.serial !== this.inFlight || told.do !== "rows") return false;
    this.inFlight = null;
    return true;
  }

  // Goes on after an answer with what was typed meanwhile.
  goOn() {
    if (this.isTyped) this.send();
  }

  on_rows(told) {
    if (told.palette) this.palette = told.palette;
    if (told.fields && !this.about) this.tellUnits(told);
    if (told.caution) this.caution.textContent = told.caution;
    if (!this.about) return;
    if (this.hasArrived(told)) {
      this.takeBoth(told);
      this.goOn();
    } else if (this.inFlight === null && !this.isTyped && (this.isMine(told) || told.anew || !this.isFaulty)) {
      this.gone = [];
      this.show(told);
    }
  }

  // What fields are called and numbers alone are, in the units of the plan.
  tellUnits({ fields, more, weighed, new_mass: newMass, example }) {
    this.lines.show(example);
    this.about = { fields, more, weighed, palette: this.palette };
    this.newMass = newMass;
    this.every.label.textContent = `${more.find(({ key }) => key === "rolag_g").words}, for all lots`;
    for (const made of this.rows) made.name(this.about);
  }

  // Rows as the plan has them.
  show(told) {
    if (told.fields) this.tellUnits(told);
    this.haveRows(told.rows.length);
    told.rows.forEach((row, at) => this.rows[at].put(row));
    this.order();
    this.tell(told, this.rows);
    if (told.typed?.length) this.typeAgain(told.typed);
  }

  haveRows(count) {
    while (this.rows.length > count) this.rows.pop().row.remove();
    while (this.rows.length < count) this.rows.push(this.make());
  }

  // Rows that are not right yet, as they are typed in other units.
  typeAgain(rows) {
    this.haveRows(rows.length);
    rows.forEach((row, at) => this.rows[at].type(row));
    this.order();
    this.send();
  }

  // The answer to rows that were sent: it may bring lots from elsewhere, or take some away.
  takeBoth(told) {
    const made = told.rows.map(() => null);
    const left = this.sent.filter((each, at) => {
      const place = told.places[at];
      if (place !== null) made[place] = each;
      return place === null;
    });
    const removed = made.map((each) => each !== null && !this.rows.includes(each));
    told.rows.forEach((row, at) => {
      made[at] ??= this.make();
      if (this.sent.includes(made[at])) made[at].take(row);
      else made[at].put(row);
    });
    for (const { row } of left) row.remove();
    this.gone = this.gone.filter((each) => made.includes(each.made));
    const fresh = this.rows.filter((each) => !this.sent.includes(each));
    this.rows = [...made.filter((_, at) => !removed[at]), ...fresh];
    this.order();
    this.tell(told, made);
  }

  // Puts rows on the page in their order; those that are in place are left alone, and so is the focus.
  order() {
    this.rows.forEach(({ row }, at) => {
      if (this.list.children[at] !== row) this.list.insertBefore(row, this.list.children[at] ?? null);
    });
  }

  tell(told, made) {
    this.isFaulty = false;
    this.version = told.version;
    told.rows.forEach(({ name }, at) => {
      made[at].paint(name, told.colours[at], told.inks[at]);
      made[at].tellGuess(told.guesses[at]);
      made[at].tellMakes(told.rolags[at]);
    });
    this.tellEvery();
    this.hint.replaceChildren(...told.hint.map(([example, words]) =>
      el("li", {}, ...(example ? [el("code", { text: example }), ": "] : []), words)));
    this.total.textContent = isolated(told.total);
    if (told.rows.length === 1) this.lines.open();
    this.say(told.said);
  }

  say(words) {
    this.said.textContent = isolated([this.refusal, words].filter(Boolean).join(" "));
    this.refusal = "";
  }

  on_faults(told) {
    if (!this.hasArrived(told)) return;
    if (!this.isTyped) this.mark(told);
    this.goOn();
  }

  mark(told) {
    this.isFaulty = true;
    for (const row of this.rows) row.clear();
    const faults = this.withoutEvery(told.faults);
    for (const { row, field, words } of faults) this.rows[row].mark(field, words);
    const count = faults.length + Boolean(this.every.fault.textContent);
    const fields = count ? `${count} ${count > 1 ? "fields are" : "field is"} not right yet. ` : "";
    this.say(`${fields}${told.said ? `${told.said.replace(/[.]?$/, ".")} ` : ""}The plan is as it was.`);
  }

  // What is wrong with the one field for all lots is told there, once.
  withoutEvery(faults) {
    const { input, fault } = this.every;
    const isOfAll = ({ row, field }) => field === "rolag_g" && input.value.trim() !== "" && this.rows[row].field.rolag_g.value === input.value;
    const [first] = faults.filter(isOfAll);
    input.setAttribute("aria-invalid", String(Boolean(first)));
    fault.textContent = first?.words ?? "";
    return faults.filter((each) => !isOfAll(each));
  }

  // A lot that others are made from comes back where it stood; the rest is tried without that.
  on_refused(told) {
    if (!this.hasArrived(told)) return;
    for (const { made, at } of this.gone.splice(0).toReversed()) {
      this.list.insertBefore(made.row, this.rows[at]?.row ?? null);
      this.rows.splice(at, 0, made);
      made.remove.focus();
    }
    this.refusal = told.said;
    this.send();
  }

  on_lines(told) {
    if (this.isMine(told)) this.lines.tell(told);
  }

  // What a photograph of one lot says.
  on_seen(told) {
    if (this.isMine(told)) this.rows.find(({ id }) => id === told.of)?.photo.tell(told);
  }

  // --- rows --------------------------------------------------------------------------------------

  make() {
    this.count += 1;
    return new LotRow(`${this.id}-${this.count}`, this.about, {
      changed: (wait) => this.changed(wait),
      flush: () => this.isTyped && this.changed(0),
      remove: (made) => this.remove(made),
      photograph: (about, buffers) => this.model.send({ do: "photograph", view: this.id, ...about }, undefined, buffers),
    });
  }

  add() {
    const made = this.make();
    this.rows.push(made);
    this.list.append(made.row);
    const names = new Set(this.rows.map(({ field }) => field.name.value));
    let at = this.rows.length;
    while (names.has(`Lot ${at}`)) at += 1;
    made.field.name.value = `Lot ${at}`;
    made.field.colour.value = "grey";
    made.field.mass_g.value = this.newMass;
    this.send();
    made.field.name.focus();
    made.field.name.select();
  }

  remove(made) {
    const at = this.rows.indexOf(made);
    this.gone.push({ made, at });
    this.rows.splice(at, 1);
    made.row.remove();
    this.send();
    (this.rows[Math.min(at, this.rows.length - 1)]?.remove ?? this.tools.add).focus();
  }
}

export default {
  render({ model, el: host }) {
    const root = rootIn(host);
    const lots = new Lots(model, root);
    return () => lots.leave();
  },
};
