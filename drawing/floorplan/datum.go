package floorplan

import (
	"math"
	"strings"

	"oxturn/drawing"
	"oxturn/drawing/lettering"
	"oxturn/drawing/setting"
	"oxturn/drawing/signs"
	"oxturn/layout"
	"oxturn/layout/plane"
	"oxturn/layout/say"
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

// Datums are the faces that are measured from.
func (v *View) Datums() layout.Datums { return layout.DatumsOf(v.Room.Job) }

// Offsets returns the figures that locate p: from D1 and from D2, a dash where there
// is no such face.
func (v *View) Offsets(p plane.Point) (from1, from2 string) {
	words, off := [2]string{"-", "-"}, v.Datums().Offsets(p)
	for i, d := range v.Datums() {
		if d != nil {
			words[i] = v.Fig.Length(off[i])
		}
	}
	return words[0], words[1]
}

// PlaceWords says where p lies, for a note.
func (v *View) PlaceWords(p plane.Point) string {
	a, b := v.Offsets(p)
	return v.Fig.Textf("%s from D1, %s from D2", a, b)
}

// DrawDatums marks the faces that are measured from.
func (v *View) DrawDatums() {
	for _, d := range v.Datums().There() {
		out := v.Paper.Dir(v.Outward(d.Segment))
		at := v.Paper.Pt(d.At(v.freeAlong(d.Index)))
		v.Mark(signs.Datum, symbols.Datum(at, out, ""))
		tip := at.Add(out.Mul(2.6))
		l := &lettering.Label{Text: d.Name, Height: drawing.H25, Rank: 1, Subject: tip,
			Note: v.Fig.Textf("%s is the face of wall %s", d.Name, d.Letter)}
		l.Spots = TagSpots(tip, 1, d.Name)
		v.Letters.Add(l)
	}
}

// BrokenDatums names the datums that are a doorway in part: the plan dimensions where.
func (v *View) BrokenDatums() []string {
	var out []string
	for _, d := range v.Datums().There() {
		stands := layout.Standing(v.Room.Job, d.Index)
		if len(stands) == 1 && stands[0][1]-stands[0][0] > d.Length()-1 {
			continue
		}
		out = append(out, v.Fig.Textf("%s, wall %s: sight across its opening.", d.Name, d.Letter))
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
	if !v.Datums().Both() {
		return setting.List{}
	}
	head := v.Fig.Text("Locating dimensions")
	if owner { // for readers who do not look for the unit in a title block
		head = v.Fig.Text("Offsets")
		if v.Fig.Units == plane.Millimetres {
			head += v.Fig.Text(", mm")
		}
	}
	t := v.DatumTable(head, v.Fig.Text("Point"))
	for _, at := range v.located(owner) {
		a, b := v.Offsets(at.Point)
		if !named {
			at.name, _, _ = strings.Cut(at.name, " (")
		}
		t.Rows = append(t.Rows, setting.Row(at.name, UnbrokenWords(a), UnbrokenWords(b)))
	}
	return v.Signed(t)
}

// A locatedPoint is one that must be found again.
type locatedPoint struct {
	name string
	plane.Point
}

// located lists those of the room; for an owner without the half-way marks.
func (v *View) located(owner bool) []locatedPoint {
	out := []locatedPoint{{v.Fig.Text("Lead rise (foot)"), v.Room.Job.Thermostat.At}}
	for i := range v.Room.Cables {
		if c := &v.Room.Cables[i]; len(c.Path) > 0 {
			out = append(out, v.locatedOn(c, owner)...)
		}
	}
	for _, s := range v.Room.Sensors {
		out = append(out, locatedPoint{SensorName(v.Fig, s), s.Tip})
	}
	return out
}

// SensorName names a sensor, with whether it is the spare one.
func SensorName(f say.Figures, s layout.Sensor) string {
	if s.Spare {
		return f.Textf("%s (spare)", s.Name)
	}
	return s.Name
}

// locatedOn lists those of a cable.
func (v *View) locatedOn(c *layout.Cable, owner bool) (out []locatedPoint) {
	for k, end := range c.Ends() {
		if k > 0 && !owner && len(c.Marks) > 1 {
			out = append(out, locatedPoint{v.Prefix(c.ID) + c.Halfway().Name, c.Halfway().At})
		}
		out = append(out, locatedPoint{v.Prefix(c.ID) + v.Fig.Text(end.Tag) + " (" + v.Fig.Text(end.Short) + ")",
			end.At})
	}
	return out
}

// DatumTable returns a table of what lies how far from both datums, still
// without rows.
func (v *View) DatumTable(head, what string) setting.Table {
	return setting.Table{Head: head, Cols: []setting.Column{
		{Head: what, Wraps: true}, {Head: v.Fig.Textf("D1, wall %s", v.DatumLetter(0)), Align: setting.Decimal},
		{Head: v.Fig.Textf("D2, wall %s", v.DatumLetter(1)), Align: setting.Decimal},
	}}
}

// DatumLetter names the wall of a datum, a dash where there is none.
func (v *View) DatumLetter(i int) string {
	if d := v.Datums()[i]; d != nil {
		return d.Letter
	}
	return "-"
}

// Signed explains the figures of a datum table that are negative, where there are any.
func (v *View) Signed(t setting.Table) setting.Table {
	for _, r := range t.Rows {
		if strings.HasPrefix(r[1].Text, "-") || strings.HasPrefix(r[2].Text, "-") {
			t.Cols[0].Head += v.Fig.Text(" (minus: behind the face)")
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
