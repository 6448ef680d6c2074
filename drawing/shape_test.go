package drawing

import (
	"fmt"
	"math"
	"testing"

	"pgregory.net/rapid"
)

// radii returns the smallest and largest distance of a line from c.
func radii(segs []Seg, c Pt) (lo, hi float64) {
	lo = math.Inf(1)
	for _, line := range Flatten(segs, 1e-4) {
		for _, p := range line {
			lo, hi = math.Min(lo, p.Dist(c)), math.Max(hi, p.Dist(c))
		}
	}
	return lo, hi
}

func TestArcStaysOnItsCircle(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		r := rapid.Float64Range(0.1, 2000).Draw(t, "r")
		from := rapid.Float64Range(-360, 360).Draw(t, "from")
		to := from + rapid.Float64Range(-360, 360).Draw(t, "sweep")
		c := Pt{X: 12, Y: -7}
		lo, hi := radii(Arc(c, r, from, to), c)
		if lo < r-0.01 || hi > r+0.01 {
			t.Fatalf("radius %v: arc between %v and %v", r, lo, hi)
		}
	})
}

func TestArcEnds(t *testing.T) {
	for _, c := range []struct {
		from, to   float64
		start, end Pt
	}{
		{0, 90, Pt{X: 10, Y: 0}, Pt{X: 0, Y: -10}}, // counter-clockwise: up on paper is -y
		{90, 0, Pt{X: 0, Y: -10}, Pt{X: 10, Y: 0}}, // and back
		{180, 270, Pt{X: -10, Y: 0}, Pt{X: 0, Y: 10}},
		{0, 360, Pt{X: 10, Y: 0}, Pt{X: 10, Y: 0}},
	} {
		segs := Arc(Pt{}, 10, c.from, c.to)
		if got := segs[0].To; got.Dist(c.start) > 1e-12 {
			t.Errorf("arc %v to %v starts at %v, want %v", c.from, c.to, got, c.start)
		}
		if got := segs[len(segs)-1].To; got.Dist(c.end) > 1e-12 {
			t.Errorf("arc %v to %v ends at %v, want %v", c.from, c.to, got, c.end)
		}
	}
	up := Flatten(Arc(Pt{}, 10, 0, 180), 0.01)[0]
	if mid := up[len(up)/2]; mid.Dist(Pt{X: 0, Y: -10}) > 0.5 {
		t.Errorf("half a turn counter-clockwise passes %v, want the top", mid)
	}
}

// length returns the length of a line, curves to a micrometre.
func length(segs []Seg) float64 {
	sum := 0.0
	for _, line := range Flatten(segs, 1e-5) {
		for i := 1; i < len(line); i++ {
			sum += line[i].Dist(line[i-1])
		}
	}
	return sum
}

func TestRoundedLength(t *testing.T) {
	// A square corner rounded to r is shorter by (2 - pi/2) r.
	for _, c := range []struct {
		name string
		pts  []Pt
		r    float64
		want float64
	}{
		{"one corner", []Pt{{X: 0, Y: 0}, {X: 30, Y: 0}, {X: 30, Y: 30}}, 5, 60 - (2-math.Pi/2)*5},
		{"two corners that share a line", []Pt{{X: 0, Y: 0}, {X: 30, Y: 0}, {X: 30, Y: 4}, {X: 0, Y: 4}}, 2,
			64 - 2*(2-math.Pi/2)*2},
		{"too close: the radius gives way", []Pt{{X: 0, Y: 0}, {X: 30, Y: 0}, {X: 30, Y: 4}, {X: 0, Y: 4}}, 9,
			64 - 2*(2-math.Pi/2)*2},
		{"straight on", []Pt{{X: 0, Y: 0}, {X: 10, Y: 0}, {X: 30, Y: 0}}, 5, 30},
		{"straight back", []Pt{{X: 0, Y: 0}, {X: 10, Y: 0}, {X: 0, Y: 0}}, 5, 20},
		{"a turn of 60 degrees", []Pt{{X: 0, Y: 0}, {X: 30, Y: 0}, {X: 30 + 30*0.5, Y: 30 * math.Sqrt(3) / 2}}, 6,
			60 - 2*6*math.Tan(math.Pi/6) + 6*math.Pi/3},
		{"a turn of 135 degrees", []Pt{{X: 0, Y: 0}, {X: 30, Y: 0}, {X: 0, Y: 30}}, 3,
			30 + 30*math.Sqrt2 - 2*3*math.Tan(math.Pi*3/8) +
				3*math.Pi*3/4},
		{"points that repeat", []Pt{{X: 0, Y: 0}, {X: 0, Y: 0}, {X: 30, Y: 0}, {X: 30, Y: 0}, {X: 30, Y: 30}}, 5,
			60 - (2-math.Pi/2)*5},
		{"no radius", []Pt{{X: 0, Y: 0}, {X: 30, Y: 0}, {X: 30, Y: 30}}, 0, 60},
		{"one point", []Pt{{X: 3, Y: 3}}, 5, 0},
		{"none", nil, 5, 0},
	} {
		if got := length(Rounded(c.pts, c.r)); math.Abs(got-c.want) > 2e-3 {
			t.Errorf("%s: length %v, want %v", c.name, got, c.want)
		}
	}
}

