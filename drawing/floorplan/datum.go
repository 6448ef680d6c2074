package floorplan

import (
	"fmt"
	"math"
	"strconv"
	"strings"

	"oxturn/drawing"
	"oxturn/drawing/lettering"
	"oxturn/drawing/setting"
	"oxturn/drawing/signs"
	"oxturn/layout"
	"oxturn/layout/plane"
	"oxturn/symbols"
)

// WallSegments are the faces of the room's walls, in their order.
func (v *View) WallSegments() []plane.Segment {
	ws := make([]plane.Segment, len(v.Room.Job.Walls))
	for i, w := range v.Room.Job.Walls {
		ws[i] = w.Segment
	}
	return ws
}

// Datums returns the faces that are measured from.
func (v *View) Datums() []plane.Segment {
	ws := v.WallSegments()
	d1, d2 := layout.Datums(v.Room.Job)
	var out []plane.Segment
	for _, d := range []int{d1, d2} {
		if d >= 0 {
			out = append(out, ws[d])
		}
	}
	return out
}

// Offset returns how far p lies before the face of a wall, square to it;
// negative where the room reaches back behind that face's line. out is +1 for
// the walls of a counter-clockwise outline, -1 for those of the other.
func Offset(w plane.Segment, p plane.Point, out float64) float64 {
	return out * w.B.Sub(w.A).Unit().Cross(p.Sub(w.A))
}

// Offsets returns the figures that locate p: from D1 and from D2.
func (v *View) Offsets(p plane.Point) (from1, from2 string) {
	ws := v.WallSegments()
	d1, d2 := layout.Datums(v.Room.Job)
	from1, from2 = "-", "-"
	if d1 >= 0 {
		from1 = v.Fig.Length(Offset(ws[d1], p, v.Out))
	}
	if d2 >= 0 {
		from2 = v.Fig.Length(Offset(ws[d2], p, v.Out))
	}
	return from1, from2
}

// PlaceWords says where p lies, for a note.
func (v *View) PlaceWords(p plane.Point) string {
	a, b := v.Offsets(p)
	return a + " from D1, " + b + " from D2"
}

// DrawDatums marks the faces that are measured from.
func (v *View) DrawDatums() {
	ws := v.WallSegments()
	d1, d2 := layout.Datums(v.Room.Job)
	for i, d := range []int{d1, d2} {
		if d < 0 {
			continue
		}
		name := "D" + strconv.Itoa(i+1)
		out := PaperDir(v.Outward(ws[d]))
		at := v.Paper.Pt(ws[d].At(v.freeAlong(d)))
		v.Mark(signs.Datum, symbols.Datum(at, out, ""))
		tip := at.Add(out.Mul(2.6))
		l := &lettering.Label{Text: name, Height: drawing.H25, Rank: 1, Subject: tip,
			Note: name + " is the face of wall " + v.Room.Job.Walls[d].Letter}
		l.Spots = TagSpots(tip, 1, name)
		v.Letters.Add(l)
	}
}

// BrokenDatums says of a datum that is a doorway in part where it stands.
func (v *View) BrokenDatums() []string {
	d1, d2 := layout.Datums(v.Room.Job)
	var out []string
	for i, d := range []int{d1, d2} {
		if d < 0 {
			continue
		}
		w := v.Room.Job.Walls[d]
		stands := layout.Standing(v.Room.Job, d)
		if len(stands) == 1 && stands[0][1]-stands[0][0] > w.Length()-1 {
			continue
		}
		var parts []string
		for _, s := range stands {
			parts = append(parts, UnbrokenWords(v.Fig.Length(s[0])+" to "+v.Fig.Length(s[1])))
		}
		out = append(out, fmt.Sprintf("D%d, wall %s, stands from %s of its length; sight along it across its opening.",
			i+1, w.Letter, strings.Join(parts, " and ")))
	}
	return out
}

// freeAlong finds a place along a wall that no opening takes, towards its end.
func (v *View) freeAlong(wall int) float64 {
	n := v.Room.Job.Walls[wall].Length()
	for _, t := range []float64{0.82, 0.18, 0.7, 0.3, 0.9, 0.1, 0.6, 0.4} {
		if !v.inGap(wall, n*t) && math.Abs(n*t-v.Room.Job.Thermostat.Along) > 8*v.Paper.Ratio {
			return n * t
		}
	}
	return n / 2
}

// Locations is the table that finds every important point of the floor again.
func (v *View) Locations() setting.Block { return v.Places(false, true) }

// Places is that table: in full, or, for an owner, without the half-way marks;
// and with what each point is, or with the shortest names.
func (v *View) Places(owner, named bool) setting.Block {
	if d1, d2 := layout.Datums(v.Room.Job); d1 < 0 || d2 < 0 {
		return setting.List{}
	}
	head := "Locating dimensions"
	if owner { // for readers who do not look for the unit in a title block
		head = "Offsets"
		if v.Fig.Units == plane.Millimetres {
			head += ", mm"
		}
	}
	t := v.DatumTable(head, "Point")
	add := func(name string, p plane.Point) {
		a, b := v.Offsets(p)
		if !named {
			name, _, _ = strings.Cut(name, " (")
		}
		t.Rows = append(t.Rows, setting.Row(name, UnbrokenWords(a), UnbrokenWords(b)))
	}
	add("Lead rise (foot)", v.Room.Job.Thermostat.At)
	for i := range v.Room.Cables {
		c := &v.Room.Cables[i]
		if len(c.Path) == 0 {
			continue
		}
		pre := v.Prefix(c.ID)
		add(pre+"START (joint)", c.Path[0])
		for _, m := range c.Marks {
			if !owner && m.Name == "1/2" {
				add(pre+"1/2", m.At)
			}
		}
		end := "END (cap)"
		if c.Return != nil { // a single conductor comes back to the box: a joint at both ends, no cap
			end = "END (joint)"
		}
		add(pre+end, c.Path[len(c.Path)-1])
	}
	for _, s := range v.Room.Sensors {
		what := ""
		if s.Spare {
			what = " (spare)"
		}
		add(s.Name+what, s.Tip)
	}
	return signed(t)
}

// DatumTable returns a table of what lies how far from both datums, still
// without rows.
func (v *View) DatumTable(head, what string) setting.Table {
	return setting.Table{Head: head, Cols: []setting.Column{
		{Head: what, Wraps: true}, {Head: "D1, wall " + v.DatumLetter(0), Align: setting.Decimal},
		{Head: "D2, wall " + v.DatumLetter(1), Align: setting.Decimal},
	}}
}

// DatumLetter names the wall of a datum, a dash where there is none.
func (v *View) DatumLetter(i int) string {
	d1, d2 := layout.Datums(v.Room.Job)
	d := [2]int{d1, d2}[i]
	if d < 0 {
		return "-"
	}
	return v.Room.Job.Walls[d].Letter
}

// signed explains the figures that are negative, where there are any.
func signed(t setting.Table) setting.Table {
	for _, r := range t.Rows {
		if strings.HasPrefix(r[1].Text, "-") || strings.HasPrefix(r[2].Text, "-") {
			t.Cols[0].Head += " (minus: behind the face)"
			break
		}
	}
	return t
}

// Prefix names a cable before a tag where the room has more than one.
func (v *View) Prefix(id string) string {
	if len(v.Room.Cables) > 1 {
		return id + " "
	}
	return ""
}
