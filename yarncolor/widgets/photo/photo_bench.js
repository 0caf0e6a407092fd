// A photograph to draw on. Boxes are drawn, typed and sent here; what they say comes from Python.
// One message is under way at a time, and of readings that wait only the latest is asked for.

import { el, takeDrops } from "../element.js";
import { listen } from "../protocol.js";
import { Board } from "./photo_board.js";
import { cornersRow, fibreRow, proposalRow, readingRow, thingRow } from "./photo_rows.js";
import { CALLED, between, cornersOf, round, shrunken, tell } from "./photo_shapes.js";
import { DRAWING, EXAMPLE, MIDDLE, THINGS, TOOL_OF, wholePage } from "./photo_steps.js";

const START = [[0.1, 0.1], [0.9, 0.1], [0.9, 0.9], [0.1, 0.9]];
const FRESH = { boxes: [], corners: [], way: "nothing", degree: 1, even: false, proposed: [] };
const OWN_VALUES = "values from a file";
const LARGEST_VALUES = 20000;
const FOR_A_TARGET = "for a target only";
const LEAST_PLACES = 3;
const LATEST = { read: true, why: true }; // of these the latest alone is asked for

const isSingle = (kind) => kind === "white" || kind === "grey";

class Bench {
  constructor(model, host) {
    this.model = model;
    this.view = crypto.randomUUID?.() ?? String(Math.random());
    this.drawn = structuredClone(FRESH);
    this.plan = { lots: [], mass: "grams", mass_g: 1 };
    this.tool = "fibre";
    this.thing = "white";
    this.serial = this.busy = 0;
    this.waiting = [];
    this.faults = {};
    this.readings = { rows: [], correction: [], fit: "", light: "", faults: {}, alt: "" };
    this.board = new Board(this);
    host.append(wholePage(this));
    this.show();
  }

  // --- messages

  ask(message, buffers = []) {
    if (message.do in LATEST) this.waiting = this.waiting.filter((one) => one[0].do !== message.do);
    else for (const place of ["find", "picture", "take"]) delete this.faults[place];
    this.waiting.push([message, buffers]);
    this.next();
  }

  next() {
    if (this.busy || !this.waiting.length) return;
    const [message, buffers] = this.waiting.shift();
    this.busy = this.serial += 1;
    const drawn = message.do === "open" ? {} : { drawn: this.drawn };
    const about = { view: this.view, serial: this.serial };
    this.model.send({ ...message, ...drawn, ...about }, undefined, buffers);
  }

  on_plan({ plan }) {
    this.plan = plan;
    this.show();
    this.next();
  }

  on_answer(answer, buffers) {
    const isOurs = answer.view === this.view && answer.serial === this.busy;
    if (answer.plan) this.plan = answer.plan;
    if (answer.photo && (isOurs || answer.do === "picture")) this.showPhoto(answer, buffers[0]);
    if (isOurs) {
      this.busy = 0;
      this.take(answer);
    }
    this.show();
    this.next();
  }

  take(answer) {
    const editions = answer.editions?.map((edition) => el("option", {}, edition));
    if (editions) this.edition.replaceChildren(...editions);
    if (answer.do === "open") this.drawn = { ...structuredClone(FRESH), ...answer.drawn };
    this.drawn.edition ??= this.edition.value;
    if (answer.readings) this.readings = answer.readings;
    if (answer.why) this.why.tell(answer.why);
    else this.askWhy();
    if (answer.do === "take") this.readings.faults = answer.faults;
    else Object.assign(this.faults, answer.faults);
    if (answer.proposed) {
      this.drawn.proposed = answer.proposed;
      this.revealed = "proposal 1";
    }
    if ("said" in answer) this.say(answer.said);
    else if (!(answer.do in LATEST)) this.say("");
  }

  // Why figures are what they are is asked for where it is opened, and again once fingers rest.
  askWhy() {
    if (this.why.root.open && !this.board.grip) this.ask({ do: "why" });
  }

  changed() {
    if (this.of("place").length < LEAST_PLACES) this.drawn.even = false;
    this.ask({ do: "read" });
    this.show();
  }

  say(words) {
    tell(this.said, words);
  }

  // --- the picture

  async showPhoto(answer, buffer) {
    const { width, height } = answer.photo;
    const image = await createImageBitmap(new Blob([buffer], { type: "image/jpeg" }));
    this.board.put(image, width, height);
    this.sayPhoto(answer.photo);
    if (answer.do === "picture") {
      this.drawn.proposed = [];
      const kept = this.drawn.boxes.length ? " Boxes stayed where they were." : "";
      this.say(`Opened.${kept}`);
    }
    this.show();
  }

