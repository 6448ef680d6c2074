package refit

import (
	"errors"
	"fmt"
	"math"
	"strings"
	"testing"

	"oxturn/layout"
	"oxturn/layout/internal/hand"
	"oxturn/layout/job"
	"oxturn/layout/plane"
)

// How many runs of a plan are tried to be kept, and in what order: the steps first, most first; after two in
// vain the laid part alone, which is looked at more widely (*); then between what failed and what
// was found; last, where nothing was, those between the steps, and the least of the steps once more, widely.
// A try that changes as much as the best is not made.
func TestWhatIsTriedToBeKept(t *testing.T) {
	all := []int{59, 58, 57, 55, 52, 47, 39, 26, 5, 0}
	for _, k := range []struct {
		name          string
		planned, laid int
		keeps         []int
		works         func(n int, briefly bool) bool
		bent          float64 // score of the plan with its turns pushed; 0: none
		forLength     bool
		want          string
		kept          int // -1: nothing
	}{
		{"the most", 12, 2, []int{11, 10, 9, 7, 4, 2}, func(int, bool) bool { return true }, 0, false, "11", 11},
		{"eight", 12, 2, []int{11, 10, 9, 7, 4, 2}, func(n int, _ bool) bool { return n <= 8 }, 0, false,
			"11 10 2* 9 7 8", 8},
		{"nine", 12, 2, []int{11, 10, 9, 7, 4, 2}, func(n int, _ bool) bool { return n <= 9 }, 0, false, "11 10 2* 9",
			9},
		{"seven", 12, 2, []int{11, 10, 9, 7, 4, 2}, func(n int, _ bool) bool { return n <= 7 }, 0, false,
			"11 10 2* 9 7 8", 7},
		{"six", 12, 2, []int{11, 10, 9, 7, 4, 2}, func(n int, _ bool) bool { return n <= 6 }, 0, false,
			"11 10 2* 9 7 4 5 6", 6},
		{"five", 12, 2, []int{11, 10, 9, 7, 4, 2}, func(n int, _ bool) bool { return n <= 5 }, 0, false,
			"11 10 2* 9 7 4 5 6", 5},
		{"one of them", 12, 2, []int{11, 10, 9, 7, 4, 2}, func(n int, _ bool) bool { return n == 5 }, 0, false,
			"11 10 2* 9 7 4 8 6 5", 5},
		{"one, looked at widely", 12, 2, []int{11, 10, 9, 7, 4, 2}, func(n int, briefly bool) bool {
			return n == 7 &&
				!briefly
		}, 0,
			false, "11 10 2* 9 7 4 8 6 5 3 9* 7*", 7},
		{"the laid part alone", 12, 2, []int{11, 10, 9, 7, 4, 2}, func(n int, _ bool) bool { return n == 2 }, 0, false,
			"11 10 2* 9 7 4 3", 2},
		{"nothing", 12, 2, []int{11, 10, 9, 7, 4, 2}, func(int, bool) bool { return false }, 0, false,
			"11 10 2* 9 7 4 8 6 5 3 9* 7* 4* 2*", -1},
		{"nothing, for the length", 12, 2, []int{11, 10, 9, 7, 4, 2}, func(int, bool) bool { return false }, 0, true,
			"11 10 2*", -1},
		{"a bent plan", 12, 2, []int{11, 10, 9, 7, 4, 2}, func(int, bool) bool { return false }, 3, false, "11 10", 0},
		{"what is no better than a bent plan", 12, 2, []int{11, 10, 9, 7, 4, 2}, func(int, bool) bool { return true },
			1.5, false,
			"11", 11},
		{"no plan, for the length", 12, 2, []int{2}, func(int, bool) bool { return false }, 0, true, "2*", -1},
		{"no plan", 12, 2, []int{2}, func(int, bool) bool { return false }, 0, false, "2* 2*", -1},
		{"one step", 12, 2, []int{4, 2}, func(n int, briefly bool) bool { return n == 4 && !briefly }, 0, false,
			"4 2* 3 4*", 4},
		{"a long plan: six between the steps", 60, 0, all, func(int, bool) bool { return false }, 0, false,
			"59 58 0* 57 55 52 47 39 26 5 56 54 53 51 50 49 39* 26* 5* 0*", -1},
	} {
		var tried []string
		refused, reason := errors.New("too long"), errors.New("no way")
		tr := &tries{planned: k.planned, laid: k.laid, keeps: k.keeps,
			forLength: func(err error) bool { return k.forLength && errors.Is(err, refused) },
			lay: func(n int, briefly bool) (*rest, error) {
				tried = append(tried, fmt.Sprint(n, map[bool]string{false: "*"}[briefly]))
				if !k.works(n, briefly) {
					return nil, map[bool]error{true: refused, false: reason}[n == k.laid]
				}
				return &rest{change: Changed{From: n, Score: float64(k.planned - n)}}, nil
			}}
		if k.bent > 0 {
			tr.best = &rest{change: Changed{Score: k.bent}}
		}
		best, err := tr.search()
		if got := strings.Join(tried, " "); got != k.want {
			t.Errorf("%s: %s tried, want %s", k.name, got, k.want)
		}
		if (best == nil) != (k.kept < 0) || best != nil && best.change.From != k.kept {
			t.Errorf("%s: %+v, want %d kept", k.name, best, k.kept)
		}
		if k.kept < 0 && !errors.Is(err, refused) {
			t.Errorf("%s: %v", k.name, err)
		}
	}
	// as much of a change as the best is no better
	bent := &rest{change: Changed{Score: 2}}
	tr := &tries{planned: 12, keeps: []int{11}, best: bent, forLength: func(error) bool { return false },
		lay: func(int, bool) (*rest, error) { return &rest{change: Changed{Score: 2}}, nil }}
	if best, err := tr.search(); best != bent || err != nil {
		t.Errorf("%+v, %v", best, err)
	}
}

