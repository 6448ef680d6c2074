package draft

import (
	"cmp"
	"encoding/json"
	"math"
	"slices"
	"strings"

	"oxturn/layout/plane"
	"oxturn/layout/say"
)

// A scan is a room as phones with a depth sensor write it down: surfaces and things, each
// a box with its size in metres and where it stands, y upwards.
type scan struct {
	Floors, Walls, Doors, Windows, Openings, Objects []scanned
}

// A scanned is one surface or thing.
type scanned struct {
	Identifier     string
	Dimensions     []float64 // width, height and depth, m
	Transform      scanPlace
	PolygonCorners [][]float64
	Category       json.RawMessage
}

// scanPlace is a matrix of four columns, one after the other, or a list of four.
type scanPlace []float64

// UnmarshalJSON reads a matrix that is one list of sixteen or four of four.
func (p *scanPlace) UnmarshalJSON(data []byte) error {
	var flat []float64
	if json.Unmarshal(data, &flat) == nil {
		*p = flat
		return nil
	}
	var columns [][]float64
	if err := json.Unmarshal(data, &columns); err != nil {
		return err
	}
	*p = slices.Concat(columns...)
	return nil
}

func (s *scanned) width() float64 { return s.size(0) }
func (s *scanned) depth() float64 { return s.size(2) }

func (s *scanned) size(i int) float64 {
	if i < len(s.Dimensions) {
		return s.Dimensions[i] * 1000
	}
	return 0
}

// farthestScanned m: no scan has what is farther.
const farthestScanned = 1e4

// matrixCells are in a transform, four columns of four.
const matrixCells = 16

// sound reports whether a thing says where it stands.
func (s *scanned) sound() bool {
	for _, v := range slices.Concat([]float64(s.Transform), s.Dimensions) {
		if math.IsNaN(v) || math.Abs(v) > farthestScanned {
			return false
		}
	}
	return len(s.Transform) == matrixCells
}

// floor takes a place in a thing's own directions to the floor, mm: x east, and what
// comes towards one who looks north, south.
func (s *scanned) floor(x, y, z float64) plane.Point {
	t := s.Transform
	east := t[0]*x + t[4]*y + t[8]*z + t[12]*1000
	south := t[2]*x + t[6]*y + t[10]*z + t[14]*1000
	return plane.Pt(east, -south)
}

// stretch is a wall, or what is in one, seen from above.
func (s *scanned) stretch() plane.Segment {
	w := s.width() / 2
	return plane.Segment{A: s.floor(-w, 0, 0), B: s.floor(w, 0, 0)}
}

// kind is what a thing is: its category's name, which may be a key.
func (s *scanned) kind() string {
	var name string
	if json.Unmarshal(s.Category, &name) == nil {
		return name
	}
	var keyed map[string]json.RawMessage
	if json.Unmarshal(s.Category, &keyed) != nil || len(keyed) != 1 {
		return ""
	}
	return sortedKeys(keyed)[0]
}

// scanFixtures are the things of a scan that stand on a floor for good, as job files call
// them.
var scanFixtures = map[string]string{"toilet": "toilet", "bathtub": "tub", "sink": "vanity", "storage": "cabinet",
	"refrigerator": "appliance", "stove": "appliance", "oven": "appliance", "dishwasher": "appliance",
	"washerDryer": "appliance", "fireplace": "hearth"}

// Within these a thing of a scan stands at a wall: mm off it, and slope to it. Scans miss
// by some centimetres.
const (
	atWall    = 150.0
	alongWall = 0.17
)

// leastTurn rad is a turn worth a word.
const leastTurn = 0.001

func readScan(data []byte, _ Options) (*Found, *Error) {
	var s scan
	if err := parseJSON(data, &s); err != nil {
		return nil, err
	}
	f := &Found{}
	s.leaveUnsound(f)
	outline, how, err := s.outline()
	if err != nil {
		return nil, err
	}
	outline, left := cleaned(outline)
	if err := check(outline, 0); err != nil {
		return nil, err
	}
	turn := squared(outline)
	own := standing(outline, turn)
	r := Room{Outline: own.ring(outline)}
	f.took("an outline of %s and %s from %s", say.Counted(len(outline), "wall"),
		say.Area(outline.Area(), plane.Millimetres), how)
	if math.Abs(turn) > leastTurn {
		f.took("the room turned by %s so that its longest wall runs with the sheet", say.AngleFine(plane.Degrees(turn)))
	}
	if left > 0 {
		f.dropped("%s that were none, within %g mm of a straight wall or of another", say.Counted(left, "corner"),
			inLine)
	}
	s.partitions(f, &r, own)
	s.openings(f, &r, own)
	s.things(f, &r, own)
	f.Rooms = []Room{r}
	return f, nil
}

