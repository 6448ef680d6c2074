package route

import (
	"slices"
	"testing"

	"oxturn/layout/plane"
)

// Towards a spot go the pushes of a leg's stretches that face it, as far as the
// spot; a leg that ends the path goes as a whole. By hand, on pegs.
func TestPushesTowardsASpot(t *testing.T) {
	p := &polisher{rule: tightRule(), field: &field{spacing: 90, pitch: 30}} // near: six pegs
	p.nodes = []node{{0, 10}, {0, 0}, {20, 0}, {20, 10}}
	for _, c := range []struct {
		name string
		i    int
		x, y float64
		most int // pegs aside, below 0 to the right
		s, t []int
	}{
		{"to the left", 1, 10, 2.3, 3, []int{0, 6, 7, 8, 9, 10}, []int{20, 10, 11, 12, 13, 14}},
		{"to the right", 1, 10, -1, -1, []int{0, 6, 7, 8, 9, 10}, []int{20, 10, 11, 12, 13, 14}},
		{"near its start", 1, 1, 2, 2, []int{0, 1}, []int{20, 1, 2, 3, 4, 5}},
		{"beyond its end", 1, 23, 2, 2, []int{0, 16, 17, 18, 19}, []int{20}},
		{"at the path's end", 2, 22, 5, -2, []int{0}, []int{10}},
		{"too far aside", 1, 10, 6.1, 0, nil, nil}, {"as far as that", 1, 10, 6, 6, []int{0, 6, 7, 8, 9, 10},
			[]int{20, 10, 11, 12, 13, 14}},
		{"too far along", 1, 26.1, 2, 0, nil, nil}, {"too far before", 1, -6.1, 2, 0, nil, nil},
		{"on the leg", 1, 10, 0.4, 0, nil, nil},
	} {
		var want []push
		for h := 1; h <= max(c.most, -c.most); h++ {
			for _, s := range c.s {
				for _, e := range c.t {
					if e-s >= 2 {
						want = append(want, push{c.i, s, e, h * sign(c.most)})
					}
				}
			}
		}
		got := p.towards(c.i, c.x, c.y)
		for _, m := range slices.Concat(got, want) {
			if !slices.Contains(got, m) || !slices.Contains(want, m) {
				t.Errorf("%s: %+v is in one of %d and %d pushes", c.name, m, len(got), len(want))
				break
			}
		}
		if len(got) != len(want) {
			t.Errorf("%s: %d pushes, want %d", c.name, len(got), len(want))
		}
	}
}

func TestPathsOfNoLength(t *testing.T) {
	if s, st := Samples(nil, 15, 5), Stations(nil, 15); len(s)+len(st) != 0 {
		t.Errorf("%v, %v of nothing", s, st)
	}
	one := points(3, 4)
	if s := Samples(one, 15, 5); len(s) != 1 || s[0].At != one[0] || s[0].Along != 0 || Along(one, 15, 7) != one[0] {
		t.Errorf("%v of a point", s)
	}
	for _, n := range []float64{4.9, 5, 5.1, 12} {
		path := points(0, 0, n, 0)
		s := Samples(path, 15, 5)
		for i := 1; i < len(s); i++ {
			if d := s[i].Along - s[i-1].Along; d > 5+1e-9 || d <= 0 || s[i].At.Dist(plane.Pt(s[i].Along, 0)) > 1e-9 {
				t.Errorf("%g mm: %v", n, s)
			}
		}
		if want := int((n-1e-9)/5) + 2; len(s) != want {
			t.Errorf("%g mm: %d places, want %d", n, len(s), want)
		}
	}
}

// The columns where a zone changes shape, and a lane to its open side: a notch of
// three pegs in the middle of the upper half.
func TestEventsOfAZone(t *testing.T) {
	zone, err := plane.FromRing(plane.Rectangle(plane.Pt(0, 0), plane.Pt(600, 300))).Less(
		plane.FromRing(plane.Rectangle(plane.Pt(285, 165), plane.Pt(375, 400))))
	if err != nil {
		t.Fatal(err)
	}
	g := newGrid(zone, Lattice{Pitch: 30}, 0)
	// above the notch's foot pegs 0 to 9 and 13 to 20 are left
	if got := g.events(3, 1); !slices.Equal(got, []int{9, 12}) && !slices.Equal(got, []int{9, 12, 16}) {
		t.Errorf("%v", got)
	}
	for y, row := range g.rows {
		if y > 5 && !slices.Equal(row, []span{{0, 9}, {13, 20}}) || y <= 5 && !slices.Equal(row, []span{{0, 20}}) {
			t.Errorf("row %d: %v", y, row)
		}
	}
}
