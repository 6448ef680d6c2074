// Where the parts of a page in one file are.
"use strict";

const makeWorker = () => new Worker(URL.createObjectURL(new Blob([$("worker").textContent], { type: "text/javascript" })));

// enginePieces gives the engine as the page is read, of which it is the end: it is compiled meanwhile.
async function* enginePieces() {
  const pieces = document.getElementsByClassName("engine"), whole = () => document.readyState !== "loading";
  for (;;) {
    const last = whole(); // before the pieces are counted
    while (pieces.length > (last ? 0 : 1)) {
      const text = pieces[0].textContent;
      pieces[0].remove();
      yield fromBase64(text);
    }
    if (last) return;
    await new Promise((more) => {
      const watch = new MutationObserver(go);
      function go() { watch.disconnect(); document.removeEventListener("readystatechange", go); more(); }
      watch.observe(document.body, { childList: true });
      document.addEventListener("readystatechange", go);
    });
  }
}

function fromBase64(text) {
  if (Uint8Array.fromBase64) return Uint8Array.fromBase64(text);
  const letters = atob(text), bytes = new Uint8Array(letters.length);
  for (let i = 0; i < letters.length; i++) bytes[i] = letters.charCodeAt(i);
  return bytes;
}
