// Taking home what was noted: text to copy or a file; and what no longer agrees with the plan.

import { button, el } from "./element.js";
import { isExtra, isThatRow, strays, weighedOtherwise } from "./agreeing.js";
import { lying, rowOf } from "./lying.js";
import { measuresOf } from "./measures.js";
import { keysOf, said, takenHome } from "./taken_home.js";

const FILE = "taken_home.txt";
const FORGET_COPIED_MS = 4000;

export function homeView(at) {
  const text = takenHome(at.plan, at.held);
  const area = el("textarea", { readonly: true, rows: 8, "aria-label": "Text to take home" });
  area.value = text;
  const told = el("p", { class: "words", role: "status" });
  return {
    inside: [
      el("h2", {}, "Take home"),
      el("p", { class: "words" }, summary(at)),
      ...notes(at).map((words) => el("p", { class: "aside" }, words)),
      ...strayItems(at),
      el("p", {}, "Copy this text or save it as a file, and bring it to your plan."),
      told,
      area,
    ],
    actions: [
      button("Copy", () => copy(area, told).then(() => taken(at)), "main"),
      button("Save as a file", () => {
        save(text, told);
        taken(at);
      }),
    ],
  };
}

// What was taken home once is known, should it be undone later.
function taken(at) {
  at.keep((held) => {
    held.taken = [...new Set([...(held.taken ?? []), ...keysOf(held)])];
  });
}

function summary({ plan, held }) {
  const count = held.entries.filter((entry) => entry.did === "spun").length;
  const pieces = count === 1 ? "1 piece" : `${count} pieces`;
  const so = held.plied.so_far_m;
  const plied = so ? `, ${measuresOf(plan).length.given(so)} plied` : "";
  const rows = plan.plies.reduce((sum, { rows: own }) => sum + own.length, 0);
  return count ? `${pieces} of ${rows} noted${plied}.` : `Nothing is ticked yet${plied}.`;
}

function notes({ plan, held }) {
  const plies = plan.plies.map((_, k) => lying(plan, held.entries, k + 1));
  const passed = plies.flatMap(({ rows, spun }, k) => {
    const high = Math.max(0, ...spun.map((entry) => entry.row ?? 0));
    const open = rows.filter((row) => row.number < high && !["spun", "out", "off"].includes(row.did));
    return open.map((row) => `${plan.plies[k].name}, row ${row.number}: not ticked, so at home it counts as left out.`);
  });
  const after = plies.flatMap(({ rows, spun }, k) => {
    const high = Math.max(0, ...spun.map((entry) => entry.row ?? 0));
    const out = rows.filter((row) => row.number > high && row.did === "out");
    return out.map((row) => `${plan.plies[k].name}, row ${row.number}: left out, but nothing after it is spun yet. At home it is still to spin.`);
  });
  const changed = weighedOtherwise(plan, held.entries).map((entry) => {
    const planned = measuresOf(plan).weight(rowOf(plan, entry).put_g);
    return `${said(plan, entry)}: the plan has ${planned} now. What you spun stands.`;
  });
  return [...passed, ...after, ...changed];
}

function strayItems(at) {
  const { plan, held } = at;
  return strays(plan, held.entries).map((entry) => {
    const index = held.entries.indexOf(entry);
    const change = (words, how) =>
      button(words, () => at.note(({ entries }) => how(entries[index], entries)));
    const row = rowOf(plan, entry);
    return el(
      "section",
      { class: "stray" },
      el("p", {}, `No longer in the plan: ${said(plan, entry)}. ${now(plan, entry, row)}`),
      row && change("It is in that row", (found) => isThatRow(plan, found)),
      plan.plies[entry.ply - 1] && change("It is a piece too many", isExtra),
      change("Take it away", (found, entries) => entries.splice(entries.indexOf(found), 1)),
    );
  });
}

function now(plan, entry, row) {
  if (!plan.plies[entry.ply - 1]) return "The plan has no such ply now.";
  if (entry.row === null) return "The plan has no such lot now.";
  return row ? `That row is ${plan.lots[row.lot].name} now.` : "There is no such row now.";
}

async function copy(area, told) {
  try {
    await navigator.clipboard.writeText(area.value);
  } catch {
    area.select();
    document.execCommand("copy");
  }
  told.textContent = "Copied.";
  setTimeout(() => (told.textContent = ""), FORGET_COPIED_MS);
}

function save(text, told) {
  const address = URL.createObjectURL(new Blob([text], { type: "text/plain" }));
  const link = el("a", { href: address, download: FILE });
  link.click();
  URL.revokeObjectURL(address);
  told.textContent = `Saved as ${FILE}.`;
}
