package floorplan

import (
	"cmp"
	"math"
	"slices"

	"oxturn/drawing"
	"oxturn/drawing/lettering"
	"oxturn/layout"
	"oxturn/layout/job"
	"oxturn/layout/plane"
)

// Where the dimension lines of a side lie, mm on paper from the finished face.
const (
	TierOne  = Poche + 8
	tierTwo  = TierOne + 10
	TierPast = 4.5 // room beyond the last line for its text
)

// A side is one of the four sides of a drawing.
type side int

// The sides.
const (
	SouthSide side = iota
	eastSide
	northSide
	westSide
)

// String names the side by the compass.
func (s side) String() string { return [...]string{"south", "east", "north", "west"}[s] }

// out returns the way off the floor at a side, as the floor lies on paper.
func (s side) out() plane.Point {
	return [...]plane.Point{{X: 0, Y: -1}, {X: 1, Y: 0}, {X: 0, Y: 1}, {X: -1, Y: 0}}[s]
}

// along returns the coordinate that a side's dimensions run along, and depth
// the other one, larger farther out.
func (s side) along(p plane.Point) float64 {
	if s == SouthSide || s == northSide {
		return p.X
	}
	return p.Y
}

func (s side) depth(p plane.Point) float64 { return p.Dot(s.out()) }

// A Station is a point of a side that is dimensioned.
type Station struct {
	Along, depth float64
	Weight       float64 // of two that lie too close together the heavier stays
}

// Weights of stations: a corner weighs as many mm as its wall is long, so that
// of two nearly in line every sheet shows the same, whatever its scale.
const (
	EndWeight      = 1e9 // where the room begins and ends
	BoxWeight      = 0   // the thermostat
	OpeningWeight  = -1
	standingWeight = -2 // what stands against a wall
)

// A ladder is the dimensions of one side: stations in order.
type ladder struct {
	Side     side
	Stations []Station
	Overall  bool // a second tier with the whole length
}

// Square is how far off square to the sheet a wall may be and still be
// dimensioned along it, radians: what is figured is its run along the sheet,
// 1.3 mm short of its length in a metre at most.
const Square = 0.05

// faces reports whether a wall with the given way out looks to side s.
func (s side) faces(out plane.Point) bool {
	return math.Abs(out.Cross(s.out())) < Square && out.Dot(s.out()) > 0
}

// StationGap is the least length on paper that a chain shows as a part, mm.
const StationGap = 1.2

// Ladders works out which sides of a room are dimensioned and where: every
// corner of a wall that looks to a side, doorways, and what stands against it.
func Ladders(r *job.Room, ratio float64) []ladder {
	r = squared(r)
	var ls []ladder
	for _, s := range []side{SouthSide, westSide, northSide, eastSide} {
		l := ladder{Side: s, Stations: sideStations(r, s, ratio)}
		if len(l.Stations) < 2 || repeats(ls, l) {
			continue
		}
		ls = append(ls, l)
	}
	return withOverall(ls, r)
}

// chainedAt reports whether wall i is dimensioned along side s.
func chainedAt(r *job.Room, i int, s side, ratio float64) bool {
	w := r.Walls[i]
	return w.Arc == nil && s.faces(r.Outline.Outward(w.Segment)) && w.Length()/ratio >= LetterLeast && seen(r, i, s)
}

func sideStations(r *job.Room, s side, ratio float64) []Station {
	var all []Station
	for i, w := range r.Walls {
		if !chainedAt(r, i, s, ratio) {
			continue
		}
		for _, pt := range wallPoints(r, i) {
			p := w.At(pt.Along)
			all = append(all, Station{s.along(p), s.depth(p), pt.Weight})
		}
	}
	if all == nil {
		return nil
	}
	return Spaced(append(all, roomEnds(r, s)...), StationGap*ratio)
}

// roomEnds returns the places of a side where the room begins and ends,
// whatever it looks like there.
func roomEnds(r *job.Room, s side) []Station {
	var all []Station
	b := r.Outline.Bounds()
	for _, p := range r.Outline {
		if a := s.along(p); a == s.along(b.Min) || a == s.along(b.Max) {
			all = append(all, Station{a, s.depth(p), EndWeight})
		}
	}
	return all
}

