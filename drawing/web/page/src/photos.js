// Photos of the floor before it is covered: taken or picked, kept on this device by their
// sums, as they came and as the small copies that drawings come from.
"use strict";

const largestPhoto = 16 * 2 ** 20; // bytes, as the command reads
const photoStore = {
  small: new Map(), // copies by sum: Uint8Array
  trouble: "",      // why the device keeps none
  async open() {
    if (this.db || this.trouble) return;
    try {
      this.db = await new Promise((resolve, reject) => {
        const r = indexedDB.open("oxturn", 1);
        r.onupgradeneeded = () => r.result.createObjectStore("photos");
        r.onsuccess = () => resolve(r.result);
        r.onerror = r.onblocked = () => reject(r.error || new Error("blocked"));
      });
    } catch {
      this.trouble = say("This browser keeps no photos (a private window, perhaps): they are gone when the page is closed. Save them before.");
    }
  },
  async ask(how, f) {
    await this.open();
    if (!this.db) throw new Error(this.trouble);
    return new Promise((resolve, reject) => {
      const t = this.db.transaction("photos", how), r = f(t.objectStore("photos"));
      t.oncomplete = () => resolve(r.result);
      t.onabort = t.onerror = () => reject(t.error || r.error || new Error("refused"));
    });
  },
  // put keeps a photo and says what came of it
  async put(sum, small, original) {
    this.small.set(sum, small);
    for (const held of [{ small, original }, { small }]) {
      try {
        await this.ask("readwrite", (s) => s.put(held, sum));
        return held.original || !original ? "" : say("The device is nearly full: it keeps a small copy of this photo, which all drawings come from, and not the picture as it came.");
      } catch { /* then without the picture as it came, or not at all */ }
    }
    return this.trouble || say("The device is full: this photo is gone when the page is closed. Save it before, or make room.");
  },
  async get(sum) { try { return await this.ask("readonly", (s) => s.get(sum)); } catch { return undefined; } },
  // keepOnly lets go of all photos but those of the job
  async keepOnly(sums) {
    try {
      const all = await this.ask("readonly", (s) => s.getAllKeys());
      await this.ask("readwrite", (s) => { all.filter((k) => !sums.has(k)).forEach((k) => s.delete(k)); return s.count(); });
    } catch { /* there is nothing to let go of */ }
  },
};

// bring puts the job's photos beside it for the engine, from where they are kept.
async function bring() {
  const files = {};
  for (const [name, p] of Object.entries(job.photos)) {
    const small = photoStore.small.get(p.sum) || (await photoStore.get(p.sum))?.small;
    if (!small) continue;
    photoStore.small.set(p.sum, small);
    files[name] = small;
  }
  await engine.ask("put", { files });
}

const blobOf = (bytes) => new Blob([bytes], { type: "image/jpeg" });

// ---- taking photos in

