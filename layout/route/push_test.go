package route

import (
	"math"
	"slices"
	"testing"

	"github.com/google/go-cmp/cmp"
	"pgregory.net/rapid"

	"oxturn/layout/plane"
)

func TestPush(t *testing.T) {
	turn := []node{{0, 0}, {10, 0}, {10, 3}, {0, 3}} // two runs and the link between them
	for _, c := range []struct {
		name string
		m    push
		want []node
	}{
		{"a turn drawn out", push{1, 0, 3, -1}, []node{{0, 0}, {11, 0}, {11, 3}, {0, 3}}},
		{"a turn drawn in", push{1, 0, 3, 2}, []node{{0, 0}, {8, 0}, {8, 3}, {0, 3}}},
		{"one of its runs drawn out", push{1, 0, 2, -4}, []node{{0, 0}, {14, 0}, {14, 2}, {10, 2}, {10, 3}, {0, 3}}},
		{"a finger", push{0, 2, 5, -2}, []node{{0, 0}, {2, 0}, {2, -2}, {5, -2}, {5, 0}, {10, 0}, {10, 3}, {0, 3}}},
		{"a run moved", push{2, 0, 10, -1}, []node{{0, 0}, {10, 0}, {10, 4}, {0, 4}}},
		{"a run laid on the one before it", push{2, 0, 10, 3}, nil},
	} {
		t.Run(c.name, func(t *testing.T) {
			got, _ := c.m.by(turn, nil)
			if d := cmp.Diff(c.want, got, cmp.AllowUnexported(node{})); d != "" {
				t.Error(d)
			}
		})
	}
}

func TestAllows(t *testing.T) {
	g := newGrid(plane.FromRing(plane.Rectangle(plane.Pt(0, 0), plane.Pt(20, 9))), Lattice{Pitch: 1}, 0)
	rule := rulesFor(Problem{Pitch: 1, Closest: 2, Widest: 5, Bend: 0.5}, Cable{})
	was := []node{{0, 0}, {10, 0}, {10, 3}, {0, 3}, {0, 6}, {12, 6}}
	for _, c := range []struct {
		name string
		m    push
		want bool
	}{
		{"a turn drawn out", push{1, 0, 3, -5}, true},
		{"beyond the floor", push{1, 0, 3, -11}, false},
		{"a run brought too near the next", push{2, 0, 10, -2}, false},
		{"a run moved within the gaps", push{2, 0, 10, -1}, true},
		{"a finger between two runs", push{4, 3, 6, -2}, false},
		{"a finger into open floor", push{4, 3, 6, 2}, true},
		{"a finger too narrow to turn in", push{4, 3, 4, 2}, false},
		{"a step past a turn", push{1, 0, 2, -3}, true},
	} {
		t.Run(c.name, func(t *testing.T) {
			nodes, ok := c.m.by(was, nil)
			if got := ok && rule.allows(g, was, nodes); got != c.want {
				t.Errorf("%v, want %v: %v", got, c.want, nodes)
			}
		})
	}
}

// randomLegs are legs along the raster of a field, some of them beyond it.
func randomLegs(t *rapid.T, name string) []leg {
	return rapid.SliceOfN(rapid.Custom(func(t *rapid.T) leg {
		l := leg{x0: float64(rapid.IntRange(-10, 110).Draw(t, "x")) + 0.5,
			y0: float64(rapid.IntRange(-10, 110).Draw(t, "y"))}
		l.x1, l.y1 = l.x0, l.y0
		if n := rapid.Float64Range(0, 90).Draw(t, "n"); rapid.Bool().Draw(t, "level") {
			l.x1 += n
		} else {
			l.y1 += n
		}
		return l
	}), 2, 6).Draw(t, name)
}

// TestTallyCountsAsTheFieldDoes swaps legs in and out and compares with the
// field's own measures of the legs that are left.
func TestTallyCountsAsTheFieldDoes(t *testing.T) {
	f := newField(plane.FromRing(outline(1, 1000, 1000)), Lattice{Pitch: 30}, 60, 100)
	rapid.Check(t, func(t *rapid.T) {
		a, b := randomLegs(t, "out"), randomLegs(t, "in")
		if rapid.Bool().Draw(t, "alike") { // a leg drawn out, as by a push
			b = slices.Clone(a)
			if l := &b[rapid.IntRange(0, len(b)-1).Draw(t, "which")]; l.level() {
				l.x1 += 7
			} else {
				l.y0 -= 5
			}
		}
		tally := newTally(f)
		tally.swap(nil, a)
		tally.swap(a, b)
		covered, bare := f.covered(b)
		if got := tally.covered(); !near1(got, covered) {
			t.Fatalf("covered %v, the field says %v", got, covered)
		}
		if got, want := tally.uneven(), f.uneven(b); len(b) > 0 && want < 1 && !near1(got, want) {
			t.Fatalf("uneven %v, the field says %v", got, want)
		}
		if got := tally.coldFloor(b, math.Inf(1)).ratio; bare > mildBare && tally.bare < 400 && !near1(got, bare) {
			t.Fatalf("bare %v, the field says %v", got, bare)
		}
	})
}

func near1(a, b float64) bool { return a-b < 1e-6 && b-a < 1e-6 }
