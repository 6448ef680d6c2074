// The plan of a room with what stands in it: a finger, a mouse or keys move it, and it snaps
// to walls, corners and other things. Each act is an edit of the job's text.
"use strict";

const thingNames = { opening: message("door or window"), keep_out: message("keep-out"), joint: message("movement joint"), thermostat: message("box"), fixing: message("fixing"), cold: message("floor left cold"), partition: message("partition"), zone: message("part of the floor") };
const ways = { side: message("against a wall"), corner: message("in a corner"), free: message("free on the floor") };
const steps = { mm: [1, 5, 10, 50, 100], in: [25.4 / 16, 25.4 / 4, 25.4 / 2, 25.4, 50.8] };
const caughtWithin = 14; // px to what a thing snaps to

const placing = {
  table: "", rooms: [], chosen: "", adding: "", pose: null, held: null, tap: null, told: "",

  get room() { return this.rooms.find((r) => r.table === this.table); },
  get thing() { return this.room?.things.find((t) => t.table === this.chosen); },
  called(t) { return t.name && t.name !== t.kind ? t.name : say(thingNames[t.kind] || t.kind); },

  // ---- the plan in the window

  async open(table) {
    Object.assign(this, { table, chosen: "", adding: "", pose: null, held: null, told: "", before: view.shown, rooms: [] });
    view.hand = this;
    view.cables = [];
    view.shown = "arrange:" + table;
    $("view").classList.add("plan");
    $("paper").setAttribute("role", "application");
    $("paper").setAttribute("aria-label", say("Plan of the room. Choose a thing in the list; arrows then move it, Shift for more, Enter goes to its figures, Escape lets it go. Plus and minus zoom"));
    $("tip").hidden = true;
    $("hint").textContent = "";
    $("panel").scrollTop = 0;
    $("paper").replaceChildren();
    view.svg = null;
    wayBack.keep();
    await this.again();
  },
  close() {
    this.settle();
    view.hand = null;
    $("plan-shown")?.remove();
    $("view").classList.remove("plan");
    $("paper").setAttribute("role", "img");
    $("paper").setAttribute("aria-label", say("Drawing; plus and minus zoom, arrows move it"));
    $("paper").replaceChildren();
    $("tip").hidden = true;
    view.svg = null;
    view.shown = this.before;
    sheets.show(this.before);
    if (mode === "Room") roomAgain();
  },
  // again shows the room as the job's text has it now
  async again() {
    const text = job.text;
    let rooms = this.rooms, parts = this.parts;
    try {
      rooms = await engine.ask("arrange", { name: job.name, text });
      parts = await engine.ask("tables", { text });
    } catch (e) {
      this.told = e.message;
    }
    if (view.hand !== this || text !== job.text) return; // a newer text is asked about, which has what was chosen since
    Object.assign(this, { rooms, parts });
    if (!this.held && !this.resting) this.pose = null;
    if (!this.thing) this.chosen = "";
    if (this.room) this.show(); else this.told ||= say("The walls have to close before anything can stand in the room.");
    this.panel();
  },
  show() {
    const xs = this.room.outline.map((p) => p[0]), ys = this.room.outline.map((p) => -p[1]);
    const x = Math.min(...xs), y = Math.min(...ys), w = Math.max(...xs) - x, h = Math.max(...ys) - y, edge = Math.max(w, h) / 9;
    this.marks = drawnAs("g", {});
    view.svg = drawnAs("svg", { viewBox: [x, y, w, h].join(" ") }, this.marks);
    view.paper = [x - edge, y - edge, w + 2 * edge, h + 2 * edge];
    $("paper").replaceChildren(view.svg);
    if (!$("plan-shown")) $("sheets").prepend(element("option", { value: "", id: "plan-shown" }, say("Plan: %s", this.room.name)));
    $("sheets").value = "";
    view.look(view.looks[view.shown] || view.paper);
  },
  get scale() { return view.svg?.getScreenCTM()?.a || 1; },
  get snap() { return caughtWithin / this.scale; },
  // step is the least that is worth moving by at this zoom
  get step() { const all = steps[inches() ? "in" : "mm"]; return all.find((s) => s * this.scale >= 1) || all.at(-1); },

  drawn() {
    if (!this.room) return;
    const k = 1 / this.scale, out = [], room = this.room, path = (points, closed) => "M" + points.map((p) => p[0] + " " + -p[1]).join("L") + (closed ? "Z" : "");
    out.push(drawnAs("path", { d: path(room.outline, true), class: "floor" }));
    for (const c of room.cables || []) out.push(drawnAs("path", { d: path(c), class: "cable" }));
    const words = (at, text, kind, size = 13) => drawnAs("text", { x: at[0], y: -at[1], "font-size": size * k, "stroke-width": 4 * k, class: kind }, text);
    const rank = (t) => t.table === this.chosen ? 2 : t.shape.length > 2 ? 0 : 1; // what is small lies on what is large
    for (const t of [...room.things].sort((a, b) => rank(a) - rank(b))) out.push(this.drawnThing(t, k, path, words));
    for (const s of room.sides) if (!s.face) { const f = frame(s, s.length / 2); out.push(words(plus(f.at, f.out, -14 * k), s.name, "letter")); }
    this.marks.replaceChildren(...out);
  },
  drawnThing(t, k, path, words) {
    const mine = t.table === this.chosen, shape = mine && this.pose ? posed(this.room, t, this.pose) : t.shape;
    const g = drawnAs("g", { class: "thing " + t.kind + (mine ? " chosen" : "") + (mine && this.pose && overOther(this.room, t, shape) ? " over" : ""), "data-table": t.table });
    if (shape.length === 1) {
      const [x, y] = shape[0], r = 8 * k;
      g.append(drawnAs("path", { d: `M${x - r} ${-y - r}h${2 * r}v${2 * r}h${-2 * r}Z`, class: "solid" }));
    } else g.append(drawnAs("path", { d: path(shape, shape.length > 2), class: shape.length > 2 ? "solid" : "line" }));
    if (t.way === "ends") for (const p of shape) g.append(drawnAs("circle", { cx: p[0], cy: -p[1], r: (mine ? 8 : 5) * k, class: "end" }));
    const at = middle(shape), side = shape.length < 3 && t.side >= 0 ? frame(this.room.sides[mine && this.pose ? this.pose.side : t.side], 0) : null;
    g.append(words(side ? plus(at, side.out, 18 * k) : at, this.called(t), "name", 12));
    return g;
  },

  // ---- fingers: a tap chooses, a drag on a thing moves it, elsewhere the plan

  at(e) { const q = view.at(e.clientX, e.clientY); return [q.x, -q.y]; },
  // hit is what lies under a finger: { thing, end }
  hit(q) {
    const reach = 22 / this.scale, all = [];
    for (const thing of this.room.things) {
      const mine = thing.table === this.chosen ? -reach : 0, area = thing.shape.length > 2 ? Math.abs(areaOf(thing.shape)) : 0;
      if (thing.way === "ends") ["from", "to"].forEach((end, i) => { const d = far(thing.shape[i], q); if (d <= reach) all.push({ thing, end, rank: d + mine - reach, area: 0 }); });
      const d = offShape(thing.shape, q);
      if (d <= (area ? reach / 2 : reach)) all.push({ thing, rank: d + mine, area });
    }
    return all.sort((a, b) => a.rank - b.rank || a.area - b.area)[0];
  },
  down(e) {
    if (!this.room) return;
    if (fingers.size > 1) { this.letGo(); return; }
    const q = this.at(e);
    this.tap = { id: e.pointerId, x: e.clientX, y: e.clientY, q, hit: this.adding ? null : this.hit(q) };
  },
  move(e) {
    const tap = this.tap;
    if (!tap || tap.id !== e.pointerId) return !!this.held;
    if (!this.held) {
      if (Math.hypot(e.clientX - tap.x, e.clientY - tap.y) <= slipOf) return !!tap.hit;
      if (!tap.hit) { this.tap = null; return false; }
      this.settle();
      this.held = { ...tap.hit, from: tap.q };
      if (this.chosen !== tap.hit.thing.table) { this.chosen = tap.hit.thing.table; this.panel(); }
    }
    this.pose = this.dragged(this.at(e));
    this.drawn();
    this.tell();
    return true;
  },
  dragged(q) {
    const { thing, end, from } = this.held, by = sub(q, from), to = plus(middle(thing.shape), by), room = this.room;
    if (end) return endAt(room, thing, end, plus(thing.shape[end === "from" ? 0 : 1], by), this.snap, this.step);
    if (thing.way === "side") return slid(room, thing, to, this.pose?.side ?? thing.side, this.snap, this.step);
    if (thing.way === "corner") return cornered(room, thing, to);
    return { ...poseOf(thing), by: thing.way === "ends" ? this.across(thing, by) : shifted(room, thing, by, this.snap, this.step) };
  },
  // across moves a joint square to itself: along itself it would stay the same
  across(thing, by) {
    const round = (v) => Math.round(v / this.step) * this.step;
    if (thing.kind !== "joint") return by.map(round);
    const d = sub(thing.shape[1], thing.shape[0]), length = Math.hypot(...d) || 1, n = [-d[1] / length, d[0] / length], k = round(dot(by, n));
    return [n[0] * k, n[1] * k];
  },
  up(e) {
    const { tap, held } = this;
    if (tap?.id !== e.pointerId && !held) return;
    this.tap = this.held = null;
    if (e.type !== "pointerup") { this.letGo(); return; }
    if (held) { this.put(held.thing, this.pose); return; }
    if (this.adding) { this.add(tap.q); return; }
    this.choose(tap.hit?.thing.table || "");
  },
  letGo() {
    Object.assign(this, { tap: null, held: null, pose: this.resting ? this.pose : null });
    $("tip").hidden = true;
    this.drawn();
  },
  choose(table) {
    this.settle();
    Object.assign(this, { chosen: table, adding: "", pose: null, told: "" });
    this.drawn();
    this.panel();
    this.tell();
    if (table) $("thing-form")?.scrollIntoView({ block: "nearest" });
  },

  // ---- where a thing is, in words

  tell() {
    const t = this.thing;
    $("tip").hidden = !t;
    if (t) $("tip").textContent = this.called(t) + ": " + this.where(t, this.pose || poseOf(t));
  },
  where(t, pose) {
    const other = overOther(this.room, t, posed(this.room, t, pose));
    return this.place(t, pose) + (other ? say("; over %s", this.called(other)) : "");
  },
  place(t, pose) {
    if (pose.way === "corner") return say("in corner %s", pose.corner);
    if (pose.way === "side" && pose.side >= 0) {
      const s = this.room.sides[pose.side], high = pose.low + t.high - t.low;
      return say("%s, %s from its start, %s to its end", s.face ? s.name + ", " + s.face : say("wall %s", s.name), onTape(pose.low), onTape(Math.max(0, s.length - high)));
    }
    const shape = posed(this.room, t, pose), off = (s) => Math.min(...shape.map((p) => nearestOn(s.line, p).off));
    const all = this.room.sides.filter((s) => !s.face && s.line.length === 2).map((s) => ({ s, off: off(s) }));
    const clear = t.way === "ends" ? all.filter((n) => n.off >= 1) : all; // the walls that a joint goes to say nothing of where it is
    const near = (clear.length ? clear : all).sort((a, b) => a.off - b.off).slice(0, 2);
    return near.map((n) => say("%s off wall %s", onTape(n.off), n.s.name)).join(", ");
  },

  // ---- keys on the plan

  key(e) {
    const way = { ArrowLeft: [-1, 0], ArrowRight: [1, 0], ArrowUp: [0, 1], ArrowDown: [0, -1] }[e.key];
    if (way && this.thing) { this.nudge(way, e.shiftKey ? 10 : 1); return true; }
    if (e.key === "Enter" && this.adding) { const [x, y, w, h] = view.box(); this.add([x + w / 2, -y - h / 2]); return true; }
    if (e.key === "Enter" && this.thing) { this.settle(); document.querySelector("#thing-form [data-key]")?.focus(); return true; }
    if (e.key === "Escape" && (this.adding || this.chosen)) { this.choose(""); return true; }
    if (e.key === "Delete" && this.thing) { this.drop(this.thing); return true; }
    return false;
  },
  // nudge moves the chosen thing by a step; one against a wall goes to another where it is pushed off its own.
  // An edit follows once it rests.
  nudge(way, by = 1) {
    const t = this.thing, pose = { ...(this.pose || poseOf(t)) }, room = this.room, d = this.step * by;
    if (!t) return;
    clearTimeout(this.resting);
    const now = middle(posed(room, t, pose)), ahead = (p) => { const v = sub(middle(posed(room, t, p)), now); return dot(v, way) > 0.5 * Math.hypot(...v) && Math.hypot(...v) > 1; };
    const nearest = (all) => all.filter(ahead).sort((a, b) => far(middle(posed(room, t, a)), now) - far(middle(posed(room, t, b)), now))[0];
    const side = pose.way === "side" && pose.side >= 0 ? room.sides[pose.side] : null, along = side ? dot(frame(side, pose.low).on, way) : 0;
    if (side && Math.abs(along) > 0.5) pose.low = within(0, pose.low + Math.sign(along) * d, side.length - (t.high - t.low));
    else if (side) Object.assign(pose, nearest(room.sides.map((s, i) => ({ s, ...poseOf(t), side: i, low: within(0, nearestOn(s.line, now).part - (t.high - t.low) / 2, s.length - (t.high - t.low)) })).filter((p) => mayStand(t, p.s)).map(({ s, ...p }) => p)));
    else if (pose.way === "corner") Object.assign(pose, nearest(room.sides.filter((s) => !s.face && s.line.length === 2).map((s) => ({ ...poseOf(t), corner: s.name }))));
    else pose.by = plus(pose.by, way, d);
    this.pose = pose;
    this.resting = setTimeout(() => this.settle(), 600);
    this.drawn();
    this.tell();
  },
  // settle makes the edit of what keys have moved
  settle() {
    if (!this.resting) return;
    clearTimeout(this.resting);
    this.resting = 0;
    if (this.thing && this.pose) this.put(this.thing, this.pose);
  },

  // ---- acts

  async did(ask) {
    this.told = "";
    try { return await ask(); } catch (e) { this.told = sentence(e.message); this.pose = null; this.drawn(); this.panel(); }
  },
  put(t, pose) {
    return this.did(async () => {
      const text = await engine.ask("move", { name: job.name, text: job.text, move: { table: t.table, ...pose } });
      if (text === job.text) { this.pose = null; this.drawn(); } else job.change(text);
    });
  },
  add(q) {
    const what = this.adding, near = this.room.sides.map((s, side) => ({ side, s, ...nearestOn(s.line, q) })).filter((n) => what !== "door" || !n.s.face).sort((a, b) => a.off - b.off)[0];
    this.adding = "";
    return this.did(async () => {
      const { text, table } = await engine.ask("stand", { name: job.name, text: job.text, new: { room: this.table, what, side: near.side, along: near.part / near.of * near.s.length, at: q.map((v) => Math.round(v / this.step) * this.step) } });
      this.chosen = table;
      job.change(text);
    });
  },
  drop(t) {
    this.choose("");
    $("paper").focus({ preventScroll: true });
    act({ do: "drop", table: t.table });
  },
  stand(t, way) {
    const to = middle(t.shape);
    if (way === "corner") return this.put(t, cornered(this.room, t, to));
    if (way === "free") return this.put(t, { ...poseOf(t), way });
    const near = this.room.sides.map((s, side) => ({ s, side, ...nearestOn(s.line, to) })).filter((n) => mayStand(t, n.s)).sort((a, b) => a.off - b.off)[0];
    return this.put(t, { ...poseOf(t), way, side: near.side, low: within(0, near.part / near.of * near.s.length - (t.high - t.low) / 2, near.s.length - (t.high - t.low)) });
  },

  // ---- the panel

  panel() {
    if (mode !== "Room") return;
    const panel = $("panel"), at = panel.scrollTop, focus = document.activeElement, key = focus?.dataset?.key, id = focus?.id, t = this.thing;
    panel.replaceChildren(element("div", { class: "row" }, button(say("\u2190 Back"), () => this.close(), { id: "plan-back" })), element("h2", {}, say("%s: arrange", this.room?.name || say("Room"))),
      element("p", { role: "status", id: "plan-told", class: this.told ? "slip" : "" }, this.told || this.wrong() || (this.adding ? say("Now tap where it stands. With keys: move the plan, then Enter puts it in the middle.") : t ? "" : say("Drag what stands in the room; it snaps to walls, corners and its neighbours. Tap it for exact figures."))),
      ...(t ? [this.card(t)] : []), ...(this.room ? [this.adder(), this.list()] : []));
    panel.scrollTop = at;
    if (document.activeElement !== document.body) return;
    const again = key ? [...panel.querySelectorAll("[data-key]")].find((e) => e.dataset.key === key) : id ? $(id) : null;
    again?.focus({ preventScroll: true });
  },
  // wrong is the first error of the job as it was drawn last
  wrong() {
    const slip = this.adding ? null : sheets.state.problems.find((p) => p.severity === "error");
    return slip ? element("span", { class: "slip" }, sentences(slip)) : "";
  },
  card(t) {
    const part = this.parts?.find((p) => p.table === t.table);
    const to = (id, words, arrow, way) => button(arrow, () => this.nudge(way), { "aria-label": say(words), id: "move-" + id });
    const nudges = element("div", { class: "row nudges" }, to("left", message("Move it left"), "\u2190", [-1, 0]), to("up", message("Move it up"), "\u2191", [0, 1]), to("down", message("Move it down"), "\u2193", [0, -1]), to("right", message("Move it right"), "\u2192", [1, 0]));
    const way = element("select", { id: "thing-way", "aria-label": say("How it stands") }, ...Object.entries(ways).map(([v, words]) => element("option", { value: v, selected: v === t.way }, say(words))));
    way.onchange = () => this.stand(t, way.value);
    return element("div", { id: "thing-form", class: "card" }, element("h3", {}, this.called(t), nudges), t.convert ? element("div", { class: "row" }, field(say("stands"), way)) : "",
      ...(part ? formRows(part) : []), element("div", { class: "row" }, button(say("Done"), () => this.choose(""), { id: "thing-done" })));
  },
  adder() {
    const kinds = keys.find((k) => k.Path === "room.fixture.kind")?.Values || [];
    const pick = element("select", { id: "plan-add", "aria-label": say("Add to the room") }, element("option", { value: "" }, say("add \u2026")),
      ...[["door"], ["opening"], ["window"], ...kinds.map((k) => [k]), ["keep-out"], ["joint", message("movement joint")]].map(([v, words]) => element("option", { value: v, selected: v === this.adding }, say(words || v))));
    pick.onchange = () => { this.settle(); Object.assign(this, { adding: pick.value, chosen: "", pose: null }); this.drawn(); this.tell(); this.panel(); };
    return element("div", { class: "row" }, pick, this.adding ? button(say("Leave it"), () => this.choose("")) : "");
  },
  list() {
    return element("ul", { class: "points", "aria-label": say("What stands in the room") }, ...this.room.things.map((t) => element("li", {}, button(element("span", {}, this.called(t), element("small", {}, this.where(t, poseOf(t)))),
      () => { this.choose(t.table); $("paper").focus({ preventScroll: true }); }, { "aria-pressed": String(t.table === this.chosen), "data-thing": t.table }))));
  },
};

