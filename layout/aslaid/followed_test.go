package aslaid

import (
	"image"
	"math"
	"slices"
	"strings"
	"testing"

	"oxturn/layout"
	"oxturn/layout/internal/hand"
	"oxturn/layout/job"
	"oxturn/layout/photo"
	"oxturn/layout/plane"
	"oxturn/layout/route"

	"pgregory.net/rapid"
)

// What a photo taken straight down shows of the floor: half a millimetre a pixel, 2 m by 1.5 m.
const (
	wide, high = 4000, 3000
	mmPerPixel = 0.5
)

func pixel(p plane.Point) photo.Pixel {
	return photo.Pixel{X: p.X / mmPerPixel, Y: high - p.Y/mmPerPixel}
}

// straightDown is a photo with its four corners known, and runs followed in it.
func straightDown(t *testing.T, runs ...job.PhotoRun) job.Photo {
	t.Helper()
	var pairs []photo.Pair
	for _, p := range hand.Points(0, 0, 2000, 0, 2000, 1500, 0, 1500) {
		pairs = append(pairs, photo.Pair{Image: pixel(p), Floor: p})
	}
	fit, err := photo.FitTo(image.Pt(wide, high), pairs)
	if err != nil {
		t.Fatal(err)
	}
	return job.Photo{Fit: fit, Runs: runs}
}

func followed(run int, xy ...float64) job.PhotoRun {
	s := job.PhotoRun{Run: run}
	for _, p := range hand.Points(xy...) {
		s.Image = append(s.Image, pixel(p))
	}
	return s
}

func near(a, b []plane.Point) bool {
	return slices.EqualFunc(a, b, func(p, q plane.Point) bool { return p.Dist(q) < 1e-6 })
}

// serpentine has three runs of 900 mm, 60 mm apart.
func serpentine() []plane.Point {
	return hand.Points(100, 100, 1000, 100, 1000, 160, 100, 160, 100, 220, 1000, 220)
}

func serpentineCable() *layout.Cable {
	c := &layout.Cable{ID: "H1", BendRadius: 15}
	c.Lattice.Pitch = 30
	return c
}

func onPegs(status job.Status) *job.Job {
	return &job.Job{Membrane: job.Membrane{Pitch: 30}, Info: job.Info{Status: status}}
}

// A run followed in a photo lies as it was followed, from whichever end; what was known of
// the others holds, and of a cable known from photos alone nothing is known beyond the last.
func TestRunsAsFollowed(t *testing.T) {
	plan := serpentine()
	for _, k := range []struct {
		name  string
		known []plane.Point
		runs  []job.PhotoRun
		want  []plane.Point
		whole bool
		wrong string
	}{
		{"nothing followed", plan, nil, plan, true, ""},
		{"the first", plan, []job.PhotoRun{followed(1, 100, 90, 1000, 95)},
			hand.Points(100, 90, 1000, 95, 1000, 160, 100, 160, 100, 220, 1000, 220), true, ""},
		{"the second, from its far end", plan, []job.PhotoRun{followed(2, 100, 150, 500, 170, 1000, 150)},
			hand.Points(100, 100, 1000, 100, 1000, 150, 500, 170, 100, 150, 100, 220, 1000, 220), true, ""},
		{"the last", plan, []job.PhotoRun{followed(3, 100, 230, 1000, 230)},
			hand.Points(100, 100, 1000, 100, 1000, 160, 100, 160, 100, 230, 1000, 230), true, ""},
		{"two", plan, []job.PhotoRun{followed(3, 100, 230, 1000, 230), followed(1, 100, 90, 1000, 90)},
			hand.Points(100, 90, 1000, 90, 1000, 160, 100, 160, 100, 230, 1000, 230), true, ""},
		{"a fourth of three", plan, []job.PhotoRun{followed(4, 100, 230, 1000, 230)}, nil, false,
			"run 4 is said to be in a photo, but cable H1 has 3"},
		{"one twice", plan, []job.PhotoRun{followed(1, 100, 90, 1000, 90), followed(1, 100, 90, 1000, 90)}, nil, false,
			"run 1 of cable H1 is followed in two places"},
		{"alone, the first", nil, []job.PhotoRun{followed(1, 100, 90, 1000, 90)}, hand.Points(100, 90, 1000, 90), false,
			""},
		{"alone, two", nil, []job.PhotoRun{followed(2, 1000, 150, 100, 150), followed(1, 100, 90, 1000, 90)},
			hand.Points(100, 90, 1000, 90, 1000, 150, 100, 150), false, ""},
		{"alone, all", nil, []job.PhotoRun{followed(1, 100, 90, 1000, 90), followed(2, 1000, 150, 100, 150),
			followed(3, 100, 210, 1000, 210)},
			hand.Points(100, 90, 1000, 90, 1000, 150, 100, 150, 100, 210, 1000, 210), true, ""},
		{"alone, without the first", nil, []job.PhotoRun{followed(2, 1000, 150, 100, 150)}, nil, false,
			"photos show where run 2 of cable H1 lies, and nothing says that of run 1"},
		{"alone, without the second", nil, []job.PhotoRun{followed(1, 100, 90, 1000, 90),
			followed(3, 100, 210, 1000, 210)}, nil, false,
			"photos show where run 3 of cable H1 lies, and nothing says that of run 2"},
	} {
		l := &layout.Laid{Job: &job.Laid{Photos: []job.Photo{straightDown(t, k.runs...)}}, Planned: plan,
			Path: k.known, Whole: k.known != nil}
		d := follow(l, serpentineCable(), onPegs(job.ForInstallation))
		if d != nil && d.Message != k.wrong || d == nil && k.wrong != "" {
			t.Errorf("%s: %v, want %q", k.name, d, k.wrong)
		}
		if d == nil && (!near(l.Path, k.want) || l.Whole != k.whole) {
			t.Errorf("%s: %v, whole %v; want %v", k.name, l.Path, l.Whole, k.want)
		}
	}
	if !slices.Equal(plan, serpentine()) {
		t.Error("the plan itself was moved")
	}
}