// OverallLadders gives a room's length and width and nothing else.
func OverallLadders(r *job.Room) []ladder {
	r = squared(r)
	var ls []ladder
	for _, s := range []side{SouthSide, westSide} {
		ls = append(ls, ladder{Side: s, Stations: Spaced(roomEnds(r, s), 1)})
	}
	return ls
}

// SlantingDatums returns the walls that are measured from where they stand askew
// to the sheet: its length and width would be no figures of the room then.
func SlantingDatums(r *job.Room) []job.Wall {
	d, on := layout.DatumsOf(r), squared(r).Walls
	if !d.Both() || !askew(on[d[0].Index].Segment) || !askew(on[d[1].Index].Segment) {
		return nil
	}
	return []job.Wall{r.Walls[d[0].Index], r.Walls[d[1].Index]}
}

// OverallBorder is what overall dimensions take round a room.
func OverallBorder(r *job.Room, ratio float64) (left, right, top, bottom float64) {
	plain := math.Max(Poche+9, Poche+swingRoom(r, ratio)+4)
	if SlantingDatums(r) != nil {
		plain = math.Max(plain, TierOne+TierPast)
		return plain, plain, plain, plain
	}
	lined := math.Max(plain, TierOne+TierPast)
	return lined, plain, plain, lined
}

// wallPoints returns what is dimensioned along wall i, mm from its start: its
// ends, its openings, what stands against it, and the thermostat.
func wallPoints(r *job.Room, i int) []Station {
	w := r.Walls[i]
	var all []Station
	add := func(weight float64, ds ...float64) {
		for _, d := range ds {
			all = append(all, Station{Along: d, Weight: weight})
		}
	}
	add(drawing.Round(w.Length(), 1), 0, w.Length())
	for _, o := range r.Openings {
		if o.Wall == i {
			add(OpeningWeight, o.From, o.To)
		}
	}
	u := w.B.Sub(w.A).Unit()
	for _, f := range r.Fixtures {
		back := f.Back
		if back.Length() == 0 || math.Abs(back.B.Sub(back.A).Unit().Cross(u)) > 0.02 ||
			w.Distance(back.A.Lerp(back.B, 0.5)) > 30 {
			continue
		}
		if f.Flange != nil {
			add(standingWeight, u.Dot(f.Flange.Centre.Sub(w.A)))
			continue
		}
		add(standingWeight, u.Dot(back.A.Sub(w.A)), u.Dot(back.B.Sub(w.A)))
	}
	for _, k := range r.KeepOuts {
		add(standingWeight, against(w.Segment, k.Outline)...)
	}
	if r.Thermostat.Wall == i && r.Thermostat.Face == nil {
		add(BoxWeight, u.Dot(r.Thermostat.At.Sub(w.A)))
	}
	return all
}

// WallsAlone returns a room of which only walls and openings are dimensioned:
// what stands in it is in a table on the same sheet.
func WallsAlone(r *job.Room) *job.Room {
	bare := r.WithoutBox()
	bare.Fixtures, bare.KeepOuts = nil, nil
	return bare
}

// against returns where the edges of an outline that lie on a wall begin and
// end, mm from the wall's start.
func against(w plane.Segment, outline plane.Ring) []float64 {
	u := w.B.Sub(w.A).Unit()
	const on = 2 // mm off the wall that nobody measures
	var ds []float64
	for i := range outline {
		e := outline.Edge(i)
		if e.Length() > on && w.Distance(e.A) < on && w.Distance(e.B) < on {
			ds = append(ds, u.Dot(e.A.Sub(w.A)), u.Dot(e.B.Sub(w.A)))
		}
	}
	return ds
}

// seen reports whether wall i can be seen from side s: nothing of the room
// lies before its middle.
func seen(r *job.Room, i int, s side) bool {
	w := r.Walls[i]
	mid := w.At(w.Length() / 2).Add(s.out())
	far := mid.Add(s.out().Mul(1e6))
	for k, o := range r.Walls {
		if k != i && o.Crosses(plane.Segment{A: mid, B: far}) {
			return false
		}
	}
	return true
}

