// What the phone keeps for a plan. It is read anew before every change and written whole after it,
// at once: a page that is closed, killed or open twice loses nothing that was ticked.

import { SecondCopy } from "./second_copy.js";

const PREFIX = "yarncolor wheel: ";
const NOTHING = { count: 0, entries: [], gone: [], plied: { so_far_m: null, before_m: [] } };
const fresh = () => structuredClone(NOTHING);
const isOurs = (held) =>
  Number.isInteger(held?.count) &&
  [held.entries, held.gone, held.plied?.before_m].every(Array.isArray);

function parsed(text) {
  try {
    const held = JSON.parse(text);
    return isOurs(held) ? held : null;
  } catch {
    return null;
  }
}

export class Kept {
  constructor(name) {
    this.key = PREFIX + name;
    this.unsaved = null; // the whole state, while the phone refuses to keep it
    this.trouble = "";
    this.last = { text: null, held: fresh() };
    this.second = new SecondCopy(this.key);
  }

  // Takes what the second copy knows and the first has forgotten.
  async recover() {
    const held = parsed((await this.second.read()) ?? "");
    if (held && held.count > this.now.count) this.put(held);
  }

  get now() {
    if (this.unsaved) return this.unsaved;
    const text = this.read();
    if (text === null) return fresh();
    if (text !== this.last.text) this.last = { text, held: this.understood(text) };
    return this.last.held;
  }

  // Changes the state and keeps it, at once.
  change(how) {
    const held = structuredClone(this.now);
    how(held);
    held.count += 1;
    this.second.write(this.put(held));
  }

  put(held) {
    const text = JSON.stringify(held);
    const kept = this.write(this.key, text);
    this.unsaved = kept ? null : held;
    if (kept) this.last = { text, held };
    return text;
  }

  read() {
    try {
      return localStorage.getItem(this.key);
    } catch {
      this.refused();
      return null;
    }
  }

  write(key, text) {
    try {
      localStorage.setItem(key, text);
      this.trouble = "";
      return true;
    } catch {
      this.refused();
      return false;
    }
  }

  // What cannot be read is laid aside, not thrown away.
  understood(text) {
    const held = parsed(text);
    if (held) return held;
    this.write(`${this.key} (not understood)`, text);
    this.trouble = "What was kept here cannot be read. It is laid aside, and ticks begin anew.";
    return fresh();
  }

  refused() {
    this.trouble =
      "This phone keeps nothing for this page: its storage is full or switched off. " +
      "Take home what is ticked before you close it.";
  }
}
