package layout

import (
	"errors"
	"fmt"
	"math"

	"oxturn/layout/job"
	"oxturn/layout/plane"
	"oxturn/layout/route"
)

// A Refit is a cable planned again from where the installer stands: what is
// laid stays, the rest is laid anew with the length that is left.
//
// Cable and floor never agree quite: over the same way more or less of it is
// used than drawn. The mark found on it tells the rate, and the rest is planned
// at that rate, so that the end comes out if laying goes on as it went.
type Refit struct {
	Room    *Room
	Planned *Cable
	Laid    []plane.Point // the laid part, never moved; nil: nothing is laid yet
	Runs    int           // how many runs of it are laid
	Way     float64       // mm of floor the laid part covers along its path
	Rate    float64       // cable used per length of way: 1 as drawn
	Used    float64       // mm of cable in the laid part
	Left    float64       // mm of cable left
	Early   float64       // mm: by how much less way than cable was covered where the mark was found
	Miss    float64       // mm by which the cable would end short of its planned end if nothing changed; negative: over
	New     *Cable        // the cable as planned anew; nil: Reason says why not
	Reason  string
	Choices []RefitChoice
}

// A RefitChoice is a way out where the rest finds no route.
type RefitChoice struct {
	Lift    int     // laid runs to take up, from the last
	Lifted  float64 // mm of cable in them
	Area    int     // low-value area to leave without cable, from 1; 0: none
	Floor   float64 // mm² of that
	Remains float64 // mm of cable that would find no place, where nothing else helps
	Lacks   float64 // mm by which it is too short to cover the floor, where nothing else helps
}

// Refit plans the rest of a cable that is partly laid. The error says what the
// record lacks.
func (p *Plan) Refit(r *Room, c *Cable) (*Refit, error) {
	f, err := p.standing(r, c)
	if err != nil {
		return nil, err
	}
	rt, err := f.solve(p.Job, f.Laid, r.refitZone(c))
	if err == nil {
		f.New = f.cable(p.Job, rt)
		return f, nil
	}
	f.Reason = err.Error()
	f.choices(p.Job, err)
	return f, nil
}

// standing works out where the installer stands.
func (p *Plan) standing(r *Room, c *Cable) (*Refit, error) {
	l := c.Laid
	f := &Refit{Room: r, Planned: c, Rate: 1}
	switch {
	case l == nil:
		return nil, fmt.Errorf("nothing is recorded of cable %s: add [[as_laid]] with runs = 9, the runs laid so far, and [[as_laid.mark]] for what was read off the cable", c.ID)
	case l.Whole:
		return nil, fmt.Errorf("cable %s is recorded as laid to its end: nothing is left to plan", c.ID)
	case len(l.Path) < 2 && l.Job.FirstPeg == nil:
		return nil, fmt.Errorf("the record of cable %s says neither what is laid nor where the pegs lie: add runs = 9, or corners, or start and legs, or first_peg", c.ID)
	}
	if len(l.Path) < 2 {
		f.Left = c.Label.Length
		return f, nil
	}
	f.Laid = f.onPegs(l, p.Job.Membrane.Pitch)
	rs := runs(f.Laid, c.BendRadius, p.Job.Membrane.Pitch)
	f.Runs, f.Way = len(rs), pathLength(f.Laid, c.BendRadius)
	if err := f.read(l.Job.Marks, rs); err != nil {
		return nil, err
	}
	f.Used = f.Rate * f.Way
	f.Left = c.Label.Length - f.Used
	if f.Left <= 0 {
		return nil, fmt.Errorf("by its marks cable %s ends before its %d laid runs do: a mark or a run was misread", c.ID, f.Runs)
	}
	if f.Runs <= len(c.Runs) && f.Runs > 0 {
		f.Miss = f.Used + f.Rate*(c.Routed-c.Runs[f.Runs-1].RunningEnd) - c.Label.Length
	}
	return f, nil
}

// lattice is the grid of pegs as it lies.
func (f *Refit) lattice() route.Lattice {
	l := f.Planned.Lattice
	if at := f.Planned.Laid.Job.FirstPeg; at != nil {
		l.Origin = *at
	}
	return l
}

// onPegs puts the laid part on the pegs that hold it: corners taped by hand to
// the nearest, a plan's runs to where the real grid has them.
func (f *Refit) onPegs(l *Laid, pitch float64) []plane.Point {
	grid := f.lattice()
	out := make([]plane.Point, len(l.Path))
	shift := plane.Point{}
	if l.Job.FirstPeg != nil && l.Job.Runs > 0 {
		u, v := f.Planned.Lattice.ToPegs(*l.Job.FirstPeg)
		shift = plane.Pt((u-math.Round(u))*pitch, (v-math.Round(v))*pitch).Rotate(grid.Angle)
	}
	for i, p := range l.Path {
		out[i] = p.Add(shift)
		if len(l.Job.Corners) > 0 {
			u, v := grid.ToPegs(p)
			out[i] = grid.ToWorld(math.Round(u), math.Round(v))
		}
	}
	return corners(out)
}

// rateOff is how far the rate may be from 1 before a mark must be misread.
const rateOff = 0.15

