package plane

import (
	"math"

	"github.com/peterstace/simplefeatures/geom"
)

// Contours returns the lines along which a field is at a level, one value at the centre of
// each cell, row by row: closed rings, what is at the level or above it on their left. Between
// centres the field goes straight from value to value (marching squares; where four cells do
// not say how two lines pass between them, their mean does). Beyond the raster it counts as
// below the level.
func (r Raster) Contours(values []float64, level float64) []Ring {
	f := contourField{r, values, level}
	next := map[int]int{} // from where a line enters a square of four centres to where it leaves
	var order []int
	for y := -1; y < r.NY; y++ {
		for x := -1; x < r.NX; x++ {
			for _, way := range f.ways(x, y) {
				next[way[0]] = way[1]
				order = append(order, way[0])
			}
		}
	}
	var out []Ring
	for _, first := range order {
		var ring Ring
		for at := first; ; {
			to, ok := next[at]
			if !ok {
				break
			}
			delete(next, at)
			ring = append(ring, f.crossing(at))
			at = to
		}
		if len(ring) > 2 {
			out = append(out, ring)
		}
	}
	return out
}

// A contourField is a raster with its values and the level that is looked for.
type contourField struct {
	Raster
	values []float64
	level  float64
}

// outsideBelow is how far below the level the field is outside the raster.
const outsideBelow = 1.0

func (f contourField) at(x, y int) float64 {
	if x < 0 || y < 0 || x >= f.NX || y >= f.NY {
		return f.level - outsideBelow
	}
	return f.values[y*f.NX+x]
}

// side names the line from a centre to the next one east, or north.
func (f contourField) side(x, y int, north bool) int {
	n := 2 * ((y+1)*(f.NX+1) + x + 1)
	if north {
		n++
	}
	return n
}

// crossing is where the level lies on a side.
func (f contourField) crossing(side int) Point {
	n := side / 2
	x, y := n%(f.NX+1)-1, n/(f.NX+1)-1
	dx, dy := 1-side%2, side%2
	a, b := f.at(x, y), f.at(x+dx, y+dy)
	t := (f.level - a) / (b - a)
	return f.Origin.Add(Pt(float64(x)+0.5+float64(t*float64(dx)), float64(y)+0.5+float64(t*float64(dy))).Mul(f.Cell))
}

// ways are how lines pass through the square of four centres whose lower left is (x, y):
// from side to side, the higher part on their left.
func (f contourField) ways(x, y int) [][2]int {
	corners := [4]float64{f.at(x, y), f.at(x+1, y), f.at(x+1, y+1), f.at(x, y+1)} // counter-clockwise
	sides := [4]int{f.side(x, y, false), f.side(x+1, y, true), f.side(x, y+1, false), f.side(x, y, true)}
	var in, out []int // sides by which the higher part is entered and left, going round
	for i, v := range corners {
		high, then := v >= f.level, corners[(i+1)%4] >= f.level
		switch {
		case !high && then:
			in = append(in, i)
		case high && !then:
			out = append(out, i)
		}
	}
	switch len(in) {
	case 0:
		return nil
	case 1:
		return [][2]int{{sides[out[0]], sides[in[0]]}}
	}
	mid := corners[0] + corners[1] + corners[2] + corners[3]
	joined := mid >= 4*f.level // the two high corners, across the middle
	var ways [][2]int
	for _, o := range out {
		to := (o + 3) % 4 // round the high corner just passed
		if joined {
			to = (o + 1) % 4 // round the low corner to come
		}
		ways = append(ways, [2]int{sides[o], sides[to]})
	}
	return ways
}

// Simplified returns a ring without the corners that change it by no more than a tolerance
// (Douglas and Peucker 1973); nil where that leaves nothing of it.
func (r Ring) Simplified(tolerance float64) Ring {
	if len(r) < 3 {
		return nil
	}
	// cut at its two ends farthest apart of a few, so that neither is dropped
	far := 0
	for i, p := range r {
		if p.Dist(r[0]) > r[far].Dist(r[0]) {
			far = i
		}
	}
	line := func(pts []Point) []Point {
		xs := make([]float64, 0, 2*len(pts))
		for _, p := range pts {
			xs = append(xs, p.X, p.Y)
		}
		return fromOpen(geom.NewLineString(geom.NewSequence(xs, geom.DimXY)).Simplify(tolerance))
	}
	back := append(append([]Point{}, r[far:]...), r[0])
	out := append(Ring(line(r[:far+1])), line(back)...)
	var ring Ring
	for i, p := range out {
		if i == 0 || p.Dist(ring[len(ring)-1]) > sameCorner {
			ring = append(ring, p)
		}
	}
	if n := len(ring); n > 1 && ring[0].Dist(ring[n-1]) <= sameCorner {
		ring = ring[:n-1]
	}
	if len(ring) < 3 || math.Abs(ring.SignedArea()) < tolerance*tolerance {
		return nil
	}
	return ring
}

func fromOpen(l geom.LineString) (out []Point) {
	seq := l.Coordinates()
	for i := range seq.Length() {
		xy := seq.GetXY(i)
		out = append(out, Point{xy.X, xy.Y})
	}
	return out
}
