// Shows that the connection is lost, tries again for as long as the page stays open, and reloads when the server has forgotten this screen.
const dialog = document.getElementById("components-reconnect-modal");
const again = dialog.querySelector("button");

dialog.addEventListener("components-reconnect-state-changed", event => {
  const state = event.detail.state;
  if (state === "show" && !dialog.open) {
    dialog.showModal();
  } else if (state === "hide") {
    dialog.close();
  } else if (state === "rejected") {
    comeBack();
  } else if (state === "failed") {
    setTimeout(retry, 5000);
  }
});
dialog.addEventListener("cancel", event => event.preventDefault());
again.addEventListener("click", retry);

// Marked, so that a screen at which nobody may stand does not take the work from one at which somebody does.
function comeBack() {
  const here = new URL(location.href);
  here.searchParams.set("came-back", "true");
  location.replace(here);
}

async function retry() {
  try {
    if (await Blazor.reconnect() || await Blazor.resumeCircuit?.()) {
      dialog.close();
    } else {
      comeBack();
    }
  } catch {
    setTimeout(retry, 5000);
  }
}
