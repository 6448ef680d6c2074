// The page: what to do, what is shown, and the drawing kept up with the job.
"use strict";

const modes = { Room: roomPanel, Text: textPanel, Site: sitePanel, Files: filesPanel };
const modeNames = { Room: message("Room"), Text: message("Text"), Site: message("Site"), Files: message("Files") };
let mode = "Files";

function showModes() {
  $("modes").replaceChildren(...Object.keys(modes).map((m) => button(say(modeNames[m]), () => enter(m),
    { role: "tab", id: "mode-" + m, "aria-selected": String(m === mode), "aria-controls": "panel", tabindex: m === mode ? "0" : "-1" })));
}

function enter(m) {
  view.hand?.close();
  mode = m;
  showModes();
  $("panel").setAttribute("aria-label", say(modeNames[m]));
  $("panel").scrollTop = 0;
  modes[m]($("panel"));
  laying.mark();
}

// roomAgain makes the forms anew where the job has changed under them.
const roomAgain = () => roomPanel($("panel"));

// ---- keeping up: at most one drawing is under way, and the last change is drawn

let drawing = false, again = false, timer = 0, waiters = [];

function changed() {
  if (speak(kept.get("language"), job.text)) spoken();
  $("name").textContent = job.name || "oxturn";
  $("undo").disabled = !job.past.length;
  $("redo").disabled = !job.future.length;
  if (!job.saved) status(say("this device keeps nothing more: save the job file now (Files)"), true);
  if (view.hand === placing) placing.again(); else if (mode === "Room") roomAgain();
  if (mode === "Text" && $("text") && $("text").value !== job.text) $("text").value = job.text;
  if (mode === "Site" && asked === "laid") laidAgain();
  drawSoon();
}

// drawSoon draws once the forms have followed: while it draws, the engine answers them less soon.
function drawSoon() {
  clearTimeout(timer);
  timer = 0;
  if (view.photo || !job.name) return; // drawn once the photo is put away
  if (job.saved) status(say("drawing"), false, true);
  if (!view.svg && !sheets.state.sheets.length && !view.hand) $("hint").textContent = say("The cable is being laid out and the sheets drawn. The first time takes longest.");
  if (drawing) engine.ask("drop", {}); // it is not wanted any more, and the forms want the engine
  timer = setTimeout(() => { timer = 0; draw(); }, 100);
}

const settled = () => new Promise((resolve) => { waiters.push(resolve); });

async function draw() {
  if (!job.name) return;
  if (drawing) { again = true; engine.ask("drop", {}); return; } // what is being drawn is not wanted any more
  drawing = true;
  do {
    again = false;
    if (job.saved) status(say("drawing"), false, true);
    try {
      const state = await engine.ask("open", { name: job.name, files: job.files, language: tongue, shown: view.shown }, [], (part) => early(part));
      if (state) await take(state);
    } catch (e) { status(e.message, true); }
  } while (again);
  drawing = false;
  if (!timer) for (const w of waiters.splice(0)) w();
}

// early shows what is looked at, while the rest is drawn.
function early(part) {
  if (again) return;
  if (view.hand === placing) placing.again(); else if (part.sheet) sheets.early(part.sheet); else glimpse().catch(() => { /* the text has a slip by now, which is told */ });
  if (job.saved && sheets.state.sheets.length) status(say("drawing the other sheets"), false, true);
}

async function take(state) {
  for (const k of ["sheets", "tables", "problems", "summary"]) state[k] ||= [];
  const errors = state.problems.filter((p) => p.severity === "error").length;
  const good = state.sheets.length > 0;
  state.cables = (state.cables || []).map((c) => ({ ...c, runs: c.runs || [] }));
  sheets.state = good ? state : { ...sheets.state, problems: state.problems };
  $("view").classList.toggle("old", !good);
  $("hint").textContent = good || sheets.state.sheets.length ? "" : say("No drawing yet: the job has errors.");
  if (!sheets.state.sheets.length && !view.hand) $("paper").replaceChildren();
  showWrong(good ? [] : state.problems.filter((p) => p.severity === "error"));
  if (good && view.hand === placing) await placing.again(); else if (good) await sheets.show(view.shown); else if (view.hand === placing) placing.panel();
  if (mode === "Text") problems();
  if (!job.saved) return;
  const warnings = state.problems.length - errors;
  const first = state.problems.find((p) => p.severity === "error"), up = warnings === 1 ? say("up to date, 1 warning") : warnings ? say("up to date, %s warnings", warnings) : say("up to date");
  status(errors ? (errors === 1 ? say("1 error: %s", first.told || first.message) : say("%s errors: %s", errors, first.told || first.message)) : up, errors > 0);
  document.body.dataset.drawn = String(Number(document.body.dataset.drawn || 0) + 1);
}

