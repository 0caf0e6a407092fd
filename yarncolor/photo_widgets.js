// A photograph to draw on. Boxes are drawn, typed and sent here; what they say comes from Python.
// One message is under way at a time, and of readings that wait only the latest is asked for.

const TOOLS = {
  fibre: "fibre",
  white: "white",
  grey: "grey card",
  corners: "corners of a target",
  place: "white places for the light",
};
const CALLED = { fibre: "fibre", white: "white", grey: "grey card", place: "light" };
const WAYS = {
  nothing: "nothing (as it comes)",
  white: "something white in the picture",
  grey: "a grey card in the picture",
  target: "a 24-patch target",
};
const DEGREES = { 1: "3 × 3", 2: "root polynomial" };
const SIDES = ["left", "top", "width", "height"];
const HEAD = ["lot", "colour", "may be out by", "how even", "pixels", "doubts"];
const HINT =
  "Drag on the picture to draw; drag a box to move it, its corners to size it. " +
  "Or put one in the middle and type where it lies, in percent.";
const START = [[0.1, 0.1], [0.9, 0.1], [0.9, 0.9], [0.1, 0.9]];
const GRIP_PX = 12;
const DRAG_PX = 5;
const FRESH = { boxes: [], corners: [], way: "nothing", degree: 1, even: false, proposed: [] };

const isSingle = (kind) => kind === "white" || kind === "grey";

class Bench {
  constructor(model, el) {
    this.model = model;
    this.view = crypto.randomUUID?.() ?? String(Math.random());
    this.drawn = structuredClone(FRESH);
    this.plan = { lots: [], can_undo: false };
    this.tool = "fibre";
    this.serial = this.busy = 0;
    this.waiting = [];
    this.faults = {};
    this.readings = { rows: [], correction: [], fit: "", light: "", faults: {}, alt: "" };
    this.rows = new Map();
    el.append(this.built());
    this.sizes = new ResizeObserver(() => this.paint());
    this.sizes.observe(this.canvas);
  }

  // --- messages

  ask(message, buffers = []) {
    if (message.ask === "read") this.waiting = this.waiting.filter((one) => one[0].ask !== "read");
    else for (const place of ["find", "save", "picture", "take"]) delete this.faults[place];
    this.waiting.push([message, buffers]);
    this.next();
  }

  next() {
    if (this.busy || !this.waiting.length) return;
    const [message, buffers] = this.waiting.shift();
    this.busy = this.serial += 1;
    const drawn = message.ask === "open" ? {} : { drawn: this.drawn };
    const about = { view: this.view, serial: this.serial };
    this.model.send({ ...message, ...drawn, ...about }, undefined, buffers);
  }

  heard(answer, buffers) {
    const isOurs = answer.view === this.view && answer.serial === this.busy;
    if (answer.plan) this.plan = answer.plan;
    if (answer.photo && (isOurs || answer.ask === "picture")) this.showPhoto(answer, buffers[0]);
    if (isOurs) {
      this.busy = 0;
      this.take(answer);
    }
    this.show();
    this.next();
  }

  take(answer) {
    const editions = answer.editions?.map((edition) => made("option", {}, edition));
    if (editions) this.edition.replaceChildren(...editions);
    if (answer.ask === "open") this.drawn = { ...structuredClone(FRESH), ...answer.drawn };
    this.drawn.edition ??= this.edition.value;
    if (answer.readings) this.readings = answer.readings;
    if (answer.ask === "take") this.readings.faults = answer.faults;
    else Object.assign(this.faults, answer.faults);
    if (answer.proposed) {
      this.drawn.proposed = answer.proposed;
      this.revealed = "proposal 1";
    }
    if ("said" in answer) tell(this.said, answer.said);
    else if (answer.ask !== "read") tell(this.said, "");
  }

  changed() {
    const places = this.drawn.boxes.filter((mark) => mark.kind === "place").length;
    if (places < 3) this.drawn.even = false;
    this.show();
    this.ask({ ask: "read" });
  }

  // --- the picture

