package membrane

import (
	"math"
	"testing"

	"pgregory.net/rapid"

	"oxturn/layout/plane"
)

// checkPlan holds a plan to what is true of every one.
func checkPlan(t rapid.TB, p *Plan, rooms []Room) {
	t.Helper()
	if p.Bound > len(p.Packs) {
		t.Errorf("the bound of %d is above the %d used", p.Bound, len(p.Packs))
	}
	for i, r := range rooms {
		checkCover(t, r, p.Rooms[i])
		checkStep(t, r, p.Rooms[i], p.Pitch)
	}
	checkPacks(t, p)
}

// checkCover: every point of the tiled floor but the joints' own width is in
// exactly one piece.
func checkCover(t rapid.TB, r Room, l Laid) {
	t.Helper()
	parts, err := r.bays()
	if err != nil {
		t.Fatal(err)
	}
	want, got := 0.0, 0.0
	for _, part := range parts {
		want += part.Area()
	}
	for i, p := range l.Pieces {
		got += p.Shape.Area()
		for _, q := range l.Pieces[:i] {
			if a, b := p.Shape.Bounds(), q.Shape.Bounds(); a.Min.X > b.Max.X || b.Min.X > a.Max.X ||
				a.Min.Y > b.Max.Y || b.Min.Y > a.Max.Y {
				continue
			}
			if both, err := p.Shape.Meet(q.Shape); err != nil || both.Area() > 1 {
				t.Errorf("%s: pieces %d and %d share %.0f mm² (%v)", r.Name, q.Number, p.Number, both.Area(), err)
			}
		}
	}
	for _, p := range l.Pieces {
		checkNotches(t, p)
	}
	if math.Abs(got-want) > 1+1e-6*want+3*float64(len(l.Pieces)) {
		t.Errorf("%s: pieces cover %.0f mm² of %.0f", r.Name, got, want)
	}
}

// checkNotches: notches lie in their piece, and what they leave of its rectangle is the
// floor that it covers, short of its edges by no more than the trim.
func checkNotches(t rapid.TB, p Piece) {
	t.Helper()
	left, round := p.Length*p.Width, 0.0
	for _, n := range p.Notches {
		if n.From < -1e-6 || n.Low < -1e-6 || n.To > p.Length+1e-6 || n.High > p.Width+1e-6 || n.From >= n.To ||
			n.Low >= n.High {
			t.Errorf("piece %d, %.1f x %.1f mm, has the notch %+v", p.Number, p.Length, p.Width, n)
		}
		left -= (n.To - n.From) * (n.High - n.Low)
	}
	for _, r := range p.Shape.Rings() {
		round += r.Perimeter()
	}
	if area := p.Shape.Area(); !p.Traced && (left > area+notchLeast*round || left < area-2*Trim*round) {
		t.Errorf("piece %d covers %.0f mm² of floor, notches leave %.0f", p.Number, area, left)
	}
}

// checkStep: seams along a strip lie whole pitches from the lattice.
func checkStep(t rapid.TB, r Room, l Laid, pitch float64) {
	t.Helper()
	for _, s := range l.Seams {
		a := s.A.Sub(r.Origin).Rotate(-r.Angle).Mul(1 / pitch)
		b := s.B.Sub(r.Origin).Rotate(-r.Angle).Mul(1 / pitch)
		off := func(p, q float64) float64 { return math.Max(math.Abs(p-math.Round(p)), math.Abs(q-p)) }
		if off(a.X, b.X) > 1e-6 && off(a.Y, b.Y) > 1e-6 {
			t.Errorf("%s: a seam from %v to %v is out of step", r.Name, a, b)
		}
	}
}

