package drawing

import "math"

// steps calls f with every whole k for which k x step lies in [lo, hi], and
// one more at each end.
func steps(lo, hi, step float64, f func(k int)) {
	for k := int(math.Floor(lo/step)) - 1; float64(k) <= hi/step+1; k++ {
		f(k)
	}
}

// parallels returns straight lines across box at degrees, step mm apart and
// offset mm off the origin.
func parallels(box Box, degrees, step, offset float64) [][]Pt {
	var turned []Pt
	for _, c := range box.Corners() {
		turned = append(turned, Turned(c, -degrees))
	}
	b := BoxOf(turned...)
	var lines [][]Pt
	steps(b.Y0-offset, b.Y1-offset, step, func(k int) {
		y := float64(k)*step + offset
		lines = append(lines, []Pt{Turned(Pt{X: b.X0, Y: y}, degrees), Turned(Pt{X: b.X1, Y: y}, degrees)})
	})
	return lines
}

// staggered returns dots on rows step mm apart, every other row shifted by
// half, each dot moved by up to jitter/2 steps either way.
func staggered(box Box, step, jitter float64) []Pt {
	var pts []Pt
	steps(box.Y0, box.Y1, step, func(j int) {
		steps(box.X0, box.X1, step, func(i int) {
			x := float64(i) + 0.5*float64(j&1) + jitter*scatter(i, j, 1)
			y := float64(j) + jitter*scatter(i, j, 2)
			pts = append(pts, Pt{X: x * step, Y: y * step})
		})
	})
	return pts
}

// scatter returns a number from -1/2 to 1/2 that looks random and depends on
// its arguments alone: the finisher of a 64-bit hash over the three.
func scatter(i, j, k int) float64 {
	const (
		golden   = 0x9E3779B97F4A7C15 // 2^64 over the golden ratio
		first    = 0xff51afd7ed558ccd // multipliers and shift of the finalizer of MurmurHash3, 128 bits (public domain)
		second   = 0xc4ceb9fe1a85ec53
		shift    = 33
		word     = 64
		fraction = 53 // bits of a float64
	)
	h := uint64(uint32(i))<<(word/2) ^ uint64(uint32(j)) ^ uint64(k)*golden
	h ^= h >> shift
	h *= first
	h ^= h >> shift
	h *= second
	h ^= h >> shift
	return float64(h>>(word-fraction))/(1<<fraction) - 0.5
}

// rows returns one line a row of the given height, its points from shape.
func rows(box Box, height float64, shape func(row int, x0, x1 float64) []Pt) [][]Pt {
	var lines [][]Pt
	steps(box.Y0, box.Y1, height, func(k int) {
		line := shape(k, box.X0, box.X1)
		for i := range line {
			line[i].Y += float64(k) * height
		}
		lines = append(lines, line)
	})
	return lines
}

// zigzag is one row of insulation: up and down by 2.6 mm in 1.5.
func zigzag(_ int, x0, x1 float64) []Pt {
	var pts []Pt
	const step, up = 1.5, 2.6
	steps(x0, x1, step, func(k int) {
		pts = append(pts, Pt{X: float64(k) * step, Y: 0.2 + up*float64(k&1)})
	})
	return pts
}

// grain is one line of wood: a slow wave, different from row to row.
func grain(row int, x0, x1 float64) []Pt {
	phase := 6 * scatter(row, 0, 3)
	var pts []Pt
	steps(x0, x1, 1, func(k int) {
		x := float64(k)
		pts = append(pts, Pt{X: x, Y: 0.35 * math.Sin(x/4+phase) * (1 + scatter(row, 0, 4))})
	})
	return pts
}

// dashStep mm is from one dash to the next.
const dashStep = 1.5

// dashes returns level dashes 2 mm long in staggered rows.
func dashes(box Box) [][]Pt {
	var lines [][]Pt
	for _, p := range staggered(box, dashStep, 0) {
		if i := int(math.Floor(p.X / dashStep)); i&1 == 0 {
			lines = append(lines, []Pt{p, p.Add(Pt{X: 1.6, Y: 0})})
		}
	}
	return lines
}

// stones returns the triangles that tell concrete from mortar.
func stones(box Box) [][]Pt {
	const step, stray, radius, third = 5, 0.6, 0.8, 120
	var lines [][]Pt
	for _, c := range staggered(box.Grow(2), step, stray) {
		turn := 180 * scatter(int(c.X*100), int(c.Y*100), 5)
		var t []Pt
		for k := range 4 {
			t = append(t, c.Add(Turned(Pt{X: radius, Y: 0}, turn+third*float64(k))))
		}
		lines = append(lines, t)
	}
	return lines
}