// What is followed goes the way that the run is laid: the way round in which its ends are
// nearer to the run's, taken together.
func TestFollowedTheWayItIsLaid(t *testing.T) {
	run := layout.Run{From: plane.Pt(500, 500), To: plane.Pt(1100, 500)}
	for _, k := range []struct {
		from, to plane.Point
		turned   bool
	}{
		{plane.Pt(500, 500), plane.Pt(1100, 500), false}, {plane.Pt(1100, 500), plane.Pt(500, 500), true},
		{plane.Pt(700, 400), plane.Pt(900, 800), false}, {plane.Pt(900, 800), plane.Pt(700, 400), true},
		{plane.Pt(100, 500), plane.Pt(600, 500), false}, {plane.Pt(600, 500), plane.Pt(100, 500), true},
		{plane.Pt(1000, 500), plane.Pt(1800, 500), false}, {plane.Pt(1800, 500), plane.Pt(1000, 500), true},
		{plane.Pt(1100, 500), plane.Pt(1800, 500), false}, {plane.Pt(1050, 900), plane.Pt(510, 100), true},
	} {
		l := &layout.Laid{Job: &job.Laid{Photos: []job.Photo{straightDown(t)}}}
		got := along(l, followed(1, k.from.X, k.from.Y, 800, 600, k.to.X, k.to.Y), run)
		want := []plane.Point{k.from, plane.Pt(800, 600), k.to}
		if k.turned {
			slices.Reverse(want)
		}
		if !near(got, want) {
			t.Errorf("from %v to %v: %v", k.from, k.to, got)
		}
	}
}

// Of two runs that meet in a corner, what was read of it twice within 15 mm is one corner,
// half-way between; farther apart they are two, as are those of runs that do not meet.
func TestCornersReadTwice(t *testing.T) {
	for _, k := range []struct {
		path, leg []plane.Point
		after     bool
		want      []plane.Point
	}{
		{hand.Points(0, 0, 100, 0), hand.Points(110, 0, 110, 80), true, hand.Points(0, 0, 105, 0, 110, 80)},
		{hand.Points(0, 0, 100, 0), hand.Points(115, 0, 115, 80), true, hand.Points(0, 0, 100, 0, 115, 0, 115, 80)},
		{hand.Points(0, 0, 100, 0), hand.Points(130, 0, 130, 80), true, hand.Points(0, 0, 100, 0, 130, 0, 130, 80)},
		{hand.Points(0, 0, 100, 0), hand.Points(110, 0, 110, 80), false, hand.Points(0, 0, 100, 0, 110, 0, 110, 80)},
		{hand.Points(100, 0), hand.Points(100, 10, 110, 80), true, hand.Points(100, 5, 110, 80)},
		{nil, hand.Points(110, 0, 110, 80), false, hand.Points(110, 0, 110, 80)},
	} {
		if got := joined(k.path, k.leg, k.after); !slices.Equal(got, k.want) {
			t.Errorf("%v and %v: %v, want %v", k.path, k.leg, got, k.want)
		}
	}
}

// Legs by the corner they end in: what is put in a leg's stead has both its ends.
func TestLegsReplaced(t *testing.T) {
	path := hand.Points(0, 0, 100, 0, 100, 100, 0, 100)
	for _, k := range []struct {
		legs map[int][]plane.Point
		want []plane.Point
	}{
		{nil, path},
		{map[int][]plane.Point{1: hand.Points(0, -20, 100, -20)}, hand.Points(0, -20, 100, -20, 100, 100, 0, 100)},
		{map[int][]plane.Point{2: hand.Points(120, 0, 120, 100)}, hand.Points(0, 0, 120, 0, 120, 100, 0, 100)},
		{map[int][]plane.Point{3: hand.Points(100, 120, 0, 120)}, hand.Points(0, 0, 100, 0, 100, 120, 0, 120)},
		{map[int][]plane.Point{1: hand.Points(0, -20, 100, -20), 3: hand.Points(100, 120, 0, 120)},
			hand.Points(0, -20, 100, -20, 100, 120, 0, 120)},
		{map[int][]plane.Point{1: hand.Points(0, -4, 100, -4), 2: hand.Points(104, -4, 104, 100)},
			hand.Points(0, -4, 102, -4, 104, 100, 0, 100)},
		{map[int][]plane.Point{1: hand.Points(0, -20, 100, -20), 2: hand.Points(120, 0, 120, 100)},
			hand.Points(0, -20, 100, -20, 120, 0, 120, 100, 0, 100)},
	} {
		if got := replaced(slices.Clone(path), k.legs); !slices.Equal(got, k.want) {
			t.Errorf("%v: %v, want %v", k.legs, got, k.want)
		}
	}
}

