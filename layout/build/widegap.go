package build

import (
	"cmp"
	"fmt"
	"slices"

	"oxturn/layout"
	"oxturn/layout/job"
	"oxturn/layout/say"
)

// gapSlack pegs a gap may pass the widest by: runs are measured, not counted.
const gapSlack = 0.1

// tooWide reports whether runs so many mm apart are farther apart than the job
// allows, but for what a rounded figure may be off.
func tooWide(j *job.Job, mm float64) bool {
	return mm > j.Far()+gapSlack*j.Peg()
}

// widerOnPaper times the widest gap even rows may lie apart before it is said: some floor has more than its share.
const widerOnPaper = 1.05

// sparse reports whether an even spacing in mm is wider than the job allows. It
// follows from area and length, and is good to a few in the hundred.
func sparse(j *job.Job, spacing float64) bool {
	return spacing > widerOnPaper*j.Far()
}

// wideGap warns of the room's widest gap where it is more than the job allows:
// the floor between those runs stays cooler than the rest; and, where no gap
// is, of an even spacing that is.
func wideGap(r *layout.Room, j *job.Job) []job.Diagnostic {
	worst := widestGap(r)
	if worst == nil || !tooWide(j, worst.Gaps.Widest) {
		return wideSpacing(r, j)
	}
	wide := worst.Gaps.Widest
	d := job.Diagnostic{Severity: job.Warning, ID: "W105", Span: r.Job.Spans.At("cables")}
	d.Message = fmt.Sprintf("room %q: beside run %s of %s the next run is %s (%s) away, more than the %d pegs "+
		"allowed; the floor between stays cooler",
		r.Job.Name, worst.RunName(worst.Gaps.Beside), worst.ID, say.Apart(wide, j.Units),
		say.Pegs(wide/j.Membrane.Pitch), j.Spacing.Widest)
	if j.Uneven() {
		d.Message = fmt.Sprintf("room %q: beside run %s of %s the next run is %s away, more than the %s allowed; the "+
			"floor between stays cooler", r.Job.Name, worst.RunName(worst.Gaps.Beside), worst.ID,
			say.Apart(wide, j.Units), j.FarGap())
	}
	d.Hint = "a cable of another length may lie more evenly; see what the floor takes with oxturn choose, or " +
		"allow W105"
	if little := little(r, j, worst.Zone); little != "" {
		d.Hint = little + ": take a longer cable, or allow W105"
	}
	return []job.Diagnostic{d}
}

// widestGap is the cable with the room's widest gap; nil in a room without cable.
func widestGap(r *layout.Room) (worst *layout.Cable) {
	for i := range r.Cables {
		if c := &r.Cables[i]; worst == nil || c.Gaps.Widest > worst.Gaps.Widest {
			worst = c
		}
	}
	return worst
}

// wideSpacing warns of the cable whose mean spacing is the widest, where that is
// more than the job allows.
func wideSpacing(r *layout.Room, j *job.Job) []job.Diagnostic {
	if len(r.Cables) == 0 {
		return nil
	}
	c := slices.MaxFunc(r.Cables, func(a, b layout.Cable) int { return cmp.Compare(a.Spacing, b.Spacing) })
	if !sparse(j, c.Spacing) || bareOver(r, j, c) > coolFrom { // of such, W104 says it
		return nil
	}
	d := job.Diagnostic{Severity: job.Warning, ID: "W105", Span: r.Job.Spans.At("cables")}
	d.Message = fmt.Sprintf("room %q: for the floor it serves, the runs of %s would have to lie %s (%s) "+
		"apart, more than the %d pegs allowed; some of the floor stays cooler",
		r.Job.Name, c.ID, say.Apart(c.Spacing, j.Units), say.Pegs(c.Spacing/j.Membrane.Pitch), j.Spacing.Widest)
	if j.Uneven() {
		d.Message = fmt.Sprintf("room %q: for the floor it serves, the runs of %s would have to lie %s apart, more "+
			"than the %s allowed; some of the floor stays cooler", r.Job.Name, c.ID, say.Apart(c.Spacing, j.Units),
			j.FarGap())
	}
	d.Hint = "take a longer cable; see what the floor takes with oxturn choose, or allow W105"
	if little := little(r, j, c.Zone); little != "" {
		d.Hint = little + ": take a longer cable, or allow W105"
	}
	return []job.Diagnostic{d}
}

// little says that a zone has less cable than it takes, "" where it has not.
func little(r *layout.Room, j *job.Job, zone int) string {
	least, laid := takes(r, j, zone)
	if laid >= least {
		return ""
	}
	return fmt.Sprintf("%s of cable is little for this floor, which takes about %s at %s",
		say.About(laid, j.Units), say.About(least, j.Units), j.FarGap())
}

// takes returns the least cable that a zone takes at the widest gap, and how
// much lies in it.
func takes(r *layout.Room, j *job.Job, zone int) (least, laid float64) {
	for _, c := range r.Cables {
		if c.Zone == zone {
			laid += c.Label.Length
		}
	}
	if zone < 0 || zone >= len(r.Zones) {
		return 0, laid
	}
	least, _ = lengths(j, r.Zones[zone])
	return least, laid
}
