// A sheet or a table in a window, moved and zoomed by finger, mouse or keys, and what a page
// needs to make elements. The page has #paper for the drawing, #tip for what lies under a
// pointer, and the buttons #in, #out and #fit.
"use strict";

const $ = (id) => document.getElementById(id);

function element(tag, attributes, ...inside) {
  const e = document.createElement(tag);
  for (const [name, value] of Object.entries(attributes || {})) {
    if (name.startsWith("on")) e.addEventListener(name.slice(2), value);
    else if (value === true) e.setAttribute(name, "");
    else if (value !== false && value !== undefined) e.setAttribute(name, value);
  }
  e.append(...inside);
  return e;
}

const button = (words, act, more) => element("button", { type: "button", onclick: act, ...more }, words);

const count = (n, what) => n + " " + what + (n === 1 ? "" : "s");

const view = {
  shown: "", paper: null, svg: null, looks: {}, // how each sheet was last looked at
  // tip says how much of a cable is used at a place, and on which run that is; a page may say it otherwise
  tip: (id, run, used, all) => id + (run ? ", run " + run : "") + ": " + used + " of " + all,
  hand: null,  // what takes the fingers instead of the drawing: a photo's points, a room's plan

  // draw shows a sheet, { id, ratio }, of which text is the SVG, and tells of the cables on it,
  // { id, length, runs }; lengths are said in "mm" or "in". It reports whether text is a drawing.
  draw(sheet, text, cables, units) {
    const doc = new DOMParser().parseFromString(text, "image/svg+xml");
    if (doc.documentElement.localName !== "svg") return false;
    const svg = document.importNode(doc.documentElement, true);
    svg.removeAttribute("width");
    svg.removeAttribute("height");
    const box = svg.viewBox.baseVal;
    Object.assign(this, { svg, units, shown: sheet.id, ratio: sheet.ratio, paper: [box.x, box.y, box.width, box.height] });
    this.cables = sheet.ratio > 0 ? followed(svg, cables) : [];
    $("tip").hidden = true;
    $("paper").replaceChildren(svg);
    this.look(this.looks[sheet.id] || this.first(svg));
    return true;
  },
  // first is what is seen of a sheet at first: all of it, or where the window is small
  // and the sheet shows a room, the room
  first(svg) {
    const walls = innerWidth < 700 && svg.querySelector("#layer-walls");
    if (!walls) return this.paper;
    const b = walls.getBBox(), edge = Math.max(b.width, b.height) / 12;
    return b.width > 0 ? [b.x - edge, b.y - edge, b.width + 2 * edge, b.height + 2 * edge] : this.paper;
  },
  table(t) {
    Object.assign(this, { svg: null, shown: t.id });
    $("tip").hidden = true;
    $("paper").replaceChildren(element("div", { class: "table" }, tableOf(t)));
  },
  look(box) {
    this.svg.setAttribute("viewBox", box.join(" "));
    this.looks[this.shown] = box;
    this.looked();
    this.hand?.drawn();
  },
  looked() { /* a page may keep the looks */ },
  box() { return this.svg.getAttribute("viewBox").split(" ").map(Number); },
  at(x, y) {
    const m = this.svg.getScreenCTM();
    return m ? new DOMPoint(x, y).matrixTransform(m.inverse()) : new DOMPoint(0, 0);
  },
  zoom(k, x, y) {
    if (!this.svg) return;
    const r = $("paper").getBoundingClientRect();
    const p = this.at(x ?? r.left + r.width / 2, y ?? r.top + r.height / 2), [bx, by, w, h] = this.box();
    if (w * k > 6 * this.paper[2] || w * k < this.paper[2] / 200) return;
    this.look([p.x - (p.x - bx) * k, p.y - (p.y - by) * k, w * k, h * k]);
  },
  move(dx, dy) { if (this.svg) { const [x, y, w, h] = this.box(); this.look([x + dx, y + dy, w, h]); } },
  fit() { if (this.svg) this.look(this.paper); },
};

function tableOf(t) {
  const cells = (tag, row) => row.map((c, i) => element(tag, t.right[i] ? { class: "figure" } : {}, c));
  return element("table", {}, element("thead", {}, element("tr", {}, ...cells("th", t.columns))),
    element("tbody", {}, ...(t.rows || []).map((r) => element("tr", {}, ...cells("td", r)))));
}

// quoted is the line of a file that a problem is about, with what is meant marked; none where it
// is not known.
function quoted(p) {
  if (!p.line) return [];
  const letters = [...p.line], end = Math.min(letters.length, p.start + p.length);
  return [element("pre", {}, letters.slice(0, p.start).join(""), element("mark", {}, letters.slice(p.start, end).join("") || " "), letters.slice(end).join(""))];
}

// followed finds each cable's way on a sheet, from the start of heat on, so that a place on
// it can be said as a length of cable.
function followed(svg, cables) {
  const out = [];
  for (const title of svg.querySelectorAll("g.object > title")) {
    const cable = cables.find((c) => title.textContent === "heating cable " + c.id);
    const path = cable && title.parentNode.querySelector("path");
    if (path) out.push({ cable, way: wayOf(path.getAttribute("d")) });
  }
  return out;
}

