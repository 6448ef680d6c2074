package route

import (
	"slices"
	"testing"
)

// TestDearWaysAreLeftOut: ways of laying a row that are listed up to a cost are those of
// the whole list, as far as they cost no more.
func TestDearWaysAreLeftOut(t *testing.T) {
	p := twoCables(t)
	rule := rulesFor(p, p.Cables[0])
	wish := &wishes{strip: newStrip(p.Floor, p.Zones, p.Entry)}
	lists := func(most float32) []outcome {
		w := newSweep(newGrid(p.Zones[0], chooseLattice(p), 0), rule, wish, narrowLook)
		w.aim(3.3)
		y := w.g.ny / 2
		sp := w.g.rows[y][0]
		w.st, w.gap = state{y: int16(y), n: 2, mate: [maxLinks]int8{mateStart, mateEnd}, sx: -1, ex: -1,
			pos: [maxLinks]int16{int16(sp.a), int16(sp.b)}}, 3
		return w.ways(w.placesFor(y, 3), 0, most).outcomes
	}
	all := lists(inf32)
	if len(all) < 10 {
		t.Fatalf("%d ways of laying a row: too few to tell", len(all))
	}
	most := all[len(all)/3].cost
	want := all[:slices.IndexFunc(all, func(o outcome) bool { return o.cost > most })]
	few := lists(most)
	if len(few) == len(all) {
		t.Error("no way was left out")
	}
	if len(few) < len(want) {
		t.Fatalf("%d ways up to %v, want %d", len(few), most, len(want))
	}
	for i, o := range want {
		if few[i].cost != o.cost || few[i].length != o.length {
			t.Errorf("way %d is %+v, in the whole list %+v", i, few[i], o)
		}
	}
}

// TestDearLookOnlyForColdFloor: the widest search of floors that have a route costs more
// than all before it, so that only those ask for it that are not well covered.
func TestDearLookOnlyForColdFloor(t *testing.T) {
	dear := plainLooks[slices.IndexFunc(plainLooks, func(k look) bool { return k.dear })]
	whole := &field{hangs: 1}
	with := func(covered float64) *candidate { return &candidate{score: Score{Covered: covered}} }
	if dear.worthwhile(with(0.99), whole) || !dear.worthwhile(with(0.95), whole) || !dear.worthwhile(nil, whole) {
		t.Error("the dear look is for floors without a route and for those with cold floor")
	}
	if dear.worthwhile(with(0.95), &field{hangs: 0.95}) {
		t.Error("floor that is cut off asks for no dear look")
	}
	if last := plainLooks[len(plainLooks)-1]; last.worthwhile(with(0.95), whole) || !last.worthwhile(nil, whole) {
		t.Error("the last looks are for floors without a route")
	}
}
