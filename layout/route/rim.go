package route

import (
	"math"

	"oxturn/layout/plane"
)

// A rim is a zone whose edges are found by place, as every bend of every plan
// is held against those close by.
type rim struct {
	plane.Region
	from plane.Point
	nx   int
	by   [][]plane.Segment // by square of rimSquare mm
}

// rimSquare is the side of a square of a rim, mm.
const rimSquare = 250.0

func newRim(zone plane.Region) *rim {
	box := zone.Bounds()
	r := &rim{Region: zone, from: box.Min, nx: int(box.W()/rimSquare) + 1}
	r.by = make([][]plane.Segment, r.nx*(int(box.H()/rimSquare)+1))
	for _, ring := range zone.Rings() {
		for i := range ring {
			e := ring.Edge(i)
			r.squares(e.Bounds(), func(k int) { r.by[k] = append(r.by[k], e) })
		}
	}
	return r
}

// squares goes through those that a box comes to.
func (r *rim) squares(box plane.Rect, do func(k int)) {
	if len(r.by) == 0 {
		return
	}
	at := func(d float64) int { return int(math.Floor(d / rimSquare)) }
	y0, y1 := max(0, at(box.Min.Y-r.from.Y)), min(len(r.by)/r.nx-1, at(box.Max.Y-r.from.Y))
	x0, x1 := max(0, at(box.Min.X-r.from.X)), min(r.nx-1, at(box.Max.X-r.from.X))
	for y := y0; y <= y1; y++ {
		for x := x0; x <= x1; x++ {
			do(y*r.nx + x)
		}
	}
}

// within reports whether an edge comes within d mm of p.
func (r *rim) within(p plane.Point, d float64) bool {
	found := false
	r.squares(plane.Rect{Min: p.Sub(plane.Pt(d, d)), Max: p.Add(plane.Pt(d, d))}, func(k int) {
		for _, e := range r.by[k] {
			found = found || e.Distance(p) <= d
		}
	})
	return found
}

// leaves reports whether p lies more than slack mm outside.
func (r *rim) leaves(p plane.Point, slack float64) bool { return !r.Contains(p) && !r.within(p, slack) }

// rim returns a zone with its edges by place.
func (r *room) rim(zone int) *rim {
	if r.rims == nil {
		r.rims = make([]*rim, len(r.p.Zones)+1)
	}
	if r.rims[zone] == nil {
		r.rims[zone] = newRim(append(r.p.Zones[:len(r.p.Zones):len(r.p.Zones)], r.p.Floor)[zone])
	}
	return r.rims[zone]
}

// floorRim returns the floor that leads cross likewise.
func (r *room) floorRim() *rim { return r.rim(len(r.p.Zones)) }
