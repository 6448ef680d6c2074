package route

import (
	"errors"
	"flag"
	"math"
	"math/rand/v2"
	"slices"
	"testing"

	"oxturn/layout/plane"
)

var raggedFloors = flag.Bool("ragged", false, "lay all ragged floors, at 20 and at 40 m², not only some at 20")

// A raggedFloor is an outline with what stands in it; its size is scaled.
type raggedFloor struct {
	name    string
	outline plane.Ring
	columns []plane.Ring
	always  bool // laid every time
}

// raggedOnes are floors that hardly two rows of are alike, made for this test.
func raggedOnes(area float64) []raggedFloor {
	side := math.Sqrt(area * 1e6)
	out := []raggedFloor{
		{name: "star of 5", outline: starOutline(5)}, {name: "star of 8", outline: starOutline(8)},
		{name: "star of 12", outline: starOutline(12)},
		{name: "comb of 5", outline: combOutline(5)}, {name: "comb of 9", outline: combOutline(9), always: true},
		{name: "spiral", outline: cellsOutline(spiralCells(5), nil)},
		{name: "long spiral", outline: cellsOutline(spiralCells(9), nil)},
		{name: "zigzag", outline: cellsOutline(zigzagCells(4, 5), nil)}, {name: "saw", outline: sawOutline()},
		{name: "four rooms and necks of 120 mm", outline: neckOutline(side/2, 270), always: true},
		{name: "nine columns", outline: plane.Rectangle(plane.Pt(0, 0), plane.Pt(4, 3)), columns: columnsIn(3, 3)},
		{name: "twenty columns", outline: plane.Rectangle(plane.Pt(0, 0), plane.Pt(4, 3)), columns: columnsIn(5, 4)},
	}
	for seed := range uint64(8) {
		out = append(out, treeFloor(seed))
	}
	for i := range out {
		out[i].scaleTo(area * 1e6)
	}
	return out
}

func (f *raggedFloor) scaleTo(area float64) {
	k := math.Sqrt(area / math.Abs(f.outline.Area()))
	for _, r := range append([]plane.Ring{f.outline}, f.columns...) {
		for i := range r {
			r[i] = r[i].Mul(k)
		}
	}
}

func starOutline(points int) plane.Ring {
	out := make(plane.Ring, 2*points)
	for i := range out {
		sin, cos := math.Sincos(math.Pi * float64(i) / float64(points))
		r := 1.0
		if i%2 == 1 {
			r = 0.45
		}
		out[i] = plane.Pt(r*cos, r*sin)
	}
	return out
}

// combOutline is a spine with teeth of several lengths, as wide as the spaces between.
func combOutline(teeth int) plane.Ring {
	out := plane.Ring{plane.Pt(0, 0), plane.Pt(4, 0)}
	w := 4 / float64(2*teeth-1)
	for k := teeth - 1; k >= 0; k-- {
		x, h := float64(2*k)*w, 2.2+0.3*float64(k*5%7)
		if k < teeth-1 {
			out = append(out, plane.Pt(x+w, 1))
		}
		out = append(out, plane.Pt(x+w, h), plane.Pt(x, h))
		if k > 0 {
			out = append(out, plane.Pt(x, 1))
		}
	}
	return out
}

func sawOutline() plane.Ring {
	out := plane.Ring{plane.Pt(0, 0), plane.Pt(5, 0)}
	for k := 10; k >= 0; k-- {
		out = append(out, plane.Pt(float64(k)/2, 3+0.9*float64(k%2)))
	}
	return out
}

// neckOutline is four rooms in a row of a meander, joined by necks.
func neckOutline(side, neck float64) plane.Ring {
	const wall = 400
	var low, high plane.Ring
	for k := range 4 {
		x := float64(k) * (side + wall)
		low = append(low, plane.Pt(x, 0), plane.Pt(x+side, 0))
		high = append(high, plane.Pt(x, side), plane.Pt(x+side, side))
		if k < 3 {
			at := side * (0.2 + 0.3*float64(k%2))
			low = append(low, plane.Pt(x+side, at), plane.Pt(x+side+wall, at))
			high = append(high, plane.Pt(x+side, at+neck), plane.Pt(x+side+wall, at+neck))
		}
	}
	slices.Reverse(high)
	return append(low, high...)
}

// columnsIn are nx by ny of them in a room of 4 by 3, turned any way.
func columnsIn(nx, ny int) []plane.Ring {
	var out []plane.Ring
	for k := range nx * ny {
		at := plane.Pt((float64(k%nx)+0.5+0.1*float64(k%3-1))*4/float64(nx), (float64(k/nx)+0.5)*3/float64(ny))
		r, col := 0.08+0.02*float64(k*7%5), make(plane.Ring, 4)
		for i := range col {
			sin, cos := math.Sincos(float64(k) + float64(i)*math.Pi/2)
			col[i] = at.Add(plane.Pt(r*cos, r*sin))
		}
		out = append(out, col)
	}
	return out
}

