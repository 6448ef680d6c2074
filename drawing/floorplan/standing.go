package floorplan

import (
	"math"
	"strconv"
	"strings"

	"oxturn/drawing/setting"
	"oxturn/layout"
	"oxturn/layout/plane"
)

// Standing is the table that finds again what stands on the floor, what is
// fixed to it, the joints, and the edges of what is warmed: how far from the
// datums each begins and ends.
func (v *View) Standing() []setting.Block {
	if !v.Datums().Both() {
		return nil
	}
	t := v.DatumTable(v.Fig.Text("Fixtures, joints, edges"), v.Fig.Text("From, to"))
	for i := range t.Cols {
		t.Cols[i].Wraps = true
	}
	add := func(name string, pts []plane.Point) {
		if len(pts) > 0 {
			t.Rows = append(t.Rows, v.Extent(name, pts)...)
		}
	}
	r := v.Room.Job
	for _, f := range r.Fixtures {
		add(v.Fig.Text(Or(f.Name, string(f.Kind))), f.Outline)
		if f.Flange != nil {
			add(v.Fig.Textf("%s flange, centre", v.Fig.Text(Or(f.Name, string(f.Kind)))),
				[]plane.Point{f.Flange.Centre})
		}
	}
	for _, k := range r.KeepOuts {
		add(v.Fig.Text(Or(k.Name, "keep-out")), k.Outline)
	}
	for _, x := range r.Fixings {
		add(v.fixingName(x), x.Line)
	}
	for i, m := range r.Joints {
		add(layout.JointName(i, len(r.Joints)), []plane.Point{m.A, m.B})
	}
	for _, p := range v.Room.Heated {
		t.Rows = append(t.Rows, v.span(v.heatedName(p), p.Outer))
	}
	for i, s := range v.Room.Strips(v.Plan.Job) {
		add(v.Fig.Textf("strip %d", i+1), []plane.Point{s.A, s.B})
	}
	if len(t.Rows) == 0 {
		return nil
	}
	return []setting.Block{v.Signed(t)}
}

// heatedName names a part of the heated floor by its cables, where there are
// several parts.
func (v *View) heatedName(part plane.Polygon) string {
	name := v.Fig.Text("Heated area")
	if len(v.Room.Heated) == 1 {
		return name
	}
	var in []string
	for _, c := range v.Room.Cables {
		if part.Outer.Contains(c.Path[0].Lerp(c.Path[1], 0.5)) {
			in = append(in, c.ID)
		}
	}
	return strings.TrimSpace(name + " " + strings.Join(in, ", "))
}

// Or returns the first of two names that is not empty.
func Or(name, other string) string {
	if name != "" {
		return name
	}
	return other
}

// cornersLeast is the share of its extent that a thing fills when its edges
// run along the datums; what fills less is given by its corners.
const cornersLeast = 0.97

// Extent returns the rows of one thing: its extent from both datums, or its
// corners where it stands askew to them.
func (v *View) Extent(name string, pts []plane.Point) [][]setting.Cell {
	lo, hi := v.reach(pts)
	filled := plane.Ring(pts).Area()
	point := v.Fig.Text(", corner ")
	if len(pts) == 2 { // a line: askew when it runs along neither datum
		point, filled = v.Fig.Text(", end "), math.Inf(1)
		if hi[0]-lo[0] > sameLength && hi[1]-lo[1] > sameLength {
			filled = 0
		}
	}
	askew := filled < cornersLeast*(hi[0]-lo[0])*(hi[1]-lo[1])
	const most = 6 // of corners: a rounder thing is known by its extent
	if !askew || len(pts) > most {
		return [][]setting.Cell{v.span(name, pts)}
	}
	var rows [][]setting.Cell
	for i, p := range pts {
		rows = append(rows, v.span(name+point+strconv.Itoa(i+1), []plane.Point{p}))
	}
	return rows
}

// sameLength is the difference that a tape on a floor does not show, mm.
const sameLength = 3

// reach returns the least and the greatest distance of pts from both datums.
func (v *View) reach(pts []plane.Point) (lo, hi [2]float64) {
	datums := v.Datums()
	for k := range datums {
		lo[k], hi[k] = math.Inf(1), math.Inf(-1)
		for _, p := range pts {
			o := datums.Offsets(p)[k]
			lo[k], hi[k] = math.Min(lo[k], o), math.Max(hi[k], o)
		}
	}
	return lo, hi
}

// UnbrokenWords keeps a text on one line.
func UnbrokenWords(s string) string { return strings.ReplaceAll(s, " ", setting.NoBreak) }

// span is the row of an extent; one figure where both ends are the same.
func (v *View) span(name string, pts []plane.Point) []setting.Cell {
	lo, hi := v.reach(pts)
	words := [2]string{}
	for k := range words {
		if words[k] = UnbrokenWords(v.Fig.Length(lo[k])); hi[k]-lo[k] > sameLength {
			words[k] += " " + UnbrokenWords(v.Fig.Textf("to %s", v.Fig.Length(hi[k])))
		}
	}
	return setting.Row(name, words[0], words[1])
}
