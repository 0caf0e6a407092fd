// The order under the fingers: chips and sliders that move lots, pictures that follow at once.
// The kernel confirms; until then the picture is painted from tables that were sent ahead.

import { el, rootIn } from "../element.js";
import { listen } from "../protocol.js";
import { packedHex, runsOf, Scene, Shades, StripPicture, tableOf } from "./gather.js";
import { Fingers } from "./order_fingers.js";

const SLOW_MS = 150; // after which it is said that the kernel has not answered
const IDLE_MS = 50; // after which words are put in even where the browser is not idle
const REST_MS = 60; // without a move, after which numbers and words are asked for

// The order after an entry has moved to a place: loose entries make room, held ones stay.
function moved(order, held, entry, place) {
  const loose = order.filter((each) => !held.has(each));
  const places = order.map((each, at) => [each, at]).filter(([each]) => !held.has(each)).map(([, at]) => at);
  const to = places.indexOf(place);
  if (to < 0 || held.has(entry)) return order;
  const moving = loose.filter((each) => each !== entry);
  moving.splice(to, 0, entry);
  const after = order.slice();
  places.forEach((at, n) => { after[at] = moving[n]; });
  return after;
}

class Order extends Fingers {
  constructor(model, root) {
    super();
    this.model = model;
    this.root = root;
    this.serial = 0;
    this.queue = []; // moves that the kernel has not confirmed, oldest first
    this.inFlight = null;
    this.ahead = new Map();
    this.frame = null;
    this.drag = null;
    this.make(root);
    root.addEventListener("keydown", (event) => this.onUndoKey(event));
    this.deaf = listen(model, this);
    model.send({ do: "ready" });
  }

  leave() {
    this.deaf();
    clearTimeout(this.waiting);
    clearTimeout(this.resting);
  }

  make(root) {
    const button = (text, task) => el("button", { type: "button", text, onclick: () => this.ask({ do: task }) });
    this.tools = {
      reverse: button("Reverse the order", "reverse"),
      turn: button("First lot to the end", "turn"),
      close: button("End on the first lot too", "close"),
    };
    this.said = el("p", { class: "said", role: "status", "aria-live": "polite" });
    this.told = el("p", { class: "sr", "aria-live": "polite" });
    this.heading = el("p", { class: "row", style: "justify-content:space-between;margin:4px 0" });
    this.chips = el("ol", { class: "chips", "aria-label": "order of the lots, spun first to last" });
    this.ends = [el("span", { class: "quiet" }), el("span", { class: "quiet" })];
    this.sliders = el("div", { class: "sliders" });
    this.canvas = {};
    for (const name of ["strip", "yarn", "fabric"]) this.canvas[name] = el("canvas", { role: "img", "aria-label": `${name}, not drawn yet` });
    this.names = el("canvas", { class: "over", "aria-hidden": "true" });
    this.rows = el("div", { class: "rows quiet", "aria-hidden": "true" });
    this.ticks = el("div", { class: "ticks quiet", "aria-hidden": "true" });
    this.stripEnds = [el("strong"), el("strong")];
    this.metre = el("input", { type: "range", min: 0, step: 0.1, "aria-label": "place along the yarn, in metres",
      oninput: () => this.lookAt(Number(this.metre.value)) });
    this.captions = { yarn: el("figcaption", { class: "quiet" }), fabric: el("figcaption", { class: "quiet" }) };
    this.words = { yarn: el("div"), advice: el("div"), weigh: el("div", { class: "wide", tabindex: 0, role: "region", "aria-label": "weigh-out" }) };
    root.append(
      el("div", { class: "row" }, ...Object.values(this.tools)),
      this.said,
      el("div", { class: "row", style: "justify-content:space-between;margin:0" }, this.ends[0],
        el("strong", { text: "spinning order: drag a lot, or use the arrow keys" }), this.ends[1]),
      this.chips,
      this.heading,
      el("div", { class: "strip" }, el("div", { class: "bands" }, this.rows, this.canvas.strip, this.names), this.ticks,
        el("div", { class: "row", style: "justify-content:space-between;margin:0" }, ...this.stripEnds)),
      el("figure", {}, this.canvas.yarn, this.captions.yarn,
        el("label", { class: "row" }, el("span", { text: "look along the yarn" }), this.metre)),
      el("div", { class: "halves" },
        el("section", { "aria-label": "a slider for each lot" }, this.sliders),
        el("figure", {}, this.canvas.fabric, this.captions.fabric)),
      el("div", { class: "halves" },
        el("section", {}, el("h4", { text: "What to know" }), this.words.advice),
        el("section", {}, el("h4", { text: "The yarn" }), this.words.yarn)),
      el("details", { open: true }, el("summary", { text: "Weigh-out" }), this.words.weigh),
      this.told,
    );
  }