type cell [2]int

// spiralCells is a corridor that winds inward over n by n cells, walls a cell thick.
func spiralCells(n int) map[cell]bool {
	out := map[cell]bool{{0, 0}: true}
	at, d := cell{0, 0}, cell{1, 0}
	free := func(c cell) bool { return !out[c] }
	within := func(c cell) bool { return c[0] >= 0 && c[1] >= 0 && c[0] < n && c[1] < n }
	for turned := 0; turned < 2; {
		to, next := cell{at[0] + d[0], at[1] + d[1]}, cell{at[0] + 2*d[0], at[1] + 2*d[1]}
		if within(to) && free(to) && free(next) {
			out[to], at, turned = true, to, 0
			continue
		}
		d, turned = cell{-d[1], d[0]}, turned+1
	}
	return out
}

// zigzagCells is a corridor to and fro.
func zigzagCells(lanes, long int) map[cell]bool {
	out := map[cell]bool{}
	for k := range lanes {
		for y := range long {
			out[cell{2 * k, y}] = true
		}
		if k+1 < lanes {
			out[cell{2*k + 1, (1 - k%2) * (long - 1)}] = true
		}
	}
	return out
}

// treeFloor is a tree of 22 rooms of many sizes, some turned.
func treeFloor(seed uint64) raggedFloor {
	rnd := rand.New(rand.NewPCG(seed, 17))
	cells := map[cell]bool{{0, 0}: true}
	grown := []cell{{0, 0}}
	for len(grown) < 22 {
		c, d := grown[rnd.IntN(len(grown))], [...]cell{{1, 0}, {-1, 0}, {0, 1}, {0, -1}}[rnd.IntN(4)]
		if q := (cell{c[0] + d[0], c[1] + d[1]}); !cells[q] && lonely(cells, q) {
			cells[q] = true
			grown = append(grown, q)
		}
	}
	wide := make([]float64, 60)
	for i := range wide {
		wide[i] = 0.5 + 1.1*rnd.Float64()
	}
	out := raggedFloor{name: "tree " + string(rune('A'+seed)), outline: cellsOutline(cells, wide), always: seed == 2}
	if seed%3 == 0 {
		for i := range out.outline {
			out.outline[i] = out.outline[i].Rotate(0.3)
		}
	}
	return out
}

// lonely reports whether just one of the cells round q is taken, corners counted.
func lonely(cells map[cell]bool, q cell) bool {
	beside, corners := 0, 0
	for dx := -1; dx <= 1; dx++ {
		for dy := -1; dy <= 1; dy++ {
			switch {
			case dx == 0 && dy == 0 || !cells[cell{q[0] + dx, q[1] + dy}]:
			case dx == 0 || dy == 0:
				beside++
			case !cells[cell{q[0] + dx, q[1]}] && !cells[cell{q[0], q[1] + dy}]:
				corners++
			}
		}
	}
	return beside == 1 && corners == 0
}

// cellsOutline goes round cells without a hole; wide has the width of each line of them,
// nil for 1.
func cellsOutline(cells map[cell]bool, wide []float64) plane.Ring {
	along := func(k int) float64 {
		n := float64(k)
		if wide != nil {
			n = 0
			for i := range k + 30 {
				n += wide[i]
			}
		}
		return n
	}
	next := map[cell]cell{}
	var from cell
	for c := range cells {
		x, y := c[0], c[1]
		for _, e := range [...][3]cell{{{x, y}, {x + 1, y}, {x, y - 1}}, {{x + 1, y}, {x + 1, y + 1}, {x + 1, y}},
			{{x + 1, y + 1}, {x, y + 1}, {x, y + 1}}, {{x, y + 1}, {x, y}, {x - 1, y}}} {
			if !cells[e[2]] {
				next[e[0]] = e[1]
				from = min2(from, e[0])
			}
		}
	}
	out, before := plane.Ring{}, cell{from[0], from[1] + 1}
	for at := from; ; {
		to := next[at]
		if (at[0]-before[0])*(to[1]-at[1]) != (at[1]-before[1])*(to[0]-at[0]) {
			out = append(out, plane.Pt(along(at[0]), along(at[1])))
		}
		if before, at = at, to; at == from {
			return out
		}
	}
}

// min2 is the lower of two corners, of equals the left one.
func min2(a, b cell) cell {
	if b[1] < a[1] || b[1] == a[1] && b[0] < a[0] {
		return b
	}
	return a
}

// A twoRunFloor is a floor as an independent flood fill sees it: the cells within half
// the closest gap of places that hang together by necks two runs wide.
type twoRunFloor struct {
	cells []plane.Point
	share float64 // of all the floor where two runs have room
	ideal float64 // spacing, mm
}

const floodCell = 20.0 // mm

