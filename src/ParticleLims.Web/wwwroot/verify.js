// Hashes a certificate's file in the browser and asks only whether that fingerprint is known.
const outcome = document.getElementById("check-outcome");
const input = document.getElementById("check-file");
const form = document.getElementById("check-form");
const how = document.getElementById("check-how");
const canHash = Boolean(globalThis.crypto?.subtle);

function say(words, kind, rows = []) {
  outcome.replaceChildren();
  outcome.dataset.outcome = kind;
  const line = document.createElement("p");
  line.className = `check-words check-${kind}`;
  const strong = document.createElement("strong");
  strong.textContent = words;
  line.append(strong);
  outcome.append(line);
  if (rows.length === 0) return;
  const list = document.createElement("dl");
  list.className = "house-pairs";
  for (const [name, value] of rows) {
    const term = document.createElement("dt");
    term.textContent = name;
    const text = document.createElement("dd");
    text.textContent = value;
    list.append(term, text);
  }
  outcome.append(list);
}

async function check(file) {
  say("Checking …", "busy");
  try {
    const digest = await crypto.subtle.digest("SHA-256", await file.arrayBuffer());
    const hash = Array.from(new Uint8Array(digest), (one) => one.toString(16).padStart(2, "0")).join("");
    const reply = await fetch(`/verify/file/${hash}`, { cache: "no-store", credentials: "omit" });
    if (!reply.ok) throw new Error(`status ${reply.status}`);
    const answer = await reply.json();
    const rows = answer.number
      ? [["Certificate", answer.number], ["Product, lot", `${answer.productCode}, ${answer.lotNumber}`], ["Issued on, by", `${answer.issuedOn}, ${answer.issuer}`]]
      : [];
    say(answer.words, answer.outcome, rows);
  } catch {
    say("This cannot be told now: the laboratory's server did not answer. Try again later.", "unknown");
  }
}

if (canHash) {
  document.getElementById("check-send").hidden = true;
  input.addEventListener("change", () => input.files.length > 0 && check(input.files[0]));
  form.addEventListener("submit", (event) => event.preventDefault());
  form.addEventListener("dragover", (event) => event.preventDefault());
  form.addEventListener("drop", (event) => {
    event.preventDefault();
    if (event.dataTransfer.files.length > 0) check(event.dataTransfer.files[0]);
  });
} else {
  how.textContent = "This browser computes fingerprints only over a secure connection. Send the file instead: the server computes its fingerprint and keeps nothing.";
}
