// The card on a phone: four views, one thing at a time, and everything kept at once.

import { button, el } from "./element.js";
import { bringIn, strays } from "./agreeing.js";
import { homeView } from "./home_view.js";
import { Kept } from "./kept.js";
import { isAllSaid, lying } from "./lying.js";
import { plyingView } from "./plying_view.js";
import { rowsView } from "./rows_view.js";
import { partSheet, rowSheet } from "./sheet_view.js";
import { spinView } from "./spin_view.js";
import { strip } from "./strip.js";

const VIEWS = { spin: "Spin", rows: "Rows", ply: "Ply", home: "Take home" };
const plan = JSON.parse(document.getElementById("plan").textContent);
const SLOW_MS = 500;
const kept = new Kept(plan.kept_as);
const shown = { view: "spin", ply: 1, sheet: null };

const top = el("header");
const banner = el("div", { class: "banner", role: "status" });
const main = el("main");
const foot = el("section", { class: "actions", "aria-label": "What to do" });
const nav = el("nav", { "aria-label": "Views" });
const heard = el("p", { class: "heard", role: "status" });

const same = (entry) => (other) => JSON.stringify(other) === JSON.stringify(entry);

// What a view is given: the plan, what is kept, and ways to note, open and go.
function at() {
  const held = kept.now;
  return {
    plan,
    held,
    ply: shown.ply,
    again: at,
    fresh: (now, entry) =>
      now.entries.find(same(entry)) ??
      now.entries.find((other) => other.ply === entry.ply && other.row === entry.row),
    keep: (how) => {
      kept.change(how);
      drawBanner();
    },
    note: (how, sheet) => {
      kept.change(how);
      if (sheet === null) shown.sheet = null;
      draw();
    },
    open: (sheet) => turnTo({ sheet }),
    go: (view) => turnTo({ view, sheet: null }),
    turn: (ply) => turnTo({ ply, sheet: null }),
  };
}

function turnTo(where) {
  Object.assign(shown, where);
  draw();
  main.scrollTop = 0;
}

function viewOf() {
  if (shown.view === "ply") return plyingView(at());
  if (shown.view === "home") return homeView(at());
  if (shown.sheet?.part) return partSheet(at(), shown.sheet);
  if (shown.sheet) return rowSheet(at(), shown.sheet.number);
  return shown.view === "rows" ? rowsView(at()) : spinView(at());
}

function draw() {
  const held = foot.contains(document.activeElement);
  const { inside, actions } = viewOf();
  main.className = shown.sheet === null ? shown.view : "sheet";
  main.replaceChildren(...inside.filter((each) => each instanceof Node));
  foot.replaceChildren(...actions);
  drawTop();
  drawBanner();
  for (const each of nav.children)
    each.setAttribute("aria-current", each.dataset.view === shown.view ? "page" : "false");
  if (held) foot.querySelector(".main")?.focus({ preventScroll: true });
}

function drawTop() {
  const isSpinning = shown.view === "spin" || shown.view === "rows";
  const { rows, next } = lying(plan, kept.now.entries, shown.ply);
  const count = rows.filter((row) => row.did === "spun").length;
  const title = el("h1", {}, plan.title);
  if (!isSpinning) return top.replaceChildren(title);
  const { name } = plan.plies[shown.ply - 1];
  const where = el("p", { class: "where" }, el("b", {}, name), ` ${count} of ${rows.length} spun`);
  const turn = (step, sign, words) => {
    const ply = shown.ply + step;
    return button(sign, () => at().turn(ply), "turn", {
      "aria-label": words,
      disabled: !plan.plies[ply - 1],
    });
  };
  const isOne = plan.plies.length === 1;
  const line = el(
    "div",
    { class: "switch" },
    isOne ? "" : turn(-1, "‹", "The bobbin before"),
    where,
    isOne ? "" : turn(1, "›", "The next bobbin"),
  );
  heard.textContent = `${name}, ${count} of ${rows.length} spun`;
  return top.replaceChildren(title, line, strip(plan, rows, next));
}

function drawBanner() {
  const astray = strays(plan, kept.now.entries).length;
  const words = [
    kept.trouble && el("p", {}, kept.trouble),
    astray && shown.view !== "home"
      ? button(`${astray} ticked before and no longer in the plan: look`, () => at().go("home"))
      : "",
  ].filter(Boolean);
  banner.replaceChildren(...words);
}

// Where spinning was left: the bobbin of what was noted last, or the next that is not spun.
function begin() {
  const { entries } = kept.now;
  const ply = entries.findLast((entry) => entry.did && plan.plies[entry.ply - 1])?.ply ?? 1;
  const isDone = (k) => isAllSaid(plan, lying(plan, entries, k));
  const open = plan.plies.findIndex((_, k) => !isDone(k + 1)) + 1;
  shown.ply = isDone(ply) && open ? open : ply;
}

const pause = (howLong) => new Promise((resolve) => setTimeout(resolve, howLong));

async function start() {
  await Promise.race([kept.recover(), pause(SLOW_MS)]);
  if (plan.spun.length || plan.plied) kept.change((held) => bringIn(plan, held));
  for (const [view, words] of Object.entries(VIEWS))
    nav.append(button(words, () => at().go(view), null, { "data-view": view }));
  document.body.append(top, banner, main, foot, nav, heard);
  window.addEventListener("storage", ({ key }) => key === kept.key && draw());
  window.addEventListener("beforeunload", (event) => kept.unsaved && event.preventDefault());
  begin();
  draw();
}

start();
