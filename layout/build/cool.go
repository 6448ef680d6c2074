package build

import (
	"fmt"
	"math"
	"slices"

	"oxturn/layout"
	"oxturn/layout/job"
	"oxturn/layout/plane"
	"oxturn/layout/route"
	"oxturn/layout/say"
)

// coolFrom is how far floor may lie from the nearest cable, over half the
// spacing, before it is said that it stays cool.
const coolFrom = 3.0

// stayCool warns of floor in a zone with cable that no run comes near.
func stayCool(d draft) []job.Diagnostic {
	var out []job.Diagnostic
	for i := range d.Zones {
		for _, c := range d.Cables {
			if c.Zone == i && bareOver(d.Room, d.job, c) > coolFrom {
				out = append(out, coolWarning(d, i, meant(d.job, c.Spacing)))
				break
			}
		}
	}
	return out
}

// mostMeant times the widest gap is as far apart as even rows can be meant to lie. More comes of floor whose edge is
// counted though no run lies along it, as in slots that are narrower than two runs.
const mostMeant = 2.0

// meant is an even spacing in mm, or the widest that can be meant.
func meant(j *job.Job, spacing float64) float64 {
	return min(spacing, mostMeant*j.Far())
}

// bareOver is how far floor lies from the nearest run, over half the spacing. Where that is wider than can be meant,
// all floor counts, not only where two runs go.
func bareOver(r *layout.Room, j *job.Job, c layout.Cable) float64 {
	most := meant(j, c.Spacing)
	if most == c.Spacing {
		return c.Score.Bare
	}
	_, _, away := cool(r, r.Zones[c.Zone], j.Peg(), most)
	return away / (most / 2)
}

func coolWarning(from draft, zone int, spacing float64) job.Diagnostic {
	r, j := from.Room, from.job
	area, at, away := cool(r, r.Zones[zone], j.Peg(), spacing)
	tape := layout.NewTape(r.Job, j.Units)
	d := job.Diagnostic{Severity: job.Warning, ID: "W104", Span: r.Job.Spans.At("cables")}
	d.Message = fmt.Sprintf("room %q: %s of the floor to be heated is out of the warmth's reach; the farthest spot, "+
		"%s, lies %s from the nearest run",
		r.Job.Name, say.AreaBoth(area, j.Units), tape.Place(at), tape.Length(away))
	two := j.Near()
	n, narrow := neckTo(r.Zones[zone], home(r, zone), at, two)
	switch little := little(r, j, zone); {
	case little != "" && moreReaches(from, zone):
		d.Message += ": the cable ran out"
		d.Hint = little + ": take a longer cable, or allow W104 to leave it cool"
	case n != nil:
		d.Message += fmt.Sprintf(": the way there narrows to %s within the clearances, between %s, %s; two runs need "+
			"%s", tape.Length(n.width), besideNeck(r, n), tape.Place(n.at), tape.Length(two))
		d.Hint = fmt.Sprintf("make it %s wider, or allow W104 to leave it cool", tape.Length(two-n.width))
	case narrow:
		d.Message += ": within the clearances it is narrower there than two runs need, " + tape.Length(two)
		d.Hint = "move what stands about, or allow W104 to leave it cool"
	case shortLead(from, zone, &d):
	default:
		d.Message += noBetter(from, zone, at)
		d.Hint = "a cable of another length may do, or move what stands about; or allow W104 to leave it cool"
	}
	return d
}

// noBetter says how wide the way to a cool spot is that two runs do get to on paper. A run lies where pegs are: up to
// a peg more than two runs need may come to nothing.
func noBetter(from draft, zone int, at plane.Point) string {
	region, pitch := from.Room.Zones[zone], from.job.Peg()
	sure := from.job.Near() + pitch
	if n, narrow := neckTo(region, home(from.Room, zone), at, sure); n != nil || narrow {
		return fmt.Sprintf(": the way there is less than a peg of %s wider than two runs need, which is enough only "+
			"where the pegs fall right, and no better route was found",
			layout.NewTape(from.Room.Job, from.job.Units).Length(pitch))
	}
	return ": it is wide enough for two runs all the way, but no better route was found"
}

// home is the place on a zone's cable that lies deepest within the zone, of a few.
func home(r *layout.Room, zone int) (at plane.Point) {
	most := math.Inf(-1)
	for _, c := range r.Cables {
		if c.Zone != zone {
			continue
		}
		for _, s := range plane.Segments(c.Path) {
			if p := s.A.Lerp(s.B, 0.5); r.Zones[zone].Depth(p) > most {
				at, most = p, r.Zones[zone].Depth(p)
			}
		}
	}
	return at
}

