// A photograph to draw on. Boxes are drawn, typed and sent here; what they say comes from Python.
// One message is under way at a time, and of readings that wait only the latest is asked for.

const TOOLS = {
  fibre: "fibre",
  white: "something white",
  grey: "a grey card",
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
const START = [[0.1, 0.1], [0.9, 0.1], [0.9, 0.9], [0.1, 0.9]];
const MOST_PX = 1600;
const GRIP_PX = 12;
const DRAG_PX = 5;
const FRESH = { boxes: [], corners: [], way: "nothing", degree: 1, even: false, proposed: [] };

const round = (share) => Math.round(share * 1000) / 1000;
const within = (share, least, most) => Math.min(Math.max(share, least), most);
const isWhole = (numbers) => numbers.every(Number.isFinite);
const percent = (share) => (Number.isFinite(share) ? String(round(share) * 100).slice(0, 5) : "");
const shareOf = (text) => (text.trim() === "" ? null : Number(text) / 100);

function made(tag, about = {}, ...inside) {
  const element = document.createElement(tag);
  for (const [key, value] of Object.entries(about)) {
    if (key in element) element[key] = value;
    else element.setAttribute(key, value);
  }
  element.append(...inside);
  return element;
}

const button = (words, onclick) => made("button", { type: "button", onclick }, words);
const labelled = (words, control) => made("label", {}, made("span", {}, words), control);
const options = (words) =>
  Object.entries(words).map(([value, text]) => made("option", { value }, text));

function numberField(words, about, oninput) {
  const field = made("input", { type: "number", oninput, ...about });
  return { field, label: labelled(words, field) };
}

const shareField = (words, oninput) =>
  numberField(words, { min: 0, max: 100, step: 0.5 }, (event) =>
    oninput(shareOf(event.target.value)),
  );

function fill(field, text) {
  const isTyping = field === field.getRootNode().activeElement;
  if (!isTyping && field.value !== text) field.value = text;
}

function tell(element, words) {
  if (element.textContent !== words) element.textContent = words;
}

function between([x, y], [u, v]) {
  const [left, top] = [round(Math.min(x, u)), round(Math.min(y, v))];
  return [left, top, round(Math.abs(x - u)), round(Math.abs(y - v))];
}

const cornersOf = ([left, top, width, height]) => [
  [left, top],
  [left + width, top],
  [left + width, top + height],
  [left, top + height],
];

const holds = ([left, top, width, height], [x, y]) =>
  x >= left && x <= left + width && y >= top && y <= top + height;

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
    if (answer.editions) this.edition.replaceChildren(...answer.editions.map((e) => made("option", {}, e)));
    if (answer.ask === "open") this.drawn = { ...structuredClone(FRESH), ...answer.drawn };
    this.drawn.edition ??= this.edition.value;
    if (answer.readings) this.readings = answer.readings;
    if (answer.ask === "take") this.readings.faults = answer.faults;
    else Object.assign(this.faults, answer.faults);
    if (answer.proposed) this.drawn.proposed = answer.proposed;
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
    for (const one of this.drawn.proposed) this.paintBox(pen, one.box, `proposal ${one.number}`, true);
    for (const mark of this.drawn.boxes)
      if (isWhole(mark.box)) this.paintBox(pen, mark.box, this.titleOf(mark), false, mark.kind === this.tool);
    this.paintCorners(pen);
  }

  paintBox(pen, box, words, isDashed, isChosen) {
    const corners = cornersOf(box).map((place) => this.pixel(place));
    framed(pen, corners, isDashed);
    if (isChosen) corners.forEach((corner) => dotted(pen, corner));
    named(pen, corners[0], words);
  }

  paintCorners(pen) {
    const corners = this.drawn.corners.filter(isWhole).map((place) => this.pixel(place));
    if (corners.length > 1) framed(pen, corners, false);
    corners.forEach((corner, at) => {
      dotted(pen, corner);
      named(pen, corner, `corner ${at + 1}`);
    });
  }

  pixel([x, y]) {
    return [x * this.canvas.clientWidth, y * this.canvas.clientHeight];
  }

  place(event) {
    const seen = this.canvas.getBoundingClientRect();
    const [x, y] = [(event.clientX - seen.left) / seen.width, (event.clientY - seen.top) / seen.height];
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
    tell(this.said, `Drag across ${TOOLS[this.tool]} to draw a box.`);
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
    const isOne = kind === "white" || kind === "grey";
    const there = isOne && boxes.find((mark) => mark.kind === kind);
    if (isOne) this.drawn.way = kind;
    if (there) return there;
    const key = String(1 + Math.max(0, ...boxes.map((mark) => Number(mark.key))));
    const lot = kind === "fibre" ? { name: "", mass_g: 25 } : {};
    boxes.push({ key, kind, box, ...lot });
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
    const isOne = mark.kind === "white" || mark.kind === "grey";
    return mark.name?.trim() || (isOne ? CALLED[mark.kind] : `${CALLED[mark.kind]} ${alike.indexOf(mark) + 1}`);
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
    for (const one of this.drawn.proposed) wanted.set(`proposal ${one.number}`, () => this.proposedRow(one));
    for (const [key, row] of this.rows) {
      if (wanted.has(key) && row.of === this.ofRow(key)) continue;
      row.root.remove();
      this.rows.delete(key);
    }
    let at = 0;
    for (const [key, make] of wanted) {
      if (!this.rows.has(key)) this.rows.set(key, { ...make(), of: this.ofRow(key) });
      const row = this.rows.get(key);
      const there = this.list.children[at];
      if (there !== row.root) this.list.insertBefore(row.root, there ?? null);
      at += 1;
      row.sync?.();
      if (row.fault) tell(row.fault, this.readings.faults[key] ?? "");
    }
    tell(this.none, wanted.size ? "" : "Nothing is drawn yet.");
  }

  ofRow(key) {
    const { boxes, corners, proposed } = this.drawn;
    if (key === "corners") return `${corners.length} corners`;
    return boxes.find((mark) => mark.key === key) ?? proposed.find((one) => key === `proposal ${one.number}`);
  }

  boxRow(mark) {
    const shares = SIDES.map((side, at) =>
      shareField(side, (share) => this.put(mark, mark.box.with(at, share))),
    );
    const lot = mark.kind === "fibre" ? this.lotFields(mark) : null;
    const legend = made("legend");
    const fault = made("p", { className: "fault" });
    const remove = button("Remove", () => this.removed(this.drawn.boxes, mark));
    const inside = [...(lot?.labels ?? []), ...shares.map((one) => one.label), remove];
    const root = made("fieldset", {}, legend, made("div", { className: "row" }, ...inside), fault);
    const sync = () => {
      tell(legend, this.titleOf(mark));
      remove.setAttribute("aria-label", `Remove ${this.titleOf(mark)}`);
      shares.forEach((one, at) => fill(one.field, percent(mark.box[at])));
      lot?.sync();
    };
    return { root, fault, sync, name: lot?.name, fields: shares.map((one) => one.field) };
  }

  lotFields(mark) {
    const name = made("input", { type: "text", maxLength: 60, autocomplete: "off", value: mark.name });
    name.setAttribute("list", this.lots.id);
    name.oninput = () => {
      mark.name = name.value;
      this.changed();
    };
    const grams = numberField("grams", { min: 0.001, step: 0.1, value: mark.mass_g ?? "" }, (event) => {
      mark.mass_g = event.target.value === "" ? null : Number(event.target.value);
      this.changed();
    });
    const sync = () => {
      const isKnown = this.plan.lots.includes(mark.name.trim());
      grams.field.disabled = isKnown;
      tell(grams.label.firstChild, isKnown ? "grams stay" : "grams");
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
      this.added("fibre", one.box.map(round));
      this.removed(proposed, one);
    });
    const leave = button("Leave", () => this.removed(proposed, one));
    for (const each of [keep, leave]) each.setAttribute("aria-label", `${each.textContent}: proposal ${one.number}`);
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
    tell(this.places, places < 3 ? `needs three white places, ${places} drawn` : `${places} white places`);
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
    tell(this.planHead, `In the plan: ${lots.length} ${lots.length === 1 ? "lot" : "lots"}`);
    tell(this.planLots, lots.join(", "));
    this.lots.replaceChildren(...lots.map((value) => made("option", { value })));
  }

  // --- the page

  built() {
    this.lines = {};
    for (const place of ["picture", "way", "corners", "light", "find", "save"])
      this.lines[place] = made("p", { className: "fault" });
    const seen = made("div", { className: "seen" }, ...this.builtPicture());
    const hand = made("div", { className: "hand" }, ...this.builtTools(), ...this.builtWay(), ...this.builtEnd());
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
    const opener = labelled("Open a picture, or drop one on the one below", file);
    opener.className = "opener";
    return [made("div", { className: "row" }, opener), this.lines.picture, this.canvas, this.about, ...this.builtReadings()];
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
      const radio = made("input", { type: "radio", name: group, value, checked: value === this.tool });
      radio.onchange = () => {
        this.tool = value;
        this.paint();
      };
      return made("label", { className: "tool" }, radio, words);
    });
    this.add = button("Put one in the middle", () => this.addedByKey());
    const hint = "Drag on the picture to draw; drag what is drawn to move it, its corners to make it larger or smaller. Or put one in the middle and type where it lies, in percent of the picture.";
    this.none = made("p", { className: "quiet" });
    this.list = made("div", { className: "marks" });
    this.lots = made("datalist", { id: `lots-${this.view}` });
    const legend = made("legend", {}, "Draw a box on");
    const tools = made("fieldset", {}, legend, made("div", { className: "row" }, ...radios, this.add), made("p", { className: "quiet" }, hint));
    return [tools, this.none, this.list, this.lots];
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
    const target = [labelled("the target was made", this.edition), labelled("way of putting right", this.degree)];
    this.target = made("div", { className: "row" }, ...target);
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
    const finding = [labelled("lots in the picture", count), find];
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