  async showPhoto(answer, buffer) {
    const { width, height, name, notes } = answer.photo;
    this.photo = await createImageBitmap(new Blob([buffer], { type: "image/jpeg" }));
    const isOther = answer.ask === "picture";
    const from = answer.photo.from ?? [width, height];
    const shrunk = from[0] > width ? `shrunk from ${from[0]} × ${from[1]}` : "";
    const size = `${width} × ${height} pixels`;
    const about = [size, shrunk, notes].filter(Boolean).join("; ");
    tell(this.about, name ? `${name}: ${about}` : about);
    if (isOther) this.drawn.proposed = [];
    const kept = isOther && this.drawn.boxes.length ? " Boxes stayed where they were." : "";
    if (isOther) tell(this.said, `Opened.${kept}`);
    this.canvas.style.aspectRatio = `${width} / ${height}`;
    this.canvas.style.width = `min(100%, ${(54 * width) / height}vh)`;
    this.show();
  }

  async open(file) {
    if (!file) return;
    tell(this.said, "Opening…");
    try {
      const { picture, from } = await shrunken(file);
      this.ask({ ask: "picture", name: file.name, from }, [picture]);
    } catch {
      const remedy = "the browser cannot open it as a picture; save it as JPEG, PNG or WebP";
      this.faults.picture = `${file.name}: ${remedy}`;
      tell(this.said, "");
      this.show();
    }
  }

  paint() {
    if (!this.photo || !this.canvas.clientWidth) return;
    const sharp = window.devicePixelRatio || 1;
    this.canvas.width = Math.round(this.canvas.clientWidth * sharp);
    this.canvas.height = Math.round(this.canvas.clientHeight * sharp);
    const pen = this.canvas.getContext("2d");
    pen.drawImage(this.photo, 0, 0, this.canvas.width, this.canvas.height);
    pen.scale(sharp, sharp);
    const { proposed, boxes } = this.drawn;
    for (const one of proposed) this.paintBox(pen, one.box, String(one.number), true);
    for (const mark of boxes.filter((one) => isWhole(one.box)))
      this.paintBox(pen, mark.box, this.titleOf(mark), false, mark.kind === this.tool);
    this.paintCorners(pen);
  }

  paintBox(pen, box, words, isDashed, isChosen) {
    const corners = cornersOf(box).map((place) => this.pixel(place));
    framed(pen, corners, isDashed);
    if (isChosen) corners.forEach((corner) => dotted(pen, corner));
    named(pen, corners[isDashed ? 3 : 0], words, isDashed);
  }

  paintCorners(pen) {
    const corners = this.drawn.corners.filter(isWhole).map((place) => this.pixel(place));
    if (corners.length > 1) framed(pen, corners, false);
    corners.forEach((corner, at) => {
      dotted(pen, corner);
      named(pen, corner, String(at + 1), at > 1);
    });
  }

  pixel([x, y]) {
    return [x * this.canvas.clientWidth, y * this.canvas.clientHeight];
  }

  place(event) {
    const seen = this.canvas.getBoundingClientRect();
    const x = (event.clientX - seen.left) / seen.width;
    const y = (event.clientY - seen.top) / seen.height;
    return [within(x, 0, 1), within(y, 0, 1)];
  }

  apart(one, other) {
    const [[x, y], [u, v]] = [this.pixel(one), this.pixel(other)];
    return Math.hypot(x - u, y - v);
  }

  // --- drawing: a grip takes the pointer's place

  down(event) {
    if (!this.photo || !event.isPrimary || event.button) return;
    event.preventDefault();
    this.canvas.setPointerCapture(event.pointerId);
    const at = this.place(event);
    this.grip = this.tool === "corners" ? this.cornerGrip(at) : this.boxGrip(at);
  }

  drag(event) {
    this.grip?.(this.place(event));
  }

  up() {
    this.grip = null;
  }

  boxGrip(at) {
    const own = this.drawn.boxes.filter((mark) => mark.kind === this.tool && isWhole(mark.box));
    for (const mark of own.reverse()) {
      const corners = cornersOf(mark.box);
      const near = corners.findIndex((corner) => this.apart(corner, at) < GRIP_PX);
      if (near >= 0) return (to) => this.put(mark, between(corners[(near + 2) % 4], to));
    }
    const held = own.find((mark) => holds(mark.box, at));
    return held ? this.moveGrip(held, at) : this.drawGrip(at);
  }

