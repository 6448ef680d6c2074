// The worker runs the engine: the command itself, compiled for browsers. The page
// asks it by messages { id, call, ... } and gets { id, answer } or { id, error }.
"use strict";

const jobFolder = "/job", outFolder = "/out";
let files, ready;

// what a Go program in a browser asks of its surroundings
function lend() {
  files = memoryFiles((fd, bytes) => console.log(new TextDecoder().decode(bytes)), jobFolder);
  files.put(jobFolder + "/.keep", new Uint8Array(0));
  globalThis.fs = files.fs;
  globalThis.process = {
    getuid: () => 0, getgid: () => 0, geteuid: () => 0, getegid: () => 0, getgroups: () => [], pid: 1, ppid: 0,
    umask: () => 0o22, cwd: () => jobFolder, chdir() { throw new Error("there is one folder only"); },
  };
  globalThis.path = { resolve: (...parts) => parts.join("/") };
}

// the engine comes in pieces and is compiled as they come
let more;
const pieces = new ReadableStream({ start(c) { more = c; } });

function took(bytes) {
  ready ||= start(bytes[0] === 0x1f && bytes[1] === 0x8b); // a server may have unpacked it
  more.enqueue(bytes);
}

async function start(packed) {
  lend();
  const bytes = new Response(packed ? pieces.pipeThrough(new DecompressionStream("gzip")) : pieces,
    { headers: { "Content-Type": "application/wasm" } });
  const go = new Go();
  const up = new Promise((resolve) => { globalThis.oxturnReady = resolve; });
  const { instance } = await WebAssembly.instantiateStreaming(bytes, go.importObject);
  go.run(instance);
  await up;
}

// a drawing under way lets the page's other calls have their turn: they are messages too, and come first;
// who has asked something soon asks more, as a form does after its edit
const turns = new MessageChannel(), resting = [], soon = 30;
let asked = -Infinity;
turns.port1.onmessage = () => {
  const back = resting.shift();
  if (performance.now() - asked < soon) setTimeout(back, soon); else back();
};
globalThis.oxturnBreathe = (back) => { resting.push(back); turns.port2.postMessage(0); };

function call(name, request, part) {
  return new Promise((resolve, reject) => {
    globalThis.oxturnCall(name, JSON.stringify(request), (error, answer) => error ? reject(new Error(error)) : resolve(answer), part || (() => {}));
  });
}

const place = (name) => jobFolder + "/" + name;
const bytesOf = (content) => typeof content === "string" ? new TextEncoder().encode(content) : content;
const lay = (held) => { for (const [name, content] of Object.entries(held || {})) files.put(place(name), bytesOf(content)); };

// pictures are handed in and out as files of a folder of their own
const pictures = "/picture", given = pictures + "/given", copied = pictures + "/copied";

const calls = {
  // open plans a job and tells about it: { name, files: { name: text }, shown }, the sheet shown in parts of
  // the answer that come before; null where the drawing was dropped
  async open(m) {
    lay(m.files);
    return JSON.parse(await call("open", { name: place(m.name), language: m.language, id: m.shown }, (part) => postMessage({ id: m.id, part: JSON.parse(part) })));
  },
  drop: () => call("drop", {}),
  // warm has the engine draw something while nobody waits, so that the first drawing takes less long
  warm: () => call("warm", {}),
  sheet: (m) => call("sheet", { id: m.sheet }),
  tables: async (m) => JSON.parse(await call("tables", { text: m.text })),
  edit: (m) => call("edit", { text: m.text, changes: m.changes }),
  // arrange tells what can be moved in each room; move and stand give the text back with a thing elsewhere, or a new one
  arrange: async (m) => JSON.parse(await call("arrange", { name: place(m.name), text: m.text })),
  move: (m) => call("move", { name: place(m.name), text: m.text, move: m.move }),
  stand: async (m) => JSON.parse(await call("stand", { name: place(m.name), text: m.text, new: m.new })),
  keys: async () => JSON.parse(await call("keys", {})),
  tape: async (m) => JSON.parse(await call("tape", { walls: m.walls, units: m.units })),
  // fresh forgets the files of the job before
  async fresh() {
    files.clear(jobFolder);
    files.put(jobFolder + "/.keep", new Uint8Array(0));
    return call("fresh", {});
  },
  put(m) { lay(m.files); },
  // photo reads a picture and makes the small copy that drawings come from
  async photo(m) {
    files.put(given, m.bytes);
    const told = JSON.parse(await call("photo", { name: given, to: copied }));
    const small = files.get(copied);
    files.clear(pictures);
    return { ...told, small };
  },
  // copy makes a copy of a photo for others
  async copy(m) {
    files.put(given, m.bytes);
    await call("copy", { name: given, to: copied, keep: m.keep });
    const bytes = files.get(copied);
    files.clear(pictures);
    return bytes;
  },
  photos: async (m) => JSON.parse(await call("photos", { name: place(m.name), text: m.text })),
  place: async (m) => JSON.parse(await call("place", { name: place(m.name), text: m.text, room: m.room, walls: m.walls, distances: m.distances })),
  literal: (m) => call("literal", { text: m.text }),
  // run carries out a command line, with the job's files where they were last opened,
  // and gives back what it wrote: { code, out, err, made: [{ name, bytes }] }
  async run(m) {
    lay(m.files);
    files.put(outFolder + "/.keep", new Uint8Array(0));
    files.clear(outFolder);
    const args = m.args.map((a) => a === "OUT" ? outFolder : a);
    const ran = JSON.parse(await call("run", { args, in: m.in || "" }));
    ran.made = files.list(outFolder).map((name) => ({ name, bytes: files.get(outFolder + "/" + name) }));
    return ran;
  },
};

onmessage = async ({ data: m }) => {
  if (m.bytes && !m.call) { took(m.bytes); return; }
  asked = performance.now();
  try {
    if (m.call === "start") more.close(); // all pieces are there
    await ready;
    const answer = m.call === "start" ? true : await calls[m.call](m);
    postMessage({ id: m.id, answer });
  } catch (e) {
    postMessage({ id: m.id, error: e.message });
  }
};
