package layout

import (
	"fmt"
	"math"
	"slices"
	"strings"
	"testing"

	"oxturn/layout/job"
	"oxturn/layout/plane"
	"oxturn/layout/route"
)

// Runs are legs of three pegs and more; the link of a turn back is none, however
// long, up to six pegs. By hand, on pegs of 30 mm.
func TestRunsOfAPath(t *testing.T) {
	for _, c := range []struct {
		name string
		path []plane.Point
		want string // direction, pegs and gap of each run
	}{
		{"a serpentine", pts(0, 0, 900, 0, 900, 60, 0, 60, 0, 180, 900, 180), "east 30 2, west 30 4, east 30 0"},
		{"six pegs are a turn", pts(0, 0, 900, 0, 900, 180, 0, 180), "east 30 6, west 30 0"},
		{"seven are a run", pts(0, 0, 900, 0, 900, 210, 0, 210), "east 30 0, north 7 0, west 30 0"},
		{"two pegs are no run", pts(0, 0, 900, 0, 900, 60, 1500, 60), "east 30 2, east 20 0"},
		{"three pegs on are one", pts(0, 0, 900, 0, 900, 90, 1500, 90), "east 30 0, north 3 0, east 20 0"},
		{"a turn is shorter than its runs", pts(0, 0, 150, 0, 150, 150, 0, 150), "east 5 0, north 5 0, west 5 0"},
		{"one leg", pts(0, 0, 30, 0), "east 1 0"},
		{"aslant", pts(0, 0, 300, 300, 600, 0, 0, 0), "north-east 14 0, south-east 14 0, west 20 0"},
	} {
		var got []string
		for i, r := range runs(c.path, 15, 30) {
			if r.Number != i+1 || c.path[r.leg] != r.To || c.path[r.leg-1] != r.From {
				t.Errorf("%s: run %d is %+v", c.name, i+1, r)
			}
			got = append(got, fmt.Sprint(r.Direction, " ", r.Pegs, " ", r.GapToNext))
		}
		if s := strings.Join(got, ", "); s != c.want {
			t.Errorf("%s: %s, want %s", c.name, s, c.want)
		}
	}
}

func TestPlaceOnRuns(t *testing.T) {
	rs := runs(pts(0, 0, 900, 0, 900, 60, 0, 60), 0, 30)
	cum := []float64{0, 900, 960, 1860}
	for s, want := range map[float64][2]float64{-5: {1, 0}, 0: {1, 0}, 450: {1, 450}, 930: {1, 930}, 960: {2, 0}, 1000: {2, 40}} {
		if run, into := placeOnRuns(rs, cum, s); float64(run) != want[0] || into != want[1] {
			t.Errorf("%g mm: run %d, %g mm into it", s, run, into)
		}
	}
	ms := marks(pts(0, 0, 900, 0, 900, 60, 0, 60), 0, rs)
	if len(ms) != 3 || ms[1].Along != 930 || ms[1].At != plane.Pt(900, 30) || ms[0].Run != 1 || ms[0].Into != 465 || ms[2].Run != 2 || ms[2].Into != 435 {
		t.Errorf("%+v", ms)
	}
}

func TestCompass(t *testing.T) {
	for k, want := range compassNames {
		a := float64(k) * math.Pi / 4
		for _, off := range []float64{-0.39, 0, 0.39} {
			d := plane.Pt(math.Cos(a+off), math.Sin(a+off))
			if got := compass(d); got != want {
				t.Errorf("%v: %s, want %s", d, got, want)
			}
			if got := sideOfSheet(d); got != sheetSides[k]+" of the sheet" {
				t.Errorf("%v: %s", d, got)
			}
		}
	}
}

// roomOf has walls lettered in order.
func roomOf(ring plane.Ring) *job.Room {
	r := &job.Room{Outline: ring}
	for i := range ring {
		r.Walls = append(r.Walls, job.Wall{Letter: string(rune('A' + i)), Segment: ring.Edge(i)})
	}
	return r
}

