// Names on the bands of the strip, where they fit; the chips hold them all as text.

import { runsOf } from "./gather.js";

export class StripLabels {
  constructor(canvas) {
    this.canvas = canvas;
    this.widths = null;
  }

  // Widths are measured anew: other names, or pixels of another size.
  forget() {
    this.widths = null;
  }

  paint(table, strip, { names, inks, grounds, drafted }) {
    const shown = this.canvas.clientWidth || strip.width;
    const scale = shown / strip.width;
    const pen = this.cleared(shown, scale * strip.height, strip.label.size_px);
    this.widths ??= names.map((name) => pen.measureText(name).width);
    runsOf(table).forEach((runs, k) => {
      const [top, end] = strip.bands[k].map((edge) => edge * scale);
      if (end - top < strip.label.least_px) return;
      for (const { lot, middle, room } of this.labelled(runs, shown / table.yarnM)) {
        if (room <= this.widths[lot] + strip.label.room_px) continue;
        if (drafted.of.has(lot)) {
          pen.strokeStyle = grounds[lot];
          pen.strokeText(names[lot], middle, (top + end) / 2);
        }
        pen.fillStyle = inks[lot];
        pen.fillText(names[lot], middle, (top + end) / 2);
      }
    });
  }

  labelled({ ends, lots }, pxOfMetre) {
    return lots.map((lot, at) => {
      const from = at ? ends[at - 1] * pxOfMetre : 0;
      const end = ends[at] * pxOfMetre;
      return { lot, middle: (from + end) / 2, room: end - from };
    });
  }

  cleared(width, height, sizePx) {
    const sharp = window.devicePixelRatio || 1;
    const [wide, high] = [Math.round(width * sharp), Math.round(height * sharp)];
    if (this.canvas.width !== wide || this.canvas.height !== high) {
      this.canvas.width = wide;
      this.canvas.height = high;
      this.forget();
    }
    const pen = this.canvas.getContext("2d");
    pen.setTransform(sharp, 0, 0, sharp, 0, 0);
    pen.clearRect(0, 0, width, high);
    pen.font = `${sizePx}px system-ui, sans-serif`;
    pen.textAlign = "center";
    pen.lineWidth = sizePx / 2;
    pen.lineJoin = "round";
    pen.textBaseline = "middle";
    return pen;
  }
}
