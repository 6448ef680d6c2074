package route

import (
	"math"
	"testing"

	"pgregory.net/rapid"

	"oxturn/layout/plane"
)

// These tests hold the raster of a field against slow arithmetic over all pairs
// of cells, and against circles and distances worked out in another way.

// smallField is an L with a hole, on pegs that lie askew in it.
func smallField(t fataler) (*field, plane.Region) {
	zone, err := plane.FromRing(outline(1, 700, 620)).Less(plane.FromRing(plane.Rectangle(plane.Pt(130, 220),
		plane.Pt(210, 290))))
	if err != nil {
		t.Fatal(err)
	}
	return newField(zone, Lattice{Origin: plane.Pt(11, 7), Pitch: 30}, 60, 84), zone
}

// cellAt is the middle of a cell on the floor.
func (f *field) middle(x, y int) plane.Point {
	return f.lattice.ToWorld((float64(f.ox+x)+0.5)/f.u, (float64(f.oy+y)+0.5)/f.v)
}

func (f *field) bit(set []uint64, x, y int) bool { return set[y*f.words+x/64]>>(x%64)&1 == 1 }

func TestFieldIsTheZoneOpened(t *testing.T) {
	f, zone := smallField(t)
	in := make([][]bool, f.ny+2)
	for y := range in { // with a rim of cells outside
		in[y] = make([]bool, f.nx+2)
		for x := 1; x <= f.nx && y > 0 && y <= f.ny; x++ {
			in[y][x] = zone.Contains(f.middle(x-1, y-1))
		}
	}
	for i, p := range zone.Rings() {
		for _, q := range p {
			u, v := f.lattice.ToPegs(q)
			if x, y := u*f.u-float64(f.ox), v*f.v-float64(f.oy); x < 1 || y < 1 || x > float64(f.nx-1) ||
				y > float64(f.ny-1) {
				t.Fatalf("corner of ring %d outside the raster of %d by %d: %g, %g", i, f.nx, f.ny, x, y)
			}
		}
	}
	nearestOf := func(x, y int, want func(x, y int) bool) float64 {
		d := math.Inf(1)
		for b := range in {
			for a := range in[b] {
				if want(a, b) {
					d = math.Min(d, math.Hypot(float64(a-x), float64(b-y)))
				}
			}
		}
		return d
	}
	half := 30 / f.cell
	core, depth := make([][]bool, len(in)), make([][]float64, len(in))
	for y := range in {
		core[y], depth[y] = make([]bool, len(in[y])), make([]float64, len(in[y]))
		for x := range in[y] {
			if in[y][x] {
				depth[y][x] = nearestOf(x, y, func(a, b int) bool { return !in[b][a] })
				core[y][x] = depth[y][x]-0.5 >= half
			}
		}
	}
	cells, deep := 0, 0
	for y := 1; y <= f.ny; y++ {
		for x := 1; x <= f.nx; x++ {
			want := in[y][x] && nearestOf(x, y, func(a, b int) bool { return core[b][a] }) <= half+0.5
			if got := f.bit(f.open, x-1, y-1); got != want {
				t.Fatalf("cell %d, %d heated: %v", x-1, y-1, got)
			}
			if want {
				cells++
			}
			if want && (x-1+7*(y-1))%25 == 0 && depth[y][x]-0.5 >= 1.5*84/f.cell {
				if at := plane.Pt(float64(x-1), float64(y-1)); deep >= len(f.deep) || f.deep[deep] != at {
					t.Fatalf("sample %d is not at %v", deep, at)
				}
				deep++
			}
		}
	}
	if f.cells != cells || len(f.deep) != deep || deep < 5 {
		t.Errorf("%d cells and %d samples, %d and %d counted", f.cells, len(f.deep), cells, deep)
	}
}

// rowOfLegs are some runs over the small field, a link, and a leg beyond it.
func rowOfLegs(f *field) ([]leg, []plane.Segment) {
	path := points(20, 33, 671, 33, 671, 120, 30, 120, 30, 371, 90, 371, 90, 900)
	return f.legs(path), plane.Segments(path)
}

func TestCoverIsWhatLiesWithinReach(t *testing.T) {
	f, _ := smallField(t)
	legs, segs := rowOfLegs(f)
	for _, reach := range []float64{23.3, 57.1} {
		bits := f.cover(legs, reach)
		for y := range f.ny {
			for x := range f.nx {
				d := math.Inf(1)
				for _, s := range segs {
					d = math.Min(d, s.Distance(f.middle(x, y)))
				}
				if got := f.bit(bits, x, y); got != (d <= reach) {
					t.Fatalf("reach %g: cell %d, %d is %.2f mm off, covered: %v", reach, x, y, d, got)
				}
			}
		}
	}
}

