package build

import (
	"cmp"
	"math"
	"slices"
	"strings"

	"github.com/sourcegraph/conc/iter"

	"oxturn/layout"
	"oxturn/layout/job"
	"oxturn/layout/plane"
	"oxturn/layout/takeoff"
)

const metricShift = 25

// shiftBy is by how much a room is taken as measured wrongly, mm: 1 in, in a job printed
// in mm 25 mm.
func shiftBy(j *job.Job) float64 {
	if j.Printed() == plane.Inches {
		return plane.Inch
	}
	return metricShift
}

// countedRooms is up to how many rooms a job's quantities are taken off again
// for every shift; in larger ones that would take longer than all drawings.
const countedRooms = 4

// ShiftsLaid are a plan's shifts with its cables laid in every changed room instead
// of judged by area, which takes as many times as long as the plan.
func ShiftsLaid(p *layout.Plan) []layout.Shift { return shifts(p, true, nil) }

// shifts looks at every room with 1 in (25 mm) more and less in each direction. The
// room is drawn out or pushed in where nothing stands, if there is such a place;
// fixtures always keep their size. Quantities are taken off anew. Cables are judged
// by the area they would serve, or with lay are laid in every changed room. Those that are left
// once stop returns true are left out.
func shifts(p *layout.Plan, lay bool, stop func() bool) []layout.Shift {
	type shift struct {
		room int
		east bool
		by   float64
	}
	var all []shift
	for i := range p.Rooms {
		if len(p.Rooms[i].Cables) == 0 {
			continue
		}
		for _, east := range []bool{true, false} {
			for _, by := range []float64{shiftBy(p.Job), -shiftBy(p.Job)} {
				all = append(all, shift{i, east, by})
			}
		}
	}
	// each for itself, as they only read the plan
	return iter.Map(all, func(s *shift) layout.Shift {
		if stop != nil && stop() {
			return layout.Shift{}
		}
		return shiftRoom(p, s.room, s.east, s.by, lay)
	})
}

// shiftRoom looks at one room in one direction.
func shiftRoom(p *layout.Plan, i int, east bool, by float64, lay bool) layout.Shift {
	was := &p.Rooms[i]
	s := layout.Shift{Room: was.Job.Name, East: east, By: by, Laid: lay, Counted: len(p.Rooms) <= countedRooms}
	changed, ok := stretched(*was.Job, east, by)
	if !ok {
		s.Problem = "its walls are too broken up to be moved"
		return s
	}
	r := layout.Room{Job: &changed}
	if err := areas(&r, p.Job.Clearance.Wall); err != nil || len(r.Zones) == 0 {
		s.Problem = "nothing of the floor is left to heat"
		return s
	}
	serveAs(&r, was)
	labels, d := labels(was), draft{Room: &r, job: p.Job}
	if lay {
		s.Spacing, s.Keeps = d.spacingLaid(labels)
	} else {
		s.Spacing, s.Keeps = spacingByArea(p.Job, was, &r)
	}
	if !s.Keeps {
		s.Instead = instead(d, labels, lay)
	}
	r.Cables, r.Sensors = was.Cables, was.Sensors
	if s.Counted {
		s.Changes = changes(p, i, r)
	}
	return s
}

// spacingLaid lays cables in a changed room and returns their mean spacing there, by
// length; false where they do not go in.
func (d draft) spacingLaid(labels []job.Cable) (spacing float64, goIn bool) {
	routes, err := d.routed(labels)
	if err != nil {
		return 0, false
	}
	length := 0.0
	for _, rt := range routes {
		spacing += float64(rt.Spacing * labels[rt.Cable].Length)
		length += labels[rt.Cable].Length
	}
	return spacing / length, true
}

// spacingByArea is the spacing of the plan's cables in a changed room by the area
// they would serve, and whether they still suit it.
func spacingByArea(j *job.Job, was, now *layout.Room) (spacing float64, suit bool) {
	labels, laid := labels(was), meanSpacing(was)
	spacing = shiftedSpacing(was.Heated, now.Heated, total(labels), laid)
	return spacing, suits(j, spacing, laid, labels)
}

// shiftedSpacing is the spacing that cables laid at one would have on a changed
// floor. What is laid differs from the estimate by area; it is taken to differ
// alike on both floors.
func shiftedSpacing(was, now plane.Region, length, spacing float64) float64 {
	before, after := layout.IdealSpacing(was, length), layout.IdealSpacing(now, length)
	if math.IsInf(before, 1) || math.IsInf(after, 1) {
		return after // too short for the floor's edge
	}
	return after * spacing / before
}

