package build

import (
	"math/rand/v2"
	"slices"
	"strings"
	"testing"

	"oxturn/layout"
	"oxturn/layout/internal/hand"
	"oxturn/layout/job"
	"oxturn/layout/plane"
	"oxturn/layout/route"
)

// Each set of cables is one option, whichever of them the job names; that one is taken.
func TestEachOptionOnce(t *testing.T) {
	for _, named := range [][]string{nil, {"A"}, {"B"}} {
		d := drafted(t, landing(12, 10), named...)
		if named == nil {
			d = drafted(t, strings.Replace(landing(12, 10), "NAMED", "", 1))
		}
		tried := 0
		seen := map[string]int{}
		for _, o := range options(d, func(layout.Candidate) { tried++ }) {
			seen[strings.Join(o.IDs, "+")]++
			if named != nil && o.Taken != slices.Equal(o.IDs, named) {
				t.Errorf("of %v, %v is taken: %v", named, o.IDs, o.Taken)
			}
			if o.Taken && !o.Fits {
				t.Errorf("%v: %+v", named, o.Candidate)
			}
		}
		for ids, n := range seen {
			if n > 1 {
				t.Errorf("%s is offered %d times where %v is named", ids, n, named)
			}
		}
		if seen["A"] == 0 || tried == 0 {
			t.Errorf("named %v: %v, %d tried", named, seen, tried)
		}
	}
}

// Three options that fit are laid; the others are said to be farther from the power wanted.
func TestHowManyOptionsAreLaid(t *testing.T) {
	d := drafted(t, strings.Replace(landing(9.5, 10, 10.5, 11, 11.5, 12), "NAMED", "", 1))
	fit, laid := 0, 0
	for _, o := range options(d, func(layout.Candidate) { laid++ }) {
		switch {
		case o.Fits:
			fit++
		case len(o.IDs) == 1 && !strings.HasPrefix(o.Why, "not laid: others that fit are nearer to the power wanted"):
			t.Errorf("%v: %s", o.IDs, o.Why)
		}
	}
	if fit != worthShowing || laid != worthShowing {
		t.Errorf("%d fit, %d are laid", fit, laid)
	}
}

// By area: what other cables of the job would do for one that does not lie.
func TestRefusedOutOfTheRange(t *testing.T) {
	for _, c := range []struct {
		lengths []float64
		hint    string
	}{{[]float64{30, 11}, "cables of this job that would fit: B (11.0 m); a cable is never cut"},
		{[]float64{30, 60}, "no other cable of this job is that long"}} {
		d := drafted(t, landing(c.lengths...), "A")
		got := refusal(d, layout.Named(d.job, []string{"A"}), &route.Refusal{Cable: 0, Shortest: 8000, Longest: 14500})
		if !strings.HasPrefix(got.Hint, c.hint) || !strings.Contains(got.Message, "; this zone takes 8.0 m to 14.5 m") {
			t.Errorf("%v: %s\n%s", c.lengths, got.Message, got.Hint)
		}
	}
}

// Three shares side by side, 300 and 100 mm apart: they are parted in the wider gap first, by a
// line as long as all of them, then in the other; the sides are named in the order of the way.
func TestWhereCablesPartAFloor(t *testing.T) {
	share := func(cable int, x0, x1, y1 float64) route.Route {
		return route.Route{Cable: cable, Share: zone(x0, 0, x1, y1)}
	}
	routes := []route.Route{share(0, 0, 1000, 2000), share(1, 1300, 2000, 1000), share(2, 2100, 3000, 900)}
	labels := []job.Cable{{ID: "A"}, {ID: "B"}, {ID: "C"}}
	got := splits(routes, labels)
	if len(got) != 2 {
		t.Fatalf("%+v", got)
	}
	if l := got[0].Line; l.A != plane.Pt(1150, 0) || l.B != plane.Pt(1150, 2000) {
		t.Errorf("parted along %v", l)
	}
	if l := got[1].Line; l.A != plane.Pt(2050, 0) || l.B != plane.Pt(2050, 1000) {
		t.Errorf("then along %v", l)
	}
	for i, want := range []SplitSide{{IDs: []string{"A"}, Area: 2e6, Side: "west"},
		{IDs: []string{"B", "C"}, Area: 700e3 + 810e3, Side: "east"}} {
		if s := got[0].Sides[i]; !slices.Equal(s.IDs, want.IDs) || s.Area != want.Area || s.Side != want.Side {
			t.Errorf("side %d: %+v", i, s)
		}
	}
	longer := splits([]route.Route{share(0, 0, 1000, 500), share(1, 1100, 2000, 1500)}, labels)
	if l := longer[0].Line; l.A != plane.Pt(1050, 0) || l.B != plane.Pt(1050, 1500) {
		t.Errorf("the first the shorter: parted along %v", l)
	}
	// two one above the other, of one gap: the lower is first
	above := splits([]route.Route{{Cable: 0, Share: zone(0, 0, 900, 400)}, {Cable: 1, Share: zone(0, 500, 900, 900)}},
		labels)
	if len(above) != 1 || above[0].Sides[0].Side != "south" || above[0].Line.Length() != 900 {
		t.Errorf("%+v", above)
	}
}

