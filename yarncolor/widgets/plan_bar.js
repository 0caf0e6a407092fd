// The plan's bar: what file it is, whether it is saved, steps back, saving, opening, handing over.

import { nameControls } from "./control_names.js";
import { button, el, inRow, isolated, mapped, rootIn, takeDrops } from "./element.js";
import { endKernel, hearKernel, KernelWatch, pageKernel } from "./kernel_watch.js";
import { PageDraft } from "./page_draft.js";
import { listen } from "./protocol.js";

const LARGEST_BYTES = 1024 * 1024;
const DRAFT_MS = 600;
const SEEN_MS = 1500;
const MOST_STARTS = 3;
const STARTS_MS = 120000;
const NO_FILE = "this plan has no file yet: save it under a name first";
const LOST = {
  "": "",
  busy: "One moment: the bench is still at work.",
  lost: "The part of the program that reckons has ended. This page starts again by itself; your plan is kept.",
  notebook: "The part of the program that reckons, this notebook's kernel, has ended. Run the notebook again from its top; the plan is then as its file says.",
  ended: "The program cannot be reached: it has ended, or the network has. Start it again as you did; your plan is kept in this page and comes back by itself. Leave the page open.",
};

// Whether a page has started again so often by now that it does not help.
function startsInVain() {
  try {
    const key = `yarncolor starts ${window.location.pathname}`;
    const lately = JSON.parse(window.sessionStorage.getItem(key) ?? "[]").filter((at) => Date.now() - at < STARTS_MS);
    window.sessionStorage.setItem(key, JSON.stringify([...lately, Date.now()]));
    return lately.length >= MOST_STARTS;
  } catch {
    return true;
  }
}

// What was ticked is known after a reload; a browser may forbid to remember, then it is not.
function remember(key, on) {
  try {
    if (key && on) window.localStorage.setItem(key, "1");
    else window.localStorage.removeItem(key);
  } catch { /* forbidden */ }
}

function remembered(key) {
  try {
    return key !== "" && window.localStorage.getItem(key) === "1";
  } catch {
    return false;
  }
}

class Bar {
  constructor(model, root) {
    this.model = model;
    this.id = `yc-bar-${Math.random().toString(36).slice(2)}`;
    const words = { undo: "Undo", redo: "Redo", save: "Save the plan" };
    this.tools = mapped(words, (text, task) => button(text, () => this.ask(task)));
    this.file = el("strong");
    this.state = el("span", { class: "quiet", role: "status", "aria-live": "polite" });
    this.keep = el("input", { type: "checkbox", id: `${this.id}-keep`, onchange: () => this.keepUp(this.keep.checked) });
    this.said = el("p", { class: "said", role: "status", "aria-live": "polite" });
    this.lost = el("p", { class: "said fault", role: "alert" });
    this.neverSaved = el("span", { role: "status", "aria-live": "polite" });
    this.offer = inRow(this.neverSaved,
      button("Bring it back", () => this.ask("bring_back")), button("Throw it away", () => this.ask("throw_away")));
    this.offer.hidden = true;
    root.append(
      this.lost,
      this.offer,
      inRow(el("span", { class: "which" }, this.file, " ", this.state), ...Object.values(this.tools), this.more()),
      this.said,
    );
    takeDrops(root, (file) => this.open(file));
    this.deaf = listen(model, this);
    this.guard = (event) => this.isAtRisk && event.preventDefault();
    window.addEventListener("beforeunload", this.guard);
    this.unname = nameControls();
    this.watchKernel();
    this.ask("ready");
  }

  watchKernel() {
    const kernel = pageKernel();
    this.unhear = hearKernel(this.model.widget_manager?.kernel, {
      ended: () => this.onLost(kernel ? "lost" : "notebook"),
      connected: (isThere) => this.watch?.connected(isThere),
    });
    if (!kernel) return;
    this.watch = new KernelWatch(kernel, () => this.ask("beat"), (what) => this.onLost(what));
    this.end = (event) => event.persisted || endKernel(kernel);
    window.addEventListener("pagehide", this.end);
    this.onInput = () => this.askForDraft();
    document.addEventListener("input", this.onInput);
  }

  onLost(what) {
    if (this.isStarting) return;
    if (this.lost.textContent !== LOST[what]) this.lost.textContent = LOST[what];
    if (what !== "lost") return;
    this.isStarting = true;
    if (startsInVain()) this.lost.append(" ", button("Start again", () => this.startAgain()));
    else setTimeout(() => this.startAgain(), SEEN_MS);
  }

  startAgain() {
    this.isAtRisk = false;
    window.location.reload();
  }

  // What would bring the plan back is asked for when the fingers rest.
  askForDraft() {
    clearTimeout(this.drafting);
    this.drafting = setTimeout(() => {
      this.draftAt = performance.now();
      this.ask("draft");
    }, DRAFT_MS);
  }

