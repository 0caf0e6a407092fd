// The card from the page: one click opens the browser's print dialog for the card itself.

import { button, el, inRow, rootIn } from "./element.js";
import { listen } from "./protocol.js";

const KEPT_MS = 10000;
// Out of sight, but laid out: what is not displayed would print as an empty sheet.
const ASIDE = "position:fixed;right:100%;top:0;width:210mm;height:297mm;border:0";

class CardPrinter {
  constructor(model, root) {
    this.model = model;
    this.id = `yc-card-${Math.random().toString(36).slice(2)}`;
    this.deaf = listen(model, this);
    root.append(inRow(
      button("Print the card", () => this.ask("print")),
      button("Download the card", () => this.ask("download"))));
  }

  ask(task) {
    this.model.send({ do: task, view: this.id });
  }

  on_card(told) {
    if (told.view !== this.id) return;
    if (told.task === "print") this.print(told.html);
    else this.handOver(told.name, told.html);
  }

  print(html) {
    this.clear();
    this.frame = el("iframe", {
      srcdoc: html, style: ASIDE, sandbox: "allow-same-origin allow-modals",
      title: "The card, on its way to the printer", "aria-hidden": "true", tabindex: "-1",
    });
    this.frame.addEventListener("load", () => this.openDialog(this.frame), { once: true });
    document.body.append(this.frame);
  }

  // A browser may call what is printed after the page around it, so that bears the plan's name meanwhile.
  openDialog(frame) {
    const sheet = frame.contentWindow;
    this.title = document.title;
    sheet.addEventListener("afterprint", () => this.done(), { once: true });
    document.title = frame.contentDocument.title;
    sheet.focus();
    sheet.print();
  }

  clear() {
    this.done();
    this.frame?.remove();
  }

  done() {
    if (this.title !== undefined) document.title = this.title;
    this.title = undefined;
  }

  handOver(name, html) {
    const address = URL.createObjectURL(new Blob([html], { type: "text/html" }));
    el("a", { href: address, download: name }).click();
    setTimeout(() => URL.revokeObjectURL(address), KEPT_MS);
  }

  leave() {
    this.deaf();
    this.clear();
  }
}

export default {
  render({ model, el: host }) {
    const printer = new CardPrinter(model, rootIn(host, "card"));
    return () => printer.leave();
  },
};
