package layout

import (
	"fmt"
	"math"

	"oxturn/layout/job"
	"oxturn/layout/plane"
)

// coolFrom is how far floor may lie from the nearest cable, over half the
// spacing, before it is said that it stays cool.
const coolFrom = 3.0

// stayCool warns of floor in a zone with cable that no run comes near.
func (r *Room) stayCool(j *job.Job) []job.Diagnostic {
	var out []job.Diagnostic
	for i, zone := range r.Zones {
		for _, c := range r.Cables {
			if c.Zone == i && c.Score.Bare > coolFrom {
				out = append(out, r.coolWarning(j, zone, c.Spacing))
				break
			}
		}
	}
	return out
}

func (r *Room) coolWarning(j *job.Job, zone plane.Region, spacing float64) job.Diagnostic {
	area, at, away := r.cool(zone, j.Membrane.Pitch, spacing)
	tape := NewTape(r.Job, j.Units)
	d := job.Diagnostic{Severity: job.Warning, ID: "W104", Span: r.Job.Spans.At("cables")}
	d.Message = fmt.Sprintf("room %q: %s of the floor to be heated is out of the warmth's reach; the farthest spot, %s, lies %s from the nearest run",
		r.Job.Name, plane.FormatArea(area, j.Units), tape.Place(at), tape.Length(away))
	d.Hint = "the way there is too narrow for cable to come back: move what stands about, or allow W104 to leave it cool"
	return d
}

// cool measures a zone, a peg at a time: the mm² that lie farther from any run
// than half a spacing and half a peg, and the farthest spot.
func (r *Room) cool(zone plane.Region, pitch, spacing float64) (area float64, at plane.Point, away float64) {
	box := zone.Bounds()
	for y := box.Min.Y; y <= box.Max.Y; y += pitch {
		for x := box.Min.X; x <= box.Max.X; x += pitch {
			p := plane.Pt(x, y)
			if !zone.Contains(p) {
				continue
			}
			d := r.fromCable(p)
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
func (r *Room) fromCable(p plane.Point) float64 {
	least := math.Inf(1)
	for _, c := range r.Cables {
		least = math.Min(least, plane.PathDistance(c.Path, p))
	}
	return least
}
