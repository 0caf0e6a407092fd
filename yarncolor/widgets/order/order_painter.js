// The order under the fingers: chips and sliders that move lots, pictures that follow at once.
// The kernel confirms; until then the picture is painted from tables that were sent ahead.

import { isolated, rootIn } from "../element.js";
import { listen } from "../protocol.js";
import { ChipInput } from "./chip_input.js";
import { Moves } from "./moves.js";
import { orderPage, showStrip } from "./order_page.js";
import { Pictures } from "./pictures.js";
import { Places } from "./places.js";
import { StripPointer } from "./strip_pointer.js";
import { Tables } from "./tables.js";

const IDLE_MS = 50; // after which words are put in even where the browser is not idle
const NO_ORDER = "this scheme has no order of lots";
const ONE_LOT = "there is only one lot to put in order";
const CLOSE_WORDS = { true: "Do not end on the first lot", false: "End on the first lot too" };

class OrderPainter {
  constructor(model, root) {
    this.model = model;
    this.root = root;
    this.frame = null;
    this.tables = new Tables();
    this.moves = new Moves(model, {
      slow: () => this.say("not yet confirmed"),
      calm: () => this.say(this.text ?? ""),
    });
    const ask = (message) => this.moves.ask(message);
    this.page = orderPage(root, { ask, look: (metre) => this.look(metre) });
    this.pictures = new Pictures(this.page.canvases, this.page.names);
    this.places = this.placesOf(this.page);
    this.pointer = new StripPointer(this.page, { look: (metre) => this.look(metre), now: () => this.shown() });
    root.addEventListener("keydown", (event) => this.onUndoKey(event));
    this.deaf = listen(model, this);
    model.send({ do: "ready" });
  }

  placesOf(page) {
    const grab = (entry) => this.grab(entry);
    const move = (entry, place) => this.move(entry, place);
    const hold = (entry) => this.moves.ask({ do: "hold", entry, held: !this.held.has(entry), turn: this.frame.turn });
    this.input = new ChipInput({
      order: () => this.order(),
      isHeld: (entry) => this.held.has(entry),
      chipOf: (entry) => this.places.chip[entry],
      grab,
      move,
      drop: () => this.places.lay(this.order()),
    });
    return new Places(page, this.input, { grab, move, hold });
  }

  leave() {
    this.deaf();
    this.moves.leave();
  }

  say(words) {
    this.page.said.textContent = isolated(words);
  }

  // --- what the kernel says ----------------------------------------------------------------------

  on_scenes({ scenes }, buffers) {
    this.pictures.setScenes(scenes, buffers);
    this.paint();
  }

  on_moved({ serial, entries, table, more }, buffers) {
    this.pictures.setMore(more);
    this.tables.keepAfter(this.moves.confirmed(serial));
    this.tables.confirm(table, buffers);
    this.frame.entries = entries;
    if (!this.moves.queue.length) this.paint();
    this.moves.send();
  }

  on_frame(frame, buffers) {
    this.moves.confirmed(frame.serial);
    if (!frame.ahead_holds) this.tables.forget();
    this.tables.confirm(frame.table, buffers);
    this.frame = frame;
    this.moves.turn = frame.turn;
    this.held = new Set(frame.held);
    if (this.pictures.setFrame(frame)) showStrip(this.page, frame.strip);
    this.show(frame);
    this.paint();
    this.moves.send();
  }

  on_ahead({ turn, moves, table, more }, buffers) {
    if (turn !== this.frame?.turn) return;
    this.pictures.setMore(more);
    this.tables.add(moves, table, buffers);
    if (this.moves.queue.length) this.paint();
  }

  on_looked({ from_m: fromM, words }) {
    this.isLooking = false;
    this.frame.from_m = fromM;
    if (this.lookNext === undefined) this.showLooked(fromM);
    for (const [name, { caption, alt }] of Object.entries(words)) {
      this.page.captions[name].textContent = isolated(caption);
      this.page.canvases[name].setAttribute("aria-label", alt);
    }
    const next = this.lookNext;
    this.lookNext = undefined;
    if (next !== undefined) this.look(next);
  }

  // What the numbers say, once they are known: the pictures did not wait for it, nor do fingers.
  on_words(told) {
    this.text = told.said;
    this.moves.settled();
    const idle = window.requestIdleCallback ?? ((task) => setTimeout(task, 0));
    if (!this.toTell) idle(() => this.tell(), { timeout: IDLE_MS });
    this.toTell = told;
  }

  // --- what fingers do ---------------------------------------------------------------------------

  order() {
    return this.moves.orderFrom(this.frame.entries, this.held);
  }

