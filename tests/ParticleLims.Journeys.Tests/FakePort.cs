namespace ParticleLims.Journeys.Tests;

/// <summary>
/// A serial port in the browser's place for one: granted once and remembered as a browser does, with a balance behind it that sends the
/// mass in <c>pan</c> twenty times a second, each line in two pieces.
/// </summary>
internal static class FakePort
{
    public const string Script = """
        (() => {
          let sending = null;
          const port = {
            readable: null,
            writable: null,
            getInfo: () => ({ usbVendorId: 4711, usbProductId: 1 }),
            async open(settings) {
              globalThis.opened = settings;
              globalThis.openings = (globalThis.openings ?? 0) + 1;
              port.readable = new ReadableStream({
                start(stream) {
                  const bytes = text => stream.enqueue(new TextEncoder().encode(text));
                  sending = setInterval(() => {
                    const line = `S +${(globalThis.pan ?? 0).toFixed(3).padStart(11)} g B-JOURNEY\r\n`;
                    bytes(line.slice(0, 9));
                    bytes(line.slice(9));
                  }, 50);
                  globalThis.pullCable = () => {
                    clearInterval(sending);
                    port.readable = null;
                    stream.error(new DOMException("The device has been lost.", "NetworkError"));
                  };
                },
                cancel() { clearInterval(sending); },
              });
            },
            async close() { clearInterval(sending); port.readable = null; },
          };
          const granted = () => localStorage.getItem("fake-granted") ? [port] : [];
          const serial = Object.assign(new EventTarget(), {
            getPorts: async () => granted(),
            requestPort: async () => { localStorage.setItem("fake-granted", "yes"); return port; },
          });
          Object.defineProperty(navigator, "serial", { value: serial, configurable: true });
        })();
        """;
}