// showWrong says over the drawing what keeps it from being drawn, and leads to the line that says so.
function showWrong(errors) {
  $("wrong").hidden = !errors.length;
  if (!errors.length) return;
  const line = lineOf(errors[0]);
  $("stale").hidden = !sheets.state.sheets.length;
  $("slip").textContent = sentences(errors[0]);
  $("to-slip").hidden = !line && errors.length < 2;
  $("to-slip").textContent = errors.length > 1 ? say("all %s errors", errors.length) : say("line %s", line);
  $("to-slip").onclick = () => { if (line) toLine(line); else enter("Text"); };
}

const lineOf = (p) => Number((/:(\d+):\d+$/.exec(p.place) || [])[1] || 0);

// ---- the text

function textPanel(panel) {
  const text = element("job-text", { id: "text", label: say("Job file") });
  text.phrases = editorPhrases();
  text.value = job.text;
  text.oninput = () => { clearTimeout(text.later); text.later = setTimeout(() => job.change(text.value), 400); };
  text.onkeydown = (e) => { if (e.key === "Escape" && !e.defaultPrevented) $("mode-Text").focus(); };
  const told = view.told?.name === job.name ? [element("details", { open: true }, element("summary", {}, say("Of the file")), element("pre", { class: "say" }, view.told.text))] : [];
  panel.replaceChildren(...told, element("div", { id: "problems" }), text);
  problems();
}

function problems() {
  $("problems").replaceChildren(...sheets.state.problems.map(problemOf));
  $("text").told(sheets.state.problems.map((p) => ({ ...p, message: p.told || p.message, hint: p.hint && say("hint: %s", p.toldHint || p.hint) })));
}

// editorPhrases are what the editor's search and its list of problems say.
const editorPhrases = () => ({
  find: say("Find"), with: say("Replace with"), next: say("next one"), previous: say("one before"), all: say("all"), matchCase: say("match case"),
  regexp: say("pattern"), byWord: say("whole words"), replace: say("replace"), replaceAll: say("replace all"), close: say("close"),
  goToLine: say("Go to line"), go: say("go"), problems: say("Errors and warnings"), none: say("no errors, no warnings"), found: say("found"),
  onLine: say("on line"), replacedOne: say("replaced on line %s", "$"), replaced: say("%s replaced", "$"),
});

function problemOf(p) {
  const line = lineOf(p);
  const head = element("div", {}, line ? button(say("line %s", line), () => toLine(line)) : "", " ", element("b", {}, (p.severity === "error" ? say("error") : say("warning")) + (p.id ? " " + p.id : "")), " " + (p.told || p.message));
  const box = element("div", { class: "problem " + p.severity }, head);
  box.append(...quoted(p));
  for (const n of p.notes || []) box.append(element("div", {}, say("note: %s", n)));
  if (p.hint) box.append(element("div", { class: "say" }, say("hint: %s", p.toldHint || p.hint)));
  return box;
}

function toLine(n) {
  if (mode !== "Text") enter("Text");
  $("text").toLine(n);
}

// ---- files

