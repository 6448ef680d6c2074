package build

import (
	"errors"
	"fmt"
	"math"
	"slices"
	"strings"

	"oxturn/layout"
	"oxturn/layout/job"
	"oxturn/layout/plane"
	"oxturn/layout/route"
	"oxturn/layout/say"
)

// refusal turns the router's reason into what the user can do about it: where
// the box could hang, or the range of lengths the floor takes and the
// catalogue's cables within it.
func refusal(from draft, labels []job.Cable, err error) job.Diagnostic {
	r, j := from.Room, from.job
	d := r.Problem("room %q: %s", r.Job.Name, reason(r, labels, err, j.Units))
	d.Span = r.Job.Spans.At("cables")
	var ref *route.Refusal
	if !errors.As(err, &ref) {
		return d
	}
	if ref.Start {
		d.Span = startSpan(r, ref.Zone)
		d.Hint = "leave start out, or name another corner; the cold lead, which never crosses heating cable, has to " +
			"reach it"
		return d
	}
	if ref.Early {
		d.Hint = "look farther with a larger [spacing] search, or draw the floor as several rooms"
		return d
	}
	if leadRefusal(err) != nil {
		d.Hint = leadHint(r, ref, j.Units)
		if underBox(r) != "" {
			d.Span = boxSpan(r)
		}
		return d
	}
	if ref.Cable >= 0 && inRange(labels[ref.Cable], ref) {
		return inRangeRefusal(from, labels, ref, d)
	}
	what, lo, hi := "the heated floor takes about", 0.0, 0.0
	if ref.Longest > 0 && ref.Cable >= 0 {
		what, lo, hi = "this zone takes", ref.Shortest, ref.Longest
	} else { // by area, where the router did not get as far as a range
		lo, hi = lengths(j, r.Heated)
	}
	if lo == hi {
		d.Message += fmt.Sprintf("; %s up to about %s of cable at %s", what, say.About(hi, j.Units),
			j.NearGap())
	} else {
		d.Message += fmt.Sprintf("; %s %s to %s of cable at %s", what, say.About(lo, j.Units),
			say.About(hi, j.Units), j.Gaps())
	}
	if fit := within(j.Cables, labels, lo, hi, j.Units); fit != "" {
		d.Hint = "cables of this job that would fit: " + fit +
			"; a cable is never cut, and no clearance is given up to make one fit"
	} else {
		d.Hint = "no other cable of this job is that long; add one to [[cable]] or to the catalogue, or change the " +
			"spacing limits the label allows"
	}
	return d
}

// asksStart reports whether the heat of any zone is to start in a corner.
func asksStart(r *layout.Room) bool {
	for i := range r.Zones {
		if r.AskOf(i).Start != nil {
			return true
		}
	}
	return false
}

// startSpan is where the job says where the heat of a zone is to start.
func startSpan(r *layout.Room, zone int) job.Span {
	if z := r.Spoken(max(zone, 0)); zone >= 0 && z != nil && z.Start != nil {
		return z.Spans.At("start")
	}
	return r.Job.Spans.At("start")
}

// inRange reports whether a refused cable is within the lengths that were laid
// out on its zone: the ends of that range are plans, and not all between lie.
func inRange(c job.Cable, why *route.Refusal) bool {
	return why.Longest > 0 && c.Length >= why.Shortest && c.Length <= why.Longest
}

// inRangeRefusal says of such a cable what lengths near it were tried and lie;
// a range that it is within would contradict the refusal.
func inRangeRefusal(from draft, labels []job.Cable, why *route.Refusal, d job.Diagnostic) job.Diagnostic {
	j, lies := from.job, lengthThatLies(from, labels, why)
	lo, hi := why.Shortest, lies
	if why.Cold > 0 {
		lo, hi = lies, why.Longest
	}
	switch {
	case lies > 0:
		d.Message += fmt.Sprintf("; %s in its place was tried and lies", say.About(lies, j.Units))
	case why.Cold == 0:
		d.Message += "; nor for any of the lengths a little below it"
	}
	if fit := within(j.Cables, labels, lo, hi, j.Units); fit != "" && lies > 0 {
		d.Hint = "cables of this job that may fit: " + fit +
			"; a cable is never cut, and no clearance is given up to make one fit"
	} else {
		d.Hint = "add a cable of another length to [[cable]] or to the catalogue, or change the spacing limits the " +
			"label allows"
	}
	return d
}

