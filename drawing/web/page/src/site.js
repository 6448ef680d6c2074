// On site: the questions that come up beside the floor, one at a time, each answered by
// the command's own verb.
"use strict";

let asked = ""; // which question is open

const questions = {
  choose: [message("Which cable?"), message("what fits this room, and how warm it gets"), chooseCard],
  lay: [message("Lay the cable"), message("run by run, with the length used"), layCard],
  mark: [message("I am at a mark"), message("the mark came early or late: what now?"), markCard],
  slip: [message("A run came out longer"), message("or shorter than the list: plan the rest"), slipCard],
  readings: [message("Readings"), message("ohms and insulation, stage by stage"), readingsCard],
  laid: [message("As laid"), message("photos before it is covered, with known points"), laidCard],
  probe: [message("What lies here?"), message("before anything is drilled"), probeCard],
  fault: [message("The cable is faulty"), message("where to open the floor"), faultCard],
  check: [message("All the figures"), message("what was worked out, in words"), checkCard],
};

function sitePanel(panel) {
  laying.mark();
  if (!asked) {
    panel.replaceChildren(element("div", { class: "big" }, ...Object.entries(questions).map(([id, [words, more]]) =>
      button(element("span", {}, say(words), element("small", {}, say(more))), () => { asked = id; wayBack.keep(); sitePanel(panel); panel.focus(); }, { "data-ask": id }))));
    return;
  }
  const [words, , card] = questions[asked];
  panel.replaceChildren(element("div", { class: "row" }, button(say("\u2190 Back"), () => { if (view.photo) { pointing.close(); return; } asked = ""; sitePanel(panel); panel.focus(); })), element("h2", {}, say(words)), card());
}

const input = (label, more) => element("input", { "aria-label": label, autocomplete: "off", autocapitalize: "off", ...more });

// answering shows what a command line says, and hands on the files it made.
function answering(make) {
  const out = element("div", { "aria-live": "polite" });
  const go = async () => {
    out.replaceChildren(element("p", {}, say("working \u2026"))); // an old answer never stands under a new question
    try {
      const args = make();
      if (!args) { out.replaceChildren(element("p", { class: "slip" }, say("Fill in the figures first."))); return; }
      const r = await run(...args);
      out.replaceChildren(...inBlocks((r.out + r.err).trim() || say("done")).map((b) => element("pre", { class: (r.code ? "slip" : "") + (isTabled(b) ? " tabled" : ""), ...(isTabled(b) ? { tabindex: "0" } : {}) }, b)), ...r.made.map(download));
      const drawings = r.made.filter((f) => f.name.endsWith(".svg"));
      if (drawings.length === 1) sheets.made(drawings[0]);
    } catch (e) {
      out.replaceChildren(element("p", { class: "slip" }, e.message));
    }
  };
  return { out, go };
}

// inBlocks parts what is said from the tables in it, which are scrolled aside and not wrapped.
const inBlocks = (text) => text.split(/\n\n/).reduce((all, b) => {
  if (all.length && !isTabled(all.at(-1)) && !isTabled(b)) all[all.length - 1] += "\n\n" + b; else all.push(b);
  return all;
}, []);
const isTabled = (block) => /^\s*\S+(?: \S+)*(?: {2,}\S+(?: \S+)*){3,}\n/.test(block);

function chooseCard() {
  const a = answering(() => ["choose", job.name]);
  return element("div", {}, element("p", {}, say("Compares the cables of the job for each room.")), button(say("Compare"), a.go, { class: "main" }), a.out);
}

function checkCard() {
  const a = answering(() => ["check", job.name]);
  queueMicrotask(a.go);
  return element("div", {}, a.out);
}

// ---- laying