  move(entry, place) {
    if (this.held.has(entry) || this.order().indexOf(entry) === place) return;
    const to = this.looseNear(place);
    this.moves.add(entry, to);
    this.showOrder();
    const { names, entries } = this.frame;
    this.page.told.textContent = isolated(`${names[entry]}, place ${to + 1} of ${entries.length}`);
    this.paintSoon();
    this.moves.send();
  }

  // The nearest place that is not held.
  looseNear(place) {
    const loose = this.frame.entries.map((each, at) => (this.held.has(each) ? -1 : at)).filter((at) => at >= 0);
    return loose.reduce((best, at) => (Math.abs(at - place) < Math.abs(best - place) ? at : best));
  }

  // With many places the tables of a lot are sent when it is taken in hand.
  grab(entry) {
    if (!this.tables.knows(entry)) this.model.send({ do: "grab", entry });
  }

  look(metre) {
    if (this.isLooking) { this.lookNext = metre; return; }
    this.isLooking = true;
    this.moves.ask({ do: "look", metre });
  }

  // Steps back and on again, as everywhere: with control or command and Z.
  onUndoKey(event) {
    if (!(event.ctrlKey || event.metaKey) || event.altKey || event.key.toLowerCase() !== "z") return;
    event.preventDefault();
    event.stopPropagation();
    this.model.send({ do: event.shiftKey ? "redo" : "undo" });
  }

  // --- what is shown -----------------------------------------------------------------------------

  // Paint now; where it was painted in this frame already, once more at its end.
  paintSoon() {
    if (this.isPainted) { this.isToRepaint = true; return; }
    this.paint();
    this.isPainted = true;
    requestAnimationFrame(() => {
      this.isPainted = false;
      if (this.isToRepaint) this.paint();
    });
  }

  paint() {
    this.isToRepaint = false;
    const table = this.wantedTable();
    if (!table || !this.frame) return;
    this.pictures.paint(table);
    this.root.dispatchEvent(new CustomEvent("painted"));
    const { shades, colours } = this.pictures;
    this.root.dispatchEvent(new CustomEvent("yc-ordered", { bubbles: true, detail: { table, shades, colours } }));
  }

  // What the strip shows, for whoever points at it.
  shown() {
    const { frame: { strip, reading }, pictures: { named: { names } } } = this;
    return { table: this.wantedTable() ?? this.tables.base, strip, reading, names };
  }

  // The table of what the fingers want: confirmed, or one lot's move that was sent ahead.
  wantedTable() {
    if (!this.moves.queue.length) return this.tables.base;
    const move = this.moves.single();
    return move && this.tables.after(this.frame.entries, move);
  }

  show(frame) {
    const { ends, tools, metre, turning, part } = this.page;
    part.checked = frame.knits_part;
    turning.textContent = isolated(frame.turning);
    ends.forEach((end, at) => { end.textContent = isolated(frame.ends[at]); });
    tools.close.textContent = CLOSE_WORDS[frame.closed];
    tools.close.disabled = !frame.names.length;
    tools.close.title = frame.names.length ? "" : NO_ORDER;
    const isOne = new Set(frame.names).size < 2;
    const why = frame.names.length ? ONE_LOT : NO_ORDER;
    for (const tool of [tools.reverse, tools.turn])
      Object.assign(tool, { disabled: isOne, title: isOne ? why : "" });
    this.places.setFrame(frame);
    this.showOrder();
    metre.max = frame.table.yarn_m[0];
    if (!this.isLooking) this.showLooked(frame.from_m);
  }

  showLooked(fromM) {
    const { page: { metre }, frame: { reading: { length } } } = this;
    metre.value = fromM;
    metre.setAttribute("aria-label", `place along the yarn, in ${length.names}`);
    metre.setAttribute("aria-valuetext", `${(fromM / length.size).toFixed(1)} ${length.unit}`);
    this.pointer.show(fromM);
  }

  showOrder() {
    this.places.show(this.order(), this.frame.names, this.held);
  }

  tell() {
    const { canvases, captions, words } = this.page;
    const { alts, captions: captionTexts, html } = this.toTell;
    this.toTell = null;
    for (const [name, text] of Object.entries(alts)) canvases[name].setAttribute("aria-label", text);
    for (const [name, text] of Object.entries(captionTexts)) captions[name].textContent = isolated(text);
    for (const [name, text] of Object.entries(html)) {
      if (words[name].told !== text) words[name].innerHTML = text;
      words[name].told = text;
    }
  }
}

export default {
  render({ model, el: host }) {
    const root = rootIn(host, "order");
    root.order = new OrderPainter(model, root);
    return () => root.order.leave();
  },
};