  // --- messages ---------------------------------------------------------------------------------

  ask(message) {
    this.serial += 1;
    this.model.send({ ...message, serial: this.serial });
  }

  on_scenes({ scenes }, buffers) {
    let from = 0;
    this.scenes = scenes.map((told) => {
      const own = buffers.slice(from, from + 4);
      from += 4;
      return new Scene(this.canvas[told.name], told, own);
    });
    if (this.frame) this.paint();
  }

  // A move is confirmed. Where one lot goes on being moved, what was sent ahead for it still holds.
  on_moved({ serial, entries, table }, buffers) {
    this.confirmed(serial);
    const entry = this.queue[0]?.entry ?? this.last;
    this.ahead = new Map([...this.ahead].filter(([key]) => key.startsWith(`${entry} `)));
    this.frame.entries = entries;
    [this.base] = this.tables(table, buffers);
    if (!this.queue.length) this.paint();
    this.send();
  }

  confirmed(serial) {
    if (serial === null || serial !== this.inFlight) return;
    this.queue = this.queue.filter((move) => move.serial !== serial);
    this.inFlight = null;
  }

  on_frame(frame, buffers) {
    this.confirmed(frame.serial);
    const sameShades = this.frame && JSON.stringify(this.frame.shades) === JSON.stringify(frame.shades);
    const sameStrip = this.frame && JSON.stringify(this.frame.strip) === JSON.stringify(frame.strip);
    this.frame = frame;
    this.held = new Set(frame.held);
    [this.base] = this.tables(frame.table, buffers);
    this.ahead = new Map();
    if (!sameShades) this.shades = new Shades(frame.shades);
    this.colours = frame.colours.map(packedHex);
    if (!sameStrip) this.strip = new StripPicture(this.canvas.strip, frame.strip);
    if (!sameStrip) this.showStrip(frame.strip);
    this.show(frame);
    this.paint();
    this.send();
  }

  on_ahead(told, buffers) {
    if (told.turn !== this.frame?.turn) return;
    const tables = this.tables(told.table, buffers);
    told.moves.forEach(([entry, place], at) => this.ahead.set(`${entry} ${place}`, tables[at]));
    if (this.queue.length) this.paint();
  }

  tables({ counts, yarn_m: yarnM, plies }, buffers) {
    const whole = buffers.map((view) => view.buffer.slice(view.byteOffset, view.byteOffset + view.byteLength));
    const [ticks, lot] = [new Uint32Array(whole[0]), new Uint16Array(whole[1])];
    let [edge, from] = [0, 0];
    return counts.map((count, at) => {
      const one = tableOf(ticks.subarray(edge, edge + count + 1), lot.subarray(from, from + count * plies), plies, yarnM[at]);
      edge += count + 1;
      from += count * plies;
      return one;
    });
  }

  // --- moving -----------------------------------------------------------------------------------

  order() {
    return this.queue.reduce((order, { entry, place }) => moved(order, this.held, entry, place), this.frame.entries);
  }

  move(entry, place) {
    if (this.held.has(entry) || this.order().indexOf(entry) === place) return;
    const loose = this.frame.entries.map((each, at) => (this.held.has(each) ? -1 : at)).filter((at) => at >= 0);
    const to = loose.reduce((best, at) => (Math.abs(at - place) < Math.abs(best - place) ? at : best));
    this.queue = this.queue.filter((each) => each.serial !== null || each.entry !== entry);
    this.queue.push({ entry, place: to, serial: null });
    this.last = entry;
    this.showOrder(this.order());
    this.told.textContent = `${this.frame.names[entry]}, place ${to + 1} of ${this.frame.entries.length}`;
    this.soon();
    this.send();
    clearTimeout(this.resting);
    this.resting = setTimeout(() => this.rest(), REST_MS);
  }

