// What the notebook's own controls do not say to a screen reader: whether a button is pressed, or
// what it folds is open, and what a slider is of.

const FOLDS = ".widget-toggle-button.yc-fold";
const TOGGLES = `.widget-toggle-button:not(${FOLDS}), .widget-toggle-buttons button`;
const HANDLES = ".widget-slider .noUi-handle";

function put(element, name, value) {
  if (value && element.getAttribute(name) !== value) element.setAttribute(name, value);
}

function sayAll() {
  for (const [which, name] of [[TOGGLES, "aria-pressed"], [FOLDS, "aria-expanded"]])
    for (const button of document.querySelectorAll(which))
      put(button, name, String(button.classList.contains("mod-active")));
  for (const handle of document.querySelectorAll(HANDLES))
    put(handle, "aria-label", handle.closest(".widget-slider").querySelector(".widget-label")?.textContent);
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
