package build

import (
	"cmp"
	"fmt"
	"math"
	"slices"
	"strconv"
	"strings"

	"oxturn/layout/language"

	"oxturn/layout"
	"oxturn/layout/job"
	"oxturn/layout/plane"
	"oxturn/layout/route"
	"oxturn/layout/say"
)

// defaultDensity is the power per area aimed at where the job asks for none:
// 12.5 W/ft² (135 W/m²), common practice for tile.
const defaultDensity = 135

// mostUnsatisfying is how many candidates are laid in the hope of one that
// leaves less floor cold.
const mostUnsatisfying = 3

// choose lays the catalogue's cables, and pairs of them, in the order of
// candidates, and takes the best.
func choose(d draft) ([]route.Route, []job.Cable, []job.Diagnostic) {
	r, j := d.Room, d.job
	cands, enough := candidates(r, j), enough(r, j)
	laid := make([][]route.Route, len(cands))
	var lead *route.Refusal // the first for which the lead is at fault
	for i := range cands {
		if cands[i].Why != "" {
			continue
		}
		var err error
		if laid[i], err = d.layOne(&cands[i]); lead == nil {
			lead = leadRefusal(err)
		}
		if _, sure := best(cands[:i+1], enough); sure {
			break
		}
	}
	if i, _ := best(cands, enough); i >= 0 {
		r.Chosen = &layout.Choice{Taken: cands[i].IDs, Why: whyChosen(r, j, cands, i),
			RunnersUp: slices.Delete(slices.Clone(cands), i, i+1)}
		return laid[i], layout.Named(j, cands[i].IDs), nil
	}
	r.Chosen = &layout.Choice{RunnersUp: cands}
	return nil, nil, []job.Diagnostic{noneFits(r, j, cands, lead)}
}

// best finds the candidate to take among those laid, -1 for none: the first
// that covers enough of the floor, or of the first few the one that covers
// most. sure: candidates laid later change nothing.
func best(cands []layout.Candidate, enough float64) (at int, sure bool) {
	const same = 0.01 // of the floor
	at = -1
	fit := 0
	for i, c := range cands {
		if !c.Fits {
			continue
		}
		if c.Covered >= enough {
			return i, true
		}
		if at < 0 || c.Covered > cands[at].Covered+same {
			at = i
		}
		if fit++; fit == mostUnsatisfying {
			return at, true
		}
	}
	return at, false
}

// nearlyAll of the floor that zones can warm is what they are asked to.
const nearlyAll = 0.95

// enough is the share of the floor that could be heated which a choice is to
// cover: nearly all that the job has cables for.
func enough(r *layout.Room, j *job.Job) float64 {
	zones := served(r, j)
	return nearlyAll * min(1, joined(zones).Area()/heatable(r, j, func(int) bool { return false }))
}

// heatable is the area in mm² of the zones that could be heated: those with
// room for cable, and those that have some.
func heatable(r *layout.Room, j *job.Job, has func(zone int) bool) float64 {
	area := 0.0
	for i, z := range r.Zones {
		if has(i) || takesCable(j, z) {
			area += z.Area()
		}
	}
	return area
}

func joined(zones []plane.Region) plane.Region {
	var out plane.Region
	for _, z := range zones {
		out = append(out, z...)
	}
	return out
}

// whyChosen says why candidate at was taken.
func whyChosen(r *layout.Room, j *job.Job, cands []layout.Candidate, at int) language.Message {
	c, asked := cands[at], language.Figure(say.DensityBoth(asked(r), j.Units))
	what := language.Say("%s at an even spacing of %s", language.Figure(say.DensityBoth(c.Density, j.Units)),
		language.Figure(say.Apart(c.Spacing, j.Units)))
	if len(c.IDs) == 1 && slices.ContainsFunc(cands, func(o layout.Candidate) bool {
		return o.Within && o.Off < c.Off &&
			len(o.IDs) > 1
	}) {
		return language.Say("one cable does, and no other alone comes nearer to %s, of the %d tried: %s", asked,
			len(cands), what)
	}
	if len(served(r, j)) > 1 {
		return language.Say("nearest to %s in each part of the floor of the %d tried: %s", asked, len(cands), what)
	}
	return language.Say("nearest to %s of the %d tried: %s", asked, len(cands), what)
}

// noneFits says that no candidate could be laid, and why not.
func noneFits(r *layout.Room, j *job.Job, cands []layout.Candidate, lead *route.Refusal) job.Diagnostic {
	d := r.Problem("room %q: none of the catalogue's %d cables, alone or in pairs, can be laid", r.Job.Name,
		len(j.Cables))
	for _, c := range cands[:min(5, len(cands))] {
		d.Notes = append(d.Notes, job.Note{Message: fmt.Sprintf("%s: %s", strings.Join(c.IDs, " + "), c.Why)})
	}
	lo, hi := lengths(j, r.Heated)
	d.Hint = fmt.Sprintf("%s of heated floor at %s takes %s to %s of cable",
		say.AreaBoth(r.Heated.Area(), j.Units), j.Gaps(),
		say.About(lo, j.Units), say.About(hi, j.Units))
	if lead != nil {
		d.Hint = leadHint(r, lead, j.Units)
	}
	if asksStart(r) {
		d.Hint += "; without start, the corner in which the heat is to begin, more may lie"
	}
	return d
}

