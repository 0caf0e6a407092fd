// At the wheel: every ply's page; ticks are painted at once, ways to go on when the fingers rest.

import { el, inRow, rootIn } from "../element.js";
import { listen } from "../protocol.js";
import { TypedField } from "../typed_field.js";
import { WhyThese } from "../why_these.js";
import { FromPhone } from "./from_phone.js";
import { PlyPage } from "./ply_page.js";
import { Ways } from "./ways_on.js";

const REST_MS = 300;
const READ_SO = "Beside each row: what to weigh for it, and what the bobbin weighs after it.";
let made = 0;

class Wheel {
  constructor(model, root) {
    made += 1;
    Object.assign(this, { model, id: `yc-wheel-${made}`, pages: [] });
    this.progress = el("p", { class: "so-far" });
    this.said = el("p", { class: "said", role: "status", "aria-live": "polite" });
    this.strayed = el("ul", { class: "strayed", "aria-label": "what has strayed" });
    this.ways = new Ways((way) => this.send("take", { way }));
    this.plies = el("div", { class: "plies" });
    this.why = new WhyThese("at the wheel");
    this.empty = inRow();
    this.phone = new FromPhone(this.id, (text) => this.send("bring", { text }));
    root.append(this.progress, this.said, this.ways.root, this.strayed, el("p", { class: "quiet", text: READ_SO }), this.why.root, this.plies, this.empty, this.phone.root);
    this.deaf = listen(model, this);
    this.send("ready");
  }

  leave() {
    this.deaf();
    clearTimeout(this.resting);
    this.ways.leave();
  }

  send(task, about = {}) {
    this.model.send({ do: task, ...about });
  }

  asks() {
    return {
      tick: (piece, on) => this.send("tick", { piece, on }),
      upTo: (piece) => this.send("up_to", { piece }),
      shift: (piece, by) => this.send("shift", { piece, by }),
      extra: (piece) => this.send("extra", { piece }),
      put: (name, text) => this.send("put", { name, text }),
      back: (name) => this.send("back", { name }),
      slip: (slip, piece) => this.send("slip", { slip, piece, ply: Number.parseInt(piece, 10) }),
      plySlip: (slip, ply) => this.send("slip", { slip, ply, piece: "" }),
      weigh: (ply, bobbin, text) => this.send("weigh", { ply, bobbin, text }),
    };
  }

  on_wheel(told) {
    if (told.fields) this.name(told);
    if (!this.fields) return;
    this.lots = told.lots;
    this.progress.textContent = told.progress;
    this.said.textContent = told.said;
    this.said.classList.toggle("fault", told.refused);
    this.strayed.replaceChildren(...told.strayed.map((text) => el("li", { text })));
    this.strayed.hidden = !told.strayed.length;
    this.ways.root.hidden = !told.is_spun || !this.ways.matters.textContent;
    this.fillTare(told.tare);
    while (this.pages.length > told.plies.length) this.pages.pop().root.remove();
    told.plies.forEach((page, at) => this.page(page.ply, at).show(page, told.lots));
    clearTimeout(this.resting);
    this.resting = setTimeout(() => this.send("rest"), REST_MS);
  }

  // What the fields are called, in the units of the plan.
  name({ fields, slips }) {
    Object.assign(this, { fields, slips });
    for (const page of this.pages.splice(0)) page.root.remove();
  }

  page(ply, at) {
    if (!this.pages[at]) {
      this.pages[at] = new PlyPage(this.id, ply, this.fields, this.slips, this.asks());
      this.plies.append(this.pages[at].root);
    }
    return this.pages[at];
  }

  // What an empty bobbin weighs: without it no weight says anything.
  fillTare(told) {
    if (!this.tare) {
      const { name, words } = told;
      this.tare = new TypedField(`${this.id}-tare`, { name, words, about: { inputmode: "decimal" } }, this.asks());
      this.empty.append(this.tare.label, this.tare.input, this.tare.fault);
    }
    this.tare.show(told);
  }

  on_ways(told) {
    if (this.lots) this.ways.tell(told, this.lots);
    this.why.tell(told.why);
  }

  on_reached(told) {
    this.pages[told.ply - 1]?.tell(told);
  }

  on_brought(told) {
    this.phone.tell(told);
  }
}

export default {
  render({ model, el: host }) {
    const root = rootIn(host, "wheel");
    const wheel = new Wheel(model, root);
    return () => wheel.leave();
  },
};
