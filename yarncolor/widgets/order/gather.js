// Painting by gathers. Which place of the yarn each pixel shows, or which two share it, comes from
// the kernel, once; what each place shows follows from a table of stretches, no more.
// Joins, unevenness and the curve of sRGB are reckoned as the package's own pictures do; a browser
// test holds the pixels of both together.

import { codedByte, shared } from "./light.js";

const FIXED = 3;
const BLANK = FIXED; // a row of paper at every level: where there is no yarn
const FIRST_LOT = BLANK + 1;
const LEVELS = 16;
export const PAPER = 0xffffffff;

// A table: edges of the stretches in metres, and the lot of each ply over each stretch.
export function tableOf(ticks, lot, plies, yarnM) {
  return { ticks, lot, plies, yarnM, count: ticks.length - 1, runs: null };
}

// For each ply, where its runs end (metres) and the lot of each.
export function runsOf(table) {
  if (table.runs) return table.runs;
  const { ticks, lot, plies, count } = table;
  table.runs = Array.from({ length: plies }, (_, k) => {
    const ends = [];
    const lots = [];
    for (let s = 0; s < count; s += 1) {
      const own = lot[s * plies + k];
      if (s + 1 === count || lot[(s + 1) * plies + k] !== own) {
        ends.push((ticks[s + 1] / 1e9) * table.yarnM);
        lots.push(own);
      }
    }
    return { ends, lots };
  });
  return table.runs;
}

// What shows of lots that are drafted together, side by side: one of theirs at each part of a turn.
class Drafted {
  constructor({ drafted, spiral_m: spiral, between_plies: between, streaks_px: streaks }) {
    this.of = new Map(drafted);
    this.spiral = spiral;
    this.between = between;
    this.streaks = streaks;
  }

  shown(lot, turn) {
    const parts = this.of.get(lot);
    if (!parts) return lot;
    return (parts.find(([, upTo]) => turn < upTo) ?? parts.at(-1))[0];
  }

  at(lot, k, metre) {
    if (!this.of.has(lot)) return lot;
    return this.shown(lot, (metre / this.spiral + k * this.between) % 1);
  }

  streak(row) {
    return ((row % this.streaks) + 0.5) / this.streaks;
  }
}

// Rows of sixteen levels: paper, card, warp; each lot at each unevenness; joins as they are met.
export class Shades {
  constructor(told) {
    this.told = told;
    this.lots = told.lots.length;
    this.drafted = new Drafted(told);
    this.used = FIRST_LOT + this.lots * told.mottles;
    this.table = new Uint32Array((this.used + 256) * LEVELS);
    this.joins = new Map();
    told.fixed.forEach((srgb, row) => this.fill(row, srgb, fixedFall(told.relief)));
    this.table.fill(PAPER, BLANK * LEVELS, FIRST_LOT * LEVELS);
    for (let lot = 0; lot < this.lots; lot += 1) {
      for (let mottle = 0; mottle < told.mottles; mottle += 1) {
        this.fill(this.row(lot, lot, 0, mottle), this.mixed(lot, lot, 0, mottle));
      }
    }
  }

  row(one, other, mix, mottle) {
    if (mix === 0 || one === other) return FIRST_LOT + one * this.told.mottles + mottle;
    const key = ((one * this.lots + other) * 32 + mix) * 32 + mottle;
    let row = this.joins.get(key);
    if (row === undefined) {
      row = this.used;
      this.used += 1;
      this.joins.set(key, row);
      if (this.used * LEVELS > this.table.length) {
        const wider = new Uint32Array(this.table.length * 2);
        wider.set(this.table);
        this.table = wider;
      }
      this.fill(row, this.mixed(one, other, mix, mottle));
    }
    return row;
  }

  mixed(one, other, mix, mottle) {
    const { lots, mottles, mottle: strength, join_steps: steps } = this.told;
    const share = mix / steps;
    const light = 1 + ((strength * (mottle - (mottles - 1) / 2)) / (mottles - 1)) * 2;
    return lots[one].map((own, c) => codedByte((own * (1 - share) + lots[other][c] * share) * light));
  }

  fill(row, srgb, fall = fallOn(Math.max(...srgb), this.told.relief)) {
    const { heights, through, fixed } = this.told;
    for (let level = 0; level < LEVELS; level += 1) {
      let packed = 0xff000000;
      const { light, veil } = fall(heights[level]);
      for (let c = 0; c < 3; c += 1) {
        const own = Math.min(Math.max(srgb[c] * light + veil, 0), 255);
        const seen = own * (1 - through[level]) + fixed[0][c] * through[level];
        packed |= Math.round(seen) << (8 * c);
      }
      this.table[row * LEVELS + level] = packed >>> 0;
    }
  }
}

