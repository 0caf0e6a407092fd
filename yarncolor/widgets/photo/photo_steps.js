// The steps of the bench as they stand on the page, in the order in which one works.

import { button, el, inRow } from "../element.js";
import { WhyThese } from "../why_these.js";
import { Rows } from "./photo_rows.js";
import { labelled, options } from "./photo_shapes.js";

export const THINGS = {
  white: "white",
  grey: "grey card",
  corners: "target's corners",
  place: "even light",
};
const WAYS = {
  nothing: "nothing",
  white: "something white",
  grey: "a grey card",
  target: "a target",
};
export const TOOL_OF = { white: "white", grey: "grey", target: "corners" };
const DEGREES = { 1: "as usual", 2: "closely" };
export const DRAWING = {
  fibre: "Drag across fibre to draw a box; drag it to move it, a corner to size it.",
  white: "Drag across something white to draw a box on it.",
  grey: "Drag across a grey card to draw a box on it.",
  corners: "Press on the four corners of the target's patches, going round.",
  place: "Draw three small boxes or more on one white or grey, all round the fibre.",
};
export const MIDDLE = {
  white: "Put white in the middle",
  grey: "Put grey in the middle",
  corners: "Put the corners on it",
  place: "Put a place in the middle",
};
const HEAD = ["lot", "colour", "may be out by", "how even", "pixels", "doubts"];
export const EXAMPLE =
  "This is an example, invented: lots, paper and a grey card. Open your own picture instead.";

function step(heading, words, ...inside) {
  return el("section", { class: "step" }, el("h3", {}, heading), el("p", {}, words), ...inside);
}

function pictureStep(bench) {
  const open = ({ target }) => {
    bench.open(target.files[0]);
    target.value = "";
  };
  const file = el("input", { type: "file", accept: "image/*", onchange: open });
  const opener = labelled("picture", file);
  opener.className = "opener";
  bench.example = el("p", { class: "example" });
  bench.about = el("span", { class: "quiet" });
  return step(
    "1. Open a picture",
    "Choose a file, or drop one anywhere on this bench.",
    inRow(opener, bench.about),
    bench.lines.picture,
    bench.example,
  );
}

function readings(bench) {
  bench.body = el("tbody");
  const head = HEAD.map((words) => el("th", { scope: "col" }, words));
  const caption = el("caption", { class: "sr" }, "Colours read");
  const table = el("table", {}, caption, el("thead", {}, el("tr", {}, ...head)), bench.body);
  const about = { class: "wide", tabindex: 0, role: "region", "aria-label": "Colours read" };
  bench.table = el("div", about, table);
  bench.words = el("p", { class: "quiet" });
  bench.heardWords = el("p", { class: "sr", "aria-live": "polite" });
  bench.why = new WhyThese("The photograph");
  bench.why.root.addEventListener("toggle", () => bench.askWhy());
  return [bench.table, bench.words, bench.why.root, bench.heardWords];
}

function radio(bench, tool, words) {
  const onchange = () => bench.choose(tool);
  const about = { type: "radio", name: `tool ${bench.view}`, value: tool, onchange };
  bench.radios[tool] = el("input", about);
  return el("label", { class: "tool" }, bench.radios[tool], words);
}

function chooser(bench, key, words) {
  const onchange = () => bench.setWay(key, key === "degree" ? Number(select.value) : select.value);
  const select = el("select", { onchange }, ...options(words));
  return select;
}

function rightStep(bench) {
  const radios = Object.entries(THINGS).map(([tool, words]) => radio(bench, tool, words));
  const about = { class: "row", role: "group", "aria-label": "draw on what is known" };
  bench.addThing = button("", () => bench.addedByKey(bench.thing));
  bench.way = chooser(bench, "way", WAYS);
  bench.things = new Rows();
  const { way, corners, light } = bench.lines;
  return step(
    "2. Say what is white, grey or a target",
    "Lamps tint a picture. Draw on what has a known colour: it puts the rest right.",
    el("div", about, ...radios),
    inRow(bench.addThing, labelled("put right by", bench.way)),
    bench.things.root,
    way,
    ...wayRows(bench),
    corners,
    light,
  );
}

