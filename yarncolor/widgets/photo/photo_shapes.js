// What drawing on a photograph stands on: elements, shares of a picture, a pen, a smaller copy.

import { el } from "../element.js";

const MOST_PX = 1600;

// What a box lies on.
export const CALLED = { fibre: "fibre", white: "white", grey: "grey card", place: "light" };

export const round = (share) => Math.round(share * 1000) / 1000;
export const within = (share, least, most) => Math.min(Math.max(share, least), most);
export const isWhole = (numbers) => numbers.every(Number.isFinite);
export const percent = (share) => (Number.isFinite(share) ? String(Math.round(share * 1000) / 10) : "");
const shareOf = (text) => (text.trim() === "" ? null : Number(text) / 100);

export const labelled = (words, control) => el("label", {}, el("span", {}, words), control);
export const options = (words) =>
  Object.entries(words).map(([value, text]) => el("option", { value }, text));

export function numberField(words, about, oninput) {
  const field = el("input", { type: "number", oninput, ...about });
  return { field, label: labelled(words, field) };
}

export const shareField = (words, oninput) =>
  numberField(words, { min: 0, max: 100, step: 0.5 }, (event) =>
    oninput(shareOf(event.target.value)),
  );

export function fill(field, text) {
  const isTyping = field === field.getRootNode().activeElement;
  if (!isTyping && field.value !== text) field.value = text;
}

export function tell(element, words) {
  if (element.textContent !== words) element.textContent = words;
}

export function between(one, other) {
  const [[x, y], [u, v]] = [one.map(round), other.map(round)];
  return [Math.min(x, u), Math.min(y, v), round(Math.abs(x - u)), round(Math.abs(y - v))];
}

export const cornersOf = ([left, top, width, height]) => [
  [left, top],
  [left + width, top],
  [left + width, top + height],
  [left, top + height],
];

export const holds = ([left, top, width, height], [x, y]) =>
  x >= left && x <= left + width && y >= top && y <= top + height;

export function framed(pen, points, isDashed) {
  pen.beginPath();
  points.forEach(([x, y]) => pen.lineTo(x, y));
  pen.closePath();
  for (const [ink, width, dash] of [["#1f1f1f", 4, []], ["#ffffff", 2, isDashed ? [7, 5] : []]]) {
    pen.strokeStyle = ink;
    pen.lineWidth = width;
    pen.setLineDash(dash);
    pen.stroke();
  }
}

export function dotted(pen, [x, y]) {
  pen.fillStyle = "#1f1f1f";
  pen.fillRect(x - 5, y - 5, 10, 10);
  pen.fillStyle = "#ffffff";
  pen.fillRect(x - 3, y - 3, 6, 6);
}

// Write words on a plate below a place, or above it, all inside the picture.
export function named(pen, [x, y], words, isAbove) {
  pen.font = "13px system-ui, sans-serif";
  const width = pen.measureText(words).width + 8;
  const most = pen.canvas.clientWidth - width;
  const left = Math.max(0, Math.min(x + 6, most));
  const top = isAbove ? y - 25 : y + 6;
  pen.fillStyle = "#ffffff";
  pen.fillRect(left, top, width, 19);
  pen.fillStyle = "#1f1f1f";
  pen.fillText(words, left + 4, top + 14);
}

// Return a picture as PNG bytes in sRGB, upright and not larger than is worth sending.
export async function shrunken(file) {
  const whole = await createImageBitmap(file, { imageOrientation: "from-image" });
  const scale = Math.min(1, MOST_PX / Math.max(whole.width, whole.height));
  const size = [whole.width, whole.height].map((side) => Math.max(1, Math.round(side * scale)));
  const canvas = el("canvas", { width: size[0], height: size[1] });
  const pen = canvas.getContext("2d", { colorSpace: "srgb" });
  pen.imageSmoothingQuality = "high";
  pen.drawImage(whole, 0, 0, ...size);
  const blob = await new Promise((done) => canvas.toBlob(done, "image/png"));
  return { picture: await blob.arrayBuffer(), from: [whole.width, whole.height] };
}
