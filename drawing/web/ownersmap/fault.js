// faults turns readings into a stretch of floor and says it as package probe does. on is what
// the map lends it: its geometry, its tiles and its words.
const faults = (on) => {
  const { dist, nearestOn, contains, crosses, tilePiece, runAt, length, running } = on;

  // --- along a cable -------------------------------------------------------

  const lerp = (a, b, t) => [a[0] + (b[0] - a[0]) * t, a[1] + (b[1] - a[1]) * t];

  // legOf is the leg that a running length falls on.
  function legOf(t, s) {
    const i = t.along.findIndex((a) => a >= s);
    return Math.max(0, Math.min(t.along.length - 2, (i < 0 ? t.along.length : i) - 1));
  }

  function lineAt(t, s) {
    const i = legOf(t, s);
    return lerp(t.line[i], t.line[i + 1], Math.max(0, Math.min(1, (s - t.along[i]) / (t.along[i + 1] - t.along[i]))));
  }

  const cut = (t, from, to) => [lineAt(t, from), ...t.line.filter((_, i) => t.along[i] > from && t.along[i] < to), lineAt(t, to)];

  function lineDistance(line, p) {
    let d = Infinity;
    for (let i = 1; i < line.length; i++) d = Math.min(d, dist(nearestOn(line[i - 1], line[i], p)[0], p));
    return d;
  }

  // neighbours are the pieces of other runs that come so near a stretch; turns are left out.
  function neighbours(t, from, to, reach) {
    const stretch = cut(t, from, to), first = legOf(t, from), last = legOf(t, to), out = [];
    for (let i = 0; i + 1 < t.line.length; i++) {
      const long = dist(t.line[i], t.line[i + 1]);
      if ((i >= first && i <= last) || long <= reach) continue;
      const n = Math.ceil(Math.min(10000, long / 10 - 1e-6));
      let piece = null;
      for (let k = 0; k <= n; k++) {
        const d = lineDistance(stretch, lerp(t.line[i], t.line[i + 1], k / n));
        if (d > reach) continue;
        const s = t.along[i] + k / n * (t.along[i + 1] - t.along[i]);
        if (!piece) piece = { from: s, gap: Infinity };
        piece.to = s;
        piece.gap = Math.min(piece.gap, d);
      }
      if (piece) out.push({ ...piece, run: runAt(t.runEnds, (piece.from + piece.to) / 2), line: cut(t, piece.from, piece.to) });
    }
    return out;
  }

  function gap(ring, line) {
    let d = Infinity;
    line.forEach((p, i) => {
      if (contains(ring, p)) d = 0;
      ring.forEach((a, k) => {
        const b = ring[(k + 1) % ring.length], to = (q, u, v) => dist(nearestOn(u, v, q)[0], q);
        d = Math.min(d, to(p, a, b));
        if (i === 0) return;
        const o = line[i - 1];
        d = crosses(a, b, o, p) ? 0 : Math.min(d, to(o, a, b), to(a, o, p), to(b, o, p));
      });
    });
    return d;
  }

  function tilesNear(room, line, within) {
    const out = [];
    if (!room.tiles) return out;
    room.tiles.rows.forEach((r, i) => {
      for (let column = 1; column <= r[1]; column++) {
        const ring = tilePiece(room, { row: i + 1, column });
        if (ring && gap(ring, line) <= within) out.push({ row: i + 1, column });
      }
    });
    return out;
  }

  // trace brings a stretch of a cable to the floor.
  function trace(room, cable, stretch) {
    const t = room.things.find((x) => x.kind === "heating cable" && x.name === cable.name);
    const off = room.noReason ? 0 : t.error, line = cut(t, stretch.from, stretch.to);
    return { cable, thing: t, stretch, line, best: lineAt(t, stretch.best), runs: [runAt(t.runEnds, stretch.from), runAt(t.runEnds, stretch.to)],
      tiles: tilesNear(room, line, t.half + off), neighbours: neighbours(t, stretch.from, stretch.to, 1.3 * Math.max(cable.spacing, 20) + off) };
  }

  // --- words -------------------------------------------------------------------

  function tileWords(f) {
    const rows = new Map();
    for (const t of f.tiles) rows.set(t.row, (rows.get(t.row) || []).concat(t.column));
    return [...rows].map(([row, columns]) => (columns.length === 1 ? say("row %d, column %d lies over it", row, columns[0]) : say("row %d, columns %s lie over it", row, columns.join(", "))));
  }

  // facts says where a fault must lie and by what, but what stands beside the map anyway.
  function facts(room, f) {
    const s = f.stretch, run = (n) => f.thing.runNames[n - 1];
    const out = [["fault", say("%s, cable %s: between %s and %s of its length, likeliest at %s", room.room, f.cable.name, running(room, s.from), running(room, s.to), running(room, s.best))],
      ["where", say("%s; likeliest %s", f.runs[0] === f.runs[1] ? say("on run %s", run(f.runs[0])) : say("from run %s to run %s", run(f.runs[0]), run(f.runs[1])), on.place(room, f.best))],
      ["by", `${s.method}: ${s.formula}`]];
    if (s.core) out.push(["core", s.core]);
    if (s.faultOhms.value > 0 || s.faultOhms.error > 0) out.push(["fault", say("it has %s Ω itself, give or take %s", record.digits(s.faultOhms.value, 4), record.digits(s.faultOhms.error, 2))]);
    out.push(["plan", room.rests], ...tileWords(f).map((words) => ["tile", words]));
    if (room.noTiles) out.push(["tile", room.noTiles]);
    for (const n of f.neighbours) out.push(["beside", say("run %s, %s to %s, passes %s from it and could be taken for it", run(n.run), running(room, n.from), running(room, n.to), length(room, n.gap))]);
    return out.concat(s.assumptions.map((words) => ["assumed", words]));
  }

  const cautions = (room, f) => f.stretch.cautions.concat(room.noReason ? [say("this place is by a plan: the cable may have been laid elsewhere, so trace it on the floor before anything is lifted")] : []);

  // --- figures as they are typed ---------------------------------------------------

  function decimal(text) {
    const t = on.pointForComma(text.trim());
    return /^(\d+\.?\d*|\.\d+)$/.test(t) ? Number(t) : NaN;
  }

  const notFigure = (name, text) => new Error(/^\d{1,3}(,\d{3})+$/.test(text.trim()) ? say("%s: “%s” can be read in two ways; write it without the comma, or with a decimal point.", name, text.trim())
    : text.trim() === "" ? say("%s: write the figure that was read.", name) : say("%s: “%s” is not a figure such as 19.0.", name, text.trim()));

  function figure(name, text) {
    const v = decimal(text);
    if (Number.isNaN(v)) throw notFigure(name, text);
    return v;
  }

  // offBy is how far a figure may be off: what was typed for it, in its unit or in per cent, else
  // the meter's share; a share has one of the last place besides.
  function offBy(name, v, text, off, meterShare) {
    const places = (/[.,](\d*)$/.exec(text.trim()) || ["", ""])[1].length, step = Number(`1e-${places}`);
    if (off.trim() === "") return record.meterReading(v, meterShare, 1, step);
    const share = /%\s*$/.test(off), e = decimal(off.replace(/%\s*$/, ""));
    if (Number.isNaN(e)) throw new Error(say("%s: “%s” is not an error such as 0.2 or 1 %%.", name, off.trim()));
    return share ? record.meterReading(v, e / 100, 1, step) : { value: v, error: e, gain: 0 };
  }

  // measured reads 19.0 and its error, which may also stand behind it: 19.0+-0.2, 19.0±1%.
  function measured(name, text, off, meterShare) {
    const [value, ...more] = text.replaceAll("±", "+-").split("+-");
    return offBy(name, figure(name, value), value, more.length ? more.join("+-") : off, meterShare);
  }

  // --- what may be read, each with its figures by the kind of cable -------------------

  const ways = {
    short: { of: "ohms", figures: () => [[say("core to core"), "Ω"]], find: (c, v) => record.short(c, v[0]) },
    earth: { of: "ohms", find: (c, v) => record.earth(c, v[0], v[1], v[2]),
      figures: (c) => (c.return ? [[say("AB: START lead to END lead"), "Ω"], [say("A: START lead to braid"), "Ω"], [say("B: END lead to braid"), "Ω"]] : [[say("AB: core to core"), "Ω"], [say("A: one core to braid"), "Ω"], [say("B: the other core to braid"), "Ω"]]) },
    murray: { of: "ohms", figures: () => [[say("P: the other arm"), "Ω"], [say("Q: arm at the faulty conductor"), "Ω"]], find: (c, v) => record.murray(c, v[0], v[1], record.exact(0)) },
    varley: { of: "ohms", find: (c, v) => record.varley(c, v[0], v[1], v[2], v[3]),
      figures: () => [[say("P: the other arm"), "Ω"], [say("Q: arm at the faulty conductor"), "Ω"], [say("S: in series with it"), "Ω"], [say("AB: the loop"), "Ω"]] },
    break: { of: "farads", figures: (c) => [[c.return ? say("START lead to braid") : say("both cores, tied, to braid"), "nF"]], find: (c, v) => record.broken(c, v[0]) },
    ends: { figures: (c) => (c.return ? [[say("A: START lead to braid"), "nF"], [say("B: END lead to braid"), "nF"]] : [[say("A: one core to braid"), "nF"], [say("B: the other core to braid"), "nF"]]), find: (c, v) => record.brokenBothWays(c, v[0], v[1]) },
    time: { echo: true, figures: () => [[say("the echo comes after"), "ns"]], find: (c, v, factor) => record.echoTime(c, v[0], factor) },
    distance: { echo: true, long: true, figures: () => [[say("distance it shows"), ""]], find: (c, v, factor, set) => record.echoDistance(c, v[0], set, factor) },
  };

  // known is a cable as it was when whole, by what was typed first, then by what is recorded.
  // uses: which of its figures the readings ask for.
  function known(cable, typed, uses) {
    const c = { ...cable, ohms: record.exact(0), farads: record.exact(0), leadOhms: typed.leadOhms || record.exact(0), coreShare: typed.coreShare || 0 }, taken = [];
    if (typed.lead !== undefined) c.lead = typed.lead;
    for (const name of ["ohms", "farads"]) {
      if (typed[name]) c[name] = typed[name];
      else if (uses.has(name) && cable[name]) {
        const k = cable[name];
        c[name] = k.gain > 0 ? record.meterReading(k.value, typed.meterShare, 0, 0) : { value: k.value, error: k.error, gain: 0 };
        taken.push(k.from);
      }
    }
    return [typed.warmer ? record.warmed(c, typed.warmer, typed.perKelvin) : c, taken];
  }

  // find is the stretch that readings, { way, figures, factor, set }, have in common.
  function find(cable, readings, typed) {
    const [c, taken] = known(cable, typed, new Set(readings.map((r) => ways[r.way].of)));
    const s = record.meetAll(c, readings.map((r) => ways[r.way].find(c, r.figures, r.factor, r.set)));
    s.assumptions.push(...taken);
    return s;
  }

  // --- the form --------------------------------------------------------------------------

  const el = (name, attrs = {}, ...children) => {
    const e = document.createElement(name);
    for (const k in attrs) if (attrs[k] !== undefined) e.setAttribute(k, attrs[k]);
    e.append(...children);
    return e;
  };

  // field is a figure with its unit and how far it may be off; units, where there is a choice, the
  // one that is meant first.
  function field(key, name, units, { off = true, placeholder, sign } = {}) {
    const p = el("p", { class: "figure", "data-key": key }), choose = (label, options) => {
      const s = el("select", { "aria-label": say("%s, %s", name, label) });
      for (const o of options) s.add(new Option(signs[o] || o, o));
      return s;
    };
    p.append(el("label", {}, el("span", {}, name), el("input", { name: "value", inputmode: "decimal", autocomplete: "off", size: 8, placeholder })));
    if (sign) { const s = choose(say("way"), sign); s.name = "sign"; p.append(s); }
    if (units.length > 1) { const s = choose(say("unit"), units); s.name = "unit"; p.append(s); } else if (units[0]) p.append(el("span", { class: "unit" }, units[0]));
    if (off) {
      const s = choose(say("what it may be off is in"), units.length > 1 ? [units[0], "%"] : [units[0], "%"]);
      s.name = "offUnit";
      p.append(el("span", { class: "off" }, "±", el("input", { name: "off", inputmode: "decimal", autocomplete: "off", size: 4, "aria-label": say("%s, may be off by", name) }), s));
    }
    return p;
  }

  const signs = { warmer: say("warmer"), colder: say("colder") };
  const part = (p, name) => p.querySelector(`[name=${name}]`);
  const textOf = (p) => part(p, "value").value;
  const nameOf = (p) => p.querySelector("label > span").textContent;
  const filled = (p) => textOf(p).trim() !== "";
  const offOf = (p) => { const t = part(p, "off").value; return t.trim() !== "" && part(p, "offUnit").value === "%" && !t.includes("%") ? `${t}%` : t; };
  const readField = (p, meterShare) => measured(nameOf(p), textOf(p), offOf(p), meterShare);

  // readLong reads a length: a bare figure in the unit that is chosen, else as lengths are written.
  function readLong(room, p) {
    const text = textOf(p), v = decimal(text), mm = Number.isNaN(v) ? on.parseLength(room, text) : v * (part(p, "unit").value === "ft" ? 304.8 : 1000);
    if (Number.isNaN(mm)) throw notFigure(nameOf(p), text);
    return mm;
  }

  // setUp makes the form of a room work. to.show is given what was found, to.refuse why nothing
  // was, to.stale is told that what is shown is no longer about what is typed.
  function setUp(section, room, to) {
    const outer = section.querySelector("details.fault"), form = outer.querySelector("form.fault"), $ = (q) => form.querySelector(q);
    const cables = room.cables || [], pick = $("[name=cable]"), readings = $(".readings"), error = $(".error");
    if (cables.length === 0) return;
    outer.hidden = false;
    cables.forEach((c, i) => pick.add(new Option(c.name, String(i))));
    $(".which").hidden = cables.length === 1;
    const cable = () => cables[Number(pick.value)], lengths = () => (cable().feet ? ["ft", "m"] : ["m", "ft"]);
    let counted = 0;

    // fields puts those of the chosen way into a reading, with what was typed before.
    function fields(reading) {
      const chosen = reading.querySelector(".way input:checked"), box = reading.querySelector(".figures");
      if (!chosen) { box.replaceChildren(); return; }
      const way = ways[chosen.value], kept = box.dataset.way === chosen.value ? [...box.querySelectorAll("input")].map((e) => e.value) : [];
      const rows = way.figures(cable()).map(([name, unit], i) => field(`v${i}`, name, way.long ? lengths() : [unit]));
      if (way.long) rows.push(field("set", say("velocity factor set on it"), [""], { off: false }));
      if (way.echo) {
        const core = el("select", { name: "core" }, new Option(say("by figure"), ""));
        room.cores.forEach((c, i) => core.add(new Option(say("%s, about %s", c.name, record.digits(c.value, 2)), String(i))));
        rows.push(el("p", {}, el("label", {}, el("span", {}, say("core insulation"), " "), core)), field("factor", say("or the cable’s own velocity factor"), [""]));
      }
      box.dataset.way = chosen.value;
      box.replaceChildren(...rows);
      box.querySelectorAll("input").forEach((e, i) => { if (kept[i]) e.value = kept[i]; });
    }

    function add() {
      const reading = outer.querySelector("template").content.firstElementChild.cloneNode(true), name = `way-${section.dataset.room}-${counted++}`;
      for (const e of reading.querySelectorAll(".way input")) { e.name = name; e.addEventListener("change", () => fields(reading)); }
      reading.querySelector("[data-less]").addEventListener("click", () => {
        const next = reading.nextElementSibling || reading.previousElementSibling;
        reading.remove();
        suit();
        to.stale();
        if (next) next.querySelector(".way input").focus();
      });
      readings.append(reading);
      suit();
      return reading;
    }

    // suit offers what can be read of the cable, and names the leads as it has them.
    function suit() {
      for (const r of readings.children) {
        const way = r.querySelector("[value=short]");
        way.closest(".way").hidden = cable().return;
        if (cable().return && way.checked) way.checked = false;
        r.querySelector("[data-less]").hidden = readings.children.length === 1;
        fields(r);
      }
    }

    // whole puts what is to be known of the cable, with what is known already in grey.
    function whole() {
      const c = cable(), put = (of, ...rows) => form.querySelector(`[data-of=${of}]`).replaceChildren(...rows), long = lengths();
      const grey = (k) => (k ? record.digits(k.value, 4) : undefined);
      put("lead", field("lead", say("one cold lead, as trimmed"), long, { off: false, placeholder: record.fixed(c.lead / (c.feet ? 304.8 : 1000), c.feet ? 1 : 2) }),
        field("leadOhms", c.return ? say("both cold leads") : say("cold lead, there and back"), ["Ω"]));
      put("warmth", field("warmer", say("the cable is now"), room.inches ? ["°F", "°C"] : ["°C", "°F"], { off: false, sign: ["warmer", "colder"] }),
        field("perKelvin", say("the conductor’s coefficient, per °C, by its instructions"), [""], { off: false }));
      put("whole", field("ohms", say("whole cable, by ohms"), ["Ω"], { placeholder: grey(c.ohms) }), field("farads", say("whole cable, by capacitance"), ["nF"], { placeholder: grey(c.farads) }),
        ...(c.return ? [] : [field("coreShare", say("first core’s share of the ohms"), ["%"], { off: false, placeholder: "50" })]));
      put("meter", field("meter", say("the meter may be off by"), ["%"], { off: false, placeholder: "1" }));
    }

    // typed reads what was said of the cable.
    function typed() {
      const out = { meterShare: 0.01 }, of = (key) => form.querySelector(`.figures [data-key=${key}]`), given = (key) => of(key) && filled(of(key));
      const number = (key) => figure(nameOf(of(key)), textOf(of(key)));
      if (given("meter")) {
        out.meterShare = number("meter") / 100;
        if (out.meterShare > 0.5) throw new Error(say("The meter may be off by 50 % at most."));
      }
      for (const key of ["leadOhms", "ohms", "farads"]) if (given(key)) out[key] = readField(of(key), out.meterShare);
      if (given("lead")) out.lead = readLong(room, of("lead"));
      if (given("coreShare")) {
        out.coreShare = number("coreShare") / 100;
        if (!(out.coreShare > 0 && out.coreShare < 1)) throw new Error(say("The first core’s share of the ohms lies between 0 and 100 %."));
      }
      if (given("warmer") && number("warmer") !== 0) {
        const p = of("warmer");
        out.warmer = number("warmer") * (part(p, "sign").value === "colder" ? -1 : 1) / (part(p, "unit").value === "°F" ? 1.8 : 1);
        out.perKelvin = given("perKelvin") ? number("perKelvin") : 0;
        if (out.perKelvin === 0) throw record.lacking(say("How much warmer it is needs the conductor’s own coefficient too, by the cable’s instructions; it differs from alloy to alloy."));
        if (!(Math.abs(out.perKelvin * out.warmer) < 0.5)) throw new Error(say("That warmth and coefficient change the ohms by %s: that is no heating cable.", record.percent(out.perKelvin * out.warmer)));
      }
      return out;
    }

    function reading(r, share) {
      const chosen = r.querySelector(".way input:checked");
      if (!chosen) throw new Error(say("Choose what was read."));
      const way = ways[chosen.value], of = (key) => r.querySelector(`[data-key=${key}]`);
      const figures = way.figures(cable()).map((_, i) => {
        const p = of(`v${i}`);
        if (!way.long) return readField(p, share);
        const mm = readLong(room, p), off = offOf(p);
        if (off.trim() === "") return { value: mm, error: share * mm, gain: 0 };
        const m = measured(nameOf(p), String(mm), off, share);
        return off.includes("%") ? { value: mm, error: m.gain, gain: 0 } : { value: mm, error: m.error * (part(p, "unit").value === "ft" ? 304.8 : 1000), gain: 0 };
      });
      const out = { way: chosen.value, figures };
      if (way.long) out.set = figure(nameOf(of("set")), textOf(of("set")));
      if (!way.echo) return out;
      const core = r.querySelector("[name=core]").value, p = of("factor");
      if (filled(p)) {
        out.factor = readField(p, share);
        if (offOf(p).trim() === "" && !/[±+]/.test(textOf(p))) out.factor = record.typedVelocity(out.factor.value);
      } else if (core === "") throw new Error(say("An echo needs the cable’s own velocity factor, or its core insulation."));
      else { const c = room.cores[Number(core)]; out.factor = { value: c.value, error: c.error, gain: c.gain }; }
      return out;
    }

    form.addEventListener("submit", (e) => {
      e.preventDefault();
      try {
        const t = typed(), found = find(cable(), [...readings.children].map((r) => reading(r, t.meterShare)), t);
        error.textContent = "";
        to.show(trace(room, cable(), found));
      } catch (x) {
        if (x.lacking) form.querySelector("details.figures").open = true;
        to.refuse(error, x.message[0].toUpperCase() + x.message.slice(1));
      }
    });
    form.addEventListener("input", to.stale);
    pick.addEventListener("change", () => { suit(); whole(); to.stale(); });
    $("[data-more]").addEventListener("click", () => add().querySelector(".way:not([hidden]) input").focus());
    add();
    whole();
  }

  return { trace, facts, cautions, find, measured, setUp };
};
