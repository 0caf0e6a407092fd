// What is taken home: tables as they stand in a plan file, between a first and a last line that
// tell whether it came through whole. Each table is summed up in its own line, so that a table
// that was changed on the way is known.

import { agrees, rowOf, wentIn } from "./lying.js";
import { strays } from "./agreeing.js";
import { measuresOf } from "./measures.js";

const SHARED = ["on", "from", "note"]; // alike in all rows that one table says
const POLYNOMIAL = 0xedb88320;

// CRC-32 of a text as UTF-8, in hexadecimal.
function sum(text) {
  let crc = 0xffffffff;
  for (const byte of new TextEncoder().encode(text)) {
    crc ^= byte;
    for (let bit = 0; bit < 8; bit += 1) crc = (crc >>> 1) ^ (crc & 1 ? POLYNOMIAL : 0);
  }
  return ((crc ^ 0xffffffff) >>> 0).toString(16).padStart(8, "0");
}

const quoted = (text) => JSON.stringify(text);

// Rows up to one, all as planned and none before it unnamed, are said in one table.
function throughTo(run, named) {
  const rows = run.map((entry) => entry.row);
  const [first] = rows;
  const isNext = first === Math.max(0, ...named) + 1 && named.size === first - 1;
  return isNext && rows.every((row, at) => row === first + at);
}

const isPlain = (plan, entry) =>
  entry.row !== null &&
  !["lot", "mass_g", "length_m", "sample_m", "sample_g", "gross_g"].some((key) => entry[key]) &&
  entry.was[1] === rowOf(plan, entry).put_g;

// The entries of a ply, those together that one table can say.
function runs(plan, spun) {
  const found = [];
  for (const entry of spun) {
    const run = found.at(-1);
    const before = run?.at(-1);
    const joins =
      run &&
      isPlain(plan, entry) &&
      isPlain(plan, before) &&
      entry.row === before.row + 1 &&
      SHARED.every((key) => entry[key] === before[key]) &&
      bobbinOf(plan, entry) === bobbinOf(plan, before);
    if (joins) run.push(entry);
    else found.push([entry]);
  }
  return found;
}

const bobbinOf = (plan, entry) => entry.bobbin ?? rowOf(plan, entry)?.bobbin ?? null;

function ofEntry(plan, entry) {
  const row = rowOf(plan, entry);
  const lines = entry.row === null ? [] : [`row = ${entry.row}`];
  const isOther = !row || wentIn(plan, entry) !== plan.lots[row.lot].name;
  if (isOther) lines.push(`lot = ${quoted(wentIn(plan, entry))}`);
  const isAsThen = row && !entry.length_m && entry.was[1] !== row.put_g;
  const mass = entry.mass_g ?? (isAsThen ? entry.was[1] : null);
  if (mass) lines.push(`mass_g = ${mass}`);
  if (entry.length_m) lines.push(`length_m = ${entry.length_m}`);
  if (entry.sample_m && entry.sample_g)
    lines.push(`sample = { length_m = ${entry.sample_m}, mass_g = ${entry.sample_g} }`);
  if (entry.gross_g) lines.push(`gross_g = ${entry.gross_g}`);
  return lines;
}

function ofPly(plan, entries, ply) {
  const spun = entries.filter(
    (entry) => entry.ply === ply && entry.did === "spun" && agrees(plan, entry),
  );
  const named = new Set();
  let bobbin = 1;
  const tables = [];
  const say = (run, lines) => {
    const onto = bobbinOf(plan, run[0]) ?? bobbin;
    if (onto !== bobbin) lines.push(`bobbin = ${onto}`);
    bobbin = onto;
    if (run[0].note) lines.push(`note = ${quoted(run[0].note)}`);
    if (run[0].on) lines.push(`on = ${run[0].on}`);
    tables.push(["[[spun]]", `ply = ${ply}`, ...lines]);
    for (const { row } of run) if (row !== null) named.add(row);
  };
  for (const run of runs(plan, spun)) {
    if (run.length > 1 && throughTo(run, named)) say(run, [`through = ${run.at(-1).row}`]);
    else for (const entry of run) say([entry], ofEntry(plan, entry));
  }
  return tables;
}

// How far the yarn is and which single ran out, as far as the plan does not say so already.
function pliedLines(plan, { so_far_m: so, ended, turn_m: turn, tare_g: tare }) {
  const known = plan.plied?.ended;
  const isNew = ended && (ended.ply !== known?.ply || ended.at_m !== known.at_m);
  const lines = [
    ...(turn && turn !== plan.plying.turn_m ? [`turn_m = ${turn}`] : []),
    ...(tare && tare !== plan.plying.tare_g ? [`plying_tare_g = ${tare}`] : []),
    ...(isNew ? [`ended_ply = ${ended.ply}`, `at_m = ${ended.at_m}`] : []),
  ];
  if (!so) return isNew ? lines : [];
  return lines.length || so !== plan.plied?.so_far_m ? [`so_far_m = ${so}`, ...lines] : [];
}

function tablesOf(plan, held) {
  const tables = plan.plies.flatMap((_, at) => ofPly(plan, held.entries, at + 1));
  const plied = pliedLines(plan, held.plied);
  if (plied.length) tables.push(["[plied]", ...plied]);
  return tables;
}

const summed = (lines, at, of) => {
  const [head, ...rest] = lines;
  return [`${head} # ${at + 1} of ${of}, ${sum(lines.join("\n"))}`, ...rest].join("\n");
};

// Rows that are spun, each as a word: rows taken home once and undone since are known by it.
export const keysOf = ({ entries }) =>
  entries.filter(({ did, row }) => did === "spun" && row).map(({ ply, row }) => `r${ply}.${row}`);

// The whole text; where nothing was ticked, no tables between the two lines.
export function takenHome(plan, held) {
  const tables = tablesOf(plan, held);
  const now = new Set(keysOf(held));
  const undone = (held.taken ?? []).filter((key) => !now.has(key));
  const seen = held.entries.flatMap((entry) => entry.from ?? []);
  const marks = new Set([...held.gone, ...seen, ...undone]);
  const head = [
    `# Taken home from the wheel: ${quoted(plan.title)}`,
    `# tables: ${tables.length}, rows: ${plan.rows_mark}, known: ${[...marks].join(" ") || "none"}`,
    ...strays(plan, held.entries).map((entry) => `# not taken along: ${quoted(said(plan, entry))}`),
  ].join("\n");
  const inner = tables.map((lines, at) => summed(lines, at, tables.length));
  const text = [head, ...inner].join("\n\n");
  return `${text}\n\n# The end, tables: ${tables.length}, sum: ${sum(text)}\n`;
}

// A piece in words, as its plan says grams.
export function said(plan, entry) {
  const place = entry.row === null ? "a piece too many" : `row ${entry.row}`;
  const lot = entry.lot ?? entry.was?.[0];
  const { mass } = measuresOf(plan);
  return `ply ${entry.ply}, ${place}, ${lot}, ${mass.typed(entry.mass_g ?? entry.was?.[1]) || "?"} ${mass.unit}`;
}
