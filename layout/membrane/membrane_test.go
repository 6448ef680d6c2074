package membrane

import (
	"math"
	"testing"

	"pgregory.net/rapid"

	"oxturn/layout/plane"
)

// floor is a rectangle with a corner at the origin.
func floor(w, h float64) plane.Region {
	return plane.FromRing(plane.Rectangle(plane.Pt(0, 0), plane.Pt(w, h)))
}

func less(t rapid.TB, a plane.Region, x0, y0, x1, y1 float64) plane.Region {
	t.Helper()
	out, err := a.Less(plane.FromRing(plane.Rectangle(plane.Pt(x0, y0), plane.Pt(x1, y1))))
	if err != nil {
		t.Fatal(err)
	}
	return out
}

// roll is 1 m x 10 m with pegs every 25 mm: 40 rows, 400 pitches long.
var roll = Stock{Width: 1000, Length: 10000}

func cut(t *testing.T, s Stock, rooms ...Room) *Plan {
	t.Helper()
	p, err := Cut(Input{Stock: s, Pitch: 25, Rooms: rooms})
	if err != nil {
		t.Fatal(err)
	}
	checkPlan(t, p, rooms)
	return p
}

func near(t *testing.T, what string, got, want float64) {
	t.Helper()
	if math.Abs(got-want) > 0.01 {
		t.Errorf("%s: got %.3f, want %.3f", what, got, want)
	}
}

// 3 x 2 m: two strips of 3 m, one seam of 3 m, 6 m off one roll. Three strips
// of 2 m would take as much roll but two seams of 2 m.
func TestTwoStripsByHand(t *testing.T) {
	p := cut(t, roll, Room{Name: "R", Tiled: floor(3000, 2000)})
	if len(p.Rooms[0].Pieces) != 2 || len(p.Packs) != 1 || p.Bound != 1 {
		t.Fatalf("%d pieces from %d rolls, bound %d", len(p.Rooms[0].Pieces), len(p.Packs), p.Bound)
	}
	for _, piece := range p.Rooms[0].Pieces {
		near(t, "length, 6 mm short at both ends", piece.Length, 2988)
		near(t, "width, 6 mm short at the wall", piece.Width, 994)
	}
	near(t, "seams", p.Seams(), 3000)
	near(t, "taken", p.Taken, 6e6)
	near(t, "left", p.Packs[0].Left, 4000)
	near(t, "waste", p.Waste(), 0)
}

// 2 x 2.6 m: strips of 2.6 m, since three of 2 m leave a strip of 600.
func TestBetterDirection(t *testing.T) {
	p := cut(t, roll, Room{Name: "R", Tiled: floor(2000, 2600)})
	if len(p.Rooms[0].Pieces) != 2 || math.Abs(p.Rooms[0].Along-math.Pi/2) > 1e-9 {
		t.Errorf("%d pieces along %.2f", len(p.Rooms[0].Pieces), p.Rooms[0].Along)
	}
	near(t, "taken", p.Taken, 5.2e6)
}

// A room of 1.05 x 4 m needs two strips; neither is narrower than can be laid.
func TestNoNarrowStrip(t *testing.T) {
	p := cut(t, roll, Room{Name: "R", Tiled: floor(4000, 1050)})
	for _, piece := range p.Rooms[0].Pieces {
		if piece.Width < Narrowest-Trim {
			t.Errorf("piece %d is %.0f mm wide", piece.Number, piece.Width)
		}
	}
}

// 0.5 x 3 m beside 1 x 3 m: two rooms of half a roll's width share a crosscut.
func TestOffcutsReused(t *testing.T) {
	half := Room{Name: "half", Tiled: floor(3000, 500)}
	p := cut(t, roll, half, half)
	if len(p.Packs) != 1 || len(p.Packs[0].Cuts) != 1 || len(p.Packs[0].Cuts[0].Places) != 2 {
		t.Fatalf("packs %+v", p.Packs)
	}
	near(t, "taken", p.Taken, 3e6)
	near(t, "waste", p.Waste(), 0)
}

// A joint across the strips parts them; its own width stays open, and no piece
// bridges it, whichever way the strips run.
func TestJointIsNotBridged(t *testing.T) {
	for _, j := range []plane.Segment{
		{A: plane.Pt(1800, 0), B: plane.Pt(1800, 2000)},
		{A: plane.Pt(0, 900), B: plane.Pt(3000, 900)},
		{A: plane.Pt(500, 0), B: plane.Pt(2500, 2000)},
		{A: plane.Pt(1500, 0), B: plane.Pt(1500, 1000)}, // ends on the floor: led on
	} {
		room := Room{Name: "R", Tiled: floor(3000, 2000), Joints: []Joint{{j, 6}}}
		p := cut(t, roll, room)
		line := room.extended(0)
		for _, piece := range p.Pieces() {
			if d := piece.Shape; d.Contains(line.At(line.Length() / 2)) {
				t.Errorf("piece %d bridges the joint %v", piece.Number, j)
			}
			left, right := 0, 0
			for _, ring := range piece.Shape.Rings() {
				for _, q := range ring {
					switch side := line.B.Sub(line.A).Unit().Cross(q.Sub(line.A)); {
					case side > 0.1:
						left++
					case side < -0.1:
						right++
					}
				}
			}
			if left > 0 && right > 0 {
				t.Errorf("piece %d lies to both sides of %v", piece.Number, j)
			}
		}
	}
}

