package refit_test

import (
	"bytes"
	"flag"
	"fmt"
	"math"
	"slices"
	"strings"
	"testing"
	"time"

	"oxturn/layout"
	"oxturn/layout/aslaid"
	"oxturn/layout/internal/trial"
	"oxturn/layout/plane"
	"oxturn/layout/refit"
)

// A drifted is a random room of which some is laid, and whose mark came off its place.
type drifted struct {
	room int
	laid int     // runs
	off  float64 // mean runs by which the mark came sooner than drawn
	text string  // of the job, the record in it
}

func (d drifted) String() string {
	return fmt.Sprintf("room %d, %d runs laid, mark off by %+.1f runs", d.room, d.laid, d.off)
}

// mostRead is the most a mark is put off its place, as a share: beyond 15 % it is taken for
// misread.
const mostRead = 0.14

// driftedRooms lays rooms to their half-way mark and to three quarters, and has each mark
// come 0.3, 1 and 3 runs too soon and too late.
func driftedRooms(t testing.TB, rooms []int) []drifted {
	t.Helper()
	var out []drifted
	for _, n := range rooms {
		text := roughRoom(n).text
		_, c := recorded(t, text, 0, "")
		for _, m := range c.Marks[1:] {
			run := c.Runs[m.Run-1]
			for _, off := range []float64{-3, -1, -0.3, 0.3, 1, 3} {
				early := off * c.Label.Length / float64(len(c.Runs))
				early = math.Copysign(min(math.Abs(early), mostRead*run.RunningEnd), early)
				mark := fmt.Sprintf("[[as_laid.mark]]\nlength = \"%.2f mm\"\nrun = %d\npegs = %d\n",
					min(c.Label.Length, run.RunningEnd+early), m.Run, run.Pegs)
				out = append(out, drifted{n, m.Run, off, withRecord(text, m.Run, mark)})
			}
		}
	}
	return out
}

// someRooms are the random rooms of a short test, or the first so many as -refit.rooms asks.
func someRooms(few ...int) []int {
	if f := flag.Lookup("refit.rooms"); f.Value.String() == f.DefValue {
		return few
	}
	var all []int
	for n := range *refitRooms {
		all = append(all, n)
	}
	return all
}

// However far off a mark is found, there is a plan of the rest that keeps every rule, or a
// reason why not; and every way out that is offered leads to such a plan when taken.
func TestEveryWayOutLeadsToAPlan(t *testing.T) {
	fits, outs := 0, 0
	for _, d := range driftedRooms(t, someRooms(4, 8)) {
		p, c := recorded(t, d.text, 0, "")
		f, err := refit.New(p, &p.Rooms[0], c, refit.Way{})
		switch {
		case err != nil:
			t.Errorf("%v: %v", d, err)
		case f.New != nil:
			fits++
			checkRefit(t, p, f)
		default:
			outs += len(f.Choices)
			checkChoices(t, p, f)
		}
		if t.Failed() {
			t.Fatalf("%v\n%s", d, strings.Join(f.Lines(plane.Millimetres), "\n"))
		}
	}
	if fits < 12 || outs == 0 {
		t.Errorf("%d fit, %d ways out were tried", fits, outs)
	}
}

// BenchmarkRefit plans the rest of random rooms, all of them in one go, their mark off by
// so many mean runs, and tells the mean and the slowest.
func BenchmarkRefit(b *testing.B) {
	all := driftedRooms(b, someRooms(0, 1, 2, 3, 4, 5, 6, 7, 8, 9, 10, 11))
	for _, off := range []float64{0.3, 1, 3} {
		b.Run(fmt.Sprintf("off by %g runs", off), func(b *testing.B) {
			var plans []*layout.Plan
			for _, d := range all {
				if math.Abs(d.off) == off {
					p, _ := recorded(b, d.text, 0, "")
					plans = append(plans, p)
				}
			}
			worst, all, n := time.Duration(0), time.Duration(0), 0
			for b.Loop() {
				for _, p := range plans {
					from := time.Now()
					if _, err := refit.New(p, &p.Rooms[0], &p.Rooms[0].Cables[0], refit.Way{}); err != nil {
						b.Fatal(err)
					}
					took := time.Since(from)
					worst, all, n = max(worst, took), all+took, n+1
				}
			}
			b.ReportMetric(float64(all.Milliseconds())/float64(n), "mean-ms")
			b.ReportMetric(float64(worst.Milliseconds()), "worst-ms")
		})
	}
}

// A plan read back from its layout file is the plan: whatever a refit says and lays by
// the one it does by the other, in random rooms and with marks off either way.
func TestAPlanReadBackGivesTheSameRefit(t *testing.T) {
	pairs := 0
	for _, room := range someRooms(6, 7) {
		plan, _ := recorded(t, roughRoom(room).text, 0, "")
		var file bytes.Buffer
		if err := plan.WriteFile(&file); err != nil {
			t.Fatal(err)
		}
		for _, d := range driftedRooms(t, []int{room}) {
			pairs++
			byJob, byFile := joined(t, plan, d, nil), joined(t, plan, d, file.Bytes())
			if a, b := answer(byJob), answer(byFile); a != b {
				t.Errorf("%v: by the job's plan\n%s\nby its file\n%s", d, a, b)
			}
			if byJob.New == nil || byFile.New == nil {
				continue
			}
			for i, p := range byJob.New.Path {
				if q := byFile.New.Path[i]; p.Dist(q) > 0.01 {
					t.Fatalf("%v: corner %d lies at %v by the job's plan, at %v by its file", d, i, p, q)
				}
			}
		}
	}
	if pairs < 24 {
		t.Errorf("only %d pairs", pairs)
	}
}

// joined refits a room's plan by its record, laid by the plan's layout file; nil: by
// the plan as it is.
func joined(t *testing.T, plan *layout.Plan, d drifted, file []byte) *refit.Refit {
	t.Helper()
	j := trial.Read(t, "refit.toml", []byte(d.text))
	if file != nil {
		open := func(string) ([]byte, error) { return file, nil }
		if err := j.RestOn(&j.Laid[0], "r.layout.json", open); err != nil {
			t.Fatal(err)
		}
	}
	p := *plan
	p.Job, p.Rooms = j, slices.Clone(plan.Rooms)
	p.Rooms[0].Cables = slices.Clone(plan.Rooms[0].Cables)
	if s := trial.Errors(aslaid.Join(&p)); s != "" {
		t.Fatal(s)
	}
	f, err := refit.New(&p, &p.Rooms[0], &p.Rooms[0].Cables[0], refit.Way{})
	if err != nil {
		t.Fatal(err)
	}
	return f
}

// answer is what a refit says but for the plan it rests on.
func answer(f *refit.Refit) string {
	lines := f.Lines(plane.Millimetres)
	return strings.Join(slices.DeleteFunc(lines, func(s string) bool { return strings.HasPrefix(s, "plan ") }), "\n")
}
