package layout

import (
	"cmp"
	"fmt"
	"math"
	"slices"
	"sort"
	"strings"

	"oxturn/layout/job"
	"oxturn/layout/plane"
	"oxturn/layout/route"
)

// defaultDensity is the power per area aimed at where the job asks for none:
// 12.5 W/ft² (135 W/m²), common practice for tile.
const defaultDensity = 135

// idealSpacing is the mean distance between runs of a cable of the given
// length that runs along the edges of a region: s = A / (L - P/2), the fence
// posts of a field counted. Infinite when the cable is shorter than half the
// boundary.
func idealSpacing(zone plane.Region, length float64) float64 {
	n := length - zone.Perimeter()/2
	if n <= 0 {
		return math.Inf(1)
	}
	return zone.Area() / n
}

// choose tries the catalogue's cables, and pairs of them, and takes the first
// that can be laid, nearest to the asked density first.
func (r *Room) choose(j *job.Job) ([]route.Route, []job.Cable, []job.Diagnostic) {
	cands := r.candidates(j)
	r.Chosen = &Choice{}
	var lead *route.Refusal // the first for which the lead is at fault
	for i := range cands {
		c := &cands[i]
		if c.Why != "" {
			continue
		}
		labels := named(j, c.IDs)
		routes, err := r.route(j, labels)
		if err != nil {
			c.Why = r.reason(labels, err, j.Units)
			if lead == nil {
				lead = leadRefusal(err)
			}
			continue
		}
		c.settle(labels, routes)
		r.Chosen.Taken = c.IDs
		where := ""
		if len(r.served(j)) > 1 {
			where = " in each part of the floor"
		}
		r.Chosen.Why = fmt.Sprintf("nearest to %s%s of the %d tried: %s at an even spacing of %s",
			plane.FormatDensity(r.asked(), j.Units), where, len(cands), plane.FormatDensity(c.Density, j.Units), runsApart(c.Spacing, j.Units))
		r.Chosen.RunnersUp = append(append([]Candidate{}, cands[:i]...), cands[i+1:]...)
		return routes, labels, nil
	}
	r.Chosen.RunnersUp = cands
	d := r.problem("room %q: none of the catalogue's %d cables, alone or in pairs, can be laid", r.Job.Name, len(j.Cables))
	for _, c := range cands[:min(5, len(cands))] {
		d.Notes = append(d.Notes, job.Note{Message: fmt.Sprintf("%s: %s", strings.Join(c.IDs, " + "), c.Why)})
	}
	lo, hi := lengths(j, r.Heated)
	d.Hint = fmt.Sprintf("%s of heated floor at %d to %d pegs takes %s to %s of cable", plane.FormatArea(r.Heated.Area(), j.Units), j.Spacing.Closest, j.Spacing.Widest,
		length(lo, j.Units), length(hi, j.Units))
	if lead != nil {
		d.Hint = r.leadHint(lead, j.Units)
	}
	return nil, nil, []job.Diagnostic{d}
}

// runsApart writes a distance between runs: to a tenth of an inch, or to a
// millimetre.
func runsApart(mm float64, u plane.Units) string {
	if u == plane.Inches {
		return fmt.Sprintf("%.1f in", mm/plane.Inch)
	}
	return fmt.Sprintf("%.0f mm", mm)
}

// lengths are the least and the most cable a floor takes, by its area, within
// the limits of spacing.
func lengths(j *job.Job, floor plane.Region) (least, most float64) {
	at := func(pegs int) float64 {
		return floor.Area()/(float64(pegs)*j.Membrane.Pitch) + floor.Perimeter()/2
	}
	return at(j.Spacing.Widest), at(j.Spacing.Closest)
}

// settle replaces the estimates by the figures of the routes found.
func (c *Candidate) settle(labels []job.Cable, routes []route.Route) {
	c.Fits = true
	c.Spacing, c.Density, c.Covered = 0, 0, 0
	for _, rt := range routes {
		l := labels[rt.Cable]
		n := float64(len(routes))
		c.Spacing += rt.Spacing / n
		c.Density += l.Watts / (l.Length / 1000) / (rt.Spacing / 1000) / n
		c.Covered += rt.Score.Covered / n
	}
}

func (r *Room) asked() float64 {
	if r.Job.Density > 0 {
		return r.Job.Density
	}
	return defaultDensity
}

