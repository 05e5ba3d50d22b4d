// Keys on the screen for the PIN: for gloves, and for terminals without a keyboard.
const pad = document.querySelector(".pin-pad");
const pin = document.getElementById("pin");
pad.hidden = false;
pad.addEventListener("click", event => {
  const key = event.target.closest("button[type=button]");
  if (key) {
    pin.value = key.dataset.clear ? "" : (pin.value + key.dataset.digit).slice(0, pin.maxLength);
    pin.focus();
  }
});
