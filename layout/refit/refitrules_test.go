package refit_test

import (
	"flag"
	"fmt"
	"math"
	"math/rand/v2"
	"strings"
	"testing"

	"oxturn/layout"
	"oxturn/layout/plane"
	"oxturn/layout/refit"
	"oxturn/layout/route"
)

var refitRooms = flag.Int("refit.rooms", 12, "how many random rooms TestRefitKeepsTheRules lays and plans anew")

// A rough is a random room, and how its laying goes.
type rough struct {
	text  string
	share float64 // of the runs that are laid
	drift float64 // cable read off, over that drawn
}

// roughRoom makes the n-th random room: rectangles, Ls and rooms with a column,
// some with a cable of two cold ends, a power limit or a second cable.
func roughRoom(n int) rough {
	r := rand.New(rand.NewPCG(7, uint64(n)))
	w, h := math.Round(1500+r.Float64()*2000), math.Round(1400+r.Float64()*1600)
	area := (w - 150) * (h - 150)
	text := "units = \"mm\"\n[membrane]\npitch = 30\n[spacing]\nclosest = 2\nwidest = 5\n"
	corners := fmt.Sprintf("[[0,0],[%g,0],[%g,%g],[0,%g]]", w, w, h, h)
	extra := ""
	switch n % 4 {
	case 1:
		a, b := math.Round(w*(0.3+0.3*r.Float64())), math.Round(h*(0.3+0.3*r.Float64()))
		corners = fmt.Sprintf("[[0,0],[%g,0],[%g,%g],[%g,%g],[%g,%g],[0,%g]]", w, w, h-b, w-a, h-b, w-a, h, h)
		area -= a * b
	case 2:
		x, y := math.Round(w*(0.3+0.3*r.Float64())), math.Round(h*(0.4+0.2*r.Float64()))
		extra = fmt.Sprintf("[[room.keep_out]]\nname = \"column\"\noutline = [[%g,%g],[%g,%g],[%g,%g],[%g,%g]]\n", x, y,
			x+200, y, x+200, y+200, x, y+200)
		area -= 300 * 300
	}
	if n%3 == 1 {
		extra += fmt.Sprintf("[[room.low]]\noutline = [[0,0],[%g,0],[%g,%g],[0,%g]]\n", w, w, math.Round(h/5),
			math.Round(h/5))
	}
	cable, ends, ids := math.Round(area/95/100)/10, "one", `"C"`
	if n%5 == 3 {
		ends = "both"
	}
	if n%6 == 4 {
		cable, ids = cable/2, `"C", "C"`
	}
	if n%7 == 5 { // 10 W/m: 5 pegs for two gaps together
		text += fmt.Sprintf("[supply]\nmax_density = \"%g W/m2\"\n", 10/0.075)
	}
	text += fmt.Sprintf("[[cable]]\nid = \"C\"\nvolts = 240\nwatts = %g\nlength = \"%g m\"\nlead = \"8 m\"\nends = "+
		"%q\n[[room]]\nname = \"R\"\ncorners = %s\ncables = [%s]\n%s[room.thermostat]\nat = [%g, 0]\n",
		10*cable, cable, ends, corners, ids, extra, math.Round(w/2))
	return rough{text, 0.1 + 0.6*r.Float64(), 0.97 + 0.06*r.Float64()}
}