// Spaced puts stations in order, without those that lie within gap of a heavier
// one. What stays begins as far out as what it stands for.
func Spaced(all []Station, gap float64) []Station {
	slices.SortStableFunc(all, func(a, b Station) int {
		return cmp.Or(cmp.Compare(b.Weight, a.Weight), cmp.Compare(a.Along, b.Along))
	})
	var out []Station
	for _, s := range all {
		near := slices.IndexFunc(out, func(o Station) bool { return math.Abs(o.Along-s.Along) <= gap })
		if near < 0 {
			out = append(out, s)
			continue
		}
		out[near].depth = math.Max(out[near].depth, s.depth)
	}
	slices.SortFunc(out, func(a, b Station) int { return cmp.Compare(a.Along, b.Along) })
	return out
}

// leaningOff is how far a wall that is dimensioned along the sheet may stand out of
// line with it before a note says so, mm.
const leaningOff = 5.0

// leans reports whether a wall of a room is dimensioned along the sheet but out of
// Square to it, so that its figure is not quite its length.
func leans(r *job.Room) bool {
	r = squared(r)
	for _, w := range r.Walls {
		for _, s := range []side{SouthSide, eastSide, northSide, westSide} {
			if w.Arc == nil && s.faces(r.Outline.Outward(w.Segment)) &&
				math.Abs(s.depth(w.A)-s.depth(w.B)) > leaningOff {
				return true
			}
		}
	}
	return false
}

// has reports whether a ladder dimensions a place along its side, within so much.
func (l ladder) has(along, within float64) bool {
	return slices.ContainsFunc(l.Stations, func(s Station) bool { return math.Abs(s.Along-along) < within })
}

// repeats reports whether the opposite side already gives the same figures.
func repeats(ls []ladder, l ladder) bool {
	for _, m := range ls {
		if (m.Side+2)%4 != l.Side {
			continue
		}
		same := true
		for _, s := range l.Stations {
			same = same && m.has(s.Along, 0.5)
		}
		if same {
			return true
		}
	}
	return false
}

// withOverall gives the first ladder of each direction that has more than one
// part the whole length as well.
func withOverall(ls []ladder, r *job.Room) []ladder {
	for _, axis := range []side{SouthSide, westSide} {
		given := false
		for _, l := range ls {
			given = given || l.Side%2 == axis%2 && len(l.Stations) == 2
		}
		for i := range ls {
			if !given && ls[i].Side%2 == axis%2 {
				ls[i].Overall, given = true, true
			}
		}
	}
	return ls
}

// Border returns how much paper the dimensions of a room take on each side.
func Border(r *job.Room, ratio float64) (left, right, top, bottom float64) {
	swing := swingRoom(r, ratio)
	plain := math.Max(Poche+9, Poche+swing+4)
	m := [4]float64{plain, plain, plain, plain}
	for _, l := range Ladders(r, ratio) {
		m[l.Side] = math.Max(plain, TierOne+TierPast+4.3)
		if l.Overall {
			m[l.Side] = math.Max(plain, tierTwo+TierPast)
		}
	}
	if slanting(r, ratio) {
		for i := range m {
			m[i] = math.Max(m[i], TierOne+14)
		}
	}
	return m[westSide], m[eastSide], m[northSide], m[SouthSide]
}

// slanting reports whether a wall long enough to be dimensioned stands askew.
func slanting(r *job.Room, ratio float64) bool {
	r = squared(r)
	for _, w := range r.Walls {
		if w.Arc == nil && askew(w.Segment) && w.Length()/ratio >= slantLeast {
			return true
		}
	}
	return false
}

func askew(w plane.Segment) bool {
	u := w.B.Sub(w.A).Unit()
	return math.Abs(u.X) > Square && math.Abs(u.Y) > Square
}

// slantLeast is the shortest slanting wall on paper that is dimensioned, mm.
const slantLeast = 14.0

// Dimensions draws the dimensions of r, which is the view's room or a part of it:
// chains on its sides, overall figures beyond them, and slanting walls along
// themselves. It returns how many walls are too short on paper to be dimensioned.
func (v *View) Dimensions(r *job.Room) (left int) {
	if leans(r) {
		v.Remark(v.Fig.Text("The room is out of square: chains run straight along the sheet from its outermost " +
			"points, and give corners nearly in line once."))
	}
	on := squared(r)
	for _, l := range Ladders(r, v.Paper.Ratio) {
		v.Ladder(l, on.Outline.Bounds())
	}
	for i, w := range r.Walls {
		switch {
		case w.Arc != nil: // it has its radius in the list of corners
		case v.Paper.Len(w.Length()) < LetterLeast:
			left++
		case askew(on.Walls[i].Segment) && v.Paper.Len(w.Length()) >= slantLeast:
			v.Slant(w)
		}
	}
	return left
}

