// Asks the browser for a passkey. Every question comes from the server and every answer is checked there.
export const able = () => globalThis.PublicKeyCredential?.parseRequestOptionsFromJSON !== undefined;

const words = fault => (fault?.name === "NotAllowedError" || fault?.name === "AbortError"
  ? "No passkey was given: it was cancelled, or the time was over."
  : fault?.name === "InvalidStateError"
    ? "This device holds a passkey of yours already."
    : "The browser could not ask for a passkey here.");

async function answered(ask) {
  try {
    return { answer: JSON.stringify((await ask()).toJSON()), words: null };
  } catch (fault) {
    return { answer: null, words: words(fault) };
  }
}

export const make = options =>
  answered(() => navigator.credentials.create({ publicKey: PublicKeyCredential.parseCreationOptionsFromJSON(JSON.parse(options)) }));

export const ask = options =>
  answered(() => navigator.credentials.get({ publicKey: PublicKeyCredential.parseRequestOptionsFromJSON(JSON.parse(options)) }));

// On the sign-on page: the form is shown where the browser can do it, and sent with the answer.
const form = document.querySelector("form[data-passkey]");
if (form && able()) {
  form.hidden = false;
  form.addEventListener("submit", async event => {
    if (form.elements.answer.value) {
      return;
    }

    event.preventDefault();
    const said = form.querySelector("[data-said]");
    said.textContent = "";
    const asked = await fetch("/sign-on/passkey/question", { method: "POST", body: new FormData(form) });
    if (!asked.ok) {
      said.textContent = "The server did not answer. Try again in a minute.";
      return;
    }

    const question = await asked.json();
    const given = await ask(question.options);
    if (given.answer === null) {
      said.textContent = given.words;
      return;
    }

    form.elements.handle.value = question.handle;
    form.elements.answer.value = given.answer;
    form.requestSubmit();
  });
}
