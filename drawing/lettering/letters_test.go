package lettering

import (
	"testing"

	"oxturn/drawing"
)

func at(x, y float64) Spot { return Spot{At: drawing.Pt{X: x, Y: y}} }

// TestPlaceCheapest: a label takes its cheapest free spot, not its first.
func TestPlaceCheapest(t *testing.T) {
	ls := New(drawing.Box{X1: 100, Y1: 100})
	dear := at(20, 20)
	dear.Cost = 5
	l := &Label{Text: "S1", Height: 2.5, Spots: []Spot{dear, at(60, 60)}}
	ls.Add(l)
	ls.Place()
	if l.At != 1 {
		t.Errorf("took spot %d", l.At)
	}
}

// TestPlaceOverLines: walls are never lettered over, cable only where there is
// nothing better, and then with a knock-out.
func TestPlaceOverLines(t *testing.T) {
	field := drawing.Box{X1: 100, Y1: 100}
	ls := New(field)
	ls.Ink.Line([]drawing.Pt{{X: 0, Y: 19}, {X: 100, Y: 19}}, SolidInk)
	ls.Ink.Line([]drawing.Pt{{X: 0, Y: 59}, {X: 100, Y: 59}}, CableInk)
	l := &Label{Text: "END", Height: 2.5, Spots: []Spot{at(20, 20), at(60, 60)}}
	ls.Add(l)
	ls.Place()
	if l.At != 1 {
		t.Fatalf("took spot %d, over a wall", l.At)
	}
	items, _ := ls.Drawn()
	if tx := (&drawing.Sheet{Items: items}).Texts(); len(tx) != 1 || tx[0].Knockout == 0 {
		t.Errorf("lettering over cable has no knock-out: %+v", tx)
	}
}

// TestLeaderBesideCable: a leader that runs along a cable could be taken for it,
// so that a longer one across white is better.
func TestLeaderBesideCable(t *testing.T) {
	ls := New(drawing.Box{X1: 100, Y1: 100})
	ls.Ink.Line([]drawing.Pt{{X: 20, Y: 0}, {X: 20, Y: 100}}, CableInk)
	along, across := at(26, 39), at(40, 51)
	along.Leader = []drawing.Pt{{X: 20.3, Y: 50}, {X: 20.3, Y: 40}}
	across.Leader = []drawing.Pt{{X: 20.3, Y: 50}, {X: 34, Y: 50}}
	l := &Label{Text: "1/2", Height: 2.5, Spots: []Spot{along, across}}
	ls.Add(l)
	ls.Place()
	if l.At != 1 {
		t.Errorf("took spot %d", l.At)
	}
}

// TestReadsAsOne: lettering keeps so far from other lettering that the two are
// not read together, beside it or over it, and the letter of a wall from names
// that begin with it.
func TestReadsAsOne(t *testing.T) {
	for _, c := range []struct {
		text  string
		shy   float64
		near  Spot
		moves bool
	}{
		{"1/2", 0, at(27, 20), true}, {"+1200", 0, at(20, 23.6), true}, {"1/2", 0, at(40, 20), false},
		{"S", 8, at(20, 26), true}, {"S", 0, at(20, 26), false}, {"B", 8, at(20, 26), false},
	} {
		ls := New(drawing.Box{X1: 100, Y1: 100})
		far := at(60, 60)
		far.Cost = 3
		ls.Add(&Label{Text: "S1", Height: 2.5, Rank: 1, Spots: []Spot{at(20, 20)}})
		l := &Label{Text: c.text, Height: 2.5, Rank: 2, Subject: drawing.Pt{X: 1}, Shy: c.shy,
			Spots: []Spot{c.near, far}}
		ls.Add(l)
		ls.Place()
		if (l.At == 1) != c.moves {
			t.Errorf("%q at %v: took spot %d", c.text, c.near.At, l.At)
		}
	}
}

// TestPush: a label with one spot gets it from a label that has another.
func TestPush(t *testing.T) {
	ls := New(drawing.Box{X1: 100, Y1: 100})
	first := &Label{Text: "START", Height: 2.5, Rank: 1, Spots: []Spot{at(20, 20), at(60, 60)}}
	second := &Label{Text: "S1", Height: 2.5, Rank: 2, Spots: []Spot{at(21, 20)}}
	ls.Add(first)
	ls.Add(second)
	ls.Place()
	if first.At != 1 || second.At != 0 {
		t.Errorf("spots %d and %d", first.At, second.At)
	}
}

// TestHomeless: what finds no spot is handed back for a note; what is optional
// is not.
func TestHomeless(t *testing.T) {
	ls := New(drawing.Box{X1: 10, Y1: 10})
	ls.Ink.Mark(drawing.Box{X1: 10, Y1: 10})
	ls.Add(&Label{Text: "S1", Height: 2.5, Spots: []Spot{at(5, 5)}, Note: "sensor S1"})
	ls.Add(&Label{Text: "5", Height: 2.5, Spots: []Spot{at(5, 5)}, Option: true})
	ls.Add(&Label{Text: "S2", Height: 2.5, Note: "sensor S2"})
	ls.Place()
	if h := ls.Homeless(); len(h) != 2 || h[0].Note != "sensor S1" || h[1].Note != "sensor S2" {
		t.Errorf("homeless: %d", len(h))
	}
}

// TestLeaderKeepsOffText: a leader does not run through other lettering.
func TestLeaderKeepsOffText(t *testing.T) {
	ls := New(drawing.Box{X1: 100, Y1: 100})
	ls.Add(&Label{Text: "in the way", Height: 2.5, Rank: 1, Spots: []Spot{at(50, 50)}})
	s := at(50, 20)
	s.Leader = []drawing.Pt{{X: 50, Y: 80}, {X: 50, Y: 22}}
	l := &Label{Text: "S1", Height: 2.5, Rank: 2, Spots: []Spot{s}}
	ls.Add(l)
	ls.Place()
	if l.At >= 0 {
		t.Error("the leader runs through lettering")
	}
}

func TestClipPiece(t *testing.T) {
	b := drawing.Box{X0: 10, Y0: 10, X1: 20, Y1: 20}
	for _, c := range []struct {
		p, q, from, to drawing.Pt
		ok             bool
	}{
		{drawing.Pt{X: 0, Y: 15}, drawing.Pt{X: 30, Y: 15}, drawing.Pt{X: 10, Y: 15}, drawing.Pt{X: 20, Y: 15}, true},
		{drawing.Pt{X: 12, Y: 12}, drawing.Pt{X: 14, Y: 14}, drawing.Pt{X: 12, Y: 12}, drawing.Pt{X: 14, Y: 14}, true},
		{drawing.Pt{X: 0, Y: 0}, drawing.Pt{X: 30, Y: 30}, drawing.Pt{X: 10, Y: 10}, drawing.Pt{X: 20, Y: 20}, true},
		{drawing.Pt{X: 0, Y: 15}, drawing.Pt{X: 5, Y: 15}, drawing.Pt{}, drawing.Pt{}, false},
		{drawing.Pt{X: 0, Y: 18}, drawing.Pt{X: 14, Y: 32}, drawing.Pt{}, drawing.Pt{}, false},
	} {
		from, to, ok := b.Clip(c.p, c.q)
		if ok != c.ok || ok && (from.Dist(c.from) > 1e-9 || to.Dist(c.to) > 1e-9) {
			t.Errorf("%v to %v: %v to %v, %v", c.p, c.q, from, to, ok)
		}
	}
}
