// One photo in the window: its known points tapped, moved and said where they are on the
// floor. Each act on a photo of the job is an edit of its text; until its points settle how
// it shows the floor, a photo is no part of the job and its points are kept beside it.
"use strict";

const drawnAs = (tag, attributes, ...inside) => {
  const e = document.createElementNS("http://www.w3.org/2000/svg", tag);
  for (const [name, value] of Object.entries(attributes)) e.setAttribute(name, value);
  e.append(...inside);
  return e;
};

const reach = 24, slipOf = 10, holdFor = 350; // px round a point, px a tap may stray, ms until a finger picks
const round = (q) => [Math.round(q[0]), Math.round(q[1])];

const pointing = {
  file: "", chosen: -1, pending: null, run: null, told: [], held: null, tap: null,

  // ---- which photo

  get meta() { return job.photos[this.file]; },
  get draft() { return draftOf(this.file); },
  get one() { return inJob(this.file) || this.draft; },
  // room is that of the photo, with the places too that its cable's record has measured
  get room() {
    const name = this.one?.room, room = listed.rooms.find((r) => r.name === name) || listed.rooms[0], spots = this.recordIn(room)?.spots || [];
    return room && { ...room, spots: [...room.spots, ...spots] };
  },
  recordIn(room) { const p = inJob(this.file); return p ? room?.records.find((r) => p.table.startsWith(r.table + "/")) : recordOf(room, this.draft?.cable); },
  get record() { return this.recordIn(this.room); },
  get cable() { return this.record?.cable || this.draft?.cable || this.room?.cables[0] || ""; },

  async open(file) {
    Object.assign(this, { file, chosen: -1, pending: null, run: null, told: [], held: null, tap: null, before: view.shown });
    const held = await photoStore.get(this.meta.sum), small = photoStore.small.get(this.meta.sum) || held?.small;
    const whole = held?.original?.type === "image/jpeg" && held.original; // others may lie turned in a browser
    this.show(URL.createObjectURL(whole || blobOf(small)), whole ? URL.createObjectURL(blobOf(small)) : "");
    this.panel();
    $("panel").scrollTop = 0;
    wayBack.keep();
    $("paper").focus({ preventScroll: true });
  },
  show(url, other) {
    const { wide, high } = this.meta, size = { width: wide, height: high, preserveAspectRatio: "none" };
    const image = drawnAs("image", { ...size, href: url }), under = drawnAs("image", { ...size, href: url });
    image.onerror = () => { if (other) for (const i of [image, under]) i.setAttribute("href", other); };
    this.urls = [url, other];
    this.marks = drawnAs("g", {});
    view.svg = drawnAs("svg", { viewBox: [0, 0, wide, high].join(" ") }, image, this.marks);
    this.glass = element("div", { id: "loupe", hidden: true });
    this.lens = drawnAs("svg", {}, under);
    this.glass.append(this.lens);
    view.photo = view.hand = this;
    view.paper = [0, 0, wide, high];
    view.cables = [];
    view.shown = "photo:" + this.file;
    $("view").classList.add("photo");
    $("paper").setAttribute("aria-label", say("Photo %s. Plus and minus zoom, arrows move it; Enter puts a point in the middle, which arrows then move; Escape lets it go", this.file));
    $("paper").setAttribute("role", "application");
    $("paper").replaceChildren(view.svg);
    $("view").append(this.glass);
    $("sheets").prepend(element("option", { value: "", selected: true, id: "photo-shown" }, this.file));
    $("hint").textContent = "";
    $("tip").hidden = true;
    view.look(view.looks[view.shown] || view.paper);
  },
  close() {
    view.photo = view.hand = null;
    for (const u of this.urls) if (u) URL.revokeObjectURL(u);
    this.glass.remove();
    $("photo-shown")?.remove();
    $("view").classList.remove("photo");
    $("paper").setAttribute("role", "img");
    $("paper").setAttribute("aria-label", say("Drawing; plus and minus zoom, arrows move it"));
    $("paper").replaceChildren();
    view.svg = null;
    view.shown = this.before;
    if (mode === "Site" && asked === "laid") { sitePanel($("panel")); this.back = this.file; }
    sheets.show(this.before);
    draw();
  },
  // again shows what has become of the photo's points
  async again() {
    if (!view.photo) return;
    if (!this.one) { this.close(); return; }
    if (this.chosen >= this.one.points.length) this.chosen = -1;
    this.drawn();
    this.panel();
  },

  // ---- the marks over the picture, as large at any zoom

  get scale() { return view.svg?.getScreenCTM()?.a || 1; },
  drawn() {
    const k = 1 / this.scale, on = this.one, out = [];
    const line = (path, kind) => drawnAs("path", { d: "M" + path.map((q) => q.join(" ")).join("L"), class: kind });
    for (const l of on?.lines || []) out.push(line(l.path, "under"), line(l.path, "over " + l.kind));
    for (const r of on?.runs || []) out.push(line(r.image, "under"), line(r.image, "over moved"));
    if (this.run) {
      const n = on.numbers?.find((n) => n.run === this.run.run && (!this.run.cable || n.cable === this.run.cable));
      if (n && !this.run.image.length) out.push(line(n.path, "under"), line(n.path, "over chosen"));
      if (this.run.image.length > 1) out.push(line(this.run.image, "under"), line(this.run.image, "over moved"));
      this.run.image.forEach((q, i) => out.push(this.cross(q, k, i + 1, "moved")));
    } else {
      (on?.points || []).forEach((p, i) => out.push(this.cross(p.image, k, i + 1, (i === this.chosen ? "chosen " : "") + (i === on.worst ? "worst" : ""))));
      if (this.pending) out.push(this.cross(this.pending, k, "?", "chosen"));
    }
    this.marks.replaceChildren(...out);
    $("view").classList.toggle("marked", !!(this.pending || this.chosen >= 0));
    this.look();
  },
  cross([x, y], k, words, kind) {
    const arm = 15 * k, gap = 3 * k;
    const d = [[-arm, 0, -gap, 0], [gap, 0, arm, 0], [0, -arm, 0, -gap], [0, gap, 0, arm]].map(([a, b, c, e]) => "M" + (x + a) + " " + (y + b) + "L" + (x + c) + " " + (y + e)).join("");
    return drawnAs("g", { class: "known " + kind }, drawnAs("path", { d, class: "under" }), drawnAs("path", { d, class: "over" }),
      drawnAs("text", { x: x + 7 * k, y: y - 7 * k, "font-size": 15 * k, "stroke-width": 4 * k }, String(words)));
  },
  // look turns the magnifier on the point that is being placed, across the window from it
  look() {
    const q = this.run ? this.run.image[this.held?.vertex ?? this.run.image.length - 1] : this.pending || this.one?.points[this.chosen]?.image;
    this.glass.hidden = !q;
    if (!q) return;
    const box = $("view").getBoundingClientRect(), at = new DOMPoint(q[0], q[1]).matrixTransform(view.svg.getScreenCTM());
    const high = 132, span = high / Math.min(Math.max(3 * this.scale, 1), 8);
    this.lens.setAttribute("viewBox", [q[0] + 0.5 - span / 2, q[1] + 0.5 - span / 2, span, span].join(" "));
    this.glass.classList.toggle("right", at.x < box.left + box.width / 2);
  },

  // ---- fingers: a tap puts a point, one that is held or on a point moves it, else the photo moves

  at(e) { const q = view.at(e.clientX, e.clientY); return [q.x, q.y]; },
  inside([x, y]) { return x >= 0 && y >= 0 && x <= this.meta.wide && y <= this.meta.high; },
  // near finds the mark under a finger: { image, put(image) }
  near(q) {
    const all = this.run ? this.run.image.map((image, vertex) => ({ image, vertex, put: (to) => { this.run.image[vertex] = to; } })) :
      [...this.one.points.map((p, i) => ({ image: p.image, point: i, put: (to) => { p.image = to; } })), ...(this.pending ? [{ image: this.pending, put: (to) => { this.pending = to; } }] : [])];
    let best = null, least = reach / this.scale;
    for (const m of all) {
      const d = Math.hypot(m.image[0] - q[0], m.image[1] - q[1]);
      if (d <= least) { least = d; best = m; }
    }
    return best;
  },
  down(e) {
    clearTimeout(this.tap?.timer);
    if (fingers.size > 1) { this.tap = this.held = null; return; }
    const q = this.at(e), near = this.near(q);
    this.tap = { id: e.pointerId, x: e.clientX, y: e.clientY, near };
    if (near) { this.hold(near, q); return; }
    this.tap.timer = setTimeout(() => { this.put(q); this.hold(this.near(q), q); }, holdFor);
  },
  hold(mark, from) {
    if (!mark) return;
    this.held = { ...mark, from, began: mark.image };
    if (mark.point !== undefined && mark.point !== this.chosen) { this.chosen = mark.point; this.pending = null; }
    this.drawn();
  },
  move(e) {
    if (this.tap?.id === e.pointerId && Math.hypot(e.clientX - this.tap.x, e.clientY - this.tap.y) > slipOf) { clearTimeout(this.tap.timer); this.tap = null; }
    if (!this.held || fingers.size > 1) return !!this.held;
    const q = this.at(e), to = round([this.held.began[0] + q[0] - this.held.from[0], this.held.began[1] + q[1] - this.held.from[1]]);
    if (this.inside(to)) { this.held.put(to); this.held.moved = true; this.drawn(); }
    return true;
  },
  up(e) {
    clearTimeout(this.tap?.timer);
    const { tap, held } = this;
    this.tap = this.held = null;
    if (held) {
      if (held.moved && held.point !== undefined) this.moved(held.point); else this.panel();
      return;
    }
    if (tap?.id === e.pointerId && e.type === "pointerup") this.put(this.at(e));
  },
  // put puts a new mark on the picture
  put(q) {
    if (!this.inside(q)) return;
    if (this.run) this.run.image.push(round(q)); else Object.assign(this, { pending: round(q), chosen: -1 });
    this.drawn();
    this.panel();
  },

  // ---- keys on the picture

  key(e) {
    const way = { ArrowLeft: [-1, 0], ArrowRight: [1, 0], ArrowUp: [0, -1], ArrowDown: [0, 1] }[e.key];
    const marked = this.pending || this.chosen >= 0 || this.run?.image.length;
    if (way && marked) { this.nudge(way, e.shiftKey ? 10 : 1); return true; }
    if (e.key === "Enter") {
      if (this.pending || this.chosen >= 0) $("spot")?.focus(); else { const [x, y, w, h] = view.box(); this.put([x + w / 2, y + h / 2]); }
      return true;
    }
    if (e.key === "Escape" && marked) { Object.assign(this, { pending: null, chosen: -1 }); this.drawn(); this.panel(); return true; }
    if (e.key === "Delete" && this.chosen >= 0) { this.drop(this.chosen); return true; }
    return false;
  },
  // nudge moves the mark at hand by pixels of the window; an edit follows once it rests
  nudge([dx, dy], by = 1) {
    const step = by * Math.max(1, Math.round(1 / this.scale));
    const to = (q) => { const n = [q[0] + dx * step, q[1] + dy * step]; return this.inside(n) ? n : q; };
    clearTimeout(this.resting);
    if (this.run) { const last = this.run.image.length - 1; if (last >= 0) this.run.image[last] = to(this.run.image[last]); }
    else if (this.pending) this.pending = to(this.pending);
    else if (this.chosen >= 0) {
      const i = this.chosen;
      this.one.points[i].image = to(this.one.points[i].image);
      this.resting = setTimeout(() => this.moved(i), 600);
    }
    this.drawn();
  },

  // ---- acts: of a draft on what is kept beside the job, else edits of the job's text

  async did(changes) {
    const trouble = await edit(...changes);
    this.told = trouble ? [trouble] : [];
    await readPhotos();
    await this.again();
  },
  async draftDid() {
    job.drafts = [...job.drafts];
    job.keep();
    this.told = [];
    if (this.draft.points.length >= fewestPoints) await this.settle();
    await this.again();
  },
  moved(i) {
    const p = inJob(this.file), image = JSON.stringify(this.one.points[i].image).replace(",", ", ");
    if (p) return this.did([{ do: "set", table: p.table + "/point/" + i, key: "image", value: image }]);
    return this.draftDid();
  },
  // spot says where on the floor the mark at hand is
  async spot(s) {
    const p = inJob(this.file), i = this.chosen, image = this.pending;
    Object.assign(this, { pending: null, chosen: -1 });
    $("paper").focus({ preventScroll: true });
    if (p && image) return this.did([{ do: "add", table: p.table + "/point", lines: pointLines({ image, ...s }) }]);
    if (p) {
      const table = p.table + "/point/" + i, was = p.points[i].key;
      return this.did([...(was && was !== s.key ? [{ do: "unset", table, key: was }] : []), { do: "set", table, key: s.key, value: s.value }]);
    }
    const held = { key: s.key, value: s.value, name: s.label };
    if (image) this.draft.points.push({ image, ...held }); else Object.assign(this.draft.points[i], held);
    return this.draftDid();
  },
  async drop(i) {
    const p = inJob(this.file);
    this.chosen = -1;
    $("paper").focus({ preventScroll: true });
    if (!p) { this.draft.points.splice(i, 1); return this.draftDid(); }
    if (p.points.length > fewestPoints) return this.did([{ do: "drop", table: p.table + "/point/" + i }]);
    if (p.runs.length) { this.told = [say("A photo needs %s points, and this one says where runs lie: add another point first.", fewestPoints)]; return this.again(); }
    const points = p.points.filter((_, k) => k !== i).map(({ image, key, value, name }) => ({ image, key, value, name }));
    job.drafts = [...job.drafts.filter((d) => d.file !== this.file), { file: this.file, room: p.room, cable: this.record?.cable || "", date: p.date || today(), keep: p.keep, points }];
    job.keep();
    return this.did([{ do: "drop", table: p.table }]);
  },
  // settle puts a photo into the job once its points go together
  async settle() {
    try {
      const text = await engine.ask("edit", { text: job.text, changes: await newPhoto(this.draft, this.meta) });
      const would = await engine.ask("photos", { name: job.name, text });
      const slips = (would.photos.find((p) => p.file === this.file)?.problems || []).filter((d) => d.severity === "error");
      this.told = slips.map(sentences);
      if (slips.length) return;
      job.change(text); // the draft stays: undo comes back to it
      await readPhotos();
    } catch (e) {
      this.told = [e.message];
    }
  },
  async takeOut() {
    if (!confirm(say("Take %s out of the job?", this.file))) return;
    const p = inJob(this.file), { [this.file]: _, ...others } = job.photos;
    job.drafts = job.drafts.filter((d) => d.file !== this.file);
    if (p) await edit({ do: "drop", table: p.table });
    else job.photos = others; // undo brings a photo of the job back, and needs its picture
    job.keep();
    await readPhotos();
    this.close();
  },

  // ---- the panel

  panel() {
    const panel = $("panel"), at = panel.scrollTop, focus = document.activeElement?.id;
    const p = inJob(this.file), on = this.one;
    if (!on) return;
    const marked = this.pending || this.chosen >= 0;
    const slips = [...this.told, ...(p?.problems || []).map(sentences), ...photoProblems(p)], state = sentence(stateOf(this.file));
    const how = marked || this.run ? [] : [element("p", {}, on.points.length < fewestPoints ? say("Tap a place in the photo that you know on the floor: a corner, or a cross taped off two walls. Hold to see it larger.") : say("Tap to add a point; drag one to move it."))];
    panel.replaceChildren(element("div", { class: "row" }, button(say("\u2190 Back"), () => this.close(), { id: "photo-back" })), element("h2", {}, this.file),
      element("div", { id: "photo-words", role: "status" }, element("p", { class: slips.length ? "slip" : "say" }, state), ...[...new Set(slips)].map((w) => element("p", { class: "slip" }, w)), ...(p?.words || []).map((w) => element("p", {}, w))),
      ...how, ...(this.run ? [this.runForm()] : marked ? [this.spotForm()] : []), this.list(), ...(this.run ? [] : [this.more()]));
    panel.scrollTop = !marked && this.asking ? 0 : at; // what came of a point is said at the top
    if (focus && document.activeElement === document.body) $(focus)?.focus({ preventScroll: true });
    if (marked && this.asking !== String(this.pending || this.chosen)) $("spot-form")?.scrollIntoView({ block: "nearest" });
    this.asking = String(marked ? this.pending || this.chosen : "");
  },
  nudges() {
    const to = (id, words, arrow, way) => button(arrow, () => this.nudge(way), { "aria-label": say(words), id: "nudge-" + id });
    return element("div", { class: "row nudges" }, to("left", message("Move it left"), "\u2190", [-1, 0]), to("up", message("Move it up"), "\u2191", [0, -1]), to("down", message("Move it down"), "\u2193", [0, 1]), to("right", message("Move it right"), "\u2192", [1, 0]));
  },
  spotForm() {
    const room = this.room, on = this.one, point = on.points[this.chosen], spots = room?.spots || [];
    const same = (s, p) => p && s.key === p.key && s.value === p.value;
    const taken = (s) => on.points.some((p, i) => i !== this.chosen && same(s, p));
    const groups = [...new Set(spots.map((s) => s.group))];
    const pick = element("select", { id: "spot", "aria-label": say("Where on the floor this point is") }, element("option", { value: "" }, point ? this.called(point) : say("choose \u2026")),
      element("option", { value: "taped" }, say("two distances from walls")),
      ...groups.map((g) => element("optgroup", { label: g }, ...spots.map((s, i) => s.group === g ? element("option", { value: i, disabled: taken(s), selected: same(s, point) }, s.label) : ""))));
    const plan = planOf(room, spots, (i) => { if (!taken(spots[i])) { pick.value = i; chosen(); } });
    const walls = [0, 1].map((k) => element("select", { id: "off-wall-" + k, "aria-label": k ? say("second wall") : say("first wall") }, ...(room?.walls || []).map((w, i) => element("option", { selected: i === k }, w.letter))));
    const off = [0, 1].map((k) => input(k ? say("distance off the second wall") : say("distance off the first wall"), { id: "off-" + k, placeholder: inches() ? "2ft 3in" : "690", inputmode: inches() ? "text" : "decimal" }));
    const taped = element("div", { hidden: true }, ...[0, 1].map((k) => element("div", { class: "row" }, field(say("off wall"), walls[k]), field(say("distance, square off it"), off[k]))));
    const told = element("p", { class: "slip", role: "alert" });
    const chosen = () => { taped.hidden = pick.value !== "taped"; plan.mark(spots[pick.value]); set.disabled = pick.value === ""; };
    const set = button(point ? say("Set it there") : say("It is there"), async () => {
      if (pick.value !== "taped") { this.spot(spots[pick.value]); return; }
      try { this.spot(await engine.ask("place", { name: job.name, text: job.text, room: room.name, walls: walls.map((w) => w.value), distances: off.map((o) => o.value.trim()) })); } catch (e) { told.textContent = e.message; }
    }, { class: "main", id: "spot-set" });
    pick.onchange = chosen;
    for (const o of off) o.onkeydown = (e) => { if (e.key === "Enter") set.click(); };
    chosen();
    return element("div", { id: "spot-form", class: "card" }, element("h3", {}, point ? point.off ? say("Point %s, %s off", this.chosen + 1, point.off) : say("Point %s", this.chosen + 1) : say("New point"), this.nudges()), field(say("Where on the floor is it?"), pick), taped, told,
      element("div", { class: "row" }, set, point ? button(say("Take it out"), () => this.drop(this.chosen), { id: "spot-drop" }) : "", button(say("Leave it"), () => { Object.assign(this, { pending: null, chosen: -1 }); this.drawn(); this.panel(); $("paper").focus(); })), plan.svg);
  },
  // called is what a point is called: in the words of the list, else as it is written
  called(p) {
    if (p.key === "corner") return say("corner %s", p.value.replace(/["']/g, ""));
    const s = this.room?.spots.find((s) => s.key === p.key && s.value === p.value);
    return s?.label || p.name || p.value;
  },
  list() {
    const on = this.one;
    return element("ol", { class: "points" }, ...on.points.map((p, i) => element("li", {}, button(element("span", {}, element("b", {}, String(i + 1)), " " + this.called(p), element("small", { class: i === on.worst ? "slip" : "" }, i === on.worst ? p.off ? say("the worst: %s off", p.off) : say("the worst") : p.off ? say("%s off", p.off) : "")),
      () => { Object.assign(this, { chosen: i, pending: null, run: null }); this.drawn(); this.panel(); }, { "aria-pressed": String(i === this.chosen), "data-point": i }))));
  },
  // more is what else can be said of a photo
  more() {
    const p = inJob(this.file), on = this.one, room = this.room, draft = this.draft;
    const out = element("div", {});
    if (p && p.words.length) {
      if (p.numbers.length) out.append(button(say("A run lies elsewhere than drawn"), () => { Object.assign(this, { run: { run: 0, image: [] }, chosen: -1 }); this.drawn(); this.panel(); }, { id: "run-moved" }));
      if (!this.record?.settled && listed.plan) out.append(button(say("All runs lie as drawn"), () => this.asDrawn(), { id: "as-drawn" }));
      p.runs.forEach((r, i) => out.append(element("div", { class: "row" }, say("Run %s lies elsewhere.", r.run), button(say("Take back"), () => this.did([{ do: "drop", table: p.table + "/run/" + i }])))));
    }
    const day = element("input", { type: "date", value: on.date, "aria-label": say("day it was taken") });
    day.onchange = () => { if (p) this.did([{ do: day.value ? "set" : "unset", table: p.table, key: "date", value: day.value }]); else { draft.date = day.value || today(); this.draftDid(); } };
    const rooms = element("select", { "aria-label": say("room in the photo") }, ...listed.rooms.map((r) => element("option", { selected: r.name === on.room }, r.name)));
    rooms.onchange = () => { Object.assign(draft, { room: rooms.value, cable: "", points: [] }); this.draftDid(); };
    const cable = cablePick(room, this.cable, { id: "photo-of" });
    cable.onchange = () => this.ofCable(cable.value);
    const keep = element("input", { type: "checkbox", id: "photo-keep" });
    keep.checked = on.keep;
    keep.onchange = () => { if (p) this.did([keep.checked ? { do: "set", table: p.table, key: "keep_location", value: "true" } : { do: "unset", table: p.table, key: "keep_location" }]); else { draft.keep = keep.checked; this.draftDid(); } };
    out.append(element("div", { class: "row" }, field(say("taken on"), day), !p && listed.rooms.length > 1 ? field(say("room"), rooms) : "", room?.cables.length > 1 ? field(say("of cable"), cable) : ""),
      this.meta.placed ? element("label", { class: "row" }, keep, say("Its camera wrote where on earth it was taken: keep that in copies")) : "",
      element("div", { class: "row" }, button(say("Take the photo out"), () => this.takeOut(), { id: "photo-drop" })));
    return out;
  },
  // ofCable puts the photo on the record of another cable
  async ofCable(cable) {
    const p = inJob(this.file);
    if (!p) { this.draft.cable = cable; return this.draftDid(); }
    if (p.runs.length) { this.told = [say("It says where runs of cable %s lie: take those back first.", this.cable)]; return this.again(); }
    const points = p.points.map(({ image, key, value }) => ({ image, key, value }));
    const moved = { file: this.file, room: p.room, cable, date: p.date || today(), keep: p.keep, points };
    return this.did([{ do: "drop", table: p.table }, ...await newPhoto(moved, this.meta)]);
  },
  // asDrawn has the person say what no photo says by itself
  async asDrawn() {
    if (!confirm(say("Say so only if every run, lead and sensor was held against plan %s and lies as drawn there. Is that so?", listed.plan))) return;
    await this.did([...claim(this.record), ...asPlanned(this.record)]);
  },
  // numbers are the runs in the photo of the cable that it is on record of
  numbers(p) { return p.numbers.filter((n) => !this.record?.cable || n.cable === this.record.cable); },
  runForm() {
    const p = inJob(this.file), room = this.room, record = this.record, numbers = this.numbers(p);
    const which = element("select", { id: "run", "aria-label": say("Run that lies elsewhere") }, element("option", { value: "" }, say("which run? \u2026")),
      ...numbers.map((n, i) => element("option", { value: i, selected: n.run === this.run.run && n.cable === this.run.cable }, room.cables.length > 1 ? n.cable + "." + n.run : say("run %s", n.run))));
    which.onchange = () => { const n = numbers[which.value]; Object.assign(this.run, { run: n?.run || 0, cable: n?.cable }); this.drawn(); this.panel(); };
    const rest = element("input", { type: "checkbox", id: "run-rest" });
    const ready = this.run.run && this.run.image.length > 1;
    const set = button(say("Put it on the record"), async () => {
      const lines = [{ key: "run", value: String(this.run.run) }, { key: "image", value: "[" + this.run.image.map((q) => "[" + q.join(", ") + "]").join(", ") + "]" }];
      this.run = null;
      await this.did([...claim(record), ...(rest.checked ? asPlanned(record) : []), { do: "add", table: p.table + "/run", lines }]);
      draw();
      await settled();
      if (view.photo) { await readPhotos(); await this.again(); }
    }, { class: "main", id: "run-set", disabled: !ready });
    return element("div", { class: "card", id: "run-form" }, element("h3", {}, say("A run that lies elsewhere"), this.nudges()), field(say("Its number on the drawing"), which),
      element("p", {}, this.run.image.length ? say("%s places tapped: go on to where it ends.", this.run.image.length) : say("Then tap along it in the photo, from where it begins to where it ends: two places at least.")),
      record?.settled || !listed.plan ? "" : element("label", { class: "row" }, rest, say("All others were held against plan %s and lie as drawn", listed.plan)),
      element("div", { class: "row" }, set, button(say("One place back"), () => { this.run.image.pop(); this.drawn(); this.panel(); }, { disabled: !this.run.image.length }), button(say("Leave it"), () => { this.run = null; this.drawn(); this.panel(); })));
  },
};

// photoProblems are those of the last drawing that name the photo's record, such as of a run in it.
function photoProblems(p) {
  return p && p.runs.length ? sheets.state.problems.filter((d) => d.severity === "error" && /photo|run \d/.test(d.message)).map(sentences) : [];
}

const sentence = (words) => words.charAt(0).toUpperCase() + words.slice(1) + (/[.!?]$/.test(words) ? "" : ".");
const sentences = (d) => sentence(d.told || d.message) + (d.hint ? " " + sentence(d.toldHint || d.hint) : "");

const pointLines = (p) => [{ key: "image", value: "[" + p.image.join(", ") + "]" }, { key: p.key, value: p.value }];

// claim makes a record say that photos tell where the cable lies, where it has said less.
const claim = (record) => record?.claim === noEvidence ? [{ do: "set", table: record.table, key: "evidence", value: JSON.stringify(seenEvidence) }] : [];
const asPlanned = (record) => [{ do: "set", table: record.table, key: "plan", value: JSON.stringify(listed.plan) }, { do: "set", table: record.table, key: "as_planned", value: "true" }];
const seenEvidence = "photo with tape";

// onRecord is the way to what is known of a cable, with the edit that begins it where nothing is yet.
async function onRecord(room, cable, changes) {
  const record = recordOf(room, cable || room?.cables[0]);
  if (record) return record.table;
  const parts = await engine.ask("tables", { text: job.text }), several = room?.cables.length > 1;
  changes.push({ do: "add", table: "as_laid", lines: [{ key: "room", value: JSON.stringify(room?.name || "") }, ...(several ? [{ key: "cable", value: JSON.stringify(cable || room.cables[0]) }] : []), { key: "evidence", value: JSON.stringify(noEvidence) }] });
  return "as_laid/" + parts.filter((p) => /^as_laid\/\d+$/.test(p.table)).length;
}

// newPhoto are the edits that put a photo into the job, with a record where its room has none:
// known points alone do not say that the cable lies where the plan has it.
async function newPhoto(draft, meta) {
  const room = listed.rooms.find((r) => r.name === draft.room) || listed.rooms[0], changes = [];
  const record = await onRecord(room, draft.cable, changes);
  const table = record + "/photo/" + listed.photos.filter((p) => p.table.startsWith(record + "/")).length;
  changes.push({ do: "add", table: record + "/photo", lines: [{ key: "file", value: JSON.stringify(draft.file) }, { key: "date", value: draft.date }, { key: "sha256", value: JSON.stringify(meta.sum.slice(0, 12)) }, ...(draft.keep ? [{ key: "keep_location", value: "true" }] : [])] });
  for (const p of draft.points) changes.push({ do: "add", table: table + "/point", lines: pointLines(p) });
  return changes;
}

// planOf is the room in small, its nameable places as dots to be tapped.
function planOf(room, spots, tapped) {
  if (!room) return { svg: "", mark() {} };
  const all = room.walls.map((w) => w.from), xs = all.map((q) => q[0]), ys = all.map((q) => -q[1]);
  const x = Math.min(...xs), y = Math.min(...ys), w = Math.max(...xs) - x || 1, h = Math.max(...ys) - y || 1, edge = Math.max(w, h) / 9;
  const ring = (points, kind) => drawnAs("path", { d: "M" + points.map((q) => q[0] + " " + -q[1]).join("L") + "Z", class: kind });
  const letter = (l) => drawnAs("text", { x: (l.from[0] + l.to[0]) / 2, y: -(l.from[1] + l.to[1]) / 2, "font-size": edge / 1.6, "stroke-width": edge / 5 }, l.letter);
  const dots = spots.map((s, i) => {
    const dot = drawnAs("circle", { cx: s.at[0], cy: -s.at[1], r: edge / 4 }), around = drawnAs("circle", { cx: s.at[0], cy: -s.at[1], r: edge / 1.6, class: "reach" }, drawnAs("title", {}, s.label));
    around.addEventListener("click", () => tapped(i));
    return [dot, around];
  });
  const svg = drawnAs("svg", { viewBox: [x - edge, y - edge, w + 2 * edge, h + 2 * edge].join(" "), class: "spots", role: "img", "aria-label": say("The room's places; the list above names them") },
    ring(all, "walls"), ...room.stands.filter((s) => s.length).map((s) => ring(s, "stand")), ...room.walls.map(letter), ...dots.map((d) => d[0]), ...dots.map((d) => d[1]));
  return { svg, mark: (s) => dots.forEach(([dot], i) => dot.setAttribute("class", spots[i] === s ? "chosen" : "")) };
}
