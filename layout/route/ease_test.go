package route

import (
	"math"
	"testing"

	"oxturn/layout/plane"
)

// TestEaseByHand counts a path drawn on squared paper, a square a peg: three runs of 12,
// joined by links of 3; from the last one a jog of 2 to a run of 4.
func TestEaseByHand(t *testing.T) {
	var path []plane.Point
	for _, p := range [][2]float64{{0, 0}, {12, 0}, {12, 3}, {0, 3}, {0, 6}, {12, 6}, {12, 8}, {16, 8}} {
		path = append(path, plane.Pt(50*p[0], 50*p[1]))
	}
	got := EaseOf(path, 50, 4)
	want := Ease{Long: 36.0 / 48, Runs: 4, Short: 1, Jogs: 1, Directions: 1, Block: 3}
	if math.Abs(got.Long-want.Long) > 1e-12 {
		t.Errorf("%.4f of it in long runs, want %.4f", got.Long, want.Long)
	}
	if got.Long = want.Long; got != want {
		t.Errorf("%+v, want %+v", got, want)
	}
}

// TestSpiralHasTwoDirections: runs of a spiral lie both ways, none as long as the last.
func TestSpiralHasTwoDirections(t *testing.T) {
	path := []plane.Point{plane.Pt(0, 0), plane.Pt(30, 0), plane.Pt(30, 30), plane.Pt(2, 30), plane.Pt(2, 4),
		plane.Pt(26, 4)}
	if e := EaseOf(path, 1, 2); e.Directions != 2 || e.Runs != 5 || e.Block != 2 || e.Long != 1 {
		t.Errorf("%+v", e)
	}
}

// TestJogsCount: two paths of equal legs and turns, of which one steps aside between runs that go
// on the same way: what it asks more is the jog's, and asked alike where its path lies on pegs.
func TestJogsCount(t *testing.T) {
	f := newField(plane.FromRing(plane.Rectangle(plane.Pt(0, 0), plane.Pt(900, 600))), Lattice{Pitch: 30}, 60, 90)
	jog := []node{{2, 2}, {14, 2}, {14, 4}, {24, 4}, {24, 7}, {3, 7}}
	none := []node{{2, 2}, {14, 2}, {14, 4}, {4, 4}, {4, 7}, {25, 7}}
	asks := func(nodes []node) (onFloor, onPegs float64) {
		var path []plane.Point
		for _, n := range nodes {
			path = append(path, plane.Pt(30*float64(n.x), 30*float64(n.y)))
		}
		s := f.judge(path, math.Inf(1))
		onFloor = s.Total - 100*(1-s.Covered) - weighBare*max(0, s.Bare-1.5) - weighUneven*s.Evenness
		p := &polisher{rule: plainRule(), field: f}
		_, onPegs = p.alongScore(nodes, float64(pegs(nodes[4], nodes[5])))
		return onFloor, onPegs
	}
	const metres = 48 * 0.03
	for _, c := range []struct {
		name  string
		nodes []node
		want  float64 // but for legs under 500 mm
	}{{"jog", jog, (4*weighTurns + weighJogs) / metres}, {"none", none, 4 * weighTurns / metres}} {
		short := 0.0
		for i := 1; i < len(c.nodes); i++ {
			if n := pegs(c.nodes[i-1], c.nodes[i]); n < 17 {
				short += float64(n) / 48
			}
		}
		c.want += weighShort * short
		if floor, pegs := asks(c.nodes); math.Abs(floor-c.want) > 1e-9 || math.Abs(pegs-c.want) > 1e-9 {
			t.Errorf("%s: %.4f on the floor, %.4f on pegs, want %.4f", c.name, floor, pegs, c.want)
		}
	}
}
