package layout_test

import (
	"bytes"
	"encoding/json"
	"fmt"
	"math"
	"math/rand/v2"
	"strings"
	"testing"

	"oxturn/layout"
	"oxturn/layout/job"
	"oxturn/layout/plane"
	"oxturn/layout/route"
)

// laidSoFar plans a room of a size with one cable and records that some runs of
// it are laid, and where a mark was found.
func laidSoFar(t testing.TB, w, h, cable float64, runs int, mark string) (*layout.Plan, *layout.Cable) {
	t.Helper()
	text := fmt.Sprintf(`units = "mm"
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
	if runs > 0 {
		text += fmt.Sprintf("[[as_laid]]\nroom = \"R\"\nevidence = \"measured by hand\"\nruns = %d\n%s", runs, mark)
	}
	p, found := layout.Build(read(t, "refit.toml", []byte(text)))
	if s := errorsOf(found); s != "" {
		t.Skipf("%g x %g with %g m: %s", w, h, cable, s)
	}
	return p, &p.Rooms[0].Cables[0]
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
	f, err := p.Refit(&p.Rooms[0], c)
	if err != nil {
		t.Fatal(err)
	}
	rate := 20000 / way
	// half of a bend's saving, 7 mm, falls before the end of the run
	if math.Abs(f.Rate-rate) > 0.001 || math.Abs(f.Early-(20000-way)) > 15 || math.Abs(f.Miss-40000*(rate-1)) > 30 {
		t.Errorf("rate %.4f, early %.0f, miss %.0f; by hand %.4f, %.0f, %.0f", f.Rate, f.Early, f.Miss, rate, 20000-way, 40000*(rate-1))
	}
	if twice := 2 * f.Early; math.Abs(f.Miss-twice) > 0.1*math.Abs(twice)+15 {
		t.Errorf("miss %.0f is not about twice the error %.0f", f.Miss, f.Early)
	}
}

// TestRefitKeepsTheRules lays random rooms, lets the cable drift at random and
// plans the rest: what is laid is not moved, no rule is broken, and the cable
// is used to its end.
func TestRefitKeepsTheRules(t *testing.T) {
	random := rand.New(rand.NewPCG(7, 26))
	fits, tried := 0, 0
	for range 7 {
		w, h := math.Round(1500+random.Float64()*1500), math.Round(1400+random.Float64()*1400)
		cable := math.Round((w-150)*(h-150)/95/100) / 10
		_, c := laidSoFar(t, w, h, cable, 0, "")
		n := 1 + random.IntN(max(1, len(c.Runs)*2/3))
		drift := 0.97 + 0.06*random.Float64()
		mark := fmt.Sprintf("[[as_laid.mark]]\nlength = \"%.1f mm\"\nrun = %d\npegs = 9999\n", drift*c.Runs[n-1].RunningEnd, n)
		mark = strings.Replace(mark, "9999", fmt.Sprint(c.Runs[n-1].Pegs), 1)
		p, c := laidSoFar(t, w, h, cable, n, mark)
		f, err := p.Refit(&p.Rooms[0], c)
		if err != nil {
			t.Errorf("%g x %g, %g m, %d runs, %.3f: %v", w, h, cable, n, drift, err)
			continue
		}
		tried++
		if f.New == nil {
			if f.Reason == "" || len(f.Choices) == 0 && !strings.Contains(strings.Join(f.Lines(plane.Millimetres), "\n"), "choice") {
				t.Errorf("%g x %g: no fit without a reason or a choice", w, h)
			}
			t.Logf("%g x %g, %g m, %d runs, %.3f: %s", w, h, cable, n, drift, strings.Join(f.Lines(plane.Millimetres), " | "))
			continue
		}
		fits++
		checkRefit(t, p, f)
	}
	t.Logf("%d of %d were planned anew", fits, tried)
	if fits < tried/2 || tried < 4 {
		t.Errorf("only %d of %d found a route", fits, tried)
	}
}

func checkRefit(t *testing.T, p *layout.Plan, f *layout.Refit) {
	t.Helper()
	name := fmt.Sprintf("%s %v", f.Planned.ID, p.Rooms[0].Job.Outline)
	for i, q := range f.Laid[:len(f.Laid)-1] {
		if f.New.Path[i].Dist(q) > 1e-6 {
			t.Errorf("%s: laid corner %d was moved from %v to %v", name, i, q, f.New.Path[i])
		}
	}
	// the last laid corner may turn into a straight line, but stays on it
	if last := f.Laid[len(f.Laid)-1]; (plane.Segment{A: f.New.Path[len(f.Laid)-2], B: f.New.Path[len(f.Laid)-1]}).Distance(last) > 1e-6 {
		t.Errorf("%s: the end of the laid part was moved", name)
	}
	way := route.Length(f.New.Path, f.New.BendRadius)
	if used := f.Used + f.Rate*(way-f.Way); math.Abs(used-f.Planned.Label.Length) > 1 {
		t.Errorf("%s: %.1f mm of cable used, there are %.1f", name, used, f.Planned.Label.Length)
	}
	zone := p.Rooms[0].Zones[f.Planned.Zone]
	samples := route.Samples(f.New.Path, f.New.BendRadius, 12)
	least := float64(p.Job.Spacing.Closest) * p.Job.Membrane.Pitch
	for i, s := range samples {
		if zone.Depth(s.At) < -1 {
			t.Fatalf("%s: %v lies %.1f mm outside the heated floor", name, s.At, -zone.Depth(s.At))
		}
		for _, o := range samples[i+1:] {
			if o.Along-s.Along > 2*least && o.At.Dist(s.At) < least-1 {
				t.Fatalf("%s: %v and %v are %.1f mm apart, %.0f at least", name, s.At, o.At, o.At.Dist(s.At), least)
			}
		}
	}
}

func TestRefitWithTheRealPegs(t *testing.T) {
	p, c := laidSoFar(t, 2400, 2100, 40, 0, "")
	at := c.Lattice.ToWorld(3, 4).Add(plane.Pt(12, -9))
	p.Job.Laid = []job.Laid{{FirstPeg: &at, Evidence: job.ByHand, FingerRoom: -1}}
	c.Laid = &layout.Laid{Job: &p.Job.Laid[0], Planned: c.Path}
	f, err := p.Refit(&p.Rooms[0], c)
	if err != nil {
		t.Fatal(err)
	}
	if f.New == nil {
		t.Skip("no route on the real pegs: " + f.Reason)
	}
	for _, r := range f.New.Runs[:len(f.New.Runs)-1] {
		u, v := route.Lattice{Origin: at, Angle: c.Lattice.Angle, Pitch: 30}.ToPegs(r.From)
		if math.Abs(u-math.Round(u)) > 0.02 && math.Abs(v-math.Round(v)) > 0.02 {
			t.Errorf("run %d begins off the real pegs, at %.2f, %.2f", r.Number, u, v)
		}
	}
}

func TestRefitSaysWhatIsMissing(t *testing.T) {
	for _, c := range []struct {
		runs       int
		mark, want string
	}{
		{0, "", "nothing is recorded of cable H1"},
		{3, "[[as_laid.mark]]\nrun = 9\n", "a mark is said to lie on run 9, but 3 runs"},
		{3, "[[as_laid.mark]]\nrun = 2\npegs = 500\n", "500 pegs into run 2"},
		{3, "[[as_laid.mark]]\nlength = \"30 m\"\nrun = 1\npegs = 10\n", "faster than drawn"},
	} {
		p, cable := laidSoFar(t, 2400, 2100, 40, c.runs, c.mark)
		if _, err := p.Refit(&p.Rooms[0], cable); err == nil || !strings.Contains(err.Error(), c.want) {
			t.Errorf("%d runs, %q: %v, want %q", c.runs, c.mark, err, c.want)
		}
	}
}

func TestRefitJSON(t *testing.T) {
	p, c := laidSoFar(t, 2400, 2100, 40, 5, "")
	f, err := p.Refit(&p.Rooms[0], c)
	if err != nil {
		t.Fatal(err)
	}
	var b bytes.Buffer
	if err := f.WriteJSON(&b); err != nil || !json.Valid(b.Bytes()) {
		t.Error(err)
	}
}
