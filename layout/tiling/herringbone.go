package tiling

import (
	"math"

	"oxturn/layout/plane"
)

// eachWoven visits the cells of herringbone, which lays tiles lengthwise and crosswise by
// turns, each end against the side of the next: with l and w for a tile's length and width
// with their joint, a tile lies along the axes at (0, 0) and one across them at (0, w), and
// both again at every i (w, w) + j (l, -l).
func (g Grid) eachWoven(f plane.Face, box plane.Rect, visit func(cell)) error {
	l, w := g.Length+g.Joint, g.Width+g.Joint
	// a pair of tiles has its corner at (i w + j l, i w - j l), so that i and j follow from sum and
	// difference; it reaches l to the right of it and l + w above it
	firstI, lastI := math.Ceil((box.Min.X+box.Min.Y-l-2*w)/(2*w)), math.Floor((box.Max.X+box.Max.Y)/(2*w))
	firstJ, lastJ := math.Ceil((box.Min.X-box.Max.Y-l)/(2*l)), math.Floor((box.Max.X-box.Min.Y+l+w)/(2*l))
	if !((lastI-firstI+1)*(lastJ-firstJ+1)*2 < maxCells) {
		return errTooMany
	}
	for i := firstI; i <= lastI; i++ {
		for j := firstJ; j <= lastJ; j++ {
			at := plane.Pt(float64(i*w)+float64(j*l), float64(i*w)-float64(j*l))
			place(f, box, cell{at: at, size: plane.Pt(g.Length, g.Width)}, visit)
			place(f, box, cell{at: at.Add(plane.Pt(0, w)), size: plane.Pt(g.Width, g.Length), crosswise: true}, visit)
		}
	}
	return nil
}

// place visits a cell with the floor inside it, if there is any.
func place(f plane.Face, box plane.Rect, c cell, visit func(cell)) {
	far := c.at.Add(c.size)
	if c.at.X >= box.Max.X || c.at.Y >= box.Max.Y || far.X <= box.Min.X || far.Y <= box.Min.Y {
		return
	}
	c.floor = f.Between(plane.AxisX, c.at.X, far.X).Between(plane.AxisY, c.at.Y, far.Y)
	if len(c.floor) > 0 {
		visit(c)
	}
}