// TestRefitKeepsTheRules lays random rooms, lets the cable drift at random and
// plans the rest: what is laid is not moved, no rule is broken, and the cable
// is used to its end; where nothing fits, a reason is given.
func TestRefitKeepsTheRules(t *testing.T) {
	fits, tried, kept, runs := 0, 0, 0, 0
	for n := range *refitRooms {
		t.Run(fmt.Sprint(n), func(t *testing.T) {
			room := roughRoom(n)
			_, c := recorded(t, room.text, 0, "")
			laid := max(1, int(room.share*float64(len(c.Runs))))
			mark := fmt.Sprintf("[[as_laid.mark]]\nlength = \"%.1f mm\"\nrun = %d\npegs = %d\n",
				room.drift*c.Runs[laid-1].RunningEnd, laid, c.Runs[laid-1].Pegs)
			p, c := recorded(t, room.text, laid, mark)
			f, err := refit.New(p, &p.Rooms[0], c, refit.Way{})
			if err != nil {
				t.Fatalf("%d runs, %.3f: %v\n%s", laid, room.drift, err, room.text)
			}
			tried++
			said := strings.Join(f.Lines(plane.Millimetres), "\n")
			if f.New == nil {
				if f.Reason == "" || !strings.Contains(said, "\nchoice ") {
					t.Errorf("no fit without a reason or a choice:\n%s", said)
				}
				t.Logf("%s", said)
				checkChoices(t, p, f)
				return
			}
			fits++
			kept, runs = kept+f.Change.From-1-f.Runs, runs+len(f.Old)-f.Runs
			checkRefit(t, p, f)
			t.Logf("%d of %d laid, drift %.3f: from run %d, %d differ, %.1f %% cold", f.Runs, len(f.Old), room.drift,
				f.Change.From, f.Change.Runs, 100*f.Change.Cold/c.Share.Area())
		})
	}
	t.Logf("%d of %d were planned anew; of %d runs not laid %d stay as planned", fits, tried, runs, kept)
	if fits < tried*2/3 || tried < *refitRooms/2 {
		t.Errorf("only %d of %d rooms found a route, of %d", fits, tried, *refitRooms)
	}
}

// checkChoices takes every way out that is offered: it must lead to a plan that
// keeps the rules, and take what was said.
func checkChoices(t *testing.T, p *layout.Plan, f *refit.Refit) {
	t.Helper()
	for _, c := range f.Choices {
		if c.Remains > 0 || c.Lacks > 0 {
			continue
		}
		again, err := refit.New(p, f.Room, f.Planned, c.Way)
		if err != nil || again.New == nil {
			t.Errorf("by %+v, as was said, the rest finds no route: %v", c, err)
			continue
		}
		if lifted := f.Used - again.Used; math.Abs(lifted-c.Lifted) > 1e-6 {
			t.Errorf("%.0f mm of cable are said to be lifted, %.0f are", c.Lifted, lifted)
		}
		if c.Lift > 0 && again.Runs != f.Runs-c.Lift {
			t.Errorf("%d runs are laid with %d of %d lifted", again.Runs, c.Lift, f.Runs)
		}
		checkRefit(t, p, again)
	}
}

// checkRefit holds a cable planned anew against every hard rule, with nothing
// of the router's but its measure of length.
func checkRefit(t *testing.T, p *layout.Plan, f *refit.Refit) {
	t.Helper()
	for i := range max(0, len(f.Laid)-1) {
		if f.New.Path[i].Dist(f.Laid[i]) > 1e-6 {
			t.Errorf("laid corner %d was moved from %v to %v", i, f.Laid[i], f.New.Path[i])
		}
	}
	// the last laid corner may turn into a straight line, but stays on it
	if n := len(f.Laid); n > 1 && (plane.Segment{A: f.New.Path[n-2], B: f.New.Path[n-1]}).Distance(f.Laid[n-1]) > 1e-6 {
		t.Errorf("the end of the laid part was moved")
	}
	way := route.Length(f.New.Path, f.New.BendRadius)
	if used := f.Used + f.Rate*(way-f.Way); math.Abs(used-f.Planned.Label.Length) > 1 {
		t.Errorf("%.1f mm of cable used, there are %.1f", used, f.Planned.Label.Length)
	}
	least := float64(p.Job.Spacing.Closest) * p.Job.Membrane.Pitch
	samples := route.Samples(f.New.Path, f.New.BendRadius, 12)
	zone := p.Rooms[0].Zones[f.Planned.Zone]
	for i := max(1, len(f.Laid)); i < len(f.New.Path); i++ {
		if d := f.New.Path[i].Sub(f.New.Path[i-1]).Rotate(-f.New.Lattice.Angle); math.Abs(d.X) > 1 &&
			math.Abs(d.Y) > 1 {
			t.Errorf("leg %d leaves the rows of pegs: %v", i, d)
		}
	}
	for i, s := range samples {
		if s.Along > f.Way && zone.Depth(s.At) < -1 {
			t.Fatalf("%v lies %.1f mm outside the heated floor", s.At, -zone.Depth(s.At))
		}
		for _, o := range samples[i+1:] {
			if o.Along-s.Along > 2*least && o.At.Dist(s.At) < least-1 {
				t.Fatalf("%v and %v are %.1f mm apart, %.0f at least", s.At, o.At, o.At.Dist(s.At), least)
			}
		}
	}
	for _, c := range p.Rooms[0].Cables {
		if c.ID == f.Planned.ID {
			continue
		}
		for _, s := range samples {
			if _, d := nearestTo(c.Path, s.At); d < least-1 {
				t.Fatalf("%v is %.1f mm from cable %s, %.0f at least", s.At, d, c.ID, least)
			}
		}
	}
	checkLead(t, p, f, f.New.ColdLead, f.New.Path[0])
	if f.Planned.Return != nil {
		checkLead(t, p, f, f.New.Return, f.New.Path[len(f.New.Path)-1])
	}
	checkPower(t, p, f)
}

