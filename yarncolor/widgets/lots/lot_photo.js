// A photograph of one lot beside its row: a box on the fibre, one on something white if there is any.

import { button, el, inRow } from "../element.js";
import { Board } from "../photo/photo_board.js";
import { CALLED, round, shrunken } from "../photo/photo_shapes.js";
import { WhyThese } from "../why_these.js";

const TOOLS = ["fibre", "white"];
const MIDDLE = [0.35, 0.35, 0.3, 0.3];
const NO_PICTURE = "The browser cannot open that as a picture; save it as JPEG, PNG or WebP.";

export class LotPhoto {
  constructor(id, send) {
    this.id = id;
    this.send = send;
    this.tool = "fibre";
    this.drawn = { boxes: [], proposed: [], corners: [] };
    this.told = el("p", { class: "quiet", role: "status", "aria-live": "polite" });
    this.why = new WhyThese("The photograph");
    this.panel = el("div", { class: "photo" }, this.told, this.why.root);
    this.panel.hidden = true;
    this.file = el("input", { type: "file", accept: "image/*", "aria-label": "a photograph of this lot", onchange: () => this.open(this.file.files[0]) });
    this.chooser = el("label", { class: "from-photo" }, "from a photograph", this.file);
  }

  leave() {
    clearTimeout(this.soon);
    this.board?.leave();
  }

  name(words) {
    this.file.setAttribute("aria-label", `a photograph of ${words}`);
  }

  // What is drawn on, made when there is a picture.
  begin() {
    this.board ??= new Board(this);
    this.chip ??= el("span", { class: "swatch" });
    this.tools ??= TOOLS.map((tool) => button(`Box on ${CALLED[tool]}`, () => this.choose(tool)));
    this.takes ??= button("Take this colour", () => this.look(true));
    this.panel.append(inRow(...this.tools, this.takes, this.chip), this.board.canvas, this.why.root);
    this.choose("fibre");
  }

  choose(tool) {
    this.tool = tool;
    TOOLS.forEach((name, at) => this.tools[at].setAttribute("aria-pressed", String(name === tool)));
    this.board.paint();
  }

  async open(file) {
    if (!file) return;
    this.panel.hidden = false;
    try {
      const { picture } = await shrunken(file);
      const image = await createImageBitmap(new Blob([picture]));
      this.begin();
      this.board.put(image, image.width, image.height);
      this.drawn.boxes = [];
      this.put(this.added("fibre"), MIDDLE);
      this.look(false, [picture]);
    } catch {
      this.told.textContent = NO_PICTURE;
    }
  }

  // Asks what is seen in the boxes; it is taken for the lot where that is wanted.
  look(isTaken, buffers = []) {
    clearTimeout(this.soon);
    const boxes = this.drawn.boxes.map(({ kind, box }) => ({ key: kind, kind, box }));
    const way = boxes.some(({ kind }) => kind === "white") ? "white" : "nothing";
    this.send({ of: this.id, take: isTaken, drawn: { boxes, way } }, buffers);
  }

  tell({ colour, words, why }) {
    this.why.tell(why);
    this.chip.style.background = colour;
    this.takes.disabled = !colour;
    this.told.textContent = words;
    this.board.canvas.setAttribute("aria-label", `A photograph of the lot. ${words}`);
  }

  // --- what the board asks of whoever has it -------------------------------------------------------

  titleOf({ kind }) {
    return CALLED[kind];
  }

  added(kind) {
    const mark = { kind, box: MIDDLE };
    this.drawn.boxes = [...this.drawn.boxes.filter((each) => each.kind !== kind), mark];
    return mark;
  }

  put(mark, box) {
    mark.box = box.map(round);
    this.board.paint();
    clearTimeout(this.soon);
    this.soon = setTimeout(() => this.look(false), 200);
  }

  say(words) {
    if (words) this.told.textContent = words;
  }
}