func TestTowardsAndAlong(t *testing.T) {
	square := plane.Rectangle(plane.Pt(0, 0), plane.Pt(3000, 2000))
	turned := slices.Clone(square)
	slices.Reverse(turned) // walls the other way round: 0,2000 to 3000,2000 and so on
	mid := plane.Pt(1000, 1000)
	for _, c := range []struct {
		d    plane.Point
		want string
	}{{plane.Pt(1, 0), "wall B"}, {plane.Pt(-1, 0), "wall D"}, {plane.Pt(0, 1), "wall C"}, {plane.Pt(0, -1), "wall A"}, {plane.Pt(1, 0.3), "wall B"}} {
		if got := Towards(roomOf(square), mid, c.d); got != c.want {
			t.Errorf("%v: %s, want %s", c.d, got, c.want)
		}
	}
	if got := Towards(roomOf(turned), mid, plane.Pt(0, 1)); got != "wall A" {
		t.Errorf("the other way round: %s", got)
	}
	// of two walls that face the way, the one met first; past all of them, the sheet
	bay := plane.Ring{{X: 0, Y: 0}, {X: 3000, Y: 0}, {X: 3000, Y: 2000}, {X: 2000, Y: 2000}, {X: 2000, Y: 1200}, {X: 0, Y: 1200}}
	for p, want := range map[plane.Point]string{{X: 1000, Y: 500}: "wall E", {X: 2500, Y: 500}: "wall C", {X: 1000, Y: 1200}: "wall E", {X: 1000, Y: 1205}: "top of the sheet"} {
		if got := Towards(roomOf(bay), p, plane.Pt(0, 1)); got != want {
			t.Errorf("from %v: %s, want %s", p, got, want)
		}
	}
	for _, c := range []struct {
		d    plane.Point
		want string
		off  float64
	}{{plane.Pt(1, 0), "A", 0}, {plane.Pt(0, -5), "B", 0}, {plane.Pt(1, 1), "A", 45}, {plane.Pt(100, 1), "A", 0.573}, {plane.Pt(1, 2), "B", 26.565}} {
		if letter, off := Along(roomOf(bay), c.d); letter != c.want || math.Abs(off-c.off) > 1e-3 {
			t.Errorf("%v: %s, %g", c.d, letter, off)
		}
	}
}

func TestDatumWalls(t *testing.T) {
	r := roomOf(plane.Rectangle(plane.Pt(0, 0), plane.Pt(3000, 2000)))
	if a, b := Datums(r); a != 0 || b != 1 {
		t.Errorf("%d and %d", a, b)
	}
	door := func(wall int, from, to float64, kind string) job.Opening {
		return job.Opening{Kind: kind, Wall: wall, From: from, To: to}
	}
	for _, c := range []struct {
		openings []job.Opening
		want     [2]int
	}{
		{[]job.Opening{door(0, 100, 2900, "door")}, [2]int{2, 1}},
		{[]job.Opening{door(0, 299, 2701, "door")}, [2]int{2, 1}},
		{[]job.Opening{door(0, 300, 2800, "door")}, [2]int{0, 1}},
		{[]job.Opening{door(0, 0, 3000, "window")}, [2]int{0, 1}},
		{[]job.Opening{door(1, 0, 2000, "cased")}, [2]int{0, 3}},
	} {
		r.Openings = c.openings
		if a, b := Datums(r); [2]int{a, b} != c.want {
			t.Errorf("%+v: %d and %d", c.openings, a, b)
		}
	}
	r.Openings = []job.Opening{door(0, 2000, 2500, "door"), door(0, 500, 900, "cased"), door(1, 0, 500, "door"), door(0, 1, 20, "window")}
	if got := Standing(r, 0); !slices.Equal(got, [][2]float64{{0, 500}, {900, 2000}, {2500, 3000}}) {
		t.Errorf("%v stand", got)
	}
	if got := longest(Standing(r, 0)); got != 1100 {
		t.Errorf("the longest is %g", got)
	}
	// no wall is square to the longest: what still fixes a point will do
	if a, b := Datums(roomOf(plane.Ring{{X: 0, Y: 0}, {X: 4000, Y: 0}, {X: 2000, Y: 2000}})); a != 0 || b != 1 {
		t.Errorf("of a triangle %d and %d", a, b)
	}
	tape := NewTape(roomOf(plane.Rectangle(plane.Pt(0, 0), plane.Pt(3000, 2000))), plane.Millimetres)
	for p, want := range map[plane.Point]string{{X: 1000, Y: 300}: "300 mm from wall A, 2000 mm from wall B", {X: 3100, Y: 300}: "300 mm from wall A, 100 mm behind the line of wall B", {X: 3000.4, Y: 0}: "0 mm from wall A, 0 mm from wall B"} {
		if got := tape.Place(p); got != want {
			t.Errorf("%s, want %s", got, want)
		}
	}
	if got := tape.Off(1, plane.Pt(3100, 0)); got != "-100 mm" {
		t.Error(got)
	}
	if got := tape.Off(1, plane.Pt(3000, 0)); got != "0 mm" {
		t.Error(got)
	}
}

