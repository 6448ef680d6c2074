package plane

import (
	"math"
	"math/rand/v2"
	"testing"

	"pgregory.net/rapid"
)

// fitted are pairs of rectangles, turned, the second in the first with a side on its side
// but for the last bits: the geometry library takes them to be apart, so that a
// difference left the first whole.
var fitted = [][2]Ring{
	{{{0, 0}, {616.8067473190192, 591.5047164376643}, {113.9456401554886, 1115.8760616591474},
		{-502.8611071639645, 524.3713452209313}},
		{{60.52092114672485, 58.038292312850444}, {437.05695628311406, 419.12844195856695},
			{23.74767827962937, 850.1173154496978}, {-352.788356856854, 489.0271658040305}}},
	{{{0, 0}, {868.3391341178622, 1138.6524129603156}, {100.27128671282092, 1724.382844800534},
		{-768.0678474051656, 585.7304318404217}},
		{{191.28805665487118, 250.8358758952289}, {502.71567829331605, 659.2106673888201},
			{-62.82350622324204, 1090.492242173078}, {-374.25112786204556, 682.1174506795973}}},
	{{{0, 0}, {1134.597421567605, 573.1222589515694}, {698.7199363239847, 1436.0192467281956},
		{-435.8774852435187, 862.8969877756932}},
		{{17.37271639608941, 8.77552713921663}, {643.5332435649291, 325.0696848515501},
			{303.5432456811269, 998.140341125493}, {-322.6172814874956, 681.846183413576}}},
	{{{0, 0}, {148.1571290076062, 1080.2089396306735}, {-405.01246943493163, 1156.0794648163264},
		{-553.1695984425487, 75.87052518521037}},
		{{48.15471053630819, 351.09447081670294}, {148.1571290076062, 1080.2089396306735},
			{-119.23005178578526, 1116.8826937406725}, {-219.23247025675906, 387.7682249270246}}},
	{{{0, 0}, {451.42039228501335, 894.0122382753435}, {-586.5441527599423, 1418.1195625849064},
		{-1037.9645450449557, 524.1073243087599}},
		{{31.446286475777665, 62.277569729077975}, {239.20087810988755, 473.7236422882523},
			{6.5185730901082, 591.2136865100452}, {-201.23601854388326, 179.76761395089991}}},
}

// TestSidesThatNearlyCoincide: what lies inside is taken off, and is what both share. The
// area that must come out is that of the inner rectangle itself.
func TestSidesThatNearlyCoincide(t *testing.T) {
	for i, f := range fitted {
		heldToArea(t, i, f[0], f[1])
	}
	rnd := rand.New(rand.NewPCG(1, 2))
	for i := range 500 {
		outer, inner := notched(rnd)
		heldToArea(t, i, outer, inner)
	}
}

// notched returns a turned rectangle and one inside it on its lower side, also in its
// corners, with corners that are off by up to half a nanometre.
func notched(rnd *rand.Rand) (outer, inner Ring) {
	w, h, angle := 500+1000*rnd.Float64(), 500+1000*rnd.Float64(), 3*rnd.Float64()
	x0, x1 := w/2*rnd.Float64()*float64(rnd.IntN(2)), w-w/2*rnd.Float64()*float64(rnd.IntN(2))
	turned := func(r Ring) (out Ring) {
		for _, p := range r {
			off := Pt(rnd.Float64()-0.5, rnd.Float64()-0.5).Mul(1e-9 * float64(rnd.IntN(2)))
			out = append(out, p.Rotate(angle).Add(off))
		}
		return out
	}
	return turned(Rectangle(Pt(0, 0), Pt(w, h))), turned(Rectangle(Pt(x0, 0), Pt(x1, h*rnd.Float64())))
}

func heldToArea(t *testing.T, i int, outer, inner Ring) {
	t.Helper()
	a, b := FromRing(outer), FromRing(inner)
	less, err1 := a.Less(b)
	meet, err2 := a.Meet(b)
	if err1 != nil || err2 != nil {
		t.Fatal(i, err1, err2)
	}
	if left := outer.Area() - inner.Area(); math.Abs(less.Area()-left) > 10 {
		t.Errorf("%d: %.0f mm² left, want %.0f", i, less.Area(), left)
	}
	if math.Abs(meet.Area()-inner.Area()) > 10 {
		t.Errorf("%d: %.0f mm² shared, want %.0f", i, meet.Area(), inner.Area())
	}
}

// TestOverlap: two squares, one in the hole of the other, beside it and half over it; and
// stars against the geometry library.
func TestOverlap(t *testing.T) {
	frame, err := square(0, 0, 30).Less(square(10, 10, 10))
	if err != nil {
		t.Fatal(err)
	}
	for _, c := range []struct {
		s    Region
		want float64
	}{
		{square(10, 10, 10), 0}, {square(30, 0, 10), 0}, {square(100, 0, 10), 0}, {square(5, 5, 10), 75},
		{square(0, 0, 30), 800}, {square(-10, -10, 60), 800}, {nil, 0},
	} {
		if got := overlap(frame, c.s); math.Abs(got-c.want) > 1e-9 {
			t.Errorf("%v mm² shared with %v, want %v", got, c.s, c.want)
		}
	}
	rapid.Check(t, func(t *rapid.T) {
		a, b := FromRing(star(t)), FromRing(star(t).Translate(Pt(500, 300)))
		union, err := Union(a, b)
		if err != nil {
			t.Fatal(err)
		}
		if got, want := overlap(a, b), a.Area()+b.Area()-union.Area(); math.Abs(got-want) > 10 {
			t.Fatalf("%v mm², want %v", got, want)
		}
	})
}
