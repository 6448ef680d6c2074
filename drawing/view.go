package drawing

import "oxturn/layout/plane"

// A View maps a floor, in mm and y up, to paper, in mm and y down.
type View struct {
	Ratio  float64     // mm of floor to one mm of paper, more than 0
	Origin plane.Point // this place of the floor...
	At     Pt          // ...lies here on paper
	Right  plane.Point // unit vector of the floor that points to the right on paper; zero: the floor's x
}

// NewView returns the view that puts the middle of bounds in the middle of
// field.
func NewView(bounds plane.Rect, field Box, ratio float64) View {
	return View{Ratio: ratio, Origin: bounds.Centre(), At: field.Centre()}
}

// NewTurnedView is NewView with the floor turned: bounds are along right and square to it.
func NewTurnedView(bounds plane.Rect, field Box, ratio float64, right plane.Point) View {
	v := NewView(bounds, field, ratio)
	v.Right = right
	v.Origin = v.unturned(v.Origin)
	return v
}

// Turned returns the coordinates of p along what points to the right on paper, and up.
func (v View) Turned(p plane.Point) plane.Point {
	if v.Right == (plane.Point{}) {
		return p
	}
	return plane.Pt(v.Right.Dot(p), v.Right.Cross(p))
}

// unturned is the way back from Turned.
func (v View) unturned(p plane.Point) plane.Point {
	if v.Right == (plane.Point{}) {
		return p
	}
	return v.Right.Mul(p.X).Add(v.Right.Left().Mul(p.Y))
}

// Dir turns a direction of the floor into one of the paper.
func (v View) Dir(p plane.Point) Pt {
	d := v.Turned(p)
	return Pt{X: d.X, Y: -d.Y}
}

// TurnedPt returns where on paper a place lies that is given as Turned gives it.
func (v View) TurnedPt(p plane.Point) Pt { return v.Pt(v.unturned(p)) }

// Pt returns where p lies on paper.
func (v View) Pt(p plane.Point) Pt {
	d := v.Turned(p.Sub(v.Origin))
	return Pt{X: v.At.X + d.X/v.Ratio, Y: v.At.Y - d.Y/v.Ratio}
}

// Floor returns the place of the floor that lies at p.
func (v View) Floor(p Pt) plane.Point {
	d := p.Sub(v.At)
	return v.Origin.Add(v.unturned(plane.Pt(d.X*v.Ratio, -d.Y*v.Ratio)))
}

// Len returns how long mm of floor are on paper.
func (v View) Len(mm float64) float64 { return mm / v.Ratio }

// Pts returns where pts lie on paper.
func (v View) Pts(pts []plane.Point) []Pt {
	out := make([]Pt, len(pts))
	for i, p := range pts {
		out[i] = v.Pt(p)
	}
	return out
}

// Rings returns the outlines of r, holes included, on paper.
func (v View) Rings(r plane.Region) [][]Pt {
	var out [][]Pt
	for _, ring := range r.Rings() {
		out = append(out, v.Pts(ring))
	}
	return out
}

// Outline returns the closed outlines of r, to be filled or stroked.
func (v View) Outline(r plane.Region) []Seg {
	var segs []Seg
	for _, ring := range v.Rings(r) {
		segs = append(segs, Polygon(ring...)...)
	}
	return segs
}
