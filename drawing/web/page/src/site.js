// On site: the questions that come up beside the floor, one at a time, each answered by
// the command's own verb.
"use strict";

let asked = ""; // which question is open

const questions = {
  choose: ["Which cable?", "what fits this room, and how warm it gets", chooseCard],
  lay: ["Lay the cable", "run by run, with the length used", layCard],
  mark: ["I am at a mark", "the mark came early or late: what now?", markCard],
  slip: ["A run came out longer", "or shorter than the list: plan the rest", slipCard],
  readings: ["Readings", "ohms and insulation, stage by stage", readingsCard],
  laid: ["As laid", "photos before it is covered, with known points", laidCard],
  probe: ["What lies here?", "before anything is drilled", probeCard],
  fault: ["The cable is faulty", "where to open the floor", faultCard],
  check: ["All the figures", "what was worked out, in words", checkCard],
};

function sitePanel(panel) {
  if (!asked) {
    panel.replaceChildren(element("div", { class: "big" }, ...Object.entries(questions).map(([id, [words, more]]) =>
      button(element("span", {}, words, element("small", {}, more)), () => { asked = id; sitePanel(panel); panel.focus(); }, { "data-ask": id }))));
    return;
  }
  const [words, , card] = questions[asked];
  panel.replaceChildren(element("div", { class: "row" }, button("\u2190 Back", () => { if (view.photo) { pointing.close(); return; } asked = ""; sitePanel(panel); })), element("h2", {}, words), card());
}

const input = (label, more) => element("input", { "aria-label": label, autocomplete: "off", autocapitalize: "off", ...more });

// answering shows what a command line says, and hands on the files it made.
function answering(make) {
  const out = element("div", { "aria-live": "polite" });
  const go = async () => {
    out.replaceChildren(element("p", {}, "working \u2026")); // an old answer never stands under a new question
    try {
      const args = make();
      if (!args) { out.replaceChildren(element("p", { class: "slip" }, "Fill in the figures first.")); return; }
      const r = await run(...args);
      out.replaceChildren(element("pre", { class: r.code ? "slip" : "" }, (r.out + r.err).trim() || "done"), ...r.made.map(download));
    } catch (e) {
      out.replaceChildren(element("p", { class: "slip" }, e.message));
    }
  };
  return { out, go };
}

function chooseCard() {
  const a = answering(() => ["choose", job.name]);
  return element("div", {}, element("p", {}, "Compares the cables of the job for each room."), button("Compare", a.go, { class: "main" }), a.out);
}

function checkCard() {
  const a = answering(() => ["check", job.name]);
  queueMicrotask(a.go);
  return element("div", {}, a.out);
}

// ---- laying

function layCard() {
  const table = sheets.state.tables.find((t) => t.id === "table:runs");
  if (!table || !table.rows.length) return element("p", {}, "There is no drawing yet.");
  const box = element("div");
  const at = () => Math.min(kept.get("laid") || 0, table.rows.length);
  const to = (n) => { kept.set("laid", Math.max(0, Math.min(n, table.rows.length))); show(); };
  const show = () => {
    const n = at(), row = table.rows[n];
    const now = row ? element("div", {}, "run ", element("b", {}, row[2]), row[3] + ", " + row[4] + " pegs", element("br"),
      "then " + row[5] + " pegs to the next", element("br"), "cable used at its end: " + row[6], element("br"), halfway(row)) :
      element("div", {}, element("b", {}, "All laid"), "Read the cable before it is covered.");
    box.replaceChildren(element("div", { class: "run" }, button("Back", () => to(n - 1), { disabled: n === 0 }), now, button("Laid", () => to(n + 1), { class: "main", disabled: !row })),
      element("table", {}, element("tbody", {}, ...table.rows.map((r, i) => element("tr", { class: i === n ? "now" : i < n ? "done" : "" }, ...[r[1], r[2], r[3], r[4], r[6]].map((c) => element("td", {}, c)))))));
  };
  show();
  return box;
}

// halfway says where the mark printed half-way along the cable comes.
function halfway(row) {
  const c = sheets.state.cables.find((c) => c.id === row[1]);
  const runs = c ? c.runs : [], i = runs.findIndex((r) => r.end >= c.length / 2);
  return i >= 0 && String(row[2]).split(".").pop() === String(runs[i].number) ? "The half-way mark comes in this run: is it where the drawing has it?" : "";
}

// ---- marks and slips

