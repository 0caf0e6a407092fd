// An element with its attributes, listeners and children; text is always text.

const el = (tag, about = {}, ...children) => {
  const made = document.createElement(tag);
  for (const [key, value] of Object.entries(about)) {
    if (key.startsWith("on")) made.addEventListener(key.slice(2), value);
    else if (key === "text") made.textContent = value;
    else if (value !== null && value !== false) made.setAttribute(key, value === true ? "" : value);
  }
  made.append(...children);
  return made;
};
