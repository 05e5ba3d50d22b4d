// Collects lines that a scanner or a balance types as keys: quick keystrokes that end with Enter while no field has the focus.
const slowest = 100; // milliseconds between two keys; people are slower, devices quicker
const longest = 200;
const shortest = 3;

export function listen(target) {
  let line = "";
  let last = 0;

  function onKey(event) {
    if (event.ctrlKey || event.altKey || event.metaKey || isField(event.target)) {
      return;
    }

    const now = performance.now();
    if (now - last > slowest) {
      line = "";
    }

    if (event.key.length === 1 && (line || event.key !== " ")) {
      if (line) {
        // Keys of a line are not meant for the button that happens to have the focus.
        take(event);
      }

      last = now;
      line = line.length < longest ? line + event.key : line;
    } else if ((event.key === "Enter" || event.key === "Tab") && line.length >= shortest) {
      take(event);
      const whole = line;
      line = "";
      target.invokeMethodAsync("Typed", whole);
    } else if (event.key !== "Shift") {
      line = "";
    }
  }

  window.addEventListener("keydown", onKey, true);
  return { stop: () => window.removeEventListener("keydown", onKey, true) };
}

function take(event) {
  event.preventDefault();
  event.stopPropagation();
}

function isField(element) {
  return element instanceof HTMLElement && (element.isContentEditable || ["INPUT", "TEXTAREA", "SELECT"].includes(element.tagName) && !["checkbox", "radio", "button", "submit"].includes(element.type));
}
