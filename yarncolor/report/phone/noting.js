// Changes to what is kept: each takes the entries and changes them in place.

import { agrees, rowOf } from "./lying.js";

const today = () => {
  const now = new Date();
  const parts = [now.getFullYear(), now.getMonth() + 1, now.getDate()];
  return parts.map((part) => String(part).padStart(2, "0")).join("-");
};

const same = (plan, ply, row) => (entry) =>
  entry.ply === ply && entry.row === row && agrees(plan, entry);

// The entry of a row, made where there is none.
export function entryOf(plan, entries, ply, row) {
  const found = entries.find(same(plan, ply, row));
  if (found) return found;
  const made = { ply, row, did: "" };
  const planned = rowOf(plan, made);
  made.was = [plan.lots[planned.lot].name, planned.put_g];
  entries.push(made);
  return made;
}

// A row that is ticked late lies where the plan has it, unless it was to be spun next.
function place(entries, entry) {
  const later = entries.findIndex(
    (other) => other.ply === entry.ply && other.did === "spun" && other.row > entry.row,
  );
  if (entry.now || later < 0) entries.push(entry);
  else entries.splice(later, 0, entry);
}

export function tick(plan, entries, ply, row) {
  const entry = entryOf(plan, entries, ply, row);
  if (entry.did === "spun") return;
  entries.splice(entries.indexOf(entry), 1);
  place(entries, entry);
  const planned = rowOf(plan, entry);
  entry.was = [plan.lots[planned.lot].name, planned.put_g];
  Object.assign(entry, { did: "spun", on: today() });
  delete entry.now;
}

export function leaveOut(plan, entries, ply, row) {
  const entry = entryOf(plan, entries, ply, row);
  entries.splice(entries.indexOf(entry), 1);
  entries.push(entry);
  entry.did = "out";
  delete entry.now;
}

export function spinNext(plan, entries, ply, row) {
  for (const entry of entries) if (entry.ply === ply) delete entry.now;
  Object.assign(entryOf(plan, entries, ply, row), { did: "", now: true });
}

// What the plan file said of an entry is the phone's own from its first change here on.
function own(held, entry) {
  if (entry.from) held.gone.push(entry.from);
  delete entry.from;
}

// The entry as it is kept now: what a view holds may have been read before.
const kept = (held, entry) =>
  held.entries.find((other) => JSON.stringify(other) === JSON.stringify(entry));

// Takes back what was said of a row, or an extra piece whole; what was typed beside a row stays.
export function undo(held, entry) {
  const found = kept(held, entry);
  if (!found) return;
  own(held, found);
  if (found.row === null) held.entries.splice(held.entries.indexOf(found), 1);
  else Object.assign(found, { did: "", on: undefined, passed: undefined });
}

export function pass(held, entry) {
  const found = kept(held, entry);
  if (found) found.passed = true;
}

export function addExtra(held, ply, about) {
  held.entries.push({ ply, row: null, did: "spun", on: today(), ...about });
}

// A piece that was decided beside the rows is not spun after all.
export function goWithout(held, ply, { number, lot }) {
  held.entries.push({ ply, row: null, did: "without", beside: number, lot });
}

export function set(held, entry, key, value) {
  if ((entry[key] ?? null) === value) return;
  own(held, entry);
  if (value === null) delete entry[key];
  else entry[key] = value;
}
