package build

import (
	"math"
	"strings"
	"testing"

	"oxturn/layout/internal/hand"
)

// unevenBath is a bath whose pegs lie 30 mm apart along the roll and 40 mm across it, the roll lying along wall A.
func unevenBath() string {
	text := strings.Replace(hand.Bath, "pitch = 30\n", "pitch = 30\npitch_across = 40\n", 1)
	text = strings.Replace(text, `name = "Bath"`, "name = \"Bath\"\nrolled = \"A\"", 1)
	return text + "[spacing]\nclosest_gap = 60\nwidest_gap = 160\n"
}

// Every run's pegs times their pitch are its length, along the roll and across it, and gaps likewise: a person who
// counts comes where the drawing says.
func TestPegsOfUnevenRunsCountTheirWay(t *testing.T) {
	p := lay(t, unevenBath())
	c := p.Rooms[0].Cables[0]
	if c.Lattice.Pitch != 30 || c.Lattice.Across != 40 || c.Lattice.Angle != 0 {
		t.Fatalf("%+v", c.Lattice)
	}
	if math.Abs(c.Routed-36000) > 0.1 {
		t.Errorf("%.2f mm are laid", c.Routed)
	}
	gaps := 0
	for i, r := range c.Runs {
		d := r.To.Sub(r.From)
		pitch, over := 30.0, 40.0
		if math.Abs(d.Y) > math.Abs(d.X) {
			pitch, over = over, pitch
		}
		if off := math.Abs(float64(r.Pegs)*pitch - d.Norm()); i+1 < len(c.Runs) && off > 0.01 {
			t.Errorf("run %d of %.1f mm has %d pegs of %g", r.Number, d.Norm(), r.Pegs, pitch)
		}
		if r.GapToNext > 0 {
			gaps++
			aside := math.Abs(d.Unit().Cross(c.Runs[i+1].From.Sub(r.From)))
			if math.Abs(float64(r.GapToNext)*over-aside) > 0.01 || aside < 60 {
				t.Errorf("from run %d to the next %.1f mm are %d pegs of %g", r.Number, aside, r.GapToNext, over)
			}
		}
	}
	if gaps < 5 {
		t.Errorf("%d gaps", gaps)
	}
}

// The strips of such a membrane lie along the roll, their seams whole pitches across it from the cable's channels.
func TestUnevenMembraneIsCutAlongTheRoll(t *testing.T) {
	p := lay(t, unevenBath())
	origin := p.Rooms[0].Cables[0].Lattice.Origin
	room := p.Membrane.Rooms[0]
	if math.Abs(math.Sin(room.Along)) > 1e-9 || len(room.Pieces) < 2 {
		t.Fatalf("%d pieces along %g", len(room.Pieces), room.Along)
	}
	if p.Membrane.Usable != 25*40 || p.Membrane.Reach != 400*30 {
		t.Errorf("strips are %g mm wide and %g mm long at most", p.Membrane.Usable, p.Membrane.Reach)
	}
	for _, s := range room.Seams {
		off := (s.A.Y - origin.Y) / 40
		if math.Abs(off-math.Round(off)) > 1e-6 || math.Abs(s.A.Y-s.B.Y) > 1e-6 {
			t.Errorf("a seam at %v, %g pitches off", s.A, off)
		}
	}
	if turned := lay(t, strings.Replace(unevenBath(), `rolled = "A"`, `rolled = "B"`, 1)); math.Abs(math.Cos(
		turned.Membrane.Rooms[0].Along)) > 1e-9 {
		t.Errorf("rolled along wall B, strips lie at %g", turned.Membrane.Rooms[0].Along)
	}
}

// The layout file of such a floor lays it again as it was.
func TestUnevenFloorComesBackFromItsFile(t *testing.T) {
	p := lay(t, unevenBath())
	var b strings.Builder
	if err := p.WriteFile(&b); err != nil {
		t.Fatal(err)
	}
	if !strings.Contains(b.String(), `"pitch_across_mm": 40`) {
		t.Error("the file has no pitch across the roll")
	}
	j, file := p.Job, func(string) ([]byte, error) { return []byte(b.String()), nil }
	if err := j.LayBy("bath.layout.json", file); err != nil {
		t.Fatal(err)
	}
	again, ds := Plan(j)
	if len(again.Rooms[0].Cables) == 0 {
		t.Fatal(ds)
	}
	was, now := p.Rooms[0].Cables[0], again.Rooms[0].Cables[0]
	if now.Lattice.Across != 40 || again.Code != p.Code || len(now.Runs) != len(was.Runs) {
		t.Errorf("%+v, plan %s as %s", now.Lattice, p.Code, again.Code)
	}
	for i, q := range now.Path {
		if q.Dist(was.Path[i]) > 1e-3 {
			t.Fatalf("corner %d at %v, was at %v", i, q, was.Path[i])
		}
	}
	j.Membrane.Across = 45
	if err := j.LayBy("bath.layout.json", file); err == nil || !strings.Contains(err.Error(), "40 mm") {
		t.Errorf("taken for pegs of 45 mm: %v", err)
	}
}
