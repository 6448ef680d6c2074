package layout

import (
	"slices"

	"oxturn/layout/language"

	"oxturn/layout/heat"
	"oxturn/layout/job"
	"oxturn/layout/plane"
)

// Warmth is how warm the floor gets and how soon, worked out from the job's
// layers. Where they do not allow that, Problem says why and only Layers is
// there.
type Warmth struct {
	Layers      []heat.Layer       // top to bottom, with the figures used
	Holds       int                // index of the layer that holds the cable
	Loose       bool               // it lies on strips, at the foot of that layer
	Depth       float64            // mm from the surface to the cable's centre line
	Sources     []language.Message // of those figures, layer by layer
	Room        float64            // °C of the air above, and Warmest at its warmest
	Warmest     float64
	Runs        []Warm       // one for each cable that is warm in its own way
	Rise, Hours float64      // of the offers: K wanted, h waited for
	Offers      []heat.Offer // for every spacing on offer, without and with a board
	Board       float64      // mm of that board, 0: none compared
	Use         []RoomUse    // energy, room by room
	Problem     string
}

// Assumptions says in words what the figures rest on, lengths and temperatures
// in the given units.
func (w *Warmth) Assumptions(u plane.Units) []language.Message {
	if len(w.Runs) == 0 {
		return nil
	}
	us := u == plane.Inches
	out := w.Bounds(us)
	out = append(out, w.Runs[0].Cold.Section.Assumptions(us)...)
	if w.Loose {
		return append(out, language.Say("cable on its strips, at the foot of what it is bedded in"))
	}
	return append(out, language.Say("cable at mid-height of the filled membrane"))
}

// Bounds says between what the floor lies: what is below it in either case,
// and what each case is for.
func (w *Warmth) Bounds(us bool) []language.Message {
	var out []language.Message
	var seen []string
	for _, r := range w.Runs {
		hot := language.Say("at most, for the limits: %s", r.Hot.Section.Below.Words(us))
		if r.Soil != nil && r.Hot.Section.Below.Kind == heat.SoilBelow {
			hot = language.Say("%s (%s; dimension %s); soil takes weeks to settle", hot,
				r.Soil.Words(r.Hot.Section, us), language.Say(r.DimensionFrom))
		}
		if !slices.Contains(seen, hot.String()) {
			out, seen = append(out, hot), append(seen, hot.String())
		}
	}
	cold := language.Say("at least, for output and warm-up: %s", w.Runs[0].Cold.Section.Below.Words(us))
	if w.Runs[0].Soil != nil {
		cold = language.Joined(", ", cold, language.Say("as when the heating is new or long off"))
	}
	return append(out, cold)
}

// A Warm is the steady state of a floor over cables laid alike, between two
// bounds.
type Warm struct {
	Cables        []string   // H1, H2...
	Hot           Bound      // as warm as it gets: what limits are held against
	Cold          Bound      // as cool as it stays: what output and warm-up are counted with
	Soil          *heat.Soil // under Hot; nil where the floor is not on ground
	Verdicts      []heat.Verdict
	DimensionFrom string
}

// A Bound is a floor's section with its steady state.
type Bound struct {
	Section heat.Section
	Steady  heat.Steady
}

// Alike reports whether both bounds are the same.
func (w Warm) Alike() bool { return w.Hot.Section.Below == w.Cold.Section.Below }

// ComfortLimit is how warm a room's floor may get for people to stand on it for
// long: a bathroom's where there is a tub or a shower.
func (r *Room) ComfortLimit() heat.Limit {
	if slices.ContainsFunc(r.Job.Fixtures, func(f job.Fixture) bool {
		return f.Kind == job.Tub ||
			f.Kind == job.Shower
	}) {
		return heat.BathroomLimit
	}
	return heat.OccupiedLimit
}

// Comfort holds a room's floor at its warmest, left on, against its ComfortLimit,
// in air at least as warm as that is for; nil where its warmth is not known.
func (w *Warmth) Comfort(r *Room) *heat.Verdict {
	var worst *heat.Verdict
	limit := r.ComfortLimit()
	for i := range r.Cables {
		run := w.Of(r.Cables[i].ID)
		if run == nil {
			continue
		}
		v := run.Hot.Steady.Against(max(w.Warmest, limit.Air), limit)[0]
		if worst == nil || v.Margin < worst.Margin {
			worst = &v
		}
	}
	return worst
}

// A RoomUse is what the heating of a room draws.
type RoomUse struct {
	Room string
	heat.Energy
}

// Of returns the states over a cable, nil where they are not known.
func (w *Warmth) Of(cable string) *Warm {
	if w == nil {
		return nil
	}
	for i := range w.Runs {
		for _, id := range w.Runs[i].Cables {
			if id == cable {
				return &w.Runs[i]
			}
		}
	}
	return nil
}