  moveGrip(mark, at) {
    const [left, top, width, height] = mark.box;
    return (to) => {
      const x = within(left + to[0] - at[0], 0, 1 - width);
      const y = within(top + to[1] - at[1], 0, 1 - height);
      this.put(mark, [round(x), round(y), width, height]);
    };
  }

  drawGrip(at) {
    let mark = null;
    tell(this.said, `To draw a box on ${CALLED[this.tool]}, drag across it.`);
    return (to) => {
      if (!mark && this.apart(at, to) < DRAG_PX) return;
      tell(this.said, "");
      mark ??= this.added(this.tool, between(at, to));
      this.put(mark, between(at, to));
    };
  }

  cornerGrip(at) {
    const { corners } = this.drawn;
    let near = corners.findIndex((corner) => isWhole(corner) && this.apart(corner, at) < GRIP_PX);
    if (near < 0 && corners.length === 4) {
      tell(this.said, "All four corners are set: drag one to move it.");
      return null;
    }
    if (near < 0) near = corners.push(at.map(round)) - 1;
    const moved = (to) => {
      corners[near] = to.map(round);
      this.cornersChanged();
    };
    moved(at);
    return moved;
  }

  put(mark, box) {
    mark.box = box;
    this.changed();
  }

  added(kind, box) {
    const { boxes } = this.drawn;
    const isOne = isSingle(kind);
    const there = isOne && boxes.find((mark) => mark.kind === kind);
    if (isOne) this.drawn.way = kind;
    if (there) return there;
    const key = String(1 + Math.max(0, ...boxes.map((mark) => Number(mark.key))));
    const lot = kind === "fibre" ? { name: "", mass_g: 25 } : {};
    boxes.push({ key, kind, box, ...lot });
    this.revealed = key;
    const isThird = kind === "place" && boxes.filter((mark) => mark.kind === kind).length === 3;
    if (isThird) this.drawn.even = true;
    return boxes[boxes.length - 1];
  }

  addedByKey() {
    if (this.tool === "corners") {
      const { corners } = this.drawn;
      corners.push(...START.slice(corners.length).map((corner) => [...corner]));
      this.cornersChanged();
      this.rows.get("corners").fields[0].focus();
      return;
    }
    const many = this.drawn.boxes.filter((mark) => mark.kind === this.tool).length;
    const start = round(0.4 + 0.03 * (many % 10));
    const mark = this.added(this.tool, [start, start, 0.2, 0.2]);
    this.changed();
    const row = this.rows.get(mark.key);
    (row.name ?? row.fields[0]).focus();
  }

  cornersChanged() {
    if (this.drawn.corners.length === 4) this.drawn.way = "target";
    this.changed();
  }

  removed(list, one) {
    list.splice(list.indexOf(one), 1);
    this.add.focus();
    this.changed();
  }

  titleOf(mark) {
    const alike = this.drawn.boxes.filter((one) => one.kind === mark.kind);
    const called = CALLED[mark.kind];
    if (mark.name?.trim()) return mark.name.trim();
    return isSingle(mark.kind) ? called : `${called} ${alike.indexOf(mark) + 1}`;
  }

  // --- what is shown

  show() {
    this.showRows();
    this.showWay();
    this.showReadings();
    this.showPlan();
    for (const [place, line] of Object.entries(this.lines))
      tell(line, this.faults[place] ?? this.readings.faults[place] ?? "");
    this.paint();
  }

