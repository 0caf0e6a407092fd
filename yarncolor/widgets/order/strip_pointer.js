// What the strip answers: pointing says what lies there, a mark shows where the close-up looks.

import { runsOf } from "./gather.js";

const STEPS = 200; // arrow keys from end to end
const KEYS = { ArrowLeft: -1, ArrowDown: -1, ArrowRight: 1, ArrowUp: 1 };

export class StripPointer {
  // `look` is told a metre; `now` gives the table that is shown, its strip, names and reading.
  constructor({ canvases, mark, pointed }, { look, now }) {
    Object.assign(this, { canvas: canvases.strip, mark, pointed, look, now });
    this.metre = 0;
    this.canvas.addEventListener("pointermove", (event) => this.onPointer(event));
    this.canvas.addEventListener("pointerdown", (event) => this.onPointer(event));
    mark.addEventListener("keydown", (event) => this.onKey(event));
  }

  onPointer(event) {
    const { table, strip } = this.now();
    const box = this.canvas.getBoundingClientRect();
    const share = Math.min(Math.max((event.clientX - box.left) / box.width, 0), 1);
    const y = ((event.clientY - box.top) / box.height) * strip.height;
    const metre = share * table.yarnM;
    this.pointed.textContent = this.said(metre, plyAt(strip, y));
    if (!(event.buttons & 1)) return;
    if (event.type === "pointerdown") {
      event.preventDefault();
      this.canvas.setPointerCapture(event.pointerId);
      this.mark.focus({ preventScroll: true });
    }
    this.go(metre);
  }

  onKey(event) {
    const { table: { yarnM, ticks } } = this.now();
    const changes = [...ticks].map((tick) => (tick / 1e9) * yarnM);
    const places = {
      Home: 0,
      End: yarnM,
      PageUp: changes.find((edge) => edge > this.metre + 0.05) ?? yarnM,
      PageDown: changes.findLast((edge) => edge < this.metre - 0.05) ?? 0,
    };
    const to = places[event.key] ?? this.metre + (KEYS[event.key] * yarnM) / STEPS;
    if (Number.isNaN(to)) return;
    event.preventDefault();
    this.go(Math.min(Math.max(to, 0), yarnM));
    this.pointed.textContent = this.said(this.metre, null);
  }

  go(metre) {
    this.show(metre);
    this.look(metre);
  }

  // Put the mark where the close-up looks.
  show(metre) {
    const { table } = this.now();
    this.metre = metre;
    this.mark.style.left = `${(100 * metre) / table.yarnM}%`;
    this.mark.setAttribute("aria-valuemax", table.yarnM.toFixed(1));
    this.mark.setAttribute("aria-valuenow", metre.toFixed(1));
    this.mark.setAttribute("aria-valuetext", this.said(metre, null));
  }

  // What lies at a metre: on one ply, or on all of them.
  said(metre, ply) {
    const { table, names, reading } = this.now();
    const far = (m) => (m / reading.length.size).toFixed(1);
    const at = `at ${far(metre)} ${reading.length.unit}`;
    const plies = ply === null ? reading.plies.map((_, k) => k) : [ply];
    const told = plies.map((k) => {
      const { lot, from, to } = runAt(runsOf(table)[k], metre);
      const grams = (to - from) * reading.g_per_m[k];
      const reach = `from ${far(from)} to ${far(to)} ${reading.length.unit}`;
      return `${names[lot]} on ${reading.plies[k]}, ${massOf(grams, reading.mass)} ${reach}`;
    });
    return `${at}: ${told.join("; ")}`;
  }
}

function massOf(grams, { unit, size, finer }) {
  const decimals = (grams < 1 ? 2 : 1) + finer;
  return `${(grams / size).toFixed(decimals)} ${unit}`;
}

function runAt({ ends, lots }, metre) {
  const found = ends.findIndex((end) => metre < end);
  const at = found < 0 ? ends.length - 1 : found;
  return { lot: lots[at], from: at ? ends[at - 1] : 0, to: ends[at] };
}

// The ply whose band lies at a height; null on the plied yarn, which shows them all.
function plyAt({ bands, yarn }, y) {
  if (y >= yarn[0]) return null;
  const below = bands.findIndex(([, end]) => y < end);
  return below < 0 ? bands.length - 1 : below;
}