// place turns a station back into a point of the floor.
func (s side) place(st Station) plane.Point {
	switch s {
	case SouthSide:
		return plane.Pt(st.Along, -st.depth)
	case northSide:
		return plane.Pt(st.Along, st.depth)
	case eastSide:
		return plane.Pt(st.depth, st.Along)
	}
	return plane.Pt(-st.depth, st.Along)
}

// zero returns where along a side its figures count from: the datum that is
// Square to it, as for the offsets in the tables.
func (v *View) zero(s side) float64 {
	for _, d := range v.Datums().There() {
		if face := v.Paper.Turned(v.Outward(d.Segment)); math.Abs(face.Dot(s.out())) < Square {
			return s.along(v.Paper.Turned(d.A))
		}
	}
	return s.along(TurnedBounds(v.Room.Job).Min)
}

// onPaper is the way off the floor at a side, on paper.
func (s side) onPaper() drawing.Pt { return drawing.Pt{X: s.out().X, Y: -s.out().Y} }

// sideName is what a reader calls a side of a plan: the north arrow may point any way.
func (v *View) sideName(s side) string { return v.Fig.Text(layout.SideOfSheet(s.out())) }

// Ladder dimensions what stands along one side of a room, bounds as it lies on paper: tiers of figures, the
// overall one outermost.
func (v *View) Ladder(l ladder, b plane.Rect) {
	out := l.Side.onPaper()
	dir := drawing.Pt{X: 1}
	if l.Side == eastSide || l.Side == westSide {
		dir = drawing.Pt{Y: -1}
	}
	edge := v.Paper.TurnedPt(b.Min).Dot(out)
	if e := v.Paper.TurnedPt(b.Max).Dot(out); e > edge {
		edge = e
	}
	c := Chain{Dir: dir, Out: out, Line: edge + TierOne, Name: v.sideName(l.Side)}
	zero := v.zero(l.Side)
	for _, s := range l.Stations {
		c.Feet = append(c.Feet, v.Paper.TurnedPt(l.Side.place(s)).Add(out.Mul(Poche)))
		c.At = append(c.At, s.Along-zero)
	}
	c.Draw(v.Page, v.Fig)
	if l.Overall && len(c.Feet) > 2 {
		n := len(c.Feet) - 1
		whole := Chain{Dir: dir, Out: out, Line: edge + tierTwo, Name: v.Fig.Textf("%s, overall", v.sideName(l.Side))}
		for _, f := range []drawing.Pt{c.Feet[0], c.Feet[n]} {
			whole.Feet = append(whole.Feet, f.Add(out.Mul(edge+TierOne+extensionPast-0.2-f.Dot(out)-extensionGap)))
		}
		whole.At = []float64{c.At[0], c.At[n]}
		whole.Draw(v.Page, v.Fig)
	}
}

// Slant dimensions a slanting wall along itself, outside it where that crosses
// no other dimension, or an extension line at most; where it would, the length
// goes into the column.
func (v *View) Slant(w job.Wall) {
	out := v.Paper.Dir(v.Outward(w.Segment))
	a, b := v.Paper.Pt(w.A).Add(out.Mul(Poche)), v.Paper.Pt(w.B).Add(out.Mul(Poche))
	for _, keep := range [][]lettering.Kind{{lettering.SolidInk, lettering.ExtensionInk}, {lettering.SolidInk}} {
		for _, off := range []float64{TierOne - Poche, 4, 13} {
			c := Chain{
				Feet: []drawing.Pt{a, b}, Dir: b.Sub(a).Unit(), Out: out, Line: a.Dot(out) + off,
				At: []float64{0, w.Length()}, Name: v.Fig.Textf("wall %s", w.Letter),
			}
			pts := c.ends()
			if v.field().Contains(drawing.BoxOf(pts...).Grow(1)) && !v.Ink.Crossed(pts[0], pts[1], keep...) {
				c.Draw(v.Page, v.Fig)
				return
			}
		}
	}
	v.Remark(v.Fig.Textf("Wall %s is %s long.", w.Letter, v.Fig.Length(w.Length())))
}