// glimpse shows how the cable of a new job lies, until its sheets are drawn: that takes as long again.
async function glimpse() {
  const nothing = () => !view.svg && !view.hand && !sheets.state.sheets.length, rooms = nothing() ? await engine.ask("arrange", { name: job.name, text: job.text }) : [];
  if (!rooms.length || !nothing()) return;
  const room = rooms[0], path = (points, kind, end = "Z") => drawnAs("path", { d: "M" + points.map((p) => p[0] + " " + -p[1]).join("L") + end, class: kind });
  const xs = room.outline.map((p) => p[0]), ys = room.outline.map((p) => -p[1]), x = Math.min(...xs), y = Math.min(...ys), w = Math.max(...xs) - x, h = Math.max(...ys) - y, edge = Math.max(w, h) / 9;
  $("hint").textContent = "";
  $("paper").replaceChildren(drawnAs("svg", { class: "glimpse", viewBox: [x - edge, y - edge, w + 2 * edge, h + 2 * edge].join(" ") }, path(room.outline, "floor"),
    ...room.things.filter((t) => t.shape.length > 1).map((t) => path(t.shape, "thing")), ...(room.cables || []).map((c) => path(c, "cable", ""))));
}

const areaOf = (ring) => ring.reduce((sum, p, i) => { const q = ring[(i + 1) % ring.length]; return sum + p[0] * q[1] - q[0] * p[1]; }, 0) / 2;
