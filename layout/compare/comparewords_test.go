package compare

import (
	"testing"

	"oxturn/layout"
	"oxturn/layout/circuit"
	"oxturn/layout/internal/hand"
	"oxturn/layout/job"
	"oxturn/layout/plane"
)

func TestWordsOfAChange(t *testing.T) {
	for _, c := range []struct {
		c    Change
		want string
	}{
		{Change{What: "x", Before: "1", After: "2"}, "x: 1 -> 2"},
		{Change{Room: "R", What: "x", Before: "1", After: "2"}, "R, x: 1 -> 2"},
		{Change{What: "x", After: "2"}, "x: new: 2"}, {Change{What: "x", Before: "1"}, "x: no longer there (was 1)"},
		{Change{What: "x", How: "moved", Before: "1", After: "2"}, "x: moved, now 2 (was 1)"},
		{Change{What: "x", How: "moved", After: "2"}, "x: new: 2"},
	} {
		if got := c.c.String(); got != c.want {
			t.Errorf("%q, want %q", got, c.want)
		}
	}
	mm, in := &diff{units: plane.Millimetres}, &diff{units: plane.Inches}
	for _, c := range []struct{ got, want string }{
		{mm.fine(12.34), "12.3 mm"}, {in.fine(25.4), "0'-1\""}, {mm.length(12.6), "13 mm"},
		{volts(0), "as the cables' labels"}, {volts(240), "240 V"},
		{(&job.Job{Spacing: job.Spacing{Closest: 2, Widest: 5}}).Gaps(),
			"2 to 5 pegs"},
		{mm.limit(0), "none given"}, {in.limit(0), "none given"}, {mm.limit(150.4), "150 W/m²"},
		{in.limit(161.4587), "15.0 W/ft²"},
		{mm.tile(job.Tile{Width: 300}), "none given"}, {mm.tile(job.Tile{Length: 300}), "none given"},
		{mm.tile(job.Tile{Width: 300, Length: 600, Joint: 3, Pattern: "straight"}),
			"300 mm x 600 mm, joint 3 mm, straight"},
		{mm.layers(nil), "none given"}, {mm.layers([]job.Layer{{Name: "tile", Thickness: 9},
			{Name: "board", Thickness: 12}}), "tile 9 mm, board 12 mm"},
		{mm.density(&layout.Cable{Density: 150.4}), "150 W/m²"}, {in.density(&layout.Cable{Density: 161.4587}),
			"15.0 W/ft²"},
		{(&layout.Cable{}).EndName(), "end cap"}, {(&layout.Cable{Label: job.Cable{Ends: circuit.BothEnds}}).EndName(),
			"joint 2"},
	} {
		if c.got != c.want {
			t.Errorf("%q, want %q", c.got, c.want)
		}
	}
	for _, c := range []struct {
		before, after float64
		was, is       bool
	}{{0, 5, false, true}, {5, 0, true, false}, {5, 6, true, true}, {0, 0, false, false}, {1, 1, true, true}} {
		if f := ifGiven("x", "V", c.before, c.after); (f.Before != nil) != c.was || (f.After != nil) != c.is || c.was &&
			*f.Before != c.before || c.is && *f.After != c.after {
			t.Errorf("%+v of %+v", f, c)
		}
	}
}