func TestSelfCrossing(t *testing.T) {
	for _, c := range []struct {
		path []plane.Point
		want [2]int
	}{
		{pts(0, 0, 100, 0, 100, 100), [2]int{}}, {pts(0, 0, 100, 0, 100, 60, 0, 60), [2]int{}},
		{pts(0, 0, 100, 0, 100, 100, 50, 100, 50, -10), [2]int{1, 4}}, {pts(0, 0, 100, 0, 100, 100, 50, 100, 50, 0), [2]int{1, 4}},
		{pts(0, 0, 100, 0, 100, 100, 50, 100, 50, 1), [2]int{}}, {pts(0, 0, 100, 0, 40, 0), [2]int{1, 2}}, {pts(50, 50, 0, 0, 100, 0, 20, 0), [2]int{2, 3}},
	} {
		if i, k, ok := selfCrossing(c.path); [2]int{i, k} != c.want || ok != (c.want != [2]int{}) {
			t.Errorf("%v: %d over %d, %v", c.path, i, k, ok)
		}
	}
}

func TestLegsAreWalkedOnTheLattice(t *testing.T) {
	c := &Cable{Lattice: route.Lattice{Pitch: 30, Angle: 0.2}}
	got := c.walkLegs(plane.Pt(10, 20), []job.Leg{{Bearing: 90, Pegs: 4}, {Bearing: 0, Pegs: 2}, {Bearing: 0, Pegs: 3}, {Bearing: 45, Pegs: 5}, {Bearing: 225, Pegs: 1}})
	u, v := plane.Pt(30, 0).Rotate(0.2), plane.Pt(0, 30).Rotate(0.2)
	a := plane.Pt(10, 20)
	b := a.Add(u.Mul(4))
	d := b.Add(v.Mul(5))
	e := d.Add(u.Mul(5)).Add(v.Mul(5))
	want := []plane.Point{a, b, d, e, e.Sub(u).Sub(v)}
	for i := range want {
		if len(got) != len(want) || got[i].Dist(want[i]) > 1e-6 {
			t.Fatalf("%v, want %v", got, want)
		}
	}
}

func TestAMiscountMovesWhatFollows(t *testing.T) {
	path := pts(0, 0, 900, 0, 900, 60, 0, 60, 0, 120, 900, 120)
	c := &Cable{ID: "H1"}
	for _, k := range []struct {
		run, pegs int
		want      []plane.Point
	}{
		{1, 31, pts(0, 0, 930, 0, 930, 60, 30, 60, 30, 120, 930, 120)}, {2, 29, pts(0, 0, 900, 0, 900, 60, 30, 60, 30, 120, 930, 120)}, {3, 30, path}, {4, 30, nil},
	} {
		l := &Laid{Path: path, Job: &job.Laid{Miscounts: []job.Miscount{{Run: k.run, Pegs: k.pegs}}}}
		d := l.recount(c, runs(path, 15, 30), 30)
		if (d != nil) != (k.want == nil) || k.want != nil && !slices.Equal(l.Path, k.want) {
			t.Errorf("run %d of %d pegs: %v, %v", k.run, k.pegs, l.Path, d)
		}
	}
	if path[1] != plane.Pt(900, 0) {
		t.Error("the plan itself was moved")
	}
}

