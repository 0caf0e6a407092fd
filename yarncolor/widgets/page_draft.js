// What a page keeps for the case that its kernel is lost: the plan as the kernel told it last, and
// what is typed and not taken yet. It is kept for as long as the tab is there.

const FIELDS = "input:not([type=file], [type=checkbox], [type=radio], [type=range]), textarea, select";
const LOOK_MS = 200;
const LOOKS = 300;

const storage = (task) => {
  try {
    return task(window.sessionStorage);
  } catch {
    return null; // forbidden, or full
  }
};

const kindOf = (field) => [field.tagName, field.type, field.getAttribute("aria-label") ?? field.labels?.[0]?.textContent ?? "", field.classList[0] ?? ""].join(" ");

// Fields of ours by their names: each is known by its words, and by how manieth it is of those with
// the same.
function namedFields() {
  const counts = new Map(), fields = new Map();
  for (const field of document.querySelectorAll(`.yc :is(${FIELDS})`)) {
    const kind = kindOf(field), count = counts.get(kind) ?? 0;
    counts.set(kind, count + 1);
    fields.set(`${count} ${kind}`, field);
  }
  return fields;
}

const namesOf = (isMeant) => [...namedFields()].filter(([, field]) => isMeant(field)).map(([name]) => name);

// Fingers are in it, or it says of itself that nobody else knows what it holds.
const isOnlyHere = (field) => field === document.activeElement || field.hasAttribute("data-only-here");

function type(field, text) {
  if (field.value === text) return;
  field.value = text;
  for (const event of ["input", "change"]) field.dispatchEvent(new Event(event, { bubbles: true }));
}

export class PageDraft {
  constructor(opened) {
    this.key = `yarncolor draft ${window.location.pathname} ${opened}`;
    this.draft = JSON.parse(storage((kept) => kept.getItem(this.key)) ?? "null");
    this.typed = this.draft?.typed ?? {};
    this.onInput = (event) => event.target.matches?.(`.yc :is(${FIELDS})`) && this.type(event.target);
    document.addEventListener("input", this.onInput, true);
  }

  leave() {
    document.removeEventListener("input", this.onInput, true);
  }

  type(field) {
    const [name] = namesOf((each) => each === field);
    this.typed[name] = field.value;
    this.typedAt = performance.now();
    this.store();
  }

  // What the kernel has taken is in the plan; a field under the fingers may hold more.
  keep(told, askedAt) {
    this.draft = told;
    if (!told.pending && !(this.typedAt > askedAt)) {
      const stays = namesOf(isOnlyHere);
      this.typed = Object.fromEntries(Object.entries(this.typed).filter(([name]) => stays.includes(name)));
    }
    this.store();
  }

  store() {
    if (!this.draft) return;
    storage((kept) => kept.setItem(this.key, JSON.stringify({ ...this.draft, typed: this.typed })));
  }

  // Put what was typed into its fields again, as soon as they are there.
  retype(typed, looks = LOOKS) {
    const left = Object.entries(typed).filter(([name, text]) => {
      const field = namedFields().get(name);
      if (field) type(field, text);
      return !field;
    });
    if (left.length && looks) setTimeout(() => this.retype(Object.fromEntries(left), looks - 1), LOOK_MS);
  }
}