func TestRoundedKeepsRadiusAndEnds(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		turn := rapid.Float64Range(-170, 170).Draw(t, "turn")
		r := rapid.Float64Range(0.5, 20).Draw(t, "r")
		arm := 1 + r*math.Abs(math.Tan(turn*math.Pi/360))
		a, p := Pt{X: -arm, Y: 0}, Pt{X: 0, Y: 0}
		b := Turned(Pt{X: arm, Y: 0}, turn)
		segs := Rounded([]Pt{a, p, b}, r)
		if segs[0].To != a || segs[len(segs)-1].To != b {
			t.Fatalf("ends moved: %v", segs)
		}
		if math.Abs(turn) < 1e-3 {
			return
		}
		// every place on the bend is r from the centre of the inscribed circle
		side := math.Copysign(1, turn)
		c := Pt{X: -r * math.Abs(math.Tan(turn*math.Pi/360)), Y: -r * side}
		lo, hi := radii(append([]Seg{{Op: Move, To: segs[1].To}}, segs[2:len(segs)-1]...), c)
		if lo < r-0.01 || hi > r+0.01 {
			t.Fatalf("turn %v: bend of %v lies between %v and %v of its centre", turn, r, lo, hi)
		}
	})
}

func TestPathBox(t *testing.T) {
	for _, c := range []struct {
		name string
		segs []Seg
		want Box
	}{
		{"circle", Circle(Pt{X: 5, Y: 5}, 2), Box{3, 3, 7, 7}},
		{"quarter", Arc(Pt{X: 0, Y: 0}, 10, 0, 90), Box{0, -10, 10, 0}},
		{"over the top", Arc(Pt{X: 0, Y: 0}, 10, 45, 135), Box{-10 / math.Sqrt2, -10, 10 / math.Sqrt2,
			-10 / math.Sqrt2}},
		{"rectangle", Rectangle(Box{1, 2, 3, 4}), Box{1, 2, 3, 4}},
		{"nothing", nil, Box{}},
	} {
		got := PathBox(c.segs)
		for _, d := range []float64{got.X0 - c.want.X0, got.Y0 - c.want.Y0, got.X1 - c.want.X1, got.Y1 - c.want.Y1} {
			if math.Abs(d) > 0.003 {
				t.Errorf("%s: %v, want %v", c.name, got, c.want)
			}
		}
	}
}

// The exact box must hold every point of a finely cut curve, and touch it.
func TestPathBoxAgainstFlattening(t *testing.T) {
	coord := rapid.Float64Range(-50, 50)
	rapid.Check(t, func(t *rapid.T) {
		pt := func(name string) Pt { return Pt{X: coord.Draw(t, name+"x"), Y: coord.Draw(t, name+"y")} }
		segs := []Seg{{Op: Move, To: pt("a")}, {Op: Curve, C1: pt("b"), C2: pt("c"), To: pt("d")}}
		got, fine := PathBox(segs), BoxOf(Flatten(segs, 1e-5)[0]...)
		if !got.Grow(1e-9).Contains(fine) || !fine.Grow(1e-3).Contains(got) {
			t.Fatalf("box %v, points in %v", got, fine)
		}
	})
}

func TestItemBoxHoldsTheLine(t *testing.T) {
	p := &Path{Segs: Polyline(Pt{X: 0, Y: 0}, Pt{X: 10, Y: 0}), Stroke: &Stroke{Width: 0.5}}
	if got, want := p.Box(), (Box{-0.25, -0.25, 10.25, 0.25}); got != want {
		t.Errorf("got %v, want %v", got, want)
	}
	if got := BoxOfItems([]Item{p, &Path{Segs: Circle(Pt{X: 20, Y: 0},
		1)}}); math.Abs(got.X1-21) > 1e-9 || got.X0 != -0.25 {
		t.Errorf("together %v", got)
	}
}

func ExampleRounded() {
	for _, s := range Rounded([]Pt{{X: 0, Y: 0}, {X: 30, Y: 0}, {X: 30, Y: 20}}, 5) {
		fmt.Printf("%d to %.0f,%.0f\n", s.Op, s.To.X, s.To.Y)
	}
	// Output:
	// 0 to 0,0
	// 1 to 25,0
	// 2 to 30,5
	// 1 to 30,20
}