// sameDensity is how little over a limit, W/m², is rounding alone.
const sameDensity = 1e-6

// suits reports whether an even spacing is within the job's limits. The limits are
// on every gap, and a floor with dents may keep them at a mean a little outside:
// the mean at which cables were laid within them, 0 when none were, suits too.
func suits(j *job.Job, spacing, laid float64, labels []job.Cable) bool {
	lo, hi := j.Near(), j.Far()
	if laid > 0 {
		lo, hi = math.Min(lo, laid), math.Max(hi, laid)
	}
	if spacing < lo-plane.Hair || spacing > hi+plane.Hair {
		return false
	}
	perMetre := labels[0].Watts / (labels[0].Length / 1000)
	return j.Supply.MaxDensity == 0 || perMetre/(spacing/1000) <= j.Supply.MaxDensity+sameDensity
}

// mostTried is how many other cables are laid before it is said that none goes
// in.
const mostTried = 4

// instead names the first other cables of the catalogue that suit a changed
// room.
func instead(d draft, labels []job.Cable, lay bool) string {
	tried := 0
	for _, c := range candidates(d.Room, d.job) {
		if c.Why != "" || slices.Equal(c.IDs, ids(labels)) {
			continue
		}
		if !lay {
			return strings.Join(c.IDs, " + ")
		}
		if tried++; tried > mostTried {
			break
		}
		if _, err := d.routed(layout.Named(d.job, c.IDs)); err == nil {
			return strings.Join(c.IDs, " + ")
		}
	}
	return "none of the catalogue's"
}

func labels(r *layout.Room) []job.Cable {
	var out []job.Cable
	for _, c := range r.Cables {
		out = append(out, c.Label)
	}
	return out
}

func total(labels []job.Cable) float64 {
	n := 0.0
	for _, l := range labels {
		n += l.Length
	}
	return n
}

func ids(labels []job.Cable) []string {
	var out []string
	for _, c := range labels {
		out = append(out, c.ID)
	}
	return out
}

// meanSpacing is that of a room's cables, by their length.
func meanSpacing(r *layout.Room) float64 {
	sum, length := 0.0, 0.0
	for _, c := range r.Cables {
		sum += float64(c.Spacing * c.Label.Length)
		length += c.Label.Length
	}
	return sum / math.Max(length, 1)
}

// changes takes off the job with room i replaced, and returns what is bought
// otherwise.
func changes(p *layout.Plan, i int, r layout.Room) []takeoff.Change {
	q := *p
	q.Rooms = append([]layout.Room{}, p.Rooms...)
	q.Rooms[i] = r
	layTile(&q.Rooms[i], p.Job)
	cutMembrane(&q)
	var out []takeoff.Change
	for _, c := range takeoff.Compare(p.TakeOff, takeoff.Compute(takeOffInput(&q))) {
		if c.Packs != 0 {
			out = append(out, c)
		}
	}
	return out
}

// stretched returns a room that is so much longer: cut open square to the
// direction, its far part moved. It is cut at the middle of the widest stretch
// in which nothing stands, or else no wall ends; ok is false when there is none
// wide enough.
func stretched(r job.Room, east bool, by float64) (out job.Room, ok bool) {
	along := func(p plane.Point) float64 { return p.Y }
	if east {
		along = func(p plane.Point) float64 { return p.X }
	}
	cut, ok := cutFor(r, along, math.Abs(by)+1)
	if !ok {
		return r, false
	}
	return moved(r, func(p plane.Point) plane.Point {
		if along(p) <= cut {
			return p
		}
		if east {
			return p.Add(plane.Pt(by, 0))
		}
		return p.Add(plane.Pt(0, by))
	}), true
}

// cutFor returns where a room is cut to be that much longer or shorter.
func cutFor(r job.Room, along func(plane.Point) float64, room float64) (cut float64, ok bool) {
	cut, width := widestFree(r, along)
	if width <= room {
		r.Fixtures, r.KeepOuts, r.Openings = nil, nil, nil
		cut, width = widestFree(r, along)
	}
	return cut, width > room
}

// sameWidth mm: strips that just fill a width are not one too many.
const sameWidth = 1e-9

