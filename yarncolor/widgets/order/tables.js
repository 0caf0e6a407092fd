// Tables of stretches: of the order as it is confirmed, and of single moves that may come.

import { tableOf } from "./gather.js";

// A buffer of its own, whatever the message's buffers are views of.
export function own(view) {
  return view.buffer.slice(view.byteOffset, view.byteOffset + view.byteLength);
}

function unpacked({ counts, yarn_m: yarnM, plies }, [ticks, lot]) {
  const [ticksOfAll, lotOfAll] = [new Uint32Array(own(ticks)), new Uint16Array(own(lot))];
  let [edge, from] = [0, 0];
  return counts.map((count, at) => {
    const ticksOfOne = ticksOfAll.subarray(edge, edge + count + 1);
    const lotOfOne = lotOfAll.subarray(from, from + count * plies);
    edge += count + 1;
    from += count * plies;
    return tableOf(ticksOfOne, lotOfOne, plies, yarnM[at]);
  });
}

export class Tables {
  constructor() {
    this.base = null;
    this.ahead = new Map();
  }

  confirm(head, buffers) {
    [this.base] = unpacked(head, buffers);
  }

  forget() {
    this.ahead = new Map();
  }

  // Once entries have moved, what was sent ahead holds for the one that moved alone, if one did.
  keepAfter(entries) {
    const [entry, ...others] = new Set(entries);
    const holds = (key) => !others.length && key.startsWith(`${entry} `);
    this.ahead = new Map([...this.ahead].filter(([key]) => holds(key)));
  }

  add(moves, head, buffers) {
    const tables = unpacked(head, buffers);
    moves.forEach(([entry, place], at) => this.ahead.set(`${entry} ${place}`, tables[at]));
  }

  knows(entry) {
    return [...this.ahead.keys()].some((key) => key.startsWith(`${entry} `));
  }

  // The table once an entry of the confirmed order has moved; null where none was sent.
  after(entries, { entry, place }) {
    if (entries.indexOf(entry) === place) return this.base;
    return this.ahead.get(`${entry} ${place}`) ?? null;
  }
}
