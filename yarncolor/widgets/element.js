// An element with its attributes, listeners and children; text is always text.

// The notebook's own shortcuts keep off these, so that arrow keys are ours.
const FOCUSED = new Set(["button", "input", "select", "textarea", "summary"]);

function fresh(tag) {
  const element = document.createElement(tag);
  if (FOCUSED.has(tag)) element.setAttribute("data-lm-suppress-shortcuts", "true");
  return element;
}

// Words that are read from the right stand by themselves: a number beside them keeps its side.
const RIGHT = "[\\u0590-\\u08ff\\ufb1d-\\ufdff\\ufe70-\\ufefc]+";
const FROM_RIGHT = new RegExp(`${RIGHT}(?:[ '-]+${RIGHT})*`, "g");
export const isolated = (text) => String(text ?? "").replace(FROM_RIGHT, "\u2068$&\u2069");

export const el = (tag, about = {}, ...children) => {
  const made = fresh(tag);
  for (const [key, value] of Object.entries(about)) {
    if (key.startsWith("on")) made.addEventListener(key.slice(2), value);
    else if (key === "text") made.textContent = isolated(value);
    else if (value !== null && value !== false) made.setAttribute(key, value === true ? "" : value);
  }
  made.append(...children.map((child) => (typeof child === "string" ? isolated(child) : child)));
  return made;
};

export const button = (words, onclick) => el("button", { type: "button", onclick }, words);
export const inRow = (...inside) => el("div", { class: "row" }, ...inside);

// A table with the same keys, of what is made from each value and its key.
export const mapped = (table, make) =>
  Object.fromEntries(Object.entries(table).map(([key, value]) => [key, make(value, key)]));

export function rootIn(host, more = "") {
  const root = el("div", { class: `yc ${more}`.trim() });
  host.append(root);
  return root;
}

// A file that is dropped on an element is opened, and by nothing else on the page.
export function takeDrops(root, open) {
  root.addEventListener("dragover", (event) => {
    if (!event.dataTransfer.types.includes("Files")) return;
    event.preventDefault();
    event.stopPropagation();
  });
  root.addEventListener("drop", (event) => {
    const [file] = event.dataTransfer.files;
    if (!file) return;
    event.preventDefault();
    event.stopPropagation();
    open(file);
  });
}