// longerCool times the least length that a cooler floor takes is surely laid.
const longerCool = 1.05

// moreReaches tries whether a zone that has less cable than it takes has no cool
// floor once it has as much: then the cable ran out, and the way is wide enough.
func moreReaches(d draft, zone int) bool {
	least, laid := takes(d.Room, d.job, zone)
	var labels []job.Cable
	for _, c := range d.Cables {
		l := c.Label
		if c.Zone == zone {
			l.Length, l.Watts = l.Length*longerCool*least/laid, l.Watts*longerCool*least/laid
		}
		labels = append(labels, l)
	}
	routes, err := d.routed(labels)
	return err == nil && !slices.ContainsFunc(routes, func(rt route.Route) bool {
		return rt.Zone == zone &&
			rt.Score.Bare > coolFrom
	})
}

// decimetre is what longer leads are counted in, mm.
const decimetre = 100.0

// shortLead says in a warning that a cable's lead is too short for routes that leave no floor of a zone cool, where it
// is: as it stands the cable lies where the lead does reach.
func shortLead(from draft, zone int, d *job.Diagnostic) bool {
	most, ok := from.warmedWith(zone, math.Inf(1))
	if !ok || most.over <= 0 {
		return false
	}
	if l, ok := from.warmedWith(zone, most.over/2); ok && l.over > 0 { // once: each try lays the room again
		most = l
	}
	u := from.job.Units
	d.Message += fmt.Sprintf(": the cold lead of cable %s is too short for a way round that warms it: %s of it are "+
		"left for the floor, and that asks for %s", most.cable, say.About(most.asked-most.over, u),
		say.About(most.asked, u))
	d.Hint = fmt.Sprintf("move the box nearer, or take a cable whose lead is %s longer; or allow W104 to leave it cool",
		say.About(math.Ceil(most.over/decimetre)*decimetre, u))
	return true
}

// A longLead is the cold lead of a room that is the most too long: mm of it, and mm over what there is.
type longLead struct {
	cable       string
	asked, over float64
}

// warmedWith lays the room with leads so many mm longer, and reports whether that leaves no floor of a zone cool, with
// the lead that most of that is for.
func (d draft) warmedWith(zone int, longer float64) (most longLead, ok bool) {
	labels := make([]job.Cable, len(d.Cables))
	for i, c := range d.Cables {
		labels[i] = c.Label
	}
	d.steps = d.steps.Copy() // what a warning is found by takes nothing from the rest of the plan
	p, err := d.toSolve(labels)
	if err != nil {
		return longLead{}, false
	}
	for i := range p.Cables {
		if p.Cables[i].LeadReach += longer; math.IsInf(longer, 1) {
			p.Cables[i].LeadReach = 0 // no limit
		}
	}
	routes, err := route.Solve(p)
	for _, rt := range routes {
		if rt.Zone == zone && rt.Score.Bare > coolFrom {
			return longLead{}, false
		}
		c := labels[rt.Cable]
		asked := max(plane.PathLength(rt.ColdLead), plane.PathLength(rt.Return))
		if over := asked - d.Room.LeadReach(c); over > most.over {
			most = longLead{c.ID, asked, over}
		}
	}
	return most, err == nil
}

// cool measures a zone, a peg at a time: the mm² that lie farther from any run
// than half a spacing and half a peg, and the farthest spot.
func cool(r *layout.Room, zone plane.Region, pitch, spacing float64) (area float64, at plane.Point, away float64) {
	box := zone.Bounds()
	for y := box.Min.Y; y <= box.Max.Y; y += pitch {
		for x := box.Min.X; x <= box.Max.X; x += pitch {
			p := plane.Pt(x, y)
			if !zone.Contains(p) {
				continue
			}
			d := fromCable(r, p)
			if d > (spacing+pitch)/2 {
				area += pitch * pitch
			}
			if d > away {
				at, away = p, d
			}
		}
	}
	return area, at, away
}

// fromCable is how far p lies from the nearest cable.
func fromCable(r *layout.Room, p plane.Point) float64 {
	least := math.Inf(1)
	for _, c := range r.Cables {
		least = math.Min(least, plane.PathDistance(c.Path, p))
	}
	return least
}
