// Yarns along their length on one scale: a band for each ply, and below them a line where a ply
// shows another lot than planned.

import { el } from "../element.js";

const BAND_PX = 12;
const GAP_PX = 2;
const OFF_PX = 4;
const WIDEST_PX = 1200;

export const longest = (strips) => Math.max(1e-9, ...strips.map(({ edges }) => edges.at(-1) ?? 0));

// Which stretch stands at a metre; the last one begins where the yarn ends.
function at(edges, metre) {
  let low = 0;
  let high = edges.length - 1;
  while (high - low > 1) {
    const middle = (low + high) >> 1;
    if (edges[middle] <= metre) low = middle;
    else high = middle;
  }
  return low;
}

const isOff = (yarn, planned, metre) => {
  if (metre >= planned.edges.at(-1)) return true;
  const now = yarn.lots[at(yarn.edges, metre)];
  const wanted = planned.lots[at(planned.edges, metre)];
  return now.some((lot, ply) => lot !== wanted[ply]);
};

export function strip(words) {
  return el("canvas", { class: "yarn", role: "img", "aria-label": words });
}

// Paint a yarn so that equal lengths are equally long in all.
export function paint(canvas, yarn, planned, colours, longestM, ink) {
  const plies = yarn.lots[0].length;
  const wide = Math.min(WIDEST_PX, Math.round((canvas.clientWidth || 600) * (window.devicePixelRatio || 1)));
  const high = plies * BAND_PX + (plies - 1) * GAP_PX + GAP_PX + OFF_PX;
  Object.assign(canvas, { width: wide, height: high });
  canvas.style.height = `${high}px`;
  const pen = canvas.getContext("2d");
  const scale = wide / longestM;
  yarn.lots.forEach((lots, stretch) => {
    const left = Math.round(yarn.edges[stretch] * scale);
    const right = Math.round(yarn.edges[stretch + 1] * scale);
    lots.forEach((lot, ply) => {
      pen.fillStyle = colours[lot];
      pen.fillRect(left, ply * (BAND_PX + GAP_PX), right - left, BAND_PX);
    });
  });
  pen.fillStyle = ink;
  const end = Math.round(yarn.edges.at(-1) * scale);
  for (let x = 0; x < end; x += 1)
    if (isOff(yarn, planned, (x + 0.5) / scale)) pen.fillRect(x, high - OFF_PX, 1, OFF_PX);
}
