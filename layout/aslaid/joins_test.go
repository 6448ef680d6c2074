package aslaid

import (
	"math"
	"slices"
	"strings"
	"testing"

	"oxturn/layout"
	"oxturn/layout/internal/hand"
	"oxturn/layout/job"
	"oxturn/layout/plane"
	"oxturn/layout/refit"
)

// bathOf is a room of 2 m by 2 m with cables along serpentine, 60 mm apart, by plan NOW.
func bathOf(status job.Status, cables ...string) *layout.Plan {
	p := &layout.Plan{Code: "NOW", Job: onPegs(status)}
	r := layout.Room{Job: &job.Room{Name: "Bath"}, Floor: plane.FromRing(plane.Rectangle(plane.Pt(0, 0),
		plane.Pt(2000, 2000)))}
	for _, id := range cables {
		c := serpentineCable()
		c.ID, c.Spacing, c.Path = id, 60, serpentine()
		c.Label = job.Cable{Length: 2794.2, Watts: 270, Volts: 230} // 2820 mm less 6.4 mm a rounded corner
		r.Cables = append(r.Cables, *c)
	}
	r.Zones = []plane.Region{r.Floor}
	p.Rooms = []layout.Room{r}
	return p
}

func measured(as job.Laid) job.Laid {
	as.Evidence, as.FingerRoom = job.ByHand, -1
	return as
}

func messages(found []job.Diagnostic) string {
	var out []string
	for _, d := range found {
		out = append(out, d.Message)
	}
	return strings.Join(out, "\n")
}

// A record that rests on today's plan takes today's own figures, one that rests on another
// those of its file.
func TestFiguresOfThePlanItRestsOn(t *testing.T) {
	read := plane.Moved(serpentine(), plane.Pt(0.04, 0))
	for code, want := range map[string][]plane.Point{"NOW": serpentine(), "OLD": read} {
		p := bathOf(job.ForInstallation, "H1")
		p.Job.Laid = []job.Laid{measured(job.Laid{PlanCode: code, AsPlanned: true,
			Issued: &job.Issued{Code: code, Path: read, ColdLead: hand.Points(0, 0, 100, 100)}})}
		if found := Join(p); found != nil {
			t.Fatal(found)
		}
		c := p.Rooms[0].Cables[0]
		if c.Laid == nil || !slices.Equal(c.Laid.Path, want) || !slices.Equal(c.Laid.Planned, want) ||
			(c.Laid.ColdLead != nil) != (code == "OLD") {
			t.Errorf("plan %s: %+v", code, c.Laid)
		}
		if p.Code != "NOW" || p.Job.Laid[0].Issued.Path[0] != read[0] {
			t.Errorf("plan %s: the job's record was changed", code)
		}
	}
}

// A room that nothing was found for has been reported; a cable is told by its name, or by
// being the only one.
func TestTheCableThatARecordSpeaksOf(t *testing.T) {
	whole := job.Laid{Corners: serpentine()}
	named := func(id string) job.Laid { a := whole; a.Cable = id; return measured(a) }
	for _, k := range []struct {
		cables []string
		laid   []job.Laid
		joined string
		want   string
	}{
		{nil, []job.Laid{named("")}, "", ""},
		{[]string{"H1"}, []job.Laid{named("")}, "H1", ""}, {[]string{"H1"}, []job.Laid{named("H1")}, "H1", ""},
		{[]string{"H1"}, []job.Laid{named("H2")}, "", `room "Bath" has no cable "H2"`},
		{[]string{"H1", "H2"}, []job.Laid{named("H2")}, "H2", ""},
		{[]string{"H1", "H2"}, []job.Laid{named("H2"), named("H1")}, "H1H2", ""},
		{[]string{"H1", "H2"}, []job.Laid{named("")}, "", `room "Bath" has 2 cables: name the one that was laid`},
		{[]string{"H1", "H2"}, []job.Laid{named("H2"), named("H2")}, "H2",
			`cable H2 of room "Bath" has two [[as_laid]]`},
		{[]string{"H1"}, []job.Laid{named(""), named("")}, "H1", `cable H1 of room "Bath" has two [[as_laid]]`},
	} {
		p := bathOf(job.ForInstallation, k.cables...)
		p.Job.Laid = k.laid
		got, joined := messages(Join(p)), ""
		for _, c := range p.Rooms[0].Cables {
			if c.Laid != nil {
				joined += c.ID
			}
		}
		if got != k.want || joined != k.joined {
			t.Errorf("%v: joined %s, %q; want %q", k.cables, joined, got, k.want)
		}
	}
}

