// One way to go on when a single ran out: its colours along its length beside the last of the yarn,
// what it comes to, what the hands do.

import { chip, el, named } from "./element.js";
import { measuresOf } from "./measures.js";
import { capital, inRow, shown, text } from "./sentences.js";
import { between, lengthOf } from "./singles.js";
import { stretches } from "./stretches.js";

const BEFORE = 0.3; // part of the width in which the last of the yarn is seen
const MOST_RUNS = 6;
const SEEN_M = 0.05;

export function wayCard(plan, out, one, longestM) {
  return el(
    "section",
    { class: "way" },
    el("h4", {}, shown(capital(one.name))),
    el("p", {}, shown(one.worth)),
    one.along ? pictured(plan, out, { ...one.along, length: one.length, told: together(one) }, longestM) : "",
    el("ol", {}, one.hands.map((line) => el("li", {}, shown(line)))),
  );
}

function pictured(plan, out, along, longestM) {
  const lastM = (longestM * BEFORE) / (1 - BEFORE);
  const last = tail(out, lastM);
  return [
    el(
      "div",
      { class: "bands", "aria-hidden": "true" },
      bands(plan, last, BEFORE, last.edges.at(-1) / lastM, true),
      bands(plan, along, 1 - BEFORE, along.edges.at(-1) / longestM, false),
    ),
    el("p", { class: "ends" }, el("span", {}, "the last of the yarn"), el("span", {}, `then ${along.length}`)),
    el("ul", { class: "runs" }, along.told.map(([whose, own]) => el("li", {}, whose, runsOf(plan, own)))),
  ];
}

// The end of the yarn before, so many metres of it.
function tail(out, yarnM) {
  const fromM = Math.max(0, out.usedM - yarnM / (1 - out.lost));
  const strands = out.singles.map((single, k) => {
    const by = 1 / out.counts[k];
    return between(single, fromM * by, Math.min(out.usedM * by, lengthOf(single))).map((piece) => ({ ...piece, m: piece.m / by }));
  });
  return stretches(strands, out.lost);
}

// Each strand as a band of its colours; `part` of the width holds `share` of it.
function bands(plan, { edges, lots }, part, share, isLast) {
  const made = el("div", { class: isLast ? "side last" : "side" });
  made.style.flexGrow = part;
  lots[0].forEach((_, k) => {
    const band = el("div", { class: "band" });
    band.style.width = `${Math.min(share, 1) * 100}%`;
    for (const { lot, m } of runs(edges, lots, k)) {
      const run = el("span");
      run.style.flexGrow = m;
      run.style.backgroundColor = plan.lots[lot].colour;
      band.append(run);
    }
    made.append(band);
  });
  return made;
}

function runs(edges, lots, k) {
  const found = [];
  lots.forEach((each, n) => {
    const m = edges[n + 1] - edges[n];
    if (found.at(-1)?.lot === each[k]) found.at(-1).m += m;
    else found.push({ lot: each[k], m });
  });
  return found;
}

// Strands that are alike stand together: which they are, and their runs. Those of a chain are, but
// for a loop.
function together({ kind, plies, along: { edges, lots } }) {
  if (kind === "chain") return [["", seen(runs(edges, lots, 0))]];
  const found = new Map();
  lots[0].forEach((_, k) => {
    const own = seen(runs(edges, lots, k));
    const key = own.map(({ lot, m }) => `${lot} ${m.toFixed(3)}`).join();
    if (!found.has(key)) found.set(key, [[], own]);
    found.get(key)[0].push(new Set(plies).size > 1 ? `ply ${plies[k] + 1}` : `end ${k + 1}`);
  });
  return [...found.values()].map(([strands, own]) => [
    strands.length === lots[0].length ? "" : text([...capital(inRow(strands)), ": "]),
    own,
  ]);
}

const seen = (own) => own.filter(({ m }) => m >= SEEN_M);

function runsOf(plan, own) {
  const { long } = measuresOf(plan);
  const each = own.slice(0, MOST_RUNS).map(({ lot, m }) =>
    el("span", { class: "run" }, chip(plan.lots[lot], "chip dot"), " ", named(plan.lots[lot].name), ` ${long(m)}`),
  );
  const more = own.length - MOST_RUNS;
  return [...each.flatMap((run, at) => (at ? [" ", run] : [run])), more > 0 ? ` and ${more} more` : ""];
}
