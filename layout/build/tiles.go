package build

import (
	"cmp"
	"math"
	"slices"

	"oxturn/layout"
	"oxturn/layout/job"
	"oxturn/layout/language"
	"oxturn/layout/plane"
	"oxturn/layout/tiling"
)

// layTiles sets out the tile of every room that has cable.
func layTiles(p *layout.Plan) {
	for i := range p.Rooms {
		layTile(&p.Rooms[i], p.Job)
	}
}

func layTile(r *layout.Room, j *job.Job) {
	if len(r.Cables) > 0 {
		r.Tiles, r.NoTiles = tiling.Layouts(tiledRoom(r, j), j.Tile)
	}
}

// tiledRoom states a room as the layout of its tile wants it.
func tiledRoom(r *layout.Room, j *job.Job) tiling.Room {
	out := tiling.Room{Tiled: r.Tiled, Edge: j.Materials.SealantWidth, First: r.Job.FirstTile,
		Sides: append(wallSides(r.Job), standSides(r.Job)...)}
	for i, m := range r.Job.Joints {
		width := m.Width
		if width == 0 {
			width = j.Materials.SealantWidth
		}
		out.Joints = append(out.Joints, tiling.Joint{Segment: m.Segment, Name: layout.JointName(i, len(r.Job.Joints)),
			Width: width})
	}
	return out
}

// How much a cut is seen, a plain wall being 1: in a doorway it is the first that anyone
// sees, the wall across from it the next; behind the door's own wall one stands with the
// back to it (common practice).
const (
	seenAtDoor   = 3.0
	seenFromDoor = 2.0
	seenBehind   = 0.7
)

// wallSides are the walls, with their doorways apart.
func wallSides(r *job.Room) (out []tiling.Side) {
	for i, w := range r.Walls {
		if w.Arc != nil {
			continue
		}
		name, from := language.Say("wall %[1]s", w.Letter), 0.0
		side := func(a, b, seen float64, entry bool) {
			if b-a > 1 {
				out = append(out, tiling.Side{Segment: plane.Segment{A: w.At(a), B: w.At(b)}, Name: name, Seen: seen,
					Entry: entry})
			}
		}
		plain := seenOfWall(r, i)
		for _, o := range doorways(r, i) {
			side(from, o[0], plain, false)
			side(o[0], o[1], seenAtDoor, true)
			from = o[1]
		}
		side(from, w.Length(), plain, false)
	}
	return out
}

// doorways are where one comes in through a wall, along it.
func doorways(r *job.Room, wall int) (out [][2]float64) {
	for _, o := range r.Openings {
		if o.Wall == wall && o.Kind != "window" {
			out = append(out, [2]float64{math.Min(o.From, o.To), math.Max(o.From, o.To)})
		}
	}
	slices.SortFunc(out, func(a, b [2]float64) int { return cmp.Compare(a[0], b[0]) })
	return out
}

// facing is the cosine below which two walls face each other.
const facing = -0.9

// seenOfWall is how much a wall is seen from the doorways.
func seenOfWall(r *job.Room, wall int) float64 {
	seen := 1.0
	if len(doorways(r, wall)) > 0 {
		seen = seenBehind
	}
	w := r.Walls[wall]
	for i, o := range r.Walls {
		faces := w.B.Sub(w.A).Unit().Dot(o.B.Sub(o.A).Unit()) < facing
		if faces && len(doorways(r, i)) > 0 {
			return seenFromDoor
		}
	}
	return seen
}

// standSides are the sides of what stands on the subfloor.
func standSides(r *job.Room) (out []tiling.Side) {
	add := func(ring plane.Ring, name string, seen float64) {
		for i := range ring {
			out = append(out, tiling.Side{Segment: ring.Edge(i), Name: language.Say(name), Seen: seen})
		}
	}
	for _, f := range r.Fixtures {
		if !f.Tiled {
			add(f.Outline, f.Name, seenOfStand(f.Kind))
		}
	}
	for _, k := range r.KeepOuts {
		if !k.Tiled {
			add(k.Outline, k.Name, 1)
		}
	}
	return out
}

// seenOfStand is how much a cut along a thing is seen: a plinth stands over it, a tub or an
// island is in the middle of the view.
func seenOfStand(kind job.FixtureKind) float64 {
	switch kind {
	case job.Cabinet, job.Vanity, job.Appliance:
		return 0.5
	case job.Tub, job.Shower, job.Island, job.Column, job.Hearth:
		return 1.5
	}
	return 1
}
