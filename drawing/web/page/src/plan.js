// The geometry of a room's plan: where a thing comes to stand that a finger drags, and what
// it snaps to. Places are mm of the floor, x east and y north.
"use strict";

const sub = (a, b) => [a[0] - b[0], a[1] - b[1]], plus = (a, b, k = 1) => [a[0] + k * b[0], a[1] + k * b[1]];
const dot = (a, b) => a[0] * b[0] + a[1] * b[1], far = (a, b) => Math.hypot(a[0] - b[0], a[1] - b[1]);
const within = (low, v, high) => Math.max(low, Math.min(v, Math.max(low, high)));

function middle(shape) {
  const xs = shape.map((p) => p[0]), ys = shape.map((p) => p[1]);
  return [(Math.min(...xs) + Math.max(...xs)) / 2, (Math.min(...ys) + Math.max(...ys)) / 2];
}

// nearestOn is the place of a line that is nearest: { at, part, of } with the part of the line before it.
function nearestOn(line, p) {
  let best = null, before = 0;
  for (let i = 1; i < line.length; i++) {
    const a = line[i - 1], d = sub(line[i], a), length = Math.hypot(...d) || 1, t = within(0, dot(sub(p, a), d) / length / length, 1), at = plus(a, d, t);
    if (!best || far(at, p) < best.off) best = { at, off: far(at, p), part: before + t * length };
    before += length;
  }
  return { ...best, of: before };
}

// frame is a side at so far along it: where, on along it, and out from it.
function frame(side, along) {
  let left = along / side.length * sideLine(side);
  for (let i = 1; i < side.line.length; i++) {
    const d = sub(side.line[i], side.line[i - 1]), length = Math.hypot(...d) || 1;
    if (left > length && i < side.line.length - 1) { left -= length; continue; }
    const on = [d[0] / length, d[1] / length], square = [-on[1], on[0]], turn = dot(square, side.out) < 0 ? -1 : 1;
    return { at: plus(side.line[i - 1], on, left), on, out: [turn * square[0], turn * square[1]] };
  }
  return { at: side.line[0], on: [1, 0], out: side.out };
}
const sideLine = (side) => nearestOn(side.line, side.line[0]).of;

// carried is a shape as it lies in one frame, put into another.
const carried = (shape, a, b) => shape.map((p) => { const d = sub(p, a.at); return plus(plus(b.at, b.on, dot(d, a.on)), b.out, dot(d, a.out)); });

// posed is a thing's shape in a pose: { way, side, low, corner, by, end, to }.
function posed(room, thing, pose) {
  if (pose.end) return thing.shape.map((p, i) => (i === 0) === (pose.end === "from") ? pose.to : p);
  if (pose.way === "side" && thing.side >= 0) {
    const half = (thing.high - thing.low) / 2;
    return carried(thing.shape, frame(room.sides[thing.side], thing.low + half), frame(room.sides[pose.side], pose.low + half));
  }
  if (pose.way === "corner" && thing.corner) {
    const side = (letter) => room.sides.find((s) => s.name === letter), a = side(thing.corner), b = side(pose.corner);
    return a && b ? carried(thing.shape, frame(a, 0), frame(b, 0)) : thing.shape;
  }
  return thing.shape.map((p) => plus(p, pose.by || [0, 0]));
}

const poseOf = (thing) => ({ way: thing.way, side: thing.side, low: thing.low, corner: thing.corner, by: [0, 0] });
const mayStand = (thing, side) => thing.high - thing.low <= side.length + 1 && !(thing.kind === "opening" && side.face);

// slid is the pose in which a thing's middle comes nearest to a place, along any side it may stand on.
function slid(room, thing, to, now, snap, step) {
  let best = null, least = Infinity;
  room.sides.forEach((side, i) => {
    if (!mayStand(thing, side)) return;
    const wide = thing.high - thing.low, near = nearestOn(side.line, to);
    const low = within(0, near.part / near.of * side.length - wide / 2, side.length - wide), pose = { ...poseOf(thing), side: i, low };
    const off = far(middle(posed(room, thing, pose)), to) - (i === now ? snap : 0); // it rather stays where it is
    if (off < least) { least = off; best = pose; }
  });
  if (best) best.low = caught(room, thing, best, snap, step);
  return best || poseOf(thing);
}

