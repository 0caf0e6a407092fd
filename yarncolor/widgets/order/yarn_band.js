// The yarn in sight whatever is worked on. While an order is dragged beside it, it is painted from
// the tables that the order is painted from; else the kernel tells it when fingers rest.

import { el, isolated, rootIn } from "../element.js";
import { listen } from "../protocol.js";
import { packedHex, Scene, Shades } from "./gather.js";
import { StripPicture } from "./strip_picture.js";
import { own, Tables } from "./tables.js";
import { WhyThese } from "../why_these.js";

const OF_TABLE = 2; // buffers

class YarnBand {
  constructor(model, root) {
    this.root = root;
    this.strip = el("canvas", { role: "img", class: "whole", "aria-label": "the whole yarn, not drawn yet" });
    this.yarn = el("canvas", { role: "img", class: "part", "aria-label": "a part of the yarn, not drawn yet" });
    this.caption = el("p", { class: "quiet" });
    this.why = this.whyOf(model);
    root.append(this.strip, this.yarn, el("div", { class: "foot" }, this.caption, this.why.root));
    this.follow = (event) => this.onOrder(event);
    document.addEventListener("yc-ordered", this.follow);
    this.deaf = listen(model, this);
    model.send({ do: "ready" });
  }

  // What it tells is asked for when it is opened, so that nothing waits for it.
  whyOf(model) {
    const why = new WhyThese("The yarn in sight", "Why?");
    const { root, told } = why;
    root.hidden = false;
    Object.assign(told, { tabIndex: 0, role: "group", ariaLabel: "why these figures of the yarn in sight" });
    this.ask = () => { if (root.open) model.send({ do: "why" }); };
    root.addEventListener("toggle", this.ask);
    return why;
  }

  on_why({ why }) {
    this.why.tell(why);
  }

  leave() {
    this.deaf();
    document.removeEventListener("yc-ordered", this.follow);
  }

  on_band(told, buffers) {
    const tables = new Tables();
    tables.confirm(told.table, buffers.slice(0, OF_TABLE));
    this.picture = new StripPicture(this.strip, told.strip);
    this.scene = new Scene(this.yarn, told.scene, buffers.slice(OF_TABLE).map(own));
    this.strip.setAttribute("aria-label", told.strip_alt);
    this.yarn.setAttribute("aria-label", told.yarn_alt);
    this.caption.textContent = isolated(told.caption);
    this.ask();
    this.paint({ table: tables.base, shades: new Shades(told.shades), colours: told.colours.map(packedHex) });
  }

  // An order of the same bench was painted: follow it once that is on the screen.
  onOrder({ target, detail }) {
    const bench = this.root.closest(".yc-bench");
    if (!bench?.contains(target)) return;
    if (!this.next) requestAnimationFrame(() => setTimeout(() => this.paintNext()));
    this.next = detail;
  }

  paintNext() {
    const { next } = this;
    this.next = null;
    if (next.table.plies === this.picture?.told.bands.length) this.paint(next);
  }

  paint({ table, shades, colours }) {
    this.picture.paint(table, colours, shades.drafted);
    this.scene.paint(table, shades);
  }
}

export default {
  render({ model, el: host }) {
    const root = rootIn(host, "band");
    root.band = new YarnBand(model, root);
    return () => root.band.leave();
  },
};
