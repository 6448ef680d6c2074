package job

import (
	"fmt"
	"math"
	"strings"

	"oxturn/layout/job/tree"
	"oxturn/layout/plane"
)

// checkSize refuses a floor that no room has.
func (r *Room) checkSize(t table, key string) bool {
	b := r.Outline.Bounds()
	area, across, u := r.Outline.Area()/plane.SquareMetre, math.Max(b.W(), b.H()), t.rd.drawingUnits()
	what := roomArea.judge(area)
	says := strings.Replace(roomArea.says, "%s", measureUnits[roomArea.unit].span(roomArea.low, roomArea.high, u), 1)
	switch m := measureUnits["mm"]; {
	case what == absurdFigure:
		t.errorf(key, r.likelySize(t, key), "room %q was read as %s by %s, %s of floor; %s (%s)", r.Name,
			m.write(b.W(), u), m.write(b.H(), u),
			measureUnits[roomArea.unit].write(area, u), says, roomArea.source)
	case across > widestRoom:
		t.errorf(key, "look whether the unit is right", "room %q is %s across; %s is the most", r.Name,
			t.length(across), t.length(widestRoom))
	default:
		return true
	}
	return false
}

// likelySize says in which other unit the bare figures of a room make a usual
// one.
func (r *Room) likelySize(t table, key string) string {
	const look = "look whether the unit is right"
	read := map[plane.Units]float64{plane.Millimetres: 1, plane.Inches: plane.Inch}[t.rd.units]
	if !endsBare(t.rd.source(lastLeaf(t.n.Get(key)))) || read == 0 {
		return look
	}
	for _, name := range t.rd.unitsOf(Key{Type: TypeLength}) {
		one, err := plane.ParseLength("1 "+name, plane.NoUnits)
		if err != nil || one == read {
			continue
		}
		if area := r.Outline.Area() / plane.SquareMetre * math.Pow(one/read, 2); roomArea.judge(area) == usualFigure &&
			area < 100 {
			return fmt.Sprintf("is their unit missing? in %s its figures would make %s of floor", name,
				measureUnits[roomArea.unit].write(area, t.rd.drawingUnits()))
		}
	}
	return look
}

// lastLeaf is the last value in lists.
func lastLeaf(n *tree.Node) *tree.Node {
	for n.Kind == tree.Array && len(n.Items) > 0 {
		n = n.Items[len(n.Items)-1]
	}
	return n
}

// HeatCannotBe says why cables of so many watts cannot be meant for a floor of an
// area in mm², "" where they may be. There may be more floor than they are for:
// then too little is not looked at.
func HeatCannotBe(watts, area float64, all bool, u plane.Units) string {
	made := watts / (area / plane.SquareMetre)
	if powerPerArea.judge(made) != absurdFigure || made < powerPerArea.low && !all {
		return ""
	}
	p, m := powerPerArea, measureUnits[powerPerArea.unit]
	return fmt.Sprintf("the %s of its cables on %s of floor to be warmed make %s; %s (%s)",
		measureUnits["W"].write(watts, u), measureUnits["m²"].write(area/plane.SquareMetre, u),
		m.write(made, u), strings.Replace(p.says, "%s", m.span(p.low, p.high, u), 1), p.source)
}
