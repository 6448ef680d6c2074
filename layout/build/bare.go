package build

import (
	"fmt"
	"slices"

	"oxturn/layout"
	"oxturn/layout/job"
	"oxturn/layout/plane"
	"oxturn/layout/say"
)

// leaveBare takes the zones that no cable serves out of the heated floor and
// warns of those that have room for one.
func leaveBare(r *layout.Room, j *job.Job) []job.Diagnostic {
	var out []job.Diagnostic
	r.Heated = nil
	for i, zone := range r.Zones {
		if slices.ContainsFunc(r.Cables, func(c layout.Cable) bool { return c.Zone == i }) {
			r.Heated = append(r.Heated, zone...)
			continue
		}
		if takesCable(j, zone) {
			r.Bare = append(r.Bare, zone...)
			out = append(out, bareWarning(r, j, zone))
		}
	}
	return out
}

// takesCable reports whether two runs can lie side by side in a zone.
func takesCable(j *job.Job, zone plane.Region) bool {
	inner, err := zone.Grow(-j.Near() / 2)
	return err == nil && !inner.Empty()
}

func bareWarning(r *layout.Room, j *job.Job, zone plane.Region) job.Diagnostic {
	box, tape := zone.Bounds(), layout.NewTape(r.Job, j.Units)
	d := job.Diagnostic{Severity: job.Warning, ID: "W103", Span: r.Job.Spans.At("cables")}
	d.Message = fmt.Sprintf("room %q: %s of floor, its middle %s, stays without cable: %s, and the room's %s elsewhere",
		r.Job.Name, say.AreaBoth(zone.Area(), j.Units), tape.Place(box.Centre()), cutOffBy(r, zone),
		serves(len(r.Cables)))
	d.Hint = "list one more cable for it in the room's cables, move what cuts it off, or allow W103 to leave it cold"
	if !shortEnough(j, zone) {
		_, most := lengths(j, zone)
		d.Hint = fmt.Sprintf("it takes up %s at most, and the job has no cable that short: add one and list it in "+
			"the room's cables, move what cuts it off, or allow W103 to leave it cold", say.About(most, j.Units))
	}
	return d
}

func serves(cables int) string {
	if cables == 1 {
		return "one cable lies"
	}
	return fmt.Sprintf("%d cables lie", cables)
}

// serveAs takes out of the heated floor of a room that was changed a little
// what no cable served before.
func serveAs(r *layout.Room, was *layout.Room) {
	if was.Bare.Empty() {
		return
	}
	r.Heated = nil
	for _, zone := range r.Zones {
		if shared(zone, was.Heated) > shared(zone, was.Bare) {
			r.Heated = append(r.Heated, zone...)
		}
	}
}

// shared is the area in mm² that two regions have in common.
func shared(a, b plane.Region) float64 {
	both, err := a.Meet(b)
	if err != nil {
		return 0
	}
	return both.Area()
}