  sayPhoto({ width, height, name, notes, from, is_example }) {
    const shrunk = from && from[0] > width ? `shrunk from ${from[0]} × ${from[1]}` : "";
    const about = [`${width} × ${height} pixels`, shrunk, notes].filter(Boolean).join("; ");
    tell(this.about, name ? `${name}: ${about}` : about);
    tell(this.example, is_example ? EXAMPLE : "");
  }

  async open(file) {
    if (!file) return;
    this.say("Opening…");
    try {
      const { picture, from } = await shrunken(file);
      this.ask({ do: "picture", name: file.name, from }, [picture]);
    } catch {
      const remedy = "the browser cannot open it as a picture; save it as JPEG, PNG or WebP";
      this.faults.picture = `${file.name}: ${remedy}`;
      this.say("");
      this.show();
    }
  }

  // --- what is drawn

  of(kind) {
    return this.drawn.boxes.filter((mark) => mark.kind === kind);
  }

  choose(tool) {
    this.tool = tool;
    if (tool !== "fibre") this.thing = tool;
    this.show();
  }

  setWay(key, value) {
    this.drawn[key] = value;
    if (key === "way" && value in TOOL_OF) this.choose(TOOL_OF[value]);
    this.changed();
  }

  // A target's own values are kept with what is drawn; the kernel reads them, and says what is wrong.
  async openValues(file) {
    if (!file) return;
    if (file.size > LARGEST_VALUES) this.say(`Not opened. ${file.name}: too long; a target's values are a line for each patch`);
    else this.setWay("values", await file.text());
  }

  put(mark, box) {
    mark.box = box;
    this.changed();
  }

  added(kind, box) {
    const { boxes } = this.drawn;
    const [there] = isSingle(kind) ? this.of(kind) : [];
    if (isSingle(kind)) this.drawn.way = kind;
    if (there) return there;
    const key = String(1 + Math.max(0, ...boxes.map((mark) => Number(mark.key))));
    const mark = { key, kind, box, ...(kind === "fibre" ? { name: "", mass_g: 25 } : {}) };
    boxes.push(mark);
    this.revealed = key;
    if (kind === "place" && this.of(kind).length === LEAST_PLACES) this.drawn.even = true;
    return mark;
  }

  addedByKey(tool) {
    this.choose(tool);
    if (tool === "corners") {
      this.cornersAdded();
      return;
    }
    const start = round(0.4 + 0.03 * (this.of(tool).length % 10));
    const mark = this.added(tool, [start, start, 0.2, 0.2]);
    this.changed();
    this.listOf(tool).focus(mark.key);
  }

  cornersAdded() {
    const { corners } = this.drawn;
    corners.push(...START.slice(corners.length).map((corner) => [...corner]));
    this.cornersChanged();
    this.things.focus("corners");
  }

  cornersChanged() {
    if (this.drawn.corners.length === 4) this.drawn.way = "target";
    this.changed();
  }

  cornersRemoved() {
    this.drawn.corners.length = 0;
    this.addThing.focus();
    this.changed();
  }

  removed(list, one) {
    list.splice(list.indexOf(one), 1);
    (one.kind in THINGS ? this.addThing : this.addFibre).focus();
    this.changed();
  }

  kept(proposal) {
    const [first, , last] = cornersOf(proposal.box);
    const mark = this.added("fibre", between(first, last));
    this.removed(this.drawn.proposed, proposal);
    this.fibres.focus(mark.key);
  }

  // All that is proposed becomes fibre, called by its number until it is named.
  allKept() {
    for (const proposal of this.drawn.proposed) {
      const [first, , last] = cornersOf(proposal.box);
      const mark = this.added("fibre", between(first, last));
      mark.name = this.freshName();
    }
    this.drawn.proposed = [];
    this.changed();
    this.takes.focus();
  }

  freshName() {
    const taken = new Set([...this.plan.lots.map(([name]) => name), ...this.of("fibre").map(({ name }) => name)]);
    let number = 1;
    while (taken.has(`Fibre ${number}`)) number += 1;
    return `Fibre ${number}`;
  }

  proposalsLeft() {
    this.drawn.proposed = [];
    this.addFibre.focus();
    this.changed();
  }

  titleOf(mark) {
    const called = CALLED[mark.kind];
    if (mark.name?.trim()) return mark.name.trim();
    return isSingle(mark.kind) ? called : `${called} ${this.of(mark.kind).indexOf(mark) + 1}`;
  }