  // One message at a time: what comes meanwhile waits, and of one lot only the last counts.
  send() {
    if (this.inFlight !== null || !this.queue.length) return this.settled();
    this.serial += 1;
    this.inFlight = this.serial;
    for (const move of this.queue) move.serial = this.serial;
    const moves = this.queue.map(({ entry, place }) => [entry, place]);
    this.model.send({ do: "move", moves, serial: this.serial });
    this.wait();
    return undefined;
  }

  // Say so when the kernel takes its time.
  wait() {
    this.waiting ??= setTimeout(() => { this.said.textContent = "not yet confirmed"; }, SLOW_MS);
  }

  settled() {
    if (this.queue.length) return;
    clearTimeout(this.waiting);
    this.waiting = null;
    if (this.wantsRest) {
      this.wantsRest = false;
      this.model.send({ do: "rest", entry: this.last });
      this.wait();
    } else {
      this.said.textContent = this.text ?? "";
    }
  }

  // The fingers are still: ask for the numbers and the words, and for the tables of every move.
  rest() {
    clearTimeout(this.resting);
    this.wantsRest = true;
    if (!this.queue.length) this.settled();
  }

  lookAt(metre) {
    if (this.looking) { this.lookNext = metre; return; }
    this.looking = true;
    this.ask({ do: "look", metre });
  }

  on_looked({ from_m: fromM, caption, alt }) {
    this.looking = false;
    this.frame.from_m = fromM;
    this.captions.yarn.textContent = caption;
    this.canvas.yarn.setAttribute("aria-label", alt);
    if (this.lookNext !== undefined) {
      const next = this.lookNext;
      this.lookNext = undefined;
      this.lookAt(next);
    }
  }

  // --- painting ---------------------------------------------------------------------------------

  // Paint now; where it was painted in this frame already, once more at its end.
  soon() {
    if (this.painted) { this.again = true; return; }
    this.paint();
    this.painted = true;
    requestAnimationFrame(() => {
      this.painted = false;
      if (this.again) this.paint();
    });
  }

  paint() {
    this.again = false;
    const table = this.current();
    if (!table || !this.scenes) return;
    this.strip.paint(table, this.colours);
    this.labels(table);
    for (const scene of this.scenes) scene.paint(table, this.shades);
    this.root.dispatchEvent(new CustomEvent("painted"));
  }

  // The table of what the fingers want: confirmed, or one lot's move that was sent ahead.
  current() {
    if (!this.queue.length) return this.base;
    const { entry, place } = this.queue[this.queue.length - 1];
    if (this.queue.some((each) => each.entry !== entry)) return null;
    return this.frame.entries.indexOf(entry) === place ? this.base : this.ahead.get(`${entry} ${place}`) ?? null;
  }

  // Names on the bands, where they fit; the chips hold them all as text.
  labels(table) {
    const { width, height, bands } = this.frame.strip;
    const shown = this.names.clientWidth || width;
    const scale = window.devicePixelRatio || 1;
    const [wide, high] = [Math.round(shown * scale), Math.round(((shown * height) / width) * scale)];
    if (this.names.width !== wide || this.names.height !== high) {
      this.names.width = wide;
      this.names.height = high;
      this.widths = null;
    }
    const pen = this.names.getContext("2d");
    pen.setTransform(scale, 0, 0, scale, 0, 0);
    pen.clearRect(0, 0, shown, high);
    pen.font = "13px system-ui, sans-serif";
    pen.textAlign = "center";
    pen.textBaseline = "middle";
    this.widths ??= this.frame.lot_names.map((name) => pen.measureText(name).width);
    runsOf(table).forEach(({ ends, lots }, k) => {
      const y = (((bands[k][0] + bands[k][1]) / 2) * shown) / width;
      if (((bands[k][1] - bands[k][0]) * shown) / width < 14) return;
      let from = 0;
      lots.forEach((lot, at) => {
        const end = (ends[at] / table.yarnM) * shown;
        if (end - from > this.widths[lot] + 12) {
          pen.fillStyle = this.frame.inks[lot];
          pen.fillText(this.frame.lot_names[lot], (from + end) / 2, y);
        }
        from = end;
      });
    });
  }

  // --- showing ----------------------------------------------------------------------------------

  show(frame) {
    this.widths = null;
    this.ends.forEach((end, at) => { end.textContent = frame.ends[at]; });
    this.tools.close.textContent = frame.closed ? "Leave the last place out" : "End on the first lot too";
    this.tools.close.disabled = !frame.names.length;
    const key = JSON.stringify([frame.names, frame.lots]);
    if (key !== this.made) this.makeChips(frame, key);
    this.showOrder(this.order());
    this.metre.max = frame.table.yarn_m[0];
    if (!this.looking) this.metre.value = frame.from_m;
  }