  on_beat() {
    this.watch?.heard();
  }

  on_draft(told) {
    this.watch?.heard();
    this.draft?.keep(told, this.draftAt);
  }

  // A page that was loaded anew goes on where it was.
  takeUp(told) {
    this.draft = new PageDraft(`${told.folder}/${told.file}`);
    const { draft } = this.draft;
    if (!draft) return;
    const { typed, ...plan } = draft;
    const { texts, steps, now, section } = plan;
    this.ask("resume", { texts, steps, now, section });
    this.draft.retype(typed);
  }

  more() {
    this.name = el("input", { id: `${this.id}-name`, size: 16, onkeydown: (event) => event.key === "Enter" && this.saveAs() });
    this.chooser = el("input", { type: "file", accept: ".toml", id: `${this.id}-open`, onchange: () => this.open(this.chooser.files[0]) });
    this.units = el("select", { id: `${this.id}-units`, onchange: () => this.ask("say_in", { units: this.units.value }) });
    return el("details", {}, el("summary", { text: "More for this plan" }),
      inRow(this.keep, el("label", { for: this.keep.id, text: "keep the plan file up to date" })),
      inRow(el("label", { for: this.units.id, text: "everything is said in" }), this.units),
      inRow(
        el("label", { for: this.name.id, text: "new name" }), this.name,
        button("Save the plan as", () => this.saveAs()),
        button("Download the plan", () => this.ask("download"))),
      inRow(
        el("label", { for: this.chooser.id, text: "open another plan, or drop it here" }), this.chooser,
        button("Begin a new plan", () => this.ask("new", { keeps: false })),
        button("Begin another for this piece", () => this.ask("new", { keeps: true }))));
  }

  leave() {
    this.deaf();
    this.unname();
    this.unhear();
    this.watch?.leave();
    this.draft?.leave();
    clearTimeout(this.drafting);
    window.removeEventListener("beforeunload", this.guard);
    window.removeEventListener("pagehide", this.end);
    document.removeEventListener("input", this.onInput);
  }

  ask(task, more = {}, buffers = []) {
    this.model.send({ do: task, view: this.id, ...more }, undefined, buffers);
  }

  saveAs() {
    this.ask("save_as", { name: this.name.value });
  }

  keepUp(on) {
    remember(this.kept, on);
    this.ask("keep", { on });
  }

  on_bar(told) {
    this.kept = told.saves ? `yarncolor keeps ${told.folder}/${told.file}` : "";
    if (!this.isShown && remembered(this.kept) && !told.keeps) this.keepUp(true);
    if (this.watch && !this.isShown) this.takeUp(told);
    this.isShown = true;
    if (this.watch) this.askForDraft();
    this.file.textContent = isolated(told.file || "no file yet");
    this.file.title = told.folder;
    this.state.textContent = told.state;
    this.tools.undo.disabled = !told.undo;
    this.tools.redo.disabled = !told.redo;
    this.tools.undo.title = told.undo ? `Undo: ${told.undo_words}` : "nothing to undo yet";
    this.tools.redo.title = told.redo ? `Do again: ${told.redo_words}` : "nothing was undone";
    this.tools.save.disabled = !told.saves;
    this.tools.save.title = this.keep.title = told.saves ? "" : NO_FILE;
    this.offerUnits(told);
    this.isAtRisk = told.at_risk;
    this.keep.checked = told.keeps;
    this.keep.disabled = !told.saves;
    this.offer.hidden = !told.never_saved;
    if (this.neverSaved.textContent !== told.never_saved) this.neverSaved.textContent = told.never_saved;
    const said = isolated(told.said);
    if (this.said.textContent !== said) this.said.textContent = said;
  }

  offerUnits({ units, systems }) {
    if (!this.units.options.length) this.units.append(...systems.map(([value, text]) => el("option", { value, text })));
    this.units.value = units;
  }

  on_download(told) {
    if (told.view !== this.id) return;
    const address = URL.createObjectURL(new Blob([told.text], { type: "application/toml" }));
    el("a", { href: address, download: told.name }).click();
    setTimeout(() => URL.revokeObjectURL(address), 10000);
  }

  async open(file) {
    if (!file) return;
    if (file.size > LARGEST_BYTES) {
      this.said.textContent = `Not opened. ${file.name}: larger than 1 MB; a plan file is a few pages of text`;
    } else {
      this.ask("open", { name: file.name }, [new Uint8Array(await file.arrayBuffer())]);
    }
    this.chooser.value = "";
  }
}

export default {
  render({ model, el: host }) {
    host.classList.add("yc-kept");
    const root = rootIn(host, "bar");
    root.bar = new Bar(model, root);
    return () => root.bar.leave();
  },
};
