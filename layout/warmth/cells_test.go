package warmth

import (
	"math"
	"slices"
	"strings"
	"testing"

	"oxturn/layout"
	"oxturn/layout/heat"
	"oxturn/layout/internal/hand"
	"oxturn/layout/job"
	"oxturn/layout/plane"
)

// cells is a ground of 10 mm cells, floor where a cell's letter is x. Its first row of text lies lowest.
func cells(rows ...string) *ground {
	g := &ground{Raster: plane.Raster{Cell: 10, NX: len(rows[0]), NY: len(rows)}, rows: make([][]plane.Span, len(rows))}
	n := g.NX * g.NY
	g.ways, g.power = make([]int8, n), make([]float64, n)
	for y, row := range rows {
		for x, letter := range row {
			c := y*g.NX + x
			g.ways[c] = -1
			if letter == 'x' {
				g.ways[c] = 0
				g.rows[y] = append(g.rows[y], plane.Span{From: x, To: x})
			}
		}
	}
	g.joined()
	return g
}

// A cell of floor by itself takes all that is given about it: 1 W on 100 mm² are 10 kW/m².
// What is given farther off than two cells is lost, as is all at the raster's rim.
func TestGivenToOneCell(t *testing.T) {
	g := cells("........", "........", "........", "...x....", "........", "........", "........", "........")
	for _, k := range []struct{ x, y, want float64 }{
		{35, 35, 10000}, {25, 35, 10000}, {35, 45, 10000}, {45, 45, 10000}, {65, 35, 0}, {35, 65, 0}, {15, 35, 0},
		{35, 15, 0}, {-500, 35, 0}, {35, 500, 0},
	} {
		g.power = make([]float64, 64)
		g.give(plane.Pt(k.x, k.y), 1)
		if got := g.power[3*8+3]; math.Abs(got-k.want) > 1e-6 {
			t.Errorf("at %g, %g: %g W/m², want %g", k.x, k.y, got, k.want)
		}
		for c, p := range g.power {
			if c != 3*8+3 && p != 0 {
				t.Errorf("at %g, %g: %g W/m² beyond the floor", k.x, k.y, p)
			}
		}
	}
}

// All about the rim of a raster that is floor everywhere: a place two cells in has all of its
// kernel on it, one nearer gets nothing.
func TestGivenAtTheRim(t *testing.T) {
	const nx, ny = 7, 9
	for x := range nx {
		for y := range ny {
			g := &ground{Raster: plane.Raster{Cell: 10, NX: nx, NY: ny}, ways: make([]int8, nx*ny),
				power: make([]float64, nx*ny)}
			g.give(plane.Pt(float64(x)*10+5, float64(y)*10+5), 1)
			sum, want := 0.0, 0.0
			for _, p := range g.power {
				sum += p * 1e-4 // m² of a cell
			}
			if x >= 2 && x < nx-2 && y >= 2 && y < ny-2 {
				want = 1
			}
			if math.Abs(sum-want) > 1e-9 {
				t.Errorf("cell %d, %d of %d by %d: %g W, want %g", x, y, nx, ny, sum, want)
			}
		}
	}
}

// How one cell's watts lie on the five about it, by the spline's own values at its middle,
// 1/8, 3/4, 1/8, less 1/24 of second differences 1/8, 1/2, -5/4, 1/2, 1/8.
func TestKernelByHand(t *testing.T) {
	got := kernel(0)
	for i, want := range [5]float64{-0.125 / 24, 0.125 - 0.5/24, 0.75 + 1.25/24, 0.125 - 0.5/24, -0.125 / 24} {
		near(t, "share", got[i], want, 1e-12)
	}
	// the mean is where it is given and the mean square a quarter more than the spline's less 1/12
	for _, d := range []float64{-0.5, -0.2, 0.1, 0.49} {
		sum, mean, square := 0.0, 0.0, 0.0
		for i, u := range kernel(d) {
			sum, mean = sum+u, mean+u*float64(i-2)
			square += u * (float64(i-2) - d) * (float64(i-2) - d)
		}
		near(t, "sum", sum, 1, 1e-12)
		near(t, "mean", mean, d, 1e-12)
		near(t, "mean square", square, 0.25-1.0/12, 1e-12) // a quadratic spline's 1/4, less 2/24
	}
}

