package ownersmap

import (
	"cmp"
	"fmt"
	"html"
	"html/template"
	"strings"
	"unicode/utf8"

	"oxturn/layout"
	"oxturn/layout/job"
	"oxturn/layout/plane"
	"oxturn/layout/probe"
	"oxturn/layout/tiling"
)

// pictureMargin is the white kept round a room's picture, mm of floor in a small room:
// the walls' letters stand there.
const pictureMargin = 190

// A picture is drawn in mm of floor, y down, so that the script need only turn
// y round.
type pen struct {
	b     strings.Builder
	scale float64 // of lettering and marks: larger rooms are seen from farther away
	least float64 // mm, the least width of a line
	many  bool    // the room has several cables
	used  [keyCount]bool
	id    string // of its clips and patterns, the room's own
}

// use notes that the key has to explain k.
func (p *pen) use(k keyEntry) { p.used[k] = true }

// tag letters a mark beside it, so that the script can set it there however the
// map is turned.
func (p *pen) tag(mark, off plane.Point, size float64, class, words string) {
	at := mark.Add(off)
	p.add(`<text class="%s" x="%.0f" y="%.0f" font-size="%.0f" data-at="%.0f,%.0f">%s</text>`, class, at.X, -at.Y,
		size*p.scale, mark.X, -mark.Y, text(words))
}