// What was no floor of the cable's before is none of it where the room is a little larger.
func TestServedAsBefore(t *testing.T) {
	was := roomOf(zone(0, 0, 1000, 1000))
	was.Bare = zone(2000, 0, 2500, 1000)
	r := roomOf(zone(0, 0, 1010, 1000), zone(2000, 0, 2510, 1000), zone(2800, 0, 2900, 100))
	if serveAs(r, was); r.Heated.Area() != 1010*1000 {
		t.Errorf("%g mm² are served", r.Heated.Area())
	}
	was.Bare = nil
	if r = roomOf(zone(2800, 0, 2900, 100)); true {
		serveAs(r, was)
	}
	if r.Heated.Area() != 100*100 {
		t.Errorf("of a room with cable all over: %g mm²", r.Heated.Area())
	}
}

// A place lies in the zone that it is in, however near another is.
func TestZonesSideBySide(t *testing.T) {
	r := roomOf(zone(0, 0, 1000, 1000), zone(1000.2, 0, 2000, 1000))
	for x, want := range map[float64]int{999.9: 0, 1000.5: 1} {
		if got := zoneAt(r, &job.Zone{At: plane.Pt(x, 500)}); got != want {
			t.Errorf("at %g: zone %d", x, got)
		}
	}
}

// Of walls as long the first is taken; the middle between two floors is that of the shortest way.
func TestWallsAndNecksByHand(t *testing.T) {
	r := &layout.Room{Job: hand.Room(plane.Ring(hand.Points(0, 0, 500, 0, 800, 400, 300, 400)))} // 3, 4, 5
	if got := longestWall(r); got != plane.Pt(1, 0) {
		t.Errorf("the longest wall runs along %v", got)
	}
	r = &layout.Room{Job: hand.Room(plane.Ring(hand.Points(0, 0, 100, 0, 100, 900, 0, 900)))}
	if got := longestWall(r); got != plane.Pt(0, 1) {
		t.Errorf("the longest wall runs along %v", got)
	}
	a, b := zone(0, 0, 100, 100), zone(150, 40, 300, 60)
	for i, got := range []plane.Point{between(a, b), between(b, a)} {
		if got != plane.Pt(125, 40) {
			t.Errorf("%d: the middle of the way is %v", i, got)
		}
	}
	room := roomOf()
	room.Job.Fixtures = []job.Fixture{{Name: "tub", Outline: box(300, 200, 900, 1800)}}
	room.Job.Joints = []job.Joint{{Name: "MJ", Segment: hand.Segment(400, 0, 400, 2000)}}
	if got := besideNeck(room, &neck{at: plane.Pt(150, 1000)}); got != "wall D and tub" {
		t.Error(got)
	}
}

// Floor out of reach, a peg of 100 mm at a time: of a zone of 302 by 402 mm with cable along its
// lower edge, what is over 100 mm away of 16 pegs; the farthest is 399 mm off.
func TestCoolFloorByPegs(t *testing.T) {
	r := roomOf()
	r.Cables = []layout.Cable{{Path: hand.Points(-1, 0, 301, 0)}}
	area, at, away := cool(r, zone(-1, -1, 301, 401), 100, 100)
	if area != 12*100*100 || away != 399 || at.Y != 399 {
		t.Errorf("%g mm², %g mm at %v", area, away, at)
	}
}

