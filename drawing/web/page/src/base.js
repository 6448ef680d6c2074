// What all parts of the page use: the engine and the job's files.
"use strict";

function field(words, control) { return element("label", {}, words, control); }

// ---- the engine: the command in a worker, asked by messages

const engine = {
  waiting: new Map(), next: 1,
  async start(worker, pieces) {
    this.worker = worker;
    worker.onmessage = ({ data: m }) => {
      const w = this.waiting.get(m.id);
      if (m.part) { w.part?.(m.part); return; }
      this.waiting.delete(m.id);
      if (m.error === undefined) w.resolve(m.answer); else w.reject(new Error(m.error));
    };
    worker.onerror = (e) => status(say("the engine could not be started: %s", e.message || "?"), true);
    for await (const bytes of pieces) worker.postMessage({ bytes }, [bytes.buffer]);
    return this.ask("start", {});
  },
  // ask gives what the engine answers; what it has of the answer before goes to part
  ask(call, request, handOver, part) {
    return new Promise((resolve, reject) => {
      const id = this.next++;
      this.waiting.set(id, { resolve, reject, part });
      this.worker.postMessage({ id, call, ...request }, handOver || []);
    });
  },
};

function status(words, bad, busy) {
  $("status").textContent = words;
  $("status").className = bad ? "bad" : busy ? "busy" : "";
}

// ---- the job: its files, what was before, and where it is kept on this device

const kept = {
  get(name) { try { return JSON.parse(localStorage.getItem("oxturn." + name)); } catch { return null; } },
  // set reports whether the device took it: a private window or a full device may not
  set(name, value) {
    try { localStorage.setItem("oxturn." + name, JSON.stringify(value)); return true; } catch { return false; }
  },
};

// Only one tab keeps the job, that which holds this lock; where a browser has none, the last to
// change it does.
const tab = {
  keeps: true, lock: "oxturn.job",
  // begin finds out whether this is the one
  begin() {
    if (!navigator.locks) return null;
    return new Promise((known) => {
      navigator.locks.request(this.lock, { ifAvailable: true }, (lock) => { this.is(!!lock); known(); return lock && this.hold(); })
        .then(() => this.keeps || this.wait(), () => { this.lost(); known(); });
    });
  },
  hold: () => new Promise(() => { /* until the tab is closed */ }),
  // wait has this tab keep the job once the other is closed
  wait() { navigator.locks.request(this.lock, () => { this.took(); return this.hold(); }).catch(() => this.lost()); },
  // take has this tab keep it at once
  take() { navigator.locks.request(this.lock, { steal: true }, () => { this.took(); return this.hold(); }).catch(() => this.lost()); },
  lost() { if (this.keeps) { this.is(false); this.wait(); } },
  is(keeps) { this.keeps = keeps; $("second").hidden = keeps; },
  // took goes on with what the other tab has kept; what was changed here comes on top of it, so
  // that undo has both
  async took() {
    if (this.keeps) return;
    this.is(true);
    const other = kept.get("job"), mine = job.past.length ? job.text : "";
    if (!other?.files?.[other.name]) { job.keep(); return; }
    const same = other.name === job.name;
    await job.load(other.name, other.files, { ...other.photos, ...(mine && same ? job.photos : {}) }, other.drafts || []);
    if (mine && same) job.change(mine);
    enter(mode);
  },
};

const job = {
  name: "", files: {}, // the job file's name, and all files by name
  photos: {},          // by file name: their sums, sizes and days; the pictures are in photoStore
  drafts: [],          // photos that the job file does not name yet: their points do not settle them
  past: [], future: [], saved: true,
  get text() { return this.files[this.name] || ""; },

  // change puts a new text in the job file's place; what was is kept for undo
  change(text) {
    if (text === this.text) return;
    this.past.push(this.text);
    if (this.past.length > 200) this.past.shift();
    this.future = [];
    this.take(text);
  },
  take(text) {
    this.files = { ...this.files, [this.name]: text };
    this.keep();
    changed();
  },
  step(from, to) {
    if (!from.length) return;
    to.push(this.text);
    this.take(from.pop());
  },
  undo() { this.step(this.past, this.future); },
  redo() { this.step(this.future, this.past); },

  // load begins with other files; name is the job file among them
  async load(name, files, photos = {}, drafts = []) {
    Object.assign(this, { name, files, photos, drafts, past: [], future: [] });
    this.keep();
    await engine.ask("fresh", {});
    await bring();
    if (tab.keeps) await letGo();
    changed();
  },
  keep() { if (tab.keeps) this.saved = kept.set("job", { name: this.name, files: this.files, photos: this.photos, drafts: this.drafts }); },
};

// edit makes changes to the job file as text, so that its comments and order stay. Each begins with what the one
// before it made: none undoes another, however soon they follow.
function edit(...changes) {
  edits = edits.then(async () => {
    try {
      job.change(await engine.ask("edit", { text: job.text, changes }));
      return "";
    } catch (e) {
      return e.message;
    }
  });
  return edits;
}

let edits = Promise.resolve(); // the last one asked for

const literal = (typed) => engine.ask("literal", { text: typed });

// run carries out a command line on the job; OUT stands for where files go.
const run = (...args) => engine.ask("run", { args: [...args, "--language", tongue], files: job.files });
