package membrane

import (
	"math"

	"oxturn/layout/plane"
)

// lay turns a layout into pieces, numbered from number on, and seams.
func (c cutter) lay(r Room, l arrangement, number int) (Laid, error) {
	out := Laid{Name: r.Name, Along: l.frame.angle}
	for _, s := range l.strips {
		for _, sp := range s.pieces {
			p := Piece{Number: number, Strip: l.frame.rect(sp.from, s.low, sp.to, s.high)}
			var err error
			if p.Shape, err = l.reach(s, sp).Meet(l.floors[s.bay]); err != nil {
				return Laid{}, err
			}
			if p.Shape.Area() < 1 {
				continue // a shadow of nothing but an edge
			}
			if err = c.size(r, l, s, sp, &p); err != nil {
				return Laid{}, err
			}
			out.Pieces = append(out.Pieces, p)
			number++
		}
	}
	out.Seams = l.seams(r)
	return out, nil
}

func (f frame) rect(x0, y0, x1, y1 float64) plane.Ring {
	return plane.Ring{f.out(plane.Pt(x0, y0)), f.out(plane.Pt(x1, y0)), f.out(plane.Pt(x1, y1)),
		f.out(plane.Pt(x0, y1))}
}

// reach is the strip of a piece, led a little over every edge that is no seam,
// so that rounding leaves nothing of the floor out there.
func (l arrangement) reach(s strip, sp span) plane.Region {
	const over = 1.0
	x, y := sp, span{s.low, s.high}
	if !s.seamAt(sp, x.from) {
		x.from -= over
	}
	if !s.seamAt(sp, x.to) {
		x.to += over
	}
	if !l.seamAt(s, y.from) {
		y.from -= over
	}
	if !l.seamAt(s, y.to) {
		y.to += over
	}
	return plane.FromRing(l.frame.rect(x.from, y.from, x.to, y.to))
}

// seamAt reports whether another piece of the strip meets the one at sp at x.
func (s strip) seamAt(sp span, x float64) bool {
	for _, other := range s.pieces {
		if other != sp && (math.Abs(other.from-x) < shortestCut || math.Abs(other.to-x) < shortestCut) {
			return true
		}
	}
	return false
}

// seamAt reports whether another strip of the bay meets s at y.
func (l arrangement) seamAt(s strip, y float64) bool {
	for _, other := range l.strips {
		ends := math.Abs(other.low-y) < shortestCut || math.Abs(other.high-y) < shortestCut
		if ends && other.bay == s.bay && other.low != s.low {
			return true
		}
	}
	return false
}

// size works out what a piece is cut to: short of walls by Trim, up to seams
// and joints, and in whole pitches off the stock, so that its pegs come out in
// step wherever it is cut.
func (c cutter) size(r Room, l arrangement, s strip, sp span, p *Piece) error {
	x := span{sp.from + l.trimX(r, s, sp, sp.from), sp.to - l.trimX(r, s, sp, sp.to)}
	y := span{s.low + l.trimY(r, s, sp, s.low), s.high - l.trimY(r, s, sp, s.high)}
	b := p.extent(l.frame)
	x, y = x.within(b.Min.X, b.Max.X), y.within(b.Min.Y, b.Max.Y)
	p.Cells = min(c.cells, x.pitches(c.pitch))
	p.Rows = min(c.rows, y.pitches(c.row()))
	x, y = x.atMost(float64(p.Cells)*c.pitch), y.atMost(float64(p.Rows)*c.row())
	p.Length, p.Width = math.Max(x.length(), 0), math.Max(y.length(), 0)
	if p.Length == 0 || p.Width == 0 { // a wedge that goes with the trim: there is nothing to cut it out of
		return nil
	}
	return p.notch(l.frame, x, y)
}

// extent returns the bounds of a piece's shape in the frame.
func (p *Piece) extent(f frame) plane.Rect {
	var pts []plane.Point
	for _, part := range p.Shape {
		pts = append(pts, f.ring(part.Outer)...)
	}
	return plane.Bounds(pts)
}

// shorterBy is how much shorter than its strip a piece must be before it is cut shorter,
// mm.
const shorterBy = 20.0

// within returns a span that ends short of the places where the floor does, by Trim,
// where a strip goes far beyond one of its pieces.
func (s span) within(from, to float64) span {
	if from > s.from+shorterBy {
		s.from = from + Trim
	}
	if to < s.to-shorterBy {
		s.to = to - Trim
	}
	return s
}

// atMost takes off a span what rounding leaves it longer than the stock it is cut from.
func (s span) atMost(length float64) span { return span{s.from, math.Min(s.to, s.from+length)} }