func nearestTo(path []plane.Point, p plane.Point) (plane.Point, float64) {
	best, least := plane.Point{}, math.Inf(1)
	for i := 1; i < len(path); i++ {
		if q, _ := (plane.Segment{A: path[i-1], B: path[i]}).Nearest(p); q.Dist(p) < least {
			best, least = q, q.Dist(p)
		}
	}
	return best, least
}

// checkLead: a lead joins the box to the cable's end, is long enough, and
// crosses no heating cable.
func checkLead(t *testing.T, p *layout.Plan, f *refit.Refit, lead []plane.Point, end plane.Point) {
	t.Helper()
	if len(lead) < 2 || lead[0].Dist(p.Rooms[0].Job.Thermostat.At) > 1 || lead[len(lead)-1].Dist(end) > 1 {
		t.Errorf("the lead %v does not go from the box to %v", lead, end)
		return
	}
	n := 0.0
	paths := [][]plane.Point{f.New.Path}
	for _, c := range p.Rooms[0].Cables {
		if c.ID != f.Planned.ID {
			paths = append(paths, c.Path)
		}
	}
	for i := 1; i < len(lead); i++ {
		leg := plane.Segment{A: lead[i-1], B: lead[i]}
		n += leg.Length()
		for _, path := range paths {
			for k := 1; k < len(path); k++ {
				if leg.Crosses(plane.Segment{A: path[k-1], B: path[k]}) {
					t.Errorf("the lead crosses heating cable at leg %d", k)
				}
			}
		}
	}
	if n > f.New.LeadReach+1 {
		t.Errorf("the lead takes %.0f mm, and there are %.0f", n, f.New.LeadReach)
	}
}

// checkPower: where there is a limit, no run that is not laid yet has gaps to
// both sides that give more, at the rate the cable is used.
func checkPower(t *testing.T, p *layout.Plan, f *refit.Refit) {
	t.Helper()
	limit := p.Job.Supply.MaxDensity
	if limit == 0 {
		return
	}
	both := 2 * f.Rate * f.Planned.Label.Watts / (f.Planned.Label.Length / 1000) / limit * 1000
	path := f.New.Path
	for _, r := range f.New.Runs {
		if r.Number <= f.Runs || r.From.Dist(r.To) < 400 {
			continue
		}
		mid, u := r.From.Lerp(r.To, 0.5), r.To.Sub(r.From).Unit()
		gaps := [2]float64{math.Inf(1), math.Inf(1)}
		for k := 1; k < len(path); k++ {
			leg := plane.Segment{A: path[k-1], B: path[k]}
			if leg.Length() < 400 || math.Abs(leg.B.Sub(leg.A).Unit().Cross(u)) > 1e-3 || leg.Distance(mid) < 1 {
				continue
			}
			off := u.Cross(leg.A.Sub(mid))
			if a, b := leg.A.Sub(mid).Dot(u), leg.B.Sub(mid).Dot(u); a*b < 0 {
				side := 0
				if off < 0 {
					side = 1
				}
				gaps[side] = math.Min(gaps[side], math.Abs(off))
			}
		}
		if sum := gaps[0] + gaps[1]; sum < both-1 {
			t.Errorf("run %d has %.0f mm of gaps to its two sides, %.0f at least", r.Number, sum, both)
		}
	}
}