function layCard() {
  const table = sheets.state.tables.find((t) => t.id === "table:runs");
  if (!table || !table.rows.length) return element("p", {}, say("There is no drawing yet."));
  const runs = table.rows.map((r) => [r[0], r[1], r[2], r[4], r[6]].join("\t")), had = kept.get("laid") || []; // as they were when they were laid
  const other = runs.findIndex((r, i) => r !== had[i]), same = other < 0 ? runs.length : other;
  const told = element("p", { class: "slip", hidden: had.length <= same }, say("Runs laid by an earlier plan: %s; of them the same in this one: %s.", had.length, same));
  const now = element("div", { "aria-live": "polite" }), list = element("tbody");
  const back = button(say("One back"), () => to(n - 1)), on = button(say("Laid"), () => to(n + 1), { class: "main" }); // these stay, and the focus with them
  let n = same;
  const to = (m) => { n = Math.max(0, Math.min(m, runs.length)); told.hidden = true; kept.set("laid", runs.slice(0, n)); show(); };
  const show = () => {
    const row = table.rows[n];
    laying.show(row);
    now.replaceChildren(...(row ? runWords(row) : [element("b", {}, say("All laid")), say("Read the cable before it is covered.")]));
    list.replaceChildren(...table.rows.map((r, i) => element("tr", { class: i === n ? "now" : i < n ? "done" : "" }, ...[r[1], r[2], r[3], r[4], r[6]].map((c) => element("td", {}, c)))));
    if (!row && document.activeElement === on) back.focus();
    if (!n && document.activeElement === back) on.focus();
    back.disabled = !n;
    on.disabled = !row;
  };
  show();
  return element("div", {}, told, element("div", { class: "run" }, back, now, on), element("table", {}, list));
}

// onStrips is what runs are measured in where strips hold the cable: there are no pegs to count.
function onStrips() {
  const unit = sheets.state.tables.find((t) => t.id === "table:runs")?.columns[4];
  return unit === "cm" || unit === "in" ? unit : "";
}

// runWords say how a run lies.
const runWords = (row) => [say("run") + " ", element("b", {}, row[2]), row[3] + ", " + (onStrips() ? row[4] + " " + onStrips() : say("%s pegs", row[4])), element("br"),
  row[5] === "-" ? say("the next one does not lie beside it") : onStrips() ? say("then %s clips to the next", row[5]) : say("then %s pegs to the next", row[5]), element("br"), say("cable used at its end: %s", row[6]), element("br"), halfway(row)];

// The run that is to be laid now stands out on the drawing.
const laying = {
  run: null, // { cable, from, to }, mm along it
  async show(row) {
    const cable = row && sheets.state.cables.find((c) => c.id === row[1]), i = cable ? cable.runs.findIndex((r) => isNamed(row, r)) : -1;
    this.run = i < 0 ? null : { cable: cable.id, from: i ? cable.runs[i - 1].end : 0, to: cable.runs[i].end };
    const there = () => !this.run || view.cables?.some((c) => c.cable.id === this.run.cable);
    if (!view.hand && (!there() || !isLaidBy(view.shown))) {
      for (const s of sheets.state.sheets.filter((s) => isLaidBy(s.id))) {
        await sheets.show(s.id);
        if (there()) break;
      }
    }
    this.mark();
  },
  mark() {
    view.svg?.querySelector(".laying")?.remove();
    const on = mode === "Site" && asked === "lay" && !view.hand && this.run && view.cables?.find((c) => c.cable.id === this.run.cable);
    if (!on) return;
    const { from, to } = this.run, points = piece(on.way, from / view.ratio, to / view.ratio);
    if (points.length < 2) return;
    const [x, y] = points[0];
    view.svg.append(drawnAs("g", { class: "laying" }, drawnAs("path", { d: "M" + points.map((p) => p.join(" ")).join("L") }), drawnAs("path", { d: `M${x} ${y}h0`, class: "begins" })));
  },
};

// isLaidBy tells the sheets that a cable is laid by, on large paper and on small.
const isLaidBy = (id) => /^(cable-plan|field-sheet)/.test(id);

