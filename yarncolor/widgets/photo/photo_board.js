// The picture and what is drawn on it: dragging draws a box, moves it, or sizes it by a corner.

import { el } from "../element.js";
import {
  CALLED,
  between,
  cornersOf,
  dotted,
  framed,
  holds,
  isWhole,
  named,
  round,
  within,
} from "./photo_shapes.js";

const GRIP_PX = 12;
const FINGER_PX = 24; // a finger is thicker than a pointer
const DRAG_PX = 5;
const HIGH_VH = 46;

export class Board {
  constructor(bench) {
    this.bench = bench;
    this.canvas = el("canvas", {
      role: "img",
      "aria-label": "A photograph.",
      onpointerdown: (event) => this.down(event),
      onpointermove: (event) => this.grip?.(this.place(event)),
      onpointerup: () => this.up(),
      onpointercancel: () => this.up(),
    });
    this.sizes = new ResizeObserver(() => this.paint());
    this.sizes.observe(this.canvas);
  }

  leave() {
    this.sizes.disconnect();
  }

  put(image, width, height) {
    this.image = image;
    this.canvas.style.aspectRatio = `${width} / ${height}`;
    this.canvas.style.width = `min(100%, ${(HIGH_VH * width) / height}vh)`;
  }

  // --- painting

  paint() {
    if (!this.image || !this.canvas.clientWidth) return;
    const pen = this.cleared();
    const { proposed, boxes } = this.bench.drawn;
    for (const one of proposed) this.paintBox(pen, one.box, String(one.number), true);
    for (const mark of boxes.filter((one) => isWhole(one.box)))
      this.paintBox(pen, mark.box, this.bench.titleOf(mark), false, mark.kind === this.bench.tool);
    this.paintCorners(pen);
  }

  cleared() {
    const sharp = window.devicePixelRatio || 1;
    this.canvas.width = Math.round(this.canvas.clientWidth * sharp);
    this.canvas.height = Math.round(this.canvas.clientHeight * sharp);
    const pen = this.canvas.getContext("2d");
    pen.drawImage(this.image, 0, 0, this.canvas.width, this.canvas.height);
    pen.scale(sharp, sharp);
    return pen;
  }

  paintBox(pen, box, words, isDashed, isChosen) {
    const corners = cornersOf(box).map((place) => this.pixel(place));
    framed(pen, corners, isDashed);
    if (isChosen) corners.forEach((corner) => dotted(pen, corner));
    named(pen, corners[isDashed ? 3 : 0], words, isDashed);
  }

  paintCorners(pen) {
    const corners = this.bench.drawn.corners.filter(isWhole).map((place) => this.pixel(place));
    if (corners.length > 1) framed(pen, corners, false);
    corners.forEach((corner, at) => {
      dotted(pen, corner);
      named(pen, corner, String(at + 1), at > 1);
    });
  }

  pixel([x, y]) {
    return [x * this.canvas.clientWidth, y * this.canvas.clientHeight];
  }

  place(event) {
    const seen = this.canvas.getBoundingClientRect();
    const x = (event.clientX - seen.left) / seen.width;
    const y = (event.clientY - seen.top) / seen.height;
    return [within(x, 0, 1), within(y, 0, 1)];
  }

  apart(one, other) {
    const [[x, y], [u, v]] = [this.pixel(one), this.pixel(other)];
    return Math.hypot(x - u, y - v);
  }

  // --- drawing: a grip takes the pointer's place

  down(event) {
    if (!this.image || !event.isPrimary || event.button) return;
    event.preventDefault();
    this.canvas.setPointerCapture(event.pointerId);
    this.reach = event.pointerType === "touch" ? FINGER_PX : GRIP_PX;
    const at = this.place(event);
    this.grip = this.bench.tool === "corners" ? this.cornerGrip(at) : this.boxGrip(at);
  }

  up() {
    this.grip = null;
    this.bench.askWhy?.();
  }

  boxGrip(at) {
    const { drawn, tool } = this.bench;
    const own = drawn.boxes.filter((mark) => mark.kind === tool && isWhole(mark.box)).toReversed();
    for (const mark of own) {
      const corners = cornersOf(mark.box);
      const near = corners.findIndex((corner) => this.apart(corner, at) < this.reach);
      if (near >= 0) return (to) => this.bench.put(mark, between(corners[(near + 2) % 4], to));
    }
    const held = own.find((mark) => holds(mark.box, at));
    return held ? this.moveGrip(held, at) : this.drawGrip(at);
  }

  moveGrip(mark, at) {
    const [left, top, width, height] = mark.box;
    return (to) => {
      const x = within(left + to[0] - at[0], 0, 1 - width);
      const y = within(top + to[1] - at[1], 0, 1 - height);
      this.bench.put(mark, [round(x), round(y), width, height]);
    };
  }

  drawGrip(at) {
    let mark = null;
    const { bench } = this;
    bench.say(`To draw a box on ${CALLED[bench.tool]}, drag across it.`);
    return (to) => {
      if (!mark && this.apart(at, to) < DRAG_PX) return;
      bench.say("");
      mark ??= bench.added(bench.tool, between(at, to));
      bench.put(mark, between(at, to));
    };
  }

  cornerGrip(at) {
    const { corners } = this.bench.drawn;
    const isNear = (corner) => isWhole(corner) && this.apart(corner, at) < this.reach;
    let near = corners.findIndex(isNear);
    if (near < 0 && corners.length === 4) {
      this.bench.say("All four corners are set: drag one to move it.");
      return null;
    }
    if (near < 0) near = corners.push(at.map(round)) - 1;
    const moved = (to) => {
      corners[near] = to.map(round);
      this.bench.cornersChanged();
    };
    moved(at);
    return moved;
  }
}
