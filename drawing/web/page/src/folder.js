// Where the parts of a page in a folder are, and that it goes on without a network.
"use strict";

const makeWorker = () => new Worker("worker.js");

// enginePieces gives the engine as it comes: it is compiled meanwhile.
async function* enginePieces() {
  const answer = await fetch("engine.bin");
  if (!answer.ok) throw new Error("the engine could not be fetched: " + answer.status);
  const reader = answer.body.getReader();
  for (let piece = await reader.read(); !piece.done; piece = await reader.read()) yield piece.value;
}

if ("serviceWorker" in navigator && location.protocol === "https:" || location.hostname === "localhost" || location.hostname === "127.0.0.1") {
  navigator.serviceWorker?.register("offline.js").catch(() => { /* the page works without, but not offline */ });
}
