package ownersmap

import (
	"fmt"
	"html"
	"html/template"
	"strings"
	"unicode/utf8"

	"oxturn/layout"
	"oxturn/layout/plane"
	"oxturn/layout/probe"
	"oxturn/layout/takeoff"
)

// around is the white kept round a room's picture, mm of floor in a small room:
// the walls' letters stand there.
const around = 190

// A picture is drawn in mm of floor, y down, so that the script need only turn
// y round.
type pen struct {
	b     strings.Builder
	scale float64 // of lettering and marks: larger rooms are seen from farther away
	least float64 // mm, the least width of a line
	many  bool    // the room has several cables
}

// letter adds lettering about a point; size is its height in mm in a small room.
func (p *pen) letter(at plane.Point, size float64, class, words string) {
	p.add(`<text class="%s" x="%.0f" y="%.0f" font-size="%.0f">%s</text>`, class, at.X, -at.Y, size*p.scale, text(words))
}

func (p *pen) add(format string, args ...any) { fmt.Fprintf(&p.b, format, args...) }

// text escapes what a job says.
func text(s string) string { return html.EscapeString(s) }

func coords(pts []plane.Point) string {
	var b strings.Builder
	for i, p := range pts {
		if i > 0 {
			b.WriteByte(' ')
		}
		fmt.Fprintf(&b, "%.1f,%.1f", p.X, 0-p.Y)
	}
	return b.String()
}

// picture draws a room as SVG inside the page. Everything in it that comes
// from the job is numbers or escaped.
func picture(p *layout.Plan, r *layout.Room, m *probe.Map) template.HTML {
	box := m.Outline.Bounds()
	d := &pen{scale: max(1, box.W()/2600, box.H()/2600), least: max(box.W(), box.H()) / leastLine, many: len(r.Cables) > 1}
	white := around * d.scale
	frame := fmt.Sprintf("%.0f %.0f %.0f %.0f", box.Min.X-white, -box.Max.Y-white, box.W()+2*white, box.H()+2*white)
	d.add(`<g class="floor"><polygon class="room" points="%s"/></g>`, coords(m.Outline))
	d.tiles(m)
	d.fixtures(r)
	d.bands(m)
	for _, line := range m.Planned {
		d.add(`<polyline class="planned" points="%s"><title>as it was planned, not as it lies</title></polyline>`, coords(line))
	}
	d.lines(m)
	d.walls(m, r)
	d.marks(m)
	d.add(`<g class="spot" hidden><circle class="clear" r="0"/><line class="to"/><line class="cross a"/><line class="cross b"/></g>`)
	return template.HTML(fmt.Sprintf(`<svg class="map" tabindex="0" role="application" aria-label="%s" viewBox="%s" data-box="%[2]s">%[3]s</svg>`,
		text("Map of "+m.Room+". Arrow keys move the spot, shift makes small steps, plus and minus zoom, 0 shows all."), frame, d.b.String()))
}

// leastLine is the share of a room's size that a line is wide at least, so that
// it is seen on a phone.
const leastLine = 450

// Tiles are drawn when there are not too many to see, and numbered when they
// are large enough for their figures, mm.
const (
	tilesMost     = 1500
	numberedWidth = 140
)

func (d *pen) tiles(m *probe.Map) {
	if m.Tiling == nil {
		return
	}
	n := 0
	for _, r := range m.Tiling.Rows {
		n += r.Count
	}
	if n > tilesMost {
		return
	}
	d.add(`<g class="tiles" clip-path="url(#%s)" aria-hidden="true"><clipPath id="%[1]s"><polygon points="%s"/></clipPath>`, clipID(m), coords(m.Outline))
	for row, r := range m.Tiling.Rows {
		for col := range r.Count {
			ring, _ := m.Tiling.Outline(takeoff.Place{Row: row + 1, Column: col + 1})
			d.add(`<polygon points="%s"/>`, coords(ring))
			if min(m.Tiling.Grid.Length, m.Tiling.Grid.Width) >= numberedWidth {
				d.letter(ring.Bounds().Centre(), 42, "number", fmt.Sprintf("%d,%d", row+1, col+1))
			}
		}
	}
	d.add(`</g>`)
}

// clipID names the clip of one room; the outline's figures make it its own.
func clipID(m *probe.Map) string {
	b := m.Outline.Bounds()
	return fmt.Sprintf("clip-%.0f-%.0f-%d", b.W(), b.H(), len(m.Things))
}

func (d *pen) fixtures(r *layout.Room) {
	d.add(`<g class="fixtures">`)
	for _, f := range r.Job.Fixtures {
		d.area(f.Name, f.Outline)
	}
	for _, k := range r.Job.KeepOuts {
		d.area(k.Name, k.Outline)
	}
	d.add(`</g>`)
}