// A record that is at fault is said once and joined to nothing; one with a warning is joined,
// and its marks are read.
func TestFaultsAndWarningsOfARecord(t *testing.T) {
	crossed := hand.Points(100, 100, 900, 900, 900, 100, 100, 900)
	short := serpentine()[:4]
	for _, k := range []struct {
		name   string
		as     job.Laid
		joined bool
		want   []string
	}{
		{"as it should be", job.Laid{Corners: serpentine()}, true, nil},
		{"crossed", job.Laid{Corners: crossed}, false,
			[]string{"corners: cable H1 would cross itself, leg 1 over leg 3"}},
		{"a run short", job.Laid{Corners: short}, true,
			[]string{"cable H1 as laid measures 1.8 m, but its label says 2.8 m"}},
		{"counted on another plan", job.Laid{Runs: 1, PlanCode: "OLD"}, false,
			[]string{"cable H1 was laid by plan OLD"}},
		{"held against another plan", job.Laid{Corners: serpentine(), PlanCode: "OLD"}, true,
			[]string{"cable H1 was laid by plan OLD"}},
		{"a mark beyond its end", job.Laid{Corners: serpentine(), Marks: []job.LaidMark{{Length: 5000, Run: 3}}}, true,
			[]string{"a mark is read as 5.0 m, but cable H1 has 2.8 m"}},
		{"a mark on no run", job.Laid{Corners: serpentine(), Marks: []job.LaidMark{{Length: 2000, Run: 9, Pegs: 3}}},
			true, []string{"a mark is said to lie on run 9, but 3 runs of cable H1 are laid"}},
		{"a mark on no run of one", job.Laid{Runs: 1, Marks: []job.LaidMark{{Length: 2000, Run: 9, Pegs: 3}}}, true,
			[]string{"a mark is said to lie on run 9, but 1 run of cable H1 is laid"}},
	} {
		for _, status := range []job.Status{job.ForInstallation, job.AsLaid} {
			if k.as.Runs > 0 && status == job.AsLaid {
				continue // refused where it is read
			}
			p := bathOf(status, "H1")
			p.Job.Laid = []job.Laid{measured(k.as)}
			if k.as.Corners != nil && status == job.ForInstallation {
				p.Job.Laid[0].EndCap = &plane.Point{X: 1, Y: 1} // all of it
			}
			found := Join(p)
			if (p.Rooms[0].Cables[0].Laid != nil) != k.joined || len(found) != len(k.want) {
				t.Errorf("%s, %v: %v", k.name, status, found)
				continue
			}
			for i, w := range k.want {
				if !strings.HasPrefix(found[i].Message, w) {
					t.Errorf("%s, %v: %q, want %q", k.name, status, found[i].Message, w)
				}
			}
		}
	}
}

// What is handed over without a record of the floor is refused, cable by cable; before, not.
func TestNothingIsHandedOverByItsPlan(t *testing.T) {
	record := func(id string, e job.Evidence) job.Laid {
		return job.Laid{Cable: id, Evidence: e, FingerRoom: -1, Corners: serpentine()}
	}
	none := func(id string) string {
		return `the status is "as laid", but nothing says how cable ` + id + ` of room "Bath" was found to lie`
	}
	for _, k := range []struct {
		status job.Status
		laid   []job.Laid
		want   string
	}{
		{job.AsLaid, []job.Laid{record("H1", job.ByHand), record("H2", job.PhotoWithTape)}, ""},
		{job.AsLaid, []job.Laid{record("H2", job.ByHand)}, none("H1")},
		{job.AsLaid, []job.Laid{record("H1", job.ByHand), record("H2", job.PlanOnly)}, none("H2")},
		{job.AsLaid, nil, none("H1") + "\n" + none("H2")},
		{job.ForInstallation, nil, ""}, {job.Proposal, []job.Laid{record("H2", job.PlanOnly)}, ""},
	} {
		p := bathOf(k.status, "H1", "H2")
		p.Job.Laid = k.laid
		if got := messages(Join(p)); got != k.want {
			t.Errorf("%v, %d records: %q, want %q", k.status, len(k.laid), got, k.want)
		}
	}
}

