// Reads QR and Code 128 labels from the camera. The reader is fetched only when the camera is opened.
let reader;

function load() {
  reader ??= new Promise((resolve, reject) => {
    const script = document.createElement("script");
    script.src = "/vendor/zxing-library/zxing-library.min.js";
    script.onload = () => resolve(globalThis.ZXing);
    script.onerror = () => {
      reader = undefined;
      reject(new Error("The reader of labels could not be loaded."));
    };
    document.head.append(script);
  });
  return reader;
}

export async function open(video, target) {
  if (!navigator.mediaDevices?.getUserMedia) {
    return { words: "This browser gives no camera to this page. A camera needs a secure address (https).", stop: () => {} };
  }

  const zxing = await load();
  const hints = new Map([[zxing.DecodeHintType.POSSIBLE_FORMATS, [zxing.BarcodeFormat.QR_CODE, zxing.BarcodeFormat.CODE_128]]]);
  const codes = new zxing.BrowserMultiFormatReader(hints, 200);
  let last = "";
  try {
    await codes.decodeFromConstraints({ video: { facingMode: "environment" } }, video, result => {
      const text = result?.getText();
      if (text && text !== last) {
        last = text;
        target.invokeMethodAsync("Seen", text);
      }
    });
  } catch (fault) {
    codes.reset();
    return { words: fault?.name === "NotAllowedError" ? "The camera was refused. Allow it for this page in the browser." : "No camera answers. Type the code, or use a scanner.", stop: () => {} };
  }

  return { words: null, stop: () => codes.reset() };
}

export function wordsOf(opened) {
  return opened.words;
}
