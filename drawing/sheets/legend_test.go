package sheets

import (
	"fmt"
	"math"
	"slices"
	"strings"
	"testing"

	"oxturn/drawing"
	"oxturn/drawing/floorplan"
	"oxturn/drawing/setting"
	"oxturn/drawing/signs"
	"oxturn/layout"
	"oxturn/layout/job"
	"oxturn/layout/language"
	"oxturn/layout/plane"
)

// checkedSet draws a set and holds its sheets to the rules that every sheet obeys,
// and its legends to what the drawings show.
func checkedSet(t *testing.T, p *layout.Plan) []*drawing.Sheet {
	t.Helper()
	d, err := draw(p)
	if err != nil {
		t.Fatal(err)
	}
	d.checked(t)
	return d.set
}

// checkLegends: every sign that is drawn on a sheet of a floor is in its legend,
// which may go on on notes, and every entry of a legend is drawn. What is drawn is
// read back from the finished lines by their look, as whoever holds the sheet
// does, and openings from the job: what the code takes note of is not asked.
func checkLegends(t tester, p *layout.Plan, pages []*setting.Page) {
	t.Helper()
	var all []signs.Sign // what any sheet shows
	for i := range p.Rooms {
		r := &p.Rooms[i]
		for _, pg := range pages {
			kind, ok := kindOf(pg, r)
			if !ok { // not read back: what it takes note of counts
				for _, drawn := range drawings([]*setting.Page{pg}) {
					all = append(all, drawn.Used...)
				}
				continue
			}
			shown, own := shownOn(t, pg, r, kind), entriesOf(pg.Sheet)
			all = append(all, shown...)
			told := slices.Concat(own, notesOf(pages))
			for _, s := range shown {
				if !slices.Contains(told, s) && !evident(s) {
					t.Errorf("%s: %q is drawn and not in the legend", pg.Sheet.ID, s.Words())
				}
			}
			for _, s := range own {
				if !slices.Contains(shown, s) {
					t.Errorf("%s: the legend has %q, which is not drawn", pg.Sheet.ID, s.Words())
				}
			}
		}
	}
	for _, s := range notesOf(pages) {
		if !slices.Contains(all, s) {
			t.Errorf("notes: the legend has %q, which is not drawn", s.Words())
		}
	}
}

// kindOf returns which kind of drawing of a room a page is.
func kindOf(pg *setting.Page, r *layout.Room) (kind string, ok bool) {
	for _, kind := range []string{"field-sheet", "cable-plan", "setting-out", "membrane", "electrician", "owner-map"} {
		if pg.Letters != nil && pg.Sheet.ID == floorplan.IdOf(kind, r) {
			return kind, true
		}
	}
	return "", false
}

// notesOf returns the entries of legends that go on on the set's notes.
func notesOf(pages []*setting.Page) []signs.Sign {
	var out []signs.Sign
	for _, pg := range pages {
		if pg.Letters == nil { // notes go on into the white of other sheets without a drawing
			out = append(out, entriesOf(pg.Sheet)...)
		}
	}
	return out
}

// entriesOf reads the legends of a sheet: words of a sign, in one line or more, with
// a sample at their left.
func entriesOf(s *drawing.Sheet) []signs.Sign {
	var out []signs.Sign
	all, l := s.Texts(), readIn(s)
	for i, first := range all {
		entry, last, leading := first.Text, first, setting.Leading
		if first.Height == drawing.H18 {
			leading = setting.FineLead
		}
		for _, x := range all[i+1:] {
			if x.At.X == last.At.X && math.Abs(x.At.Y-last.At.Y-leading) < 0.01 &&
				(!isSign(entry, l) || strings.HasPrefix(x.Text, "/ ")) {
				entry, last = entry+" "+x.Text, x
			}
		}
		for k := signs.Cable; k < signs.Count; k++ {
			if isWordsOf(entry, k, l) && sampleBeside(s, first.At) {
				out = append(out, k)
			}
		}
	}
	return out
}

// isWordsOf reports whether an entry is a sign's words, in one language or in two.
func isWordsOf(entry string, s signs.Sign, l language.Language) bool {
	words := legendWords(s, l)
	return entry == words || slices.ContainsFunc(append(slices.Clone(languages), language.English),
		func(other language.Language) bool { return entry == words+" / "+legendWords(s, other) })
}

// legendWords are the words of a sign as they are lettered.
func legendWords(s signs.Sign, l language.Language) string {
	return strings.ReplaceAll(l.Text(s.Words()), setting.NoBreak, " ")
}

