package photo

import (
	"errors"
	"fmt"
	"image"
	"math"
	"testing"

	"oxturn/layout/plane"
)

// seenBy are pairs of a size of picture by a map of floor to pixels, row by row.
func seenBy(h [9]float64, floor ...plane.Point) (out []Pair) {
	for _, p := range floor {
		w := h[6]*p.X + h[7]*p.Y + h[8]
		out = append(out, Pair{Pixel{X: (h[0]*p.X + h[1]*p.Y + h[2]) / w, Y: (h[3]*p.X + h[4]*p.Y + h[5]) / w}, p})
	}
	return out
}

var (
	pictureSize = image.Pt(1000, 800)
	corners     = []plane.Point{{X: 0, Y: 0}, {X: 1600, Y: 100}, {X: 1500, Y: 1300}, {X: 200, Y: 1200}}
	moreFloor   = append(append([]plane.Point(nil), corners...), plane.Pt(800, 500), plane.Pt(1100, 900),
		plane.Pt(400, 300), plane.Pt(300, 800))
	slanted = [9]float64{0.5, 0.1, 60, 0.05, -0.42, 700, 1e-4, 2e-4, 1}
)

// TestBeginIsExact: where nothing is misread the direct linear transformation is the map.
func TestBeginIsExact(t *testing.T) {
	for n := 4; n <= len(moreFloor); n++ {
		f := &Fit{Pairs: seenBy(slanted, moreFloor[:n]...), size: pictureSize, half: math.Hypot(1000, 800) / 2}
		f.normalise()
		if !f.begin() || f.squares(&f.model) > 1e-18 {
			t.Errorf("%d points: squares of %g are left", n, f.squares(&f.model))
		}
	}
	f := &Fit{Pairs: seenBy(slanted, plane.Pt(100, 200), plane.Pt(500, 200), plane.Pt(500, 600), plane.Pt(100, 600))}
	f.normalise()
	if f.middle.Dist(plane.Pt(300, 400)) > 1e-9 || math.Abs(f.unit-200) > 1e-9 {
		t.Errorf("a square of 400 mm: about %v, by %g", f.middle, f.unit)
	}
}

// TestLeast: no small change of any parameter leaves less in the picture than the fit.
func TestLeast(t *testing.T) {
	for n := 5; n <= len(moreFloor); n++ {
		pairs := seenBy(slanted, moreFloor[:n]...)
		for i := range pairs {
			pairs[i].Image = pairs[i].Image.Add(Pixel{X: float64(i*7%5) - 2, Y: float64(i*5%7) - 3}.Mul(1.5))
		}
		f := fitted(pictureSize, pairs)
		if f.LensKnown != (n >= 7) || (f.Lens != 0) != f.LensKnown {
			t.Errorf("%d points: lens %g", n, f.Lens)
		}
		sum, parameters := f.squares(&f.model), len(f.spread)
		if want := 8 + map[bool]int{true: 1}[n >= 7]; parameters != want || f.Free != 2*n-want {
			t.Errorf("%d points: %d parameters, %d left over", n, parameters, f.Free)
		}
		for i := range parameters {
			for _, by := range []float64{-1e-4, 1e-4} {
				step := make([]float64, parameters)
				step[i] = by
				next := f.model.moved(step)
				if now := f.squares(&next); now <= sum {
					t.Errorf("%d points, parameter %d: %g in place of %g", n, i, now, sum)
				}
			}
		}
	}
}

// TestFourPointsByTheirPlace: 3 mm of tape are, in the picture, that by the root of how an area
// about the middle of the points is shown there: the determinant of the map over w³.
func TestFourPointsByTheirPlace(t *testing.T) {
	for _, h := range []([9]float64){slanted, {0.3, 0.3, 100, 0.2, -0.2, 400, 0, 0, 1}, {0, 0.4, 100, 0.4, 0, 60, 0, 0,
		1},
		{0.4, 0.1, 50, -0.2, -0.3, 700, 0, 0, 1}} {
		f, err := FitTo(pictureSize, seenBy(h, corners...))
		if err != nil {
			t.Errorf("%v: %v", h, err)
			continue
		}
		w := h[6]*f.middle.X + h[7]*f.middle.Y + h[8]
		det := h[0]*(h[4]*h[8]-h[5]*h[7]) - h[1]*(h[3]*h[8]-h[5]*h[6]) + h[2]*(h[3]*h[7]-h[4]*h[6])
		if got, want := f.sigma*f.half, 3*math.Sqrt(math.Abs(det)/(w*w*w)); math.Abs(got-want) > 1e-6*want {
			t.Errorf("%v: %g px, want %g", h, got, want)
		}
	}
}

// TestFromBelow: seen from above a floor keeps the way round it, however the picture is turned;
// y goes up on the one and down in the other.
func TestFromBelow(t *testing.T) {
	for deg := 0; deg < 360; deg += 30 {
		s, c := plane.Sincos(float64(deg) * math.Pi / 180)
		s, c = 0.3*s, 0.3*c
		middle := plane.Pt(800, 650)
		turned := func(a, b, d, e float64) [9]float64 {
			return [9]float64{a, b, 500 - a*middle.X - b*middle.Y, d, e, 400 - d*middle.X - e*middle.Y, 0, 0, 1}
		}
		if _, err := FitTo(pictureSize, seenBy(turned(c, s, s, -c), corners...)); err != nil {
			t.Errorf("turned by %d: %v", deg, err)
		}
		_, err := FitTo(pictureSize, seenBy(turned(c, -s, s, c), corners...))
		var f *Fault
		if !errors.As(err, &f) || f.Trouble != Mirrored && f.Trouble != Exchanged {
			t.Errorf("in a mirror, turned by %d: %v", deg, err)
		}
	}
}

