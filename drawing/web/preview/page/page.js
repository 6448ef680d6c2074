// The preview page. It keeps what the reader chose (tab, view of each sheet,
// layers off) in the session's storage, so that a reload changes nothing.
"use strict";

const $ = (id) => document.getElementById(id);
const SVG = "http://www.w3.org/2000/svg";
let state = { version: "", sheets: [], tables: [], problems: [], cables: [], summary: [] };
let drawing = null; // { id, hash, svg, paper, cables } of the sheet shown

const kept = {
  get(name, other) {
    try { return JSON.parse(sessionStorage.getItem("oxturn." + name)) ?? other; } catch { return other; }
  },
  set(name, value) {
    try { sessionStorage.setItem("oxturn." + name, JSON.stringify(value)); } catch { /* private windows may refuse */ }
  },
};

function element(tag, attributes, ...inside) {
  const e = document.createElement(tag);
  for (const [name, value] of Object.entries(attributes || {})) e.setAttribute(name, value);
  e.append(...inside);
  return e;
}

// ---- state

let fetching = false, again = false;

async function refresh() {
  if (fetching) { again = true; return; }
  fetching = true;
  try {
    do {
      again = false;
      const answer = await fetch("/state");
      state = await answer.json();
      await render();
    } while (again);
  } catch (e) {
    console.error(e);
    lost();
  }
  fetching = false;
}

const events = new EventSource("/events");
events.onmessage = (e) => {
  if (e.data !== state.version) refresh(); else status();
};
events.onerror = lost;

function lost() {
  $("status").textContent = "not connected: is oxturn watch running?";
  $("status").className = "lost";
}

function errors() { return state.problems.filter((p) => p.severity === "error").length; }

function status() {
  const e = errors(), w = state.problems.length - e;
  const count = (n, what) => n + " " + what + (n === 1 ? "" : "s");
  let text = e ? count(e, "error") : "up to date";
  if (w) text += ", " + count(w, "warning");
  $("status").textContent = state.busy ? "drawing \u2026" : text;
  $("status").className = state.busy ? "busy" : e ? "bad" : "";
  $("icon").href = e ? "/page/bad.svg" : "/page/good.svg";
  document.title = (e ? "✗ " : "") + state.job + " – oxturn";
}

async function render() {
  $("job").textContent = state.job.split(/[\\/]/).pop();
  $("job").title = state.job;
  status();
  problems();
  $("summary").textContent = state.summary.join("\n");
  $("pdf").hidden = !state.pdf;
  $("stale").hidden = !state.stale;
  document.querySelector("main").className = state.stale ? "stale" : "";
  $("empty").hidden = state.sheets.length > 0;
  tabs();
  await show();
  document.body.dataset.version = state.version;
}

// ---- tabs

function all() { return [...state.sheets, ...state.tables]; }

function chosen() {
  const id = kept.get("tab", "");
  return all().find((t) => t.id === id) || all()[0];
}

function tabs() {
  const now = chosen();
  const focused = document.activeElement?.dataset?.tab;
  $("tabs").replaceChildren(...all().map((t) => {
    const b = element("button", { type: "button", role: "tab", id: "tab-" + t.id, "aria-selected": t === now, "aria-controls": "shown", tabindex: t === now ? 0 : -1, "data-tab": t.id }, t.title);
    b.onclick = () => choose(t);
    return b;
  }));
  if (now) $("shown").setAttribute("aria-labelledby", "tab-" + now.id);
  if (focused) tabOf(now)?.focus({ preventScroll: true });
}

const tabOf = (t) => t && $("tabs").querySelector("[data-tab=" + CSS.escape(t.id) + "]");

function choose(t) {
  kept.set("tab", t.id);
  tabs();
  show();
  tabOf(t)?.scrollIntoView({ block: "nearest", inline: "nearest" });
}

// the keys of a list of tabs: https://www.w3.org/WAI/ARIA/apg/patterns/tabs/
$("tabs").addEventListener("keydown", (e) => {
  const list = all(), i = list.indexOf(chosen());
  const to = { ArrowRight: i + 1, ArrowLeft: i - 1, Home: 0, End: list.length - 1 }[e.key];
  if (to === undefined || !list.length) return;
  e.preventDefault();
  e.stopPropagation();
  choose(list[(to + list.length) % list.length]);
  tabOf(chosen())?.focus();
});