// Any runs followed where they lie anyhow leave the cable where it lies.
func TestFollowedWhereItLies(t *testing.T) {
	over := straightDown(t)
	rapid.Check(t, func(t *rapid.T) {
		path := hand.Points(100, 100)
		for i := range rapid.IntRange(2, 9).Draw(t, "runs") {
			x := []float64{rapid.Float64Range(1000, 1900).Draw(t, "x"), rapid.Float64Range(100, 500).Draw(t, "x")}[i%2]
			y := path[len(path)-1].Y
			path = append(path, plane.Pt(x, y), plane.Pt(x, y+60))
		}
		path = path[:len(path)-1]
		runs := layout.Runs(path, 15, route.Lattice{Pitch: 30})
		var shown []job.PhotoRun
		for i, r := range runs {
			if rapid.Bool().Draw(t, "followed") {
				a, b := r.From, r.To
				if rapid.Bool().Draw(t, "from its far end") {
					a, b = b, a
				}
				shown = append(shown, followed(i+1, a.X, a.Y, b.X, b.Y))
			}
		}
		photographed := over
		photographed.Runs = shown
		l := &layout.Laid{Job: &job.Laid{Photos: []job.Photo{photographed}}, Planned: path, Path: path, Whole: true}
		if d := follow(l, serpentineCable(), onPegs(job.ForInstallation)); d != nil || !near(l.Path, path) {
			t.Fatalf("%v is followed as %v: %v", path, l.Path, d)
		}
	})
}

// Of a cable known from photos alone the error is the photos' unless another was stated, and
// never less than theirs; of one that was measured elsewhere it is the larger of the two.
func TestErrorOfWhatIsFollowed(t *testing.T) {
	whole := []job.PhotoRun{followed(1, 100, 90, 1000, 90), followed(2, 1000, 150, 100, 150),
		followed(3, 100, 210, 1000, 210)}
	over := straightDown(t, whole...)
	most := 0.0
	for _, s := range whole {
		for _, px := range s.Image {
			mm, _ := over.Fit.Error(px)
			most = math.Max(most, mm)
		}
	}
	if most < 1.5 || most > 10 { // three pixels of half a millimetre, and what four points leave open
		t.Fatalf("a place is within %g mm", most)
	}
	for _, k := range []struct {
		alone          bool
		stated, before float64 // of the record, and by its evidence or as stated
		want           float64
	}{
		{true, 0, 25.4, most}, {true, 20, 20, 20}, {true, 1, 1, most}, {true, 0, 0, most},
		{false, 0, 25.4, 25.4}, {false, 20, 20, 20}, {false, 1, 1, most},
	} {
		l := &layout.Laid{Job: &job.Laid{Error: k.stated, Photos: []job.Photo{over}}, Planned: serpentine(),
			Error: k.before}
		if !k.alone {
			l.Path, l.Whole = serpentine(), true
		}
		if d := follow(l, serpentineCable(), onPegs(job.ForInstallation)); d != nil || l.Error != k.want ||
			l.PhotoError != most {
			t.Errorf("%+v: within %g, by photos %g, %v", k, l.Error, l.PhotoError, d)
		}
	}
}

// A record without another word of the cable's place is told by its photos, one with runs by
// these.
func TestKeyOfWhatIsFollowed(t *testing.T) {
	over := []job.Photo{{Runs: make([]job.PhotoRun, 1)}}
	for want, as := range map[string][]*job.Laid{
		"photo":      {{Photos: over}},
		"runs":       {{Photos: over, Runs: 1}, {Photos: over, Runs: 2}, {}, {Runs: 1}, {Photos: []job.Photo{{}}}},
		"as_planned": {{Photos: over, AsPlanned: true}},
		"corners":    {{Photos: over, Corners: hand.Points(1, 2)}},
	} {
		for _, a := range as {
			if got := given(a); got != want {
				t.Errorf("%+v: %s, want %s", a, got, want)
			}
		}
	}
	l := &layout.Laid{Path: hand.Points(100, 100, 100, 900, 5000, 900), Job: &job.Laid{Photos: over}}
	r := &layout.Room{Job: &job.Room{Name: "Bath"}, Floor: plane.FromRing(plane.Rectangle(plane.Pt(0, 0),
		plane.Pt(2000, 2000)))}
	if d := check(l, r, serpentineCable(), onPegs(job.ForInstallation)); d == nil ||
		!strings.HasPrefix(d.Message, "photo: leg 2 ") {
		t.Errorf("%v", d)
	}
}
