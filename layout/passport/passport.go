// Package passport writes what must be known of one cable years later as a short
// text, which the code on a panel's label holds: any phone shows it without a
// network, a person can measure by it, and the program reads it back as a job. All
// lengths are mm, x east and y north as in the job.
package passport

import (
	"fmt"
	"math"
	"strings"
	"unicode"

	"golang.org/x/text/unicode/norm"

	"oxturn/layout"
	"oxturn/layout/job"
	"oxturn/layout/plane"
)

// firstLine begins every text; the figure is the version of the form.
const firstLine = "OXTURN FLOOR 1"

// Version is the newest form that is read.
const Version = 1

// MostBytes is how long a text may be for a code that a phone still reads off a label.
const MostBytes = 1100

// Of writes the text of a cable of a room. Where its whole path would make it longer
// than a code may be, the path's line says that it is left out.
func Of(p *layout.Plan, r *layout.Room, c *layout.Cable) string {
	w := &lines{}
	w.add(firstLine)
	w.add("ELECTRIC CABLE IN THE FLOOR: DO NOT DRILL")
	w.add("room %s", plain(r.Job.Name))
	w.add("plan %s", p.CodeOf(c))
	w.record(p, c)
	w.add("cable %s %s", c.ID, plain(c.Label.ID))
	w.add("%s V %s W %s ohm, %s to %s", num(c.Label.Volts), num(c.Label.Watts), num(c.Circuit.Nominal),
		num(c.Circuit.Limits.Low), num(c.Circuit.Limits.High))
	w.add("length %s lead %s ends %d", mm(c.Label.Length), mm(c.LeadAsCut()), int(c.Label.Ends)+1)
	w.read(c)
	w.add("mm, x east, y north; answers in %s", p.Units())
	w.walls(r)
	w.add("box %s up %s", at(r.Job.Thermostat.At), mm(r.Job.Thermostat.Height))
	w.places(r, c)
	w.add("bend %s pegs %s", fine(c.BendRadius), pegs(p.Job))
	w.way("lead", c.ColdLead)
	w.way("return", c.Return)
	for _, s := range r.Sensors {
		w.way(plain(s.Name)+" lead", s.Lead)
	}
	before := w.b.String()
	if w.way("path", c.Path); w.b.Len() > MostBytes {
		w = &lines{}
		w.add("%spath left out: too long; see the drawing", before)
	}
	return w.checked()
}

// lines gathers a text.
type lines struct{ b strings.Builder }

func (w *lines) add(format string, args ...any) { fmt.Fprintf(&w.b, format+"\n", args...) }

// record says how it was found where the cable lies, and by how much that may be off.
func (w *lines) record(p *layout.Plan, c *layout.Cable) {
	if p.Job.Info.Status != job.AsLaid || !c.Laid.Recorded() {
		w.add("record none: a plan, the cable may lie elsewhere")
		return
	}
	l := c.Laid
	day := ""
	if !l.Job.Date.IsZero() {
		day = " " + l.Job.Date.Format("2006-01-02")
	}
	w.add("record %s, +-%s, keep %s more%s", l.Job.Evidence, fine(l.Error), fine(l.FingerRoom), day)
}

// read has what was read of the whole cable last before it was in service: with it a
// fault is found more closely than by its label.
func (w *lines) read(c *layout.Cable) {
	if c.Laid == nil {
		return
	}
	ohms, farads := "", ""
	for _, r := range c.Laid.Job.Readings {
		if r.Stage == job.InService {
			continue
		}
		if r.Ohms.Taken && !r.Ohms.Over {
			ohms = " " + num(r.Ohms.Value) + " ohm"
		}
		if r.Capacitance.Taken && !r.Capacitance.Over {
			farads = " " + num(r.Capacitance.Value) + " nF"
		}
	}
	if ohms+farads != "" {
		w.add("read%s%s", ohms, farads)
	}
}

// walls gives the corner that every wall begins at, and the two that all is measured
// from.
func (w *lines) walls(r *layout.Room) {
	var b strings.Builder
	for _, wall := range r.Job.Walls {
		b.WriteString(" " + wall.Letter + " " + at(wall.A))
	}
	w.add("walls%s", b.String())
	if d1, d2 := layout.DatumWalls(r.Job); d1 >= 0 && d2 >= 0 {
		w.add("datums %s %s", r.Job.Walls[d1].Letter, r.Job.Walls[d2].Letter)
	}
}