// How light falls on what is no yarn: itself where it is brightest.
const fixedFall = ({ dark }) => (height) => ({ light: dark + (1 - dark) * height, veil: 0 });

// How light falls on fibre whose largest channel is `peak`: the darkest and the lightest keep relief.
function fallOn(peak, { dark: usual, bright: most, middle, least }) {
  const bright = Math.min(most, 255 / Math.max(peak, 1));
  const dark = usual + most - bright;
  const lack = Math.max(least - peak * (bright - dark), 0);
  const down = Math.min(lack * middle, peak * dark);
  return (height) => ({ light: dark + (bright - dark) * height, veil: lack * height - down });
}

// Numbers whose lower two bytes were sent apart from what is above them, a byte each or two.
function numbers(low, above) {
  const lower = new Uint16Array(low);
  const upper = above.byteLength === lower.length ? new Uint8Array(above) : new Uint16Array(above);
  return Uint32Array.from(lower, (each, at) => each + upper[at] * 65536);
}

// Which pixels two places share: sent as steps from one to the next.
function edgesOf([steps, low, above, share]) {
  let pixel = 0;
  const at = Uint32Array.from(new Uint8Array(steps), (step) => { pixel += step; return pixel; });
  return { at, index: numbers(low, above), share: new Uint8Array(share) };
}

// A scene as it was sent: its places ply by ply, rising along the yarn.
export class Scene {
  constructor(canvas, told, [place, metre, mottle, low, above, ...edges]) {
    this.index = numbers(low, above);
    this.place = new Uint32Array(place);
    this.metre = new Float64Array(metre);
    this.mottle = new Uint8Array(mottle);
    this.edges = edgesOf(edges);
    this.starts = told.starts;
    this.rows = new Uint32Array(told.places + FIXED);
    for (let row = 0; row < FIXED; row += 1) this.rows[row] = row;
    canvas.width = told.width;
    canvas.height = told.height;
    this.context = canvas.getContext("2d", { willReadFrequently: false });
    this.image = this.context.createImageData(told.width, told.height);
    this.pixels = new Uint32Array(this.image.data.buffer);
  }

  paint(table, shades) {
    this.look(table, shades);
    const { index, rows, pixels } = this;
    const colours = shades.table;
    for (let at = 0; at < index.length; at += 1) {
      const what = index[at];
      pixels[at] = colours[(rows[what >>> 4] << 4) | (what & 15)];
    }
    this.paintEdges(colours);
    this.context.putImageData(this.image, 0, 0);
  }

  // Pixels that a second place has a share of.
  paintEdges(colours) {
    const { rows, pixels, edges: { at, index, share } } = this;
    for (let edge = 0; edge < at.length; edge += 1) {
      const what = index[edge];
      const other = colours[(rows[what >>> 4] << 4) | (what & 15)];
      pixels[at[edge]] = shared(pixels[at[edge]], other, share[edge]);
    }
  }

  // Give every place the row of what it shows: one walk along each ply.
  look(table, shades) {
    const { place, metre, mottle, starts, rows } = this;
    const join = shades.told.join_m;
    rows.fill(BLANK, FIXED);
    runsOf(table).forEach(({ ends, lots }, k) => {
      const last = ends.length - 1;
      let at = 0;
      for (let i = starts[k]; i < starts[k + 1]; i += 1) {
        const here = Math.max(metre[i], 0);
        if (here > ends[last]) continue;
        while (at < last && ends[at] <= here) at += 1;
        const left = at > 0 ? here - ends[at - 1] : Infinity;
        const right = at < last ? ends[at] - here : Infinity;
        const near = Math.min(left, right);
        let other = lots[at];
        let mix = 0;
        if (near < join / 2) {
          other = right < join / 2 && (left >= join / 2 || right < left) ? lots[at + 1] : lots[at - 1];
          mix = Math.round((0.5 - near / join) * shades.told.join_steps);
        }
        const own = shades.drafted.at(lots[at], k, here);
        other = mix ? shades.drafted.at(other, k, here) : own;
        rows[place[i] + FIXED] = shades.row(own, other, mix, mottle[i]);
      }
    });
  }
}

export function packedHex(hex) {
  const rgb = parseInt(hex.slice(1), 16);
  return (0xff000000 | ((rgb & 0xff) << 16) | (rgb & 0xff00) | (rgb >> 16)) >>> 0;
}
