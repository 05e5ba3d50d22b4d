// Tells the server that somebody touches this terminal, and says half a minute before that it will lock. The server locks by itself.
const often = 1000; // milliseconds
const warned = 30; // seconds

export function start(target, seconds, left) {
  const notice = document.getElementById("idle-notice");
  const count = notice.querySelector("[data-count]");
  const others = new BroadcastChannel("particlelims-touch");
  let until = Date.now() + left * 1000;
  let sent = 0;

  function touched() {
    const now = Date.now();
    until = now + seconds * 1000;
    notice.hidden = true;
    if (now - sent >= often) {
      sent = now;
      target.invokeMethodAsync("Touched").catch(() => { sent = 0; });
      others.postMessage("touched");
    }
  }

  others.onmessage = () => {
    until = Date.now() + seconds * 1000;
    notice.hidden = true;
  };
  const kinds = ["pointerdown", "keydown"];
  kinds.forEach(kind => window.addEventListener(kind, touched, { capture: true, passive: true }));
  const timer = setInterval(() => {
    const rest = Math.max(0, Math.ceil((until - Date.now()) / 1000));
    if (rest <= warned) {
      count.textContent = rest;
    }
    if (notice.hidden !== rest > warned) {
      notice.hidden = rest > warned;
    }
  }, 500);
  return {
    stop: () => {
      clearInterval(timer);
      others.close();
      kinds.forEach(kind => window.removeEventListener(kind, touched, { capture: true }));
    },
  };
}