func (w *lines) places(r *layout.Room, c *layout.Cable) {
	start, end := c.Path[0], c.Path[len(c.Path)-1]
	if c.Laid.Recorded() && c.Laid.Joint != nil && c.Laid.EndCap != nil {
		start, end = *c.Laid.Joint, *c.Laid.EndCap
	}
	w.add("START %s", at(start))
	w.add("END %s", at(end))
	for _, s := range r.Sensors {
		spare := ""
		if s.Spare {
			spare = " spare"
		}
		w.add("%s %s%s", plain(s.Name), at(s.Tip), spare)
	}
}

// way writes a line by its first point and its legs, each a side of the compass and mm
// or, aslant, the next point. What is aslant by a millimetre is not: no point comes
// out farther than that from where it is.
func (w *lines) way(name string, pts []plane.Point) {
	if len(pts) < 2 {
		return
	}
	w.b.WriteString(name + " " + at(pts[0]))
	x, y := whole(pts[0].X), whole(pts[0].Y)
	for _, p := range pts[1:] {
		dx, dy := whole(p.X)-x, whole(p.Y)-y
		switch {
		case max(dx, -dx, dy, -dy) <= 1:
			continue
		case max(dx, -dx) <= 1:
			y += leg(w, "N", "S", dy)
		case max(dy, -dy) <= 1:
			x += leg(w, "E", "W", dx)
		default:
			x, y = x+dx, y+dy
			fmt.Fprintf(&w.b, " %d,%d", x, y)
		}
	}
	w.b.WriteString("\n")
}

// leg writes one leg by its side and returns it.
func leg(w *lines, up, down string, by int) int {
	if by < 0 {
		fmt.Fprintf(&w.b, " %s%d", down, -by)
	} else {
		fmt.Fprintf(&w.b, " %s%d", up, by)
	}
	return by
}

// checked ends a text with a sum over it, for those who type it.
func (w *lines) checked() string { return w.b.String() + checkWord + checkOf(w.b.String()) + "\n" }

const checkWord = "check "

// checkOf is CRC-16/ARC over the text without blanks and line ends, so that what a
// phone makes of those does no harm.
func checkOf(text string) string {
	const byteBits, polynomial = 8, 0xA001 // x^16 + x^15 + x^2 + 1, its bits turned round
	crc := uint16(0)
	for _, b := range []byte(strings.Join(strings.Fields(text), "")) {
		crc ^= uint16(b)
		for range byteBits {
			if crc&1 != 0 {
				crc = crc>>1 ^ polynomial
			} else {
				crc >>= 1
			}
		}
	}
	return fmt.Sprintf("%04X", crc)
}

func whole(v float64) int { return int(math.Round(math.Round(v*1e6) / 1e6)) } // twice, so that machines agree

func mm(v float64) string { return fmt.Sprint(whole(v)) }

func fine(v float64) string { return num(math.Round(v*100) / 100) }

func num(v float64) string { return fmt.Sprintf("%.6g", v) }

func at(p plane.Point) string { return fmt.Sprintf("%d,%d", whole(p.X), whole(p.Y)) }

// plain keeps a name on its line, and to letters that every reader of codes takes for
// the same: a code does not say how its letters are written, and readers guess.
func plain(s string) string {
	s = strings.Map(func(r rune) rune {
		switch {
		case unicode.Is(unicode.Mn, r): // what stood over a letter
			return -1
		case unicode.IsControl(r):
			return ' '
		case r > '~':
			return '?'
		}
		return r
	}, norm.NFD.String(s))
	return strings.Join(strings.Fields(s), " ")
}

// pegs are how far apart they lie. A reader that knows of one pitch only takes the first.
func pegs(j *job.Job) string {
	if j.Strips != nil {
		return fine(j.Membrane.Across) + " (clips of strips, there are no pegs)"
	}
	if j.Uneven() {
		return fine(j.Membrane.Pitch) + " by " + fine(j.Membrane.Across)
	}
	return fine(j.Membrane.Pitch)
}