// isSign reports whether words are those of a sign in full.
func isSign(words string, l language.Language) bool {
	for k := signs.Cable; k < signs.Count; k++ {
		if words == legendWords(k, l) {
			return true
		}
	}
	return false
}

// sampleBeside reports whether a line is drawn where the sample for words that begin
// at a place belongs.
func sampleBeside(s *drawing.Sheet, at drawing.Pt) bool {
	sample := drawing.Box{X0: at.X - setting.SwatchW - 3, Y0: at.Y - setting.SwatchH, X1: at.X - 3,
		Y1: at.Y + setting.SwatchH/2}
	return slices.ContainsFunc(s.Items, func(it drawing.Item) bool {
		_, line := it.(*drawing.Path)
		return line && sample.Grow(0.4).Contains(drawing.BoxOfItem(it))
	})
}

// shownOn returns the signs that a drawing of a room shows.
func shownOn(t tester, pg *setting.Page, r *layout.Room, kind string) []signs.Sign {
	t.Helper()
	var out []signs.Sign
	add := func(s signs.Sign) {
		if s != signs.WordsOnly && !slices.Contains(out, s) {
			out = append(out, s)
		}
	}
	for _, it := range pg.Sheet.Items {
		p, ok := it.(*drawing.Path)
		if !ok || !pg.Letters.Field.Contains(p.Box()) {
			continue
		}
		s, ok := lookOf(p, r)
		if !ok {
			t.Errorf("%s: %s is none of the signs", pg.Sheet.ID, describe(it))
		}
		add(s)
	}
	if kind != "electrician" { // it names openings where they are
		for _, o := range r.Job.Openings {
			add(openingSign(o))
			if o.Threshold && o.Kind != "window" {
				add(signs.Threshold)
			}
		}
	}
	return out
}

// openingSign is what an opening is by the job.
func openingSign(o job.Opening) signs.Sign {
	switch {
	case o.Kind == "window":
		return signs.Window
	case o.Swing == "in" || o.Swing == "out":
		return signs.Door
	case o.Swing == "slide":
		return signs.Sliding
	case o.Threshold:
		return signs.Threshold
	}
	return signs.Cased
}

// lookOf tells a line's sign from how it looks; wordsOnly for what says itself
// what it is: dimensions, leaders, the north arrow, break lines, grounds of words.
func lookOf(p *drawing.Path, r *layout.Room) (s signs.Sign, ok bool) {
	is := func(st *drawing.Stroke) bool {
		return p.Stroke != nil && p.Stroke.Width == st.Width && slices.Equal(p.Stroke.Dash, st.Dash)
	}
	filled := func(c drawing.Colour) bool { return p.Fill != nil && *p.Fill == c }
	switch p.Layer {
	case drawing.LayerDims:
		if strings.HasPrefix(p.Title, "datum") {
			return signs.Datum, true
		}
		return signs.WordsOnly, true
	case drawing.LayerCable:
		switch {
		case is(drawing.CableCore()):
			return signs.Second, true
		case is(drawing.CableDashes()):
			return signs.Third, true
		case is(drawing.CableLine()):
			return signs.Cable, true
		case is(drawing.HiddenLine()):
			return signs.Planned, true
		}
	case drawing.LayerLeads:
		return signs.ColdLead, is(drawing.ColdLeadLine())
	case drawing.LayerSensors:
		switch {
		case filled(drawing.SensorBlue):
			return signs.Sensor, true
		case filled(drawing.White):
			return signs.Spare, true
		}
		return signs.SensorLead, is(drawing.SensorLeadLine())
	case drawing.LayerMembrane:
		switch {
		case is(drawing.SeamLine()):
			return signs.Seam, true
		case is(drawing.StripLine()):
			return signs.Strip, true
		case is(drawing.FixtureLine()):
			return signs.Crossing, true
		}
		return signs.Peg, is(drawing.ThinLine())
	case drawing.LayerFloor:
		switch {
		case filled(drawing.Poche):
			return signs.Wall, true
		case is(drawing.ClearanceLine()):
			return signs.Limit, true
		}
		return signs.Movement, is(drawing.JointLine())
	case drawing.LayerWalls:
		if is(drawing.WallLine()) && strings.HasPrefix(p.Title, "wall") {
			return signs.Wall, true
		}
		return signs.WordsOnly, true // openings are asked of the job
	case drawing.LayerFixtures:
		if slices.ContainsFunc(r.Job.Fixings, func(x job.Fixing) bool { return p.Title == x.Name && len(x.Line) > 1 }) {
			return signs.ToFix, true
		}
		if slices.ContainsFunc(r.Job.Openings, func(o job.Opening) bool { return p.Title == o.Name }) {
			return signs.WordsOnly, true // the frame of a door, in the view of its wall
		}
		if b := drawing.PathBox(p.Segs); math.Abs(b.W()-3) < 1e-6 && math.Abs(b.H()-3) < 1e-6 && len(p.Segs) == 4 {
			return signs.ToFix, true
		}
		return signs.Stand, true
	case drawing.LayerMarks:
		return markOf(p)
	case drawing.LayerHatch:
		return hatchOf(p)
	}
	return signs.WordsOnly, p.Layer == drawing.LayerText || p.Layer == drawing.LayerFrame
}

