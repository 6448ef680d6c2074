// The preview page. It keeps what the reader chose (tab, view of each sheet,
// layers off) in the session's storage, so that a reload changes nothing.
"use strict";

let state = { version: "", sheets: [], tables: [], problems: [], cables: [], summary: [] };
let drawn = ""; // id and hash of the sheet in view

const kept = {
  get(name, other) {
    try { return JSON.parse(sessionStorage.getItem("oxturn." + name)) ?? other; } catch { return other; }
  },
  set(name, value) {
    try { sessionStorage.setItem("oxturn." + name, JSON.stringify(value)); } catch { /* private windows may refuse */ }
  },
};

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
    const b = element("button", { type: "button", role: "tab", id: "tab-" + t.id, "aria-selected": String(t === now), "aria-controls": "shown", tabindex: t === now ? 0 : -1, "data-tab": t.id }, t.title);
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
  if (!t) { view.svg = null; $("paper").replaceChildren(); drawn = ""; return; }
  if ("hash" in t) await showSheet(t); else { view.table(t); drawn = ""; }
}

async function showSheet(t) {
  const wanted = t.id + " " + t.hash;
  if (drawn === wanted) return;
  const answer = await fetch("/sheet/" + encodeURIComponent(t.id));
  if (!answer.ok) return; // replaced meanwhile: the next state brings it
  const text = await answer.text();
  if (chosen().id !== t.id || !view.draw(t, text, state.cables.map((c) => ({ ...c, runs: c.runs || [] })), state.units)) return;
  drawn = wanted;
  layers();
}

view.looks = kept.get("looks", {});
view.looked = () => kept.set("looks", view.looks);

// ---- layers

function layers() {
  const off = kept.get("off", []);
  const found = [...view.svg.querySelectorAll(":scope > g.layer")].map((g) => g.id.replace(/^layer-/, ""));
  const apply = () => {
    for (const g of view.svg.querySelectorAll(":scope > g.layer")) {
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
  out.append(...quoted(p));
  for (const n of p.notes || []) out.append(element("div", { class: "hint" }, "note: " + n));
  if (p.hint) out.append(element("div", { class: "hint" }, "hint: " + p.hint));
  return out;
}

startView(document);
