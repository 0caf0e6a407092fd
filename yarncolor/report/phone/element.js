// An element with its attributes, listeners and children; text is always text.

// Words that are read from the right stand by themselves: a number beside them keeps its side.
const RIGHT = "[\\u0590-\\u08ff\\ufb1d-\\ufdff\\ufe70-\\ufefc]+";
const FROM_RIGHT = new RegExp(`${RIGHT}(?:[ '-]+${RIGHT})*`, "g");
const isolated = (text) => String(text ?? "").replace(FROM_RIGHT, "\u2068$&\u2069");

const asShown = (child) => (typeof child === "string" ? isolated(child) : child);

export const el = (tag, about = {}, ...children) => {
  const made = document.createElement(tag);
  for (const [key, value] of Object.entries(about)) {
    if (key.startsWith("on")) made.addEventListener(key.slice(2), value);
    else if (value !== null && value !== false) made.setAttribute(key, value === true ? "" : value);
  }
  made.append(...children.flat().filter((child) => child !== null && child !== false && child !== "").map(asShown));
  return made;
};

export const button = (words, onclick, look = null, more = {}) =>
  el("button", { type: "button", class: look, onclick, ...more }, words);

// A lot is known by its name; its colour stands beside it and carries nothing alone.
export function named(name) {
  const made = el("bdi", { class: "name" });
  made.textContent = name;
  return made;
}

export function chip(lot, look = "chip") {
  const made = el("span", { class: look, "aria-hidden": "true" });
  made.style.backgroundColor = lot.colour;
  return made;
}

export const lotLine = (lot) => el("span", { class: "lot" }, chip(lot), named(lot.name));