func (d *pen) area(name string, outline plane.Ring) {
	d.add(`<polygon points="%s"><title>%s</title></polygon>`, coords(outline), text(name))
	// half the height is about the width of a letter
	size := min(58, 2.2*outline.Bounds().W()/float64(max(1, utf8.RuneCountInString(name)))/d.scale)
	d.letter(outline.Bounds().Centre(), size, "name", name)
}

// bands show where the verdict is too close: everything's half width, error
// and finger-room.
func (d *pen) bands(m *probe.Map) {
	if m.NoReason != "" {
		return
	}
	d.add(`<g class="bands" clip-path="url(#%s)" aria-hidden="true"><clipPath id="%[1]s"><polygon points="%s"/></clipPath>`, clipID(m)+"-b", coords(m.Outline))
	for _, t := range m.Things {
		line := t.Line
		if len(line) == 1 {
			line = append(line, line[0].Add(plane.Pt(0.1, 0)))
		}
		d.add(`<polyline points="%s" stroke-width="%.1f"/>`, coords(line), 2*(t.Half+t.Error+t.Finger))
	}
	d.add(`</g>`)
}

// classes are the looks of what lies under the floor.
var classes = map[probe.Kind]string{probe.Cable: "cable", probe.ColdLead: "cold", probe.SensorLead: "sensor"}

func (d *pen) lines(m *probe.Map) {
	for _, t := range m.Things {
		class, ok := classes[t.Kind]
		if !ok || len(t.Line) < 2 {
			continue
		}
		d.add(`<polyline class="%s" points="%s" stroke-width="%.1f"><title>%s</title></polyline>`, class, coords(t.Line), max(5, d.least, 2*t.Half), text(string(t.Kind)+" "+t.Name))
	}
}

func (d *pen) marks(m *probe.Map) {
	d.add(`<g class="marks">`)
	for _, t := range m.Things {
		p := t.Mark
		name := string(t.Kind) + " " + t.Name
		switch t.Kind {
		case probe.LeadJoint:
			d.add(`<rect x="%.0f" y="%.0f" width="36" height="36"><title>%s</title></rect>`, p.X-18, -p.Y-18, text(name))
		case probe.EndCap:
			d.add(`<circle class="cap" cx="%.0f" cy="%.0f" r="20"><title>%s</title></circle>`, p.X, -p.Y, text(name))
		case probe.SensorTip:
			d.add(`<circle class="tip" cx="%.0f" cy="%.0f" r="18"><title>%s</title></circle>`, p.X, -p.Y, text(name))
		default:
			continue
		}
		off := plane.Pt(26, 22)
		if t.Tag == "END" {
			off.Y = -34 // a cable's two ends often lie side by side
		}
		d.letter(p.Add(off), 48, "tag", d.short(t))
	}
	d.add(`</g>`)
}

// short names a mark in the picture.
func (d *pen) short(t probe.Thing) string {
	switch {
	case t.Tag == "":
		return t.Name
	case d.many:
		return t.Cable + " " + t.Tag
	}
	return t.Tag
}

func (d *pen) walls(m *probe.Map, r *layout.Room) {
	d.add(`<g class="walls"><polygon points="%s"/>`, coords(m.Outline))
	for _, o := range r.Job.Openings {
		if o.Wall >= 0 && o.Wall < len(m.Walls) {
			w := m.Walls[o.Wall].Segment
			d.add(`<polyline class="opening" points="%s"><title>%s</title></polyline>`, coords([]plane.Point{w.At(o.From), w.At(o.To)}), text(o.Name))
		}
	}
	side := 1.0
	if m.Outline.SignedArea() < 0 {
		side = -1
	}
	d1, d2 := m.Datums()
	for i, w := range m.Walls {
		at := w.At(w.Length() / 2).Add(w.B.Sub(w.A).Unit().Left().Mul(-80 * side * d.scale))
		name := w.Letter
		if i == d1 || i == d2 {
			name += "*"
		}
		d.letter(at, 68, "wall", name)
	}
	t := r.Job.Thermostat
	d.add(`<circle class="box" cx="%.0f" cy="%.0f" r="34"><title>thermostat, its leads rise here</title></circle>`, t.At.X, -t.At.Y)
	d.add(`</g>`)
}

// datumName names the wall of a datum, 0 or 1.
func datumName(m *probe.Map, i int) string {
	d1, d2 := m.Datums()
	return m.Walls[[2]int{d1, d2}[i]].Letter
}

// places lists what is to be found again, from the two datum walls.
func places(m *probe.Map) []place {
	d1, d2 := m.Datums()
	var out []place
	for _, t := range m.Things {
		if t.Kind != probe.LeadJoint && t.Kind != probe.EndCap && t.Kind != probe.SensorTip {
			continue
		}
		p := t.Mark
		out = append(out, place{string(t.Kind) + " " + t.Name, m.Off(d1, p), m.Off(d2, p)})
	}
	return out
}