// lengthThatLies tries lengths about a refused cable's, shorter or, where it
// left floor cold, longer, and returns the first in mm that is laid; 0 for none.
func lengthThatLies(d draft, labels []job.Cable, why *route.Refusal) float64 {
	shares, unit := []float64{0.98, 0.96, 0.93, 0.88, 0.8}, 100.0
	if why.Cold > 0 {
		shares = []float64{1.04, 1.1, 1.2, 1.4}
	}
	if d.job.Units == plane.Inches {
		unit = plane.Foot / 10 // what is printed is what was tried
	}
	was := labels[why.Cable]
	for _, share := range shares {
		c := was
		c.Length = unit * math.Floor(share*was.Length/unit)
		c.Watts = was.Watts * c.Length / was.Length
		other := slices.Clone(labels)
		other[why.Cable] = c
		if _, err := d.routed(other); err == nil {
			return c.Length
		}
	}
	return 0
}

// reason says in the job's units why the router refused cables.
func reason(r *layout.Room, labels []job.Cable, err error, u plane.Units) string {
	var ref *route.Refusal
	switch {
	case !errors.As(err, &ref):
		return err.Error()
	case ref.Lead > 0:
		return leadReason(r, labels, ref, u)
	case ref.Start && ref.Longest > 0 && ref.Cable >= 0:
		return fmt.Sprintf("no route was found for cable %s of %s that starts where it is asked to",
			labels[ref.Cable].ID,
			say.About(labels[ref.Cable].Length, u))
	case ref.Longest > 0 && ref.Cable >= 0:
		return misfit(labels[ref.Cable], ref, u)
	}
	return ref.Reason
}

// closeToMost is the share of the longest plan from which lengths are hard to
// bring in to the millimetre.
const closeToMost = 0.9

// misfit says why a cable does not go into its zone.
func misfit(c job.Cable, why *route.Refusal, u plane.Units) string {
	said := fmt.Sprintf("cable %s of %s", c.ID, say.About(c.Length, u))
	switch {
	case c.Length > why.Longest:
		return said + " is too long, with the closest gaps allowed"
	case c.Length < why.Shortest:
		return said + " is too short, with the widest gaps allowed"
	case why.Cold > 0:
		return fmt.Sprintf("%s is too short: with the widest gaps allowed it leaves %s of its floor cold", said,
			say.Percent(why.Cold))
	}
	if c.Length > closeToMost*why.Longest {
		return "no route was found for " + said + ": it is close to the most that this floor can take"
	}
	return "no route was found for " + said
}

// leadRefusal returns the refusal that an error is, where a cold lead is at
// fault; nil else.
func leadRefusal(err error) *route.Refusal {
	if ref := (*route.Refusal)(nil); errors.As(err, &ref) && ref.Lead > 0 {
		return ref
	}
	return nil
}

// leadReason says why no heat may start where the cold leads come.
func leadReason(r *layout.Room, labels []job.Cable, why *route.Refusal, u plane.Units) string {
	if what := underBox(r); what != "" {
		return fmt.Sprintf("the cold lead comes down %s, and finds no way from there to where heat may start", what)
	}
	if why.Cable < 0 || math.IsInf(why.Lead, 1) {
		return why.Reason
	}
	c, where := labels[why.Cable], "the nearest place where heat may start"
	if why.Start {
		where = "the corner where it is asked to start"
	}
	return fmt.Sprintf("the cold lead of cable %s is too short: %s of it are left for the floor, and %s asks for %s",
		c.ID, say.About(r.LeadReach(c), u), where, say.About(why.Lead, u))
}