// How few of 20 laid runs are tried to be lifted: all of them, then 1, 2, 4, 8 and 16, then half-way twice between
// what was refused and what was found.
func TestHowManyAreTriedToBeLifted(t *testing.T) {
	for need, want := range map[int]string{1: "20 1, 1", 2: "20 1 2, 2", 3: "20 1 2 4 3, 3", 5: "20 1 2 4 8 6 5, 5",
		7: "20 1 2 4 8 6 7, 7", 11: "20 1 2 4 8 16 12 10, 12", 17: "20 1 2 4 8 16 18 17, 17",
		20: "20 1 2 4 8 16 18 19, 20",
		21: "20, none"} {
		var tried []string
		c, err := fewest(20, func(n int) (Choice, error) {
			tried = append(tried, fmt.Sprint(n))
			if n < need {
				return Choice{}, errors.New("no way")
			}
			return Choice{Way: Way{Lift: n}}, nil
		})
		found := fmt.Sprint(c.Lift)
		if err != nil {
			found = "none"
		}
		if got := strings.Join(tried, " ") + ", " + found; got != want {
			t.Errorf("where %d are needed: %s, want %s", need, got, want)
		}
	}
	open := func(n int) (Choice, error) { return Choice{Way: Way{Lift: n}}, nil }
	var tried []int // all of 16 are not tried twice
	_, _ = fewest(16, func(n int) (Choice, error) {
		tried = append(tried, n)
		return Choice{Way: Way{Lift: n}}, map[bool]error{true: errors.New("no way")}[n < 16]
	})
	if got := fmt.Sprint(tried); got != "[16 1 2 4 8 12 14]" {
		t.Errorf("%s tried", got)
	}
	if c, err := fewest(1, open); err != nil || c.Lift != 1 {
		t.Errorf("%+v, %v", c, err)
	}
}