// Every cell lies in the coarser cell that its middle is in; a half of a coarser cell that is
// floor counts half, and takes half as much.
func TestCoarserCells(t *testing.T) {
	g := cells(".......", ".xxx.x.", ".xxxx..", ".......", "..x....", ".......", ".......", ".......",
		".......")
	g.Origin = plane.Pt(100, 200)
	for c := range g.power {
		if g.ways[c] >= 0 {
			g.power[c] = float64(c)
		}
	}
	w := g.coarser()
	if w.NX != 6 || w.NY != 7 || w.Cell != 20 || w.Origin != plane.Pt(80, 180) {
		t.Errorf("%+v", w.Raster)
	}
	shares, power := make([]float64, w.NX*w.NY), make([]float64, w.NX*w.NY)
	g.each(g.rows, func(c int) {
		p := g.Origin.Add(plane.Pt(float64(c%g.NX)+0.5, float64(c/g.NX)+0.5).Mul(10)).Sub(w.Origin).Mul(1 / 20.0)
		at := int(p.Y)*w.NX + int(p.X)
		if got := w.holding(g, c); got != at {
			t.Errorf("cell %d lies in %d, said %d", c, at, got)
		}
		shares[at] += 0.25
		power[at] += g.power[c] / 4
	})
	floor := 0
	w.each(w.rows, func(c int) {
		floor++
		if shares[c] == 0 {
			t.Errorf("cell %d is no floor", c)
		}
	})
	for c := range shares {
		near(t, "share", w.share(c), shares[c], 1e-12)
		near(t, "power", w.power[c], power[c], 1e-12)
		if shares[c] > 0 {
			floor--
		}
		if (w.ways[c] >= 0) != (shares[c] > 0) {
			t.Errorf("cell %d: %d ways, %g of it floor", c, w.ways[c], shares[c])
		}
	}
	if floor != 0 {
		t.Errorf("%d cells too many in the rows", floor)
	}
	near(t, "share of a fine cell", g.share(9), 1, 0)
}

// Between coarser cells a plane of any slope stays one; where some of the four are no floor,
// the rest count by 9, 3, 3 and 1.
func TestBetweenCoarserCells(t *testing.T) {
	g := cells("..........", "..........", "..xxxxxx..", "..xxxxxx..", "..xxxxxx..", "..xxxxxx..", "..........",
		"..........")
	w := g.coarser()
	a := make([]float64, len(w.power))
	for c := range a {
		a[c] = 3 + 2*float64(c%w.NX) - 5*float64(c/w.NX)
	}
	got := g.finer(w, a)
	for y := 2; y < 6; y++ {
		for x := 2; x < 8; x++ {
			cx, cy := x/2+1, y/2+1
			v := func(dx, dy int) float64 { return a[(cy+dy)*w.NX+cx+dx] }
			dx, dy := -1, -1
			if x%2 == 1 {
				dx = 1
			}
			if y%2 == 1 {
				dy = 1
			}
			sum, n := 9*v(0, 0), 9.0
			inX, inY := x+dx >= 2 && x+dx < 8, y+dy >= 2 && y+dy < 6
			if inX {
				sum, n = sum+3*v(dx, 0), n+3
			}
			if inY {
				sum, n = sum+3*v(0, dy), n+3
			}
			if inX && inY {
				sum, n = sum+v(dx, dy), n+1
			}
			near(t, "cell", got[y*g.NX+x], sum/n, 1e-12)
			if inX && inY { // a plane at a quarter of a coarser cell off its middle
				near(t, "plane", got[y*g.NX+x], v(0, 0)+0.25*float64(2*dx-5*dy), 1e-12)
			}
		}
	}
}

