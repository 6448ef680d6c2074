package sheets

import (
	"strconv"
	"strings"
	"testing"

	"oxturn/layout/language"
	"oxturn/layout/tiling"
)

// TestEveryRowIsNumbered: what is looked up by its row is found without counting, though first tiles are cut narrow.
func TestEveryRowIsNumbered(t *testing.T) {
	d := example(t, "bath")
	for i := range d.plan.Rooms[0].Tiles[0].Numbers.Rows {
		if name := "R" + strconv.Itoa(i+1); !has(sheet(t, d.set, "tile-plan"), name) {
			t.Errorf("the bath's tile plan has no %s", name)
		}
	}
}

// Every tile plan says that it is proposed, which tiles lie over sensors and ends, and where
// the start lines are: by hand the entry's first row begins 6 mm off wall A, so that row 7
// begins 6 + 6 x 303 = 1824 off it and its joint's middle is 1822.5.
func TestTilePlanSheet(t *testing.T) {
	for _, name := range examples {
		d := example(t, name)
		r := &d.plan.Rooms[0]
		s := sheet(t, d.set, "tile-plan")
		for _, want := range []string{"PROPOSED", "Start lines, proposed", "Under which tile"} {
			if !strings.Contains(said(s), want) {
				t.Errorf("%s: no %q", name, want)
			}
		}
		for _, x := range r.Sensors {
			at, ok := r.Tiles[0].Numbers.At(x.Tip)
			if !ok || !has(s, "R"+strconv.Itoa(at.Row)) || !has(s, x.Name) {
				t.Errorf("%s: %s is under %v", name, x.Name, at)
			}
		}
	}
	if s := sheet(t, example(t, "entry").set, "tile-plan"); !has(s, "1822") && !has(s, "1823") {
		t.Error("the entry's start line is not 1822.5 off wall A")
	}
}

// Which tile lies over a point is told by walking over the pieces as well.
func TestCoveredTiles(t *testing.T) {
	for _, name := range examples {
		v := newTileView(&example(t, name).plan.Rooms[0], language.English)
		for _, c := range v.over {
			ring, ok := v.Numbers.Outline(c.place)
			if !c.named || !ok || ring[0].Dist(c.tile[0]) > 1 {
				t.Errorf("%s: %s under %v, whose corners are %v, not %v", name, c.what, c.place, ring, c.tile)
			}
		}
		if want := len(v.room.Sensors) + 2*len(v.room.Cables); len(v.over) != want {
			t.Errorf("%s: %d things are covered, want %d", name, len(v.over), want)
		}
	}
}

// A layout as recorded is said to be so, and nothing is proposed or compared.
func TestRecordedTilePlan(t *testing.T) {
	r := example(t, "bath").plan.Rooms[0]
	one := r.Tiles[0]
	one.Recorded = true
	r.Tiles = []tiling.Layout{one}
	v := newTileView(&r, language.English)
	if !v.Recorded || len(v.compared(nil)) != 0 {
		t.Error("compared although recorded")
	}
}