// Of the places that are left one goes for a sensor that stays: its own, or the nearest where there are
// more than are asked for.
func TestPlacesBesideASensor(t *testing.T) {
	free := []layout.Sensor{{Tip: plane.Pt(0, 0)}, {Tip: plane.Pt(500, 0)}}
	for _, k := range []struct {
		x     float64
		least int
		want  string
	}{{10, 1, "[500]"}, {10, 2, "[0 500]"}, {10, 3, "[0 500]"}, {0, 2, "[500]"}, {500, 2, "[0]"}, {400, 1, "[0]"}} {
		var got []float64
		for _, s := range besideSensor(free, layout.Sensor{Tip: plane.Pt(k.x, 0)}, k.least) {
			got = append(got, s.Tip.X)
		}
		if fmt.Sprint(got) != k.want {
			t.Errorf("beside %g, %d asked: %v, want %s", k.x, k.least, got, k.want)
		}
	}
	if got := besideSensor(nil, layout.Sensor{}, 0); got != nil {
		t.Errorf("%v", got)
	}
}

// A leg that passes between is seen by its middle, not by its ends alone, however short it is.
func TestLegsAreSeenByTheirMiddle(t *testing.T) {
	f := threeRuns()
	laid := hand.Points(450, -300, 450, 300, 900, 300)
	if f.apart(laid, hand.Points(900, 0, 0, 0)) {
		t.Error("a leg across the laid part keeps off it")
	}
	f.floor = plane.FromRing(plane.Rectangle(plane.Pt(-500, -500), plane.Pt(1500, 1500)))
	if path := hand.Points(0, 0, 900, 0, 900, 300, 450, 300, 450, -300); f.free(path, 4) {
		t.Error("a leg across the first is free")
	}
	zone := plane.FromRing(plane.Rectangle(plane.Pt(0, 0), plane.Pt(900, 900)))
	for x, want := range map[float64]bool{450: true, 1000: false} {
		for _, long := range []float64{0, 3} {
			if got := inside(hand.Segment(x, 450, x+long, 450), zone); got != want {
				t.Errorf("%g mm at %g: inside %v", long, x, got)
			}
		}
	}
}

// A mark at the very end of a turn, no pegs into the run after it, lengthens the laid part to there.
func TestAMarkNoPegsIntoARun(t *testing.T) {
	f := threeRuns(0, 0, 900, 0, 900, 60, 0, 60)
	if !f.layOn(job.LaidMark{Run: 3}, f.plan) || !samePath(f.Laid, f.plan[:5]) || f.Runs != 3 {
		t.Errorf("%v, %d runs", f.Laid, f.Runs)
	}
}

// Half a millimetre more than drawn is laid at the end, and nothing is planned anew for it.
func TestHalfAMillimetreOver(t *testing.T) {
	f := threeRuns(0, 0, 900, 0)
	f.Planned.Label.Length = 3*900 + 2*60 - 4*saved + 0.5
	if got := f.ended(); len(got) != 6 || got[5].Dist(plane.Pt(900.5, 120)) > 1e-6 {
		t.Errorf("%v", got)
	}
}

// A path is judged over the floor it has; without one its score stays.
func TestOnlyWhatHasFloorIsJudged(t *testing.T) {
	f := threeRuns()
	c := *f.Planned
	c.Share, c.Score.Total = nil, 7
	if Judge(&c, f.Job); c.Score.Total != 7 {
		t.Errorf("%+v", c.Score)
	}
	c.Share, c.Routed = f.Planned.Share, 2800
	if Judge(&c, f.Job); c.Score.Total == 7 || math.IsNaN(c.Score.Total) {
		t.Errorf("%+v", c.Score)
	}
}