// leaveUnsound leaves out what says nothing of where it stands.
func (s *scan) leaveUnsound(f *Found) {
	n := 0
	for _, list := range []*[]scanned{&s.Walls, &s.Doors, &s.Windows, &s.Openings, &s.Objects, &s.Floors} {
		before := len(*list)
		*list = slices.DeleteFunc(*list, func(t scanned) bool { return !t.sound() })
		n += before - len(*list)
	}
	if n > 0 {
		f.dropped("%s without a size or a place", say.Counted(n, "thing"))
	}
}

// outline is the floor's own corners where the scan has them, and else the walls', one
// after the other.
func (s *scan) outline() (plane.Ring, string, *Error) {
	for _, floor := range s.Floors {
		if len(floor.PolygonCorners) < 3 {
			continue
		}
		var ring plane.Ring
		for _, c := range floor.PolygonCorners {
			if len(c) < 3 {
				return nil, "", at(0, "a corner of the floor has %d figures; it takes three", len(c))
			}
			ring = append(ring, floor.floor(c[0]*1000, c[1]*1000, c[2]*1000))
		}
		return ring, "the corners of the floor", nil
	}
	ring, ok := chained(s.Walls)
	if !ok {
		return nil, "", at(0, "the %s of this scan do not go round a room", say.Counted(len(s.Walls), "wall")).
			hint("scan it again from one corner all the way round, or type its walls: oxturn new --tape")
	}
	return ring, "its walls", nil
}

// gapOfScan is how far the ends of two walls of a scan may lie apart, mm.
const gapOfScan = 600

// chained goes round from wall to wall, each to the nearest end of those left, and makes a
// corner where two neighbours' lines cross.
func chained(walls []scanned) (plane.Ring, bool) {
	var left []plane.Segment
	for i := range walls {
		if walls[i].width() > sameCorner {
			left = append(left, walls[i].stretch())
		}
	}
	if len(left) < 3 {
		return nil, false
	}
	round := []plane.Segment{left[0]}
	for left = left[1:]; len(left) > 0; {
		end := round[len(round)-1].B
		best, near := -1, float64(gapOfScan)
		for i, s := range left {
			if d := math.Min(s.A.Dist(end), s.B.Dist(end)); d < near {
				best, near = i, d
			}
		}
		if best < 0 {
			break
		}
		next := left[best]
		if next.B.Dist(end) < next.A.Dist(end) {
			next.A, next.B = next.B, next.A
		}
		round = append(round, next)
		left = slices.Delete(left, best, best+1)
	}
	if round[len(round)-1].B.Dist(round[0].A) > gapOfScan || len(round) < 3 {
		return nil, false
	}
	return cornersOf(round), true
}

// cornersOf are where each wall meets the one before: where their lines cross, if that is
// near both, else half-way between their ends.
func cornersOf(round []plane.Segment) (ring plane.Ring) {
	for i, s := range round {
		before := round[(i+len(round)-1)%len(round)]
		middle := before.B.Lerp(s.A, 0.5)
		if p, ok := before.Intersection(s); ok && p.Dist(middle) < gapOfScan {
			ring = append(ring, p)
			continue
		}
		ring = append(ring, before.B, s.A)
	}
	return ring
}

// leastPartition is how long, mm, a wall within a room is at least.
const leastPartition = 300