// candidates lists single cables and pairs with their estimated spacing and
// density, nearest to the asked density first; those out of the limits carry
// the reason in Why and come last.
func (r *Room) candidates(j *job.Job) []Candidate {
	var sets [][]job.Cable
	for i, a := range j.Cables {
		sets = append(sets, []job.Cable{a})
		for _, b := range j.Cables[i:] {
			if a.Volts == b.Volts {
				sets = append(sets, []job.Cable{a, b})
			}
		}
	}
	var out []Candidate
	for _, set := range sets {
		out = append(out, r.estimate(j, set))
	}
	sort.SliceStable(out, func(a, b int) bool { return r.rank(out[a]) < r.rank(out[b]) })
	return out
}

// rank orders candidates: those within the limits by their distance from the
// asked density; a second cable must come a tenth nearer to be worth its work.
func (r *Room) rank(c Candidate) float64 {
	d := c.off + float64(0.1*float64(len(c.IDs)-1))
	if c.Why != "" {
		d += 1000
	}
	return d
}

func (r *Room) estimate(j *job.Job, set []job.Cable) Candidate {
	c := Candidate{}
	total, watts := 0.0, 0.0
	for _, l := range set {
		c.IDs = append(c.IDs, l.ID)
		total += l.Length
		watts += l.Watts
	}
	c.Spacing = idealSpacing(r.Heated, total)
	c.Density = watts / (total / 1000) / (c.Spacing / 1000)
	c.off = off(c.Density, r.asked(), set, r.served(j))
	pegs := c.Spacing / j.Membrane.Pitch
	switch zones := len(r.served(j)); {
	case len(set) < zones:
		c.Why = fmt.Sprintf("%d zones need a cable each", zones)
	case pegs < float64(j.Spacing.Closest):
		c.Why = fmt.Sprintf("too long: its runs would be %.1f pegs apart, closest allowed %d", pegs, j.Spacing.Closest)
	case pegs > float64(j.Spacing.Widest):
		c.Why = fmt.Sprintf("too short: its runs would be %.1f pegs apart, widest allowed %d", pegs, j.Spacing.Widest)
	case j.Supply.Volts > 0 && set[0].Volts != j.Supply.Volts:
		c.Why = fmt.Sprintf("made for %g V, supply is %g V", set[0].Volts, j.Supply.Volts)
	case j.Supply.MaxDensity > 0 && c.Density > j.Supply.MaxDensity:
		c.Why = fmt.Sprintf("%s is above the %s allowed", plane.FormatDensity(c.Density, j.Units), plane.FormatDensity(j.Supply.MaxDensity, j.Units))
	case len(r.leadsTooShort(set, j.Units)) > 0:
		c.Why = "its cold lead does not reach the floor"
	}
	return c
}

// off is how far a set of cables is from the asked density, as a share of it:
// by the mean, but where each has a zone to itself by the zone it suits least,
// as a floor cold on one side of a joint and hot on the other is right nowhere.
func off(mean, asked float64, set []job.Cable, zones []plane.Region) float64 {
	from := func(density float64) float64 { return math.Abs(density-asked) / asked }
	if len(zones) < 2 || len(zones) != len(set) {
		return from(mean)
	}
	long := slices.SortedFunc(slices.Values(set), func(a, b job.Cable) int { return cmp.Compare(b.Length, a.Length) })
	worst := 0.0
	for i, c := range long {
		perMetre := c.Watts / (c.Length / 1000)
		worst = max(worst, from(perMetre/(idealSpacing(zones[i], c.Length)/1000)))
	}
	return worst
}

// served are the zones that want a cable of their own, the largest first: not
// those that are small beside the floor, nor those too small for any cable the
// job has, which stay without one.
func (r *Room) served(j *job.Job) []plane.Region {
	large := func(a, b plane.Region) int { return cmp.Compare(b.Area(), a.Area()) }
	zones := slices.SortedFunc(slices.Values(r.Zones), large)
	for i, z := range zones {
		if i > 0 && (z.Area() <= 0.05*r.Heated.Area() || !shortEnough(j, z)) {
			return zones[:i]
		}
	}
	return zones
}

// shortEnough reports whether the job has a cable that a floor can take up.
func shortEnough(j *job.Job, floor plane.Region) bool {
	_, most := lengths(j, floor)
	return slices.ContainsFunc(j.Cables, func(c job.Cable) bool {
		return c.Length <= most && (j.Supply.Volts == 0 || c.Volts == j.Supply.Volts)
	})
}