// checkPacks: every piece is cut once, within its roll, clear of the others.
func checkPacks(t rapid.TB, p *Plan) {
	t.Helper()
	cut := map[int]int{}
	for i, pack := range p.Packs {
		end := 0.0
		for _, c := range pack.Cuts {
			if c.At < end-1e-6 {
				t.Errorf("roll %d: crosscuts overlap", i+1)
			}
			end = c.At + c.Length
			across := 0.0
			for _, place := range c.Places {
				cut[place.Piece]++
				if place.Length > c.Length+1e-6 || place.At < across-1e-6 {
					t.Errorf("roll %d: piece %d does not lie in its crosscut", i+1, place.Piece)
				}
				across = place.At + place.Width
			}
			if across > p.Usable+1e-6 {
				t.Errorf("roll %d: a crosscut of %.1f mm is wider than the roll", i+1, across)
			}
		}
		if end > p.Stock.Length+1e-6 {
			t.Errorf("roll %d: %.1f mm are cut", i+1, end)
		}
	}
	for _, room := range p.Rooms {
		for _, piece := range room.Pieces { // no longer or wider than the floor that it covers
			var pts []plane.Point
			for _, part := range piece.Shape {
				for _, q := range part.Outer {
					pts = append(pts, q.Rotate(-room.Along))
				}
			}
			if b := plane.Bounds(pts); piece.Length > b.W()+2*shorterBy ||
				piece.Width > b.H()+2*shorterBy { // at both ends
				t.Errorf("piece %d is %.1f x %.1f mm for %.1f x %.1f of floor", piece.Number, piece.Length, piece.Width,
					b.W(), b.H())
			}
		}
	}
	for _, piece := range p.Pieces() {
		if cut[piece.Number] != 1 {
			t.Errorf("piece %d is cut %d times", piece.Number, cut[piece.Number])
		}
		if rounding := 1e-5 * p.Pitch; piece.Length > p.Stock.Length+rounding || piece.Width > p.Stock.Width+rounding ||
			piece.Length > float64(piece.Cells)*p.Pitch+1e-6 || piece.Width > float64(piece.Rows)*p.Pitch+1e-6 {
			t.Errorf("piece %d is %.1f x %.1f mm", piece.Number, piece.Length, piece.Width)
		}
	}
}

// drawRoom draws a room with a bay or a fixture and perhaps a joint, its
// lattice turned and shifted.
func drawRoom(t *rapid.T) Room {
	w, h := rapid.Float64Range(400, 5000).Draw(t, "w"), rapid.Float64Range(400, 4000).Draw(t, "h")
	r := Room{Name: "R", Tiled: floor(w, h)}
	share := func(name string) float64 { return rapid.Float64Range(0.05, 0.95).Draw(t, name) }
	if rapid.Bool().Draw(t, "notch") {
		x, y := w*share("x"), h*share("y")
		r.Tiled = less(t, r.Tiled, x, y, x+w*share("dx")/2, y+h*share("dy")/2)
	}
	for range rapid.IntRange(0, 2).Draw(t, "joints") {
		r.Joints = append(r.Joints, Joint{plane.Segment{A: plane.Pt(w*share("ax"), 0),
			B: plane.Pt(w*share("bx"), h*share("by"))}, 6})
	}
	r.Doorways = []plane.Ring{plane.Rectangle(plane.Pt(w*0.3, 0), plane.Pt(w*0.3+700, 300))}
	r.Angle = rapid.Float64Range(0, math.Pi/2).Draw(t, "angle")
	r.Origin = plane.Pt(rapid.Float64Range(0, 50).Draw(t, "ox"), rapid.Float64Range(0, 50).Draw(t, "oy"))
	return r
}

func TestEveryPlanIsSound(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		in := Input{Pitch: rapid.Float64Range(20, 40).Draw(t, "pitch"), Stock: Stock{
			Width: rapid.Float64Range(500, 1500).Draw(t, "width"), Length: rapid.Float64Range(1000, 15000).Draw(t,
				"length"),
			Sheets: rapid.Bool().Draw(t, "sheets"),
		}}
		for range rapid.IntRange(1, 2).Draw(t, "rooms") {
			in.Rooms = append(in.Rooms, drawRoom(t))
		}
		p, err := Cut(in)
		if err != nil {
			t.Fatal(err)
		}
		checkPlan(t, p, in.Rooms)
	})
}

func TestSameInputSamePlan(t *testing.T) {
	rooms := rapid.Custom(drawRoom)
	for seed := range 15 {
		in := Input{Pitch: 30, Stock: roll, Rooms: []Room{rooms.Example(seed)}}
		a, _ := Cut(in)
		b, _ := Cut(in)
		if len(a.Packs) != len(b.Packs) || a.Taken != b.Taken || len(a.Pieces()) != len(b.Pieces()) {
			t.Errorf("two plans of room %d differ", seed)
		}
	}
}
