package dxf

import (
	"fmt"
	"strings"

	"oxturn/layout"
	"oxturn/layout/plane"
)

// room writes all there is to draw of one room.
func (d *document) room(r *layout.Room, code string) {
	d.walls(r)
	for _, f := range r.Job.Fixtures {
		d.straight("FIXTURES", true, f.Outline)
		d.text(f.Outline.Bounds().Centre(), f.Name)
		if f.Flange != nil {
			d.circle("FIXTURES", f.Flange.Centre, f.Flange.Radius)
		}
	}
	for _, k := range r.Job.KeepOuts {
		layer := "KEEP-OUTS"
		if k.Partition {
			layer = "PARTITIONS"
		}
		d.straight(layer, true, k.Outline)
		d.text(k.Outline.Bounds().Centre(), k.Name)
	}
	for _, f := range r.Job.Fixings {
		if len(f.Line) == 1 {
			d.circle("KEEP-OUTS", f.Line[0], f.Clear)
		}
		d.straight("KEEP-OUTS", false, f.Line)
	}
	for _, j := range r.Job.Joints {
		d.straight("JOINTS", false, []plane.Point{j.A, j.B})
		d.text(j.A.Lerp(j.B, 0.5), j.Name)
	}
	for _, z := range r.NoCut {
		d.region("NO-GO", z.Region)
	}
	d.region("HEATED", r.Heated)
	d.cables(r)
	d.title(r, code)
}

func (d *document) walls(r *layout.Room) {
	d.straight("WALLS", true, r.Job.Outline)
	for _, w := range r.Job.Walls {
		d.text(w.At(w.Length()/2), w.Letter)
	}
	for _, o := range r.Job.Openings {
		w := r.Job.Walls[o.Wall]
		d.straight("OPENINGS", false, []plane.Point{w.At(o.From), w.At(o.To)})
	}
}

// boxWide is how wide the box is drawn, mm: its middle is what counts.
const boxWide = 80

// tipWide is how large a sensor's tip is drawn, mm.
const tipWide = 16

func (d *document) cables(r *layout.Room) {
	for i := range r.Cables {
		c := &r.Cables[i]
		d.line(cableLayers[i%len(cableLayers)], false, rounded(c.Path, c.BendRadius))
		for _, e := range c.Ends() {
			d.text(e.At, c.ID+" "+e.Tag)
			d.straight("LEADS", false, e.Lead)
		}
	}
	for _, s := range r.Sensors {
		d.circle("SENSORS", s.Tip, tipWide/2)
		d.straight("SENSORS", false, s.Lead)
		d.text(s.Tip, s.Name)
	}
	at := r.Job.Thermostat.At
	d.circle("BOX", at, boxWide/2)
	d.text(at, "T")
}

// title stands under a room: what it is, which plan, and what is drawn with it.
func (d *document) title(r *layout.Room, code string) {
	var words []string
	for i := range r.Cables {
		c := &r.Cables[i]
		words = append(words, fmt.Sprintf("%s %s", c.ID, c.Label.ID))
	}
	box := r.Job.Outline.Bounds()
	d.text(plane.Pt(box.Min.X, box.Min.Y-3*textHigh), r.Job.Name+", plan "+code+": "+strings.Join(words, ", "))
	d.text(plane.Pt(box.Min.X, box.Min.Y-5*textHigh),
		"Design aid. Cable is never cut; no drilling inside HEATED. The sheets of the set govern.")
}