func TestCoveredAndBareAreCountedCells(t *testing.T) {
	f, _ := smallField(t)
	legs, segs := rowOfLegs(f)
	reach, cold, far := (84+30)/2.0, 0, 0.0
	for y := range f.ny {
		for x := range f.nx {
			if !f.bit(f.open, x, y) {
				continue
			}
			d := math.Inf(1)
			for _, s := range segs {
				d = math.Min(d, s.Distance(f.middle(x, y)))
			}
			if d > reach {
				cold++
			}
			far = math.Max(far, d)
		}
	}
	share, bare := f.covered(legs)
	if want := 1 - float64(cold)/float64(f.cells); !near1(share, want) || want > 0.9 {
		t.Errorf("covered %g, counted %g", share, want)
	}
	// of many cold cells every other or so is looked at
	if want := far / 42; bare > want+1e-6 || bare < want-2*f.cell/42 {
		t.Errorf("bare %g, counted %g", bare, want)
	}
	if share, bare := f.covered(f.legs(serpentine(8, 700, 84))); share < 0.95 || bare < 57.0/42-1e-9 {
		t.Errorf("covered %g, bare %g", share, bare)
	}
	none := newField(nil, Lattice{Pitch: 30}, 60, 84)
	if share, bare := none.covered(nil); share != 1 || bare != 1 {
		t.Errorf("no floor is covered by %g, bare %g", share, bare)
	}
}

// chord is the length of a segment inside a circle, by the quadratic equation.
func chord(a, b plane.Point, c plane.Point, r float64) float64 {
	d, e := b.Sub(a), a.Sub(c)
	qa, qb, qc := d.Dot(d), 2*d.Dot(e), e.Dot(e)-r*r
	disc := qb*qb - 4*qa*qc
	if qa == 0 || disc <= 0 {
		return 0
	}
	t0, t1 := (-qb-math.Sqrt(disc))/(2*qa), (-qb+math.Sqrt(disc))/(2*qa)
	return math.Max(0, math.Min(1, t1)-math.Max(0, t0)) * math.Sqrt(qa)
}

func TestUnevenIsTheVariationOfCableInDiscs(t *testing.T) {
	f, _ := smallField(t)
	for _, path := range [][]plane.Point{
		points(20, 33, 671, 33, 671, 120, 30, 120, 30, 371, 90, 371, 90, 900), serpentine(8, 700, 84),
		serpentine(5, 340, 47),
	} {
		var got []float64
		sum := 0.0
		for _, at := range f.deep {
			n := 0.0
			for _, s := range plane.Segments(path) {
				n += chord(s.A, s.B, f.middle(int(at.X), int(at.Y)), 1.5*84)
			}
			got, sum = append(got, n), sum+n
		}
		mean, squares := sum/float64(len(got)), 0.0
		for _, n := range got {
			squares += (n - mean) * (n - mean)
		}
		want := math.Sqrt(squares/float64(len(got)-1)) / mean
		legs := f.legs(path)
		if u := f.uneven(legs); math.Abs(u-want) > 1e-6 {
			t.Errorf("uneven %g, counted %g", u, want)
		}
		count := newTally(f)
		count.swap(nil, legs)
		if u := count.uneven(); math.Abs(u-want) > 1e-6 {
			t.Errorf("the tally has %g, counted %g", u, want)
		}
	}
	if u := f.uneven(nil); u != 1 {
		t.Errorf("a floor without cable is uneven by %g", u)
	}
}

// The score is the sum that score.go says, of its own terms.
func TestScoreIsTheSumOfItsTerms(t *testing.T) {
	f, _ := smallField(t)
	path := serpentine(6, 640, 84)
	s := f.judge(path, math.Inf(1))
	total := 6*640 + 5*84.0
	if s.Turns != 10 || !near1(s.Straight, 6*640/total) {
		t.Errorf("%d turns, straight %g", s.Turns, s.Straight)
	}
	want := 100*(1-s.Covered) + 2.5*max(0, s.Bare-1.5) + 45*s.Evenness + 4*(1-s.Straight) + 0.25*10/(total/1000)
	if !near1(s.Total, want) || s.Covered == 1 || s.Bare <= 1.5 || s.Evenness == 0 {
		t.Errorf("total %g, the terms give %g: %+v", s.Total, want, s)
	}
	if early := f.judge(path, 1); early.Total < 1 || early.Evenness != 0 {
		t.Errorf("judged to the end though past the limit: %+v", early)
	}
	if exact := f.judge(path, s.Total-45*s.Evenness); exact.Evenness != 0 {
		t.Errorf("judged to the end at the limit: %+v", exact)
	}
	if long := f.judge(points(0, 50, 500, 50, 500, 110, 1, 110), math.Inf(1)); !near1(long.Straight, 500.0/1059) {
		t.Errorf("straight %g: a leg of 500 mm is long, one of 499 mm is not", long.Straight)
	}
}

func TestDistanceTransform(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		nx, ny := rapid.IntRange(1, 9).Draw(t, "nx"), rapid.IntRange(1, 9).Draw(t, "ny")
		marks := rapid.SliceOfN(rapid.Bool(), nx*ny, nx*ny).Draw(t, "marks")
		want := rapid.Bool().Draw(t, "want")
		got := squaredDistance(marks, nx, ny, want)
		for y := range ny {
			for x := range nx {
				least := math.MaxInt
				for b := -1; b <= ny; b++ {
					for a := -1; a <= nx; a++ {
						rim := a < 0 || b < 0 || a == nx || b == ny
						if rim && !want || !rim && marks[b*nx+a] == want {
							least = min(least, (a-x)*(a-x)+(b-y)*(b-y))
						}
					}
				}
				if d := int(got[y*nx+x]); d != least && (least < math.MaxInt || d < 1e6) {
					t.Fatalf("%d, %d: %d, counted %d", x, y, d, least)
				}
			}
		}
	})
}
