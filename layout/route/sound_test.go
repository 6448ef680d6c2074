package route

import (
	"math"
	"math/rand/v2"
	"testing"

	"pgregory.net/rapid"

	"oxturn/layout/plane"
)

// tightRule is that of a lattice of 30 mm pegs with the closest gap of two.
func tightRule() rules { return rulesFor(Problem{Pitch: 30, Closest: 2, Widest: 5, Bend: 15}, Cable{}) }

func TestRulesOfACable(t *testing.T) {
	one := func(pitch float64, closest, widest, minLeg, turnBack int) axis {
		return axis{pitch, closest, widest, minLeg, turnBack, 1}
	}
	alike := func(a axis, near, far, mean, meanGap, bend float64) rules {
		return rules{a, a, near, far, mean, meanGap, 1, bend, false, false}
	}
	for _, c := range []struct {
		p    Problem
		c    Cable
		want rules
	}{
		{Problem{Pitch: 30, Closest: 2, Widest: 5, Bend: 15}, Cable{}, alike(one(30, 2, 5, 1, 2), 60, 150, 0, 0, 15)},
		{Problem{Pitch: 30, Closest: 2, Widest: 5, Bend: 16}, Cable{}, alike(one(30, 2, 5, 2, 2), 60, 150, 0, 0, 16)},
		{Problem{Pitch: 25, Closest: 2, Widest: 4, Bend: 37.5}, Cable{WattsPerMetre: 12},
			alike(one(25, 2, 4, 3, 3), 50, 100, 0, 0, 37.5)},
		// 15/200 m is 75 mm
		{Problem{Pitch: 25, Closest: 2, Widest: 4, Bend: 0}, Cable{WattsPerMetre: 15, MaxDensity: 200},
			alike(one(25, 2, 4, 1, 2), 50, 100, 75, 3, 0)},
		// 70 mm are 3 pegs of 30 mm, or 2 of 40; 130 mm hold 4 or 3. Two bends of 20 mm have room in one of 40
		{Problem{Pitch: 30, Bend: 20, Uneven: &Uneven{Across: 40, Closest: 70, Widest: 130}}, Cable{},
			rules{one(30, 3, 4, 2, 3), one(40, 2, 3, 1, 2), 70, 130, 0, 0, 0.75, 20, false, false}},
		// a step along strips is an eighth of the clips' distance
		{Problem{Pitch: 5, Bend: 20, Uneven: &Uneven{Across: 40, Closest: 80, Widest: 120}},
			Cable{WattsPerMetre: 12, MaxDensity: 120},
			rules{axis{5, 16, 24, 8, 16, 8}, one(40, 2, 3, 1, 2), 80, 120, 100, 2.5, 0.125, 20, false, false}},
	} {
		if got := rulesFor(c.p, c.c); got != c.want {
			t.Errorf("%+v, want %+v", got, c.want)
		}
	}
	// turned, the ways change places, and back
	uneven := rulesFor(Problem{Pitch: 30, Bend: 20, Uneven: &Uneven{Across: 40, Closest: 70, Widest: 130}},
		Cable{WattsPerMetre: 12, MaxDensity: 120})
	side := uneven.on(&grid{turns: 3})
	if side.x != uneven.y || side.y != uneven.x || side.flat != 4.0/3 || side.meanGap != 100.0/30 ||
		uneven.meanGap != 2.5 {
		t.Errorf("turned: %+v", side)
	}
	if back := side.on(&grid{turns: 2}); back != uneven {
		t.Errorf("turned back: %+v", back)
	}
	if n := tightRule().links(); n != 300 {
		t.Errorf("a leg up to %g mm is a link", n)
	}
}

// bend is a path of three legs whose turns are a and b radians, the middle leg n mm.
func bend(n, a, b float64) []plane.Point {
	p := points(0, 0, 200, 0)
	at := func(angle, n float64) {
		p = append(p, p[len(p)-1].Add(plane.Pt(n, 0).Rotate(angle)))
	}
	at(a, n)
	at(a+b, 200)
	return p
}