func TestMarksGrowAlongTheCable(t *testing.T) {
	c := &Cable{ID: "H1", Label: job.Cable{Length: 10000}}
	mark := func(length float64, run int, pegs float64) job.LaidMark {
		return job.LaidMark{Length: length, Run: run, Pegs: pegs}
	}
	for _, k := range []struct {
		marks []job.LaidMark
		want  int
	}{
		{[]job.LaidMark{mark(10000, 3, 2)}, 0}, {[]job.LaidMark{mark(10001, 3, 2)}, 1},
		{[]job.LaidMark{mark(2000, 1, 5), mark(3000, 1, 9), mark(4000, 2, 0)}, 0},
		{[]job.LaidMark{mark(4000, 2, 0), mark(2000, 1, 5)}, 0},
		{[]job.LaidMark{mark(2000, 1, 9), mark(3000, 1, 5)}, 1}, {[]job.LaidMark{mark(2000, 2, 1), mark(3000, 1, 5)}, 1},
		{[]job.LaidMark{mark(0, 2, 1), mark(4000, 3, 5)}, 1}, {[]job.LaidMark{mark(0, 2, 1), mark(6000, 3, 5)}, 0},
		{[]job.LaidMark{mark(5000, 2, 1), mark(5000, 3, 1)}, 1},
		{[]job.LaidMark{mark(5000, 3, 1), mark(5000, 2, 1)}, 1}, {[]job.LaidMark{mark(5000, 3, 1), mark(5000, 3, 1)}, 0},
		{[]job.LaidMark{mark(5000, 3, 1), mark(6000, 3, 1)}, 1}, {[]job.LaidMark{mark(6000, 3, 1), mark(5000, 3, 1)}, 1},
	} {
		l := &Laid{Job: &job.Laid{Marks: k.marks}}
		if got := l.checkMarks(c, plane.Millimetres); len(got) != k.want {
			t.Errorf("%+v: %v", k.marks, got)
		}
	}
	if markRead(mark(0, 1, 1), c) != 5000 || markRead(mark(70, 1, 1), c) != 70 {
		t.Error("the half-way mark stands for half the cable")
	}
}

// The rate is that of the mark farthest along: cable by way.
func TestRateByTheFarthestMark(t *testing.T) {
	path := pts(0, 0, 900, 0, 900, 60, 0, 60)
	c := &Cable{Label: job.Cable{Length: 1860}}
	for _, k := range []struct {
		marks []job.LaidMark
		want  float64
	}{
		{nil, 1},
		{[]job.LaidMark{{Length: 612, Run: 1, Pegs: 20}}, 1.02},
		{[]job.LaidMark{{Length: 1236, Run: 2, Pegs: 8}, {Length: 612, Run: 1, Pegs: 20}}, 1236 / 1200.0},
		{[]job.LaidMark{{Length: 945, Run: 1, Pegs: 40}}, 945 / 900.0}, // no farther than the run's end
		{[]job.LaidMark{{Length: 612, Run: 9, Pegs: 20}}, 1},
		{[]job.LaidMark{{Length: 1200, Run: 1, Pegs: 20}}, 1}, // a slip, no drift
	} {
		l := &Laid{Path: path, Job: &job.Laid{Marks: k.marks}}
		if got := l.rate(c, 30); math.Abs(got-k.want) > 1e-9 {
			t.Errorf("%+v: %g, want %g", k.marks, got, k.want)
		}
	}
}

func TestFarthestOfARun(t *testing.T) {
	line := pts(0, 0, 1000, 0)
	near, on, off := farthest(seg(0, 50, 1000, 130), line)
	if off != 130 || on != plane.Pt(1000, 130) || near != plane.Pt(1000, 0) {
		t.Errorf("%v of %v, %g", near, on, off)
	}
	if _, on, off := farthest(seg(0, 130, 1000, 50), line); off != 130 || on.X != 0 {
		t.Errorf("%v, %g", on, off)
	}
	if q, d := nearestOn(pts(0, 0, 100, 0, 100, 100), plane.Pt(130, 40)); d != 30 || q != plane.Pt(100, 40) {
		t.Errorf("%v, %g", q, d)
	}
}
