package refit

import (
	"math"
	"slices"

	"oxturn/layout"
	"oxturn/layout/job"
	"oxturn/layout/language"
	"oxturn/layout/plane"
	"oxturn/layout/route"
	"oxturn/layout/say"
)

// ReserveCold is the share of a cable's floor that may come out of its reach, where
// more cable is used than drawn: our own choice, a third of what refit accepts at most.
const ReserveCold = 0.05

// reserveMost is the drift beyond which a mark is sooner misread than right, and
// reserveStep how finely the reserve is worked out (our own choice).
const (
	reserveMost = 0.10
	reserveStep = 0.0025
)

// Reserves works out the reserve of every cable of which nothing is recorded.
func Reserves(p *layout.Plan) {
	for i := range p.Rooms {
		for k := range p.Rooms[i].Cables {
			if c := &p.Rooms[i].Cables[k]; c.Laid == nil && len(c.Share) > 0 {
				c.Reserves = reservesOf(p, &p.Rooms[i], c)
			}
		}
	}
}

// reservesOf works out the reserve of a cable at the half-way mark and at three
// quarters; nil where its floor cannot be worked out.
func reservesOf(p *layout.Plan, r *layout.Room, c *layout.Cable) []layout.Reserve {
	f, err := notYetLaid(p, r, c)
	if err != nil {
		return nil
	}
	var out []layout.Reserve
	for _, m := range c.Marks[1:] {
		f.layTo(m)
		out = append(out, layout.Reserve{Mark: m.Name, At: m.Along, Less: f.takesLess(), More: f.takesMore()})
	}
	return out
}

// notYetLaid is a refit of a cable of which nothing is recorded.
func notYetLaid(p *layout.Plan, r *layout.Room, c *layout.Cable) (*Refit, error) {
	room := *r
	room.Cables = slices.Clone(r.Cables)
	f := &Refit{Room: &room, Rate: 1, Job: p.Job, plan: c.Path}
	for i := range r.Cables {
		if &r.Cables[i] == c {
			f.Planned = &room.Cables[i]
		}
	}
	f.Planned.Laid = &layout.Laid{Job: &job.Laid{}, Planned: c.Path, Path: c.Path}
	f.Old = layout.Runs(c.Path, c.BendRadius, f.Planned.Lattice)
	f.Laid = c.Path[:2] // the lead lies
	var err error
	if f.floor, err = f.ownFloor(); err != nil {
		return nil, err
	}
	f.bare, err = room.ProblemFor(p.Job)
	return f, err
}

// layTo lays the plan to the end of the run that a mark is on.
func (f *Refit) layTo(m layout.Mark) {
	f.Runs = m.Run
	f.Laid = f.plan[:f.Old[m.Run-1].Leg+1]
	f.Way = route.Length(f.Laid, f.Planned.BendRadius)
}

// takesLess is by what share less cable may be used: how much longer the plan can be
// made.
func (f *Refit) takesLess() float64 {
	path, most := slices.Clone(f.plan), float64(reserveMost*f.Planned.Label.Length)
	room := most - f.pushTurns(path, most)
	for last := len(path) - 1; room < most; room += f.pegAt(path, last) {
		by := path[last].Sub(path[last-1]).Unit().Mul(f.pegAt(path, last))
		if path[last] = path[last].Add(by); !f.free(path, last) {
			break
		}
	}
	return f.takes(-1, room/(f.Planned.Label.Length+room), func([]plane.Point) bool { return true })
}

// takesMore is by what share more cable may be used: how much shorter the plan can
// be made until the power limit or too much cold floor forbids it.
func (f *Refit) takesMore() float64 {
	return f.takes(1, f.coolUpTo(reserveMost), func(path []plane.Point) bool {
		return f.wentCold(path) <= ReserveCold*f.Planned.Share.Area()
	})
}

// takes is the most of a drift, to one side, for which the plan can be bent to the
// cable and its path will do.
func (f *Refit) takes(side, most float64, willDo func([]plane.Point) bool) float64 {
	defer func() { f.Rate = 1 }()
	holds := func(drift float64) bool {
		f.Rate = 1 + side*drift
		rt := f.bentRoute()
		return rt != nil && willDo(rt.Path)
	}
	if holds(most) {
		return most
	}
	taken, not := 0, int(math.Ceil(most/reserveStep))
	for not-taken > 1 {
		if mid := (taken + not) / 2; holds(float64(mid) * reserveStep) {
			taken = mid
		} else {
			not = mid
		}
	}
	return float64(taken) * reserveStep
}

// coolUpTo is up to what drift, of most, all runs keep the power limit.
func (f *Refit) coolUpTo(most float64) float64 {
	all := plane.Segments(f.plan)
	cool := func(drift float64) bool { return route.Cool(all, all, (1+drift)*f.bothGaps(), f.links()) }
	if cool(most) {
		return most
	}
	least := 0.0
	for most-least > reserveStep/10 {
		if mid := (least + most) / 2; cool(mid) {
			least = mid
		} else {
			most = mid
		}
	}
	return least
}

// wentCold is the floor within reach of the plan, as cold means it, that is not in
// reach of a path any more, mm²: counted half a peg apart beside the legs that changed.
func (f *Refit) wentCold(path []plane.Point) float64 {
	reach, step := (f.Planned.Spacing+f.pitch())/2, f.pitch()/2
	lost := map[[2]int]bool{}
	for i := 1; i < len(f.plan); i++ {
		if i < len(path) && path[i-1] == f.plan[i-1] && path[i] == f.plan[i] {
			continue
		}
		leg, near := plane.Segment{A: f.plan[i-1], B: f.plan[i]}, nearby(path, f.plan[i-1:i+1], 2*reach)
		box := plane.Bounds(f.plan[i-1 : i+1])
		for y := math.Floor((box.Min.Y - reach) / step); y*step <= box.Max.Y+reach; y++ {
			for x := math.Floor((box.Min.X - reach) / step); x*step <= box.Max.X+reach; x++ {
				p := plane.Pt(x*step, y*step)
				if leg.Distance(p) <= reach && !reached(near, p, reach) && f.Planned.Share.Contains(p) {
					lost[[2]int{int(x), int(y)}] = true
				}
			}
		}
	}
	return float64(len(lost)) * step * step
}

// nearby lists the legs of a path that come so near to others.
func nearby(path, others []plane.Point, within float64) []plane.Segment {
	box := plane.Bounds(others)
	return slices.DeleteFunc(plane.Segments(path), func(l plane.Segment) bool {
		return l.Bounds().Apart(box, within)
	})
}

func reached(legs []plane.Segment, p plane.Point, within float64) bool {
	return slices.ContainsFunc(legs, func(l plane.Segment) bool { return l.Distance(p) <= within })
}

// Takes says what drift is taken, such as -1.8 % / +2.4 % or nothing / +2.4 %, rounded
// to the safe side.
func Takes(r layout.Reserve, l language.Language) string {
	return atMost("-", r.Less, l) + " / " + atMost("+", r.More, l)
}

func atMost(sign string, share float64, l language.Language) string {
	down := math.Floor(1000*share+1e-9) / 1000
	if down == 0 {
		return l.Text("nothing")
	}
	return sign + l.Figure(say.PercentFine(down))
}