  showRows() {
    const wanted = new Map(this.drawn.boxes.map((mark) => [mark.key, () => this.boxRow(mark)]));
    if (this.drawn.corners.length) wanted.set("corners", () => this.cornersRow());
    for (const one of this.drawn.proposed)
      wanted.set(`proposal ${one.number}`, () => this.proposedRow(one));
    for (const [key, row] of this.rows) {
      if (wanted.has(key) && row.of === this.ofRow(key)) continue;
      row.root.remove();
      this.rows.delete(key);
    }
    let at = 1;
    for (const [key, make] of wanted) {
      if (!this.rows.has(key)) this.rows.set(key, { ...make(), of: this.ofRow(key) });
      const row = this.rows.get(key);
      const there = this.list.children[at];
      if (there !== row.root) this.list.insertBefore(row.root, there ?? null);
      at += 1;
      row.sync?.();
      if (row.fault) tell(row.fault, this.readings.faults[key] ?? "");
    }
    const shown = this.rows.get(this.revealed)?.root;
    if (shown) this.list.scrollTop = shown.offsetTop - this.list.offsetTop;
    this.revealed = null;
    tell(this.none, wanted.size ? "" : "Nothing is drawn yet.");
  }

  ofRow(key) {
    const { boxes, corners, proposed } = this.drawn;
    if (key === "corners") return `${corners.length} corners`;
    const isOurs = (one) => key === `proposal ${one.number}`;
    return boxes.find((mark) => mark.key === key) ?? proposed.find(isOurs);
  }

  boxRow(mark) {
    const shares = SIDES.map((side, at) =>
      shareField(side, (share) => this.put(mark, mark.box.with(at, share))),
    );
    const lot = mark.kind === "fibre" ? this.lotFields(mark) : null;
    const legend = made("legend");
    const fault = made("p", { className: "fault" });
    const remove = button("Remove", () => this.removed(this.drawn.boxes, mark));
    const where = shares.map((one) => one.label);
    const rows = lot ? [[...lot.labels, remove], where] : [[...where, remove]];
    const lines = rows.map((inside) => made("div", { className: "row" }, ...inside));
    const root = made("fieldset", {}, legend, ...lines, fault);
    const sync = () => {
      tell(legend, this.titleOf(mark));
      remove.setAttribute("aria-label", `Remove ${this.titleOf(mark)}`);
      shares.forEach((one, at) => fill(one.field, percent(mark.box[at])));
      lot?.sync();
    };
    return { root, fault, sync, name: lot?.name, fields: shares.map((one) => one.field) };
  }

  lotFields(mark) {
    const about = { type: "text", maxLength: 60, autocomplete: "off", value: mark.name };
    const name = made("input", about);
    name.setAttribute("list", this.lots.id);
    name.oninput = () => {
      mark.name = name.value;
      this.changed();
    };
    const weighed = ({ target }) => {
      mark.mass_g = target.value === "" ? null : Number(target.value);
      this.changed();
    };
    const grams = numberField("grams", { min: 0, step: "any" }, weighed);
    const sync = () => {
      const known = this.plan.lots.find(([one]) => one === mark.name.trim());
      grams.field.disabled = Boolean(known);
      fill(grams.field, String((known ? known[1] : mark.mass_g) ?? ""));
      tell(grams.label.firstChild, known ? "grams stay" : "grams");
    };
    const nameLabel = labelled("name of the lot", name);
    nameLabel.className = "long";
    return { labels: [nameLabel, grams.label], name, sync };
  }

  cornersRow() {
    const { corners } = this.drawn;
    const fields = corners.flatMap((_, at) =>
      ["left", "top"].map((side, axis) =>
        shareField(`${at + 1}, ${side}`, (share) => {
          corners[at] = corners[at].with(axis, share);
          this.cornersChanged();
        }),
      ),
    );
    const remove = button("Remove", () => {
      corners.length = 0;
      this.add.focus();
      this.changed();
    });
    remove.setAttribute("aria-label", "Remove the corners");
    const inside = [...fields.map((one) => one.label), remove];
    const legend = made("legend", {}, "corners of the target, going round");
    const root = made("fieldset", {}, legend, made("div", { className: "row" }, ...inside));
    const sync = () => fields.forEach((one, at) => fill(one.field, percent(corners.flat()[at])));
    return { root, sync, fields: fields.map((one) => one.field) };
  }