// One cell with no neighbour keeps what it is given; two share it as a - r (b - a) = p and
// b - r (a - b) = 0 have it, r the square of the reach in cells less a twelfth: a + b = p,
// a - b = p / (1 + 2 r).
func TestSpreadOverTwoCells(t *testing.T) {
	g := cells(".....", ".x...", ".....", ".....")
	g.power[6] = 8
	near(t, "alone", g.spread(30, 1e-6)[6], 8, 1e-4)
	for _, reach := range []float64{0, 2, 10, 30} {
		g := cells("......", ".xx...", "......", ".x....", "......")
		g.power[7], g.power[19] = 8, 3
		r := math.Max(0, reach*reach/100-1.0/12)
		a := g.spread(reach, 1e-6)
		near(t, "sum", a[7]+a[8], 8, 1e-4)
		near(t, "difference", a[7]-a[8], 8/(1+2*r), 1e-4)
		near(t, "apart", a[19], 3, 1e-4)
	}
	if a := cells("...", ".x.", "...").spread(0, 1e-6); a[4] != 0 {
		t.Errorf("nothing given, %g", a[4])
	}
}

// Half a coarser cell of floor takes twice the rise of a whole one for as much heat on it.
func TestSpreadOnHalfACell(t *testing.T) {
	g := cells("....", ".x..", "....")
	g.power[5], g.shares = 4, make([]float64, 12)
	g.shares[5] = 0.5
	near(t, "rise", g.spread(5, 1e-6)[5], 8, 1e-4)
}

// Mean and deviation by hand: 1, 2, 3 and 6 K over four cells are 3 K and the root of 3.5 K.
func TestOverARegion(t *testing.T) {
	g := cells(".....", ".xxx.", ".xxx.", ".....")
	s := make([]float64, 20)
	s[6], s[7], s[11], s[12], s[8] = 1, 2, 3, 6, 99
	mean, spread := g.over(plane.FromRing(plane.Rectangle(plane.Pt(10, 10), plane.Pt(30, 30))), s)
	near(t, "mean", mean, 3, 1e-12)
	near(t, "deviation", spread, math.Sqrt(3.5), 1e-12)
	if m, d := g.over(plane.FromRing(plane.Rectangle(plane.Pt(11, 11), plane.Pt(13, 13))), s); m != 0 || d != 0 {
		t.Errorf("of no cell: %g, %g", m, d)
	}
}

// Spots are looked at seven times in their width, or at every cell: each value of the raster
// is the mean about its own cell's middle.
func TestWhereSpotsLie(t *testing.T) {
	full := []string{"............."}
	for range 9 {
		full = append(full, ".xxxxxxxxxxx.")
	}
	g := cells(append(full, ".............")...)
	g.Origin = plane.Pt(-40, 70)
	surface := make([]float64, len(g.power))
	g.each(g.rows, func(c int) { surface[c] = float64(c%g.NX) + 100*float64(c/g.NX) })
	for _, k := range []struct {
		wide   float64
		every  int
		nx, ny int
	}{{24, 1, 13, 11}, {36, 1, 13, 11}, {140, 2, 7, 6}, {210, 3, 5, 4}} {
		out := layout.FloorState{Air: 20}
		g.spots(&out, surface, k.wide)
		r := out.Raster
		if r.NX != k.nx || r.NY != k.ny || r.Cell != 10*float64(k.every) || len(out.Spots) != k.nx*k.ny {
			t.Errorf("%g mm wide: %+v, %d spots", k.wide, r, len(out.Spots))
			continue
		}
		for i, got := range out.Spots {
			x, y := i%k.nx*k.every, i/k.nx*k.every
			mid := r.Origin.Add(plane.Pt(float64(i%k.nx)+0.5, float64(i/k.nx)+0.5).Mul(r.Cell))
			if want := g.Origin.Add(plane.Pt(float64(x)+0.5, float64(y)+0.5).Mul(10)); mid.Dist(want) > 1e-9 {
				t.Fatalf("%g mm wide: spot %d at %v, about %v", k.wide, i, mid, want)
			}
			sum, n := 0.0, 0.0
			for c := range surface {
				if d := math.Hypot(float64(c%g.NX-x), float64(c/g.NX-y)) * 10; d <= k.wide/2 && g.ways[c] >= 0 {
					sum, n = sum+surface[c], n+1
				}
			}
			want := layout.NoFloor
			if n > 0 {
				want = 20 + sum/n
			}
			near(t, "spot", got, want, 6e-4)
		}
	}
}

