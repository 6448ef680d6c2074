(() => {
  const inch = 25.4, foot = 304.8;
  const rooms = JSON.parse(document.getElementById("table").textContent);

  // --- geometry: the same steps as package probe takes -------------------

  const dist = (a, b) => Math.hypot(a[0] - b[0], a[1] - b[1]);

  // nearestOn returns the point of the segment a-b nearest to p and the share
  // of the segment before it.
  function nearestOn(a, b, p) {
    const vx = b[0] - a[0], vy = b[1] - a[1], n = vx * vx + vy * vy;
    if (n === 0) return [a, 0];
    const t = Math.max(0, Math.min(1, ((p[0] - a[0]) * vx + (p[1] - a[1]) * vy) / n));
    return [[a[0] + vx * t, a[1] + vy * t], t];
  }

  function nearest(line, p) {
    if (line.length === 1) return { at: line[0], off: dist(p, line[0]), leg: 0, share: 0 };
    let best = { off: Infinity };
    for (let i = 1; i < line.length; i++) {
      const [q, t] = nearestOn(line[i - 1], line[i], p), d = dist(q, p);
      if (d < best.off) best = { at: q, off: d, leg: i - 1, share: t };
    }
    return best;
  }

  function contains(ring, p) {
    let inside = false;
    for (let i = 0, j = ring.length - 1; i < ring.length; j = i++) {
      const a = ring[i], b = ring[j];
      if ((a[1] > p[1]) !== (b[1] > p[1]) && p[0] < (b[0] - a[0]) * (p[1] - a[1]) / (b[1] - a[1]) + a[0]) inside = !inside;
    }
    return inside;
  }

  function ringDistance(ring, p) {
    let d = Infinity;
    for (let i = 0; i < ring.length; i++) d = Math.min(d, dist(nearestOn(ring[i], ring[(i + 1) % ring.length], p)[0], p));
    return d;
  }

  const sameOff = 1e-6; // how much nearer a place must be to count as such

  // nearestToRing is nearest for a whole tile: 0 for a line under it.
  function nearestToRing(ring, line) {
    let best = { off: Infinity };
    const consider = (p, leg, share) => {
      const d = contains(ring, p) ? 0 : ringDistance(ring, p);
      if (d < best.off - sameOff) best = { at: p, off: d, leg, share };
    };
    consider(line[0], 0, 0);
    for (let i = 1; i < line.length; i++) {
      const a = line[i - 1], b = line[i], n = Math.ceil(dist(a, b) / tileStep);
      for (let k = 1; k <= n; k++) consider([a[0] + (b[0] - a[0]) * k / n, a[1] + (b[1] - a[1]) * k / n], i - 1, k / n);
    }
    return best;
  }

  function runAt(ends, s) {
    if (!ends) return 0;
    for (let i = 0; i < ends.length; i++) if (s <= ends[i] + 1) return i + 1;
    return ends.length;
  }

  // --- tiles ---------------------------------------------------------------

  const local = (t, p) => {
    const x = p[0] - t.origin[0], y = p[1] - t.origin[1];
    return [x * t.cos + y * t.sin, y * t.cos - x * t.sin];
  };
  const shiftOf = (t, row) => (row % 2 !== 0 ? t.shift * (t.length + t.joint) : 0);

  function tileAt(t, p) {
    if (!t) return null;
    const q = local(t, p);
    const row = Math.floor((q[1] + t.joint / 2) / (t.width + t.joint));
    const i = Math.floor((q[0] - shiftOf(t, row) + t.joint / 2) / (t.length + t.joint));
    const r = t.rows[row - t.first];
    if (!r) return null;
    const column = i - r[0] + 1;
    return column >= 1 && column <= r[1] ? { row: row - t.first + 1, column } : null;
  }

  function tileOutline(t, place) {
    const r = t && t.rows[place.row - 1];
    if (!r || !(place.column >= 1 && place.column <= r[1])) return null;
    const n = t.first + place.row - 1;
    const x = (r[0] + place.column - 1) * (t.length + t.joint) + shiftOf(t, n), y = n * (t.width + t.joint);
    return [[x, y], [x + t.length, y], [x + t.length, y + t.width], [x, y + t.width]]
      .map(([a, b]) => [t.origin[0] + a * t.cos - b * t.sin, t.origin[1] + a * t.sin + b * t.cos]);
  }

  // tilePiece is what of a tile lies inside the walls; null for nothing.
  function tilePiece(room, place) {
    const tile = tileOutline(room.tiles, place);
    if (!tile) return null;
    let piece = room.outline;
    tile.forEach((a, i) => { piece = leftOf(piece, a, tile[(i + 1) % 4]); });
    const area = piece.reduce((sum, a, i) => sum + (a[0] * piece[(i + 1) % piece.length][1] - a[1] * piece[(i + 1) % piece.length][0]), 0) / 2;
    return Math.abs(area) < 1 ? null : piece;
  }

  // leftOf cuts off what of a ring lies to the right of a line.
  function leftOf(ring, from, to) {
    const out = [];
    ring.forEach((b, i) => {
      const a = ring[(i + ring.length - 1) % ring.length], sa = side(from, to, a), sb = side(from, to, b), t = sa / (sa - sb);
      if ((sa >= 0) !== (sb >= 0)) out.push([a[0] + (b[0] - a[0]) * t, a[1] + (b[1] - a[1]) * t]);
      if (sb >= 0) out.push(b);
    });
    return out;
  }

  const tileStep = 2;

  // pieces walks a thing's line and collects its stretches within reach of a
  // tile.
  function pieces(thing, ring, reach) {
    const out = [];
    let open = false;
    for (let i = 0; i < thing.line.length; i++) {
      const p = thing.line[i], next = thing.line[i + 1];
      const n = Math.max(1, next ? Math.ceil(dist(p, next) / tileStep) : 0);
      for (let k = 0; k < n; k++) {
        const q = next ? [p[0] + (next[0] - p[0]) * k / n, p[1] + (next[1] - p[1]) * k / n] : p;
        let s = 0;
        if (thing.along) s = thing.along[i] + (next ? k / n * (thing.along[i + 1] - thing.along[i]) : 0);
        const within = contains(ring, q) || ringDistance(ring, q) <= reach;
        if (within && !open) out.push({ thing, from: s, to: s, run: runAt(thing.runEnds, s) });
        if (within) out[out.length - 1].to = s;
        open = within;
      }
    }
    return out;
  }

  function under(room, place) {
    const ring = tilePiece(room, place);
    if (!ring) return null;
    return room.things.flatMap((t) => pieces(t, ring, t.half + (room.noReason ? 0 : t.error)));
  }

  // --- what stands on the floor ------------------------------------------------

  // standNear finds what stands nearest to a spot; of what stands on it, that
  // whose edge is farthest.
  function standNear(room, p) {
    let best = null, depth = Infinity;
    for (const s of room.stands) {
      const on = contains(s.outline, p), distance = ringDistance(s.outline, p), d = on ? -distance : distance;
      if (d < depth) { best = { name: s.name, under: on, distance }; depth = d; }
    }
    return best;
  }

  const side = (a, b, c) => (b[0] - a[0]) * (c[1] - a[1]) - (b[1] - a[1]) * (c[0] - a[0]);

  function crosses(a, b, c, d) {
    const s = side(a, b, c), t = side(a, b, d), u = side(c, d, a), v = side(c, d, b);
    return ((s > 0 && t < 0) || (s < 0 && t > 0)) && ((u > 0 && v < 0) || (u < 0 && v > 0));
  }

  // onTile finds what stands on a tile.
  function onTile(room, place) {
    const ring = tilePiece(room, place);
    if (!ring) return [];
    const next = (r, i) => r[(i + 1) % r.length];
    return room.stands.flatMap((s) => {
      const corners = ring.filter((q) => contains(s.outline, q)).length;
      const cut = ring.some((a, i) => s.outline.some((c, k) => crosses(a, next(ring, i), c, next(s.outline, k)))) || s.outline.some((q) => contains(ring, q));
      return corners > 0 || cut ? [{ name: s.name, all: corners === ring.length && !cut }] : [];
    });
  }

  // --- the verdict -----------------------------------------------------------

  // askTile answers for a whole tile.
  function askTile(room, place) {
    const ring = tilePiece(room, place);
    if (!ring) return null;
    const a = ask(room, [0, 1].map((k) => (ring.reduce((m, q) => Math.min(m, q[k]), Infinity) + ring.reduce((m, q) => Math.max(m, q[k]), -Infinity)) / 2),
      (line) => nearestToRing(ring, line));
    a.tile = place;
    a.whole = true;
    if (!room.noReason) { a.reason = ""; judge(a); }
    return a;
  }

  function ask(room, p, far = (line) => nearest(line, p)) {
    const near = [], seen = {};
    for (const t of room.things) {
      const n = far(t.line, t);
      const x = { thing: t, distance: n.off, clear: n.off - t.half - t.error - t.finger, at: n.at, running: -1, run: 0 };
      if (t.along) {
        x.running = t.along[n.leg] + n.share * (t.along[n.leg + 1] - t.along[n.leg]);
        x.run = runAt(t.runEnds, x.running);
      }
      if (!(t.kind in seen)) { seen[t.kind] = near.length; near.push(x); }
      else if (x.clear < near[seen[t.kind]].clear) near[seen[t.kind]] = x;
    }
    near.sort((a, b) => a.clear - b.clear);
    const a = { spot: p, near, tile: tileAt(room.tiles, p), verdict: "NO VERDICT", reason: "", within: 0, whole: false, stand: standNear(room, p) };
    if (room.noReason) a.reason = room.noReason;
    else if (!contains(room.outline, p)) a.reason = say("the spot is outside the walls of room %s, where nothing is recorded", quoted(room.room));
    else judge(a);
    return a;
  }

  // askWall answers for a hole in a wall: the leads that rise in one, and what
  // lies in the floor, aslant.
  function askWall(room, s) {
    const w = room.faces[s.face], k = s.along / dist(w.a, w.b), at = (a, b) => [a[0] + (b[0] - a[0]) * k, a[1] + (b[1] - a[1]) * k];
    const foot = at(w.a, w.b), core = at(...w.core);
    const things = room.things.map((t) => (t.kind === "lead rise" ? room.rise : t));
    const a = ask({ ...room, things }, foot, (line, t) => {
      const n = nearest(line, t.kind === "lead rise" && t.name === w.part ? core : foot);
      return { ...n, off: Math.hypot(n.off, Math.max(0, s.up - t.up)) };
    });
    Object.assign(a, { wall: s, tile: null, stand: null });
    if (!room.noReason) { a.reason = ""; judge(a); }
    return a;
  }

  // What is pointed at is a wall within its line as it is drawn, and behind
  // that as far as a wall is thick, mm.
  const wallLine = 8, wallThick = 250;

  // wallAt is the place of the wall that is pointed at, at the floor, where
  // leads are nearest; null for a spot on the floor or off the room.
  function wallAt(room, p) {
    let best = { off: Infinity };
    room.faces.forEach((w, i) => {
      const [q, t] = nearestOn(w.a, w.b, p), off = dist(q, p);
      if (off < best.off) best = { off, face: i, along: t * dist(w.a, w.b), up: 0 };
    });
    return best.off <= (contains(room.outline, p) ? wallLine : wallThick) ? best : null;
  }

  function judge(a) {
    a.verdict = "NO CABLE RECORDED";
    a.within = Infinity;
    for (const n of a.near) {
      if (n.thing.recorded && n.distance - n.thing.half - n.thing.error <= 0) {
        a.verdict = "CABLE HERE";
        a.within = 0;
        return;
      }
      if (n.clear <= 0) { a.verdict = "TOO CLOSE"; a.within = 0; }
      else a.within = Math.min(a.within, n.clear);
    }
  }

  // --- words -------------------------------------------------------------------

  const quoted = (s) => JSON.stringify(s);
  const capital = (s) => s[0].toUpperCase() + s.slice(1);

  const kinds = { "heating cable": say("heating cable"), "lead joint": say("lead joint"), "end cap": say("end cap"), "cold lead": say("cold lead"),
    sensor: say("sensor"), "sensor lead": say("sensor lead"), "lead rise": say("lead rise") };
  // What a line of an answer is about.
  const abouts = { spot: say("Spot"), tile: say("Tile"), nearest: say("Nearest"), wall: say("Wall"), fixture: say("Fixture"), "by touch": say("By touch"), height: say("Height"),
    where: say("Where"), by: say("By"), core: say("Core"), fault: say("Fault"), plan: say("Plan"), beside: say("Beside"), assumed: say("Assumed") };
  const titled = ([about, words]) => (about ? say("%s: %s", abouts[about], words) : words);

  function feetInches(mm) {
    const n = Math.round(mm / inch * 16);
    const feet = Math.floor(n / 192), whole = Math.floor((n % 192) / 16);
    let num = n % 16, den = 16;
    if (num === 0) return `${feet}'-${whole}"`;
    while (num % 2 === 0) { num /= 2; den /= 2; }
    return `${feet}'-${whole} ${num}/${den}"`.replace(/^0'-0 /, "");
  }
  // whole rounds halves to even, as the command does
  const whole = (mm) => {
    const n = Math.round(mm);
    return String(Math.abs(mm % 1) === 0.5 && n % 2 !== 0 ? n - 1 : n);
  };
  const length = (room, mm) => (room.inches ? `${feetInches(mm)} (${whole(mm)} mm)` : `${whole(mm)} mm`);
  function floor(room, mm) {
    if (!room.inches) return `${Math.floor(mm)} mm`;
    const quarter = Math.floor(mm / inch * 4) / 4 * inch;
    return `${feetInches(quarter)} (${Math.floor(quarter)} mm)`;
  }
  const thousandths = (mm) => Math.round(mm * 1e3) / 1e3; // so that both round to the same side
  const running = (room, mm) => (room.inches ? `${record.rounded({ feet: true }, thousandths(mm))} (${record.rounded({}, thousandths(mm))})` : record.rounded({}, thousandths(mm)));

  function called(room, n) {
    let s = `${kinds[n.thing.kind]} ${n.thing.name}`;
    if (n.run > 0) s = say("%s, run %s", s, n.thing.runNames[n.run - 1]);
    return !n.thing.recorded && n.thing.kind !== "lead rise" && !room.noReason ? say("%s (as planned, never recorded)", s) : s;
  }

  function headline(room, a) {
    if (a.verdict === "NO VERDICT") return say("NO VERDICT: %s", a.reason);
    if (a.verdict === "NO CABLE RECORDED") return say("NO CABLE RECORDED WITHIN %s of this spot; see the limits below", floor(room, a.within));
    if (a.verdict !== "CABLE HERE") return say("TOO CLOSE: %s", called(room, a.near[0]));
    const here = a.near.filter((x) => x.thing.recorded && x.distance - x.thing.half - x.thing.error <= 0);
    return say("CABLE HERE: %s", called(room, here.find((x) => x.thing.kind === "heating cable") || here[0]));
  }

  // How far what is pointed at may lie from what was meant, px of the screen:
  // half of the 44 px that WCAG 2.2 (2.5.5) takes a fingertip to need, and two
  // for the point of a mouse or pen.
  const fingertip = 22, pinpoint = 2;

  const around = 40; // px kept free about a spot that is shown

  function touchWords(room, a, off, pointer) {
    const by = pointer === "touch" ? say("a fingertip") : say("the pointer");
    return ["by touch", say("%s may be %s off either way as far as the map is zoomed in; zoom in, or measure the spot from two walls", by, length(room, off))];
  }

  const touchedHeadline = (room, a, off) =>
    say("NO VERDICT: nothing is recorded within %s, but at this zoom a touch may be %s off; zoom in, or measure the spot from two walls", floor(room, a.within), length(room, off));

  const left = (room, n) => (n.clear <= 0 ? say("nothing left") : say("%s left", floor(room, n.clear)));

  function brief(room, n) {
    const bare = (n.thing.kind === "lead rise" && n.thing.up === 0) || room.noReason;
    return bare ? say("%s: %s", called(room, n), length(room, n.distance)) : say("%s: %s, %s", called(room, n), length(room, n.distance), left(room, n));
  }

  function reckoning(room, n) {
    if (n.thing.kind === "lead rise") return brief(room, n);
    let s = say("%s: %s to its centre line", called(room, n), length(room, n.distance));
    if (n.running >= 0) s = say("%s at %s of its length", s, running(room, n.running));
    if (room.noReason) return say("%s, by the plan", s);
    s = say("%s; less %s half width, %s position error", s, length(room, n.thing.half), length(room, n.thing.error));
    if (n.thing.finger > 0) s = say("%s, %s finger-room", s, length(room, n.thing.finger));
    return say("%s: %s", s, left(room, n));
  }

  const fromWall = (w, p) => (p[0] - w.a[0]) * w.in[0] + (p[1] - w.a[1]) * w.in[1];

  function offWall(room, w, p) {
    const d = fromWall(w, p);
    return d < -0.5 ? say("%s behind the line of wall %s", length(room, -d), w.letter) : say("%s from wall %s", length(room, Math.abs(d)), w.letter);
  }

  const wallWords = (room, s) =>
    say("%s, %s from %s, %s above the floor", room.faces[s.face].called, length(room, room.faces[s.face].start + s.along), room.faces[s.face].from, length(room, s.up));

  function spotWords(room, a) {
    if (a.wall) return wallWords(room, a.wall);
    const [w1, w2] = room.datums.map((i) => room.walls[i]);
    const s = `${offWall(room, w1, a.spot)}, ${offWall(room, w2, a.spot)}`;
    return a.tile ? say("%s; tile row %d, column %d", s, a.tile.row, a.tile.column) : s;
  }

  function pieceWords(room, p) {
    const s = called(room, { thing: p.thing, run: p.run });
    return p.thing.along ? say("%s, from %s to %s of its length", s, running(room, p.from), running(room, p.to)) : s;
  }

  function standWords(room, n) {
    if (n.under) return say("the spot is under %s, %s in from its edge", n.name, length(room, n.distance));
    return say("%s is the nearest, its edge %s away", n.name, length(room, n.distance));
  }

  const tileFact = (room, a) => ["tile", say("row %d, column %d; its middle is %s", a.tile.row, a.tile.column, spotWords(room, { spot: a.spot }))];

  // facts says everything of an answer but its headline, and but what stands
  // beside the map anyway: the record and how tiles are counted.
  function facts(room, a, where) {
    const out = [where];
    a.near.forEach((n, i) => out.push(i === 0 ? ["nearest", reckoning(room, n)] : ["", brief(room, n)]));
    if (a.wall) out.push(["wall", room.riseSaid]);
    if (a.stand && !a.whole) out.push(["fixture", standWords(room, a.stand)]);
    if (!a.tile) return out;
    const list = under(room, a.tile);
    for (const p of list) out.push(["tile", room.noReason ? say("planned under the tile: %s", pieceWords(room, p)) : say("under the tile, or may be: %s", pieceWords(room, p))]);
    if (list.length === 0) out.push(["tile", say("nothing is recorded under it")]);
    for (const s of onTile(room, a.tile)) out.push(["tile", s.all ? say("%s stands on all of it", s.name) : say("%s stands on part of it", s.name)]);
    return out;
  }

  // offWalls is the spot so far from the faces of two walls, or null where they
  // are parallel.
  function offWalls(room, i, di, k, dk) {
    const a = room.walls[i], b = room.walls[k], det = a.in[0] * b.in[1] - a.in[1] * b.in[0];
    if (Math.abs(det) < 0.17) return null;
    const ca = a.in[0] * a.a[0] + a.in[1] * a.a[1] + di, cb = b.in[0] * b.a[0] + b.in[1] * b.a[1] + dk;
    return [(ca * b.in[1] - cb * a.in[1]) / det, (cb * a.in[0] - ca * b.in[0]) / det];
  }

  // parseLength reads "2ft 3in", "14 1/2in", "686 mm", "1.2 m"; a bare figure is
  // in the room's units. NaN when it is not a length.
  function parseLength(room, text) {
    const t = pointForComma(text.trim().toLowerCase());
    const figure = "(\\d+(?:\\.\\d+)?)(?:(?:\\s+|-)(\\d+)\\/(\\d+))?|(\\d+)\\/(\\d+)";
    const value = (m) => {
      if (m[4] !== undefined) return m[4] / m[5];
      return Number(m[1]) + (m[2] !== undefined ? m[2] / m[3] : 0);
    };
    const one = (s) => s.match(new RegExp(`^(?:${figure})$`));
    const metric = t.match(/^(.*?)\s*(mm|cm|metres?|m)$/);
    const feet = t.match(/^(.*?)\s*(?:ft|feet|foot|'|′)\s*-?\s*(.*)$/);
    const bareInches = (s) => s.replace(/\s*(?:inches|inch|in|"|″)$/, "");
    if (metric) {
      const m = one(metric[1]);
      return m ? value(m) * ({ mm: 1, cm: 10 }[metric[2]] || 1000) : NaN;
    }
    if (feet) {
      const f = one(feet[1]), rest = bareInches(feet[2]), i = rest === "" ? null : one(rest);
      if (!f || (rest !== "" && !i)) return NaN;
      return value(f) * foot + (i ? value(i) * inch : 0);
    }
    const m = one(bareInches(t));
    if (!m) return NaN;
    return value(m) * (room.inches || bareInches(t) !== t ? inch : 1);
  }

  // pointForComma turns decimal commas into points; what could be read as
  // thousands too is left, and so is no length.
  function pointForComma(t) {
    return t.replace(/[\d.,]*\d/g, (f) => (/^\d+,\d+$/.test(f) && (/^0,/.test(f) || !/,\d{3}$/.test(f)) ? f.replace(",", ".") : f));
  }

  const fault = faults({ dist, nearestOn, contains, crosses, tilePiece, runAt, length, running, parseLength, pointForComma, place: (room, p) => spotWords(room, ask(room, p)) });

  // --- the page ----------------------------------------------------------------

  function setUp(section) {
    const room = rooms[Number(section.dataset.room)];
    const svg = section.querySelector("svg.map");
    const all = svg.dataset.box.split(" ").map(Number);
    let box = all.slice(), spot = null;
    const $ = (q) => section.querySelector(q);

    // The picture turns as a group; letters turn back about their own places. What is
    // seen of it (box, all) is in the coordinates after that turn.
    const picture = svg.querySelector("g.turned"), drawn = all.slice();
    let turn = 0; // degrees clockwise
    const rotate = ([x, y], degrees) => {
      const c = Math.cos(degrees * Math.PI / 180), s = Math.sin(degrees * Math.PI / 180);
      return [x * c - y * s, x * s + y * c];
    };
    const seen = (p) => rotate(p, turn);
    // reading is the turn in which lettering along a line is read from below or from the right
    const reading = (degrees) => (degrees % 180 + 270.1) % 180 - 90.1;
    const upright = (el, x, y) => { el.setAttribute("x", x); el.setAttribute("y", y); el.setAttribute("transform", `rotate(${-turn} ${x} ${y})`); };

    // Letters keep a size that can be read on a phone. Figures of tiles that could
    // not be read, and tags that have no room, are left out until they are zoomed
    // in to. px: of the screen for a mm of floor.
    const letters = [...svg.querySelectorAll("text")].map((el) => ({ el, kind: el.classList[0], size: Number(el.getAttribute("font-size")), at: [Number(el.getAttribute("x")), Number(el.getAttribute("y"))] }));
    for (const l of letters.filter((l) => l.el.dataset.at)) {
      l.mark = l.el.dataset.at.split(",").map(Number);
      l.off = [l.at[0] - l.mark[0], l.at[1] - l.mark[1]];
    }
    const least = { tag: 11, wall: 13, number: 6.5 };
    let named = [];
    // nameAll turns the names of what stands there along with it, as far as they can be read.
    function nameAll() {
      named = letters.filter((l) => l.kind === "name").map(({ el }) => {
        const b = el.getBBox(), to = reading((el.classList.contains("up") ? -90 : 0) + turn);
        el.style.transform = `rotate(${to - turn}deg)`;
        const c = Math.abs(Math.cos(to * Math.PI / 180)), s = Math.abs(Math.sin(to * Math.PI / 180));
        const w = (b.width * c + b.height * s) / 2, h = (b.width * s + b.height * c) / 2, [x, y] = seen([b.x + b.width / 2, b.y + b.height / 2]);
        return [x - w, y - h, x + w, y + h];
      });
    }
    // walls are lettered first, those measured from before all others
    // and after them the ends of a stretch that was found
    const order = ({ kind, el }) => (kind !== "wall" ? (el.classList.contains("found") ? 2 : 3) : el.textContent.endsWith("*") ? 0 : 1);
    const sort = () => letters.sort((a, b) => order(a) - order(b));
    sort();
    function fit(px) {
      const taken = [], walls = [];
      for (const l of letters) {
        const { el, kind, size, at } = l;
        if (!(kind in least)) continue;
        if (kind !== "tag") upright(el, ...at);
        if (kind === "number") {
          el.setAttribute("visibility", size * px < least.number ? "hidden" : "visible");
          continue;
        }
        const now = Math.min(2.2 * size, Math.max(size, least[kind] / px));
        el.setAttribute("font-size", now);
        if (kind === "wall") el.setAttribute("visibility", letterWall(el, seen(at), now, walls) ? "visible" : "hidden");
        if (kind === "tag") el.setAttribute("visibility", place(l, now, taken, walls) ? "visible" : "hidden");
      }
    }

    const over = (a, b) => a[0] < b[2] && b[0] < a[2] && a[1] < b[3] && b[1] < a[3];

    // letterWall is false where another wall's letter stands.
    function letterWall(el, [x, y], size, walls) {
      const w = 0.38 * size * el.textContent.length;
      const mine = [x - w, y - 0.4 * size, x + w, y + 0.4 * size];
      if (walls.some((t) => over(mine, t))) return false;
      walls.push(mine);
      return true;
    }

    // place puts a tag beside its mark, on the side where there is room, off the
    // names of walls and of what stands there if it can be; false where others have taken it.
    // Joints and fixings give way to names too.
    function place({ el, mark, off }, size, taken, walls) {
      const w = 0.62 * size * el.textContent.length, at = seen(mark), x = at[0] + off[0], y = at[1] + off[1];
      const both = [[x, false], [x - 52 - w, true]].map(([from, left]) => ({ left, box: [from, y - size / 2, from + w, y + size / 2] }));
      const inside = both.filter(({ box }) => box[0] >= all[0] && box[2] <= all[0] + all[2]);
      const free = (others) => (inside.length ? inside : both).find(({ box }) => !others.some((t) => over(box, t)));
      const side = free(taken.concat(named, walls)) || (el.classList.contains("extra") ? undefined : free(taken));
      if (!side) return false;
      el.classList.toggle("left", side.left);
      upright(el, ...rotate([side.left ? x - 52 : x, y], -turn));
      taken.push(side.box);
      return true;
    }

    function look() {
      svg.setAttribute("viewBox", box.join(" "));
      svg.classList.toggle("zoomed", zoomed()); // one finger moves the map only then, else the page
      const m = svg.getScreenCTM();
      if (m && m.a > 0) fit(m.a);
    }

    // frame is the box that shows all of the room as it is turned.
    function frame() {
      if (turn === 0) return drawn.slice();
      const white = Math.min(...room.outline.map((p) => p[0])) - drawn[0], corners = room.outline.map(([x, y]) => seen([x, -y]));
      const [x, y] = [0, 1].map((k) => Math.min(...corners.map((p) => p[k])) - white);
      return [x, y, ...[0, 1].map((k) => Math.max(...corners.map((p) => p[k])) + white - [x, y][k])];
    }

    // turnTo turns the picture and keeps its middle and, where it is zoomed in, its scale.
    function turnTo(degrees) {
      const middle = rotate([box[0] + box[2] / 2, box[1] + box[3] / 2], -turn), close = zoomed(), k = box[2] / all[2];
      turn = (Math.round(degrees * 1e6) / 1e6 % 360 + 360) % 360;
      picture.setAttribute("transform", `rotate(${turn})`);
      all.splice(0, 4, ...frame());
      const [x, y] = seen(middle);
      box = close ? [x - all[2] * k / 2, y - all[3] * k / 2, all[2] * k, all[3] * k] : all.slice();
      nameAll();
      look();
      tell();
    }

    // upTo is the turn that brings a wall to the top, as one who faces it sees the room.
    const upTo = (w) => Math.atan2(w.in[0], w.in[1]) * -180 / Math.PI + 180;

    // tell says which wall is at the top now and which way tiles are counted.
    function tell() {
      const off = (w) => Math.abs(((upTo(w) - turn) % 360 + 540) % 360 - 180);
      const i = room.walls.reduce((best, w, k) => (off(w) < 0.5 && (best < 0 || dist(w.a, w.b) > dist(room.walls[best].a, room.walls[best].b)) ? k : best), -1);
      $("[name=top]").value = i < 0 ? "" : String(i);
      const ways = $(".ways"), t = room.tiles;
      if (!ways || !t) return;
      const way = (p) => [say("to the right"), say("down to the right"), say("down"), say("down to the left"), say("to the left"), say("up to the left"), say("up"), say("up to the right")][(Math.round(Math.atan2(p[1], p[0]) * 4 / Math.PI) + 8) % 8];
      ways.textContent = say("; as the map lies now, rows go %s and tiles in a row %s", way(seen([-t.sin, -t.cos])), way(seen([t.cos, -t.sin])));
    }
    window.addEventListener("resize", look);
    window.addEventListener("beforeprint", () => { for (const d of section.querySelectorAll(".reasons details")) d.open = true; fit(Infinity); });
    window.addEventListener("afterprint", look);

    function zoom(by, at) {
      const w = Math.max(all[2] / 40, Math.min(all[2], box[2] / by)), k = w / box[2];
      const c = at || [box[0] + box[2] / 2, box[1] + box[3] / 2];
      box = w < all[2] ? [c[0] - (c[0] - box[0]) * k, c[1] - (c[1] - box[1]) * k, w, box[3] * k] : all.slice();
      look();
    }

    const zoomed = () => box[2] < 0.999 * all[2];

    // toSeen turns a place on the screen into one of the box that is seen, toPicture
    // into one of the picture before it was turned.
    const toSeen = (x, y) => fromScreen(svg, x, y), toPicture = (x, y) => fromScreen(picture, x, y);
    function fromScreen(el, x, y) {
      const m = el.getScreenCTM().inverse();
      return [m.a * x + m.c * y + m.e, m.b * x + m.d * y + m.f];
    }

    // answerAt answers for a spot, which is one of a wall where it is on its line.
    function answerAt(p) {
      const s = wallAt(room, p);
      return s ? askWall(room, s) : ask(room, p);
    }

    function showWall(s) {
      const a = askWall(room, s);
      point(a, ["spot", spotWords(room, a)]);
    }

    function show(p) {
      const a = answerAt(p);
      point(a, ["spot", spotWords(room, a)]);
    }

    // showTouched answers for a spot that was pointed at, which is as true as
    // the finger: what lies within its own error is not told apart.
    function showTouched(p, pointer) {
      const a = answerAt(p), px = pointer === "touch" ? fingertip : pinpoint, off = px / svg.getScreenCTM().a;
      point(a, ["spot", spotWords(room, a)], { off, words: touchWords(room, a, off, pointer) });
    }

    function showTile(place) {
      const a = askTile(room, place);
      point(a, tileFact(room, a));
    }

    // refuse takes the last answer away: it is not about what was typed now.
    function refuse(error, words) {
      error.textContent = words;
      clear(say("No answer: what was typed last could not be used."));
    }

    function clear(words) {
      spot = null;
      unmark();
      $(".spot").setAttribute("hidden", "");
      delete $(".answer").dataset.verdict;
      $(".verdict").textContent = words;
      $(".reasons").replaceChildren();
      $("svg.elevation").setAttribute("hidden", "");
    }

    // unmark takes a stretch off the map.
    function unmark() {
      for (const g of svg.querySelectorAll("g.stretch")) g.remove();
      for (let i = letters.length - 1; i >= 0; i--) if (letters[i].el.classList.contains("found")) letters.splice(i, 1);
    }

    // mark draws a stretch: a band along the cable, a bar at its likeliest place, dashes along
    // the runs it could be taken for, and the tiles over it.
    function mark(f) {
      unmark();
      const g = make("g", { class: "stretch" }), points = (line) => line.map(([x, y]) => `${x},${-y}`).join(" ");
      const draw = (name, attrs) => g.append(make(name, attrs));
      const scale = Math.max(1, drawn[2] / 3000, drawn[3] / 3000), wide = Math.max(24, Math.min(60 * scale, 0.6 * f.cable.spacing));
      for (const t of f.tiles) draw("polygon", { class: "over", points: points(tilePiece(room, t)) });
      for (const n of f.neighbours) draw("polyline", { class: "mistaken", points: points(n.line), "stroke-width": wide });
      draw("polyline", { class: "band", points: points(f.line), "stroke-width": wide });
      const t = f.thing, leg = nearest(t.line, f.best).leg, a = t.line[leg], b = t.line[leg + 1], n = dist(a, b);
      const across = [-(b[1] - a[1]) / n * 60 * scale, (b[0] - a[0]) / n * 60 * scale], [x, y] = f.best;
      draw("polyline", { class: "bar", points: points([[x + across[0], y + across[1]], [x - across[0], y - across[1]]]), "stroke-width": 16 * scale });
      svg.querySelector("g.spot").before(g);
      for (const [name, p, up] of [[say("LIKELIEST"), f.best, -80], [say("FROM"), f.line[0], 55], [say("TO"), f.line[f.line.length - 1], 55]]) {
        const at = [p[0], -p[1]], text = make("text", { class: "tag found", "font-size": 52 * scale }, name);
        g.append(text);
        letters.push({ el: text, kind: "tag", size: 52 * scale, at, mark: at, off: [26 * scale, up * scale] }); // off the band
      }
      sort();
      look();
    }

    // showFault writes where a fault must lie, and by what, and draws it.
    function showFault(f) {
      clear("");
      for (const e of section.querySelectorAll(".error")) e.textContent = "";
      const all = fault.facts(room, f), box = $(".answer");
      box.dataset.verdict = "FAULT";
      box.scrollTop = 0;
      $(".verdict").textContent = say("FAULT: %s", all[0][1]);
      const p = (words, name = "p") => { const e = document.createElement(name); e.textContent = words; return e; };
      const told = (...abouts) => all.slice(1).filter(([about]) => abouts.includes(about)).map((x) => p(titled(x)));
      const why = document.createElement("details"), list = document.createElement("ol");
      why.append(p(say("By what, and what is taken for granted"), "summary"), ...told("by", "plan", "assumed"));
      list.append(...fault.cautions(room, f).map((c) => p(`${capital(c)}.`, "li")));
      list.className = "cautions";
      $(".reasons").replaceChildren(measuredOut(f), keyTo(f), ...told("where", "core", "fault", "tile", "beside"), list, why);
      mark(f);
      reveal(f.best);
      const top = box.getBoundingClientRect().top;
      if (getComputedStyle(box).position !== "sticky" && (top < 0 || top > 0.7 * window.innerHeight)) section.scrollIntoView();
    }

    // keyTo explains what is drawn of a stretch, and nothing else.
    function keyTo(f) {
      const ul = document.createElement("ul");
      ul.className = "key";
      const explain = (shown, name, attrs, words) => {
        if (!shown) return;
        const li = document.createElement("li"), sample = make("svg", { class: "sample", viewBox: "0 0 120 60", "aria-hidden": "true" }), g = make("g", { class: "stretch" });
        g.append(make(name, attrs));
        sample.append(g);
        li.append(sample, words);
        ul.append(li);
      };
      explain(true, "polyline", { class: "band", points: "5,30 115,30", "stroke-width": 30 }, say("the fault lies under here"));
      explain(f.neighbours.length, "polyline", { class: "mistaken", points: "5,30 115,30", "stroke-width": 30 }, say("another run: could be taken for it"));
      explain(f.tiles.length, "polygon", { class: "over", points: "20,8 100,8 100,52 20,52" }, say("tile over it"));
      return ul;
    }

    // measuredOut is the table that finds a stretch on the floor, from the two walls that
    // drawings measure from.
    function measuredOut(f) {
      const table = document.createElement("table"), s = f.stretch, walls = room.datums.map((i) => room.walls[i]);
      const row = (name, cells) => { const tr = table.insertRow(); cells.forEach((c, i) => { const e = document.createElement(i && name === "td" ? "td" : "th"); e.scope = name === "td" ? "row" : "col"; if (e.tagName === "TD") e.removeAttribute("scope"); e.textContent = c; tr.append(e); }); };
      row("th", ["", say("along cable"), ...walls.map((w) => say("from wall %s", w.letter))]);
      const far = (w, q) => { const d = fromWall(w, q); return `${d < 0 ? "-" : ""}${length(room, Math.abs(d))}`; };
      for (const [name, along, q] of [[say("From"), s.from, f.line[0]], [say("Likeliest"), s.best, f.best], [say("To"), s.to, f.line[f.line.length - 1]]]) {
        row("td", [name, running(room, along), ...walls.map((w) => far(w, q))]);
      }
      table.className = "out";
      return table;
    }

    const make = (name, attrs, text) => {
      const el = document.createElementNS(svg.namespaceURI, name);
      for (const k in attrs) el.setAttribute(k, attrs[k]);
      el.textContent = text || "";
      return el;
    };

    // drawWall shows the wall as it is seen from the room, with the leads' zone and
    // the box where they are its own, and the hole.
    function drawWall(s) {
      const view = $("svg.elevation");
      if (!s) { view.setAttribute("hidden", ""); return; }
      const w = room.faces[s.face], n = dist(w.a, w.b), high = Math.max(s.up, room.rise ? room.rise.up + room.rise.half : 0, 900) + 150;
      const mirrored = (w.b[0] - w.a[0]) * w.in[1] - (w.b[1] - w.a[1]) * w.in[0] > 0; // its start is on the right
      const x = (along) => (mirrored ? n - along : along);
      const parts = [make("rect", { class: "face", x: 0, y: -high, width: n, height: high })];
      if (room.rise && room.rise.name === w.part) {
        const u = [(w.b[0] - w.a[0]) / n, (w.b[1] - w.a[1]) / n], foot = (p) => (p[0] - w.a[0]) * u[0] + (p[1] - w.a[1]) * u[1];
        const r = room.rise, feet = r.line.map(foot), box = foot(room.box);
        const ends = [Math.max(0, Math.min(...feet) - r.half), Math.min(n, Math.max(...feet) + r.half)].map(x).sort((a, b) => a - b);
        parts.push(make("rect", { class: "rise", x: ends[0], y: -(r.up + r.half), width: ends[1] - ends[0], height: r.up + r.half }, ""));
        parts.push(make("rect", { class: "box", x: x(box) - 40, y: -r.up - 60, width: 80, height: 120 }));
      }
      parts.push(make("path", { class: "hole", d: `M${x(s.along) - 60},${-s.up}h120m-60,-60v120` }), make("circle", { class: "hole", cx: x(s.along), cy: -s.up, r: 30 }));
      const [before, after] = w.next, size = Math.max(90, n / 25);
      for (const [at, text] of [[-size, mirrored ? after : before], [n + size, mirrored ? before : after], [n / 2, w.short]]) {
        parts.push(make("text", { x: at, y: at === n / 2 ? size : -high / 2, "font-size": size }, text));
      }
      view.setAttribute("viewBox", `${-2 * size} ${-high - 40} ${n + 4 * size} ${high + 40 + 2 * size}`);
      view.setAttribute("aria-label", parts.length > 6 ? say("%s as seen from the room: the hole is the cross; the shaded zone belongs to the leads of the box", w.called)
        : say("%s as seen from the room: the hole is the cross", w.called));
      view.replaceChildren(...parts);
      view.removeAttribute("hidden");
    }

    // point writes an answer and draws where it is; touched: how far the
    // finger may have been off, undefined for a spot that was measured.
    function point(a, where, touched) {
      const p = a.spot;
      spot = p;
      unmark();
      for (const e of section.querySelectorAll(".error")) e.textContent = "";
      write(a, where, touched);
      const g = $(".spot"), x = p[0], y = -p[1];
      g.removeAttribute("hidden");
      const set = (el, attrs) => { for (const k in attrs) el.setAttribute(k, attrs[k]); };
      set(g.querySelector("circle"), { cx: x, cy: y, r: Number.isFinite(a.within) ? a.within : 0 });
      set(g.querySelector(".a"), { x1: x - 40, y1: y, x2: x + 40, y2: y });
      set(g.querySelector(".b"), { x1: x, y1: y - 40, x2: x, y2: y + 40 });
      const n = a.near[0] ? a.near[0].at : p;
      set(g.querySelector(".to"), { x1: x, y1: y, x2: n[0], y2: -n[1] });
      reveal(p);
    }

    // reveal scrolls so that spot and answer are seen at once: on a phone the
    // answer sticks to the foot of the screen.
    function reveal(p) {
      const m = picture.getScreenCTM(), answer = $(".answer");
      if (!m || getComputedStyle(answer).position !== "sticky") return;
      const y = () => { const m = picture.getScreenCTM(); return m.b * p[0] - m.d * p[1] + m.f; };
      if (y() < around || y() > answer.getBoundingClientRect().top - around) window.scrollBy(0, y() - 0.3 * window.innerHeight);
    }

    // wallNotes are what to be careful about in a wall; a touch gives no height.
    function wallNotes(a, touched) {
      if (!a.wall) return [];
      const low = touched ? [["height", say("a touch gives none: taken at the floor, where leads are nearest; give it under “A hole in a wall”")]] : [];
      return low.concat(room.ofWalls.map((s) => ["", s]));
    }

    function write(a, where, touched) {
      const box = $(".answer"), blurred = touched && a.verdict === "NO CABLE RECORDED" && a.within <= touched.off;
      box.dataset.verdict = blurred ? "NO VERDICT" : a.verdict;
      box.scrollTop = 0;
      drawWall(a.wall);
      $(".verdict").textContent = blurred ? touchedHeadline(room, a, touched.off) : headline(room, a);
      const lines = (touched ? [touched.words] : []).concat(facts(room, a, where), wallNotes(a, touched)).map(titled);
      $(".reasons").replaceChildren(...lines.map((s) => {
        const el = document.createElement("p");
        el.textContent = s;
        return el;
      }));
    }

    // pan by dragging, pinch with two fingers, a touch that does not move asks
    const down = new Map();
    let moved = 0, apart = 0;
    svg.addEventListener("pointerdown", (e) => {
      svg.setPointerCapture(e.pointerId);
      down.set(e.pointerId, [e.clientX, e.clientY]);
      if (down.size === 1) moved = 0;
      if (down.size === 2) { const [a, b] = [...down.values()]; apart = dist(a, b); moved = 99; }
    });
    svg.addEventListener("pointermove", (e) => {
      const last = down.get(e.pointerId);
      if (!last) return;
      const now = [e.clientX, e.clientY];
      down.set(e.pointerId, now);
      moved += dist(last, now);
      if (down.size === 1 && moved > 6 && zoomed()) {
        const a = toSeen(...last), b = toSeen(...now);
        box[0] -= b[0] - a[0];
        box[1] -= b[1] - a[1];
        look();
      }
      if (down.size === 2) {
        const [a, b] = [...down.values()], d = dist(a, b);
        if (apart > 0 && d > 0) zoom(d / apart, toSeen((a[0] + b[0]) / 2, (a[1] + b[1]) / 2));
        apart = d;
      }
    });
    const up = (e) => {
      if (down.delete(e.pointerId) && down.size === 0 && moved <= 6 && e.type === "pointerup") {
        const [x, y] = toPicture(e.clientX, e.clientY);
        showTouched([x, -y], e.pointerType);
      }
    };
    svg.addEventListener("pointerup", up);
    svg.addEventListener("pointercancel", up);
    svg.addEventListener("wheel", (e) => {
      if (!e.ctrlKey && !zoomed()) return; // the page scrolls
      e.preventDefault();
      zoom(e.deltaY < 0 ? 1.2 : 1 / 1.2, toSeen(e.clientX, e.clientY));
    }, { passive: false });

    svg.addEventListener("keydown", (e) => {
      const step = room.inches ? (e.shiftKey ? inch / 16 : inch / 2) : e.shiftKey ? 1 : 10;
      const move = { ArrowLeft: [-step, 0], ArrowRight: [step, 0], ArrowUp: [0, step], ArrowDown: [0, -step] }[e.key];
      if (move) {
        const middle = rotate([all[0] + all[2] / 2, all[1] + all[3] / 2], -turn), by = rotate([move[0], -move[1]], -turn);
        show(spot ? [spot[0] + by[0], spot[1] - by[1]] : [middle[0], -middle[1]]);
      } else if (e.key === "+" || e.key === "=") zoom(1.3, spot && seen([spot[0], -spot[1]]));
      else if (e.key === "-") zoom(1 / 1.3, spot && seen([spot[0], -spot[1]]));
      else if ((e.key === "r" || e.key === "R") && !e.ctrlKey && !e.metaKey) turnTo(turn + (e.shiftKey ? -90 : 90));
      else if (e.key === "0") { box = all.slice(); look(); }
      else return;
      e.preventDefault();
    });
    for (const b of section.querySelectorAll("[data-zoom]")) {
      b.addEventListener("click", () => {
        if (b.dataset.zoom === "all") { box = all.slice(); look(); } else zoom(b.dataset.zoom === "in" ? 1.4 : 1 / 1.4);
      });
    }

    $("[data-turn]").addEventListener("click", () => turnTo(turn + 90));
    const top = $("[name=top]");
    room.walls.forEach((w, k) => top.add(new Option(w.letter, String(k))));
    top.addEventListener("change", () => { if (top.value !== "") turnTo(upTo(room.walls[Number(top.value)])); });

    const measure = $("form.measure");
    for (const [i, name] of ["wall1", "wall2"].entries()) {
      const select = measure.elements[name];
      room.walls.forEach((w, k) => select.add(new Option(w.letter, String(k), k === room.datums[i], k === room.datums[i])));
    }
    measure.addEventListener("submit", (e) => {
      e.preventDefault();
      const f = measure.elements, error = measure.querySelector(".error");
      const d1 = parseLength(room, f.off1.value), d2 = parseLength(room, f.off2.value);
      const p = offWalls(room, Number(f.wall1.value), d1, Number(f.wall2.value), d2);
      if (Number.isNaN(d1) || Number.isNaN(d2)) refuse(error, say("Write both distances, such as 2ft 3in, 68,5 cm or 686 mm."));
      else if (!p) refuse(error, say("These walls are parallel; take two that meet."));
      else show(p);
    });

    const hole = $("form.wall"), corner = () => { hole.querySelector(".corner").textContent = room.faces[Number(hole.elements.wall.value)].from; };
    room.faces.forEach((w, k) => { if (k === 0 || w.called !== room.faces[k - 1].called) hole.elements.wall.add(new Option(w.named, String(k))); });
    hole.elements.wall.addEventListener("change", corner);
    corner();
    hole.addEventListener("submit", (e) => {
      e.preventDefault();
      const f = hole.elements, along = parseLength(room, f.along.value), up = parseLength(room, f.up.value);
      const called = room.faces[Number(f.wall.value)].called, error = hole.querySelector(".error");
      const end = (w) => w.start + dist(w.a, w.b), sides = room.faces.filter((w) => w.called === called);
      const face = room.faces.findIndex((w) => w.called === called && w.start <= along && along <= end(w));
      if (Number.isNaN(along) || Number.isNaN(up)) refuse(error, say("Write both lengths, such as 2ft 3in, 68,5 cm or 686 mm."));
      else if (face < 0) refuse(error, capital(say("%s is %s long.", called, length(room, Math.max(...sides.map(end))))));
      else showWall({ face, along: along - room.faces[face].start, up });
    });

    const tile = $("form.tile");
    if (!room.tiles) tile.hidden = true;
    tile.addEventListener("submit", (e) => {
      e.preventDefault();
      const place = { row: Number(tile.elements.row.value), column: Number(tile.elements.column.value) };
      const ring = Number.isInteger(place.row) && Number.isInteger(place.column) ? tilePiece(room, place) : null;
      const error = tile.querySelector(".error"), r = room.tiles.rows[place.row - 1];
      if (ring) showTile(place);
      else refuse(error, tileOutline(room.tiles, place) ? say("No part of this tile lies inside the walls.") : r ? say("Row %d has columns 1 to %d.", place.row, r[1]) : say("There are rows 1 to %d.", room.tiles.rows.length));
    });
    $("[data-clear]").addEventListener("click", () => clear(say("Touch a spot on the map, or measure one below.")));
    for (const choice of section.querySelectorAll(".photos input")) {
      choice.addEventListener("change", () => {
        for (const el of svg.querySelectorAll(".photo")) el.classList.toggle("shown", el.dataset.photo === choice.value);
        svg.classList.toggle("photographed", choice.value !== "");
      });
    }
    $("[data-print]").addEventListener("click", () => window.print());
    fault.setUp(section, room, { show: showFault, refuse,
      stale: () => { if ($(".answer").dataset.verdict === "FAULT") clear(say("The readings were changed: ask for the stretch again.")); } });
    nameAll();
    look();
    tell();
    return { show, showTouched, look, turnTo, showFault };
  }

  const sections = [...document.querySelectorAll("section.room")];
  const views = sections.map(setUp);
  if (sections.length > 1) {
    const pick = document.getElementById("room");
    const choose = () => sections.forEach((s, i) => { s.hidden = s.dataset.room !== pick.value; views[i].look(); });
    document.querySelector("nav.rooms").hidden = false;
    pick.addEventListener("change", choose);
    choose();
  }

  // for tests: the page's own answers as data
  window.floorMap = { rooms, ask, askTile, askWall, under, facts, tileFact, headline, reckoning, brief, spotWords, pieceWords, offWalls, parseLength, views, fault, record };
})();