  proposedRow(one) {
    const { proposed } = this.drawn;
    const keep = button("Keep as fibre", () => {
      const [first, , last] = cornersOf(one.box);
      const mark = this.added("fibre", between(first, last));
      this.removed(proposed, one);
      this.rows.get(mark.key).name.focus();
    });
    const leave = button("Leave", () => this.removed(proposed, one));
    for (const each of [keep, leave])
      each.setAttribute("aria-label", `${each.textContent}: proposal ${one.number}`);
    const legend = made("legend", {}, `proposal ${one.number}`);
    const inside = made("div", { className: "row" }, made("span", {}, one.words), keep, leave);
    return { root: made("fieldset", { className: "proposed" }, legend, inside) };
  }

  showWay() {
    const { way, edition, degree, even, boxes } = this.drawn;
    const places = boxes.filter((mark) => mark.kind === "place").length;
    this.way.value = way;
    this.target.hidden = way !== "target";
    if (edition) this.edition.value = edition;
    this.degree.value = degree;
    this.even.checked = even;
    this.even.disabled = places < 3;
    const lacking = `needs three white places, ${places} drawn`;
    tell(this.places, places < 3 ? lacking : `${places} white places`);
  }

  showReadings() {
    const { rows, correction, fit, light, alt, faults } = this.readings;
    this.body.replaceChildren(...rows.map(readingRow));
    this.table.hidden = !rows.length;
    const told = rows.length ? [...correction, fit, light] : [fit, light];
    tell(this.words, told.filter(Boolean).join(" "));
    this.canvas.setAttribute("aria-label", alt);
    const read = rows.map((row) => `${row.name}: ${row.colour}, may be out by ${row.out_by}`);
    if (!this.grip) tell(this.heardWords, [...read, ...Object.values(faults)].join(". "));
  }

  showPlan() {
    const { lots, can_undo } = this.plan;
    this.undo.disabled = !can_undo;
    this.leave.hidden = !this.drawn.proposed.length;
    tell(this.planHead, `In the plan: ${lots.length} ${lots.length === 1 ? "lot" : "lots"}`);
    tell(this.planLots, lots.map(([name]) => name).join(", "));
    this.lots.replaceChildren(...lots.map(([value]) => made("option", { value })));
  }

  // --- the page

  built() {
    this.lines = {};
    for (const place of ["picture", "way", "corners", "light", "find", "save"])
      this.lines[place] = made("p", { className: "fault" });
    const seen = made("div", { className: "seen" }, ...this.builtPicture());
    const parts = [...this.builtTools(), ...this.builtWay(), ...this.builtEnd()];
    const hand = made("div", { className: "hand" }, ...parts);
    return made("div", { className: "yc photo" }, seen, hand);
  }

  builtPicture() {
    const file = made("input", { type: "file", accept: "image/*" });
    file.onchange = () => {
      this.open(file.files[0]);
      file.value = "";
    };
    this.about = made("span", { className: "quiet" });
    this.canvas = made("canvas", { role: "img", "aria-label": "A photograph." });
    this.canvas.onpointerdown = (event) => this.down(event);
    this.canvas.onpointermove = (event) => this.drag(event);
    this.canvas.onpointerup = this.canvas.onpointercancel = () => this.up();
    const opener = labelled("Open a picture, or drop one here", file);
    opener.className = "opener";
    const above = [made("div", { className: "row" }, opener), this.lines.picture];
    return [...above, this.canvas, this.about, ...this.builtReadings()];
  }

  builtReadings() {
    this.body = made("tbody");
    const head = HEAD.map((words) => made("th", { scope: "col" }, words));
    const caption = made("caption", { className: "sr" }, "Colours read");
    const table = made("table", {}, caption, made("thead", {}, made("tr", {}, ...head)), this.body);
    const about = { className: "wide", tabIndex: 0, role: "region", "aria-label": "Colours read" };
    this.table = made("div", about, table);
    this.words = made("p", { className: "quiet" });
    this.heardWords = made("p", { className: "sr", "aria-live": "polite" });
    return [this.table, this.words, this.heardWords];
  }

