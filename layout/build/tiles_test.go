package build

import (
	"testing"

	"oxturn/layout/job"
	"oxturn/layout/plane"
)

// A room of 3 x 2 m with a door in wall A, a vanity in a corner and a tub: by hand, the
// doorway is seen most, then the wall across from it; the vanity's plinth hides a cut.
func TestSidesByWhatIsSeen(t *testing.T) {
	outline := plane.Rectangle(plane.Pt(0, 0), plane.Pt(3000, 2000))
	r := &job.Room{Outline: outline, Openings: []job.Opening{{Kind: "door", Wall: 0, From: 1800, To: 1000},
		{Kind: "window", Wall: 1, From: 200, To: 900}},
		Fixtures: []job.Fixture{{Kind: job.Vanity, Name: "vanity", Outline: plane.Rectangle(plane.Pt(0, 1500),
			plane.Pt(800, 2000))}, {Kind: job.Toilet, Tiled: true, Outline: outline}}}
	for i := range outline {
		r.Walls = append(r.Walls, job.Wall{Letter: job.WallLetter(i), Segment: outline.Edge(i)})
	}
	type side struct {
		name         string
		length, seen float64
		entry        bool
	}
	var got []side
	for _, s := range append(wallSides(r), standSides(r)...) {
		got = append(got, side{s.Name.String(), s.Length(), s.Seen, s.Entry})
	}
	want := []side{{"wall A", 1000, 0.7, false}, {"wall A", 800, 3, true}, {"wall A", 1200, 0.7, false},
		{"wall B", 2000, 1, false}, {"wall C", 3000, 2, false}, {"wall D", 2000, 1, false},
		{"vanity", 800, 0.5, false}, {"vanity", 500, 0.5, false}, {"vanity", 800, 0.5, false},
		{"vanity", 500, 0.5, false}}
	if len(got) != len(want) {
		t.Fatalf("%v", got)
	}
	for i := range want {
		if got[i] != want[i] {
			t.Errorf("%d: %+v, want %+v", i, got[i], want[i])
		}
	}
	// a door at the end of its wall leaves no side of no length there
	r.Openings = []job.Opening{{Kind: "door", Wall: 0, From: 2200, To: 3000}}
	for _, s := range wallSides(r) {
		if s.Length() < 1 {
			t.Errorf("%+v", s)
		}
	}
}