  colourOf(mark) {
    return this.readings.rows.find((told) => told.key === mark.key)?.colour ?? "transparent";
  }

  listOf(kind) {
    return kind === "fibre" ? this.fibres : this.things;
  }

  // --- what is shown

  show() {
    this.showRows();
    this.showTools();
    this.showWay();
    this.showReadings();
    this.showPlan();
    for (const [place, line] of Object.entries(this.lines))
      tell(line, this.faults[place] ?? this.readings.faults[place] ?? "");
    this.board.paint();
  }

  showRows() {
    const { boxes, corners, proposed } = this.drawn;
    const { faults } = this.readings;
    const wanted = (marks, make) => marks.map((mark) => [mark.key, mark, () => make(this, mark)]);
    const target = ["corners", `${corners.length} corners`, () => cornersRow(this)];
    const things = wanted(boxes.filter((mark) => mark.kind !== "fibre"), thingRow);
    this.things.show(corners.length ? [...things, target] : things, faults);
    this.fibres.show(wanted(this.of("fibre"), fibreRow), faults);
    const found = (one) => [`proposal ${one.number}`, one, () => proposalRow(this, one)];
    this.proposals.show(proposed.map(found), {});
    for (const list of [this.things, this.fibres, this.proposals]) list.reveal(this.revealed);
    this.revealed = null;
  }

  showTools() {
    this.radios[this.tool].checked = true;
    tell(this.addThing, MIDDLE[this.thing]);
    tell(this.drawing, DRAWING[this.tool]);
    this.keepAll.hidden = this.leave.hidden = !this.drawn.proposed.length;
  }

  showWay() {
    const { way, edition, degree, even } = this.drawn;
    const isTarget = way === "target";
    const places = this.of("place").length;
    const lacks = places < LEAST_PLACES;
    this.way.value = way;
    if (edition) this.edition.value = edition;
    this.ownValues.hidden = !isTarget || edition !== OWN_VALUES;
    this.degree.value = degree;
    this.edition.disabled = this.degree.disabled = !isTarget;
    tell(this.noTarget, isTarget ? "" : FOR_A_TARGET);
    this.edition.title = this.degree.title = isTarget ? "" : FOR_A_TARGET;
    this.even.checked = even;
    this.even.disabled = lacks;
    const drawn = lacks ? `needs three white places, ${places} drawn` : `${places} white places`;
    tell(this.places, drawn);
    this.even.title = lacks ? drawn : "";
  }

  showReadings() {
    const { rows, correction, fit, light, alt, faults } = this.readings;
    this.body.replaceChildren(...rows.map(readingRow));
    this.table.hidden = !rows.length;
    const words = rows.length ? [...correction, fit, light] : [fit, light];
    tell(this.words, words.filter(Boolean).join(" "));
    this.why.root.hidden = !rows.length && !fit && !light && !this.drawn.proposed.length;
    this.board.canvas.setAttribute("aria-label", alt || "A photograph.");
    const read = rows.map((told) => `${told.name}: ${told.colour}, may be out by ${told.out_by}`);
    if (!this.board.grip) tell(this.heardWords, [...read, ...Object.values(faults)].join(". "));
  }

  showPlan() {
    const { lots } = this.plan;
    const lacking = this.lacking();
    this.takes.disabled = Boolean(lacking);
    tell(this.whyNot, lacking);
    tell(this.noFibre, this.of("fibre").length ? "" : "Nothing to name yet: first do step 3.");
    tell(this.planHead, `In the plan: ${lots.length} ${lots.length === 1 ? "lot" : "lots"}`);
    tell(this.planLots, lots.map(([name]) => name).join(", "));
    this.lots.replaceChildren(...lots.map(([value]) => el("option", { value })));
  }

  // What has to be done before colours can be taken; nothing where they can.
  lacking() {
    const fibres = this.of("fibre");
    const nameless = fibres.filter((mark) => !mark.name.trim()).map((mark) => this.titleOf(mark));
    if (!fibres.length) return "First draw a box on a fibre: step 3.";
    if (nameless.length) return `First give a name: ${nameless.join(", ")}.`;
    if (this.readings.rows.length) return "";
    return this.busy ? "Reading…" : "No colour is read: first mend what is marked.";
  }
}

export default {
  render({ model, el: host }) {
    const bench = new Bench(model, host);
    const deaf = listen(model, bench);
    takeDrops(host, (file) => bench.open(file));
    bench.ask({ do: "open" });
    return () => {
      deaf();
      bench.board.leave();
    };
  },
};