// letter adds lettering about a point; size is its height in mm in a small room.
func (p *pen) letter(at plane.Point, size float64, class, words string) {
	p.add(`<text class="%s" x="%.0f" y="%.0f" font-size="%.0f">%s</text>`, class, at.X, -at.Y, size*p.scale,
		text(words))
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

// picture draws room i as SVG inside the page, and the key to it. Everything in
// it that comes from the job is numbers or escaped.
func picture(i int, r *layout.Room, m *probe.Map, photos []*job.Photo) (template.HTML, []signed, error) {
	box := m.Outline.Bounds()
	d := &pen{scale: max(1, box.W()/2600, box.H()/2600), least: max(box.W(), box.H()) / leastLine,
		many: len(r.Cables) > 1, id: fmt.Sprintf("clip-%d", i)}
	white := pictureMargin * d.scale
	frame := fmt.Sprintf("%.0f %.0f %.0f %.0f", box.Min.X-white, -box.Max.Y-white, box.W()+2*white, box.H()+2*white)
	d.add(`<g class="turned"><g class="floor"><polygon class="room" points="%s"/></g>`, coords(m.Outline))
	if err := d.photos(photos); err != nil {
		return "", nil, err
	}
	d.tiles(m)
	d.bare(m, r)
	d.fixtures(m, r)
	d.bands(m)
	for _, line := range m.Planned {
		d.use(keyPlanned)
		d.add(`<polyline class="planned" points="%s"><title>%s</title></polyline>`, coords(line),
			text(m.Text("as it was planned, not as it lies")))
	}
	d.joints(m, r)
	d.lines(m)
	d.walls(m, r)
	d.marks(m, r)
	d.names(m, r)
	d.add(`<g class="spot" hidden><circle class="clear" r="0"/><line class="to"/><line class="cross a"/><line ` +
		`class="cross b"/></g></g>`)
	return template.HTML(fmt.Sprintf(`<svg class="map" tabindex="0" role="application" aria-label="%s" viewBox="%s" `+
		`data-box="%[2]s">%[3]s</svg>`,
		text(m.Textf("Map of %s. Arrow keys move the spot, shift makes small steps, plus and minus zoom, R turns the "+
			"map, 0 shows all.", m.Room)), frame, d.b.String())), d.key(m), nil
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

// wideLetter of its height is as wide as a letter gets.
const wideLetter = 0.62

func (d *pen) tiles(m *probe.Map) {
	if m.Tiling == nil {
		return
	}
	n, most := 0, 0
	for _, r := range m.Tiling.Rows {
		n, most = n+r.Count, max(most, r.Count)
	}
	if n > tilesMost {
		return
	}
	side, figures := min(m.Tiling.Grid.Length, m.Tiling.Grid.Width), len(fmt.Sprintf("%d,%d", len(m.Tiling.Rows), most))
	size := min(smallHigh, 0.85*side/(wideLetter*float64(figures))/d.scale)
	d.add(`<g class="tiles" clip-path="url(#%s)" aria-hidden="true"><clipPath id="%[1]s"><polygon `+
		`points="%s"/></clipPath>`, d.id, coords(m.Outline))
	for row, r := range m.Tiling.Rows {
		for col := range r.Count {
			place := tiling.Place{Row: row + 1, Column: col + 1}
			if m.Tiling.Piece(place, m.Outline) == nil {
				continue
			}
			ring, _ := m.Tiling.Outline(place)
			d.use(keyTile)
			d.add(`<polygon points="%s"/>`, coords(ring))
			if side >= numberedWidth {
				d.letter(ring.Bounds().Centre(), size, "number", fmt.Sprintf("%d,%d", row+1, col+1))
			}
		}
	}
	d.add(`</g>`)
}

// bare dots the floor without cable, as the drawings do: white would be taken
// for floor that nothing is known of. Of a floor recorded as laid that is where
// nothing is too close.
func (d *pen) bare(m *probe.Map, r *layout.Room) {
	floor, err := bareFloor(m, r)
	if err != nil || floor.Empty() {
		return
	}
	d.use(keyBare)
	d.add(`<pattern id="%s-dots" width="%d" height="%d" patternUnits="userSpaceOnUse"><circle cx="%d" cy="%d" `+
		`r="%.1f"/></pattern>`,
		d.id, dotStep, dotStep, dotStep/2, dotStep/2, min(dotStep/11.0*d.scale, dotStep/5.0))
	d.add(`<path class="bare" fill-rule="evenodd" fill="url(#%s-dots)" d="`, d.id)
	for _, ring := range floor.Rings() {
		d.add("M%sZ", coords(ring))
	}
	d.add(`"><title>%s</title></path>`, text(bareWords(m)))
}

// bareFloor is the floor without cable; of a record, with what each thing may be off
// taken away too.
func bareFloor(m *probe.Map, r *layout.Room) (plane.Region, error) {
	floor, err := r.WithoutCable()
	for _, t := range m.Things {
		if m.NoReason != "" || err != nil {
			break
		}
		var strip plane.Region
		if strip, err = plane.Band(line(t), 2*(t.Half+t.Error+t.Finger)); err == nil {
			floor, err = floor.Less(strip)
		}
	}
	return floor, err
}

// dotStep is how far apart the dots of floor without cable are, mm: closer than
// a strip along a wall is wide.
const dotStep = 60

func (d *pen) fixtures(m *probe.Map, r *layout.Room) {
	d.add(`<g class="fixtures">`)
	for _, f := range r.Job.Fixtures {
		if f.Undecided {
			d.area(f.Outline, m.Text(f.Name), m.Text("UNDECIDED"))
		} else {
			d.area(f.Outline, m.Text(f.Name))
		}
	}
	for _, k := range r.Job.KeepOuts {
		if !k.Cold && !k.Partition { // the one looks like any floor without cable, the other is drawn with the walls
			d.area(k.Outline, m.Text(k.Name))
		}
	}
	for _, x := range r.Job.Fixings {
		d.fixing(m, x)
	}
	d.add(`</g>`)
}

// lineHigh heights of letters is from one line of a name to the next.
const lineHigh = 1.3

// area draws what stands on the floor, with its names, each on a line of its
// own.
func (d *pen) area(outline plane.Ring, names ...string) {
	d.use(keyFixture)
	d.add(`<polygon points="%s"><title>%s</title></polygon>`, coords(outline), text(strings.Join(names, ", ")))
	box := outline.Bounds()
	class, size := d.nameIn(box, names)
	at := box.Centre()
	d.add(`<text class="%s" x="%.0f" y="%.0f" font-size="%.0f">`, class, at.X,
		-at.Y-lineHigh*size*float64(len(names)-1)/2,
		size)
	for i, n := range names {
		d.add(`<tspan x="%.0f" dy="%.0f">%s</tspan>`, at.X, lineHigh*size*float64(min(i, 1)), text(n))
	}
	d.add(`</text>`)
}

// nameIn says how large names are written in a box, mm of floor, and which way.
func (d *pen) nameIn(box plane.Rect, names []string) (class string, size float64) {
	longest := 1
	for _, n := range names {
		longest = max(longest, utf8.RuneCountInString(n))
	}
	class, size = "name", 2.2/float64(longest)/d.scale // half the height is about the width of a letter
	if box.H() > 1.3*box.W() && size*box.W() < nameLeast {
		class, size = "name up", size*box.H()
	} else {
		size *= box.W()
	}
	return class, min(58, size) * d.scale
}

// nameLeast is the height of a name below which it is set upright where there
// is more room for it, mm.
const nameLeast = 42

// crossHalf is half the size of the cross at a fixing, mm.
const crossHalf = 30

// fixing draws what is screwed down: a line, or a cross at one place.
func (d *pen) fixing(m *probe.Map, x job.Fixing) {
	if len(x.Line) == 0 {
		return
	}
	d.use(keyFixing)
	name := fixingName(m, x)
	if len(x.Line) > 1 {
		d.add(`<polyline class="fixing" points="%s"><title>%s</title></polyline>`, coords(x.Line), text(name))
		return
	}
	at := x.Line[0]
	d.add(`<path class="fixing" d="M%.0f,%.0fh%d m%d,%dv%d"><title>%s</title></path>`, at.X-crossHalf, -at.Y,
		2*crossHalf, -crossHalf, -crossHalf, 2*crossHalf, text(name))
}

// fixingName names what is screwed down: a threshold by its opening.
func fixingName(m *probe.Map, x job.Fixing) string {
	if x.Of != "" {
		return m.Textf("%s threshold", m.Text(x.Of))
	}
	return m.Text(cmp.Or(x.Name, x.Kind))
}

// joints draws the movement joints: no heating cable crosses them.
func (d *pen) joints(m *probe.Map, r *layout.Room) {
	for _, j := range r.Job.Joints {
		d.use(keyJoint)
		d.add(`<polyline class="joint" points="%s"><title>%s</title></polyline>`, coords([]plane.Point{j.A, j.B}),
			text(strings.TrimSpace(m.Text("movement joint")+" "+j.Name)))
	}
}

// tagHigh is how high a name beside a mark is, mm of floor at the map's own scale.
const tagHigh = 48

// smallHigh is the height of what is named by the way.
const smallHigh = 42.0

// names letters what is known by a short name, after the ends of the cables, so
// that these have their places first.
func (d *pen) names(m *probe.Map, r *layout.Room) {
	d.add(`<g class="marks">`)
	for i, j := range r.Job.Joints {
		d.tag(j.A.Lerp(j.B, 0.5), plane.Pt(20, 0), tagHigh, "tag extra", layout.JointName(i, len(r.Job.Joints)))
	}
	for _, x := range r.Job.Fixings {
		if len(x.Line) > 0 {
			d.tag(x.Line[0].Lerp(x.Line[len(x.Line)-1], 0.5), plane.Pt(crossHalf+6, 0), smallHigh, "tag extra",
				fixingName(m, x))
		}
	}
	d.add(`</g>`)
}

// bands show where the verdict is too close: everything's half width, error
// and finger-room.
func (d *pen) bands(m *probe.Map) {
	if m.NoReason != "" {
		return
	}
	d.use(keyBand)
	d.add(`<g class="bands" clip-path="url(#%s)" aria-hidden="true"><clipPath id="%[1]s"><polygon `+
		`points="%s"/></clipPath>`, d.id+"-b", coords(m.Outline))
	for _, t := range m.Things {
		d.add(`<polyline points="%s" stroke-width="%.1f"/>`, coords(line(t)), 2*(t.Half+t.Error+t.Finger))
	}
	d.add(`</g>`)
}

// line is where a thing lies, as a line even where it is a point.
func line(t probe.Thing) []plane.Point {
	if len(t.Line) == 1 {
		return []plane.Point{t.Line[0], t.Line[0].Add(plane.Pt(0.1, 0))}
	}
	return t.Line
}

// classes are the looks of what lies under the floor.
var classes = map[probe.Kind]struct {
	name string
	key  keyEntry
}{probe.Cable: {"cable", keyCable}, probe.ColdLead: {"cold", keyColdLead}, probe.SensorLead: {"sensor", keySensorLead}}

// thinnest mm of floor is the least a line is drawn.
const thinnest = 5.0

func (d *pen) lines(m *probe.Map) {
	for _, t := range m.Things {
		class, ok := classes[t.Kind]
		if !ok || len(t.Line) < 2 {
			continue
		}
		d.use(class.key)
		d.add(`<polyline class="%s" points="%s" stroke-width="%.1f"><title>%s</title></polyline>`, class.name,
			coords(t.Line), max(thinnest, d.least, 2*t.Half), text(m.Called(t)))
	}
}

// markHalf is half of a mark's width.
const markHalf = 18

// besideEnd is how far beside a cable's end its name stands.
const besideEnd = 34.0

func (d *pen) marks(m *probe.Map, r *layout.Room) {
	d.add(`<g class="marks">`)
	for _, t := range m.Things {
		p := t.Mark
		name := text(m.Called(t))
		switch t.Kind {
		case probe.LeadJoint:
			d.use(keyJointMark)
			d.add(`<rect x="%.0f" y="%.0f" width="36" height="36"><title>%s</title></rect>`, p.X-markHalf,
				-p.Y-markHalf, name)
		case probe.EndCap:
			d.use(keyEnd)
			across := endBar(r, t)
			d.add(`<polyline class="cap" points="%s"><title>%s</title></polyline>`,
				coords([]plane.Point{p.Add(across), p.Sub(across)}), name)
		case probe.SensorTip:
			class, key := "tip", keySensor
			if spare(r, t.Name) {
				class, key = "tip spare", keySpare
			}
			d.use(key)
			d.add(`<circle class="%s" cx="%.0f" cy="%.0f" r="18"><title>%s</title></circle>`, class, p.X, -p.Y, name)
		default:
			continue
		}
		off := plane.Pt(26, 22)
		if t.Tag == "END" {
			off.Y = -besideEnd // a cable's two ends often lie side by side
		}
		d.tag(p, off, tagHigh, "tag", d.short(m, t))
	}
	d.add(`</g>`)
}

// endBar is half of the bar that closes a cable, square to its last run.
func endBar(r *layout.Room, t probe.Thing) plane.Point {
	along := plane.Pt(1, 0)
	for _, c := range r.Cables {
		if n := len(c.Path); c.ID == t.Cable && n > 1 && c.Path[n-1] != c.Path[n-2] {
			along = c.Path[n-1].Sub(c.Path[n-2]).Unit()
		}
	}
	return along.Left().Mul(besideEnd)
}

// spare reports whether a sensor lies there for the day the other fails.
func spare(r *layout.Room, name string) bool {
	for _, s := range r.Sensors {
		if s.Name == name {
			return s.Spare
		}
	}
	return false
}

// short names a mark in the picture.
func (d *pen) short(m *probe.Map, t probe.Thing) string {
	switch {
	case t.Tag == "":
		return t.Name
	case d.many:
		return t.Cable + " " + m.Text(t.Tag)
	}
	return m.Text(t.Tag)
}

// wallNameHigh is the height of walls' letters.
const wallNameHigh = 68

// wallNameOff is how far outside a wall its letter stands.
const wallNameOff = 80.0

func (d *pen) walls(m *probe.Map, r *layout.Room) {
	d.add(`<g class="walls"><polygon points="%s"/>`, coords(m.Outline))
	for _, k := range r.Job.KeepOuts {
		if k.Partition {
			d.add(`<polygon class="partition" points="%s"><title>%s</title></polygon>`, coords(k.Outline),
				text(m.Text(k.Name)))
		}
	}
	for _, o := range r.Job.Openings {
		if o.Wall >= 0 && o.Wall < len(m.Walls) {
			w := m.Walls[o.Wall].Segment
			d.use(keyOpening)
			d.add(`<polyline class="opening" points="%s"><title>%s</title></polyline>`,
				coords([]plane.Point{w.At(o.From), w.At(o.To)}), text(m.Text(o.Name)))
		}
	}
	side := 1.0
	if m.Outline.SignedArea() < 0 {
		side = -1
	}
	d1, d2 := m.Datums()
	for i, w := range m.Walls {
		at := w.At(w.Length() / 2).Add(w.B.Sub(w.A).Unit().Left().Mul(-wallNameOff * side * d.scale))
		name := w.Letter
		if !r.Job.BearsLetter(i) {
			continue
		}
		if i == d1 || i == d2 {
			name += "*"
		}
		d.letter(at, wallNameHigh, "wall", name)
	}
	t := r.Job.Thermostat
	d.use(keyBox)
	d.add(`<circle class="box" cx="%.0f" cy="%.0f" r="34"><title>%s</title></circle>`, t.At.X, -t.At.Y,
		text(m.Text("thermostat, its leads rise here")))
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
		out = append(out, place{m.Called(t), m.Off(d1, p), m.Off(d2, p)})
	}
	return out
}