// A room is cut where there is a millimetre more than it is moved by; what lies in the cut stays.
func TestWhereARoomIsCut(t *testing.T) {
	for width, want := range map[float64]bool{26: false, 27: true} {
		if _, ok := stretched(*hand.Room(box(0, 0, width, 2000)), true, 25.4); ok != want {
			t.Errorf("%g mm wide: %v", width, ok)
		}
	}
	r := *roomOf().Job
	r.Fixings = []job.Fixing{{Line: hand.Points(1500, 5, 1501, 5)}}
	out, _ := stretched(r, true, 25)
	if l := out.Fixings[0].Line; l[0].X != 1500 || l[1].X != 1526 {
		t.Errorf("%v", l)
	}
	for n, want := range map[int]bool{countedRooms: true, countedRooms + 1: false} {
		p := &layout.Plan{Job: pegged(), Rooms: make([]layout.Room, n)}
		for i := range p.Rooms {
			p.Rooms[i] = *roomOf(zone(75, 75, 2925, 1925))
			p.Rooms[i].Cables = []layout.Cable{{Label: job.Cable{ID: "A", Length: 50e3, Watts: 500}, Spacing: 115}}
		}
		if got := shiftRoom(p, 0, true, 25, false); got.Counted != want {
			t.Errorf("of %d rooms counted: %v", n, got.Counted)
		}
	}
	d := &layout.Room{Job: &job.Room{}}
	if err := keepOffFixing(d, job.Fixing{Line: hand.Points(500, 500), Clear: 100}); err != nil {
		t.Fatal(err)
	}
	near(t, "a disc's width", d.NoCut[0].Region.Bounds().W(), 200)
}

// The widest stretch of a wall's length in which nothing stands, against counting each of its
// millimetres: things of any width in any order, some within others.
func TestWidestStretchByCounting(t *testing.T) {
	rng := rand.New(rand.NewPCG(7, 7))
	for range 200 {
		r := *roomOf().Job
		taken := make([]bool, 3000)
		for range 1 + rng.IntN(5) {
			from := rng.IntN(2900)
			to := from + 1 + rng.IntN(2999-from)
			r.Fixtures = append(r.Fixtures, job.Fixture{Outline: box(float64(from), 0, float64(to), 500)})
			for x := from; x < to; x++ {
				taken[x] = true
			}
		}
		widest, run := 0, 0
		for _, is := range taken {
			if run++; is {
				run = 0
			}
			widest = max(widest, run)
		}
		_, got := widestFree(r, func(p plane.Point) float64 { return p.X })
		if got != float64(widest) {
			t.Fatalf("%v: %g mm, counted %d", r.Fixtures, got, widest)
		}
	}
}

// Beside a doorway a box hangs 100 mm off at least, and as far from what stands on the floor.
func TestFreePlacesForABox(t *testing.T) {
	r := hand.Room(box(0, 0, 3000, 2000))
	r.Openings = []job.Opening{{Kind: "door", Wall: 0, From: 300, To: 1060}}
	r.Fixtures = []job.Fixture{{Outline: box(1500, 0, 2000, 400)}, {Outline: box(2300, 201, 2400, 600)}}
	w := r.BoxWalls("A")[0]
	for along, want := range map[float64]bool{200: true, 201: false, 700: false, 1159: false, 1160: true, 1399: true,
		1401: false, 1700: false, 2099: false, 2101: true, 2350: true} {
		if got := free(r, w, along); got != want {
			t.Errorf("a box %g mm along: free %v", along, got)
		}
	}
	r.Fixtures[1].Outline = box(2300, 200, 2400, 600)
	if free(r, w, 2350) {
		t.Error("99 mm in front of a box something stands")
	}
}

// Runs may be asked for in directions square to one another, not askew; the zone that asks for
// the other is pointed at, or the room where a zone without a word has its direction.
func TestDirectionsAskedFor(t *testing.T) {
	at := func(n int) job.Spans { return job.Spans{"along": {Start: n}} }
	turn := func(degrees float64) *float64 { v := plane.Radians(degrees); return &v }
	for _, k := range []struct {
		room, first, second *float64
		unspoken            bool
		want                int // where it is said; 0: nowhere
	}{
		{nil, turn(0), turn(90), false, 0}, {nil, turn(0), turn(45), false, 9}, {turn(45), turn(0), nil, false, 5},
		{turn(45), turn(0), nil, true, 5}, {nil, turn(30), nil, true, 0}, {turn(0), nil, turn(20), false, 9},
	} {
		r := roomOf(zone(0, 0, 900, 900), zone(1000, 0, 2000, 900))
		r.Job.Along, r.Job.Spans = k.room, at(5)
		r.Named = []*job.Zone{{Along: k.first, Spans: at(7)}, {Along: k.second, Spans: at(9)}}
		if k.unspoken {
			r.Named = r.Named[:1]
		}
		d := oneLattice(r)
		if (d != nil) != (k.want > 0) || d != nil && d.Span.Start != k.want {
			t.Errorf("%+v: %+v", k, d)
		}
	}
}

