// The stash, to edit: every row is sent as it is typed; what is wrong is told beside its field.

const FIELDS = [
  ["name", "name"],
  ["colour", "colour"],
  ["mass_g", "grams"],
  ["reserve_g", "kept back, g"],
  ["note", "note"],
];

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
    const button = (text, task) => el("button", { type: "button", text, onclick: task });
    this.tools = {
      add: button("Add a lot", () => this.add()),
    };
    this.total = el("strong", { class: "total" });
    this.said = el("p", { class: "said", role: "status", "aria-live": "polite" });
    this.list = el("ul", { class: "lots", "aria-label": "lots of the stash" });
    root.append(
      el("div", { class: "row" }, ...Object.values(this.tools), this.total),
      el("p", { class: "quiet", text: "A colour is #rrggbb, or L a b of CIELAB; a carded blend is 2 Kelp + 1 Foam; "
        + "a later bath is: bath 2 of Kelp on Foam, 0.7 taken." }),
      this.said,
      this.list,
    );
    this.hear = (told) => this[`on_${told.kind}`]?.(told);
    model.on("msg:custom", this.hear);
    model.send({ do: "ready", view: this.id });
  }

  leave() {
    this.model.off("msg:custom", this.hear);
    clearTimeout(this.soon);
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
    return this.rows.map(({ key, field }) => ({ key, ...Object.fromEntries(FIELDS.map(([name]) => [name, field[name].value])) }));
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
    const arrived = this.hasArrived(told);
    if (arrived) {
      this.gone = this.gone.filter(({ made }) => this.sent.includes(made));
      this.sent.forEach((made, at) => { made.key = told.rows[at].key; });
      this.version = told.version;
    }
    const isAsked = arrived || this.isMine(told) || told.anew;
    if (this.inFlight === null && !this.isTyped && (isAsked || !this.isFaulty)) this.show(told, arrived);
    if (arrived) this.goOn();
  }

  // Rows as the plan has them; `typing` leaves alone the field that fingers are in.
  show(told, typing) {
    this.isFaulty = false;
    this.gone = [];
    this.version = told.version;
    while (this.rows.length > told.rows.length) this.rows.pop().row.remove();
    while (this.rows.length < told.rows.length) this.make();
    told.rows.forEach((row, at) => this.fill(this.rows[at], row, typing));
    told.rows.forEach((row, at) => this.paint(this.rows[at], row.name, told.colours[at], told.inks[at]));
    this.total.textContent = told.total;
    this.say(told.said);
  }

  say(words) {
    this.said.textContent = [this.refusal, words].filter(Boolean).join(" ");
    this.refusal = "";
  }

  on_faults(told) {
    if (!this.hasArrived(told)) return;
    if (!this.isTyped) this.mark(told);
    this.goOn();
  }

  mark(told) {
    this.isFaulty = true;
    for (const row of this.rows) this.clear(row);
    for (const { row, field, words } of told.faults) {
      this.rows[row].field[field].setAttribute("aria-invalid", "true");
      this.rows[row].fault[field].textContent = words;
    }
    const count = told.faults.length;
    const fields = count ? `${count} ${count > 1 ? "fields" : "field"} cannot stay as typed. ` : "";
    this.say(`${fields}${told.said ? `${told.said} ` : ""}The plan is as it was.`);
  }

  // A lot that others are made from comes back where it stood; the rest is tried without that.
  on_refused(told) {
    if (!this.hasArrived(told)) return;
    for (const { made, at } of this.gone.splice(0).reverse()) {
      this.list.insertBefore(made.row, this.rows[at]?.row ?? null);
      this.rows.splice(at, 0, made);
      made.remove.focus();
    }
    this.refusal = told.said;
    this.send();
  }

  // --- rows --------------------------------------------------------------------------------------

  make() {
    this.count += 1;
    const at = this.count;
    const made = { key: null, field: {}, fault: {} };
    made.chip = el("span", { class: "chip" });
    made.pick = el("input", { type: "color", "aria-label": "pick a colour", oninput: () => { made.field.colour.value = made.pick.value; this.changed(); } });
    const cells = FIELDS.map(([name, words]) => {
      const id = `${this.id}-${at}-${name}`;
      const input = el(name === "note" ? "textarea" : "input", { id, class: name, "aria-describedby": `${id}-fault`,
        ...(name === "note" ? { rows: 1 } : {}), oninput: () => this.changed(),
        onchange: () => this.isTyped && this.changed(0), ...(name.endsWith("_g") ? { inputmode: "decimal" } : {}) });
      made.field[name] = input;
      made.fault[name] = el("span", { class: "fault", id: `${id}-fault`, "aria-live": "polite" });
      const pick = name === "colour" ? [made.pick] : [];
      return el("div", { class: `cell ${name}` }, el("label", { for: id, text: words }),
        el("div", { class: "pair" }, ...pick, input), made.fault[name]);
    });
    made.remove = el("button", { type: "button", text: "Remove", onclick: () => this.remove(made) });
    made.row = el("li", {}, made.chip, ...cells, made.remove);
    this.rows.push(made);
    this.list.append(made.row);
    return made;
  }

  fill(made, told, typing) {
    made.key = told.key;
    const active = typing ? made.row.getRootNode().activeElement : null;
    for (const [name] of FIELDS) {
      const input = made.field[name];
      if (input !== active && input.value !== told[name]) input.value = told[name];
    }
    this.clear(made);
  }

  paint(made, name, colour, ink) {
    made.chip.textContent = name;
    made.chip.style.background = colour;
    made.chip.style.color = ink;
    made.pick.value = colour;
    made.pick.setAttribute("aria-label", `pick a colour for ${name}`);
    made.remove.setAttribute("aria-label", `remove ${name}`);
  }

  clear(made) {
    for (const [name] of FIELDS) {
      made.field[name].setAttribute("aria-invalid", "false");
      made.fault[name].textContent = "";
    }
  }

  add() {
    const made = this.make();
    const names = new Set(this.rows.map(({ field }) => field.name.value));
    let at = this.rows.length;
    while (names.has(`Lot ${at}`)) at += 1;
    made.field.name.value = `Lot ${at}`;
    made.field.colour.value = "#808080";
    made.field.mass_g.value = "10";
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
