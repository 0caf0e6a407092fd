// The stash, to edit: every row is sent as it is typed; what is wrong is told beside its field.

const FIELDS = [
  ["name", "name"],
  ["colour", "colour"],
  ["mass_g", "grams"],
  ["reserve_g", "kept back, g"],
  ["note", "note"],
];

let benches = 0;

class Lots {
  constructor(model, root) {
    this.model = model;
    this.rows = [];
    this.count = 0;
    this.serial = 0;
    this.inFlight = null;
    benches += 1;
    this.id = `yc-lots-${benches}`;
    const button = (text, task) => el("button", { type: "button", text, onclick: task });
    this.tools = {
      add: button("Add a lot", () => this.add()),
      undo: button("Undo", () => this.ask("undo")),
      redo: button("Redo", () => this.ask("redo")),
      save: button("Save the plan", () => this.ask("save")),
      copy: button("Write a copy", () => this.ask("copy")),
    };
    this.name = el("input", { id: `${this.id}-file`, size: 16 });
    this.file = el("input", { type: "file", accept: ".toml", id: `${this.id}-open`, onchange: () => this.open(this.file.files[0]) });
    this.total = el("strong");
    this.said = el("p", { class: "said", role: "status", "aria-live": "polite" });
    this.list = el("ul", { class: "lots", "aria-label": "lots of the stash" });
    root.append(
      el("div", { class: "row" }, ...Object.values(this.tools), this.total),
      this.said,
      this.list,
      el("div", { class: "row" },
        el("label", { for: this.name.id, text: "file name" }), this.name,
        button("Save the plan as", () => this.ask("save_as", { name: this.name.value })),
        el("label", { for: this.file.id, text: "open another plan" }), this.file),
      el("p", { class: "quiet", text: "A colour is #rrggbb, or L a b of CIELAB; a carded blend is 2 Kelp + 1 Foam; "
        + "a later bath is: bath 2 of Kelp on Foam, 0.7 taken." }),
    );
    root.addEventListener("dragover", (event) => event.preventDefault());
    root.addEventListener("drop", (event) => { event.preventDefault(); this.open(event.dataTransfer.files[0]); });
    this.hear = (told) => this[`on_${told.kind}`]?.(told);
    model.on("msg:custom", this.hear);
    model.send({ do: "ready" });
  }

  leave() {
    this.model.off("msg:custom", this.hear);
    clearTimeout(this.soon);
  }

  ask(task, more = {}) {
    this.model.send({ do: task, ...more });
  }

  async open(file) {
    if (!file) return;
    const content = new Uint8Array(await file.arrayBuffer());
    this.model.send({ do: "open", name: file.name }, undefined, [content]);
    this.file.value = "";
  }

  // --- messages: one at a time, always with all rows as they stand --------------------------------

  changed(wait = 250) {
    clearTimeout(this.soon);
    this.soon = setTimeout(() => this.send(), wait);
  }

  send() {
    clearTimeout(this.soon);
    if (this.inFlight !== null) { this.again = true; return; }
    this.serial += 1;
    this.inFlight = this.serial;
    this.typed = JSON.stringify(this.values());
    this.model.send({ do: "rows", rows: this.values(), serial: this.serial });
  }

  values() {
    return this.rows.map(({ key, field }) => ({ key, ...Object.fromEntries(FIELDS.map(([name]) => [name, field[name].value])) }));
  }

  // True where an answer is to what still stands typed.
  answered({ serial }) {
    if (serial !== null && serial !== undefined && serial === this.inFlight) {
      this.inFlight = null;
      const same = this.typed === JSON.stringify(this.values());
      if (this.again || !same) { this.again = false; this.send(); return false; }
      return true;
    }
    return this.inFlight === null;
  }

  on_rows(told) {
    if (!this.answered(told)) return;
    while (this.rows.length > told.rows.length) this.rows.pop().row.remove();
    while (this.rows.length < told.rows.length) this.make();
    told.rows.forEach((row, at) => this.fill(this.rows[at], row, told.colours[at], told.inks[at]));
    this.total.textContent = told.total;
    this.tools.undo.disabled = !told.undo;
    this.tools.redo.disabled = !told.redo;
    this.tools.save.disabled = !told.saves;
    this.said.textContent = told.said;
  }

  on_faults(told) {
    if (!this.answered(told)) return;
    for (const row of this.rows) this.clear(row);
    for (const { row, field, words } of told.faults) {
      const input = this.rows[row].field[field];
      input.setAttribute("aria-invalid", "true");
      this.rows[row].fault[field].textContent = words;
    }
    const count = told.faults.length;
    const fields = count ? `${count} ${count > 1 ? "fields" : "field"} cannot stay as typed. ` : "";
    this.said.textContent = `${fields}${told.said ? `${told.said} ` : ""}The plan is as it was.`;
  }

  on_said({ said }) {
    this.said.textContent = said;
  }

  // --- rows --------------------------------------------------------------------------------------

  make() {
    this.count += 1;
    const at = this.count;
    const made = { key: null, field: {}, fault: {} };
    made.chip = el("span", { class: "chip" });
    made.pick = el("input", { type: "color", oninput: () => { made.field.colour.value = made.pick.value; this.changed(); } });
    const cells = FIELDS.map(([name, words]) => {
      const id = `${this.id}-${at}-${name}`;
      const input = el("input", { id, class: name, "aria-describedby": `${id}-fault`, oninput: () => this.changed(),
        onchange: () => this.changed(0), ...(name.endsWith("_g") ? { inputmode: "decimal" } : {}) });
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

  fill(made, told, colour, ink) {
    made.key = told.key;
    const active = made.row.getRootNode().activeElement;
    for (const [name] of FIELDS) {
      const input = made.field[name];
      const sameNumber = input === active && Number(input.value) === Number(told[name]) && input.value !== "";
      if (input.value.trim() !== told[name] && !sameNumber) input.value = told[name];
    }
    this.clear(made);
    made.chip.textContent = told.name;
    made.chip.style.background = colour;
    made.chip.style.color = ink;
    made.pick.value = colour;
    made.pick.setAttribute("aria-label", `pick a colour for ${told.name}`);
    made.remove.setAttribute("aria-label", `remove ${told.name}`);
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
    this.rows.splice(at, 1);
    made.row.remove();
    this.send();
    (this.rows[Math.min(at, this.rows.length - 1)]?.remove ?? this.tools.add).focus();
  }
}

export default {
  render({ model, el: host }) {
    const root = el("div", { class: "yc" });
    host.append(root);
    const lots = new Lots(model, root);
    return () => lots.leave();
  },
};
