// Reads the balance at this terminal's own serial port. It is chosen once by a click; after that the browser knows it, and it is opened
// again by itself. Only raw bytes are handed on, numbered, so that the server notices when some are missing.
const longest = 4096;
const firstWait = 500;
const longestWait = 10000;

export function follow(target, button, settings) {
  const place = `particlelims-port-${settings.balance}`;
  let stopped = false;
  let port = null;
  let reader = null;
  let asking = null;
  let wake = null;
  let wait = firstWait;

  const tell = state => target.invokeMethodAsync("Port", state).catch(() => {});

  async function run() {
    if (!navigator.serial) {
      await tell("none");
      return;
    }

    button.addEventListener("click", choose);
    navigator.serial.addEventListener("connect", again);
    while (!stopped) {
      port = await known();
      if (port) {
        await session();
      } else {
        await tell("asks");
      }

      await pause(port ? wait : null);
      wait = Math.min(2 * wait, longestWait);
    }
  }

  // The click itself opens the browser's list: asked for any later it would be refused.
  async function choose() {
    try {
      const chosen = await navigator.serial.requestPort();
      localStorage.setItem(place, JSON.stringify(kind(chosen)));
      port = chosen;
      again();
    } catch {
      // Nothing was chosen; the button stays.
    }
  }

  // The port of the kind that was chosen here. Two of a kind cannot be told apart, so somebody chooses anew.
  async function known() {
    const all = await navigator.serial.getPorts();
    if (port && all.includes(port)) {
      return port;
    }

    const wanted = localStorage.getItem(place);
    const fitting = all.filter(one => JSON.stringify(kind(one)) === wanted);
    return fitting.length === 1 ? fitting[0] : null;
  }

  async function session() {
    let from = 0;
    try {
      await port.open({ baudRate: settings.baudRate, dataBits: settings.dataBits, stopBits: settings.stopBits, parity: settings.parity, bufferSize: longest });
    } catch (failure) {
      await tell(failure?.name === "InvalidStateError" || failure?.name === "NetworkError" ? "taken" : "lost");
      return;
    }

    await tell("open");
    ask();
    while (!stopped && port.readable) {
      reader = port.readable.getReader();
      try {
        for (let piece = await reader.read(); !piece.done; piece = await reader.read()) {
          wait = firstWait;
          from = await hand(from, piece.value);
        }
      } catch {
        // A character that came damaged: what is missing here must show there.
        from++;
      } finally {
        reader.releaseLock();
        reader = null;
      }
    }

    clearInterval(asking);
    await port.close().catch(() => {});
    await tell("lost");
  }

  async function hand(from, bytes) {
    for (let start = 0; start < bytes.length; start += longest) {
      const piece = bytes.slice(start, start + longest);
      await target.invokeMethodAsync("Bytes", from, piece).catch(() => {});
      from += piece.length;
    }

    return from;
  }

  function ask() {
    clearInterval(asking);
    if (settings.command && settings.askEvery) {
      asking = setInterval(write, settings.askEvery);
    }
  }

  async function write() {
    const writer = port?.writable && !port.writable.locked ? port.writable.getWriter() : null;
    try {
      await writer?.write(command());
    } catch {
      // The reading side meets the same end.
    } finally {
      writer?.releaseLock();
    }
  }

  function command() {
    return settings.command instanceof Uint8Array ? settings.command : Uint8Array.from(atob(settings.command), one => one.charCodeAt(0));
  }

  function pause(milliseconds) {
    return new Promise(resolve => {
      wake = resolve;
      if (milliseconds !== null) {
        setTimeout(resolve, milliseconds);
      }
    });
  }

  function again() {
    wait = firstWait;
    wake?.();
  }

  async function stop() {
    stopped = true;
    navigator.serial?.removeEventListener("connect", again);
    button.removeEventListener("click", choose);
    await reader?.cancel().catch(() => {});
    wake?.();
  }

  run();
  return { stop };
}

function kind(port) {
  const info = port.getInfo();
  return [info.usbVendorId ?? null, info.usbProductId ?? null];
}