// leadHint says what to do where a cold lead finds no way.
func leadHint(r *layout.Room, why *route.Refusal, u plane.Units) string {
	if free := freeFor(r, u); underBox(r) != "" && free != "" {
		return fmt.Sprintf("move the box along %s to where the floor before it is free: %s; or to another wall",
			boxWall(r).Called, free)
	}
	if math.IsInf(why.Lead, 1) {
		return "move the box, or what shuts it in; a lead never crosses heating cable"
	}
	return "move the box nearer, or take a cable with a longer lead; a lead never crosses heating cable"
}

// underBox says what stands or will be fixed where the leads come down, "" for
// free floor.
func underBox(r *layout.Room) string {
	foot := foot(r, boxWall(r).Along)
	for _, s := range r.Job.Stands() {
		if s.Outline.Contains(foot) {
			return "where " + s.Name + " stands"
		}
	}
	for _, z := range r.NoCut {
		if z.Reason == layout.ForFixing && z.Region.Contains(foot) {
			return "on floor kept free for fixing " + z.Name
		}
	}
	return ""
}

// boxSpan is where the job says what place the box has.
func boxSpan(r *layout.Room) job.Span {
	at := r.Job.Thermostat.Spans
	for _, key := range []string{"at", "from", "to_end", "centre"} {
		if span, ok := at[key]; ok {
			return span
		}
	}
	return at.At("wall")
}

// foot is the spot of floor a finger's breadth before the box's wall, so far
// from the wall's start.
func foot(r *layout.Room, along float64) plane.Point {
	const before = 10.0 // mm
	return boxWall(r).Before(along, before)
}

// boxWall is what the box hangs on; a room without one is not planned.
func boxWall(r *layout.Room) job.BoxWall {
	w, _ := r.Job.BoxWall()
	return w
}

// freeFor lists the stretches of the box's wall with free floor before them,
// doors and cased openings left out, from the wall's start.
func freeFor(r *layout.Room, u plane.Units) string {
	step, write := 10.0, func(mm float64) string { return plane.FormatLength(mm, u) + " mm" }
	if u == plane.Inches {
		step, write = plane.Inch/2, plane.FormatFeetInches
	}
	floor, err := r.LeadFloor()
	if err != nil {
		return ""
	}
	var out []string
	for _, s := range freeStretches(r, floor, step) {
		out = append(out, write(s[0])+" to "+write(s[1]))
	}
	return strings.Join(out, ", ")
}

// freeStretches are those, by their ends, looked at so many mm apart.
func freeStretches(r *layout.Room, floor plane.Region, step float64) (out [][2]float64) {
	const least = 150.0 // mm; a box wants some room
	n := boxWall(r).Line.Length()
	from := -1.0
	for d := 0.0; d <= n || from >= 0; d += step {
		switch free := d <= n && floor.Contains(foot(r, d)) && !inOpening(r, d); {
		case free && from < 0:
			from = d
		case !free && from >= 0:
			if to := d - step; to-from >= least {
				out = append(out, [2]float64{from, to})
			}
			from = -1
		}
	}
	return out
}

// inOpening reports whether a place on the box's wall is in a door or a cased
// opening.
func inOpening(r *layout.Room, along float64) bool {
	return slices.ContainsFunc(boxWall(r).Openings, func(o job.Opening) bool {
		return o.Kind != "window" && along >= o.From && along <= o.To
	})
}

// within lists the cables of a range of lengths but for those refused.
func within(cables, refused []job.Cable, lo, hi float64, u plane.Units) string {
	var out []string
	for _, c := range cables {
		was := slices.ContainsFunc(refused, func(o job.Cable) bool { return o.ID == c.ID })
		if !was && c.Length >= lo && c.Length <= hi {
			out = append(out, fmt.Sprintf("%s (%s)", c.ID, say.About(c.Length, u)))
		}
	}
	return strings.Join(out, ", ")
}