// caught is how far along a side a thing comes to stand: in a corner, in the middle or at another
// thing where it is near, else at a round figure.
function caught(room, thing, pose, snap, step) {
  const side = room.sides[pose.side], wide = thing.high - thing.low, most = side.length - wide, at = [0, most, most / 2];
  for (const o of room.things) {
    if (o === thing || o.side !== pose.side) continue;
    at.push(o.high, o.low - wide, (o.low + o.high - wide) / 2);
  }
  const near = at.filter((v) => v >= 0 && v <= most + 0.01).sort((a, b) => Math.abs(a - pose.low) - Math.abs(b - pose.low))[0];
  if (near !== undefined && Math.abs(near - pose.low) <= snap) return near;
  return within(0, Math.round(pose.low / step) * step, most);
}

// shifted is by how much a free thing is moved: until an edge or its middle is in line with
// a wall or another thing where it is near, else by round figures.
function shifted(room, thing, by, snap, step) {
  const others = [...room.outline.map((p) => [p]), ...room.things.filter((o) => o !== thing).map((o) => o.shape)];
  return by.map((d, axis) => {
    const own = thing.shape.map((p) => p[axis]), low = Math.min(...own), high = Math.max(...own), mine = [low, (low + high) / 2, high];
    let best = null;
    for (const o of others) {
      const at = o.map((p) => p[axis]), a = Math.min(...at), b = Math.max(...at);
      for (const to of [a, b, (a + b) / 2]) for (const m of mine) if (Math.abs(m + d - to) <= snap && (best === null || Math.abs(m + d - to) < Math.abs(best - d))) best = to - m;
    }
    const walls = room.outline.map((p) => p[axis]), to = best === null ? Math.round((mine[1] + d) / step) * step - mine[1] : best;
    return within(Math.min(...walls) - low, to, Math.max(...walls) - high); // it stays in the room
  });
}

// endAt is where an end is put: on a wall where one is near, in line with the other end, else at round figures.
function endAt(room, thing, end, to, snap, step) {
  const other = thing.shape[end === "from" ? 1 : 0];
  const level = to.map((v, i) => Math.abs(v - other[i]) <= snap ? other[i] : Math.round(v / step) * step);
  let best = { to: level, side: -1 }, least = snap;
  room.sides.forEach((side, i) => {
    const near = nearestOn(side.line, level);
    if (near.off < least) { least = near.off; best = { to: near.at, side: i }; }
  });
  return { ...poseOf(thing), end, ...best };
}

// cornered is the pose in the corner that is nearest.
function cornered(room, thing, to) {
  const all = room.sides.filter((s) => !s.face && s.line.length === 2).map((s) => ({ ...poseOf(thing), way: "corner", corner: s.name }));
  const off = (pose) => far(thing.corner ? middle(posed(room, thing, pose)) : room.sides.find((s) => s.name === pose.corner).line[0], to);
  return all.sort((a, b) => off(a) - off(b))[0] || poseOf(thing);
}

function inRing(ring, p) {
  let inside = false;
  ring.forEach((a, i) => {
    const b = ring[(i + 1) % ring.length];
    if ((a[1] > p[1]) !== (b[1] > p[1]) && p[0] < (b[0] - a[0]) * (p[1] - a[1]) / (b[1] - a[1]) + a[0]) inside = !inside;
  });
  return inside;
}

// offShape is how far a place is from a shape, 0 in it.
const offShape = (shape, p) => shape.length > 2 && inRing(shape, p) ? 0 : shape.length < 2 ? far(shape[0], p) : nearestOn(shape.length > 2 ? [...shape, shape[0]] : shape, p).off;

// overOther is a thing that stands on floor which a shape is to take too.
function overOther(room, thing, shape) {
  const solid = (t) => t.kind !== "drain" && t.kind !== "cold" && t.shape.length > 2;
  if (!solid(thing) || thing.kind === "keep_out") return undefined;
  const drawnIn = (ring) => { const c = middle(ring); return [...ring, ...ring.map((p, i) => middle([p, ring[(i + 1) % ring.length]])), c].map((p) => plus(p, sub(c, p), Math.min(0.5, 6 / (far(c, p) || 1)))); };
  return room.things.find((o) => o !== thing && solid(o) && o.kind !== "keep_out" && (drawnIn(shape).some((p) => inRing(o.shape, p)) || drawnIn(o.shape).some((p) => inRing(shape, p))));
}

// onTape is a length as a tape reads it.
function onTape(mm) {
  if (!inches()) return Math.round(mm) + " mm";
  let n = Math.round(mm / 25.4 * 16), of = 16;
  const feet = Math.floor(n / 192), whole = Math.floor(n % 192 / 16);
  n %= 16;
  while (n && n % 2 === 0) { n /= 2; of /= 2; }
  return (feet ? feet + "ft " : "") + whole + (n ? "-" + n + "/" + of : "") + "in";
}
