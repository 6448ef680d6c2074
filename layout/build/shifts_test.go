package build

import (
	"math"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"oxturn/layout"
	"oxturn/layout/internal/hand"
	"oxturn/layout/job"
	"oxturn/layout/plane"
)

// A bath 25 mm longer serves about 25/2250 more floor with the same cable: its
// runs lie wider apart by about that share.
func TestShiftOfABath(t *testing.T) {
	p := lay(t, hand.Bath)
	found := shifts(p, false, nil)
	if len(found) != 4 {
		t.Fatalf("%d shifts", len(found))
	}
	is := p.Rooms[0].Cables[0].Spacing
	for _, s := range found {
		side := 1650.0
		if s.East {
			side = 2250
		}
		if want := is * (1 + s.By/side); math.Abs(s.Spacing-want) > 0.01*want {
			t.Errorf("%+v: spacing, want about %.1f", s, want)
		}
		if !s.Keeps || s.Problem != "" {
			t.Errorf("%+v", s)
		}
	}
}

// Four pegs of 30 mm are 120 mm at most. A floor whose cable was laid within that
// at a mean of 126 mm by its area does not lose it by shrinking.
func TestShrunkFloorKeepsItsCable(t *testing.T) {
	j := &job.Job{Membrane: job.Membrane{Pitch: 30}, Spacing: job.Spacing{Closest: 2, Widest: 4}}
	cable := []job.Cable{{Watts: 900, Length: 75000}}
	for _, c := range []struct {
		spacing, laid float64
		want          bool
	}{{119, 0, true}, {125, 0, false}, {125, 126, true}, {127, 126, false}, {59, 0, false}, {59, 58, true}} {
		if got := suits(j, c.spacing, c.laid, cable); got != c.want {
			t.Errorf("%+v: %v", c, got)
		}
	}
}

// Laid anew in the changed room, the cable goes in, and its runs lie about as far
// apart as the area said.
func TestShiftLaidAnew(t *testing.T) {
	p := lay(t, hand.Bath)
	byArea := shifts(p, false, nil)
	for i, s := range ShiftsLaid(p) {
		if !s.Laid || !s.Keeps || math.Abs(s.Spacing-byArea[i].Spacing) > 0.03*s.Spacing {
			t.Errorf("%+v, by area %.1f", s, byArea[i].Spacing)
		}
	}
}

// A cable that lies as close as it may does not go into a shorter room; what
// does was laid there.
func TestShiftLaidAnewAsksForAnother(t *testing.T) {
	text := strings.Replace(hand.Bath, "[[room]]",
		"[spacing]\nclosest = 3\nwidest = 4\n[[cable]]\nid = \"D\"\nvolts = 240\nwatts = 250\nlength = \"25 "+
			"m\"\nlead = \"4 m\"\n[[room]]", 1)
	p := lay(t, strings.ReplaceAll(text, `"36 m"`, `"44 m"`))
	keeps := 0
	for _, s := range ShiftsLaid(p) {
		if s.Keeps {
			keeps++
			continue
		}
		if s.Spacing != 0 || s.Instead == "" {
			t.Errorf("%+v", s)
		}
	}
	if keeps == 0 || keeps == 4 {
		t.Errorf("it goes into %d of 4 rooms", keeps)
	}
}

// One inch both ways is what choose shows: the two directions of the shifts
// together.
func TestOptionsShiftAlike(t *testing.T) {
	p := lay(t, hand.Bath)
	rooms, _ := Options(p.Job)
	is, both := p.Rooms[0].Cables[0].Spacing, 1.0
	for _, s := range shifts(p, false, nil) {
		if s.By > 0 {
			both *= s.Spacing / is
		}
	}
	for _, o := range rooms[0].Options {
		if o.Taken && math.Abs(o.Larger.Spacing/o.Spacing-both) > 0.002 {
			t.Errorf("choose %.4f, both directions %.4f", o.Larger.Spacing/o.Spacing, both)
		}
	}
}

// A cable that is laid as wide as it may be no longer serves a longer room;
// the next longer of the catalogue would.
func TestShiftAsksForAnotherCable(t *testing.T) {
	text := strings.Replace(hand.Bath, "[[room]]",
		"[[cable]]\nid = \"D\"\nvolts = 240\nwatts = 400\nlength = \"40 m\"\nlead = \"4 m\"\n[[room]]", 1)
	p := lay(t, text)
	p.Rooms[0].Cables[0].Spacing = 120
	for _, s := range shifts(p, false, nil) {
		if s.By > 0 && (s.Keeps || s.Instead != "D") {
			t.Errorf("longer: %+v", s)
		}
		if s.By < 0 && !s.Keeps {
			t.Errorf("shorter: %+v", s)
		}
	}
}

// Fixtures keep their size, walls their fixtures, in every example.
func TestStretchedKeepsFixtures(t *testing.T) {
	files, err := filepath.Glob("../../testdata/jobs/*.toml")
	if err != nil {
		t.Fatal(err)
	}
	for _, f := range files {
		data, err := os.ReadFile(f)
		if err != nil {
			t.Fatal(err)
		}
		j, _ := job.Read(f, data, func(n string) ([]byte, error) { return os.ReadFile("../../testdata/jobs/" + n) })
		if j == nil {
			continue
		}
		for _, r := range j.Rooms {
			for _, by := range []float64{25, -25} {
				for _, east := range []bool{true, false} {
					checkStretched(t, r, east, by)
				}
			}
		}
	}
}

func checkStretched(t *testing.T, r job.Room, east bool, by float64) {
	t.Helper()
	out, ok := stretched(r, east, by)
	if !ok {
		t.Errorf("%s: cannot be changed by %g", r.Name, by)
		return
	}
	a, b := r.Outline.Bounds(), out.Outline.Bounds()
	got := b.H() - a.H()
	if east {
		got = b.W() - a.W()
	}
	if math.Abs(got-by) > 1e-6 {
		t.Errorf("%s: grows by %g, want %g", r.Name, got, by)
	}
	for i, f := range out.Fixtures {
		if math.Abs(f.Outline.Area()-r.Fixtures[i].Outline.Area()) > 1 {
			t.Errorf("%s: %s changes its size", r.Name, f.Name)
		}
	}
	for i, o := range out.Openings {
		if math.Abs((o.To-o.From)-(r.Openings[i].To-r.Openings[i].From)) > 1e-6 || o.To > out.Walls[o.Wall].Length()+
			1e-6 {
			t.Errorf("%s: %s no longer fits its wall", r.Name, o.Name)
		}
	}
}

// A room whose walls have no length to spare says so.
func TestShiftWithoutRoom(t *testing.T) {
	r := *lay(t, hand.Bath).Rooms[0].Job
	r.Outline = nil
	for i := range 40 { // a saw of 20 mm teeth
		r.Outline = append(r.Outline, plane.Pt(float64(i)*20, float64(i%2)*500))
	}
	if _, ok := stretched(r, true, -25); ok {
		t.Error("a saw is shortened")
	}
}

func BenchmarkShifts(b *testing.B) {
	j, _ := job.Read("job.toml", []byte(hand.Bath), nil)
	p, _ := Plan(j)
	for b.Loop() {
		shifts(p, false, nil)
	}
}

func lay(t *testing.T, text string) *layout.Plan {
	t.Helper()
	j, report := job.Read("job.toml", []byte(text), nil)
	if report.Errors() > 0 {
		t.Fatal(report.Diagnostics())
	}
	p, ds := Plan(j)
	for _, d := range ds {
		if d.Severity == job.Error {
			t.Fatal(d.Message)
		}
	}
	return p
}
