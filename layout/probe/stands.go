package probe

import (
	"math"
	"slices"

	"oxturn/layout/job"
	"oxturn/layout/language"
	"oxturn/layout/plane"
	"oxturn/layout/tiling"
)

// A StandNear is what stands on a spot or nearest to it.
type StandNear struct {
	job.Stand
	Under    bool    // the spot lies under it
	Distance float64 // mm from the spot to its edge
}

// standNear finds what stands nearest to a spot; of what stands on it, that
// whose edge is farthest.
func (m *Map) standNear(p plane.Point) *StandNear {
	var best *StandNear
	depth := math.Inf(1) // how far outside the edge; below zero: inside
	for _, s := range m.Stands {
		n := StandNear{s, s.Outline.Contains(p), s.Outline.Distance(p)}
		d := n.Distance
		if n.Under {
			d = -d
		}
		if d < depth {
			best, depth = &n, d
		}
	}
	return best
}

// standWords says what stands at a spot.
func (m *Map) standWords(n *StandNear) string {
	if n.Under {
		return m.Textf("the spot is under %s, %s in from its edge", m.Text(n.Name), m.Length(n.Distance))
	}
	return m.Textf("%s is the nearest, its edge %s away", m.Text(n.Name), m.Length(n.Distance))
}

// An OnTile is what stands on a tile.
type OnTile struct {
	job.Stand
	All bool // on the whole of it
}

// OnTile finds what stands on a tile.
func (m *Map) OnTile(p tiling.Place) (out []OnTile) {
	if m.Tiling == nil {
		return nil
	}
	ring := m.Tiling.Piece(p, m.Outline)
	for _, s := range m.Stands {
		corners := 0
		for _, q := range ring {
			if s.Outline.Contains(q) {
				corners++
			}
		}
		cut := cross(ring, s.Outline) || slices.ContainsFunc(s.Outline, ring.Contains)
		if corners > 0 || cut {
			out = append(out, OnTile{s, corners == len(ring) && !cut})
		}
	}
	return out
}

// cross reports whether two outlines cross.
func cross(a, b plane.Ring) bool {
	for i := range a {
		for k := range b {
			if a.Edge(i).Crosses(b.Edge(k)) {
				return true
			}
		}
	}
	return false
}

func (o OnTile) words(l language.Language) string {
	if o.All {
		return l.Textf("%s stands on all of it", l.Text(o.Name))
	}
	return l.Textf("%s stands on part of it", l.Text(o.Name))
}