function refitCard(words, labels, args) {
  const cable = input("cable", { placeholder: "where there are several, such as H1" });
  const a0 = input(labels[0], { inputmode: "numeric" }), a1 = input(labels[1], { inputmode: "decimal" });
  const plan = input("plan code on the drawing at hand", { placeholder: "such as 7KF-4RP" });
  const a = answering(() => a0.value && a1.value ? ["refit", job.name, ...args(a0.value.trim(), a1.value.trim()),
    ...(cable.value ? ["--cable", cable.value.trim()] : []), ...(plan.value ? ["--plan", plan.value.trim()] : []), "-o", "OUT"] : null);
  return element("div", {}, element("p", {}, words), element("div", { class: "row" }, field(labels[0], a0), field(labels[1], a1)),
    element("div", { class: "row" }, field("plan code on your drawing", plan), field("cable", cable)), button("Plan the rest", a.go, { class: "main" }), a.out);
}

function markCard() {
  return refitCard("Where did the half-way mark come? Nothing laid is moved.", ["in run", "after pegs"], (r, p) => ["--mark", r + "," + p]);
}

function slipCard() {
  return refitCard("Which laid run has other pegs than the list? All runs up to it are taken as laid.", ["run", "pegs it has"], (r, p) => ["--runs", r.split(".").pop(), "--run", r + "=" + p]);
}

// ---- readings

function readingsCard() {
  const path = "as_laid.reading", stages = keys.find((k) => k.Path === path + ".stage")?.Values || [];
  const stage = element("select", { "aria-label": "stage" }, ...stages.map((s) => element("option", {}, s)));
  const ohms = input("ohms, core to core", { inputmode: "decimal" }), insulation = input("insulation, MOhm", { inputmode: "decimal", placeholder: ">2000" });
  const volts = input("test voltage", { inputmode: "decimal" }), sensor = input("sensor, ohms", { inputmode: "decimal" });
  const by = input("read by"), which = element("select", { "aria-label": "cable that was read", id: "read-of" }), whose = element("div", { class: "row", hidden: true }, field("cable", which));
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
    if (by.value.trim()) lines.push({ key: "by", value: JSON.stringify(by.value.trim()) });
    const changes = [], unread = await readPhotos(), of = cablesThere()[which.value || 0];
    if (unread || !of) { out.replaceChildren(element("p", { class: "slip" }, unread || "There is no room yet.")); return; }
    const record = await onRecord(of.room, of.cable, changes);
    changes.push({ do: "add", table: record + "/reading", lines });
    const trouble = await edit(...changes);
    out.replaceChildren(element("p", { class: trouble ? "slip" : "say" }, trouble || "Saved in the job; what is wrong with it is said above the drawing and under Text."));
    if (!trouble) { await settled(); out.append(...sheets.state.problems.map(problemOf)); sheets.show("test-record"); }
  };
  return element("div", {}, whose, element("div", { class: "row" }, field("stage", stage), field("ohms, core to core", ohms)),
    element("div", { class: "row" }, field("insulation in M\u03a9", insulation), field("at volts", volts)),
    element("div", { class: "row" }, field("sensor in \u03a9", sensor), field("read by", by)), button("Save the reading", save, { class: "main" }), out);
}

// a reading says nothing of where the cable lies: its record claims no more than the plan
const noEvidence = "plan only";
const today = () => { const d = new Date(), two = (n) => String(n).padStart(2, "0"); return d.getFullYear() + "-" + two(d.getMonth() + 1) + "-" + two(d.getDate()); };

// ---- a spot, a fault

function probeCard() {
  const a1 = input("first wall and distance", { placeholder: inches() ? "A 2ft 3in" : "A 690" }), a2 = input("second wall and distance", { placeholder: inches() ? "B 14in" : "B 350" });
  const a = answering(() => a1.value && a2.value ? ["probe", job.name, "--from", a1.value.trim(), "--from", a2.value.trim()] : null);
  return element("div", {}, element("p", {}, "Square off two walls: the wall's letter and how far."), element("div", { class: "row" }, field("from wall", a1), field("and from wall", a2)), button("What lies here", a.go, { class: "main" }), a.out);
}

function faultCard() {
  const ways = { "--short": "short between the cores: ohms", "--earth": "to the braid: loop, from A, from B", "--capacitance": "broken core: nF", "--murray": "bridge arms P,Q" };
  const way = element("select", { "aria-label": "what was read" }, ...Object.entries(ways).map(([v, w]) => element("option", { value: v }, w)));
  const figure = input("reading", { placeholder: "19.0+-0.2" }), whole = input("whole cable"), cable = input("cable", { placeholder: "H1" });
  const a = answering(() => figure.value ? ["fault", job.name, way.value, figure.value.trim(), ...(cable.value ? ["--cable", cable.value.trim()] : []),
    ...(whole.value ? [way.value === "--capacitance" ? "--whole-capacitance" : "--whole-ohms", whole.value.trim()] : []), "-o", "OUT"] : null);
  return element("div", {}, element("p", {}, "Isolate the circuit before any test. Work on the supply is an electrician's."), element("div", { class: "row" }, field("what was read", way), field("reading", figure)),
    element("div", { class: "row" }, field("the whole cable, if known", whole), field("cable", cable)), button("Find the stretch", a.go, { class: "main" }), a.out);
}