const baseOf = (name) => name.split(/[\\/]/).pop();
const soundName = (name) => baseOf(name).replace(/[\u0000-\u001f\u007f"*:<>?|]/g, "_").replace(/^\.+/, "").slice(-80) || "photo.jpg";

// nameFor is what a picture is called beside the job: phones call every one image.jpg.
function nameFor(name, sum) {
  const sound = soundName(name), dot = sound.lastIndexOf("."), stem = dot > 0 ? sound.slice(0, dot) : sound, ending = dot > 0 ? sound.slice(dot) : ".jpg";
  for (let n = 1; ; n++) {
    const out = n === 1 ? stem + ending : stem + "-" + n + ending;
    if (!job.files[out] && (!job.photos[out] || job.photos[out].sum === sum) && !photoNames().some((f) => f === out && !job.photos[f])) return out;
  }
}

// takePhotos reads pictures one after the other, in the worker: the page goes on.
async function takePhotos(list, tell, room, cable = "") {
  const told = [];
  let attached = false;
  for (const [i, file] of list.entries()) {
    tell(say("Reading %s, %s of %s", file.name, i + 1, list.length), i / list.length);
    const slip = (words) => told.push({ bad: true, words: file.name + ": " + words });
    if (file.size > largestPhoto) { slip(say("it has %s MB, and 16 are taken at most. Have the camera or a viewer save it smaller.", Math.ceil(file.size / 2 ** 20))); continue; }
    try {
      const bytes = new Uint8Array(await file.arrayBuffer());
      const p = await engine.ask("photo", { bytes }, [bytes.buffer]);
      if (Object.values(job.photos).some((q) => q.sum === p.sum)) { slip(say("this photo is here already.")); continue; }
      const words = await photoStore.put(p.sum, p.small, file);
      if (words) told.push({ bad: true, words: file.name + ": " + words });
      const lacking = photoNames().find((f) => !job.photos[f] && baseOf(f) === baseOf(file.name));
      const name = lacking || nameFor(file.name, p.sum);
      attached ||= !!lacking;
      job.photos = { ...job.photos, [name]: { sum: p.sum, wide: p.wide, high: p.high, taken: p.taken || "", placed: p.placed } };
      if (!lacking) job.drafts = [...job.drafts, { file: name, room, cable, date: p.taken || today(), keep: false, points: [] }];
      await engine.ask("put", { files: { [name]: p.small } });
    } catch (e) {
      slip(e.message + (/[.!]$/.test(e.message) ? "" : "."));
    }
  }
  tell("", 1);
  job.keep();
  if (attached) changed();
  return told;
}

// ---- the photos that there are

let listed = { rooms: [], photos: [] }; // as the engine reads them in the job's text

// letGo forgets pictures that neither the job nor a draft names any more.
async function letGo() {
  listed = { rooms: [], photos: [] };
  if (Object.keys(job.photos).length) {
    if (await readPhotos()) return; // the text cannot be read: who knows what it names
    const named = photoNames();
    job.photos = Object.fromEntries(Object.entries(job.photos).filter(([name]) => named.includes(name)));
    job.keep();
  }
  await photoStore.keepOnly(new Set(Object.values(job.photos).map((p) => p.sum)));
}

async function readPhotos() {
  try {
    listed = await engine.ask("photos", { name: job.name, text: job.text });
    for (const k of ["rooms", "photos"]) listed[k] ||= [];
    for (const p of listed.photos) for (const k of ["points", "runs", "words", "problems", "lines", "numbers"]) p[k] ||= [];
    for (const r of listed.rooms) for (const k of ["records", "cables", "walls", "stands", "spots"]) r[k] ||= [];
    for (const r of listed.rooms) for (const rec of r.records) rec.spots ||= [];
    return "";
  } catch (e) {
    return e.message;
  }
}

// recordOf is what is known of a cable as laid: of a room's only one, or by its name.
const recordOf = (room, cable) => room?.records.find((r) => !cable || !r.cable || r.cable === cable);
// cablePick asks which of a room's cables is meant, where there are several.
const cablePick = (room, chosen, more) => element("select", { "aria-label": say("Cable"), ...more }, ...(room?.cables || []).map((c) => element("option", { selected: c === chosen }, c)));
const photoNames = () => [...new Set([...listed.photos.map((p) => p.file), ...job.drafts.map((d) => d.file)])].filter(Boolean);
const draftOf = (file) => job.drafts.find((d) => d.file === file);
const inJob = (file) => listed.photos.find((p) => p.file === file);
const fewestPoints = 4;

function stateOf(file) {
  const p = inJob(file), n = (p || draftOf(file)).points.length;
  if (!job.photos[file]) return say("named by the job, but not on this device");
  if (!p) return say("%s of at least %s points; not in the job yet", n, fewestPoints);
  if (p.problems.some((d) => d.severity === "error")) return say("its points do not go together");
  return p.worst >= 0 ? say("%s points, %s off at most", n, p.points[p.worst].off) : say("%s points", n);
}

function laidCard() {
  const card = element("div", { id: "laid" });
  laidAgain(card);
  return card;
}

async function laidAgain(card = $("laid")) {
  if (!card || !job.name) { card?.replaceChildren(element("p", {}, say("There is no job yet."))); return; }
  const trouble = await readPhotos();
  if (view.photo) { await pointing.again(); return; }
  if (!card.isConnected && card !== $("laid")) await null;
  const room = element("select", { id: "photo-room", "aria-label": say("Room in the photos") }, ...listed.rooms.map((r) => element("option", {}, r.name)));
  const roomNow = () => listed.rooms.find((r) => r.name === room.value) || listed.rooms[0];
  const cables = element("span", {}), offer = () => cables.replaceChildren(...(roomNow()?.cables.length > 1 ? [field(say("cable"), cablePick(roomNow(), "", { id: "photo-cable" }))] : []));
  room.onchange = offer;
  offer();
  const out = element("div", { id: "photo-told", role: "status", "aria-live": "polite" });
  const tell = (words, share) => out.replaceChildren(...(words ? [element("p", {}, words), element("progress", { max: 1, value: share, "aria-label": words })] : []));
  const take = (more) => {
    const pick = element("input", { type: "file", accept: "image/*", hidden: true, ...more });
    pick.onchange = async () => {
      const told = await takePhotos([...pick.files], tell, room.value || listed.rooms[0]?.name || "", $("photo-cable")?.value || "");
      await laidAgain();
      $("photo-told")?.replaceChildren(...told.map((t) => element("p", { class: t.bad ? "slip" : "" }, t.words)));
    };
    return pick;
  };
  const camera = take({ id: "photo-take", capture: "environment" }), choose = take({ id: "photo-pick", multiple: true });
  const had = [...card.querySelectorAll("#photo-told > p")];
  card.replaceChildren(...(trouble ? [element("p", { class: "slip" }, say("The job's text has a slip that photos cannot be read past: %s", trouble))] : []),
    element("p", {}, say("Photograph the cable before it is covered: lens at its plain setting, all corners of the floor in view, from as high as you can reach. Photos stay on this device.")),
    element("div", { class: "row" }, listed.rooms.length > 1 ? field(say("room"), room) : "", cables),
    element("div", { class: "big" }, button(say("Take a photo"), () => camera.click(), { class: "main" }), button(say("Choose photos"), () => choose.click())), camera, choose, out,
    photoStore.trouble ? element("p", { class: "slip" }, photoStore.trouble) : "",
    element("div", { class: "photos" }, ...photoNames().map(photoRow)),
    ...(Object.keys(job.photos).length ? [element("div", { class: "row" }, button(say("Save the job with its photos"), () => handAll()), button(say("Save the pictures as they came"), handOriginals))] : []));
  out.replaceChildren(...had);
  if (pointing.back) document.querySelector("[data-photo=" + CSS.escape(pointing.back) + "]")?.focus({ preventScroll: true });
  pointing.back = "";
}

function photoRow(file) {
  const meta = job.photos[file], words = stateOf(file);
  const thumb = element("img", { alt: "", width: 84, height: 63 });
  if (meta && photoStore.small.has(meta.sum)) showBlob(thumb, blobOf(photoStore.small.get(meta.sum)));
  const bad = !meta || inJob(file)?.problems.some((d) => d.severity === "error");
  return button(element("span", {}, thumb, element("span", {}, file, element("small", { class: bad ? "slip" : "" }, words))), () => meta ? pointing.open(file) : $("photo-pick").click(), { class: "photo", "data-photo": file });
}

function showBlob(image, blob) {
  const url = URL.createObjectURL(blob);
  image.onload = image.onerror = () => URL.revokeObjectURL(url);
  image.src = url;
}

// ---- giving photos away

// copies are the job's photos for others: without where they were taken, unless the job keeps that.
async function copies() {
  const out = [];
  for (const [name, p] of Object.entries(job.photos)) {
    const small = photoStore.small.get(p.sum);
    if (!small) continue;
    const keep = !!(inJob(name) || draftOf(name))?.keep;
    out.push(new File([await engine.ask("copy", { bytes: small, keep })], baseOf(name), { type: "image/jpeg" }));
  }
  return out;
}

async function handAll() {
  const texts = Object.entries(job.files).map(([name, text]) => new File([text], baseOf(name), { type: "application/toml" }));
  await hand(...texts, ...await copies());
}

async function handOriginals() {
  const out = [];
  for (const [name, p] of Object.entries(job.photos)) {
    const held = await photoStore.get(p.sum);
    if (held?.original) out.push(new File([held.original], baseOf(name), { type: held.original.type || "image/jpeg" }));
  }
  if (!out.length) { status(say("the pictures as they came are not on this device"), true); return; }
  const placed = Object.values(job.photos).filter((p) => p.placed).length;
  if (placed && !confirm(say("These are the files as the camera wrote them, and %s of them say where on earth they were taken. Go on?", placed))) return;
  await hand(...out);
}