function filesPanel(panel) {
  const kind = element("select", { "aria-label": say("Room to start from") }, ...[["bath", message("bath")], ["kitchen", message("kitchen")], ["entry", message("entry")]].map(([k, words]) => element("option", { value: k }, say(words))));
  const units = element("select", { "aria-label": say("Units") }, element("option", { value: "mm" }, say("millimetres")), element("option", { value: "in" }, say("feet and inches")));
  const pick = element("input", { type: "file", id: "open", multiple: true, accept: ".toml,.json,.csv,.pdf,.jpg,.jpeg,.png", "aria-label": say("Job files to open") });
  pick.onchange = () => openFiles([...pick.files]);
  const from = element("input", { type: "file", id: "from", accept: ".csv,.txt,.tsv,.dxf,.json,.geojson", "aria-label": say("File with rooms") });
  const numbers = element("select", { id: "from-units", "aria-label": say("What bare numbers in it are in") }, element("option", { value: "" }, say("numbers as the file says")),
    ...["mm", "cm", "m", "in", "ft"].map((u) => element("option", {}, u)));
  const layer = element("input", { id: "from-layer", placeholder: say("layer (DXF)"), "aria-label": say("Layer of a drawing that has the rooms") });
  const told = element("pre", { id: "from-told", class: "slip", role: "alert", hidden: true });
  const draft = () => from.files.length && draftFrom(from.files[0], kind.value, units.value, numbers.value, layer.value.trim(), told);
  for (const e of [from, numbers, layer]) e.onchange = draft;
  const a = answering(() => ["draw", job.name, "-o", "OUT"]);
  const mine = job.name ? [element("h2", {}, job.name), element("div", { class: "row" }, button(say("Make all drawings"), a.go, { class: "main" }),
    ...(Object.keys(job.photos).length ? [button(say("Save the job with its photos"), () => handAll())] : []), button(say("Save the job file"), () => hand(new File([job.text], job.name, { type: "application/toml" })))), a.out] : [];
  panel.replaceChildren(...(job.name ? [] : [$("welcome").content.cloneNode(true)]), ...mine, element("h3", {}, say("Start a new job")),
    element("div", { class: "row" }, kind, units, button(say("Start"), () => startFrom(kind.value, units.value), { class: job.name ? "" : "main", id: "start" })),
    element("h3", {}, say("A room from a file")), element("p", {}, say("Walls in a table (CSV), a drawing (DXF), a phone's room scan (JSON) or GeoJSON. It comes as a draft: hold it against a tape.")),
    element("div", { class: "row" }, from, numbers, layer), told,
    element("h3", {}, say("Open a job file")), element("p", {}, say("With its catalogue, prices and photos, where it names some: choose all at once. Or a PDF that was drawn here: it carries them.")), pick,
    element("div", { class: "row" }, field(say("Language of this page"), tongueChoice())),
    element("p", {}, element("small", {}, say("The job is kept on this device only, in this browser. Save the file to have it elsewhere."))));
}

// tongueChoice asks for the language of the page; the first choice is to go by the job and the browser.
function tongueChoice() {
  const pick = element("select", { id: "tongue", "aria-label": say("Language of this page") }, element("option", { value: "" }, say("as the job, else the browser")),
    ...Object.entries(tongues).map(([tag, name]) => element("option", { value: tag, lang: tag, selected: kept.get("language") === tag }, name)));
  pick.onchange = () => { kept.set("language", pick.value); if (speak(pick.value, job.text)) { spoken(); enter(mode); $("tongue")?.focus(); } };
  return pick;
}

// spoken shows what stands there in the language that is spoken now; a new drawing brings the problems in it.
function spoken() {
  showModes();
  if (job.name) drawSoon(); else if (document.body.dataset.ready) status(say("ready"));
}

// putAway forgets what was drawn, looked at and laid of the job before.
function putAway() {
  view.hand?.close();
  view.shown = asked = "";
  view.svg = null;
  sheets.state = noSheets();
  for (const id of ["paper", "sheets"]) $(id).replaceChildren();
  $("wrong").hidden = true;
  view.looks = {};
  kept.set("laid", null);
}

async function startFrom(kind, units) {
  if (job.name && !confirm(say("The job %s is put away: its file is not saved by itself. Go on?", job.name))) return;
  const r = await engine.ask("run", { args: ["new", "--kind", kind, "--units", units, "/out/" + kind + ".toml"] });
  const made = r.made.find((f) => f.name === kind + ".toml");
  if (!made) { status(r.err, true); return; }
  putAway();
  await job.load(kind + ".toml", { [kind + ".toml"]: new TextDecoder().decode(made.bytes) });
  enter("Room");
  $("panel").focus();
}