async function show() {
  const t = chosen();
  if (!t) { $("sheet").replaceChildren(); $("table").hidden = true; drawing = null; return; }
  const isSheet = "hash" in t;
  $("sheet").hidden = !isSheet;
  $("table").hidden = isSheet;
  $("tip").hidden = true;
  if (isSheet) await showSheet(t); else showTable(t);
}

function showTable(t) {
  const cell = (tag, row) => row.map((c, i) => element(tag, t.right[i] ? { class: "figure" } : {}, c));
  $("table").replaceChildren(element("table", {},
    element("thead", {}, element("tr", {}, ...cell("th", t.columns))),
    element("tbody", {}, ...(t.rows || []).map((r) => element("tr", {}, ...cell("td", r))))));
}

// ---- the drawing

async function showSheet(t) {
  if (!drawing || drawing.id !== t.id || drawing.hash !== t.hash) {
    const answer = await fetch("/sheet/" + encodeURIComponent(t.id));
    if (!answer.ok) return; // replaced meanwhile: the next state brings it
    const doc = new DOMParser().parseFromString(await answer.text(), "image/svg+xml");
    if (doc.documentElement.namespaceURI !== SVG || chosen().id !== t.id) return;
    const svg = document.importNode(doc.documentElement, true);
    svg.removeAttribute("width");
    svg.removeAttribute("height");
    const v = svg.viewBox.baseVal;
    $("sheet").replaceChildren(svg);
    drawing = { id: t.id, hash: t.hash, ratio: t.ratio, svg, paper: [v.x, v.y, v.width, v.height] };
    drawing.cables = t.ratio > 0 ? sampled(svg) : [];
    layers();
  }
  look(kept.get("view." + t.id, drawing.paper));
}

function look(view) {
  drawing.svg.setAttribute("viewBox", view.join(" "));
  kept.set("view." + drawing.id, view);
}

function view() { return drawing.svg.getAttribute("viewBox").split(" ").map(Number); }

// at returns the place on the paper, in mm, under a place in the window.
function at(x, y) {
  const m = drawing.svg.getScreenCTM();
  return m ? new DOMPoint(x, y).matrixTransform(m.inverse()) : new DOMPoint(0, 0);
}

function zoom(k, x, y) {
  if (!drawing) return;
  const box = $("sheet").getBoundingClientRect();
  const p = at(x ?? box.left + box.width / 2, y ?? box.top + box.height / 2);
  const [vx, vy, w, h] = view();
  if (w * k > 8 * drawing.paper[2] || w * k < drawing.paper[2] / 200) return;
  look([p.x - (p.x - vx) * k, p.y - (p.y - vy) * k, w * k, h * k]);
}

$("sheet").addEventListener("wheel", (e) => {
  e.preventDefault();
  zoom(Math.exp(Math.max(-1, Math.min(1, e.deltaY / 400))), e.clientX, e.clientY);
}, { passive: false });

// one finger moves the sheet, two zoom it
const fingers = new Map();
$("sheet").addEventListener("pointerdown", (e) => {
  if (!drawing || e.button > 1) return;
  fingers.set(e.pointerId, { x: e.clientX, y: e.clientY });
  $("sheet").setPointerCapture(e.pointerId);
});
$("sheet").addEventListener("pointermove", (e) => {
  if (!drawing) return;
  const f = fingers.get(e.pointerId);
  if (!f) { hover(e); return; }
  const before = [...fingers.values()].map((p) => ({ ...p }));
  Object.assign(f, { x: e.clientX, y: e.clientY });
  const now = [...fingers.values()], a = at(before[0].x, before[0].y), b = at(now[0].x, now[0].y);
  if (now.length === 1) { const [x, y, w, h] = view(); look([x + a.x - b.x, y + a.y - b.y, w, h]); return; }
  const wide = (p) => Math.hypot(p[0].x - p[1].x, p[0].y - p[1].y) || 1;
  zoom(wide(before) / wide(now), (now[0].x + now[1].x) / 2, (now[0].y + now[1].y) / 2);
});
for (const end of ["pointerup", "pointercancel"]) {
  $("sheet").addEventListener(end, (e) => { if (fingers.delete(e.pointerId) && end === "pointerup") hover(e); });
}
$("sheet").addEventListener("pointerleave", () => { $("tip").hidden = true; });