// TestOnALineByHand: three places are on a line where the triangle is no higher than a fiftieth
// of its longest side.
func TestOnALineByHand(t *testing.T) {
	for _, c := range []struct {
		long, high float64
		want       bool
	}{{100, 1.9, true}, {100, 2, true}, {100, 2.1, false}, {1000, 19, true}, {1000, 21, false}, {10, 0.19, true},
		{10, 0.21, false}, {1, 0, true}} {
		for _, sign := range []float64{1, -1} {
			a, b, m := plane.Pt(3, 4), plane.Pt(3+c.long, 4), plane.Pt(3+c.long/2, 4+sign*c.high)
			for _, p := range [][3]plane.Point{{a, b, m}, {m, a, b}, {b, m, a}, {a, m, b}} {
				if onLine(p[0], p[1], p[2]) != c.want {
					t.Errorf("%g long, %g high, as %v: %v", c.long, c.high, p, !c.want)
				}
			}
		}
	}
}

// TestPlacedByHand: four of which three are on a line settle nothing, whichever three; two are
// one place within a pixel or a millimetre.
func TestPlacedByHand(t *testing.T) {
	line := []plane.Point{{X: 100, Y: 100}, {X: 500, Y: 300}, {X: 900, Y: 500}}
	off := plane.Pt(300, 700)
	for _, c := range []struct {
		out  int // the place of the one that is not on the line
		want string
	}{{0, "[1 2 3]"}, {1, "[0 2 3]"}, {2, "[0 1 3]"}, {3, "[0 1 2]"}} {
		floor := append([]plane.Point(nil), line[:c.out]...)
		floor = append(append(floor, off), line[c.out:]...)
		fault := placed(pictureSize, seenBy(slanted, floor...))
		if fault == nil || fault.Trouble != OnALine || fmt.Sprint(fault.Points) != c.want {
			t.Errorf("number %d is off the line: %+v", c.out, fault)
		}
		// on a line in the picture alone, or on the floor alone
		pairs := seenBy(slanted, floor...)
		for i := range pairs {
			pairs[i].Floor = corners[i]
		}
		if fault := placed(pictureSize, pairs); fault == nil || fmt.Sprint(fault.Points) != c.want {
			t.Errorf("number %d is off the line in the picture: %+v", c.out, fault)
		}
		pairs = seenBy(slanted, corners...)
		for i := range pairs {
			pairs[i].Floor = floor[i]
		}
		if fault := placed(pictureSize, pairs); fault == nil || fmt.Sprint(fault.Points) != c.want {
			t.Errorf("number %d is off the line on the floor: %+v", c.out, fault)
		}
		if fault := placed(pictureSize, seenBy(slanted, append(floor, plane.Pt(800, 1000))...)); fault != nil {
			t.Errorf("number %d is off the line, and a fifth: %+v", c.out, fault)
		}
	}
	base := seenBy(slanted, corners...)
	for _, c := range []struct {
		image, floor float64
		want         bool
	}{{0.99, 50, true}, {1.01, 50, false}, {50, 0.99, true}, {50, 1.01, false}, {1.01, 1.01, false}, {0, 0, true}} {
		twin := Pair{base[1].Image.Add(Pixel{X: -c.image}), base[1].Floor.Add(plane.Pt(0, c.floor))}
		fault := placed(pictureSize, append(append([]Pair(nil), base...), twin))
		if same := fault != nil && fault.Trouble == SamePlace && fmt.Sprint(fault.Points) == "[1 4]"; same != c.want {
			t.Errorf("%g px and %g mm apart: %+v", c.image, c.floor, fault)
		}
	}
}

// TestHowFarOff: a fault says by how much, where that can be said.
func TestHowFarOff(t *testing.T) {
	fault := func(pairs []Pair) *Fault {
		t.Helper()
		_, err := FitTo(pictureSize, pairs)
		var f *Fault
		if !errors.As(err, &f) {
			t.Fatalf("%v", err)
		}
		return f
	}
	pairs := seenBy(slanted, moreFloor[:5]...) // of five none can be told
	pairs[4].Floor = pairs[4].Floor.Add(plane.Pt(700, 600))
	if f := fault(pairs); f.Trouble != Scattered || f.By < MostOff || f.Points != nil {
		t.Errorf("one of five: %+v", f)
	}
	// a mirror in which nothing fits is none
	mirror := slanted
	mirror[3], mirror[4], mirror[5] = 0.05, 0.42, 60
	pairs = seenBy(mirror, moreFloor[:5]...)
	if f := fault(pairs); f.Trouble != Mirrored || f.By != 0 {
		t.Errorf("in a mirror: %+v", f)
	}
	pairs[4].Floor = pairs[4].Floor.Add(plane.Pt(400, -400))
	if f := fault(pairs); f.Trouble != Scattered {
		t.Errorf("in a mirror, and off: %+v", f)
	}
}

// TestSixMillimetres: a cable is told where its 6 mm are a pixel.
func TestSixMillimetres(t *testing.T) {
	for each, want := range map[float64]bool{5.9: true, 6.1: false} { // mm a pixel
		f, err := FitTo(pictureSize, seenBy([9]float64{1 / each, 0, 100, 0, -1 / each, 400, 0, 0, 1}, corners...))
		if err != nil {
			t.Fatal(err)
		}
		for _, across := range []plane.Point{{X: 1}, {Y: 1}, {X: 0.6, Y: 0.8}} {
			if got := f.Sees(plane.Pt(800, 600), across); got != want {
				t.Errorf("%g mm a pixel, across %v: %v", each, across, got)
			}
		}
	}
}
