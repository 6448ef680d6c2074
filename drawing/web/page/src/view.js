// The drawing: one sheet at a time, moved and zoomed by finger, mouse or keys.
"use strict";

const view = {
  state: { sheets: [], tables: [], problems: [], cables: [], summary: [], units: "mm" },
  shown: "", paper: null, svg: null, looks: {}, // how each sheet was last looked at
  hand: null,  // what takes the fingers instead of the drawing: a photo's points, a room's plan

  async show(id) {
    const all = [...this.state.sheets, ...this.state.tables];
    const one = all.find((s) => s.id === id) || all[0];
    if (!one || this.hand) return;
    this.shown = one.id;
    $("sheets").replaceChildren(...all.map((s) => element("option", { value: s.id, selected: s === one }, s.title)));
    $("tip").hidden = true;
    if (one.columns) { this.table(one); return; }
    const doc = new DOMParser().parseFromString(await engine.ask("sheet", { sheet: one.id }), "image/svg+xml");
    if (doc.documentElement.localName !== "svg" || this.shown !== one.id) return;
    const svg = document.importNode(doc.documentElement, true);
    svg.removeAttribute("width");
    svg.removeAttribute("height");
    const box = svg.viewBox.baseVal;
    this.paper = [box.x, box.y, box.width, box.height];
    this.svg = svg;
    this.ratio = one.ratio;
    this.cables = one.ratio > 0 ? followed(svg, this.state.cables) : [];
    $("paper").replaceChildren(svg);
    this.look(this.looks[one.id] || this.first(svg));
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
    this.svg = null;
    $("paper").replaceChildren(element("div", { class: "table" }, tableOf(t)));
  },
  look(box) {
    this.svg.setAttribute("viewBox", box.join(" "));
    this.looks[this.shown] = box;
    this.hand?.drawn();
  },
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

// followed samples each cable's path on a sheet, from the start of heat on, so that a
// place on it can be said as a length of cable.
function followed(svg, cables) {
  const out = [];
  for (const title of svg.querySelectorAll("g.object > title")) {
    const cable = cables.find((c) => title.textContent === "heating cable " + c.id);
    const path = cable && title.parentNode.querySelector("path");
    if (!path) continue;
    const total = path.getTotalLength(), n = Math.max(1, Math.ceil(total)), points = [];
    for (let i = 0; i <= n; i++) points.push(path.getPointAtLength(total * i / n));
    out.push({ cable, points, step: total / n });
  }
  return out;
}

// ---- fingers: one moves, two zoom

const fingers = new Map();

function started(e) {
  if (!view.svg || e.button > 1) return;
  fingers.set(e.pointerId, { x: e.clientX, y: e.clientY });
  $("paper").setPointerCapture(e.pointerId);
  view.hand?.down(e);
}

function moved(e) {
  if (!view.svg) return;
  const f = fingers.get(e.pointerId);
  if (!f) { told(e); return; }
  if (view.hand?.move(e)) { Object.assign(f, { x: e.clientX, y: e.clientY }); return; }
  const before = [...fingers.values()].map((p) => ({ ...p }));
  f.x = e.clientX;
  f.y = e.clientY;
  const now = [...fingers.values()], a = view.at(before[0].x, before[0].y), b = view.at(now[0].x, now[0].y);
  if (now.length === 1) { view.move(a.x - b.x, a.y - b.y); return; }
  const wide = (p) => Math.hypot(p[0].x - p[1].x, p[0].y - p[1].y) || 1;
  view.zoom(wide(before) / wide(now), (now[0].x + now[1].x) / 2, (now[0].y + now[1].y) / 2);
}

const ended = (e) => {
  const was = fingers.delete(e.pointerId);
  if (was) view.hand?.up(e);
  if (e.type === "pointerup") told(e);
};

// told says which run lies under the pointer and how much cable is used up to there.
function told(e) {
  if (!view.svg || view.hand) return;
  const p = view.at(e.clientX, e.clientY);
  let best = null, near = 2.5;
  for (const s of view.cables) {
    s.points.forEach((q, i) => {
      const d = Math.hypot(q.x - p.x, q.y - p.y);
      if (d < near) { near = d; best = { cable: s.cable, along: i * s.step * view.ratio }; }
    });
  }
  $("tip").hidden = !best;
  if (!best) return;
  const r = best.cable.runs.find((r) => best.along <= r.end) || best.cable.runs.at(-1);
  $("tip").textContent = best.cable.id + (r ? ", run " + r.number : "") + ": " + cableLength(best.along) + " of " + cableLength(best.cable.length);
}

function cableLength(mm) {
  return view.state.units === "in" ? (mm / 304.8).toFixed(1) + " ft" : (mm / 1000).toFixed(2) + " m";
}

function startView() {
  const paper = $("paper");
  paper.addEventListener("pointerdown", started);
  paper.addEventListener("pointermove", moved);
  for (const end of ["pointerup", "pointercancel"]) paper.addEventListener(end, ended);
  paper.addEventListener("wheel", (e) => {
    if (!view.svg) return;
    e.preventDefault();
    view.zoom(Math.exp(Math.max(-1, Math.min(1, e.deltaY / 400))), e.clientX, e.clientY);
  }, { passive: false });
  paper.addEventListener("keydown", (e) => {
    if (e.ctrlKey || e.metaKey || e.altKey || !view.svg) return;
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
  $("sheets").onchange = () => { const id = $("sheets").value; view.hand?.close(); view.show(id); };
}