// What is said first has no word before it, what follows has; a refit that found nothing says why.
func TestLinesOfARefit(t *testing.T) {
	f := threeRuns(0, 0, 900, 0)
	f.Reason = "there is no way"
	lines := f.Lines(plane.Millimetres)
	if !strings.HasPrefix(lines[0], "Bath, cable H1: 1 of 3 runs are laid") || !strings.HasPrefix(lines[1],
		"plan     laid by plan NOW") || !strings.Contains(strings.Join(lines, "\n"), f.Reason) {
		t.Errorf("%s", strings.Join(lines, "\n"))
	}
	f.into, f.Runs = 1, 2
	if got := f.laidWords(); got != "1 of 3 runs and 1 peg of run 2" {
		t.Error(got)
	}
	if got := f.floorFacts(); got != nil {
		t.Errorf("one cable: %+v", got)
	}
	f.add(layout.Cable{ID: "H2"})
	if got := f.floorFacts(); len(got) != 1 || !strings.Contains(got[0].words, "H2 stays as planned") {
		t.Errorf("%+v", got)
	}
	at := plane.Pt(5, 5)
	f.Planned.Laid.Job.FirstPeg = &at
	if got := f.floorFacts(); len(got) != 2 || !strings.Contains(got[1].words, "H2 lies on the same pegs") {
		t.Errorf("%+v", got)
	}
	f.plan = nil
	if d := f.pegsOff(); d != (plane.Point{}) {
		t.Errorf("pegs %v off no plan", d)
	}
}

// What is written for programs: the first of its forms, lengths to a tenth of a millimetre.
func TestWhatIsWrittenOfARefit(t *testing.T) {
	f := threeRuns(0, 0, 900, 0)
	f.Early, f.Miss, f.Farther = 1.26, -2.34, 3.47
	var b strings.Builder
	if err := f.WriteJSON(&b); err != nil {
		t.Fatal(err)
	}
	for _, want := range []string{`"schema": 1,`, "1.3", "-2.3", "3.5"} {
		if !strings.Contains(b.String(), want) {
			t.Errorf("no %s in %s", want, b.String())
		}
	}
}

// Of a floor of 1 m² five hundredths that go cold are 5 %; a run is marked with a star from where the
// plan is another, and what lies over after it is said.
func TestChangesInFigures(t *testing.T) {
	f := threeRuns(0, 0, 900, 0)
	f.New = &layout.Cable{Path: f.plan, Runs: f.Old, BendRadius: 15}
	f.Change = Changed{From: 3, Runs: 1, Cold: 5e4}
	var said []string
	for _, s := range f.changeFacts(plane.Millimetres) {
		said = append(said, s.words)
	}
	if all := strings.Join(said, "; "); !strings.Contains(all, "5.0 % of its floor") {
		t.Error(all)
	}
	for from, want := range map[int]string{0: "   ", 1: "***", 3: "  *"} {
		f.Change.From = from
		got := ""
		for _, r := range f.Old {
			got += f.runLine(r, plane.Millimetres)[8:9]
		}
		if got != want {
			t.Errorf("from run %d: %q, want %q", from, got, want)
		}
	}
	r := f.Old[0]
	for over, want := range map[int]bool{0: false, 1: true, 2: true} {
		r.GapToNext = over
		if got := f.runLine(r, plane.Millimetres); strings.Contains(got, fmt.Sprintf(", then %d over", over)) != want {
			t.Errorf("%d pegs over: %s", over, got)
		}
	}
}

// All runs are listed where the first is another already, though some are laid; a low-value area is given up
// by its number.
func TestRunsAndChoicesListed(t *testing.T) {
	f := threeRuns(0, 0, 900, 0)
	f.New = &layout.Cable{Path: f.plan, Runs: f.Old, BendRadius: 15}
	for from, want := range map[int]int{1: 3, 2: 2, 3: 2} {
		f.Change = Changed{From: from, Runs: 1}
		n := 0
		for _, line := range f.newLines(plane.Millimetres) {
			if strings.Contains(line, " pegs towards ") {
				n++
			}
		}
		if n != want {
			t.Errorf("from run %d: %d runs listed, want %d", from, n, want)
		}
	}
	for area := 1; area <= 2; area++ {
		f.Choices = []Choice{{Way: Way{GiveUp: area}, Floor: 1e6}}
		if got := strings.Join(f.stuckLines(plane.Millimetres), "\n"); !strings.Contains(got,
			fmt.Sprintf("--give-up %d", area)) {
			t.Error(got)
		}
	}
}
