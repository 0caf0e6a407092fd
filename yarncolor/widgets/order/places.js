// A chip and a slider for each place of the order; both show the order that the fingers want.

import { button, el } from "../element.js";

const LEAST_GROW = 0.001;

export class Places {
  // `input` takes what fingers do with chips; `grab`, `move` and `hold` what they do with sliders.
  constructor({ chips, sliders }, input, { grab, move, hold }) {
    Object.assign(this, { chips, sliders, input, grab, move, hold });
    this.made = "";
    this.chip = [];
    this.slider = [];
  }

  // Make chips and sliders anew where they are of other lots.
  setFrame({ names, lots, colours, inks, masses }) {
    const key = JSON.stringify([names, lots]);
    if (key === this.made) return;
    this.made = key;
    const looks = lots.map((lot) => `background:${colours[lot]};color:${inks[lot]}`);
    this.chip = names.map((name, entry) => this.chipOf(name, entry, looks[entry], masses[entry]));
    this.slider = names.map((name, entry) => this.sliderOf(name, entry, looks[entry], names.length));
    this.sliders.replaceChildren(...this.slider.map(({ row }) => row));
    this.chips.replaceChildren();
  }

  chipOf(name, entry, look, massG) {
    const handle = el("button", {
      type: "button",
      style: look,
      onkeydown: (event) => this.input.onKey(event, entry),
      onfocus: () => this.grab(entry),
      onpointerdown: (event) => this.input.onPointer(event, entry),
    }, el("span", { text: name }));
    return el("li", { style: `flex-grow:${Math.max(massG, LEAST_GROW)}` }, handle);
  }

  sliderOf(name, entry, look, count) {
    const range = el("input", {
      type: "range", min: 1, max: count, "aria-label": `place of ${name}`,
      oninput: () => this.move(entry, Number(range.value) - 1),
      onfocus: () => this.grab(entry),
    });
    const hold = button("keep here", () => this.hold(entry));
    hold.setAttribute("aria-label", `keep here: ${name}`);
    const place = el("output", { class: "quiet" });
    const row = el("div", { class: "place" }, el("span", { class: "swatch", style: look }),
      el("span", { class: "name", text: name }), range, place, hold);
    return { range, hold, place, row };
  }

  show(order, names, held) {
    order.forEach((entry, place) => {
      this.showSlider(this.slider[entry], place, held.has(entry));
      this.slider[entry].range.setAttribute("aria-valuetext", `place ${place + 1} of ${order.length}`);
      this.showChip(this.chip[entry], place, held.has(entry));
      const words = `${names[entry]}, place ${place + 1} of ${order.length}`;
      this.chip[entry].firstChild.setAttribute("aria-label", held.has(entry) ? `${words}, held` : words);
    });
    if (!this.input.isDragging) this.lay(order);
  }

  showSlider({ range, hold, place: shown }, place, isHeld) {
    if (Number(range.value) !== place + 1) range.value = place + 1;
    range.disabled = isHeld;
    range.title = isHeld ? "kept here: let it go first" : "";
    shown.textContent = `${place + 1}`;
    hold.setAttribute("aria-pressed", isHeld);
  }

  showChip(chip, place, isHeld) {
    chip.style.order = place;
    chip.classList.toggle("held", isHeld);
  }

  // Keep the reading order of the chips what the eye sees, without losing the focus.
  lay(order) {
    const now = [...this.chips.children];
    if (now.length === order.length && order.every((entry, at) => now[at] === this.chip[entry])) return;
    const { activeElement } = this.chips.getRootNode();
    this.chips.replaceChildren(...order.map((entry) => this.chip[entry]));
    if (order.some((entry) => this.chip[entry].contains(activeElement))) activeElement.focus({ preventScroll: true });
  }
}