// read finds the rate at which cable is used, from the mark farthest along.
func (f *Refit) read(marks []job.LaidMark, rs []Run) error {
	cum := route.Stations(f.Laid, f.Planned.BendRadius)
	far := 0.0
	for _, m := range marks {
		if m.Run > len(rs) {
			return fmt.Errorf("a mark is said to lie on run %d, but %d runs of cable %s are laid", m.Run, len(rs), f.Planned.ID)
		}
		run, pitch := rs[m.Run-1], f.Planned.Lattice.Pitch
		if m.Pegs*pitch > run.length()+pitch {
			return fmt.Errorf("a mark is said to lie %g pegs into run %d, which has %d", m.Pegs, m.Run, run.Pegs)
		}
		length := m.Length
		if length == 0 {
			length = f.Planned.Label.Length / 2
		}
		if at := cum[run.leg-1] + min(m.Pegs*pitch, run.length()); at > far {
			far, f.Rate, f.Early = at, length/at, length-at
		}
	}
	if math.Abs(f.Rate-1) > rateOff {
		return fmt.Errorf("the mark says that cable %s was used up %.0f %% %s than drawn: look whether its run and pegs, or the length, were misread", f.Planned.ID, 100*math.Abs(f.Rate-1), map[bool]string{true: "faster", false: "slower"}[f.Rate > 1])
	}
	return nil
}

// refitZone is the floor the rest may lie on: the cable's own share of its
// zone, so that other cables keep theirs.
func (r *Room) refitZone(c *Cable) plane.Region {
	if len(c.Share) > 0 {
		return c.Share
	}
	return r.Zones[c.Zone]
}

// solve lays the rest after a laid part, over a floor.
func (f *Refit) solve(j *job.Job, laid []plane.Point, floor plane.Region) (route.Route, error) {
	p, err := f.Room.problemFor(j)
	if err != nil {
		return route.Route{}, err
	}
	c, grid := f.Planned, f.lattice()
	p.Zones, p.Lattice = []plane.Region{floor}, &grid
	p.Cables = []route.Cable{{
		ID: c.ID, Length: f.length(laid), Ends: route.Ends(c.Label.Ends), LeadReach: max(0, c.LeadReach),
		WattsPerMetre: c.Label.Watts / (c.Label.Length / 1000), MaxDensity: j.Supply.MaxDensity,
	}}
	if laid != nil {
		p.Frozen = [][]plane.Point{laid}
	}
	routes, err := route.Solve(p)
	if err != nil {
		return route.Route{}, err
	}
	return routes[0], nil
}

// length is the way the whole cable covers at the rate found, when so much of
// it is laid.
func (f *Refit) length(laid []plane.Point) float64 {
	way := pathLength(laid, f.Planned.BendRadius)
	return way + (f.Planned.Label.Length-f.Rate*way)/f.Rate
}

// cable turns the route found into the cable as it is drawn. Its running
// lengths are those read off the cable, at the rate found.
func (f *Refit) cable(j *job.Job, rt route.Route) *Cable {
	number := 0
	fmt.Sscanf(f.Planned.ID, "H%d", &number)
	c := f.Room.cable(j, f.Planned.Label, rt, number)
	c.Zone, c.Laid, c.Circuit = f.Planned.Zone, f.Planned.Laid, f.Planned.Circuit
	for i := range c.Runs {
		c.Runs[i].RunningEnd *= f.Rate
	}
	for i := range c.Marks {
		c.Marks[i].Along *= f.Rate
	}
	return &c
}

// Changes returns the number of the first run that is not as planned, 0 when
// none is.
func (f *Refit) Changes() int {
	for i, r := range f.New.Runs {
		if i >= len(f.Planned.Runs) || r.From.Dist(f.Planned.Runs[i].From) > 1 || r.To.Dist(f.Planned.Runs[i].To) > 1 {
			return r.Number
		}
	}
	if len(f.Planned.Runs) > len(f.New.Runs) {
		return len(f.New.Runs) + 1
	}
	return 0
}

// choices looks for ways out: laid runs to lift, a low-value area to leave
// bare, or else what length would be over or lacking.
func (f *Refit) choices(j *job.Job, why error) {
	floor := f.Room.refitZone(f.Planned)
	for _, n := range liftTried {
		if n > f.Runs || f.Laid == nil {
			break
		}
		rest := f.without(n, j.Membrane.Pitch)
		if _, err := f.solve(j, rest, floor); err == nil {
			f.Choices = append(f.Choices, RefitChoice{Lift: n, Lifted: f.Rate * (f.Way - pathLength(rest, f.Planned.BendRadius))})
			break
		}
	}
	for i, low := range f.Room.Job.Low {
		bare, err := floor.Less(plane.FromRing(low))
		if err != nil || bare.Area() > floor.Area()-1 {
			continue
		}
		for _, zone := range bare { // the largest part stands for it
			if zone := (plane.Region{zone}); zone.Area() > bare.Area()/2 {
				if _, err := f.solve(j, f.Laid, zone); err == nil {
					f.Choices = append(f.Choices, RefitChoice{Area: i + 1, Floor: floor.Area() - zone.Area()})
				}
			}
		}
	}
	var ref *route.Refusal
	if errors.As(why, &ref) && ref.Longest > 0 {
		n := f.length(f.Laid)
		switch {
		case n > ref.Longest:
			f.Choices = append(f.Choices, RefitChoice{Remains: f.Rate * (n - ref.Longest)})
		case n < ref.Shortest:
			f.Choices = append(f.Choices, RefitChoice{Lacks: f.Rate * (ref.Shortest - n)})
		}
	}
}

// liftTried are the numbers of runs that lifting is tried with: few first, for
// each is work on knees and wear on the cable.
var liftTried = []int{1, 2, 3, 4, 6, 8, 11, 15, 20, 30}

// without returns the laid part less its last n runs; nil when nothing is left.
func (f *Refit) without(n int, pitch float64) []plane.Point {
	rs := runs(f.Laid, f.Planned.BendRadius, pitch)
	if n >= len(rs) {
		return nil
	}
	return f.Laid[:rs[len(rs)-1-n].leg+1]
}
