// A form of every option: one field a line, its fault beside it; nothing typed is lost.

let made = 0;

class Form {
  constructor(model, root) {
    this.model = model;
    this.fields = new Map();
    made += 1;
    this.id = `yc-form-${made}`;
    this.said = el("p", { class: "said", role: "status", "aria-live": "polite" });
    this.groups = el("div", { class: "groups" });
    this.assumed = el("ul");
    root.append(this.said, this.groups,
      el("details", {}, el("summary", { text: "What is assumed where nothing is said" }), this.assumed));
    this.hear = (told) => told.kind === "form" && this.show(told);
    model.on("msg:custom", this.hear);
    model.send({ do: "ready" });
  }

  leave() {
    this.model.off("msg:custom", this.hear);
  }

  show({ groups, assumed }) {
    const names = JSON.stringify(groups.map(({ fields }) => fields.map(({ name, choices }) => [name, choices])));
    if (names !== this.names) this.make(groups);
    this.names = names;
    for (const { fields } of groups) for (const field of fields) this.fill(field);
    this.assumed.replaceChildren(...assumed.map((text) => el("li", { text })));
    const wrong = groups.flatMap(({ fields }) => fields).filter(({ fault }) => fault).length;
    this.said.textContent = (wrong ? `${wrong} of the fields cannot stay as typed; the plan is as it was there.` : "");
  }

  make(groups) {
    const focused = this.groups.getRootNode().activeElement?.dataset?.name;
    this.fields.clear();
    this.groups.replaceChildren(...groups.map(({ words, fields }) =>
      el("fieldset", {}, el("legend", { text: words }), ...fields.map((field) => this.field(field)))));
    if (focused) this.fields.get(focused)?.input.focus({ preventScroll: true });
  }

  field({ name, words, choices, tall }) {
    const id = `${this.id}-${name.replace(".", "-")}`;
    const about = { id, "data-name": name, "aria-describedby": `${id}-fault`, onchange: () => this.put(name) };
    const tag = choices.length ? "select" : tall ? "textarea" : "input";
    const input = el(tag, tall ? { ...about, rows: 3 } : about);
    if (choices.length) input.append(el("option", { value: "", text: "not said" }), ...choices.map((text) => el("option", { value: text, text })));
    const fault = el("p", { class: "fault", id: `${id}-fault`, "aria-live": "polite" });
    this.fields.set(name, { input, fault });
    return el("div", { class: tall ? "field tall" : "field" }, el("label", { for: id, text: words }), input, fault);
  }

  fill({ name, text, fault: words }) {
    const { input, fault } = this.fields.get(name);
    const typing = input === input.getRootNode().activeElement && input.value !== input.shown;
    if (!typing && input.value !== text) input.value = text;
    input.shown = text;
    input.setAttribute("aria-invalid", words ? "true" : "false");
    fault.textContent = words;
  }

  put(name) {
    this.model.send({ do: "put", name, text: this.fields.get(name).input.value });
  }
}

export default {
  render({ model, el: host }) {
    const root = rootIn(host);
    const form = new Form(model, root);
    return () => form.leave();
  },
};