// piece is what of a way lies between two places along it.
function piece(way, from, to) {
  const out = [];
  for (let i = 1; i < way.length; i++) {
    const a = way[i - 1], b = way[i], long = b.along - a.along;
    if (b.leap || long <= 0 || b.along <= from || a.along >= to) continue;
    const at = (s) => { const t = within(0, (s - a.along) / long, 1); return [a.x + t * (b.x - a.x), a.y + t * (b.y - a.y)]; };
    if (!out.length) out.push(at(from));
    out.push(at(to));
  }
  return out;
}

const isNamed = (row, run) => String(row[2]).split(".").pop() === String(run.number);

// halfway says where the mark printed half-way along the cable comes.
function halfway(row) {
  const c = sheets.state.cables.find((c) => c.id === row[1]);
  const runs = c ? c.runs : [], i = runs.findIndex((r) => r.end >= c.length / 2);
  return i >= 0 && isNamed(row, runs[i]) ? say("The half-way mark comes in this run: is it where the drawing has it?") : "";
}

// ---- marks and slips

function refitCard(words, labels, args) {
  const cable = input(say("cable"), { placeholder: say("where there are several, such as H1") });
  const a0 = input(labels[0], { inputmode: "numeric" }), a1 = input(labels[1], { inputmode: "decimal" });
  const plan = input(say("plan code on the drawing at hand"), { placeholder: say("such as 7KF-4RP") });
  const a = answering(() => a0.value && a1.value ? ["refit", job.name, ...args(a0.value.trim(), a1.value.trim()),
    ...(cable.value ? ["--cable", cable.value.trim()] : []), ...(plan.value ? ["--plan", plan.value.trim()] : []), "-o", "OUT"] : null);
  return element("div", {}, element("p", {}, words), element("div", { class: "row" }, field(labels[0], a0), field(labels[1], a1)),
    element("div", { class: "row" }, field(say("plan code on your drawing"), plan), field(say("cable"), cable)), button(say("Plan the rest"), a.go, { class: "main" }), a.out);
}

function markCard() {
  return refitCard(say("Where did the half-way mark come? Nothing laid is moved."), [say("in run"), onStrips() ? say("after, %s", onStrips()) : say("after pegs")], (r, p) => ["--mark", r + "," + p]);
}

function slipCard() {
  return refitCard(onStrips() ? say("Which laid run is longer or shorter than the list has it? All runs up to it are taken as laid.") :
    say("Which laid run has other pegs than the list? All runs up to it are taken as laid."), [say("run"), onStrips() ? say("its length, %s", onStrips()) : say("pegs it has")], (r, p) => ["--runs", r.split(".").pop(), "--run", r + "=" + p]);
}

// ---- readings

