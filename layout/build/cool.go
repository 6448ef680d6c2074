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
			if c.Zone == i && c.Score.Bare > coolFrom {
				out = append(out, coolWarning(d, i, c.Spacing))
				break
			}
		}
	}
	return out
}

func coolWarning(from draft, zone int, spacing float64) job.Diagnostic {
	r, j := from.Room, from.job
	area, at, away := cool(r, r.Zones[zone], j.Membrane.Pitch, spacing)
	tape := layout.NewTape(r.Job, j.Units)
	d := job.Diagnostic{Severity: job.Warning, ID: "W104", Span: r.Job.Spans.At("cables")}
	d.Message = fmt.Sprintf("room %q: %s of the floor to be heated is out of the warmth's reach; the farthest spot, "+
		"%s, lies %s from the nearest run",
		r.Job.Name, say.AreaBoth(area, j.Units), tape.Place(at), tape.Length(away))
	two := float64(j.Spacing.Closest) * j.Membrane.Pitch
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
	default:
		d.Message += ": it is wide enough for two runs all the way, but no better route was found"
		d.Hint = "a cable of another length may do, or move what stands about; or allow W104 to leave it cool"
	}
	return d
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
