package job

import (
	"fmt"
	"math"
	"strconv"
	"strings"

	"oxturn/layout/plane"
	"oxturn/layout/say"
)

// A leg is one wall as a tape reads it.
type leg struct {
	bearing float64 // degrees clockwise from north
	length  float64 // mm
}

// shortestWall is the shortest wall that is taped, mm: below it a unit is wrong.
const shortestWall = 5

// vector returns the way along the leg; along the compass points exactly.
func (l leg) vector() plane.Point {
	quarter := math.Mod(l.bearing/90, 4)
	unit := map[float64]plane.Point{0: {Y: 1}, 1: {X: 1}, 2: {Y: -1}, 3: {X: -1}}
	if u, ok := unit[quarter]; ok {
		return u.Mul(l.length)
	}
	s, c := plane.Sincos(plane.Radians(l.bearing))
	return plane.Pt(s, c).Mul(l.length)
}

// WindApart is the angle from one wind to the next, in degrees.
const WindApart = 45

// compassWords holds the eight winds, clockwise from north.
var compassWords = []string{"north", "north-east", "east", "south-east", "south", "south-west", "west", "north-west"}

// Wind names the nearest of the eight winds.
func Wind(bearing float64) string {
	n := float64(len(compassWords))
	return compassWords[int(math.Mod(bearing/WindApart+n+0.5, n))]
}

// WindOf is the compass word of a direction on the floor.
func WindOf(way plane.Point) string { return Wind(bearingOf(way)) }

// bearingOf returns the direction of a vector, clockwise from north, 0 to 360.
func bearingOf(v plane.Point) float64 {
	b := plane.Degrees(plane.Atan2(v.X, v.Y))
	return math.Mod(b+360, 360)
}

// parseLeg reads "east 9ft 4in" or "47.5deg 3ft 2in".
func (rd *reader) parseLeg(s string) (leg, *valueError) {
	bearing, rest, ok := CutBearing(strings.TrimSpace(s))
	if !ok {
		e := wrong("wall %q does not begin with a direction", s)
		e.hint = `begin with north, south, east, west, north-east…, or a bearing clockwise from north: "47.5deg ` +
			`3ft 2in"`
		if near := nearest(strings.Fields(s + " ?")[0], compassWords); near != "" {
			e.hint = "did you mean " + near + "?"
		}
		return leg{}, e
	}
	if rest = strings.TrimSpace(rest); rest == "" {
		return leg{}, wrong("wall %q has no length", s)
	}
	mm, bad := plane.ParseLength(rest, rd.units)
	switch {
	case bad != nil:
		return leg{}, wrong("wall %q: %v", s, bad)
	case !(mm >= shortestWall) || mm > greatestLength:
		e := wrong("wall %q: its length is read as %s; walls are from %s to %s long", s, say.TrimFigure(mm)+" mm",
			rd.say(shortestWall), rd.say(greatestLength))
		if mm > 0 && mm < shortestWall {
			e.hint, e.short = "is its unit missing? a bare number is in "+rd.units.String(), true
		}
		return leg{}, e
	}
	return leg{bearing, mm}, nil
}

// CutBearing splits the direction off the head of a taped wall: a compass word, or a bearing
// clockwise from north in degrees.
func CutBearing(s string) (bearing float64, rest string, ok bool) {
	low := strings.ToLower(s)
	best := 0
	for i, name := range compassWords {
		a, b, two := strings.Cut(name, "-")
		words := []string{name, initials(a, b)}
		if two {
			words = append(words, a+" "+b, a+b)
		}
		for _, w := range words {
			if len(w) > best && strings.HasPrefix(low, w) && !letterAt(low, len(w)) {
				best, bearing = len(w), float64(i)*WindApart
			}
		}
	}
	if best > 0 {
		return bearing, s[best:], true
	}
	return cutDegrees(s)
}

func initials(a, b string) string {
	if b == "" {
		return a[:1]
	}
	return a[:1] + b[:1]
}

// letterAt reports whether a word goes on at i.
func letterAt(s string, i int) bool {
	return i < len(s) && (s[i] >= 'a' && s[i] <= 'z' || s[i] == '-')
}

func cutDegrees(s string) (float64, string, bool) {
	n := 0
	for n < len(s) && strings.ContainsRune("-+.0123456789", rune(s[n])) {
		n++
	}
	v, err := strconv.ParseFloat(s[:n], 64)
	if err != nil || math.Abs(v) > 360 {
		return 0, "", false
	}
	rest := strings.TrimLeft(s[n:], " ")
	for _, unit := range []string{"degrees", "deg", "°"} {
		if strings.HasPrefix(strings.ToLower(rest), unit) {
			return math.Mod(v+360, 360), rest[len(unit):], true
		}
	}
	return 0, "", false
}

