package build

import (
	"math"

	"oxturn/layout"
	"oxturn/layout/heat"
	"oxturn/layout/job"
	"oxturn/layout/route"
)

// An OptionWarmth is a floor over the cables of an option, left on without a
// thermostat, between the bounds that a plan's warmth has too.
type OptionWarmth struct {
	Least    float64        // °C, the mean of the surface in the cold case, over the cable that gives the least
	UpShare  float64        // of the heat there that goes up; negative where ground takes more than the cable gives
	WarmUp   heat.Offer     // in the cold case, over the cable that takes longest
	Most     float64        // °C, over a cable in the hot case, the hottest one
	Verdicts []heat.Verdict // of the hot case, by limit: the one with the least margin
	Bounds   *layout.Warmth // the steady states of its cables
}

// optionWarmth works out the warmth of a floor laid with the candidate as
// routed; nil where it can't be.
func optionWarmth(r *layout.Room, j *job.Job, c layout.Candidate, routes []route.Route) *OptionWarmth {
	w := &layout.Warmth{Room: j.Warmth.Room, Warmest: j.Warmth.Warmest, Holds: -1}
	layers(w, j)
	if place(w) != nil {
		return nil
	}
	labels := layout.Named(j, c.IDs)
	for _, rt := range routes {
		label := labels[rt.Cable]
		if run(w, &layout.Plan{Job: j}, r, &layout.Cable{ID: label.ID, Label: label, Spacing: rt.Spacing}) != nil {
			return nil
		}
	}
	return worst(w, j)
}

// worst takes of each figure the one that is farthest from what is wanted, and
// adds the slowest warm-up; nil where there is none.
func worst(w *layout.Warmth, j *job.Job) *OptionWarmth {
	o := &OptionWarmth{Least: math.Inf(1), UpShare: math.Inf(1), Most: math.Inf(-1), Bounds: w}
	for i, laid := range w.Runs {
		o.Least = min(o.Least, w.Room+laid.Cold.Steady.Mean)
		o.UpShare = min(o.UpShare, laid.Cold.Steady.UpShare)
		o.Most = max(o.Most, w.Warmest+laid.Hot.Steady.OverCable)
		offers, err := laid.Cold.Section.Offers([]float64{laid.Cold.Section.Spacing}, nil, j.Warmth.Rise,
			j.Warmth.Hours)
		if err != nil {
			return nil
		}
		if i == 0 {
			o.WarmUp, o.Verdicts = offers[0], laid.Verdicts
			continue
		}
		if slower(offers[0], o.WarmUp) {
			o.WarmUp = offers[0]
		}
		o.Verdicts = lessMargin(o.Verdicts, laid.Verdicts)
	}
	if len(w.Runs) == 0 {
		return nil
	}
	return o
}

// slower reports whether a floor gains the rise later than another, or never.
func slower(a, b heat.Offer) bool {
	switch {
	case a.Reached != b.Reached:
		return b.Reached
	case a.Reached:
		return a.Time > b.Time
	}
	return a.Settles < b.Settles
}

// lessMargin takes of two verdicts on each limit the one nearer to it, or farther
// beyond.
func lessMargin(a, b []heat.Verdict) []heat.Verdict {
	out := make([]heat.Verdict, len(a))
	for i := range a {
		out[i] = a[i]
		if b[i].Margin < a[i].Margin {
			out[i] = b[i]
		}
	}
	return out
}