function wayRows(bench) {
  const even = ({ target }) => bench.setWay("even", target.checked);
  bench.edition = chooser(bench, "edition", {});
  bench.degree = chooser(bench, "degree", DEGREES);
  bench.even = el("input", { type: "checkbox", onchange: even });
  bench.places = el("span", { class: "quiet" });
  bench.noTarget = el("span", { class: "quiet" });
  const edition = labelled("target made", bench.edition);
  const closely = labelled("followed", bench.degree);
  const chosen = ({ target }) => bench.openValues(target.files[0]);
  bench.values = el("input", { type: "file", accept: ".csv,.txt,.tsv", onchange: chosen });
  const patches = el("span", { class: "quiet", text: "a line for each patch: row, column, L, a, b" });
  bench.ownValues = el("div", {}, labelled("its values", bench.values), patches);
  return [
    inRow(edition, closely, bench.noTarget),
    bench.ownValues,
    inRow(el("label", { class: "tool" }, bench.even, "make the light even"), bench.places),
  ];
}

function fibreStep(bench) {
  const count = el("input", { type: "number", min: 1, max: 24, step: 1, value: 6 });
  const find = button("Find lots", () => bench.ask({ do: "find", count: Number(count.value) }));
  bench.addFibre = button("Put one in the middle", () => bench.addedByKey("fibre"));
  bench.keepAll = button("Keep all proposed", () => bench.allKept());
  bench.leave = button("Leave the proposals", () => bench.proposalsLeft());
  bench.proposals = new Rows("proposed");
  const proposing = inRow(labelled("lots in the picture", count), find);
  return step(
    "3. Draw a box on each fibre",
    "With nothing but fibre in it. Or let lots be proposed, and keep what is fibre.",
    inRow(radio(bench, "fibre", "fibre"), bench.addFibre, proposing, bench.keepAll, bench.leave),
    bench.lines.find,
    bench.proposals.root,
  );
}

function nameStep(bench) {
  bench.fibres = new Rows("fibres");
  bench.lots = el("datalist", { id: `lots-${bench.view}` });
  bench.noFibre = el("p", { class: "quiet" });
  return step(
    "4. Name and weigh",
    "Each box is a lot; its colour is read below the picture.",
    bench.noFibre,
    bench.fibres.root,
    bench.lots,
  );
}

function takeStep(bench) {
  const id = `why-${bench.view}`;
  bench.takes = button("Take the colours", () => bench.ask({ do: "take" }));
  bench.takes.setAttribute("aria-describedby", id);
  bench.whyNot = el("span", { class: "quiet", id });
  bench.planHead = el("summary");
  bench.planLots = el("p");
  return step(
    "5. Take the colours into the plan",
    "Each lot joins the plan; one that is there gets the new colour and keeps its grams.",
    inRow(bench.takes, bench.whyNot),
    el("details", {}, bench.planHead, bench.planLots),
  );
}

export function wholePage(bench) {
  bench.lines = {};
  bench.radios = {};
  for (const place of ["picture", "way", "corners", "light", "find"])
    bench.lines[place] = el("p", { class: "fault" });
  bench.drawing = el("p", { class: "drawing" });
  bench.said = el("p", { class: "said", role: "status", "aria-live": "polite" }, "Opening…");
  const picture = [pictureStep(bench), bench.drawing, bench.board.canvas, ...readings(bench)];
  const steps = [rightStep(bench), fibreStep(bench), nameStep(bench), takeStep(bench)];
  const hand = [...steps, bench.said];
  const columns = [el("div", { class: "seen" }, ...picture), el("div", { class: "hand" }, ...hand)];
  return el("div", { class: "yc photo" }, ...columns);
}
