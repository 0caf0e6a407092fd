// The overview strip: a band for each ply, the plied yarn under them in slanting stripes. Where two
// lots meet within a column, they share it as the package's own strip does.

import { PAPER, runsOf } from "./gather.js";
import { shared } from "./light.js";

const WHOLE_SHARE = 256;
const ALMOST_PX = 1e-6;

export class StripPicture {
  constructor(canvas, told) {
    this.told = told;
    canvas.width = told.width;
    canvas.height = told.height;
    this.context = canvas.getContext("2d");
    this.image = this.context.createImageData(told.width, told.height);
    this.pixels = new Uint32Array(this.image.data.buffer);
  }

  paint(table, colours, drafted) {
    const { width, bands, yarn, stripe, slant } = this.told;
    const { pixels } = this;
    const { rows, others, shares } = this.columns(table);
    const mixed = (one, other, share) => (share ? shared(colours[one], colours[other], share) : colours[one]);
    const seen = (k, x, turn) =>
      mixed(drafted.shown(rows[k][x], turn), drafted.shown(others[k][x], turn), shares[k][x]);
    pixels.fill(PAPER);
    bands.forEach(([top, end], k) => {
      const streaks = rows[k].some((lot) => drafted.of.has(lot)) ? drafted.streaks : 1;
      const parted = Array.from({ length: streaks }, (_, at) => {
        const turn = drafted.streak(at);
        return this.parted(table, k, rows[k].map((lot, x) => seen(k, x, turn)));
      });
      for (let y = top; y < end; y += 1) pixels.set(parted[(y - top) % streaks], y * width);
    });
    for (let y = yarn[0]; y < yarn[1]; y += 1) {
      const lean = (yarn[1] - y) * slant;
      for (let x = 0; x < width; x += 1) {
        const k = Math.floor((x + lean) / stripe) % table.plies;
        const across = drafted.of.size ? ((x + lean) % stripe) / stripe : 0;
        pixels[y * width + x] = seen(k, x, across);
      }
    }
    this.context.putImageData(this.image, 0, 0);
  }

  // Of each column of each ply the lot that has most samples, the one that comes second, its share.
  columns({ ticks, lot, plies, count }) {
    const { width, finer } = this.told;
    const each = (kind) => Array.from({ length: plies }, () => new kind(width));
    const [rows, others, shares] = [each(Uint32Array), each(Uint32Array), each(Uint8Array)];
    const stretches = new Uint32Array(finer);
    let s = 0;
    for (let x = 0; x < width; x += 1) {
      for (let sample = 0; sample < finer; sample += 1) {
        const middle = ((x * finer + sample + 0.5) / (width * finer)) * 1e9;
        while (s + 1 < count && ticks[s + 1] <= middle) s += 1;
        stretches[sample] = s;
      }
      const isOne = stretches[0] === s;
      for (let k = 0; k < plies; k += 1) {
        rows[k][x] = lot[s * plies + k];
        if (!isOne) [rows[k][x], others[k][x], shares[k][x]] = twoCommonest(stretches, (at) => lot[at * plies + k]);
      }
    }
    return { rows, others, shares };
  }

  // The same with a line of paper between two runs that are both wide enough.
  parted(table, k, row) {
    const { width, parted } = this.told;
    const { ends } = runsOf(table)[k];
    const px = [0, ...ends.map((end) => (end / table.yarnM) * width)];
    const own = row.slice();
    for (let at = 1; at + 1 < px.length; at += 1) {
      const wide = px[at] - px[at - 1] >= parted && px[at + 1] - px[at] >= parted;
      if (wide) own[Math.floor(px[at] + ALMOST_PX)] = PAPER;
    }
    return own;
  }
}

// The lot that most stretches have, of two as many the lower; the next, and its share of the two.
function twoCommonest(stretches, lotOf) {
  const times = new Map();
  for (const stretch of stretches) {
    const lot = lotOf(stretch);
    times.set(lot, (times.get(lot) ?? 0) + 1);
  }
  const [[first, most], [second, fewer] = [first, 0]] = [...times].toSorted((a, b) => b[1] - a[1] || a[0] - b[0]);
  return [first, second, Math.round((WHOLE_SHARE * fewer) / (most + fewer))];
}