// Of what is as wide, as near, the first is named.
func TestTheFirstOfEquals(t *testing.T) {
	r := roomOf(zone(0, 0, 1000, 1000), zone(1200, 0, 2100, 1000))
	for x, want := range map[float64]int{1100: 0, 2400: -1, -300: -1} {
		if got := zoneAt(r, &job.Zone{At: plane.Pt(x, 500)}); got != want {
			t.Errorf("at %g: zone %d, want %d", x, got, want)
		}
	}
	r.Cables = []layout.Cable{{ID: "H1", Gaps: layout.Gaps{Widest: 100}}, {ID: "H2", Gaps: layout.Gaps{Widest: 100}}}
	if got := widestGap(r); got.ID != "H1" {
		t.Errorf("the widest gap is that of %s", got.ID)
	}
	r.Job.KeepOuts = []job.KeepOut{{Name: "duct", Outline: box(0, 0, 300, 300)},
		{Tiled: true, Outline: box(0, 0, 9, 9)}}
	sides := standSides(r.Job)
	if len(sides) != 4 || sides[0].Seen != 1 || sides[0].Name.String() != "duct" {
		t.Errorf("%+v", sides)
	}
}

// Tile is set out where there is a cable, one or more; a board is compared where the job gives
// its thickness: with it below the cable the same floor is warm sooner.
func TestTileAndBoardOfAJob(t *testing.T) {
	text := strings.Replace(landing(12), "NAMED", `cables = ["A"]`, 1) + "[tile]\nsize = [300, 300]\njoint = 3\n" +
		"[[layer]]\nkind = \"tile\"\nthickness = 10\n[[layer]]\nkind = \"membrane\"\nthickness = 6\n" +
		"[[layer]]\nkind = \"concrete\"\nthickness = 150\n"
	for board, want := range map[string]bool{"[warmth]\nboard = 0\n": false, "[warmth]\nboard = 10\n": true} {
		j, report := job.Read("job.toml", []byte(text+board), nil)
		if report.Errors() > 0 {
			t.Fatal(report.Diagnostics())
		}
		p, _ := Plan(j)
		if len(p.Rooms[0].Tiles) == 0 {
			t.Error("no tile is set out")
		}
		p.Rooms[0].Tiles, p.Rooms[0].Cables = nil, nil
		if layTile(&p.Rooms[0], j); len(p.Rooms[0].Tiles) > 0 {
			t.Error("tile is set out where no cable lies")
		}
		boards := 0
		for i, o := range p.Warmth.Offers {
			if !o.Board {
				continue
			}
			if boards++; p.Warmth.Offers[i-1].Settles > o.Settles || p.Warmth.Board != 10 ||
				slower(o, p.Warmth.Offers[i-1]) {
				t.Errorf("with a board %+v, without %+v", o, p.Warmth.Offers[i-1])
			}
		}
		if (boards > 0) != want || len(p.Warmth.Offers) == 0 {
			t.Errorf("%q: %d offers, %d with a board", board, len(p.Warmth.Offers), boards)
		}
	}
}

// A zone of a twentieth of the floor wants no cable of its own, a larger one does; one of a quarter
// only where the job has a pair for both floors.
func TestZonesThatAreJustServed(t *testing.T) {
	for _, k := range []struct {
		large, small float64 // mm wide, both 1 m deep
		pair         bool
		want         int
	}{{2850, 150, true, 1}, {2840, 160, true, 2}, {2250, 750, true, 2}, {2250, 750, false, 1}, {2240, 760, false, 2}} {
		a, b := zone(0, 0, k.large, 1000), zone(4000, 0, 4000+k.small, 1000)
		j, r := pegged(), roomOf(b, a)
		_, most := lengths(j, b)
		least, _ := lengths(j, a)
		j.Cables = []job.Cable{{Volts: 120, Length: most}, {Volts: 240, Length: least}}
		if k.pair {
			j.Cables[1].Volts = 120
		}
		if got := served(r, j); len(got) != k.want || got[0].Area() != a.Area() {
			t.Errorf("%+v: %d zones are served", k, len(got))
		}
	}
}

// Of 300 W, 60 % go up in the cold case and 90 % in the hot one; of a cable without layers all may.
func TestWhatCablesGiveTheirRoom(t *testing.T) {
	warm := layout.Warm{Cables: []string{"H1"}}
	warm.Cold.Steady.UpShare, warm.Hot.Steady.UpShare = 0.6, 0.9
	p := &layout.Plan{Warmth: &layout.Warmth{Runs: []layout.Warm{warm}}}
	r := &layout.Room{Cables: []layout.Cable{{ID: "H1", Label: job.Cable{Watts: 300}},
		{ID: "H2", Label: job.Cable{Watts: 200}}}}
	got, known := gives(p, r)
	if !known {
		t.Error("not known")
	}
	near(t, "at the least", got.Low, 180)
	near(t, "at the most", got.High, 270+200)
}
