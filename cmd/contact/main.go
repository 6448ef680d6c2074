// Command contact draws the cable of many jobs on one page, each as large as
// a thumb, so that a change of the router can be judged at a glance. It is for
// people who work on oxturn.
//
//	go run ./cmd/contact -o contact.svg testdata/jobs/*.toml
package main

import (
	"bytes"
	"flag"
	"fmt"
	"math"
	"os"
	"path/filepath"

	"oxturn/drawing"
	"oxturn/drawing/svg"
	"oxturn/fonts"
	"oxturn/layout"
	"oxturn/layout/build"
	"oxturn/layout/job"
	"oxturn/layout/plane"
	"oxturn/layout/route"
)

const (
	cellW, cellH = 100, 90 // mm on paper a job
	lineH        = 5
)

func main() {
	out := flag.String("o", "contact.svg", "where to write")
	across := flag.Int("across", 8, "jobs in a row")
	flag.Parse()
	rooms := flag.NArg()
	if rooms == 0 {
		fmt.Fprintln(os.Stderr, "contact: name the job files to draw")
		os.Exit(2)
	}
	cols := min(*across, rooms)
	rows := (rooms + cols - 1) / cols
	s := &drawing.Sheet{
		ID: "contact", Title: "Contact sheet", Description: "The cable of each job",
		Paper: drawing.Paper{Name: "contact", W: float64(cols * cellW), H: float64(rows * cellH)},
	}
	for i, name := range flag.Args() {
		x, y := float64(i%cols*cellW), float64(i/cols*cellH)
		s.Items = append(s.Items, thumb(name, drawing.Box{X0: x + 2, Y0: y + 2, X1: x + cellW - 2,
			Y1: y + cellH - 2})...)
	}
	var b bytes.Buffer
	err := svg.Write(&b, s)
	if err == nil {
		err = os.WriteFile(*out, b.Bytes(), 0o644)
	}
	if err != nil {
		fmt.Fprintln(os.Stderr, "contact:", err)
		os.Exit(1)
	}
}

// thumb draws the first room of a job with its figures below.
func thumb(name string, cell drawing.Box) []drawing.Item {
	items := []drawing.Item{&drawing.Path{Layer: drawing.LayerFrame, Segs: drawing.Rectangle(cell),
		Stroke: drawing.ThinLine()}}
	p, why := plan(name)
	if p == nil {
		return append(items, line(cell, 1, filepath.Base(name)+": "+why))
	}
	r := p.Rooms[0]
	field := cell
	field.Y1 -= lineH * float64(1+len(r.Cables))
	items = append(items, room(r, view(r, field.Grow(-2)))...)
	items = append(items, line(cell, len(r.Cables)+1, filepath.Base(name)))
	for i, c := range r.Cables {
		items = append(items, line(cell, len(r.Cables)-i, figures(p.Job, c)))
	}
	return items
}

// figures says how good a cable's route is, and how easily it is laid.
func figures(j *job.Job, c layout.Cable) string {
	e := route.EaseOf(c.Path, j.Membrane.Pitch, j.Spacing.Widest)
	return fmt.Sprintf("%s %.1f m @%.0f  cov %.4f  bare %.2f  even %.3f  str %.2f  turns %d  long %.2f  short %d  "+
		"jogs %d", c.ID, c.Routed/1000, c.Spacing, c.Score.Covered, c.Score.Bare, c.Score.Evenness, c.Score.Straight,
		c.Score.Turns, e.Long, e.Short, e.Jogs)
}

func line(cell drawing.Box, fromBottom int, text string) drawing.Item {
	at := drawing.Pt{X: cell.X0 + 1, Y: cell.Y1 + 1.5 - lineH*float64(fromBottom)}
	return &drawing.Text{Layer: drawing.LayerText, At: at.Add(drawing.Pt{Y: 2}), Text: text, Height: 2,
		Face: fonts.Lettering}
}

// plan lays a job's cable; why says what stands against it.
func plan(name string) (p *layout.Plan, why string) {
	data, err := os.ReadFile(name)
	if err != nil {
		return nil, err.Error()
	}
	open := func(n string) ([]byte, error) { return os.ReadFile(filepath.Join(filepath.Dir(name), n)) }
	j, report := job.Read(name, data, open)
	if j != nil && report.Errors() == 0 {
		var found []job.Diagnostic
		if p, found = build.Lay(j, build.Search{}); p != nil {
			for _, d := range found {
				report.Add(d)
			}
		}
	}
	if report.Errors() > 0 {
		return nil, report.Diagnostics()[0].Message
	}
	return p, ""
}

// view returns the way from the floor to the paper.
func view(r layout.Room, field drawing.Box) func(plane.Point) drawing.Pt {
	b := r.Job.Outline.Bounds()
	k := math.Min(field.W()/b.W(), field.H()/b.H())
	return func(p plane.Point) drawing.Pt {
		return drawing.Pt{X: field.X0 + (p.X-b.Min.X)*k, Y: field.Y1 - (p.Y-b.Min.Y)*k}
	}
}

func room(r layout.Room, to func(plane.Point) drawing.Pt) []drawing.Item {
	var out []drawing.Item
	add := func(layer drawing.Layer, pts []plane.Point, closed bool, s *drawing.Stroke, fill *drawing.Colour) {
		var on []drawing.Pt
		for _, p := range pts {
			on = append(on, to(p))
		}
		segs := drawing.Polyline(on...)
		if closed {
			segs = drawing.Polygon(on...)
		}
		out = append(out, &drawing.Path{Layer: layer, Segs: segs, Stroke: s, Fill: fill})
	}
	add(drawing.LayerWalls, r.Job.Outline, true, drawing.MediumLine(), nil)
	for _, z := range r.Heated.Rings() {
		add(drawing.LayerFloor, z, true, drawing.ClearanceLine(), nil)
	}
	for _, f := range r.Job.Fixtures {
		add(drawing.LayerFixtures, f.Outline, true, drawing.ThinLine(), drawing.Filled(drawing.Grey(0.2)))
	}
	for _, f := range r.Job.KeepOuts {
		add(drawing.LayerFixtures, f.Outline, true, drawing.ThinLine(), drawing.Filled(drawing.Grey(0.2)))
	}
	for _, j := range r.Job.Joints {
		add(drawing.LayerWalls, []plane.Point{j.A, j.B}, false, drawing.JointLine(), nil)
	}
	for i, c := range r.Cables {
		stroke := drawing.FixtureLine()
		stroke.Colour = []drawing.Colour{drawing.HeatRed, drawing.SensorBlue, drawing.Black}[i%3]
		add(drawing.LayerCable, c.Path, false, stroke, nil)
		add(drawing.LayerLeads, c.ColdLead, false, drawing.ColdLeadLine(), nil)
		end := to(c.Path[len(c.Path)-1])
		out = append(out, &drawing.Path{Layer: drawing.LayerMarks, Segs: drawing.Circle(end, 0.8),
			Fill: drawing.Filled(drawing.Black)})
	}
	for _, s := range r.Sensors {
		add(drawing.LayerSensors, s.Lead, false, drawing.SensorLeadLine(), nil)
	}
	return out
}