// flooded fills the largest part of the floor, from its outlines alone.
func flooded(p Problem, outlines []plane.Ring, clears []float64, length float64) twoRunFloor {
	box := outlines[0].Bounds()
	nx, ny := int(box.W()/floodCell)+1, int(box.H()/floodCell)+1
	slack := make([]float64, nx*ny)
	at := func(i int) plane.Point {
		return plane.Pt(box.Min.X+(float64(i%nx)+0.5)*floodCell, box.Min.Y+(float64(i/nx)+0.5)*floodCell)
	}
	area, edge := 0.0, 0.0
	for i := range slack {
		slack[i] = math.Inf(1)
		for k, r := range outlines {
			d := -awayFrom(r, at(i))
			if k > 0 { // what stands in the room
				d = -d
			}
			slack[i] = min(slack[i], d-clears[k])
		}
		if slack[i] >= 0 {
			area += floodCell * floodCell
		}
		if slack[i] >= 0 && slack[i] < floodCell {
			edge += floodCell
		}
	}
	half := float64(p.Closest) * p.Pitch / 2
	part, size := make([]int, nx*ny), []int{0}
	for i := range slack {
		if slack[i] < half || part[i] != 0 {
			continue
		}
		size = append(size, 0)
		part[i] = len(size) - 1
		for todo := []int{i}; len(todo) > 0; {
			k := todo[len(todo)-1]
			todo = todo[:len(todo)-1]
			size[part[k]]++
			for _, to := range []int{k - 1, k + 1, k - nx, k + nx} {
				if slack[to] >= half && part[to] == 0 {
					part[to] = part[k]
					todo = append(todo, to)
				}
			}
		}
	}
	most, all := slices.Index(size, slices.Max(size)), 0
	for _, n := range size {
		all += n
	}
	out := twoRunFloor{share: float64(size[most]) / float64(max(1, all)), ideal: area / (length - edge/2)}
	for i := range slack {
		if part[i] == most {
			out.cells = append(out.cells, at(i))
		}
	}
	return out
}

// awayFrom is how far a point lies outside a ring, negative inside, by even and odd crossings.
func awayFrom(r plane.Ring, p plane.Point) float64 {
	d, in := math.Inf(1), false
	for i := range r {
		a, b := r[i], r[(i+1)%len(r)]
		v, w := b.Sub(a), p.Sub(a)
		t := max(0, min(1, w.Dot(v)/v.Dot(v)))
		d = min(d, w.Sub(v.Mul(t)).Norm())
		if (a.Y > p.Y) != (b.Y > p.Y) && p.X < a.X+(p.Y-a.Y)/(b.Y-a.Y)*(b.X-a.X) {
			in = !in
		}
	}
	if in {
		return -d
	}
	return d
}

// warmed is the share of the floor within half the ideal spacing and half a peg of the paths.
func (f twoRunFloor) warmed(routes []Route, pitch float64) float64 {
	n := 0
	for _, c := range f.cells {
		if slices.ContainsFunc(routes, func(rt Route) bool {
			for i := 1; i < len(rt.Path); i++ {
				if (plane.Segment{A: rt.Path[i-1], B: rt.Path[i]}).Distance(c) <= (f.ideal+pitch)/2 {
					return true
				}
			}
			return false
		}) {
			n++
		}
	}
	return float64(n) / float64(max(1, len(f.cells)))
}

// TestRaggedFloorsAreLaid: a floor that hangs together through necks two runs wide is laid
// and covered, whatever its shape; one that does not is refused only where the flood fill
// finds too little of it in one piece.
func TestRaggedFloorsAreLaid(t *testing.T) {
	areas := []float64{20}
	if *raggedFloors {
		areas = []float64{20, 40}
	}
	for _, area := range areas {
		for _, f := range raggedOnes(area) {
			if !f.always && !*raggedFloors {
				continue
			}
			t.Run(f.name, func(t *testing.T) { f.tryToLay(t) })
		}
	}
}

func (f raggedFloor) tryToLay(t *testing.T) {
	p := roomOf(t, f.outline, f.columns, 75, nil)
	p.Cables = []Cable{{ID: "A", Length: lengthFor(p, p.Zones[0], 3.2)}}
	clears := []float64{75}
	for range f.columns {
		clears = append(clears, 50)
	}
	floor := flooded(p, append([]plane.Ring{f.outline}, f.columns...), clears, p.Cables[0].Length)
	routes, err := Solve(p)
	if errors.As(err, new(*Refusal)) && floor.share < leastCovered {
		return
	}
	if err != nil {
		t.Fatal(err)
	}
	if bad := broken(p, routes); bad != nil {
		t.Fatal(bad)
	}
	if c := floor.warmed(routes, p.Pitch); c < 0.985 {
		t.Errorf("%.4f of the floor is covered that two runs reach", c)
	}
}