// A cell by itself is a spot.
func TestSpotsOfSingleCells(t *testing.T) {
	g := cells("......", ".x..x.", "......")
	surface := make([]float64, 18)
	surface[7], surface[10] = 3, 9
	out := layout.FloorState{Air: 20}
	g.spots(&out, surface, 10)
	if out.Spots[7] != 23 || out.Spots[10] != 29 || out.Spots[8] != layout.NoFloor {
		t.Errorf("%v", out.Spots)
	}
	if out.Coldest == nil || *out.Coldest != (layout.FloorSpot{At: plane.Pt(15, 15), Celsius: 23}) || *out.Warmest !=
		(layout.FloorSpot{At: plane.Pt(45, 15), Celsius: 29}) {
		t.Errorf("%+v, %+v", out.Coldest, out.Warmest)
	}
}

// What stands on the floor, on legs or not, and what is kept free of cable: heat is given off
// only where the floor is open.
func TestOpenFloor(t *testing.T) {
	r := open(plane.Rectangle(plane.Pt(0, 0), plane.Pt(400, 100)))
	at := func(x float64) plane.Ring { return plane.Rectangle(plane.Pt(x, 0), plane.Pt(x+100, 100)) }
	r.Job.Fixtures = []job.Fixture{{Outline: at(0)}, {Outline: at(100), Heated: true}}
	r.Job.KeepOuts = []job.KeepOut{{Outline: at(200)}, {Outline: at(300), Cold: true}}
	g := groundOf(r, 90)
	n := map[int]int{}
	g.each(g.rows, func(c int) {
		if x := g.Origin.X + (float64(c%g.NX)+0.5)*g.Cell; g.ways[c] >= 0 {
			n[int(x/100)]++
		}
	})
	if n[0] != 0 || n[1] != 100 || n[2] != 0 || n[3] != 100 {
		t.Errorf("cells of floor: %v", n)
	}
	if g.Cell != 10 || g.NX != 47 || g.NY != 17 {
		t.Errorf("%+v", g.Raster)
	}
	if g := groundOf(r, 45); g.Cell != 5 {
		t.Errorf("cells of %g mm for runs of 45 mm", g.Cell)
	}
	hall := open(plane.Rectangle(plane.Pt(0, 0), plane.Pt(40000, 40000)))
	if g := groundOf(hall, 90); g.Cell != 20 { // 1,600 m² in four million cells
		t.Errorf("cells of %g mm in a hall", g.Cell)
	}
}

// A floor that cannot be worked out says why instead of staying away; one without cable has
// nothing to say.
func TestProblemOfAFloor(t *testing.T) {
	broken := thin
	broken.Layers = slices.Clone(thin.Layers)
	broken.Layers[0].Conductivity = -1
	of := func(s heat.Section, cables ...layout.Cable) *layout.WarmFloor {
		bound := layout.Bound{Section: s}
		p := &layout.Plan{Rooms: []layout.Room{*open(plane.Rectangle(plane.Pt(0, 0), plane.Pt(1000, 800)))},
			Warmth: &layout.Warmth{Runs: []layout.Warm{{Cables: []string{"A"}, Cold: bound, Hot: bound}}}}
		p.Rooms[0].Cables = cables
		return Floors(p)[0]
	}
	c := layout.Cable{ID: "A", Spacing: 90, Path: hand.Points(100, 100, 900, 100)}
	c.Label.Watts, c.Label.Length = 9.6, 800
	if got := of(broken, c); got == nil || !strings.Contains(got.Problem, "conductivity") || got.Cold.Coldest != nil {
		t.Errorf("a layer that conducts backwards: %+v", got)
	}
	if got := of(thin, c); got == nil || got.Problem != "" || got.Spot == 0 {
		t.Errorf("a sound floor: %+v", got)
	}
	if got := of(broken); got != nil {
		t.Errorf("a floor without cable: %+v", got)
	}
}