// partitions takes the walls that stand within the floor; those that end near its edge are
// drawn on past it, where a job trims them.
func (s *scan) partitions(f *Found, r *Room, own frame) {
	for i := range s.Walls {
		line := s.Walls[i].stretch()
		p := plane.Segment{A: own.point(line.A), B: own.point(line.B)}
		middle := p.At(p.Length() / 2)
		_, _, along := beside(r.Outline, p, 2*atWall, alongWall)
		if along || p.Length() < leastPartition || !r.Outline.Contains(middle) {
			continue
		}
		on := p.B.Sub(p.A).Unit().Mul(2 * atWall)
		if r.Outline.Distance(p.A) < 2*atWall {
			p.A = p.A.Sub(on)
		}
		if r.Outline.Distance(p.B) < 2*atWall {
			p.B = p.B.Add(on)
		}
		r.Partitions = append(r.Partitions, Partition{Segment: r.trimmed(p)})
	}
	if n := len(r.Partitions); n > 0 {
		f.took("%s within, 100 mm thick unless the tape says otherwise", say.Counted(n, "wall"))
	}
}

// trimmed is a line cut where it leaves the room.
func (r *Room) trimmed(p plane.Segment) plane.Segment {
	middle := p.At(p.Length() / 2)
	for i := range r.Outline {
		at, ok := r.Outline.Edge(i).Intersection(p)
		if !ok || r.Outline.Edge(i).Distance(at) > 1 || p.Distance(at) > 1 {
			continue
		}
		if at.Sub(middle).Dot(p.B.Sub(p.A)) > 0 {
			p.B = at
		} else {
			p.A = at
		}
	}
	return p
}

// inPartition puts a door or opening into the wall within the room that it lies in, and
// reports whether it does.
func (r *Room) inPartition(kind string, line plane.Segment) bool {
	middle := line.At(line.Length() / 2)
	for i := range r.Partitions {
		p := &r.Partitions[i]
		u := p.B.Sub(p.A).Unit()
		if kind == "window" || p.Distance(middle) > atWall ||
			math.Abs(u.Cross(line.B.Sub(line.A).Unit())) > alongWall {
			continue
		}
		from := max(0, middle.Sub(p.A).Dot(u)-line.Length()/2)
		width := min(line.Length(), p.Length()-from)
		if width < leastOpening[kind] {
			continue
		}
		p.Openings = append(p.Openings, Opening{Kind: kind, From: from, Width: width})
		return true
	}
	return false
}

// openings puts doors, windows and gaps in the walls they stand in.
func (s *scan) openings(f *Found, r *Room, own frame) {
	for _, sort := range []struct {
		kind string
		list []scanned
	}{{"door", s.Doors}, {"opening", s.Openings}, {"window", s.Windows}} {
		n := 0
		for i := range sort.list {
			line := sort.list[i].stretch()
			line = plane.Segment{A: own.point(line.A), B: own.point(line.B)}
			if r.inPartition(sort.kind, line) {
				n++
				continue
			}
			wall, from, ok := beside(r.Outline, line, 2*atWall, alongWall)
			from, width := within(r.Outline, max(wall, 0), from, line.Length())
			if !ok || width < leastOpening[sort.kind] {
				f.dropped("a %s of %s that stands in no wall of the floor", sort.kind,
					say.Long(line.Length(), plane.Millimetres))
				continue
			}
			r.Openings = append(r.Openings, Opening{sort.kind, wall, from, width})
			n++
		}
		if n > 0 {
			f.took("%s", say.Counted(n, sort.kind))
		}
	}
	r.partOpenings(f)
}

// leastOpening is the least width a job file takes, mm.
var leastOpening = map[string]float64{"door": 300, "opening": 150, "window": 150}

// onOneOpening mm two openings of a wall share before they are one.
const onOneOpening = 5.0

// partOpenings keeps one of two openings in the same stretch of wall: the one read first.
func (r *Room) partOpenings(f *Found) {
	var kept []Opening
	for _, o := range r.Openings {
		over := slices.ContainsFunc(kept, func(p Opening) bool {
			return p.Wall == o.Wall && math.Min(o.From+o.Width, p.From+p.Width)-math.Max(o.From, p.From) > onOneOpening
		})
		if over {
			f.dropped("a %s in the same stretch of wall as another opening", o.Kind)
			continue
		}
		kept = append(kept, o)
	}
	r.Openings = kept
}