// squareLeast is the share of its extent that a cut fills when it is square to the
// strip, and notchLeast the least side of one, mm: what is smaller goes with the trim.
const (
	squareLeast = 0.97
	notchLeast  = 5.0
)

// notch works out what is cut out of the rectangle of a piece as trimmed, short of
// what stands there by Trim.
func (p *Piece) notch(f frame, x, y span) error {
	whole := plane.FromRing(f.rect(x.from, y.from, x.to, y.to))
	out, err := whole.Less(p.Shape)
	if err != nil {
		return err
	}
	rest := p.squareCuts(f, out, x, y)
	if len(rest) == 0 {
		return nil
	}
	p.Traced = true
	thick, err := rest.Opened(2 * Trim) // without the wedges along walls a little out of square
	if err != nil {
		return err
	}
	p.squareCuts(f, thick, x, y)
	return nil
}

// squareCuts notes those parts of what is cut out that are square to the strip,
// and returns the others.
func (p *Piece) squareCuts(f frame, out plane.Region, x, y span) (rest plane.Region) {
	for _, part := range out {
		b := plane.Bounds(f.ring(part.Outer))
		if b.W() < notchLeast || b.H() < notchLeast {
			continue
		}
		if (plane.Region{part}).Area() < squareLeast*b.W()*b.H() { // a frame round the floor has a hole
			rest = append(rest, part)
			continue
		}
		p.Notches = append(p.Notches, Notch{
			From: math.Max(b.Min.X-Trim, x.from) - x.from, To: math.Min(b.Max.X+Trim, x.to) - x.from,
			Low: math.Max(b.Min.Y-Trim, y.from) - y.from, High: math.Min(b.Max.Y+Trim, y.to) - y.from,
		})
	}
	return rest
}

// pitches returns how many pitches a stretch of the frame touches, one at
// least.
func (s span) pitches(pitch float64) int {
	return max(1, int(math.Ceil(s.to/pitch-plane.Hair)-math.Floor(s.from/pitch+plane.Hair)))
}

// trimX returns what is cut off a piece's end at x: nothing at a seam across
// the strip, nor at a joint.
func (l arrangement) trimX(r Room, s strip, sp span, x float64) float64 {
	if s.seamAt(sp, x) || r.jointAt(l.frame.out(plane.Pt(x, (s.low+s.high)/2))) {
		return 0
	}
	return math.Min(Trim, sp.length()/4)
}

// trimY returns what is cut off a piece's side at y.
func (l arrangement) trimY(r Room, s strip, sp span, y float64) float64 {
	if l.seamAt(s, y) || r.jointAt(l.frame.out(plane.Pt((sp.from+sp.to)/2, y))) {
		return 0
	}
	return math.Min(Trim, (s.high-s.low)/4)
}

// seams returns where the strips of a layout meet, and the ends of pieces
// within a strip.
func (l arrangement) seams(r Room) []Seam {
	var doors []plane.Ring
	for _, d := range r.Doorways {
		doors = append(doors, l.frame.ring(d))
	}
	var out []Seam
	for _, s := range l.strips {
		for _, sp := range meeting(l.bays[s.bay], s.high) {
			out = append(out, Seam{
				Segment: plane.Segment{A: l.frame.out(plane.Pt(sp.from, s.high)),
					B: l.frame.out(plane.Pt(sp.to, s.high))},
				Doorway: total(overlap([]span{sp}, scan(doors, s.high))) > 1,
			})
		}
		out = append(out, l.cross(s, doors)...)
	}
	return out
}

// cross returns the seams across a strip.
func (l arrangement) cross(s strip, doors []plane.Ring) []Seam {
	turned := plane.Transposed(l.bays[s.bay])
	var out []Seam
	for k := 1; k < len(s.pieces); k++ {
		x := s.pieces[k].from
		if math.Abs(s.pieces[k-1].to-x) > shortestCut {
			continue // bare floor between them
		}
		for _, sp := range overlap(meeting(turned, x), []span{{s.low, s.high}}) {
			out = append(out, Seam{
				Segment: plane.Segment{A: l.frame.out(plane.Pt(x, sp.from)), B: l.frame.out(plane.Pt(x, sp.to))},
				Across:  true, Doorway: total(overlap([]span{sp}, scan(plane.Transposed(doors), x))) > 1,
			})
		}
	}
	return out
}

// meeting returns where there is floor to both sides of the line at y.
func meeting(rings []plane.Ring, y float64) []span {
	return overlap(scan(rings, y-shortestCut), scan(rings, y+shortestCut))
}
