package refit_test

import (
	"bytes"
	"encoding/json"
	"fmt"
	"math"
	"strings"
	"testing"

	"oxturn/layout"
	"oxturn/layout/build"
	"oxturn/layout/internal/trial"
	"oxturn/layout/job"
	"oxturn/layout/plane"
	"oxturn/layout/refit"
	"oxturn/layout/route"
)

// laidSoFar plans a room of a size with one cable and records that some runs of
// it are laid, and where a mark was found.
func laidSoFar(t testing.TB, w, h, cable float64, runs int, mark string) (*layout.Plan, *layout.Cable) {
	t.Helper()
	return recorded(t, plainRoom(w, h, cable), runs, mark)
}

// recorded builds a job of one room R with a record of its first cable; 0 runs:
// without.
func recorded(t testing.TB, text string, runs int, mark string) (*layout.Plan, *layout.Cable) {
	t.Helper()
	text = withRecord(text, runs, mark)
	p, found := build.Plan(trial.Read(t, "refit.toml", []byte(text)))
	if s := trial.Errors(found); s != "" {
		t.Fatalf("%s\n%s", s, text)
	}
	return p, &p.Rooms[0].Cables[0]
}

func withRecord(text string, runs int, mark string) string {
	if runs == 0 {
		return text
	}
	return text + fmt.Sprintf("[[as_laid]]\nroom = \"R\"\ncable = \"H1\"\nevidence = \"measured by hand\"\nruns = "+
		"%d\n%s", runs, mark)
}

func plainRoom(w, h, cable float64) string {
	return fmt.Sprintf(`units = "mm"
[membrane]
pitch = 30
[spacing]
closest = 2
widest = 5
[[cable]]
id = "C"
volts = 240
watts = %g
length = "%g m"
lead = "5 m"
[[room]]
name = "R"
corners = [[0,0],[%g,0],[%g,%g],[0,%g]]
cables = ["C"]
[[room.low]]
outline = [[%g,%g],[%g,%g],[%g,%g],[%g,%g]]
[room.thermostat]
at = [%g, 0]
`, 10*cable, cable, w, w, h, h, w-500, h-300, w, h-300, w, h, w-500, h, w/2)
}

// TestHalfMarkByHand: the half-way mark of 40 m of cable, at 20 m, is found
// where some less of way is covered. The end then misses by the whole cable's
// length times the same share, which is the rule of thumb: twice the error.
func TestHalfMarkByHand(t *testing.T) {
	_, c := laidSoFar(t, 2400, 2100, 40, 0, "")
	n := 1
	for c.Runs[n-1].RunningEnd < 19300 {
		n++
	}
	run := c.Runs[n-1]
	way := run.RunningEnd - 5*30 // 5 pegs before the run's end
	p, c := laidSoFar(t, 2400, 2100, 40, n+1, fmt.Sprintf("[[as_laid.mark]]\nrun = %d\npegs = %d\n", n, run.Pegs-5))
	f, err := refit.New(p, &p.Rooms[0], c, refit.Way{})
	if err != nil {
		t.Fatal(err)
	}
	rate := 20000 / way
	// half of a bend's saving, 7 mm, falls before the end of the run
	if math.Abs(f.Rate-rate) > 0.001 || math.Abs(f.Early-(20000-way)) > 15 || math.Abs(f.Miss-40000*(rate-1)) > 30 {
		t.Errorf("rate %.4f, early %.0f, miss %.0f; by hand %.4f, %.0f, %.0f", f.Rate, f.Early, f.Miss, rate, 20000-way,
			40000*(rate-1))
	}
	if twice := 2 * f.Early; math.Abs(f.Miss-twice) > 0.1*math.Abs(twice)+15 {
		t.Errorf("miss %.0f is not about twice the error %.0f", f.Miss, f.Early)
	}
}

func TestRefitWithTheRealPegs(t *testing.T) {
	p, c := laidSoFar(t, 2400, 2100, 40, 0, "")
	at := c.Lattice.ToWorld(3, 4).Add(plane.Pt(12, -9))
	p.Job.Laid = []job.Laid{{FirstPeg: &at, Evidence: job.ByHand, FingerRoom: -1}}
	c.Laid = &layout.Laid{Job: &p.Job.Laid[0], Planned: c.Path}
	f, err := refit.New(p, &p.Rooms[0], c, refit.Way{})
	if err != nil {
		t.Fatal(err)
	}
	if f.New == nil {
		t.Fatal("no route on the real pegs: " + f.Reason)
	}
	checkRefit(t, p, f)
	for _, r := range f.New.Runs[:len(f.New.Runs)-1] {
		u, v := route.Lattice{Origin: at, Angle: c.Lattice.Angle, Pitch: 30}.ToPegs(r.From)
		if math.Abs(u-math.Round(u)) > 0.02 && math.Abs(v-math.Round(v)) > 0.02 {
			t.Errorf("run %d begins off the real pegs, at %.2f, %.2f", r.Number, u, v)
		}
	}
}

func TestRefitSaysWhatIsMissing(t *testing.T) {
	p, cable := laidSoFar(t, 2400, 2100, 40, 0, "")
	if _, err := refit.New(p, &p.Rooms[0], cable, refit.Way{}); err == nil || !strings.Contains(err.Error(),
		"nothing is recorded of cable H1") {
		t.Errorf("without a record: %v", err)
	}
}

func TestMarksThatCannotBeAreRefused(t *testing.T) {
	for mark, want := range map[string]string{
		"run = 9\n":             "a mark is said to lie on run 9, but 3 runs of cable H1 are laid",
		"run = 2\npegs = 500\n": "500 pegs into run 2",
		"length = \"30 m\"\nrun = 1\npegs = 10\n": "faster than drawn",
	} {
		text := withRecord(plainRoom(2400, 2100, 40), 3, "[[as_laid.mark]]\n"+mark)
		_, found := build.Plan(trial.Read(t, "refit.toml", []byte(text)))
		if s := trial.Errors(found); !strings.Contains(s, want) {
			t.Errorf("said: %s; want %q", s, want)
		}
	}
}

// TestScoreIsOfAllTheFloor: a plan kept to its end by a refit is scored as it was
// when it was made, though most of it was laid before.
func TestScoreIsOfAllTheFloor(t *testing.T) {
	p, c := laidSoFar(t, 2400, 2100, 40, 12, "")
	f, err := refit.New(p, &p.Rooms[0], c, refit.Way{})
	if err != nil || f.New == nil || f.Change.From != 0 {
		t.Fatalf("%v, %+v", err, f)
	}
	was, is := c.Score, f.New.Score
	if is.Turns != was.Turns || math.Abs(is.Covered-was.Covered) > 1e-3 || math.Abs(is.Bare-was.Bare) > 0.01 ||
		math.Abs(is.Straight-was.Straight) > 1e-6 || math.Abs(is.Evenness-was.Evenness) > 0.002 {
		t.Errorf("scored %+v, when planned %+v", is, was)
	}
}

func TestRefitJSON(t *testing.T) {
	p, c := laidSoFar(t, 2400, 2100, 40, 5, "")
	f, err := refit.New(p, &p.Rooms[0], c, refit.Way{})
	if err != nil {
		t.Fatal(err)
	}
	var b bytes.Buffer
	if err := f.WriteJSON(&b); err != nil || !json.Valid(b.Bytes()) {
		t.Error(err)
	}
}
