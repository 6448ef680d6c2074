package layout

import (
	"errors"
	"fmt"
	"slices"
	"strings"

	"oxturn/layout/job"
	"oxturn/layout/plane"
	"oxturn/layout/route"
)

// layCables routes the cables the job names for the room, or chooses some.
func (r *Room) layCables(j *job.Job) ([]route.Route, []job.Cable, []job.Diagnostic) {
	if len(r.Job.Cables) == 0 {
		return r.choose(j)
	}
	labels := named(j, r.Job.Cables)
	if d := r.leadsTooShort(labels, j.Units); len(d) > 0 {
		return nil, nil, d
	}
	routes, err := r.route(j, labels)
	if err != nil {
		return nil, nil, []job.Diagnostic{r.refusal(j, labels, err)}
	}
	return routes, labels, nil
}

// named looks up catalogue ids; the job has been checked, so all are there.
func named(j *job.Job, ids []string) []job.Cable {
	var out []job.Cable
	for _, id := range ids {
		for _, c := range j.Cables {
			if c.ID == id {
				out = append(out, c)
				break
			}
		}
	}
	return out
}

// leadsTooShort refuses cables whose cold lead ends before the floor.
func (r *Room) leadsTooShort(labels []job.Cable, u plane.Units) []job.Diagnostic {
	var out []job.Diagnostic
	for _, c := range labels {
		if reach := r.leadReach(c); c.Lead > 0 && reach <= 0 {
			t := r.Job.Thermostat
			d := r.problem("cable %q: its cold lead of %s does not reach the floor: %s rise to the box, %s tail and %s slack leave %s", c.ID,
				plane.FormatLength(c.Lead, u), plane.FormatLength(t.Height, u), plane.FormatLength(t.Tail, u), plane.FormatLength(t.Slack, u), plane.FormatLength(reach, u))
			d.Hint = "lower the box or take a cable with a longer lead; the lead joint never goes into a wall"
			out = append(out, d)
		}
	}
	return out
}

// route lays the given cables in the room.
func (r *Room) route(j *job.Job, labels []job.Cable) ([]route.Route, error) {
	p, err := r.problemFor(j)
	if err != nil {
		return nil, err
	}
	for _, c := range labels {
		p.Cables = append(p.Cables, route.Cable{
			ID: c.ID, Length: c.Length, Ends: route.Ends(c.Ends), LeadReach: max(0, r.leadReach(c)),
			WattsPerMetre: c.Watts / (c.Length / 1000), MaxDensity: j.Supply.MaxDensity,
		})
	}
	return route.Solve(p)
}

// problemFor states the room as the router wants it, without cables.
func (r *Room) problemFor(j *job.Job) (route.Problem, error) {
	floor, err := r.leadFloor()
	if err != nil {
		return route.Problem{}, err
	}
	p := route.Problem{
		Floor: floor, Zones: r.Zones, Entry: r.Job.Thermostat.At,
		Pitch: j.Membrane.Pitch, Closest: j.Spacing.Closest, Widest: j.Spacing.Widest, Bend: j.Membrane.BendRadius,
		Avoid: r.avoid(), Stop: r.stop,
	}
	for _, w := range r.Job.Walls {
		p.Walls = append(p.Walls, w.Segment)
	}
	for _, ring := range r.Job.Low {
		p.Low = append(p.Low, plane.FromRing(ring))
	}
	if at := r.Job.FirstPeg; at != nil {
		p.Lattice = &route.Lattice{Origin: *at, Angle: route.Angle(p.Walls, p.Zones), Pitch: p.Pitch}
	}
	return p, nil
}

// refusal turns the router's reason into what the user can do about it: the
// range of lengths the floor takes, and the catalogue's cables within it.
func (r *Room) refusal(j *job.Job, labels []job.Cable, err error) job.Diagnostic {
	words, what := err.Error(), "the heated floor takes about"
	lo, hi := lengths(j, r.Heated) // by area, where the router did not get as far as a range
	var ref *route.Refusal
	if errors.As(err, &ref) && ref.Longest > 0 && ref.Cable >= 0 {
		what, lo, hi = "this zone takes", ref.Shortest, ref.Longest
		words = misfit(labels[ref.Cable], ref, j.Units)
	}
	d := r.problem("room %q: %s", r.Job.Name, words)
	d.Span = r.Job.Spans.At("cables")
	d.Message += fmt.Sprintf("; %s %s to %s of cable at %d to %d pegs", what, length(lo, j.Units), length(hi, j.Units), j.Spacing.Closest, j.Spacing.Widest)
	if fit := within(j.Cables, labels, lo, hi, j.Units); fit != "" {
		d.Hint = "cables of this job that would fit: " + fit + "; a cable is never cut, and no clearance is given up to make one fit"
	} else {
		d.Hint = "no other cable of this job is that long; add one to [[cable]] or to the catalogue, or change the spacing limits the label allows"
	}
	return d
}

// misfit says why a cable does not go into its zone.
func misfit(c job.Cable, why *route.Refusal, u plane.Units) string {
	said := fmt.Sprintf("cable %s of %s", c.ID, length(c.Length, u))
	switch {
	case c.Length > why.Longest:
		return said + " is too long, with the closest gaps allowed"
	case c.Length < why.Shortest:
		return said + " is too short, with the widest gaps allowed"
	case why.Cold > 0:
		return fmt.Sprintf("%s is too short: with the widest gaps allowed it leaves %.0f %% of its floor cold", said, 100*why.Cold)
	}
	return "no route was found for " + said
}

// length writes a cable length in metres or feet.
func length(mm float64, u plane.Units) string {
	if u == plane.Inches {
		return fmt.Sprintf("%.1f ft", mm/plane.Foot)
	}
	return fmt.Sprintf("%.1f m", mm/1000)
}

// within lists the cables of a range of lengths but for those refused.
func within(cables, refused []job.Cable, lo, hi float64, u plane.Units) string {
	var out []string
	for _, c := range cables {
		was := slices.ContainsFunc(refused, func(o job.Cable) bool { return o.ID == c.ID })
		if !was && c.Length >= lo && c.Length <= hi {
			out = append(out, fmt.Sprintf("%s (%s)", c.ID, length(c.Length, u)))
		}
	}
	return strings.Join(out, ", ")
}