func TestBendsFit(t *testing.T) {
	right := math.Pi / 2
	for _, c := range []struct {
		name string
		path []plane.Point
		want bool
	}{
		{"a straight line", points(0, 0, 100, 0), true},
		{"a half turn of the closest gap", bend(60, right, right), true},
		{"to the right", bend(60, -right, -right), true},
		{"within what can't be laid truer", bend(59.6, right, right), true},
		{"a half turn too close", bend(59, right, right), false},
		{"too close to the right", bend(59, -right, -right), false},
		{"a jog may be as short as its bends", bend(30, right, -right), true},
		{"a jog too short for its bends", bend(29.9, right, -right), false},
		{"two turns of 60 degrees are no turn back", bend(40, math.Pi/3, math.Pi/3), true},
		{"two of 70 degrees are", bend(40, 70*math.Pi/180, 70*math.Pi/180), false},
		{"a sharp turn and a slight one", bend(58, 2.2, 0.3), false},
		{"a slight turn and a sharp one", bend(58, 0.3, 2.2), false},
		{"a sharp turn and a slight one the other way", bend(50, 2.45, -0.02), true},
		{"the other way round", bend(50, 0.02, -2.45), true},
		{"a sharp turn and none", bend(50, 2.45, 0), true},
		{"a slight turn and one of 75 degrees", bend(45, 0.5, 1.3), true},
		{"a first leg too short for its bend", points(0, 0, 14, 0, 14, 100), false},
		{"a first leg just long enough", points(0, 0, 15, 0, 15, 100), true},
		{"a last leg too short for its bend", points(0, 0, 100, 0, 100, 14), false},
		{"a last leg just long enough", points(0, 0, 100, 0, 100, 15), true},
	} {
		if got := bendsFit(c.path, tightRule()); got != c.want {
			t.Errorf("%s: %v", c.name, got)
		}
	}
}

// Half turns of every width and angle, against the distance between the legs
// after it: they may come no nearer than the closest gap but for the half
// millimetre.
func TestTurnBackIsAsWideAsTheGap(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		n, tilt := rapid.Float64Range(31, 90).Draw(t, "n"), rapid.Float64Range(-0.2, 0.2).Draw(t, "tilt")
		side := rapid.SampledFrom([]float64{1, -1}).Draw(t, "side")
		path := bend(n, side*(math.Pi/2+tilt), side*(math.Pi/2-tilt)) // legs that lie side by side
		wide := n * math.Cos(tilt)
		if math.Abs(n-59.5) < 0.1 || math.Abs(wide-59.5) < 0.1 {
			return
		}
		if bendsFit(path, tightRule()) && n < 59.5 {
			t.Fatalf("a turn back over %.1f mm passes", n)
		}
		if bendsFit(path, tightRule()) && apart(path, tightRule()) && wide < 59 {
			t.Fatalf("legs %.1f mm apart pass", wide)
		}
		if n > 59.5 && !bendsFit(path, tightRule()) {
			t.Fatalf("a turn back over %.1f mm does not pass", n)
		}
	})
}

func TestApart(t *testing.T) {
	for _, c := range []struct {
		name string
		path []plane.Point
		want bool
	}{
		{"two runs at the closest gap", points(0, 0, 400, 0, 400, 60, 0, 60), true},
		{"within what can't be laid truer", points(0, 0, 400, 0, 400, 90, 200, 90, 200, 59.6, 0, 59.6), true},
		{"a run that comes back too close", points(0, 0, 400, 0, 400, 90, 200, 90, 200, 59, 0, 59), false},
		{"an end that comes too close", points(0, 0, 400, 0, 400, 300, 200, 300, 200, 59), false},
		{"an end that stops at the gap", points(0, 0, 400, 0, 400, 300, 200, 300, 200, 60), true},
		{"a jog of one peg", points(0, 0, 300, 0, 300, 30, 600, 30), true},
		{"two jogs near each other", points(0, 0, 300, 0, 300, 30, 360, 30, 360, 60, 700, 60), true},
		{"a hook that comes back within its turn", points(0, 0, 300, 0, 300, 45, 240, 45, 240, 20), false},
		{"a curl", points(0, 0, 300, 0, 300, 60, 270, 60, 270, 30), false},
		{"the first leg and a much later one", points(0, 0, 400, 0, 400, 200, -100, 200, -100, 30, -40, 30), false},
		{"crossing itself", points(0, 0, 400, 0, 400, 200, 200, 200, 200, -200), false},
	} {
		if got := apart(c.path, tightRule()); got != c.want {
			t.Errorf("%s: %v", c.name, got)
		}
	}
}