// Seams along a joint keep a pitch and more away: the strip beside it is never
// a sliver.
func TestSeamsClearOfJoint(t *testing.T) {
	for y := 300.0; y < 1900; y += 37 {
		line := plane.Segment{A: plane.Pt(0, y), B: plane.Pt(3000, y)}
		p := cut(t, roll, Room{Name: "R", Tiled: floor(3000, 2200), Joints: []Joint{{line, 6}}})
		for _, s := range p.Rooms[0].Seams {
			along := math.Abs(s.B.Sub(s.A).Unit().X) > 0.9
			if d := line.Gap(s.Segment); along && d < 25 {
				t.Errorf("joint at %.0f: a seam runs along it %.1f mm away", y, d)
			}
		}
	}
}

// A doorway 800 wide in the middle of the short wall: no seam runs into it,
// though a seam in the middle would take no more membrane.
func TestSeamsAvoidDoorway(t *testing.T) {
	door := plane.Rectangle(plane.Pt(0, 600), plane.Pt(300, 1400))
	p := cut(t, roll, Room{Name: "R", Tiled: floor(3000, 1900), Doorways: []plane.Ring{door}})
	for _, s := range p.Rooms[0].Seams {
		if s.Doorway {
			t.Errorf("a seam in the doorway: %v", s)
		}
	}
	through := cut(t, roll, Room{Name: "R", Tiled: floor(1990, 1990),
		Doorways: []plane.Ring{plane.Rectangle(plane.Pt(0, 0), plane.Pt(1990, 1990))}})
	if s := through.Rooms[0].Seams; len(s) == 0 || !s[0].Doorway {
		t.Error("a seam that cannot be avoided is not told")
	}
}

// 25 m of floor from rolls of 10 m: pieced twice, never longer than a roll.
func TestLongStripIsPieced(t *testing.T) {
	p := cut(t, roll, Room{Name: "R", Tiled: floor(25000, 1000)})
	if len(p.Pieces()) != 3 || len(p.Packs) != 3 || p.Bound != 3 {
		t.Errorf("%d pieces from %d rolls, bound %d", len(p.Pieces()), len(p.Packs), p.Bound)
	}
	across := 0
	for _, s := range p.Rooms[0].Seams {
		if s.Across {
			across++
		}
	}
	if across != 2 {
		t.Errorf("%d seams across", across)
	}
	for _, piece := range cut(t, roll, Room{Name: "R", Tiled: floor(10020, 1000)}).Pieces() {
		if piece.Length < Narrowest-2*Trim {
			t.Errorf("a piece of %.0f mm is left at the end", piece.Length)
		}
	}
}

// 2.0 x 1.6 m takes four sheets of 1.0 x 0.8 m, whichever way round they are
// given.
func TestSheetsEitherWayRound(t *testing.T) {
	for _, s := range []Stock{{800, 1000, true}, {1000, 800, true}} {
		p := cut(t, s, Room{Name: "R", Tiled: floor(2000, 1600)})
		if len(p.Packs) != 4 || p.Bound != 4 {
			t.Errorf("%v: %d sheets, bound %d", s, len(p.Packs), p.Bound)
		}
	}
}

// A tub's place in the middle of a long room is not covered.
func TestStripLeavesBareFloorOut(t *testing.T) {
	p := cut(t, roll, Room{Name: "R", Tiled: less(t, floor(4000, 1000), 1500, 0, 2500, 1000)})
	near(t, "taken", p.Taken, 3e6)
	if len(p.Pieces()) != 2 {
		t.Errorf("%d pieces", len(p.Pieces()))
	}
}

// A gap of 5 mm beside a tub gets no membrane; one of 40 mm does, and corners
// keep their tips.
func TestSliversAreLeftOut(t *testing.T) {
	for _, c := range []struct{ gap, floor float64 }{{5, 3e6}, {40, 3e6 + 800*40}} {
		p := cut(t, roll, Room{Name: "R", Tiled: less(t, floor(2000, 2300), c.gap, 1500, 2000, 2300)})
		if got := p.Covered; math.Abs(got-c.floor) > 0.0005*c.floor {
			t.Errorf("a gap of %g mm: %.0f mm² covered, want %.0f", c.gap, got, c.floor)
		}
	}
	if p := cut(t, roll, Room{Name: "R", Tiled: floor(10, 2000)}); len(p.Packs) != 0 {
		t.Errorf("a floor of 10 mm takes %d rolls", len(p.Packs))
	}
}