// wayOf is a path as the points of short straight pieces, each with how far along it lies. Sheets
// have paths of M, L and C alone; to ask the browser for every millimetre of one takes it seconds.
function wayOf(d) {
  const way = [], pieces = 8; // of a curve; of a quarter's bend they are 0.2 % short
  const go = (x, y, leap) => {
    const p = way.at(-1);
    way.push({ x, y, leap, along: p ? p.along + (leap ? 0 : Math.hypot(x - p.x, y - p.y)) : 0 });
  };
  for (const [, letter, figures] of d.matchAll(/([MLC])([^MLCZ]*)/g)) {
    const n = figures.match(/-?[\d.]+/g).map(Number);
    if (letter !== "C") { go(n[0], n[1], letter === "M"); continue; }
    const { x, y } = way.at(-1);
    for (let i = 1; i <= pieces; i++) {
      const t = i / pieces, u = 1 - t, on = (a, b, c, e) => u * u * u * a + 3 * t * u * (u * b + t * c) + t * t * t * e;
      go(on(x, n[0], n[2], n[4]), on(y, n[1], n[3], n[5]));
    }
  }
  return way;
}

// ---- fingers: one moves, two zoom (zoom/zoom.mjs), unless what has them for itself takes them

const fingers = new Set(); // on the drawing
let taken = false;         // by view.hand, as of the last move

function started(e) {
  if (!view.svg || e.button > 1) return;
  fingers.add(e.pointerId);
  $("paper").setPointerCapture(e.pointerId);
  taken = false;
  view.hand?.down(e);
}

function moved(e) {
  if (!view.svg) return;
  if (!fingers.has(e.pointerId)) told(e); else taken = !!view.hand?.move(e);
}

const ended = (e) => {
  const was = fingers.delete(e.pointerId);
  if (was) view.hand?.up(e);
  if (e.type === "pointerup") told(e);
};

// gesturesOf listens to them on the paper. The gestures know a scale and a shift of what the window
// shows; that is worked out anew from the drawing's box as each of them begins.
function gesturesOf(paper) {
  // shown is the scale, px to mm, and where the drawing's origin is
  const shown = () => {
    const m = view.svg.getScreenCTM(), r = paper.getBoundingClientRect();
    return m && { k: m.a, x: m.e - r.left - paper.clientLeft, y: m.f - r.top - paper.clientTop };
  };
  const asShown = () => {
    const s = shown(), px = s && view.box()[2] * s.k;
    if (s) g.stands(s.k, s.x, s.y, px / (6 * view.paper[2]), 200 * px / view.paper[2]);
    return !!s;
  };
  const g = gestures(paper, {
    may: (e) => !!view.svg && !(e.button > 1) && asShown(),
    moved(k, x, y, e) {
      if (!e) return;
      if (taken && e.type !== "wheel") { asShown(); return; }
      const s = shown(), [bx, by, w, h] = view.box(); // the box keeps its shape, and so its place in the window
      view.look([(s.x + bx * s.k - x) / k, (s.y + by * s.k - y) / k, w * s.k / k, h * s.k / k]);
    },
  });
}

// underPointer is the cable that lies at a place of the sheet, and how many mm along it that is.
function underPointer(p) {
  let best = null, near = 2.5;
  for (const { cable, way } of view.cables) {
    for (let i = 1; i < way.length; i++) {
      if (way[i].leap) continue;
      const a = way[i - 1], b = way[i], dx = b.x - a.x, dy = b.y - a.y;
      const t = Math.max(0, Math.min(1, ((p.x - a.x) * dx + (p.y - a.y) * dy) / (dx * dx + dy * dy || 1)));
      const d = Math.hypot(a.x + t * dx - p.x, a.y + t * dy - p.y);
      if (d < near) { near = d; best = { cable, along: (a.along + t * (b.along - a.along)) * view.ratio }; }
    }
  }
  return best;
}

// told says which run lies under the pointer and how much cable is used up to there.
function told(e) {
  if (!view.svg || view.hand) return;
  const best = underPointer(view.at(e.clientX, e.clientY));
  $("tip").hidden = !best;
  if (!best) return;
  const r = best.cable.runs.find((r) => best.along <= r.end) || best.cable.runs.at(-1);
  $("tip").textContent = view.tip(best.cable.id, r?.number, cableLength(best.along), cableLength(best.cable.length));
  const box = $("paper").getBoundingClientRect(), mouse = e.pointerType === "mouse"; // a finger hides what is beside it
  $("tip").style.left = (mouse ? Math.min(e.clientX - box.left + 14, Math.max(0, box.width - 180)) : 6) + "px";
  $("tip").style.top = (mouse ? Math.max(0, e.clientY - box.top - 30) : 6) + "px";
}

function cableLength(mm) {
  return view.units === "in" ? (mm / 304.8).toFixed(1) + " ft" : (mm / 1000).toFixed(2) + " m";
}

// startView begins to listen; keys are taken from the whole page where it has no forms.
function startView(keysOf = $("paper")) {
  const paper = $("paper");
  paper.addEventListener("pointerdown", started);
  paper.addEventListener("pointermove", moved);
  for (const end of ["pointerup", "pointercancel"]) paper.addEventListener(end, ended);
  gesturesOf(paper);
  paper.addEventListener("pointerleave", () => { $("tip").hidden = true; });
  keysOf.addEventListener("keydown", (e) => {
    if (e.ctrlKey || e.metaKey || e.altKey || !view.svg || e.target.closest?.("input, [role=tablist]")) return;
    if (view.hand?.key(e)) { e.preventDefault(); return; }
    const step = view.box()[2] / 10;
    const keys = {
      "+": () => view.zoom(0.7), "-": () => view.zoom(1 / 0.7), "0": () => view.fit(), ArrowLeft: () => view.move(-step, 0),
      ArrowRight: () => view.move(step, 0), ArrowUp: () => view.move(0, -step), ArrowDown: () => view.move(0, step),
    };
    if (keys[e.key]) { keys[e.key](); e.preventDefault(); }
  });
  $("in").onclick = () => view.zoom(0.7);
  $("out").onclick = () => view.zoom(1 / 0.7);
  $("fit").onclick = () => view.fit();
  addEventListener("resize", () => view.hand?.drawn());
}