// Whatever the audit lets pass, points on the rounded line keep the gap.
func TestApartAgreesWithPointsOnTheLine(t *testing.T) {
	passed, refused := 0, 0
	r := rand.New(rand.NewPCG(1, 2))
	for range 2000 {
		path := []plane.Point{{X: 0, Y: 0}}
		dir := plane.Pt(1, 0)
		for range 3 + r.IntN(6) {
			path = append(path, path[len(path)-1].Add(dir.Mul(30*float64(1+r.IntN(6)))))
			if dir = dir.Left(); r.IntN(2) == 0 {
				dir = dir.Mul(-1)
			}
		}
		if !bendsFit(path, tightRule()) {
			continue
		}
		pts, _, err := walkLine(path, 15)
		if err != nil {
			t.Fatal(err)
		}
		close := tooClose(pts, 60)
		switch ok := apart(path, tightRule()); {
		case ok && close != nil:
			t.Fatalf("%v passes though %v", path, close)
		case ok:
			passed++
		default:
			refused++
		}
	}
	if passed < 100 || refused < 100 {
		t.Errorf("%d passed, %d refused", passed, refused)
	}
}

func TestSound(t *testing.T) {
	zone := plane.FromRing(plane.Rectangle(plane.Pt(0, 0), plane.Pt(900, 900)))
	path := points(10, 10, 710, 10, 710, 100, 10, 100, 10, 190, 710, 190)
	n, rule := Length(path, 15), tightRule()
	for name, c := range map[string]struct {
		path   []plane.Point
		length float64
		cap    float64 // smallest mean gap, pegs
		laid   int
		want   bool
	}{
		"sound":                               {path, n, 0, 0, true},
		"a tenth of a millimetre off":         {path, n + 0.09, 0, 0, true},
		"too short":                           {path, n + 0.11, 0, 0, false},
		"too long":                            {path, n - 0.11, 0, 0, false},
		"a point":                             {path[:1], 0, 0, 0, false},
		"nothing":                             {nil, 0, 0, 0, false},
		"as hot as may be":                    {path, n, 3, 0, true},
		"too hot":                             {path, n, 3.1, 0, false},
		"too hot in what was laid before":     {path, n, 3.1, 6, true},
		"too hot in the run that is laid now": {path, n, 3.1, 4, true},
		"too hot beside what was laid":        {path, n, 3.1, 2, false},
		"too close": {points(10, 10, 710, 10, 710, 60, 10, 60),
			Length(points(10, 10, 710, 10, 710, 60, 10, 60), 15), 0, 0, false},
	} {
		rule.meanGap, rule.mean = c.cap, 30*c.cap
		if got := sound(c.path, rule, newRim(zone), c.length, c.laid); got != c.want {
			t.Errorf("%s: %v", name, got)
		}
	}
}

// A bend of 15 mm cuts 6.2 mm off its corner, (√2 - 1) radii: 4.4 mm in x and in y.
func TestBendsInside(t *testing.T) {
	zone := func(x0 float64) plane.Region {
		z, err := plane.FromRing(plane.Rectangle(plane.Pt(0, 0), plane.Pt(400, 400))).Less(
			plane.FromRing(plane.Rectangle(plane.Pt(x0, 100), plane.Pt(300, 300))))
		if err != nil {
			t.Fatal(err)
		}
		return z
	}
	path := points(50, 320, 306, 320, 306, 50) // round the hole's corner at 300, 300
	for _, c := range []struct {
		name string
		path []plane.Point
		want bool
	}{
		{"clear of the hole", points(50, 320, 320, 320, 320, 50), true},
		{"3 mm off either side of its corner", points(50, 303, 303, 303, 303, 50), false},
		{"over it by less than can be laid truer", points(50, 304, 304, 304, 304, 50), true},
		{"5 mm off", points(50, 305, 305, 305, 305, 50), true},
		{"far off one side", path, true},
		{"the last bend over the corner", points(350, 390, 50, 390, 50, 303, 303, 303, 303, 50), false},
		{"a straight line has none", points(50, 320, 306, 320), true},
	} {
		if got := bendsInside(c.path, tightRule(), newRim(zone(100))); got != c.want {
			t.Errorf("%s: %v", c.name, got)
		}
	}
}