func TestRefusals(t *testing.T) {
	for _, in := range []Input{
		{Pitch: 25},
		{Stock: roll},
		{Stock: Stock{Width: 20, Length: 1000}, Pitch: 25},
		{Stock: Stock{Width: math.Inf(1), Length: 1000}, Pitch: 25},
		{Stock: roll, Pitch: math.NaN()},
		{Stock: roll, Pitch: 1e-3, Rooms: []Room{{Tiled: floor(3000, 2000)}}},
	} {
		if p, err := Cut(in); err == nil {
			t.Errorf("%+v: %+v", in, p)
		}
	}
	if p, err := Cut(Input{Stock: roll, Pitch: 25}); err != nil || len(p.Packs) != 0 {
		t.Errorf("no rooms: %+v, %v", p, err)
	}
}

// Notches worked by hand, from the floor's own figures and a trim of 6 mm: a piece of
// 2000 x 900 mm floor is 1988 x 888 as cut; something 400 x 400 mm at its far side,
// 600 mm from the end, takes 412 mm of that side and 400 mm of depth (406 less the
// trim along the wall), from 588 mm on; one in a corner loses the trim on both
// walls.
func TestNotchesByHand(t *testing.T) {
	for _, c := range []struct {
		x0, y0, x1, y1 float64
		want           Notch
	}{
		{600, 500, 1000, 900, Notch{588, 1000, 488, 888}},
		{0, 0, 300, 200, Notch{0, 300, 0, 200}},
		{800, 300, 1100, 600, Notch{788, 1100, 288, 600}},
	} {
		p, err := Cut(Input{Pitch: 30, Stock: roll,
			Rooms: []Room{{Name: "R", Tiled: less(t, floor(2000, 900), c.x0, c.y0, c.x1, c.y1)}}})
		if err != nil {
			t.Fatal(err)
		}
		pieces := p.Pieces()
		if len(pieces) != 1 || len(pieces[0].Notches) != 1 || pieces[0].Traced {
			t.Fatalf("%+v: %d pieces, %+v", c, len(pieces), pieces[0])
		}
		if n := pieces[0].Notches[0]; math.Abs(n.From-c.want.From)+math.Abs(n.To-c.want.To)+math.Abs(n.Low-c.want.Low)+
			math.Abs(n.High-c.want.High) > 0.01 {
			t.Errorf("%+v, want %+v", n, c.want)
		}
	}
}

// TestNoHairlineIsLeft: a hairline of floor between a fixture and a wall makes no
// piece longer than the floor beside it.
func TestNoHairlineIsLeft(t *testing.T) {
	room := plane.FromRing(plane.Rectangle(plane.Pt(0, 0), plane.Pt(900, 2000)))
	tub, err := room.Less(plane.FromRing(plane.Rectangle(plane.Pt(0, 1500), plane.Pt(899.9, 2000))))
	if err != nil {
		t.Fatal(err)
	}
	left, err := withoutSlivers(tub)
	if err != nil {
		t.Fatal(err)
	}
	if top := left.Bounds().Max.Y; math.Abs(top-1500) > leftOfSliver {
		t.Errorf("the floor reaches %.1f, the tub begins at 1500", top)
	}
	if miss := 900*1500 - left.Area(); math.Abs(miss) > 1 {
		t.Errorf("%.1f mm² of floor lost", miss)
	}
}

// A wall a hair out of square, 0.15 µm over a strip of whole pitches, makes no piece wider than
// the roll: found by the check of every plan.
func TestNoPieceIsWiderThanItsRoll(t *testing.T) {
	room := Room{Name: "R", Tiled: less(t, floor(400, 2662), 72.4, 155.5, 161.2, 785.5), Angle: 4.1e-07,
		Origin: plane.Pt(31, 0), Joints: []Joint{
			{plane.Segment{A: plane.Pt(46.8, 0), B: plane.Pt(40.9, 1682.5)}, 6},
			{plane.Segment{A: plane.Pt(221.7, 0), B: plane.Pt(96.8, 155.5)}, 6},
		}}
	p, err := Cut(Input{Pitch: 37, Stock: Stock{Width: 888, Length: 1000}, Rooms: []Room{room}})
	if err != nil {
		t.Fatal(err)
	}
	checkPlan(t, p, []Room{room})
}

// A piece that differs from its floor by the last bits of a figure has no notch as
// large as itself: found at random.
func TestNoNotchOfAWholePiece(t *testing.T) {
	r := Room{Name: "R", Tiled: floor(3073, 400), Angle: 1.565185546875, Origin: plane.Pt(1, 0.03271484375),
		Joints:   []Joint{{plane.Segment{A: plane.Pt(3073*0.375, 0), B: plane.Pt(3073*0.25, 100)}, 6}},
		Doorways: []plane.Ring{plane.Rectangle(plane.Pt(3073*0.3, 0), plane.Pt(3073*0.3+700, 300))}}
	p, err := Cut(Input{Pitch: 20, Stock: Stock{Width: 500, Length: 1000}, Rooms: []Room{r}})
	if err != nil {
		t.Fatal(err)
	}
	checkPlan(t, p, []Room{r})
}
