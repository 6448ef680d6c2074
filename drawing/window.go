package drawing

import "oxturn/layout/plane"

// Within returns what of items lies in b: lettering that is inside it, lines and areas
// cut at its edge.
func Within(items []Item, b Box) []Item {
	var out []Item
	for _, it := range items {
		switch it := it.(type) {
		case *Text:
			if b.Contains(it.Box()) {
				out = append(out, it)
			}
		case *Path:
			out = append(out, it.within(b)...)
		case *Image:
			if b.Contains(it.Box) { // a picture is not cut
				out = append(out, it)
			}
		}
	}
	return out
}

// cutFine is how far from a curve its cut pieces may lie, mm.
const cutFine = 0.02

// within returns the part of a path in b: its area and its line apart where both are cut.
func (p *Path) within(b Box) []Item {
	box := p.Box()
	switch {
	case b.Contains(box):
		return []Item{p}
	case !b.Meets(box):
		return nil
	}
	var out []Item
	lines := Flatten(p.Segs, cutFine)
	if p.Fill != nil {
		if area := areasWithin(lines, b); len(area) > 0 {
			out = append(out, &Path{Layer: p.Layer, Title: p.Title, Segs: area, Fill: p.Fill})
		}
	}
	if p.Stroke != nil {
		var segs []Seg
		for _, line := range lines {
			for _, piece := range b.Pieces(line) {
				segs = append(segs, Polyline(piece...)...)
			}
		}
		if len(segs) > 0 {
			out = append(out, &Path{Layer: p.Layer, Title: p.Title, Segs: segs, Stroke: p.Stroke})
		}
	}
	return out
}

// areasWithin cuts the rings of an area at the sides of b, each by itself: with the
// even-odd rule what they enclose together is then cut too.
func areasWithin(rings [][]Pt, b Box) (segs []Seg) {
	for _, ring := range rings {
		r := make(plane.Ring, len(ring))
		for i, p := range ring {
			r[i] = plane.Pt(p.X, p.Y)
		}
		for _, off := range []func(plane.Point) float64{
			func(p plane.Point) float64 { return p.X - b.X0 }, func(p plane.Point) float64 { return b.X1 - p.X },
			func(p plane.Point) float64 { return p.Y - b.Y0 }, func(p plane.Point) float64 { return b.Y1 - p.Y },
		} {
			r = r.Clip(off)
		}
		var pts []Pt
		for _, p := range r {
			pts = append(pts, Pt(p))
		}
		segs = append(segs, Polygon(pts...)...)
	}
	return segs
}

// leastPiece is what a line that only touches a box may leave of itself, mm.
const leastPiece = 0.01

// Pieces returns the parts of a line that lie in b.
func (b Box) Pieces(line []Pt) [][]Pt {
	var out [][]Pt
	for i := 1; i < len(line); i++ {
		p, q, ok := b.Clip(line[i-1], line[i])
		if !ok {
			continue
		}
		if n := len(out); n > 0 && out[n-1][len(out[n-1])-1] == p {
			out[n-1] = append(out[n-1], q)
		} else {
			out = append(out, []Pt{p, q})
		}
	}
	var long [][]Pt
	for _, part := range out {
		if BoxOf(part...).W()+BoxOf(part...).H() > leastPiece {
			long = append(long, part)
		}
	}
	return long
}