// Two cables of 90 and 150 mm between runs, of 12 W/m and 10 W/m: together the watts of both
// over the floor of both, (12 40 + 10 30) W on (0.09 40 + 0.15 30) m², as runs of the last
// one's 10 W/m would have it at 10 / 96.3 m.
func TestCablesTogether(t *testing.T) {
	thin := thin
	thin.WattsPerMetre = 10
	w := &layout.Warmth{Room: 20, Warmest: 24, Runs: []layout.Warm{
		{Cables: []string{"A", "B"}, Cold: layout.Bound{Section: thin}, Hot: layout.Bound{Section: thin}}}}
	r := open(plane.Rectangle(plane.Pt(0, 0), plane.Pt(1000, 800)))
	cable := func(id string, spacing, watts, length float64, path ...float64) layout.Cable {
		c := layout.Cable{ID: id, Spacing: spacing, Path: hand.Points(path...)}
		c.Label.Watts, c.Label.Length = watts, length
		return c
	}
	r.Cables = []layout.Cable{cable("A", 90, 480, 40000, 100, 100, 900, 100), cable("B", 150, 300, 30000, 100, 500, 900,
		500), cable("unknown", 500, 300, 30000, 100, 600, 900, 600), cable("A", 400, 1, 1000, 100, 600)}
	h := heatOf(w, r)
	near(t, "spacing", h.cold.Spacing, 1000*10*(0.09*40+0.15*30)/780, 1e-9)
	near(t, "spacing", h.hot.Spacing, h.cold.Spacing, 0)
	if len(h.lines) != 2 || h.widest != 150 || h.lines[0].perMM != 0.012 || h.lines[1].perMM != 0.01 {
		t.Errorf("%+v, widest %g", h.lines, h.widest)
	}
	warm := floorOf(w, r)
	if warm == nil || warm.Spot != 1.22*150 || warm.Cold.Air != 20 || warm.Hot.Air != 24 {
		t.Fatalf("%+v", warm)
	}
	near(t, "4 K more in the warmer room", warm.Hot.Mean, warm.Cold.Mean+4, 1e-9)
	w.Warmest = 20
	if warm := floorOf(w, r); !warm.Alike() {
		t.Errorf("%+v", warm)
	}
	w.Runs[0].Hot.Section.Below = heat.Below{}
	if warm := floorOf(w, r); warm.Hot.Mean <= warm.Cold.Mean {
		t.Errorf("insulated below: %g, else %g", warm.Hot.Mean, warm.Cold.Mean)
	}
	if floorOf(w, open(plane.Rectangle(plane.Pt(0, 0), plane.Pt(100, 80)))) != nil {
		t.Error("a room without cable")
	}
}

// A bend in a right angle lies on its circle, whichever way it turns; none where the cable has
// no radius.
func TestBendsLieOnTheirCircle(t *testing.T) {
	for _, k := range []struct {
		path []plane.Point
		mid  plane.Point
	}{{hand.Points(0, 0, 100, 0, 100, 100), plane.Pt(70, 30)}, {hand.Points(0, 0, 100, 0, 100, -100), plane.Pt(70,
		-30)}} {
		got := bent(k.path, 30)
		if len(got) != 7 || got[0] != k.path[0] || got[6] != k.path[2] {
			t.Errorf("%v", got)
		}
		for _, p := range got[1:6] {
			near(t, "radius", p.Dist(k.mid), 30, 1e-9)
		}
	}
	sharp := hand.Points(0, 0, 100, 0, 100, 100)
	if got := bent(sharp, 0); !slices.Equal(got, sharp) {
		t.Errorf("%v", got)
	}
}