// lengths are the least and the most cable a floor takes, by its area, within
// the limits of spacing.
func lengths(j *job.Job, floor plane.Region) (least, most float64) {
	at := func(gap float64) float64 { return floor.Area()/gap + floor.Perimeter()/2 }
	return at(j.Far()), at(j.Near())
}

// layOne lays a candidate and replaces its estimates by what was found.
func (d draft) layOne(c *layout.Candidate) ([]route.Route, error) {
	labels := layout.Named(d.job, c.IDs)
	routes, err := d.routed(labels)
	if err != nil {
		c.Why = reason(d.Room, labels, err, d.job.Units)
		return nil, err
	}
	settle(d.Room, d.job, c, labels, routes)
	return routes, nil
}

// settle replaces the estimates by the figures of the routes found. A cable
// that is too short for the part of the floor it came to does not fit.
func settle(r *layout.Room, j *job.Job, c *layout.Candidate, labels []job.Cable, routes []route.Route) {
	c.Fits = true
	c.Spacing, c.Density = 0, 0
	for _, rt := range routes {
		l := labels[rt.Cable]
		n := float64(len(routes))
		c.Spacing += rt.Spacing / n
		c.Density += l.Watts / (l.Length / 1000) / (rt.Spacing / 1000) / n
		if len(routes) > 1 && sparse(j, rt.Spacing) {
			c.Fits = false
			c.Why = fmt.Sprintf("%s is too short for its part of the floor: its runs would be %s pegs apart, "+
				"widest allowed %d", l.ID, besideLimit(rt.Spacing/j.Membrane.Pitch, j.Spacing.Widest), j.Spacing.Widest)
			if j.Uneven() {
				c.Why = fmt.Sprintf("%s is too short for its part of the floor: its runs would be %s apart, widest "+
					"allowed %s", l.ID, say.Apart(rt.Spacing, j.Units), j.FarGap())
			}
		}
	}
	c.Covered = covered(r, j, routes)
}

// covered is the share of all the floor that could be heated which lies within
// reach of the routes.
func covered(r *layout.Room, j *job.Job, routes []route.Route) float64 {
	shares, warm := make([]float64, len(r.Zones)), make([]float64, len(r.Zones))
	for _, rt := range routes {
		area := rt.Share.Area()
		shares[rt.Zone] += area
		warm[rt.Zone] += float64(area * rt.Score.Covered)
	}
	reached := 0.0
	for i, z := range r.Zones {
		if shares[i] > 0 {
			reached += z.Area() * warm[i] / shares[i]
		}
	}
	return reached / heatable(r, j, func(z int) bool { return shares[z] > 0 })
}

func asked(r *layout.Room) float64 {
	if r.Job.Density > 0 {
		return r.Job.Density
	}
	return defaultDensity
}

// candidates lists single cables and pairs with their estimated spacing and
// density, nearest to the asked density first; those out of the limits carry
// the reason in Why and come last.
func candidates(r *layout.Room, j *job.Job) []layout.Candidate {
	var sets [][]job.Cable
	for i, a := range j.Cables {
		sets = append(sets, []job.Cable{a})
		for _, b := range j.Cables[i:] {
			if a.Volts == b.Volts && (a.ID != b.ID || a.Count != 1) {
				sets = append(sets, []job.Cable{a, b})
			}
		}
	}
	var out []layout.Candidate
	zones := served(r, j)
	for _, set := range sets {
		out = append(out, estimate(r, j, set, zones))
	}
	slices.SortStableFunc(out, func(a, b layout.Candidate) int { return cmp.Compare(rank(a), rank(b)) })
	return out
}

// nearEnough is how far from the asked density, as a share of it, no second
// cable is wanted to come nearer.
const nearEnough = 1.0 / 3

// spareWeighs is what a cable too many counts, in the units of a distance from the ideal.
const spareWeighs = 0.1

// rank orders candidates: those within the limits by their distance from the
// asked density. A second cable on the same floor is one more lead, one more
// splice and one more thing to fail: it comes after any cable that does alone.
func rank(c layout.Candidate) float64 {
	d := c.Off
	if c.Spare > 0 || c.Off > nearEnough {
		d += nearEnough + float64(spareWeighs*float64(c.Spare))
	}
	if c.Why != "" {
		d += 1000
	}
	return d
}

func estimate(r *layout.Room, j *job.Job, set []job.Cable, zones []plane.Region) layout.Candidate {
	c := layout.Candidate{Spare: max(0, len(set)-len(zones))}
	total, watts := 0.0, 0.0
	for _, l := range set {
		c.IDs = append(c.IDs, l.ID)
		total += l.Length
		watts += l.Watts
	}
	c.Spacing = layout.IdealSpacing(joined(zones), total)
	c.Density = watts / (total / 1000) / (c.Spacing / 1000)
	c.OverHeated = watts / (joined(zones).Area() / plane.SquareMetre)
	c.Off = off(c.Density, asked(r), set, zones)
	c.Why = beyond(r, j, set, c, len(zones))
	c.Within = c.Why == ""
	return c
}