// draftFrom makes a job of a file from elsewhere, as the command does, and shows its text:
// what was taken and left stands at its head. What is wrong is told where it was chosen.
async function draftFrom(file, kind, units, numbers, layer, told) {
  told.hidden = true;
  if (file.size > 16e6) { status(say("%s is too large", file.name), true); return; }
  if (job.name && !confirm(say("The job %s is put away: its file is not saved by itself. Go on?", job.name))) return;
  const name = file.name.replace(/\.[^.]*$/, "") + ".toml";
  const args = ["new", "--from", file.name, "--kind", kind, "--units", units, ...(numbers ? ["--file-units", numbers] : []), ...(layer ? ["--layer", layer] : []), "/out/" + name];
  status(say("reading %s, then finding the walls that decide the cable", file.name), false, true);
  const r = await engine.ask("run", { args, files: { [file.name]: await file.text() } });
  const made = r.made.find((f) => f.name === name);
  if (!made) {
    told.textContent = r.err;
    told.hidden = false;
    told.scrollIntoView({ block: "nearest" });
    status(r.err.split("\n")[0], true);
    return;
  }
  putAway();
  view.told = { name, text: r.err.split("\nnext:")[0].replaceAll("/out/", "") }; // what is next on a command line is no next here
  await job.load(name, { [name]: new TextDecoder().decode(made.bytes) });
  enter("Text");
}

const isPicture = (f) => /\.(jpe?g|png|hei[cf])$/i.test(f.name) || f.type.startsWith("image/");

// openFiles opens a job with what it names, or what a PDF carries of one.
async function openFiles(list) {
  const pdf = list.find((f) => /\.pdf$/i.test(f.name));
  const files = {}, pictures = list.filter(isPicture);
  for (const f of list) if (f.size < 16e6 && !isPicture(f) && f !== pdf) files[f.name] = await f.text();
  const name = Object.keys(files).find((n) => /^\s*\[\[\s*room\s*\]\]/m.test(files[n])) || Object.keys(files).find((n) => n.endsWith(".toml"));
  if (!name && !pdf) { status(say("none of these is a job file"), true); return; }
  if (job.name && !confirm(say(Object.keys(job.photos).length ? message("The job %s is put away with its photos: its file is not saved by itself. Go on?") : message("The job %s is put away: its file is not saved by itself. Go on?"), job.name))) return;
  if (!name) { await openPDF(pdf); return; }
  putAway();
  await job.load(name, files);
  if (pictures.length) await readPhotos();
  const told = await takePhotos(pictures, (words) => words && status(words, false, true), listed.rooms[0]?.name || "");
  enter("Room");
  if (!told.length) return;
  if (drawing) await settled();
  status(told.map((t) => t.words).join(" "), true);
}

// openPDF takes a job with all it names out of a PDF, each under the name that the job has for it.
async function openPDF(file) {
  status(say("reading %s", file.name), false, true);
  const r = await engine.ask("run", { args: ["open", file.name, "-o", "OUT", "--format", "json"], files: { [file.name]: new Uint8Array(await file.arrayBuffer()) } });
  if (r.code) { status(r.err.trim(), true); return; }
  const files = {}, photos = {}, held = (f) => r.made.find((m) => m.name === f.file).bytes;
  const all = JSON.parse(r.out).files, own = all.find((f) => f.role === "job");
  for (const f of all.filter((f) => f === own || f.named_by_the_job)) {
    const name = f.named_by_the_job || f.file;
    if (f.role !== "photo") { files[name] = new TextDecoder().decode(held(f)); continue; }
    const p = await engine.ask("photo", { bytes: held(f) });
    const words = await photoStore.put(p.sum, p.small);
    if (words) status(words, true);
    photos[name] = { sum: p.sum, wide: p.wide, high: p.high, taken: p.taken || "", placed: p.placed };
  }
  putAway();
  await job.load(own.file, files, photos);
  enter("Room");
}