// things are fixtures where they stand on the floor for good; what can be moved is left out.
func (s *scan) things(f *Found, r *Room, own frame) {
	slices.SortStableFunc(s.Objects, func(a, b scanned) int { return cmp.Compare(footprint(&b), footprint(&a)) })
	moved, names := 0, []string{}
	for i := range s.Objects {
		t := &s.Objects[i]
		kind, fixed := scanFixtures[t.kind()]
		if !fixed {
			moved++
			continue
		}
		x, ok := r.fixture(kind, t, own)
		switch {
		case !ok:
			f.dropped("a %s that stands outside the room or through its walls", kind)
		case slices.ContainsFunc(r.Fixtures, func(other Fixture) bool { return r.share(x, other) }):
			f.dropped("a %s on the same floor as something larger", kind)
		default:
			r.Fixtures = append(r.Fixtures, x)
			names = append(names, kind)
		}
	}
	if len(names) > 0 {
		f.took("%s: %s", say.Counted(len(names), "fixture"), strings.Join(names, ", "))
	}
	if moved > 0 {
		f.dropped("%s that can be moved, such as tables and chairs", say.Counted(moved, "thing"))
	}
}

func footprint(s *scanned) float64 { return s.width() * s.depth() }

// alike is the cosine from which on two walls face one way.
const alike = 0.9

// fixture sets a thing against the wall it stands at, or free; ok is false where it does
// not stand in the room.
func (r *Room) fixture(kind string, t *scanned, own frame) (x Fixture, ok bool) {
	w, d := t.width(), t.depth()
	x = Fixture{Kind: kind, Wall: -1, Width: w, Depth: d, At: own.point(t.floor(0, 0, 0))}
	east := own.point(t.floor(1, 0, 0)).Sub(x.At)
	x.Angle = plane.Degrees(plane.Atan2(east.Y, east.X))
	out := east.Unit().Left()
	best := atWall
	for _, side := range []struct {
		out          plane.Point
		width, depth float64
	}{{out, w, d}, {out.Mul(-1), w, d}, {east.Unit(), d, w}, {east.Unit().Mul(-1), d, w}} {
		back := x.At.Sub(side.out.Mul(side.depth / 2))
		along := side.out.Left().Mul(side.width / 2)
		wall, from, found := beside(r.Outline, plane.Segment{A: back.Sub(along), B: back.Add(along)}, atWall, alongWall)
		if !found {
			continue
		}
		edge := r.Outline.Edge(wall)
		if off := edge.Distance(back); off < best && edge.B.Sub(edge.A).Unit().Left().Dot(side.out) > alike {
			best = off
			x.Wall, x.Width, x.Depth = wall, side.width, side.depth
			x.From, x.Width = within(r.Outline, wall, from, side.width)
		}
	}
	ring := r.footprint(x)
	return x, x.Width > sameCorner && x.Depth > sameCorner && !slices.ContainsFunc(ring, func(p plane.Point) bool {
		return !r.Outline.Contains(p) && r.Outline.Distance(p) > 1
	})
}

// footprint is the floor that a fixture takes.
func (r *Room) footprint(x Fixture) plane.Ring {
	if x.Wall < 0 {
		s, c := plane.Sincos(plane.Radians(x.Angle))
		u, v := plane.Pt(c, s).Mul(x.Width/2), plane.Pt(-s, c).Mul(x.Depth/2)
		return plane.Ring{x.At.Sub(u).Sub(v), x.At.Add(u).Sub(v), x.At.Add(u).Add(v), x.At.Sub(u).Add(v)}
	}
	e := r.Outline.Edge(x.Wall)
	out := e.B.Sub(e.A).Unit().Left().Mul(x.Depth)
	a, b := e.At(x.From), e.At(x.From+x.Width)
	return plane.Ring{a, b, b.Add(out), a.Add(out)}
}

// share reports whether two fixtures take the same floor. Cabinets and appliances are
// built together.
func (r *Room) share(a, b Fixture) bool {
	casework := func(x Fixture) bool { return x.Kind == "cabinet" || x.Kind == "appliance" }
	if casework(a) && casework(b) && a.Kind != b.Kind {
		return false
	}
	both, err := plane.FromRing(r.footprint(a)).Meet(plane.FromRing(r.footprint(b)))
	if err != nil {
		return true
	}
	over := both.Bounds()
	return math.Min(over.W(), over.H()) > 4
}
