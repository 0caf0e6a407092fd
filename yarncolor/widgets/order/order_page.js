// The parts of the page on which an order is dragged, as they stand under one another.

import { button, el, inRow, mapped } from "../element.js";

const TOOLS = {
  reverse: "Reverse the order",
  turn: "First lot to the end",
  close: "End on the first lot too",
};
const POINT = "Point at the strip to read what lies there; click, or use the arrow keys, to look closer.";
const KNIT_PART = "knit from the mark on the strip, stitch by stitch";
const APART = "justify-content:space-between;margin:0";

// Make the parts; `ask` is told what a button asks for, `look` from which metre the yarn is seen.
export function orderPage(root, { ask, look }) {
  const page = {
    tools: mapped(TOOLS, (words, task) => button(words, () => ask({ do: task }))),
    said: el("p", { class: "said", role: "status", "aria-live": "polite" }),
    told: el("p", { class: "sr", "aria-live": "polite" }),
    ends: [el("span", { class: "quiet" }), el("span", { class: "quiet" })],
    chips: el("ol", { class: "chips", "aria-label": "order of the lots, spun first to last" }),
    sliders: el("div", { class: "sliders" }),
    ...stripParts(),
    ...yarnParts(look),
    part: el("input", { type: "checkbox", onchange: ({ target }) => ask({ do: "knit", part: target.checked }) }),
    words: wordsParts(),
  };
  page.canvases = mapped({ strip: "strip", yarn: "yarn", fabric: "fabric" }, canvasOf);
  root.append(
    ...orderOf(page), page.turning, page.heading, stripOf(page), ...picturesOf(page), ...wordsOf(page), page.told,
  );
  return page;
}

const canvasOf = (name) => el("canvas", { role: "img", "aria-label": `${name}, not drawn yet` });

const captionOf = () => el("figcaption", { class: "quiet" });

function stripParts() {
  return {
    heading: el("p", { class: "row", style: "justify-content:space-between;margin:4px 0" }),
    names: el("canvas", { class: "over", "aria-hidden": "true" }),
    rows: el("div", { class: "rows quiet", "aria-hidden": "true" }),
    ticks: el("div", { class: "ticks quiet", "aria-hidden": "true" }),
    stripEnds: [el("strong"), el("strong")],
    turning: el("p", { class: "quiet turning" }),
    mark: el("div", {
      class: "looked", role: "slider", tabindex: 0, "aria-valuemin": 0, "aria-valuenow": 0,
      "aria-label": "where on the strip the close-up looks", "data-lm-suppress-shortcuts": "true",
    }),
    pointed: el("p", { class: "pointed quiet", text: POINT }),
  };
}

function yarnParts(look) {
  const metre = el("input", {
    type: "range", min: 0, step: 0.1, "aria-label": "place along the yarn, in metres",
    oninput: () => look(Number(metre.value)),
  });
  return { metre, captions: { yarn: captionOf(), fabric: captionOf() } };
}

function wordsParts() {
  const about = { class: "wide", tabindex: 0, role: "region", "aria-label": "weigh-out" };
  return { yarn: el("div"), advice: el("div"), weigh: el("div", about) };
}

function orderOf({ tools, said, ends, chips }) {
  const what = el("strong", { text: "spinning order: drag a lot, or use the arrow keys" });
  const between = el("div", { class: "row", style: APART }, ends[0], what, ends[1]);
  return [inRow(...Object.values(tools)), said, between, chips];
}

function stripOf({ rows, canvases, names, mark, ticks, stripEnds, pointed }) {
  return el("div", { class: "strip" },
    el("div", { class: "bands" }, rows, canvases.strip, names, mark),
    ticks,
    el("div", { class: "row", style: APART }, ...stripEnds),
    pointed);
}

function picturesOf({ canvases, captions, metre, part, sliders }) {
  const looked = el("label", { class: "row" }, el("span", { text: "look along the yarn" }), metre);
  const knitted = el("label", { class: "row" }, part, el("span", { text: KNIT_PART }));
  return [
    el("figure", {}, canvases.yarn, captions.yarn, looked),
    el("div", { class: "halves" },
      el("section", { "aria-label": "a slider for each lot" }, sliders),
      el("figure", {}, canvases.fabric, captions.fabric, knitted)),
  ];
}

const under = (text, part) => el("section", {}, el("h4", { text }), part);

function wordsOf({ words }) {
  return [
    el("div", { class: "halves" }, under("What to know", words.advice), under("The yarn", words.yarn)),
    el("details", { open: true }, el("summary", { text: "Weigh-out" }), words.weigh),
  ];
}

// Write round the strip what the kernel says: heading, names of the bands, axis, both ends.
export function showStrip({ heading, rows, ticks, stripEnds }, strip) {
  heading.replaceChildren(...strip.heading.map((text, at) => el(at ? "span" : "strong", { text })));
  rows.replaceChildren(...strip.rows.map(([text, y]) =>
    el("span", { text, style: `top:${(100 * y) / strip.height}%` })));
  ticks.replaceChildren(...strip.ticks.map(([share, text]) => el("span", { text, style: tickStyle(share) })));
  stripEnds.forEach((end, at) => { end.textContent = strip.ends[at] ?? ""; });
}

// The last number ends at its tick, so that it is not cut off.
const tickStyle = (share) => `left:${100 * share}%${share > 0.97 ? ";transform:translateX(-100%)" : ""}`;
