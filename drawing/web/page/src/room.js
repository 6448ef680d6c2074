// The room as forms: walls as the tape reads them, and every table of the job file
// with its keys. Each act is an edit of the file.
"use strict";

const winds = ["north", "north-east", "east", "south-east", "south", "south-west", "west", "north-west"];
let keys = [];   // of the job file, as the reference has them
const open = new Set(); // tables whose form is open

const inches = () => /^\s*units\s*=\s*["']in/m.test(job.text);
const pathOf = (table) => table.split("/").filter((s) => !/^\d+$/.test(s)).join(".");
const keysOf = (path) => keys.filter((k) => k.Path.startsWith(path ? path + "." : "") && !k.Path.slice(path ? path.length + 1 : 0).includes("."));
const isTable = (k) => k.Type === "table" || k.Type === "tables";

async function roomPanel(panel) {
  const text = job.text;
  let parts;
  try {
    parts = await engine.ask("tables", { text });
  } catch (e) {
    panel.replaceChildren(element("p", { class: "slip" }, say("The file has a slip that forms cannot read past: %s. Mend it under Text, or undo.", e.message)));
    return;
  }
  await edits; // forms of a text that is being changed would undo that with what is typed into them
  if (mode !== "Room" || text !== job.text) return; // another panel was asked for meanwhile, or newer forms
  const rooms = parts.filter((p) => /^room\/\d+$/.test(p.table));
  const inRoom = (r) => parts.filter((p) => p.table.startsWith(r.table + "/"));
  const shown = [];
  for (const r of rooms) {
    shown.push(element("h2", {}, textOf(r, "name") || say("Room")), element("div", { class: "row" }, button(say("Arrange on the plan"), () => placing.open(r.table), { "data-arrange": r.table })), wallsCard(r), form(r, say("This room")), ...inRoom(r).map((p) => form(p)), adders(r));
  }
  const others = parts.filter((p) => !p.table.startsWith("room"));
  renew(panel, ...shown, element("h2", {}, say("The whole job")), ...others.map((p) => form(p, p.table ? "" : say("Units and files"))),
    adder("", keysOf("").filter(isTable).filter((k) => k.Type === "tables" || !others.some((p) => p.table === k.Path))));
}

// renew puts new forms in the place of old ones. What is being typed meanwhile goes on in the new one, where it was.
function renew(panel, ...forms) {
  const e = document.activeElement, key = e?.dataset?.key, at = panel.scrollTop;
  const was = key && e.localName === "input" ? { text: e.value, typed: e.value !== e.defaultValue, from: e.selectionStart, to: e.selectionEnd } : null;
  renewing = true; // a form that goes is left as if it were done with
  panel.replaceChildren(...forms);
  renewing = false;
  panel.scrollTop = at;
  const again = key && [...panel.querySelectorAll("[data-key]")].find((c) => c.dataset.key === key && c.localName === e.localName);
  if (!again) return;
  again.focus({ preventScroll: true });
  if (!was) return;
  if (was.typed) again.value = was.text;
  again.setSelectionRange(was.from, was.to);
  if (!was.typed) return;
  // the browser tells of changes by hand alone
  again.addEventListener("blur", () => { if (again.value === was.text && !renewing) again.dispatchEvent(new Event("change")); }, { once: true });
}

let renewing = false;

const textOf = (part, key) => part.fields.find((f) => f.key === key)?.text || "";

// act carries out an edit and says what kept it from being made.
async function act(...changes) {
  if (renewing) return;
  const trouble = await edit(...changes);
  if (trouble) status(trouble, true);
}

// ---- forms

// form is a table's; what is in it is made once it is opened: hundreds would keep the page busy.
function form(part, title) {
  const names = ["kind", "name", "id", "title", "wall", "stage"].map((k) => textOf(part, k)).filter(Boolean);
  const box = element("details", { "data-table": part.table },
    element("summary", {}, (title || pathOf(part.table).split(".").pop().replaceAll("_", " ")) + " ", element("small", {}, title ? "" : names.join(", "))));
  const fill = () => { if (box.childElementCount === 1) box.append(...formRows(part)); };
  if (open.has(part.table)) { fill(); box.open = true; }
  box.ontoggle = () => { if (box.open) { open.add(part.table); fill(); } else open.delete(part.table); };
  return box;
}

function formRows(part) {
  const known = keysOf(pathOf(part.table)).filter((k) => !isTable(k));
  const missing = known.filter((k) => !part.fields.some((f) => f.key === k.Path.split(".").pop()));
  const more = element("select", { "aria-label": say("Give one more key") }, element("option", { value: "" }, say("give also \u2026")),
    ...missing.map((k) => element("option", { value: k.Path.split(".").pop(), title: k.Doc }, k.Path.split(".").pop())));
  more.onchange = () => {
    const k = missing.find((m) => m.Path.split(".").pop() === more.value);
    more.replaceWith(keyRow(part, k, ""));
  };
  const foot = element("div", { class: "row" }, missing.length ? more : "");
  if (part.table && !/^room\/0$/.test(part.table)) foot.append(button(say("Take out"), () => { open.delete(part.table); act({ do: "drop", table: part.table }); })); // the next takes its place, shut
  return [...part.fields.map((f) => fieldRow(part, f, known)), foot];
}

function fieldRow(part, held, known) {
  const k = known.find((k) => k.Path.split(".").pop() === held.key) || { Path: held.key, Type: "text", Doc: "" };
  return keyRow(part, k, held.text.replace(/\s*\n\s*/g, " "), held.value.includes("\n"));
}

const listTypes = ["texts", "lengths", "size", "shares", "point", "place"];

// written is what is typed for a key as the file has it. A list is typed with commas and without its brackets.
async function written(typed, type) {
  if (type === "text" || type === "choice") return JSON.stringify(typed);
  if (typed.startsWith("[") || !listTypes.includes(type) || type !== "texts" && !typed.includes(",")) return literal(typed);
  const all = typed.split(",").map((s) => s.trim()).filter(Boolean);
  return "[" + (type === "texts" ? all.map((s) => JSON.stringify(s)) : await Promise.all(all.map(literal))).join(", ") + "]";
}

// plainList is a list of texts as it is typed, if it can be
function plainList(value) {
  try {
    const all = JSON.parse(value);
    return all.every((s) => typeof s === "string" && !/[,[]/.test(s)) ? all.join(", ") : value;
  } catch { return value; }
}

// keyRow is one key's control; an empty one takes the key out.
function keyRow(part, k, value, long) {
  const key = k.Path.split(".").pop();
  if (k.Type === "texts" && !long) value = plainList(value);
  const set = async (typed) => {
    if (typed === value) return;
    await act(typed === "" ? { do: "unset", table: part.table, key } : { do: "set", table: part.table, key, value: await written(typed, k.Type) });
  };
  let control;
  if (long) {
    control = element("input", { value, disabled: true, title: say("goes over several lines: change it under Text") });
  } else if (k.Type === "choice" || k.Type === "flag") {
    const choices = k.Type === "flag" ? ["true", "false"] : k.Values;
    control = element("select", {}, element("option", { value: "" }, k.Default ? "(" + k.Default.replaceAll('"', "") + ")" : "\u2013"),
      ...choices.map((v) => element("option", { value: v, selected: v === value }, v)));
    control.onchange = () => set(control.value);
  } else {
    const figures = ["length", "whole", "number", "angle"].includes(k.Type) && !inches();
    control = element("input", { value, placeholder: (k.Example || "").split("=").slice(1).join("=").trim().replaceAll('"', ""), inputmode: figures ? "decimal" : "text", autocapitalize: "off", autocomplete: "off" });
    control.onchange = () => set(control.value.trim());
  }
  control.dataset.key = part.table + "/" + key;
  control.title ||= k.Doc;
  return element("div", { class: "row" }, field(key.replaceAll("_", " "), control));
}

// ---- what can be added

function adders(room) {
  const door = { kind: '"door"', wall: '"A"', from: "0", width: inches() ? "30" : "760" };
  const kinds = keys.find((k) => k.Path === "room.fixture.kind")?.Values || [];
  const pick = element("select", { "aria-label": say("Add") }, element("option", { value: "" }, say("add \u2026")),
    element("option", { value: "door" }, say("door")), ...kinds.map((k) => element("option", { value: "fixture:" + k }, k)),
    ...keysOf("room").filter(isTable).filter((k) => !["fixture"].includes(k.Path.split(".")[1])).map((k) => element("option", { value: "table:" + k.Path, title: k.Doc }, k.Path.split(".")[1].replaceAll("_", " "))));
  pick.onchange = () => {
    const [what, which] = pick.value.split(":");
    const at = room.table + "/";
    if (what === "door") act({ do: "add", table: at + "opening", lines: lines(door) });
    if (what === "fixture") act({ do: "add", table: at + "fixture", lines: lines({ kind: JSON.stringify(which), wall: '"A"', from: "0" }) });
    if (what === "table") act({ do: "add", table: at + which.split(".")[1], lines: required(which) });
  };
  return element("div", { class: "row" }, pick);
}

function adder(at, tables) {
  const pick = element("select", { "aria-label": say("Add to the job") }, element("option", { value: "" }, say("add \u2026")),
    ...tables.map((k) => element("option", { value: k.Path, title: k.Doc }, k.Path.replaceAll("_", " "))));
  pick.onchange = () => act({ do: "add", table: at + pick.value, lines: required(pick.value) });
  return element("div", { class: "row" }, pick);
}

const lines = (pairs) => Object.entries(pairs).map(([key, value]) => ({ key, value }));

// required takes a new table's first keys from its example in the reference.
function required(path) {
  const out = [];
  for (const k of keysOf(path).filter((k) => k.Required && !isTable(k))) {
    const value = (k.Example || "").split("=").slice(1).join("=").trim();
    if (value) out.push({ key: k.Path.split(".").pop(), value });
  }
  return out;
}

// ---- walls

const wallTexts = (value) => [...value.matchAll(/"(?:[^"\\]|\\.)*"|'([^']*)'/g)].map((m) => ({ text: m[1] ?? unquoted(m[0]), from: m.index, to: m.index + m[0].length }));

// unquoted is what a text in double quotes says: a tape's inches have such a sign themselves
function unquoted(text) { try { return JSON.parse(text); } catch { return text.slice(1, -1); } }

function wallsCard(room) {
  const held = room.fields.find((f) => f.key === "walls");
  if (!held) return element("p", {}, say("This room is given by its corners; they stand in the form below and under Text."));
  const walls = wallTexts(held.value);
  const card = element("div", { id: "walls-" + room.table.replace("/", "-") });
  const outline = document.createElementNS("http://www.w3.org/2000/svg", "svg");
  outline.setAttribute("class", "outline");
  const miss = element("p", { role: "status" });
  const set = (value) => act({ do: "set", table: room.table, key: "walls", value });
  // now is the walls as they stand in the form, also those that are not yet in the job
  const now = () => [...card.querySelectorAll(".wall")].reduceRight((value, row, i) => (row.changed() ? value.slice(0, walls[i].from) +
    JSON.stringify(row.typed()) + value.slice(walls[i].to) : value), held.value);
  const typed = () => [...card.querySelectorAll(".wall")].map((w) => w.querySelector("select").value + " " + w.querySelector("input").value);
  const measure = async () => tell(outline, miss, await engine.ask("tape", { walls: typed(), units: inches() ? "in" : "mm" }));
  walls.forEach((w, i) => card.append(wallRow(room, walls, i, { now, set, measure })));
  let grown = ""; // by a tap before, that the form does not show yet
  const more = () => {
    const value = grown || now();
    grown = withWall(value, wallTexts(value));
    focusNext = wallTexts(value).length;
    set(grown);
  };
  card.append(element("div", { class: "row" }, button(say("One more wall"), more)), outline, miss);
  queueMicrotask(measure);
  if (focusNext >= 0 && walls[focusNext]) {
    const next = card.querySelectorAll(".wall input")[focusNext];
    focusNext = -1;
    requestAnimationFrame(() => { next.focus(); next.select(); });
  }
  return card;
}

let focusNext = -1; // the wall whose length is to be typed next, once the form is there again

function wallRow(room, walls, i, { now, set, measure }) {
  const wall = walls[i];
  const m = /^\s*([a-z]+(?:[- ](?:east|west))?|[-+.\d]+\s*(?:degrees|deg|°))\s*(.*)$/i.exec(wall.text) || ["", "north", wall.text];
  const wind = m[1].toLowerCase().replace(" ", "-");
  const letter = String.fromCharCode(65 + i % 26);
  const way = element("select", { "aria-label": say("Wall %s goes", letter) }, ...[...new Set([...winds, wind])].map((w) => element("option", { selected: w === wind }, w)));
  const length = element("input", { value: m[2], "aria-label": say("Length of wall %s", letter), inputmode: inches() ? "text" : "decimal", autocomplete: "off", enterkeyhint: "next" });
  way.dataset.key = length.dataset.key = room.table + "/walls/" + i;
  const put = () => set(now());
  length.oninput = measure;
  way.onchange = put;
  length.onchange = put;
  length.onkeydown = (e) => { // a laser meter types the reading and Enter
    if (e.key !== "Enter") return;
    e.preventDefault();
    focusNext = i + 1;
    if (length.value === m[2]) roomAgain(); else length.blur();
  };
  const out = button("\u00d7", () => { const value = now(); set(withoutWall(value, wallTexts(value)[i])); }, { "aria-label": say("Take wall %s out", letter), disabled: walls.length < 2 });
  const row = element("div", { class: "wall" }, element("b", {}, letter), way, length, out);
  row.typed = () => way.value + " " + length.value.trim();
  row.changed = () => way.value !== wind || length.value.trim() !== m[2].trim();
  return row;
}

// withWall adds a wall behind the last, in a line of its own where they have lines.
function withWall(value, walls) {
  const text = '"' + (inches() ? "north 1ft" : "north 1 m") + '"';
  if (!walls.length) return "[" + text + "]";
  const last = walls.at(-1), rest = value.slice(last.to), comma = /^\s*,/.test(rest) ? "" : ",";
  const tail = rest.slice(0, rest.lastIndexOf("]"));
  if (!tail.includes("\n")) return value.slice(0, last.to) + comma + tail.trimEnd() + " " + text + "]";
  return value.slice(0, last.to) + comma + tail.trimEnd() + "\n  " + text + ",\n]";
}

function withoutWall(value, wall) {
  let from = wall.from, to = wall.to;
  to += /^\s*,?/.exec(value.slice(to))[0].length;
  const start = value.lastIndexOf("\n", from), end = value.indexOf("\n", to);
  if (start >= 0 && end >= 0 && /^\s*$/.test(value.slice(start, from))) { from = start; to = end; } // its line with it
  return value.slice(0, from) + value.slice(to);
}

// tell draws the walls as measured so far, and says by how much they miss their start.
function tell(outline, miss, tape) {
  const p = tape.Points.map((q) => [q.X, -q.Y]), xs = p.map((q) => q[0]), ys = p.map((q) => q[1]);
  const x = Math.min(...xs), y = Math.min(...ys), w = Math.max(...xs) - x || 1, h = Math.max(...ys) - y || 1, edge = Math.max(w, h) / 12;
  outline.setAttribute("viewBox", [x - edge, y - edge, w + 2 * edge, h + 2 * edge].join(" "));
  const path = (points, kind) => {
    const e = document.createElementNS("http://www.w3.org/2000/svg", "path");
    e.setAttribute("d", "M" + points.map((q) => q.join(" ")).join("L"));
    if (kind) e.setAttribute("class", kind);
    return e;
  };
  outline.replaceChildren(path(p), path([p.at(-1), p[0]], "gap"));
  const slip = tape.Slips.find(Boolean);
  const again = tape.Again >= 0 ? say("; if one wall is wrong, it is %s: measure it again", String.fromCharCode(65 + tape.Again % 26)) : "";
  miss.className = slip ? "slip" : "";
  miss.textContent = slip || (tape.Miss < 1 ? say("The walls close.") : say("The last wall misses the start by %s%s.", tape.Says, again));
}
