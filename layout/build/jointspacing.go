package build

import (
	"fmt"
	"math"

	"oxturn/layout"
	"oxturn/layout/job"
	"oxturn/layout/plane"
	"oxturn/layout/say"
)

// farApart and farIndeed are how far tile indoors usually runs at most between movement
// joints, mm: 20 to 25 ft each way by TCNA EJ171 and ANSI A108.01, as relayed in
// the NTCA Reference Manual 2024-25, p. 23. farApart is the one warned of, since
// a warmed floor moves more.
const farApart, farIndeed = 20 * plane.Foot, 25 * plane.Foot

// farFromJoint warns of tile that runs farther than is usual without a
// movement joint: along the room's longest wall, or across.
func farFromJoint(r *layout.Room, j *job.Job) []job.Diagnostic {
	u := longestWall(r)
	far := 0.0
	for _, part := range fields(r) {
		for _, way := range []plane.Point{u, u.Left()} {
			far = max(far, extent(part, way))
		}
	}
	if far <= farApart+1 {
		return nil
	}
	d := job.Diagnostic{Severity: job.Warning, ID: "W106", Span: r.Job.Span}
	d.Message = fmt.Sprintf("room %q: tile runs over %s without a movement joint; indoors one is usual every %s to "+
		"%s, nearer in direct sun or where it gets wet",
		r.Job.Name, say.About(far, j.Units), say.About(farApart, j.Units), say.About(farIndeed, j.Units))
	d.Hint = "ask the tile layer where the local standard wants joints and add a [[room.joint]] for each: no cable " +
		"may cross one, so it must be known before the cable is chosen; or allow W106"
	return []job.Diagnostic{d}
}

// longestWall returns the direction of the room's longest wall.
func longestWall(r *layout.Room) plane.Point {
	best := r.Job.Outline.Edge(0)
	for i := range r.Job.Outline {
		if e := r.Job.Outline.Edge(i); e.Length() > best.Length() {
			best = e
		}
	}
	return best.B.Sub(best.A).Unit()
}

// extent is how far a piece of floor reaches along u, mm.
func extent(part plane.Polygon, u plane.Point) float64 {
	low, high := math.Inf(1), math.Inf(-1)
	for _, p := range part.Outer {
		low, high = min(low, p.Dot(u)), max(high, p.Dot(u))
	}
	return high - low
}

// jointSlit is the width of what a movement joint cuts out of the tile to tell the
// fields on either side apart, mm.
const jointSlit = 2.0

// fields are the pieces of the room's tiled floor between its movement joints;
// the whole of it where that cannot be told.
func fields(r *layout.Room) plane.Region {
	var cuts []plane.Region
	for _, m := range r.Job.Joints {
		u := m.B.Sub(m.A).Unit().Mul(jointSlit)
		cut, err := plane.Band([]plane.Point{m.A.Sub(u), m.B.Add(u)}, jointSlit)
		if err != nil {
			return r.Tiled
		}
		cuts = append(cuts, cut)
	}
	all, err := plane.Union(cuts...)
	if err != nil {
		return r.Tiled
	}
	out, err := r.Tiled.Less(all)
	if err != nil {
		return r.Tiled
	}
	return out
}