// markOf tells a mark from its form.
func markOf(p *drawing.Path) (signs.Sign, bool) {
	b := drawing.PathBox(p.Segs)
	long := math.Hypot(b.W(), b.H())
	curved := slices.ContainsFunc(p.Segs, func(s drawing.Seg) bool { return s.Op == drawing.Curve })
	near := func(want float64) bool { return math.Abs(long-want) < 1e-6 }
	switch {
	case p.Title == "north" || p.Title == "box": // the thermostat's own frame in the view of its wall
		return signs.WordsOnly, true
	case len(p.Segs) == 4 && !curved && strings.HasPrefix(p.Title, "revision "):
		return signs.Revised, p.Stroke.Width == drawing.MarkLine().Width
	case p.Stroke == nil:
		return signs.Joint, p.Title == "lead joint"
	case curved && p.Stroke.Width == drawing.W035:
		return signs.Thermostat, p.Title == "thermostat"
	case curved && p.Stroke.Width == drawing.W025:
		return signs.Run, true
	case p.Stroke.Width == drawing.W018 && p.Fill != nil:
		return signs.Note, true
	case len(p.Segs) == 3 && p.Stroke.Width == drawing.W050:
		return signs.Arrow, true
	case len(p.Segs) == 2 && near(4):
		return signs.Half, true
	case len(p.Segs) == 2 && near(2.5):
		return signs.Quarter, true
	case len(p.Segs) == 2 && near(3):
		return signs.End, true
	}
	return signs.WordsOnly, false
}

// hatchOf tells a hatch from its lines: which way they run, and how far apart.
func hatchOf(p *drawing.Path) (signs.Sign, bool) {
	if !p.Stroke.Butt {
		if p.Stroke.Width > drawing.W018 {
			return signs.Unheated, p.Stroke.Width < 0.5
		}
		return signs.WordsOnly, true // the outline of a hatch
	}
	if p.Stroke.Dash != nil {
		return signs.Undecided, true
	}
	rising, falling := false, false
	for _, l := range drawing.Flatten(p.Segs, 0.1) {
		d := l[1].Sub(l[0])
		switch {
		case math.Abs(d.X) < 1e-6:
			return signs.Rise, true
		case d.X*d.Y < 0:
			rising = true
		default:
			falling = true
		}
	}
	switch {
	case rising && falling:
		return signs.Fixing, true
	case rising:
		return signs.Fixture, true
	}
	return signs.JointStrip, true
}

// TestLegendsMissNothing: a sign left out of a legend is found, and so is one that
// is not drawn.
func TestLegendsMissNothing(t *testing.T) {
	p := samplePlan(t, plane.Millimetres)
	for name, spoil := range map[string]func(pg *setting.Page){
		"is drawn and not in the legend": func(pg *setting.Page) {
			pg.Add(&drawing.Path{Layer: drawing.LayerMembrane, Segs: drawing.Polyline(pg.Letters.Field.Centre(),
				pg.Letters.Field.Centre().Add(drawing.Pt{X: 9})), Stroke: drawing.SeamLine()})
		},
		"which is not drawn": func(pg *setting.Page) {
			pg.Sheet.Items = slices.DeleteFunc(pg.Sheet.Items, func(it drawing.Item) bool {
				return strings.HasPrefix(describe(it), "path sensor") &&
					pg.Letters.Field.Contains(drawing.BoxOfItem(it))
			})
		},
	} {
		pages, err := setPages(p, nil)
		if err != nil {
			t.Fatal(err)
		}
		spoil(pages[0])
		var seen heard
		checkLegends(&seen, p, pages)
		if len(seen) == 0 || !strings.Contains(strings.Join(seen, ";"), name) {
			t.Errorf("not found: a sign that %s; %v", name, seen)
		}
	}
}

// heard is a tester that keeps what it is told.
type heard []string

func (h *heard) Helper()                           {}
func (h *heard) Error(args ...any)                 { *h = append(*h, fmt.Sprint(args...)) }
func (h *heard) Errorf(format string, args ...any) { *h = append(*h, fmt.Sprintf(format, args...)) }
