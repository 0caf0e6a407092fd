// Moves on their way to the kernel. One message is under way at a time: what comes meanwhile waits,
// and of one lot only the last counts. An answer to anything else than that message is a late one.

const SLOW_MS = 150; // after which it is said that the kernel has not answered
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

export class Moves {
  // `slow` is told when the kernel takes its time, `calm` when nothing is under way.
  constructor(model, { slow, calm }) {
    Object.assign(this, { model, slow, calm });
    this.queue = []; // moves that the kernel has not confirmed, oldest first
    this.serial = 0;
    this.inFlight = null;
    this.wantsRest = false;
    this.turn = 0; // of the frame whose entries are moved
  }

  leave() {
    clearTimeout(this.waiting);
    clearTimeout(this.resting);
  }

  // Nothing is under way, and nothing is about to be asked.
  get isAtRest() {
    return !this.queue.length && this.inFlight === null && !this.wantsRest;
  }

  // What is asked besides moves does not wait for them.
  ask(message) {
    this.serial += 1;
    this.model.send({ ...message, serial: this.serial });
  }

  add(entry, place) {
    this.queue = this.queue.filter((each) => each.serial !== null || each.entry !== entry);
    this.queue.push({ entry, place, serial: null });
    this.last = entry;
    clearTimeout(this.resting);
    this.resting = setTimeout(() => this.rest(), REST_MS);
  }

  // What an order will be when all is confirmed.
  orderFrom(entries, held) {
    return this.queue.reduce((order, { entry, place }) => moved(order, held, entry, place), entries);
  }

  // The last move where all that wait are of one entry, else null.
  single() {
    const last = this.queue.at(-1);
    return this.queue.every(({ entry }) => entry === last.entry) ? last : null;
  }

  send() {
    if (this.inFlight !== null || !this.queue.length) {
      this.settled();
      return;
    }
    this.serial += 1;
    this.inFlight = this.serial;
    for (const move of this.queue) move.serial = this.serial;
    const moves = this.queue.map(({ entry, place }) => [entry, place]);
    this.model.send({ do: "move", moves, serial: this.serial, turn: this.turn });
    this.wait();
  }

  // Take the moves of a message as done; return whose they were.
  confirmed(serial) {
    if (serial === null || serial !== this.inFlight) return [];
    const done = this.queue.filter((move) => move.serial === serial);
    this.queue = this.queue.filter((move) => move.serial !== serial);
    this.inFlight = null;
    return done.map(({ entry }) => entry);
  }

  wait() {
    this.waiting ??= setTimeout(() => this.slow(), SLOW_MS);
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
      this.calm();
    }
  }

  // The fingers are still: ask for the numbers and the words, and for the tables of every move.
  rest() {
    clearTimeout(this.resting);
    this.wantsRest = true;
    this.settled();
  }
}
