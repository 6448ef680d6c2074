package floorplan

import (
	"math"

	"oxturn/drawing"
	"oxturn/drawing/lettering"
	"oxturn/layout/plane"
)

// A Named is a point, or a line from A to B, that is set out.
type Named struct {
	Name string
	A, B plane.Point
}

// Strings dimensions what is set out along two sides of the room, from end to end of it, each
// place with its name: points along both, lines along the side that they run across.
func (v *View) Strings(things []Named) {
	ls := Ladders(v.Room.Job, v.Paper.Ratio)
	for axis := range side(2) {
		for _, l := range ls {
			if l.Side%2 == axis {
				v.stringAlong(l.Side, things)
				break
			}
		}
	}
}

// inLine is how far the ends of a line may lie apart along a side that it runs across, mm.
const inLine = 5.0

// stringAlong dimensions what is set out along one side.
func (v *View) stringAlong(s side, things []Named) {
	on := squared(v.Room.Job)
	all := roomEnds(on, s)
	b := on.Outline.Bounds()
	edge := math.Max(s.depth(b.Min), s.depth(b.Max))
	along := func(n Named) (at float64, ok bool) {
		at = s.along(v.Paper.Turned(n.A))
		return at, math.Abs(at-s.along(v.Paper.Turned(n.B))) < inLine
	}
	for _, n := range things {
		if at, ok := along(n); ok {
			all = append(all, Station{Along: at, depth: edge, Weight: OpeningWeight})
		}
	}
	l := ladder{Side: s, Stations: Spaced(all, StationGap*v.Paper.Ratio)}
	if len(l.Stations) < 3 {
		return
	}
	v.Ladder(l, b)
	for _, n := range things {
		at, ok := along(n)
		if !ok || !l.has(at, 0.5) {
			continue
		}
		foot := v.Paper.TurnedPt(s.place(Station{Along: at, depth: edge})).Add(s.onPaper().Mul(TierOne + extensionPast))
		v.Letters.Add(&lettering.Label{Text: n.Name, Height: drawing.H25, Rank: 6, Subject: foot, Option: true,
			Spots: TagSpots(foot, 0.3, n.Name)})
	}
}