// besideLimit writes a figure with as many decimals as tell it from its limit.
func besideLimit(v float64, limit int) string {
	for decimals := range 3 {
		most := strconv.FormatFloat(float64(limit), 'f', decimals+1, 64)
		if s := strconv.FormatFloat(v, 'f', decimals+1, 64); s != most {
			return s
		}
	}
	return strconv.FormatFloat(v, 'g', -1, 64)
}

// beyond says which limit an estimate is out of, "" for none.
func beyond(r *layout.Room, j *job.Job, set []job.Cable, c layout.Candidate, zones int) string {
	pegs, uneven := c.Spacing/j.Membrane.Pitch, j.Uneven()
	switch {
	case j.Supply.Volts > 0 && set[0].Volts != j.Supply.Volts:
		return fmt.Sprintf("made for %s, supply is %s", say.Volts(set[0].Volts), say.Volts(j.Supply.Volts))
	case len(set) < zones:
		return fmt.Sprintf("%d zones need a cable each", zones)
	case uneven && c.Spacing < j.Near()-plane.Hair:
		return fmt.Sprintf("too long: its runs would be %s apart, closest allowed %s", say.Apart(c.Spacing, j.Units),
			j.NearGap())
	case !uneven && pegs < float64(j.Spacing.Closest):
		return fmt.Sprintf("too long: its runs would be %s pegs apart, closest allowed %d",
			besideLimit(pegs, j.Spacing.Closest), j.Spacing.Closest)
	case math.IsInf(pegs, 1):
		return "too short: it would not reach round the floor"
	case uneven && c.Spacing > j.Far()+plane.Hair:
		return fmt.Sprintf("too short: its runs would be %s apart, widest allowed %s", say.Apart(c.Spacing, j.Units),
			j.FarGap())
	case !uneven && pegs > float64(j.Spacing.Widest):
		return fmt.Sprintf("too short: its runs would be %s pegs apart, widest allowed %d",
			besideLimit(pegs, j.Spacing.Widest), j.Spacing.Widest)
	case j.Supply.MaxDensity > 0 && c.Density > j.Supply.MaxDensity && j.Supply.MaxDensityOver != job.OverHeated:
		return fmt.Sprintf("%s at even spacing is above the %s allowed", say.DensityBoth(c.Density, j.Units),
			say.DensityBoth(j.Supply.MaxDensity, j.Units))
	case j.Supply.MaxDensity > 0 && c.OverHeated > j.Supply.MaxDensity*(1+layout.AtLimit) &&
		j.Supply.MaxDensityOver != job.OverEven:
		return fmt.Sprintf("%s over the heated floor is above the %s allowed", say.DensityBoth(c.OverHeated,
			j.Units), say.DensityBoth(j.Supply.MaxDensity, j.Units))
	case len(leadsTooShort(r, set, j.Units)) > 0:
		return "its cold lead does not reach the floor"
	}
	return ""
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
		worst = max(worst, from(perMetre/(layout.IdealSpacing(zones[i], c.Length)/1000)))
	}
	return worst
}

// Shares of the heated floor up to which a zone gets no cable of its own: none at all, and none but where it
// goes with the largest on one supply.
const (
	tooSmall  = 0.05
	wantsPair = 0.25
)

// served are the zones that want a cable of their own, the largest first: not
// those that are small beside the floor, nor those too small for any cable the
// job has, which stay without one.
func served(r *layout.Room, j *job.Job) []plane.Region {
	large := func(a, b plane.Region) int { return cmp.Compare(b.Area(), a.Area()) }
	zones := slices.SortedFunc(slices.Values(r.Zones), large)
	for i, z := range zones {
		share := z.Area() / r.Heated.Area()
		if i > 0 && (share <= tooSmall || !shortEnough(j, z) || share <= wantsPair && !paired(j, zones[0], z)) {
			return zones[:i]
		}
	}
	return zones
}

// paired reports whether the job has two cables of one voltage, one for either
// floor: else a pocket is not worth leaving the large floor without a cable of
// its own.
func paired(j *job.Job, large, pocket plane.Region) bool {
	least, most := lengths(j, large)
	_, small := lengths(j, pocket)
	return slices.ContainsFunc(j.Cables, func(a job.Cable) bool {
		return a.Length >= least && a.Length <= most && slices.ContainsFunc(j.Cables, func(b job.Cable) bool {
			return b.Volts == a.Volts && b.Length <= small && (j.Supply.Volts == 0 || b.Volts == j.Supply.Volts)
		})
	})
}

// shortEnough reports whether the job has a cable that a floor can take up.
func shortEnough(j *job.Job, floor plane.Region) bool {
	_, most := lengths(j, floor)
	return slices.ContainsFunc(j.Cables, func(c job.Cable) bool {
		return c.Length <= most && (j.Supply.Volts == 0 || c.Volts == j.Supply.Volts)
	})
}