const fit = () => { if (drawing) look(drawing.paper); };
$("fit").onclick = fit;
$("in").onclick = () => zoom(0.7);
$("out").onclick = () => zoom(1 / 0.7);
document.addEventListener("keydown", (e) => {
  if (e.ctrlKey || e.metaKey || e.altKey || !drawing || $("sheet").hidden) return;
  const step = (dx, dy) => { const [x, y, w, h] = view(); look([x + dx * w, y + dy * h, w, h]); };
  const keys = {
    "+": () => zoom(0.7), "-": () => zoom(1 / 0.7), "0": fit,
    ArrowLeft: () => step(-0.1, 0), ArrowRight: () => step(0.1, 0), ArrowUp: () => step(0, -0.1), ArrowDown: () => step(0, 0.1),
  };
  if (keys[e.key] && !(e.target instanceof HTMLInputElement) && !e.target.closest?.("[role=tablist]")) { keys[e.key](); e.preventDefault(); }
});

// ---- layers

function layers() {
  const off = kept.get("off", []);
  const found = [...drawing.svg.querySelectorAll(":scope > g.layer")].map((g) => g.id.replace(/^layer-/, ""));
  const apply = () => {
    for (const g of drawing.svg.querySelectorAll(":scope > g.layer")) {
      g.style.display = kept.get("off", []).includes(g.id.replace(/^layer-/, "")) ? "none" : "";
    }
  };
  $("layers").replaceChildren(...found.map((name) => {
    const box = element("input", { type: "checkbox", "data-layer": name });
    box.checked = !off.includes(name);
    box.onchange = () => {
      const now = kept.get("off", []).filter((n) => n !== name);
      kept.set("off", box.checked ? now : [...now, name]);
      apply();
    };
    return element("label", {}, box, " " + name);
  }));
  apply();
}

// ---- what lies under the pointer

// sampled follows each cable's path, which begins at the start of heat, in
// steps of about 1 mm of paper.
function sampled(svg) {
  const out = [];
  for (const title of svg.querySelectorAll("g.object > title")) {
    const cable = state.cables.find((c) => title.textContent === "heating cable " + c.id);
    const path = title.parentNode.querySelector("path");
    if (!cable || !path) continue;
    const total = path.getTotalLength(), n = Math.max(1, Math.ceil(total));
    const points = [];
    for (let i = 0; i <= n; i++) points.push(path.getPointAtLength(total * i / n));
    out.push({ cable, points, step: total / n });
  }
  return out;
}

function length(mm) {
  return state.units === "in" ? (mm / 304.8).toFixed(1) + " ft" : (mm / 1000).toFixed(2) + " m";
}

function hover(e) {
  const p = at(e.clientX, e.clientY);
  let best = null, near = 1.8; // mm of paper
  for (const s of drawing.cables) {
    s.points.forEach((q, i) => {
      const d = Math.hypot(q.x - p.x, q.y - p.y);
      if (d < near) { near = d; best = { cable: s.cable, along: i * s.step * drawing.ratio }; }
    });
  }
  $("tip").hidden = !best;
  if (!best) return;
  const { cable, along } = best;
  const runs = cable.runs || [];
  const run = runs.find((r) => along <= r.end) || runs[runs.length - 1];
  $("tip").textContent = cable.id + (run ? ", run " + run.number : "") + ": " + length(along) + " of " + length(cable.length);
  const box = $("sheet").getBoundingClientRect();
  $("tip").style.left = Math.min(e.clientX - box.left + 14, box.width - 180) + "px";
  $("tip").style.top = Math.max(0, e.clientY - box.top - 30) + "px";
}

// ---- problems

function problems() {
  const places = () => [...$("problems").querySelectorAll(".place")], i = places().indexOf(document.activeElement);
  $("problems").hidden = state.problems.length === 0;
  $("problems").replaceChildren(...state.problems.map(problem));
  if (i >= 0) places()[Math.min(i, places().length - 1)]?.focus({ preventScroll: true });
}

function problem(p) {
  const head = element("div", {}, element("b", {}, p.severity + (p.id ? " " + p.id : "") + ":"), " " + p.message);
  if (p.place) {
    const b = element("button", { type: "button", class: "place", title: "Copy" }, p.place);
    b.onclick = () => navigator.clipboard && navigator.clipboard.writeText(p.place);
    head.prepend(b, " ");
  }
  const out = element("div", { class: "problem " + p.severity }, head);
  if (p.line) {
    const letters = [...p.line], end = Math.min(letters.length, p.start + p.length);
    out.append(element("pre", {}, letters.slice(0, p.start).join(""), element("mark", {}, letters.slice(p.start, end).join("") || " "), letters.slice(end).join("")));
  }
  for (const n of p.notes || []) out.append(element("div", { class: "hint" }, "note: " + n));
  if (p.hint) out.append(element("div", { class: "hint" }, "hint: " + p.hint));
  return out;
}
