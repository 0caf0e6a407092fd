// The three pictures of an order and the names on its strip, painted from a table of stretches.

import { packedHex, Scene, Shades } from "./gather.js";
import { StripLabels } from "./strip_labels.js";
import { StripPicture } from "./strip_picture.js";
import { own } from "./tables.js";

const BUFFERS_OF_A_SCENE = 9;

const same = (one, other) => JSON.stringify(one) === JSON.stringify(other);

export class Pictures {
  constructor(canvases, names) {
    this.canvases = canvases;
    this.labels = new StripLabels(names);
    this.scenes = {};
    this.frame = null;
    this.more = 0; // lots beyond the frame's
  }

  // Take scenes by name; those that are not told of stay.
  setScenes(heads, buffers) {
    heads.forEach((head, at) => {
      const from = at * BUFFERS_OF_A_SCENE;
      const maps = buffers.slice(from, from + BUFFERS_OF_A_SCENE).map(own);
      this.scenes[head.name] = new Scene(this.canvases[head.name], head, maps);
    });
  }

  // Take an order's colours and strip; return whether the strip is another one.
  setFrame(frame) {
    const before = this.frame;
    const isStripNew = !same(before?.strip, frame.strip);
    if (this.more || !same(before?.shades, frame.shades)) this.shades = new Shades(frame.shades);
    if (isStripNew) this.strip = new StripPicture(this.canvases.strip, frame.strip);
    this.frame = frame;
    this.take(frame);
    return isStripNew;
  }

  // Take what tables of other orders name besides: a gradient cards other steps there.
  setMore(more) {
    if (more.colours.length <= this.more) return;
    const { frame } = this;
    this.shades = new Shades({ ...frame.shades, lots: [...frame.shades.lots, ...more.lots] });
    this.take({
      colours: [...frame.colours, ...more.colours],
      inks: [...frame.inks, ...more.inks],
      lot_names: [...frame.lot_names, ...more.lot_names],
    });
    this.more = more.colours.length;
  }

  take({ colours, inks, lot_names: names }) {
    this.colours = colours.map(packedHex);
    this.named = { names, inks, grounds: colours, drafted: this.shades.drafted };
    this.more = 0;
    this.labels.forget();
  }

  paint(table) {
    this.strip.paint(table, this.colours, this.shades.drafted);
    this.labels.paint(table, this.frame.strip, this.named);
    for (const scene of Object.values(this.scenes)) scene.paint(table, this.shades);
  }
}
