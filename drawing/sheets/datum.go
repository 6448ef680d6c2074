package sheets

import (
	"fmt"
	"math"
	"strings"

	"oxturn/drawing"
	"oxturn/layout"
	"oxturn/layout/plane"
	"oxturn/symbols"
)

func (v *roomView) wallSegments() []plane.Segment {
	ws := make([]plane.Segment, len(v.room.Job.Walls))
	for i, w := range v.room.Job.Walls {
		ws[i] = w.Segment
	}
	return ws
}

// datums returns the faces that are measured from.
func (v *roomView) datums() []plane.Segment {
	ws := v.wallSegments()
	d1, d2 := layout.Datums(v.room.Job)
	var out []plane.Segment
	for _, d := range []int{d1, d2} {
		if d >= 0 {
			out = append(out, ws[d])
		}
	}
	return out
}

// offset returns how far p lies before the face of a wall, square to it;
// negative where the room reaches back behind that face's line. out is +1 for
// the walls of a counter-clockwise outline, -1 for those of the other.
func offset(w plane.Segment, p plane.Point, out float64) float64 {
	return out * w.B.Sub(w.A).Unit().Cross(p.Sub(w.A))
}

// offsets returns the figures that locate p: from D1 and from D2.
func (v *roomView) offsets(p plane.Point) (from1, from2 string) {
	ws := v.wallSegments()
	d1, d2 := layout.Datums(v.room.Job)
	from1, from2 = "-", "-"
	if d1 >= 0 {
		from1 = v.fig.length(offset(ws[d1], p, v.out))
	}
	if d2 >= 0 {
		from2 = v.fig.length(offset(ws[d2], p, v.out))
	}
	return from1, from2
}

// placeWords says where p lies, for a note.
func (v *roomView) placeWords(p plane.Point) string {
	a, b := v.offsets(p)
	return a + " from D1, " + b + " from D2"
}

// drawDatums marks the faces that are measured from.
func (v *roomView) drawDatums() {
	ws := v.wallSegments()
	d1, d2 := layout.Datums(v.room.Job)
	for i, d := range []int{d1, d2} {
		if d < 0 {
			continue
		}
		name := "D" + itoa(i+1)
		out := paperDir(v.outward(ws[d]))
		at := v.view.Pt(ws[d].At(v.freeAlong(d)))
		v.mark(signDatum, symbols.Datum(at, out, ""))
		tip := at.Add(out.Mul(2.6))
		l := &label{text: name, height: drawing.H25, rank: 1, subject: tip, note: name + " is the face of wall " + v.room.Job.Walls[d].Letter}
		l.spots = tagSpots(tip, 1, name)
		v.letters.add(l)
	}
}

// brokenDatums says of a datum that is a doorway in part where it stands.
func (v *roomView) brokenDatums() []string {
	d1, d2 := layout.Datums(v.room.Job)
	var out []string
	for i, d := range []int{d1, d2} {
		if d < 0 {
			continue
		}
		w := v.room.Job.Walls[d]
		stands := layout.Standing(v.room.Job, d)
		if len(stands) == 1 && stands[0][1]-stands[0][0] > w.Length()-1 {
			continue
		}
		var parts []string
		for _, s := range stands {
			parts = append(parts, unbrokenWords(v.fig.length(s[0])+" to "+v.fig.length(s[1])))
		}
		out = append(out, fmt.Sprintf("D%d, wall %s, stands from %s of its length; sight along it across its opening.", i+1, w.Letter, strings.Join(parts, " and ")))
	}
	return out
}

// freeAlong finds a place along a wall that no opening takes, towards its end.
func (v *roomView) freeAlong(wall int) float64 {
	n := v.room.Job.Walls[wall].Length()
	for _, t := range []float64{0.82, 0.18, 0.7, 0.3, 0.9, 0.1, 0.6, 0.4} {
		if !v.inGap(wall, n*t) && math.Abs(n*t-v.room.Job.Thermostat.Along) > 8*v.view.Ratio {
			return n * t
		}
	}
	return n / 2
}

// locations is the table that finds every important point of the floor again.
func (v *roomView) locations() block { return v.places(false, true) }

// places is that table: in full, or, for an owner, without the half-way marks;
// and with what each point is, or with the shortest names.
func (v *roomView) places(owner, named bool) block {
	if d1, d2 := layout.Datums(v.room.Job); d1 < 0 || d2 < 0 {
		return list{}
	}
	head := "Locating dimensions"
	if owner { // for readers who do not look for the unit in a title block
		head = "Offsets"
		if v.fig.units == plane.Millimetres {
			head += ", mm"
		}
	}
	t := v.datumTable(head, "Point")
	add := func(name string, p plane.Point) {
		a, b := v.offsets(p)
		if !named {
			name, _, _ = strings.Cut(name, " (")
		}
		t.rows = append(t.rows, row(name, unbrokenWords(a), unbrokenWords(b)))
	}
	add("Lead rise (foot)", v.room.Job.Thermostat.At)
	for i := range v.room.Cables {
		c := &v.room.Cables[i]
		if len(c.Path) == 0 {
			continue
		}
		pre := v.prefix(c.ID)
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
	for _, s := range v.room.Sensors {
		what := ""
		if s.Spare {
			what = " (spare)"
		}
		add(s.Name+what, s.Tip)
	}
	return signed(t)
}

// datumTable returns a table of what lies how far from both datums, still
// without rows.
func (v *roomView) datumTable(head, what string) table {
	return table{head: head, cols: []column{
		{head: what, wraps: true}, {head: "D1, wall " + v.datumLetter(0), align: decimal}, {head: "D2, wall " + v.datumLetter(1), align: decimal},
	}}
}

// datumLetter names the wall of a datum, a dash where there is none.
func (v *roomView) datumLetter(i int) string {
	d1, d2 := layout.Datums(v.room.Job)
	d := [2]int{d1, d2}[i]
	if d < 0 {
		return "-"
	}
	return v.room.Job.Walls[d].Letter
}

// signed explains the figures that are negative, where there are any.
func signed(t table) table {
	for _, r := range t.rows {
		if strings.HasPrefix(r[1].text, "-") || strings.HasPrefix(r[2].text, "-") {
			t.cols[0].head += " (minus: behind the face)"
			break
		}
	}
	return t
}

// prefix names a cable before a tag where the room has more than one.
func (v *roomView) prefix(id string) string {
	if len(v.room.Cables) > 1 {
		return id + " "
	}
	return ""
}