// Three runs side by side: the mean of the two gaps counts, and only where all
// three lie.
func TestCool(t *testing.T) {
	run := func(x0, x1, y float64) plane.Segment { return plane.Segment{A: plane.Pt(x0, y), B: plane.Pt(x1, y)} }
	for _, c := range []struct {
		name string
		legs []plane.Segment
		want bool
	}{
		{"alone", []plane.Segment{run(0, 1000, 0)}, true},
		{"two", []plane.Segment{run(0, 1000, 0), run(0, 1000, 20)}, true},
		{"three at the least mean", []plane.Segment{run(0, 1000, 0), run(1000, 0, 80), run(0, 1000, 200)}, true},
		{"three a bit closer", []plane.Segment{run(0, 1000, 0), run(1000, 0, 80), run(0, 1000, 199)}, false},
		{"a neighbour that ends before", []plane.Segment{run(0, 1000, 0), run(0, 1000, 80), run(1001, 2000, 150)},
			true},
		{"a neighbour beside the end", []plane.Segment{run(0, 1000, 0), run(0, 1000, 80), run(850, 1900, 150)}, false},
		{"links do not count", []plane.Segment{run(0, 1000, 0), run(0, 1000, 80), run(350, 650, 150)}, true},
		{"runs past links do", []plane.Segment{run(0, 1000, 0), run(0, 1000, 80), run(300, 601, 150)}, false},
		{"a leg across", []plane.Segment{run(0, 1000, 0), run(0, 1000, 80),
			{A: plane.Pt(500, 100), B: plane.Pt(500, 900)}}, true},
		{"the nearest on either side", []plane.Segment{run(0, 1000, 0), run(0, 1000, 80), run(0, 1000, 300),
			run(0, 1000, 180)}, false},
	} {
		if got := cool(c.legs, c.legs, 100, 300); got != c.want {
			t.Errorf("%s: %v", c.name, got)
		}
		if !cool(c.legs, c.legs, 0, 300) {
			t.Errorf("%s: too hot without a cap", c.name)
		}
	}
	mine := []plane.Segment{run(0, 1000, 0)}
	if !cool(mine, []plane.Segment{mine[0], run(0, 1000, 80), run(0, 1000, 150)}, 100, 300) {
		t.Error("a run is judged by its own neighbours only")
	}
}

func TestSoundOfEveryRule(t *testing.T) {
	zone, rule := plane.FromRing(plane.Rectangle(plane.Pt(0, 0), plane.Pt(900, 900))), tightRule()
	for _, c := range []struct {
		name string
		path []plane.Point
		cap  float64
		want bool
	}{
		{"one leg", points(10, 10, 500, 10), 0, true},
		{"no room for a bend, though far from itself", points(10, 10, 22, 10, 22, 300), 0, false},
		{"too near itself, though every bend has room", points(100, 100, 500, 100, 500, 400, 300, 400, 300, 150), 0,
			false},
		{"the first leg between two others", points(110, 100, 710, 100, 710, 190, 10, 190, 10, 10, 710, 10), 2.9, true},
		{"and too hot there", points(110, 100, 710, 100, 710, 190, 10, 190, 10, 10, 710, 10), 3.1, false},
	} {
		rule.meanGap, rule.mean = c.cap, 30*c.cap
		if got := sound(c.path, rule, newRim(zone), Length(c.path, 15), 0); got != c.want {
			t.Errorf("%s: %v", c.name, got)
		}
	}
}

// The first cable of a problem is asked for, whatever others there are.
func TestSoundOfAProblem(t *testing.T) {
	zone := plane.FromRing(plane.Rectangle(plane.Pt(0, 0), plane.Pt(900, 900)))
	path := points(10, 10, 710, 10, 710, 100, 10, 100, 10, 190, 710, 190)
	n := Length(path, 15)
	p := Problem{Pitch: 30, Closest: 2, Widest: 5, Bend: 15, Cables: []Cable{{Length: n},
		{Length: 2 * n, WattsPerMetre: 10, MaxDensity: 50}}}
	if !Sound(p, path, zone, 0) {
		t.Error("a sound path of the first cable")
	}
	if p.Cables[0], p.Cables[1] = p.Cables[1], p.Cables[0]; Sound(p, path, zone, 0) {
		t.Error("held against another cable than the first")
	}
}

// A short stretch is tight where points of it that lie more than a half turn, and
// less than four gaps, from each other along the cable come nearer than the gap.
func TestTight(t *testing.T) {
	for name, c := range map[string]struct {
		path []plane.Point
		want bool
	}{
		"a curl":                          {points(0, 0, 300, 0, 300, 60, 270, 60, 270, 30), true},
		"at the closest gap":              {points(0, 0, 300, 0, 300, 60, 100, 60), false},
		"within what can't be laid truer": {points(0, 0, 300, 0, 300, 59.7, 100, 59.7), false},
		"closer":                          {points(0, 0, 300, 0, 300, 59.2, 100, 59.2), true},
		"near itself after a long way":    {points(0, 0, 300, 0, 300, 90, 150, 90, 150, 30), false},
		"a jog":                           {points(0, 0, 300, 0, 300, 30, 600, 30), false},
		"a straight line":                 {points(0, 0, 300, 0), false},
	} {
		if got := tight(c.path, tightRule()); got != c.want {
			t.Errorf("%s: %v", name, got)
		}
	}
}
