// Where the parts of a page in one file are.
"use strict";

const inPage = (id) => $(id).textContent;

const makeWorker = () => new Worker(URL.createObjectURL(new Blob([inPage("worker")], { type: "text/javascript" })));

async function packedEngine() {
  const text = inPage("engine").trim();
  if (Uint8Array.fromBase64) return Uint8Array.fromBase64(text).buffer;
  const letters = atob(text), bytes = new Uint8Array(letters.length);
  for (let i = 0; i < letters.length; i++) bytes[i] = letters.charCodeAt(i);
  return bytes.buffer;
}