func TestCloudsAndCorners(t *testing.T) {
	for _, c := range []struct{ w, h, want float64 }{{100, 100, 120}, {240, 240, 120}, {400, 2000, 200},
		{2000, 600, 300}, {2000, 2000, 350}} {
		if got := cloudOf(plane.Rectangle(plane.Pt(0, 0), plane.Pt(c.w, c.h))); got != c.want {
			t.Errorf("%g by %g: %g", c.w, c.h, got)
		}
	}
	a := plane.Rectangle(plane.Pt(0, 0), plane.Pt(100, 100))
	for _, c := range []struct {
		b    plane.Ring
		want float64
	}{{a, 0}, {plane.Ring{a[2], a[3], a[0], a[1]}, 0}, {plane.Rectangle(plane.Pt(0, 0), plane.Pt(130, 100)),
		30}, {plane.Ring{{X: 50, Y: 50}}, 50 * 1.4142135623730951}, {append(a[:4:4], plane.Pt(-7, 0)), 7}} {
		if got, back := farthestCorner(a, c.b), farthestCorner(c.b, a); got != c.want || back != c.want {
			t.Errorf("%v: %g and %g, want %g", c.b, got, back, c.want)
		}
	}
	tape := layout.NewTape(hand.Room(plane.Rectangle(plane.Pt(0, 0), plane.Pt(3000, 2000))), plane.Millimetres)
	for _, c := range []struct {
		ring  plane.Ring
		sized bool
		want  string
	}{
		{hand.Points(100, 100), true, "100 mm from wall A, 2900 mm from wall B"},
		{hand.Points(100, 100, 300, 100), true, "200 mm long, its middle 100 mm from wall A, 2800 mm from wall B"},
		{hand.Points(100, 100, 300, 100), false, "its middle 100 mm from wall A, 2800 mm from wall B"},
		{plane.Rectangle(plane.Pt(100, 100), plane.Pt(300, 400)), true,
			"200 mm x 300 mm, its middle 250 mm from wall A, 2800 mm from wall B"},
	} {
		if got := thing(tape, c.ring, c.sized); got != c.want {
			t.Errorf("%q, want %q", got, c.want)
		}
	}
}

// A thing has moved when a corner lies more than 5 mm off, and is another size
// when its sides differ by more than a millimetre.
func TestWhatMovedAndWhatGrew(t *testing.T) {
	room := hand.Room(plane.Rectangle(plane.Pt(0, 0), plane.Pt(3000, 2000)))
	box := func(x, w float64) plane.Ring {
		return plane.Rectangle(plane.Pt(x, 100), plane.Pt(x+w, 400))
	}
	for _, c := range []struct {
		before, after plane.Ring
		how           string
		figures       int
	}{
		{box(100, 200), box(105, 200), "", 0}, {box(100, 200), box(106, 200), "moved 6 mm to the right of the sheet",
			2},
		{box(100, 200), box(106, 201), "moved 7 mm to the right of the sheet", 2}, {box(100, 200), box(106, 202),
			"changed by up to 8 mm", 4},
		{nil, box(100, 200), "new", 2}, {box(100, 200), nil, "gone", 2},
	} {
		d := &diff{units: plane.Millimetres, was: layout.NewTape(room, plane.Millimetres),
			now: layout.NewTape(room, plane.Millimetres)}
		d.thing("R", "tub", c.before, c.after)
		switch {
		case c.how == "":
			if len(d.out) != 0 {
				t.Errorf("%+v", d.out)
			}
		case len(d.out) != 1 || len(d.out[0].Figures) != c.figures || d.out[0].At == nil ||
			d.out[0].Radius != cloudLeast:
			t.Errorf("%s: %+v", c.how, d.out)
		case c.how == "new" && (d.out[0].Before != "" || d.out[0].After == "" || *d.out[0].At != plane.Pt(200, 250)):
			t.Errorf("%+v", d.out[0])
		case c.how == "gone" && (d.out[0].After != "" || d.out[0].Before == "" || *d.out[0].At != plane.Pt(200, 250)):
			t.Errorf("%+v", d.out[0])
		case c.before != nil && c.after != nil && d.out[0].How[:min(len(c.how), len(d.out[0].How))] != c.how:
			t.Errorf("%q, want %q", d.out[0].How, c.how)
		}
	}
	for _, c := range []struct {
		x    float64
		want int
	}{{105, 0}, {105.1, 1}} {
		d := &diff{was: layout.NewTape(room, plane.Millimetres), now: layout.NewTape(room, plane.Millimetres)}
		a, b := plane.Pt(100, 100), plane.Pt(c.x, 100)
		if d.place("R", "box", &a, &b); len(d.out) != c.want {
			t.Errorf("%+v", d.out)
		}
	}
}
