// At the plying wheel: how far it is, what changes next, and what can be made when one ran out.

import { button, el, inRow, rootIn } from "../element.js";
import { listen } from "../protocol.js";
import { TypedField } from "../typed_field.js";
import { WhyThese } from "../why_these.js";
import { Care } from "./care.js";

const READ_SO = "On the left the last of the yarn, on the right what follows it; equal lengths are equally long in all. Under it the same place close by, all at one scale.";
const CAUTION = "Keep your hands off a moving wheel: stop it before you count, measure or weigh.";
let made = 0;

class Plying {
  constructor(model, root) {
    made += 1;
    Object.assign(this, { model, id: `yc-plying-${made}`, fields: new Map() });
    this.said = el("p", { class: "said", role: "status", "aria-live": "polite" });
    this.where = el("div", { class: "where" });
    this.far = el("div", { class: "cells" });
    this.changes = el("ol", { class: "changes", "aria-label": "the next changes of colour" });
    this.coming = el("section", {}, el("h4", { text: "What changes next" }), this.changes);
    this.plies = inRow();
    this.end = el("div", { class: "cells" });
    this.none = button("none has run out after all", () => this.send("goes_on"));
    this.ranOut = el("section", {}, el("h4", { text: "One ran out" }), this.plies, this.end, this.none);
    this.stands = el("p", { class: "matters" });
    this.rescues = el("ul", { class: "rescues" });
    this.cautions = el("p", { class: "quiet" });
    this.saved = el("section", {}, el("h4", { text: "What can still be made" }), this.stands, this.fold = el("details", {}, el("summary", { text: "Every way, with what the hands do" }),
      el("p", { class: "quiet", text: READ_SO }), this.rescues, this.cautions));
    this.care = new Care(this.id, (seen) => this.send("look", seen));
    this.why = new WhyThese("at the plying wheel");
    root.append(this.where, this.why.root, this.said, el("section", {}, el("h4", { text: "How far am I?" }), this.far, el("p", { class: "quiet", text: CAUTION })), this.coming, this.ranOut, this.saved, this.care.root);
    this.deaf = listen(model, this);
    this.send("ready");
  }

  send(task, about = {}) {
    this.model.send({ do: task, ...about });
  }

  on_plying(told) {
    this.where.replaceChildren(...told.where.map((text) => el("p", { class: "so-far", text })));
    this.said.textContent = told.said;
    this.said.classList.toggle("fault", told.refused);
    this.fill(this.far, told.far);
    this.fill(this.end, told.end);
    this.changes.replaceChildren(...told.changes.map((text) => el("li", { text })));
    this.coming.hidden = !told.changes.length;
    const hadFocus = this.plies.contains(this.plies.getRootNode().activeElement);
    this.plies.replaceChildren(...told.plies.map(([ply, words]) => button(words, () => this.send("ended", { ply }))));
    this.none.hidden = !told.ended;
    if (hadFocus && told.ended) this.none.focus();
    this.care.offer(told.loops, told.over_words, told.over);
    this.why.tell(told.why);
    this.saved.hidden = !told.stands;
    this.stands.textContent = told.stands;
    this.cautions.textContent = told.cautions;
    this.fold.hidden = !told.rescues.length;
    if (told.ended && !this.ended) this.fold.open = true;
    this.ended = told.ended;
    this.rescues.replaceChildren(...told.rescues.map((one) => this.rescue(one)));
  }

  on_care(told) {
    this.care.tell(told);
  }

  fill(place, fields) {
    for (const told of fields) {
      if (!this.fields.has(told.name)) this.make(place, told);
      const field = this.fields.get(told.name);
      if (told.choices.length) field.offer(told.choices);
      field.show(told);
    }
  }

  make(place, { name, words, choices }) {
    const look = choices.length ? { tag: "select" } : { about: { inputmode: "decimal" } };
    const field = new TypedField(`${this.id}-${name.replace(".", "-")}`, { name, words, ...look }, {
      put: (of, text) => this.send("put", { name: of, text }),
      back: (of) => this.send("back", { name: of }),
    });
    this.fields.set(name, field);
    place.append(field.cell);
  }

  rescue({ name, worth, hands, picture, alt }) {
    const shown = picture ? [el("img", { src: picture, alt })] : [];
    return el("li", {}, el("h5", { text: name }), el("p", { class: "worth", text: worth }), ...shown,
      el("ol", { class: "hands" }, ...hands.map((text) => el("li", { text }))));
  }
}

export default {
  render({ model, el: host }) {
    const root = rootIn(host, "wheel plying");
    const plying = new Plying(model, root);
    return () => plying.deaf();
  },
};