  builtTools() {
    const group = `tool ${this.view}`;
    const radios = Object.entries(TOOLS).map(([value, words]) => {
      const about = { type: "radio", name: group, value, checked: value === this.tool };
      const radio = made("input", about);
      radio.onchange = () => {
        this.tool = value;
        this.paint();
      };
      return made("label", { className: "tool" }, radio, words);
    });
    this.add = button("Put one in the middle", () => this.addedByKey());
    this.none = made("p", { className: "quiet" });
    this.list = made("div", { className: "marks" }, this.none);
    this.lots = made("datalist", { id: `lots-${this.view}` });
    const legend = made("legend", {}, "Draw a box on");
    const choose = made("div", { className: "row" }, ...radios, this.add);
    const tools = made("fieldset", {}, legend, choose, made("p", { className: "quiet" }, HINT));
    return [tools, this.list, this.lots];
  }

  builtWay() {
    const choose = (key, words) => {
      const chooser = made("select", {}, ...options(words));
      chooser.onchange = () => {
        this.drawn[key] = key === "degree" ? Number(chooser.value) : chooser.value;
        this.changed();
      };
      return chooser;
    };
    this.way = choose("way", WAYS);
    this.edition = choose("edition", {});
    this.degree = choose("degree", DEGREES);
    this.even = made("input", { type: "checkbox" });
    this.even.onchange = () => {
      this.drawn.even = this.even.checked;
      this.changed();
    };
    this.places = made("span", { className: "quiet" });
    const edition = labelled("the target was made", this.edition);
    const closely = labelled("way of putting right", this.degree);
    this.target = made("div", { className: "row" }, edition, closely);
    const even = made("label", { className: "tool" }, this.even, "make the light even");
    const legend = made("legend", {}, "Put right by");
    this.way.setAttribute("aria-label", "put right by");
    const first = made("div", { className: "row" }, this.way, even, this.places);
    const { way, corners, light } = this.lines;
    return [made("fieldset", {}, legend, first, way, this.target, corners, light)];
  }

  builtEnd() {
    const count = made("input", { type: "number", min: 1, max: 24, step: 1, value: 6 });
    const find = button("Find lots", () => this.ask({ ask: "find", count: Number(count.value) }));
    const take = button("Take the colours", () => this.ask({ ask: "take" }));
    this.undo = button("Undo", () => this.ask({ ask: "undo" }));
    const save = button("Save as a new plan", () => this.ask({ ask: "save" }));
    this.said = made("p", { className: "said", role: "status", "aria-live": "polite" }, "Opening…");
    this.planHead = made("summary");
    this.planLots = made("p");
    this.leave = button("Leave the proposals", () => {
      this.drawn.proposed = [];
      this.add.focus();
      this.changed();
    });
    const finding = [labelled("lots in the picture", count), find, this.leave];
    const row = (...inside) => made("div", { className: "row" }, ...inside);
    const plan = made("details", {}, this.planHead, this.planLots);
    const { find: findFault, save: saveFault } = this.lines;
    return [row(...finding), findFault, row(take, this.undo, save), saveFault, this.said, plan];
  }
}

function readingRow(row) {
  const swatch = made("span", { className: "swatch" });
  swatch.style.background = row.colour;
  const name = made("th", { scope: "row" }, swatch, row.name);
  const cells = [row.colour, row.out_by, row.even, row.pixels, row.doubts];
  return made("tr", {}, name, ...cells.map((cell) => made("td", {}, cell)));
}

function droppedOn(bench, root) {
  root.addEventListener("dragover", (event) => {
    event.preventDefault();
    event.stopPropagation();
  });
  root.addEventListener("drop", (event) => {
    event.preventDefault();
    event.stopPropagation();
    bench.open(event.dataTransfer.files[0]);
  });
}

export default {
  render({ model, el }) {
    const bench = new Bench(model, el);
    const heard = (answer, buffers) => bench.heard(answer, buffers);
    droppedOn(bench, el);
    model.on("msg:custom", heard);
    bench.ask({ ask: "open" });
    return () => {
      model.off("msg:custom", heard);
      bench.sizes.disconnect();
    };
  },
};
