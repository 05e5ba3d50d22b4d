// Keys go into the form's field even when a touch beside it took the focus away: a badge is scanned without looking at the screen.
document.addEventListener("keydown", event => {
  const free = document.activeElement === null || document.activeElement === document.body;
  if (free && !event.ctrlKey && !event.altKey && !event.metaKey && (event.key.length === 1 || event.key === "Enter")) {
    // The letter of this key, or its Enter, is then the field's: the browser gives it to whatever has the focus once the key is down.
    document.querySelector("form.takes-keys input:not([type=hidden])")?.focus();
  }
});