const kindOf = (name) => ({ pdf: "application/pdf", svg: "image/svg+xml", csv: "text/csv", jpg: "image/jpeg", json: "application/json", html: "text/html", ics: "text/calendar" })[name.split(".").pop()] || "application/octet-stream";

function download(f) {
  return element("div", { class: "row" }, button(f.name, () => hand(new File([f.bytes], f.name, { type: kindOf(f.name) })), { class: f.name.endsWith(".pdf") ? "main" : "" }));
}

// hand gives files to the device: by its share sheet where it has one for files, else
// as downloads.
async function hand(...all) {
  if (matchMedia("(pointer: coarse)").matches && navigator.canShare?.({ files: all })) {
    try { await navigator.share({ files: all, title: all[0].name }); return; } catch (e) { if (e.name === "AbortError") return; }
  }
  for (const file of all) {
    const a = element("a", { href: URL.createObjectURL(file), download: file.name });
    a.click();
    setTimeout(() => URL.revokeObjectURL(a.href), 60000);
    if (all.length > 1) await new Promise((resolve) => setTimeout(resolve, 300)); // browsers drop downloads that come at once
  }
}

// filesDropped has files opened that are let fall on the page: a browser would leave the page for them.
function filesDropped() {
  addEventListener("dragover", (e) => e.preventDefault());
  addEventListener("drop", (e) => {
    if (!e.dataTransfer.files.length) return;
    e.preventDefault();
    if (document.body.dataset.ready) openFiles([...e.dataTransfer.files]);
  });
}

// ---- the device's way back: out of what is open, before it leaves the page

const wayBack = {
  kept: false,
  // keep has a step to go back, now that something was opened
  keep() {
    if (this.kept) return;
    this.kept = true;
    history.pushState(null, "");
  },
  // went closes what was opened last; where nothing is open, the page is left
  went() {
    this.kept = false;
    if (view.hand) view.hand.close(); else if (mode === "Site" && asked) { asked = ""; enter(mode); $("panel").focus(); } else { history.back(); return; }
    if (view.hand || mode === "Site" && asked) this.keep();
  },
};

// ---- begin

addEventListener("storage", (e) => {
  if (e.key !== "oxturn.job" || e.newValue === null || navigator.locks) return;
  status(say("another tab has changed the kept job; the last to change it stays"), true);
});

async function begin() {
  speak(kept.get("language"), "");
  showModes();
  startView();
  $("sheets").onchange = () => { const id = $("sheets").value; view.hand?.close(); sheets.show(id); };
  $("undo").onclick = () => job.undo();
  $("redo").onclick = () => job.redo();
  addEventListener("popstate", () => wayBack.went());
  filesDropped();
  addEventListener("keydown", (e) => {
    if (!(e.ctrlKey || e.metaKey) || e.altKey || /^(input|job-text)$/i.test(e.target.localName || "")) return;
    const to = e.key.toLowerCase() === "z" ? (e.shiftKey ? "redo" : "undo") : e.key.toLowerCase() === "y" ? "redo" : "";
    if (to) { e.preventDefault(); job[to](); }
  });
  $("modes").onkeydown = (e) => {
    const all = Object.keys(modes), to = { ArrowRight: 1, ArrowLeft: -1 }[e.key];
    if (to) { enter(all[(all.indexOf(mode) + to + all.length) % all.length]); $("mode-" + mode).focus(); }
  };
  enter("Files");
  $("start").disabled = true;
  status(say("loading the engine"), false, true);
  await engine.start(makeWorker(), enginePieces());
  keys = await engine.ask("keys", {});
  status(say("ready"));
  $("take").onclick = () => tab.take();
  await tab.begin();
  const last = kept.get("job");
  if (last && last.files && last.files[last.name]) { await job.load(last.name, last.files, last.photos || {}, last.drafts || []); enter("Room"); } else { changed(); enter("Files"); }
  document.body.dataset.ready = "yes";
  setTimeout(warm, 1500);
}

// warm has the engine draw what nobody looks at where nobody is in a hurry: the first drawing is the slowest.
function warm() { if (!job.name) engine.ask("warm", {}).catch((e) => console.warn(e.message)); }

begin().catch((e) => status(e.message, true));
