package plane

// Clip returns the part of a ring that lies on one side of a line: where off, which grows
// evenly across it, is not negative (Sutherland and Hodgman's method, Communications of
// the ACM 17, 1974). A ring that is not convex may keep edges that run back on
// themselves along the line; they enclose nothing.
func (r Ring) Clip(off func(Point) float64) (out Ring) {
	for i := range r {
		e := r.Edge(i)
		a, b := off(e.A), off(e.B)
		if a >= 0 {
			out = append(out, e.A)
		}
		if a >= 0 != (b >= 0) {
			out = append(out, e.A.Lerp(e.B, a/(a-b)))
		}
	}
	return out
}

// Left is how far p lies to the left of the line through s, times the length of s;
// negative to its right.
func (s Line[Of]) Left(p Vec[Of]) float64 { return side(s.A, s.B, p) }
