// Small deeds of the shell that only the browser can do.
export function keepLook(choice) {
  document.cookie = `particlelims-look=${choice}; path=/; max-age=31536000; samesite=strict`;
  document.documentElement.dataset.lookChoice = choice;
}

export async function copy(text) {
  await navigator.clipboard.writeText(text);
}

// What stands above or below the window, or under the bar at its top, comes to its middle; what is seen stays where it is.
export function bringIntoView(element) {
  const [place, bar] = [element?.getBoundingClientRect(), document.querySelector(".house-bar")?.getBoundingClientRect().bottom ?? 0];
  if (place && (place.top < bar || place.bottom > window.innerHeight)) {
    element.scrollIntoView({ block: "center" });
  }
}

// A moment later: lists that have nothing chosen are marked after the fields.
export function bringFirstFaultIntoView() {
  setTimeout(() => bringIntoView(document.querySelector(".mud-form .mud-input-error, .mud-form .choice-refused")), 150);
}
