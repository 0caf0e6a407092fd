// An element with its attributes, listeners and children; text is always text.

export const el = (tag, about = {}, ...children) => {
  const made = document.createElement(tag);
  for (const [key, value] of Object.entries(about)) {
    if (key.startsWith("on")) made.addEventListener(key.slice(2), value);
    else if (value !== null && value !== false) made.setAttribute(key, value === true ? "" : value);
  }
  made.append(...children.flat().filter((child) => child !== null && child !== false && child !== ""));
  return made;
};

export const button = (words, onclick, look = null, more = {}) =>
  el("button", { type: "button", class: look, onclick, ...more }, words);

// A lot is known by its name; its colour stands beside it and carries nothing alone.
export const named = (name) => el("bdi", { class: "name" }, name);

export function chip(lot, look = "chip") {
  const made = el("span", { class: look, "aria-hidden": "true" });
  made.style.backgroundColor = lot.colour;
  return made;
}

export const lotLine = (lot) => el("span", { class: "lot" }, chip(lot), named(lot.name));