  // What the numbers say, once they are known: the pictures did not wait for it, nor do fingers.
  on_words(told) {
    this.text = told.said;
    if (!this.queue.length) this.settled();
    const idle = window.requestIdleCallback ?? ((task) => setTimeout(task, 0));
    if (!this.toTell) idle(() => this.tell(), { timeout: IDLE_MS });
    this.toTell = told;
  }

  tell() {
    const { alts, captions, html } = this.toTell;
    this.toTell = null;
    for (const name of ["strip", "yarn", "fabric"]) this.canvas[name].setAttribute("aria-label", alts[name]);
    for (const name of ["yarn", "fabric"]) this.captions[name].textContent = captions[name];
    for (const name of ["yarn", "advice", "weigh"]) {
      if (this.words[name].told !== html[name]) this.words[name].innerHTML = html[name];
      this.words[name].told = html[name];
    }
  }

  showStrip(told) {
    this.heading.replaceChildren(...told.heading.map((text, at) => el(at ? "span" : "strong", { text })));
    this.rows.replaceChildren(...told.rows.map(([text, y]) => el("span", { text, style: `top:${(100 * y) / told.height}%` })));
    this.ticks.replaceChildren(...told.ticks.map(([share, text]) => el("span", { text, style: `left:${100 * share}%${share > 0.97 ? ";transform:translateX(-100%)" : ""}` })));
    this.stripEnds.forEach((end, at) => { end.textContent = told.ends[at] ?? ""; });
  }

  makeChips(frame, key) {
    this.made = key;
    const look = (entry) => `background:${frame.colours[frame.lots[entry]]};color:${frame.inks[frame.lots[entry]]}`;
    this.chip = frame.names.map((name, entry) => {
      const handle = el("button", { type: "button", style: look(entry), onkeydown: (event) => this.onKey(event, entry), onfocus: () => this.grab(entry),
        onpointerdown: (event) => this.onGrab(event, entry) }, el("span", { text: name }));
      return el("li", { style: `flex-grow:${Math.max(frame.masses[entry], 0.001)}` }, handle);
    });
    this.slider = frame.names.map((name, entry) => {
      const range = el("input", { type: "range", min: 1, max: frame.names.length,
        "aria-label": `place of ${name}`,
        oninput: () => this.move(entry, Number(range.value) - 1), onfocus: () => this.grab(entry) });
      const hold = el("button", { type: "button", text: "hold", "aria-label": `hold ${name} in its place`,
        onclick: () => this.ask({ do: "hold", entry, held: !this.held.has(entry) }) });
      const place = el("output", { class: "quiet" });
      const row = el("div", { class: "place" }, el("span", { class: "swatch", style: look(entry) }),
        el("span", { class: "name", text: name }), range, place, hold);
      return { range, hold, place, row };
    });
    this.sliders.replaceChildren(...this.slider.map(({ row }) => row));
    this.chips.replaceChildren();
  }

  showOrder(order) {
    order.forEach((entry, place) => {
      const { range, hold, place: shown } = this.slider[entry];
      const held = this.held.has(entry);
      if (Number(range.value) !== place + 1) range.value = place + 1;
      range.disabled = held;
      shown.textContent = `${place + 1}`;
      hold.setAttribute("aria-pressed", held);
      const chip = this.chip[entry];
      chip.style.order = place;
      chip.firstChild.setAttribute("aria-label",
        `${this.frame.names[entry]}, place ${place + 1} of ${order.length}${held ? ", held" : ""}`);
      chip.classList.toggle("held", held);
    });
    if (!this.drag) this.layChips(order);
  }

  // Keep the reading order of the chips what the eye sees, without losing the focus.
  layChips(order) {
    const now = [...this.chips.children];
    if (now.length === order.length && order.every((entry, at) => now[at] === this.chip[entry])) return;
    const focused = this.chips.contains(this.chips.getRootNode().activeElement) ? this.chips.getRootNode().activeElement : null;
    this.chips.replaceChildren(...order.map((entry) => this.chip[entry]));
    focused?.focus({ preventScroll: true });
  }
}

export default {
  render({ model, el: host }) {
    const root = rootIn(host, "order");
    const order = new Order(model, root);
    root.order = order;
    return () => order.leave();
  },
};
