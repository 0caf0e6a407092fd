// What the notebook's own controls do not say to a screen reader: whether a button is pressed, and
// what a slider is of.

const TOGGLES = ".widget-toggle-button, .widget-toggle-buttons button";
const HANDLES = ".widget-slider .noUi-handle";

function put(element, name, value) {
  if (value && element.getAttribute(name) !== value) element.setAttribute(name, value);
}

function sayAll() {
  for (const toggle of document.querySelectorAll(TOGGLES))
    put(toggle, "aria-pressed", String(toggle.classList.contains("mod-active")));
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