// widestFree returns the middle and the width of the widest stretch of a room,
// along a direction, in which no fixture, opening or corner lies.
func widestFree(r job.Room, along func(plane.Point) float64) (middle, width float64) {
	b := r.Outline
	var stops [][2]float64
	add := func(pts ...plane.Point) {
		lo, hi := math.Inf(1), math.Inf(-1)
		for _, p := range pts {
			lo, hi = math.Min(lo, along(p)), math.Max(hi, along(p))
		}
		stops = append(stops, [2]float64{lo, hi})
	}
	for _, p := range b {
		add(p)
	}
	for _, f := range r.Fixtures {
		add(f.Outline...)
	}
	for _, k := range r.KeepOuts {
		add(k.Outline...)
	}
	for _, o := range r.Openings {
		if o.Wall >= 0 && o.Wall < len(r.Walls) {
			add(r.Walls[o.Wall].At(o.From), r.Walls[o.Wall].At(o.To))
		}
	}
	add(r.Thermostat.At)
	slices.SortFunc(stops, func(a, b [2]float64) int { return cmp.Compare(a[0], b[0]) })
	reach := stops[0][1]
	for _, s := range stops[1:] {
		if s[0]-reach > width+sameWidth {
			middle, width = (s[0]+reach)/2, s[0]-reach
		}
		reach = math.Max(reach, s[1])
	}
	return middle, width
}

// A remap takes every place of a room to another.
type remap func(plane.Point) plane.Point

func (f remap) ring(in plane.Ring) plane.Ring {
	out := make(plane.Ring, len(in))
	for i, p := range in {
		out[i] = f(p)
	}
	return out
}

func (f remap) segment(s plane.Segment) plane.Segment { return plane.Segment{A: f(s.A), B: f(s.B)} }

// whole is by how much a thing that keeps its shape moves.
func (f remap) whole(in plane.Ring) plane.Point {
	c := in.Bounds().Centre()
	return f(c).Sub(c)
}

// moved returns a room with every place on it put through f; fixtures, keep-outs
// and openings move as a whole.
func moved(r job.Room, f remap) job.Room {
	old := r.Walls
	r.Outline = f.ring(r.Outline)
	r.Walls = slices.Clone(r.Walls)
	for i := range r.Walls {
		r.Walls[i].Segment = f.segment(r.Walls[i].Segment)
	}
	r.Openings = slices.Clone(r.Openings)
	for i, o := range r.Openings {
		if o.Wall >= 0 && o.Wall < len(old) {
			mid := f(old[o.Wall].At((o.From + o.To) / 2)).Dist(r.Walls[o.Wall].A)
			half := (o.To - o.From) / 2
			mid = math.Max(half, math.Min(r.Walls[o.Wall].Length()-half, mid))
			r.Openings[i].From, r.Openings[i].To = mid-half, mid+half
		}
	}
	f.standing(&r)
	r.Fixings = slices.Clone(r.Fixings)
	for i, x := range r.Fixings {
		r.Fixings[i].Line = f.ring(x.Line)
	}
	r.Joints = slices.Clone(r.Joints)
	for i, m := range r.Joints {
		r.Joints[i].Segment = f.segment(m.Segment)
	}
	r.Low = slices.Clone(r.Low)
	for i := range r.Low {
		r.Low[i] = f.ring(r.Low[i])
	}
	r.Partitions = slices.Clone(r.Partitions)
	for i, p := range r.Partitions {
		by := f.whole(plane.Ring{p.A, p.B})
		r.Partitions[i].Segment = plane.Segment{A: p.A.Add(by), B: p.B.Add(by)}
		if t := &r.Thermostat; t.Face != nil && t.Face.Partition == i {
			t.At = t.At.Add(by)
		}
	}
	if r.Thermostat.Face == nil {
		r.Thermostat.At = f(r.Thermostat.At)
	}
	return r
}

// standing moves what stands in a room.
func (f remap) standing(r *job.Room) {
	r.Fixtures = slices.Clone(r.Fixtures)
	for i, x := range r.Fixtures {
		by := f.whole(x.Outline)
		r.Fixtures[i].Outline, r.Fixtures[i].Back = x.Outline.Translate(by), plane.Segment{A: x.Back.A.Add(by),
			B: x.Back.B.Add(by)}
		if x.Flange != nil {
			flange := *x.Flange
			flange.Centre = flange.Centre.Add(by)
			r.Fixtures[i].Flange = &flange
		}
	}
	r.KeepOuts = slices.Clone(r.KeepOuts)
	for i, k := range r.KeepOuts {
		r.KeepOuts[i].Outline = k.Outline.Translate(f.whole(k.Outline))
	}
}