function framed(pen, points, isDashed) {
  pen.beginPath();
  points.forEach(([x, y]) => pen.lineTo(x, y));
  pen.closePath();
  for (const [ink, width, dash] of [["#1f1f1f", 4, []], ["#ffffff", 2, isDashed ? [7, 5] : []]]) {
    pen.strokeStyle = ink;
    pen.lineWidth = width;
    pen.setLineDash(dash);
    pen.stroke();
  }
}

function dotted(pen, [x, y]) {
  pen.fillStyle = "#1f1f1f";
  pen.fillRect(x - 5, y - 5, 10, 10);
  pen.fillStyle = "#ffffff";
  pen.fillRect(x - 3, y - 3, 6, 6);
}

function named(pen, [x, y], words) {
  pen.font = "13px system-ui, sans-serif";
  const width = pen.measureText(words).width;
  pen.fillStyle = "#ffffff";
  pen.fillRect(x + 6, y + 6, width + 8, 19);
  pen.fillStyle = "#1f1f1f";
  pen.fillText(words, x + 10, y + 20);
}

// Return a picture as PNG bytes in sRGB, upright and not larger than is worth sending.
async function shrunken(file) {
  const whole = await createImageBitmap(file, { imageOrientation: "from-image" });
  const scale = Math.min(1, MOST_PX / Math.max(whole.width, whole.height));
  const size = [whole.width, whole.height].map((side) => Math.max(1, Math.round(side * scale)));
  const canvas = made("canvas", { width: size[0], height: size[1] });
  const pen = canvas.getContext("2d", { colorSpace: "srgb" });
  pen.imageSmoothingQuality = "high";
  pen.drawImage(whole, 0, 0, ...size);
  const blob = await new Promise((done) => canvas.toBlob(done, "image/png"));
  return { picture: await blob.arrayBuffer(), from: [whole.width, whole.height] };
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