// Corners within a millimetre of each other are one, read twice.
func TestCornersOfARecord(t *testing.T) {
	for _, k := range []struct{ corners, want []plane.Point }{
		{hand.Points(7, 8), hand.Points(7, 8)},
		{hand.Points(0, 0, 0.5, 0, 900, 0), hand.Points(0, 0, 900, 0)},
		{hand.Points(0, 0, 1, 0, 900, 0), hand.Points(0, 0, 1, 0, 900, 0)},
		{hand.Points(0, 0, 900, 0, 900, 0), hand.Points(0, 0, 900, 0)},
	} {
		l := &layout.Laid{Job: &job.Laid{Corners: k.corners}}
		if d := trace(l, nil, serpentineCable(), onPegs(job.ForInstallation)); d != nil || !l.Whole ||
			!slices.Equal(l.Path, k.want) {
			t.Errorf("%v: %v, whole %v, %v", k.corners, l.Path, l.Whole, d)
		}
	}
}

// Leads as they were recorded stand before those of the plan.
func TestLeadsOfARecordBeforeThePlans(t *testing.T) {
	one, two, other := hand.Points(1, 2), hand.Points(1, 2, 3, 4), hand.Points(5, 6, 7, 8)
	for _, k := range []struct{ a, b, want []plane.Point }{
		{one, other, one}, {two, other, two}, {nil, other, other}, {two, nil, two}, {nil, nil, nil},
	} {
		if got := or(k.a, k.b); !slices.Equal(got, k.want) {
			t.Errorf("%v before %v: %v", k.a, k.b, got)
		}
	}
	for _, given := range [][]plane.Point{nil, other} {
		l := &layout.Laid{Planned: serpentine(), Job: &job.Laid{AsPlanned: true, ColdLead: given, Return: given,
			Issued: &job.Issued{ColdLead: one, Return: two}}}
		if d := trace(l, nil, nil, nil); d != nil || !l.Whole || !slices.Equal(l.ColdLead, or(given, one)) ||
			!slices.Equal(l.Return, or(given, two)) {
			t.Errorf("%v: %+v, %v", given, l, d)
		}
	}
}

// A lattice half a radian from square has its row nearest to east 16 degrees south of it,
// across the pegs' squares: east 2 is two diagonals.
func TestLegsOnALatticeFarFromSquare(t *testing.T) {
	c := serpentineCable()
	c.Lattice.Angle = 0.5
	sin, cos := math.Sincos(0.5 - math.Pi/4)
	for bearing, way := range map[float64]plane.Point{90: plane.Pt(cos, sin), 0: plane.Pt(-sin, cos),
		270: plane.Pt(-cos, -sin), 180: plane.Pt(sin, -cos)} {
		got := walkLegs(c, plane.Pt(10, 20), []job.Leg{{Bearing: bearing, Pegs: 2}})
		if want := plane.Pt(10, 20).Add(way.Mul(60 * math.Sqrt2)); len(got) != 2 || got[1].Dist(want) > 1e-6 {
			t.Errorf("bearing %g: %v, want %v", bearing, got, want)
		}
	}
	// half of it lies nearer to the pegs' own rows
	sin, cos = math.Sincos(0.25)
	c.Lattice.Angle = 0.25
	got := walkLegs(c, plane.Pt(0, 0), []job.Leg{{Bearing: 90, Pegs: 2}})
	if want := plane.Pt(60*cos, 60*sin); got[1].Dist(want) > 1e-6 {
		t.Errorf("%v, want %v", got, want)
	}
}

// An inch and 5 mm beside the floor is tape, more is not.
func TestBesideTheFloorByATapesError(t *testing.T) {
	p := bathOf(job.ForInstallation)
	for off, ok := range map[float64]bool{plane.Inch + 5: true, plane.Inch + 5.1: false} {
		l := &layout.Laid{Path: hand.Points(500, 500, -off, 500), Job: &job.Laid{Runs: 1}}
		if d := check(l, &p.Rooms[0], &layout.Cable{ID: "H1"}, p.Job); (d == nil) != ok {
			t.Errorf("%g mm beside it: %v", off, d)
		}
	}
}

// A mark that says the cable is longer than its way by up to 15 % is drift; by more, a slip.
func TestRateUpToASlip(t *testing.T) {
	for _, by := range []float64{refit.RateOff - 0.001, -refit.RateOff + 0.001} {
		l := &layout.Laid{Path: serpentine(), Job: &job.Laid{Marks: []job.LaidMark{{Length: 600 * (1 + by), Run: 1,
			Pegs: 20}}}}
		if got := rate(l, serpentineCable()); math.Abs(got-1-by) > 1e-9 {
			t.Errorf("%g off: rate %g", by, got)
		}
	}
}