function readingsCard() {
  const path = "as_laid.reading", stages = keys.find((k) => k.Path === path + ".stage")?.Values || [];
  const stage = element("select", { "aria-label": say("stage") }, ...stages.map((s) => element("option", {}, s)));
  const ohms = input(say("ohms, core to core"), { inputmode: "decimal" }), insulation = input(say("insulation, MOhm"), { inputmode: "decimal", placeholder: ">2000" });
  const volts = input(say("test voltage"), { inputmode: "decimal" }), sensor = input(say("sensor, ohms"), { inputmode: "decimal" });
  const by = input(say("read by")), which = element("select", { "aria-label": say("cable that was read"), id: "read-of" }), whose = element("div", { class: "row", hidden: true }, field(say("cable"), which));
  const cablesThere = () => listed.rooms.flatMap((room) => (room.cables.length ? room.cables : [""]).map((cable) => ({ room, cable })));
  readPhotos().then(() => {
    const all = cablesThere();
    which.replaceChildren(...all.map(({ room, cable }, i) => element("option", { value: i }, room.name + (cable ? ", " + cable : ""))));
    whose.hidden = all.length < 2;
  });
  const out = element("div", { "aria-live": "polite" });
  const save = async () => {
    const lines = [{ key: "stage", value: JSON.stringify(stage.value) }, { key: "date", value: today() }];
    for (const [key, control] of Object.entries({ ohms, insulation, volts, sensor })) {
      if (control.value.trim()) lines.push({ key, value: await literal(control.value) });
    }
    if (lines.length < 3) { out.replaceChildren(element("p", { class: "slip" }, say("Fill in the figures first."))); return; }
    if (by.value.trim()) lines.push({ key: "by", value: JSON.stringify(by.value.trim()) });
    const changes = [], unread = await readPhotos(), of = cablesThere()[which.value || 0];
    if (unread || !of) { out.replaceChildren(element("p", { class: "slip" }, unread || say("There is no room yet."))); return; }
    const record = await onRecord(of.room, of.cable, changes);
    changes.push({ do: "add", table: record + "/reading", lines });
    const trouble = await edit(...changes);
    out.replaceChildren(element("p", { class: trouble ? "slip" : "say" }, trouble || say("Saved in the job; what is wrong with it is said above the drawing and under Text.")));
    if (!trouble) for (const c of [ohms, insulation, sensor]) c.value = ""; // pressed twice, it is not saved twice
    if (!trouble) { await settled(); out.append(...sheets.state.problems.map(problemOf)); sheets.show("test-record"); }
  };
  return element("div", {}, whose, element("div", { class: "row" }, field(say("stage"), stage), field(say("ohms, core to core"), ohms)),
    element("div", { class: "row" }, field(say("insulation in M\u03a9"), insulation), field(say("at volts"), volts)),
    element("div", { class: "row" }, field(say("sensor in \u03a9"), sensor), field(say("read by"), by)), button(say("Save the reading"), save, { class: "main" }), out);
}

// a reading says nothing of where the cable lies: its record claims no more than the plan
const noEvidence = "plan only";
const today = () => { const d = new Date(), two = (n) => String(n).padStart(2, "0"); return d.getFullYear() + "-" + two(d.getMonth() + 1) + "-" + two(d.getDate()); };

// ---- a spot, a fault

function probeCard() {
  const a1 = input(say("first wall and distance"), { placeholder: inches() ? "A 2ft 3in" : "A 690" }), a2 = input(say("second wall and distance"), { placeholder: inches() ? "B 14in" : "B 350" });
  const a = answering(() => a1.value && a2.value ? ["probe", job.name, "--from", a1.value.trim(), "--from", a2.value.trim()] : null);
  return element("div", {}, element("p", {}, say("Square off two walls: the wall's letter and how far.")), element("div", { class: "row" }, field(say("from wall"), a1), field(say("and from wall"), a2)), button(say("What lies here"), a.go, { class: "main" }), a.out);
}

function faultCard() {
  const ways = { "--short": say("short between the cores: ohms"), "--earth": say("to the braid: loop, from A, from B"), "--capacitance": say("broken core: nF"), "--murray": say("bridge arms P,Q") };
  const way = element("select", { "aria-label": say("what was read") }, ...Object.entries(ways).map(([v, w]) => element("option", { value: v }, w)));
  const figure = input(say("reading"), { placeholder: "19.0+-0.2" }), whole = input(say("whole cable")), cable = input(say("cable"), { placeholder: "H1" });
  const a = answering(() => figure.value ? ["fault", job.name, way.value, figure.value.trim(), ...(cable.value ? ["--cable", cable.value.trim()] : []),
    ...(whole.value ? [way.value === "--capacitance" ? "--whole-capacitance" : "--whole-ohms", whole.value.trim()] : []), "-o", "OUT"] : null);
  return element("div", {}, element("p", {}, say("Isolate the circuit before any test. Work on the supply is an electrician's.")), element("div", { class: "row" }, field(say("what was read"), way), field(say("reading"), figure)),
    element("div", { class: "row" }, field(say("the whole cable, if known"), whole), field(say("cable"), cable)), button(say("Find the stretch"), a.go, { class: "main" }), a.out);
}
