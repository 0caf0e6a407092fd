// Plying: how far it is, what changes next, and how many metres there are to it.

import { button, el, lotLine } from "./element.js";
import { strays, weighedOtherwise } from "./agreeing.js";
import { howFar, turnOf, turnsTo } from "./how_far.js";
import { isTouched } from "./lying.js";
import { measuresOf } from "./measures.js";
import { oneRanOut } from "./one_ran_out.js";
import { capital } from "./sentences.js";

const NEAR_M = 0.05;
const SHOWN = 5;

const aheadOf = ({ plan, held }) => {
  const so = held.plied.so_far_m ?? 0;
  return plan.plying.changes.filter((change) => change.at_m > so + NEAR_M);
};

export function plyingView(at) {
  const next = el("div", {}, nextOf(at));
  const later = el("div", {}, laterOf(at));
  const ended = el("div", {}, oneRanOut(at));
  const fields = howFar(at, () => {
    next.replaceChildren(...nextOf(at.again()));
    later.replaceChildren(...laterOf(at.again()));
    ended.replaceChildren(...oneRanOut(at.again()));
  });
  return {
    inside: [next, ...fields, el("p", { class: "caution" }, at.plan.caution), later, ended, ...beforePlying(at)],
    actions: actions(at),
  };
}

function actions(at) {
  const { before_m: before } = at.held.plied;
  const [next] = aheadOf(at);
  const seen = () => {
    const { held } = at.again();
    const [change] = aheadOf({ plan: at.plan, held });
    if (change) at.note(({ plied }) => seenAt(at.plan, plied, change));
  };
  const back = () => at.note(({ plied }) => (plied.so_far_m = plied.before_m.pop()));
  const words = next?.skein ? "The skein ends here" : "It changes here";
  return [
    before.length ? button("Undo", back) : null,
    next ? button(words, seen, "main") : null,
  ].filter(Boolean);
}

function seenAt(plan, plied, change) {
  plied.before_m.push(plied.so_far_m);
  plied.so_far_m = measuresOf(plan).length.tenths(change.at_m);
}

function large(plan, lengthM) {
  const { length } = measuresOf(plan);
  return el("p", { class: "grams" }, length.number(Math.max(0, lengthM)), el("small", {}, ` ${length.unit}`));
}

function nextOf(at) {
  const { plan, held } = at;
  const so = held.plied.so_far_m ?? 0;
  const [next] = aheadOf(at);
  if (!next)
    return [
      el("h2", { class: "lead" }, "No change any more"),
      large(plan, plan.plying.yarn_m - so),
      el("p", { class: "words" }, "to the end of the yarn"),
    ];
  return [
    el("h2", { class: "lead" }, next.skein ? "The skein ends in" : "Next change in"),
    large(plan, next.at_m - so),
    turnOf(at) ? el("p", { class: "words" }, `or ${turnsTo(Math.max(0, next.at_m - so), turnOf(at), 1)} turns`) : "",
    changeLine(at, next, "change first"),
  ];
}

function laterOf(at) {
  const later = aheadOf(at).slice(1, 1 + SHOWN);
  const lines = later.map((change) => changeLine(at, change));
  return later.length ? [el("h3", {}, "After that"), ...lines] : [];
}

// Plies that change from one lot to the same other stand together.
function alike(plies) {
  const together = new Map();
  for (const [ply, from, to] of plies) {
    const key = `${from} ${to}`;
    if (!together.has(key)) together.set(key, [[], from, to]);
    together.get(key)[0].push(ply);
  }
  return [...together.values()];
}

function whose(plan, plies) {
  if (plan.plies.length === 1) return "";
  if (plies.length === plan.plies.length) return plies.length > 2 ? "all together" : "both";
  return plies.map((ply) => plan.plies[ply - 1].short).join(", ");
}

function changeLine(at, { at_m: atM, plies, skein }, look = "change") {
  const { plan } = at;
  const turn = turnOf(at) ? `, turn ${turnsTo(atM, turnOf(at), 0)}` : "";
  const where = el("b", {}, `At ${measuresOf(plan).length.said(atM)}${turn}`);
  if (skein) return el("p", { class: look }, where, `Skein ${skein} ends: break, tag both ends`);
  const each = alike(plies).map(([own, from, to]) =>
    el(
      "div",
      { class: "turns" },
      el("span", {}, whose(plan, own)),
      lotLine(plan.lots[from]),
      el("span", { "aria-label": "then", role: "img" }, "→"),
      lotLine(plan.lots[to]),
    ),
  );
  return el("div", { class: look }, where, each);
}

const isOtherwise = (entry) => entry.did === "out" || entry.row === null || isTouched(entry);

// What to know before plying: which way bobbins come off, and what the phone cannot reckon.
function beforePlying(at) {
  const { plan, held } = at;
  const strayed =
    held.entries.some((entry) => !entry.from && isOtherwise(entry)) ||
    weighedOtherwise(plan, held.entries).length > 0 ||
    strays(plan, held.entries).length > 0;
  const hangs = plan.plying.hangs_on;
  const [lengths] = capital([measuresOf(plan).length.plural]);
  const words = [
    ...plan.plying.before,
    hangs && `${lengths} are right ${hangs}.`,
    strayed && "Changes of colour are those of the plan. What was spun otherwise counts when you take it home.",
  ].filter(Boolean);
  return words.map((each) => el("p", { class: "aside" }, each));
}