// tape lays the taped walls end to end from the origin and closes them; four
// walls with a diagonal need no closing. Nil when they cannot be read or do not
// close.
func (r *Room) tape(t table, diagonals []diagonal) plane.Ring {
	var legs []leg
	short := false
	for i, s := range t.texts("walls") {
		l, err := t.rd.parseLeg(s)
		if err != nil {
			if err.short && short {
				continue // one word on the unit mends them all
			}
			short = short || err.short
			if err.hint == "" {
				err.hint = "write it like " + t.key("walls").Example
			}
			t.rd.report.Errorf(t.atItem("walls", i), err.hint, "%s", err.message)
			t.spoil()
			continue
		}
		legs = append(legs, l)
	}
	if len(legs) == 0 || t.broken() && len(legs) < len(t.texts("walls")) {
		return nil
	}
	for _, l := range legs {
		r.Taped = append(r.Taped, l.length)
	}
	if len(legs) == 4 && len(diagonals) > 0 {
		return r.quadrilateral(t, legs, diagonals[0])
	}
	if t.rd.unitsForgotten(around(legs), t.rd.barePart(t.texts("walls"))) {
		r.reportForgotten(t, "walls", around(legs))
		return nil
	}
	ring, gap := layOut(legs)
	r.Closure = closureOf(legs, gap)
	if t.has("closure") && !t.readable("closure") {
		return nil // reported
	}
	if allowed := allowedGap(t, legs); r.Closure.Gap > allowed {
		r.reportGap(t, legs, gap, allowed)
		return nil
	}
	adjust(ring, legs, gap)
	return ring
}

// layOut returns the corners of the legs laid end to end from the origin, the
// last one's end apart, and how far that end misses the start.
func layOut(legs []leg) (ring plane.Ring, gap plane.Point) {
	for _, l := range legs {
		ring = append(ring, gap)
		gap = gap.Add(l.vector())
	}
	return ring, gap
}

func around(legs []leg) float64 {
	sum := 0.0
	for _, l := range legs {
		sum += l.length
	}
	return sum
}

// closes mm is a gap that comes of rounding alone.
const closes = 0.01

// closureOf describes a gap; below a hundredth of a millimetre there is none.
func closureOf(legs []leg, gap plane.Point) Closure {
	if gap.Norm() < closes {
		return Closure{}
	}
	return Closure{Gap: gap.Norm(), Bearing: bearingOf(gap), Share: gap.Norm() / around(legs)}
}

// allowedGap is the room's closure, or 1/200 of the way round but 50 mm at most.
func allowedGap(t table, legs []leg) float64 {
	if t.has("closure") {
		return t.num("closure")
	}
	return AllowedMiss(around(legs))
}

// AllowedMiss is by how much taped walls may miss their start, mm, for their length
// altogether, where the job does not say.
func AllowedMiss(around float64) float64 { return math.Min(around/missShare, missMost) }

// Of the way round, and at most, mm (common practice of taping).
const (
	missShare = 200
	missMost  = 50
)

// adjust spreads the gap over all corners in proportion to the length taped so
// far: the compass rule of surveying (N. Bowditch). The walls then close.
func adjust(ring plane.Ring, legs []leg, gap plane.Point) {
	total, sum := around(legs), 0.0
	for i := range ring {
		ring[i] = ring[i].Sub(gap.Mul(sum / total))
		sum += legs[i].length
	}
}

// reportGap says by how much walls miss their start, and which may be to blame.
func (r *Room) reportGap(t table, legs []leg, gap plane.Point, allowed float64) {
	c := r.Closure
	t.errorf("walls", gapHint(t, legs, gap),
		"the walls of room %q end %s %s of where they began (bearing %s, 1/%.0f of the way round); %s is allowed",
		r.Name, t.length(c.Gap), Wind(c.Bearing), say.Angle(c.Bearing), 1/c.Share, t.length(allowed))
}

// wallLeftOut: a gap of more than this part of the way round is a wall's length.
const wallLeftOut = 20

// gapHint looks for a wall left out and for one mistaken: walls along the gap
// are the only ones that can explain it alone.
func gapHint(t table, legs []leg, gap plane.Point) string {
	back := gap.Mul(-1)
	missing := fmt.Sprintf("\"%s %s\"", Wind(bearingOf(back)), plainLength(t, gap.Norm()))
	if gap.Norm() > around(legs)/wallLeftOut && len(legs) < 4 {
		return "is the last wall missing? add " + missing
	}
	var suspects []string
	for i, l := range legs {
		v := l.vector().Unit()
		if math.Abs(v.Cross(gap.Unit())) > math.Sin(plane.Radians(10)) {
			continue
		}
		sign := "less"
		if v.Dot(gap) < 0 {
			sign = "more"
		}
		suspects = append(suspects, fmt.Sprintf("%s (%s %s)", WallLetter(i), plainLength(t, gap.Norm()), sign))
	}
	if len(suspects) == 0 || len(suspects) > 4 {
		return "tape the walls again; a wall left out would be " + missing
	}
	return "if one wall is wrong it is " + strings.Join(suspects, " or ") + "; tape it again"
}

// plainLength writes a length as a job file would.
func plainLength(t table, mm float64) string {
	if t.rd.drawingUnits() != plane.Inches {
		return say.TrimFigure(mm) + " mm"
	}
	s := strings.NewReplacer("'-", "ft ", `"`, "in", " ", "-").Replace(plane.FormatFeetInches(mm))
	s = strings.TrimSuffix(strings.TrimPrefix(s, "0ft "), " 0in")
	return strings.TrimPrefix(s, "0-")
}
