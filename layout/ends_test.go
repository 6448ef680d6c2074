package layout_test

import (
	"strings"
	"testing"

	"oxturn/layout"
	"oxturn/layout/plane"
)

// A twin cable has a joint and a cap, a single conductor two joints, each with its
// lead (common practice).
func TestEnds(t *testing.T) {
	twin := layout.Cable{Path: []plane.Point{{X: 1}, {X: 2}, {X: 3}}, ColdLead: []plane.Point{{}, {X: 1}}}
	single := twin
	single.Return = []plane.Point{{X: 3}, {Y: 1}, {}}
	for _, c := range []struct {
		cable  layout.Cable
		joints int
		name   string
	}{{twin, 1, "end cap"}, {single, 2, "second lead joint"}} {
		joined, ends := c.cable.Joined(), c.cable.Ends()
		if len(joined) != c.joints {
			t.Errorf("%+v: %d joints", c.cable, len(joined))
		}
		if ends[1].Name != c.name || ends[1].Tag != "END" || ends[0].At.X != 1 || ends[1].At.X != 3 ||
			ends[1].Capped() != (c.cable.Return == nil) {
			t.Errorf("ends %+v", ends)
		}
	}
}

// The end's name in tables is the last word of its name.
func TestEndsInShort(t *testing.T) {
	for _, back := range [][]plane.Point{nil, {{X: 3}, {}}} {
		c := layout.Cable{Path: []plane.Point{{X: 1}, {X: 3}}, Return: back}
		for _, end := range c.Ends() {
			if !strings.HasSuffix(end.Name, " "+end.Short) {
				t.Errorf("%q in short: %q", end.Name, end.Short)
			}
		}
	}
}
