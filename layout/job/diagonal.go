package job

import (
	"fmt"
	"math"
	"strings"

	"oxturn/layout/plane"
	"oxturn/layout/say"
)

// A diagonal is a length taped from where one wall starts to where another does.
type diagonal struct {
	from, to int // corners
	length   float64
	item     int // which of the file's diagonals
}

// tapeSlack is how far a taped diagonal may be off before it is said: 1/2 in.
const tapeSlack = 12.7

// readDiagonals reads the room's diagonals. In a room of four walls they may
// come without letters: the first is A-C, the second B-D.
func readDiagonals(t table, corners int) []diagonal {
	var out []diagonal
	for i, s := range t.texts("diagonals") {
		d, err := parseDiagonal(t, s, i, corners)
		if err != "" {
			t.rd.report.Errorf(t.atItem("diagonals", i), "write it like "+t.key("diagonals").Example, "diagonal %q: %s",
				s, err)
			t.spoil()
			continue
		}
		out = append(out, d)
	}
	return out
}

// parseDiagonal reads "A-C 11ft 1in"; the message is empty when it can.
func parseDiagonal(t table, s string, item, corners int) (d diagonal, message string) {
	d = diagonal{from: item, to: item + 2, item: item}
	pair, rest, _ := strings.Cut(strings.TrimSpace(s), " ")
	a, b, lettered := strings.Cut(strings.ToUpper(pair), "-")
	switch {
	case lettered && a != "" && a[0] >= 'A' && a[0] <= 'Z':
		d.from, d.to = cornerNamed(a, corners), cornerNamed(b, corners)
		s = rest
	case corners != 4 || item > 1:
		return d, "it does not say between which walls' starts it was taped"
	}
	if d.from < 0 || d.to < 0 {
		return d, fmt.Sprintf("the room has walls A to %s", WallLetter(corners-1))
	}
	if gap := (d.from - d.to + corners) % corners; gap == 0 || gap == 1 || gap == corners-1 {
		return d, "its two corners are ends of one wall"
	}
	mm, err := plane.ParseLength(s, t.rd.units)
	switch {
	case err != nil:
		return d, err.Error()
	case !(mm > 0) || mm > greatestLength:
		return d, fmt.Sprintf("its length is read as %s mm; it must be above 0", say.TrimFigure(mm))
	}
	d.length = mm
	return d, ""
}

// cornerNamed returns the corner where a wall starts, -1 when there is none.
func cornerNamed(s string, corners int) int {
	for i := range corners {
		if WallLetter(i) == s {
			return i
		}
	}
	return -1
}

// called names a diagonal by its walls.
func (d diagonal) called() string { return WallLetter(d.from) + "-" + WallLetter(d.to) }

// checkDiagonals warns where a taped diagonal is not what the walls give.
func (r *Room) checkDiagonals(t table, diagonals []diagonal) {
	for _, d := range diagonals {
		drawn := r.Outline[d.from].Dist(r.Outline[d.to])
		if math.Abs(drawn-d.length) <= tapeSlack+r.Closure.Gap {
			continue
		}
		t.rd.report.Warnf("W002", t.atItem("diagonals", d.item),
			"tape the walls and both diagonals again; the room is drawn as the walls say",
			"diagonal %s of room %q was taped as %s, but the walls make it %s: %s apart", d.called(), r.Name,
			t.length(d.length), t.length(drawn), t.length(math.Abs(drawn-d.length)))
	}
}

// quadrilateral draws a room of four taped walls as its diagonal shows it to
// be, square or not: two triangles on the diagonal, their sides as taped. Wall
// A keeps its bearing. A second diagonal is left for checkDiagonals. Nil when
// the lengths make no such room, which is reported.
func (r *Room) quadrilateral(t table, legs []leg, d diagonal) plane.Ring {
	nominal, _ := layOut(legs)
	turn := 1.0
	if nominal.SignedArea() < 0 {
		turn = -1
	}
	side := func(i int) float64 { return legs[i].length }
	start, end := plane.Pt(0, 0), legs[0].vector()
	ring := plane.Ring{start, end, {}, {}}
	ok1, ok2 := false, false
	if d.from%2 == 0 { // A-C
		ring[2], ok1 = apex(start, end, d.length, side(1), turn)
		ring[3], ok2 = apex(start, ring[2], side(3), side(2), turn)
	} else { // B-D
		ring[3], ok1 = apex(start, end, side(3), d.length, turn)
		ring[2], ok2 = apex(ring[3], end, side(2), side(1), turn)
	}
	if !ok1 || !ok2 || r.skewed(ring, legs) {
		t.rd.report.Errorf(t.atItem("diagonals", d.item), "tape the walls and the diagonals again",
			"diagonal %s of room %q, %s, does not go with its walls", d.called(), r.Name, t.length(d.length))
		return nil
	}
	return ring
}

// mostOffSquare is how far a side may turn from how it was typed, degrees, for diagonals to be believed.
const mostOffSquare = 15

// skewed reports whether a wall runs more than 15 degrees off its bearing: the
// diagonal or a wall is then wrong.
func (r *Room) skewed(ring plane.Ring, legs []leg) bool {
	for i := range ring {
		e := ring.Edge(i)
		if u := e.B.Sub(e.A).Unit(); u.Dot(legs[i].vector().Unit()) < math.Cos(plane.Radians(mostOffSquare)) {
			return true
		}
	}
	return false
}

// apex returns the third corner of a triangle on a and b, at the given
// distances from them, on the left of ab where turn is 1, else on the right.
func apex(a, b plane.Point, fromA, fromB, turn float64) (plane.Point, bool) {
	base := a.Dist(b)
	if base == 0 {
		return plane.Point{}, false
	}
	along := (float64(base*base) + float64(fromA*fromA) - float64(fromB*fromB)) / (2 * base)
	h2 := float64(fromA*fromA) - float64(along*along)
	if !(h2 > 0) {
		return plane.Point{}, false
	}
	u := b.Sub(a).Unit()
	return a.Add(u.Mul(along)).Add(u.Left().Mul(turn * math.Sqrt(h2))), true
}
