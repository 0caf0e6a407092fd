// What the notebook's own controls do not say to a screen reader: whether a button is pressed, or
// what it folds is open, what a slider, a field or a picture is of, and why one is greyed.

const FOLDS = ".widget-toggle-button.yc-fold";
const TOGGLES = `.widget-toggle-button:not(${FOLDS}), .widget-toggle-buttons button`;
const ROWS = ".widget-toggle-buttons:has(> .widget-label:not(:empty))";
const HANDLES = ".widget-slider .noUi-handle";
const NAMELESS = ".jupyter-widgets :is(input, textarea)[placeholder]:not([placeholder=''], [aria-label])";
const SAYS_PICTURE = ".yc-says-picture";
const STAGES = ".yc-stages";
const BESIDE_PX = 60; // of the one before, so that it is seen that there are more
let rolledTo = null;
const LABELS = ".jupyter-widgets > .widget-label";

function put(element, name, value) {
  if (value && element.getAttribute(name) !== value) element.setAttribute(name, value);
}

// In a row that rolls, what is pressed comes into sight.
function rollToPressed() {
  const pressed = document.querySelector(`${STAGES} button.mod-active`);
  if (!pressed || pressed === rolledTo) return;
  rolledTo = pressed;
  const row = pressed.closest(STAGES);
  row.scrollLeft += pressed.getBoundingClientRect().left - row.getBoundingClientRect().left - BESIDE_PX;
}

function sayAll() {
  rollToPressed();
  for (const [which, name] of [[TOGGLES, "aria-pressed"], [FOLDS, "aria-expanded"]])
    for (const button of document.querySelectorAll(which))
      put(button, name, String(button.classList.contains("mod-active")));
  for (const row of document.querySelectorAll(ROWS)) {
    put(row, "role", "group");
    put(row, "aria-label", row.querySelector(".widget-label")?.textContent);
  }
  for (const handle of document.querySelectorAll(HANDLES))
    put(handle, "aria-label", handle.closest(".widget-slider").querySelector(".widget-label")?.textContent);
  for (const field of document.querySelectorAll(NAMELESS))
    if (!field.labels?.[0]?.textContent) put(field, "aria-label", field.placeholder);
  for (const words of document.querySelectorAll(SAYS_PICTURE))
    put(words.parentElement.querySelector("img"), "alt", (words.querySelector("[role=status]") ?? words.querySelector("p, li"))?.textContent);
  for (const label of document.querySelectorAll(LABELS)) {
    const why = label.querySelector("span[title]")?.title ?? "";
    for (const field of label.parentElement.querySelectorAll("select, input, textarea, .noUi-handle"))
      if (field.title !== why) field.title = why;
  }
}

// Say it of all that is there, and of what comes or changes; return how to stop.
export function nameControls() {
  let isWaiting = false;
  const soon = () => {
    if (isWaiting) return;
    isWaiting = true;
    setTimeout(() => {
      isWaiting = false;
      sayAll();
    });
  };
  const observer = new MutationObserver(soon);
  observer.observe(document.body, { subtree: true, childList: true, attributeFilter: ["class"] });
  soon();
  return () => observer.disconnect();
}
