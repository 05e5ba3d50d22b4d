// Collects lines that a scanner or a balance types as keys: quick keystrokes that end with Enter while no field has the focus.
// One listener for the page, however many parts of it want the lines, so that each of them hears a line under the same number.
const slowest = 100; // milliseconds between two keys; people are slower, devices quicker
const longest = 600; // longer than any format allows, so that what was cut here is refused there
const shortest = 3;
const near = 1000; // milliseconds: keys that were dropped so shortly before a line may have been its beginning
const targets = new Set();
let line = "";
let last = 0;
let number = 0;
let cut = false;
let dropped = -near;
let held = null;

export function listen(target) {
  if (targets.size === 0) {
    window.addEventListener("keydown", onKey, true);
    window.addEventListener("keyup", onKeyUp, true);
  }

  targets.add(target);
  document.documentElement.dataset.hearsKeys = "true";
  return { stop: () => stop(target) };
}

function stop(target) {
  targets.delete(target);
  if (targets.size === 0) {
    window.removeEventListener("keydown", onKey, true);
    window.removeEventListener("keyup", onKeyUp, true);
    delete document.documentElement.dataset.hearsKeys;
    line = "";
  }
}

function onKey(event) {
  // When the key was pressed, not when a busy page came to hear of it.
  const now = event.timeStamp;
  if (event.ctrlKey || event.altKey || event.metaKey || event.isComposing || isField(event.target)) {
    drop(line || event.key.length === 1 ? now : dropped);
    return;
  }

  if (now - last > slowest && line) {
    drop(last);
  }

  if (event.key.length === 1) {
    collect(event, now);
  } else if ((event.key === "Enter" || event.key === "Tab") && line.length >= shortest) {
    take(event);
    tell();
  } else if (event.key !== "Shift") {
    drop(line ? now : dropped);
  }
}

// What was collected is no line. If more keys follow soon, they may be the rest of one that came with a pause.
function drop(when) {
  line = "";
  dropped = when;
}

function collect(event, now) {
  cut = line ? cut : now - dropped < near;
  if (line) {
    // Keys of a line are not meant for the button that happens to have the focus.
    take(event);
    letGo();
  } else if (event.key === " " && isPressedBySpace(event.target)) {
    // A line may begin with a blank: the button is pressed only when no key follows it at once.
    take(event);
    const button = event.target;
    held = { button, timer: setTimeout(() => press(button), slowest) };
  }

  last = now;
  line = line.length < longest ? line + event.key : line;
}

function onKeyUp(event) {
  if (event.key === " " && held?.button === event.target) {
    take(event);
  }
}

function tell() {
  const whole = line;
  line = "";
  number++;
  for (const target of [...targets]) {
    // With the connection gone there is nobody to hear it; the page says so itself.
    target.invokeMethodAsync("Typed", whole, number, cut).catch(() => {});
  }
}

function press(button) {
  held = null;
  line = "";
  if (button.isConnected) {
    button.click();
  }
}

function letGo() {
  clearTimeout(held?.timer);
  held = null;
}

function take(event) {
  event.preventDefault();
  event.stopPropagation();
}

const notTyped = ["checkbox", "radio", "button", "submit", "reset"];

function isPressedBySpace(element) {
  return element instanceof HTMLElement && (["BUTTON", "SUMMARY"].includes(element.tagName) || element.getAttribute("role") === "button" || element.tagName === "INPUT" && notTyped.includes(element.type));
}

function isField(element) {
  return element instanceof HTMLElement && (element.isContentEditable || ["INPUT", "TEXTAREA", "SELECT"].includes(element.tagName) && !notTyped.includes(element.type));
}
