// Package aslaid joins what is recorded of cable as it was laid to the plan.
package aslaid

import (
	"cmp"
	"fmt"
	"math"
	"slices"
	"strings"

	"oxturn/layout"
	"oxturn/layout/job"
	"oxturn/layout/plane"
	"oxturn/layout/refit"
	"oxturn/layout/route"
	"oxturn/layout/say"
)

// Join joins the job's records of what was laid to the plan. With the status
// as laid the cables are from then on those that lie; the plan's path stays in
// Laid.
func Join(p *layout.Plan) []job.Diagnostic {
	var out []job.Diagnostic
	said := map[*layout.Cable]bool{} // their record is at fault: that is enough
	for i := range p.Job.Laid {
		record := p.Job.Laid[i]
		a, r := &record, &p.Rooms[record.Room]
		if len(r.Cables) == 0 {
			continue // already reported
		}
		c, bad := cableOf(r, a)
		if bad != nil {
			out = append(out, *bad)
			continue
		}
		if bad := p.Rests(a, c); bad != nil {
			out = append(out, *bad)
			if bad.Severity == job.Error {
				said[c] = true
				continue
			}
		}
		if a.PlanCode == p.Code {
			a.Issued = r.IssuedNow(c, p.Code)
		}
		l, found := laid(r, a, c, p.Job)
		out = append(out, found...)
		if l == nil {
			said[c] = true
			continue
		}
		c.Laid = l
		wrong := checkMarks(l, c, p.Job)
		if wrong == nil {
			wrong = misread(p, r, c)
		}
		out = append(out, wrong...)
		laidSensors(r, a, p.Job.Info.Status)
		if p.Job.Info.Status == job.AsLaid {
			becomes(c, l, p.Job)
		}
	}
	p.Code = laidBy(p)
	return append(out, unrecorded(p, said)...)
}

// laidBy is the code of the plan that all cables were laid by, once they are drawn
// where they lie: drawings that are handed over bear it, whatever the job would be
// planned like now.
func laidBy(p *layout.Plan) string {
	code := ""
	for i := range p.Rooms {
		for k := range p.Rooms[i].Cables {
			c := p.CodeOf(&p.Rooms[i].Cables[k])
			if code != "" && c != code || p.Job.Info.Status != job.AsLaid {
				return p.Code
			}
			code = c
		}
	}
	return cmp.Or(code, p.Code)
}

// cableOf finds the cable that a record speaks of.
func cableOf(r *layout.Room, a *job.Laid) (*layout.Cable, *job.Diagnostic) {
	var names []string
	for i := range r.Cables {
		c := &r.Cables[i]
		names = append(names, c.ID)
		if c.ID != a.Cable && (a.Cable != "" || len(r.Cables) > 1) {
			continue
		}
		if c.Laid != nil {
			d := job.Diagnostic{Span: a.Span, Message: fmt.Sprintf("cable %s of room %q has two [[as_laid]]", c.ID,
				r.Job.Name), Hint: "put both into one table"}
			return nil, &d
		}
		return c, nil
	}
	d := job.Diagnostic{Span: a.Spans.At("cable"), Hint: "cables of this room: " + strings.Join(names, ", ")}
	d.Message = fmt.Sprintf("room %q has %d cables: name the one that was laid", r.Job.Name, len(r.Cables))
	if a.Cable != "" {
		d.Message = fmt.Sprintf("room %q has no cable %q", r.Job.Name, a.Cable)
	}
	return nil, &d
}

// laid works out one record; nil when it was reported as no cable.
func laid(r *layout.Room, a *job.Laid, c *layout.Cable, j *job.Job) (*layout.Laid, []job.Diagnostic) {
	l := &layout.Laid{Job: a, Planned: c.Path, Joint: a.Joint, EndCap: a.EndCap, ColdLead: a.ColdLead, Return: a.Return}
	for _, acc := range layout.Accuracies() {
		if acc.Evidence == a.Evidence {
			l.Error, l.FingerRoom = acc.Error, acc.FingerRoom
		}
	}
	if a.Error > 0 && l.Error > 0 {
		l.Error = a.Error
	}
	if a.FingerRoom >= 0 && l.Error > 0 {
		l.FingerRoom = a.FingerRoom
	}
	if a.Issued != nil {
		l.Planned = a.Issued.Path
	}
	for _, step := range []func() *job.Diagnostic{
		func() *job.Diagnostic { return trace(l, r, c, j) }, func() *job.Diagnostic { return follow(l, c, j) },
	} {
		if d := step(); d != nil {
			return nil, []job.Diagnostic{*d}
		}
	}
	ends(l)
	if d := check(l, r, c, j); d != nil {
		if d.Severity == job.Error {
			return nil, []job.Diagnostic{*d}
		}
		return compared(l, c), []job.Diagnostic{*d}
	}
	return compared(l, c), nil
}

// trace finds the path as laid.
func trace(l *layout.Laid, r *layout.Room, c *layout.Cable, j *job.Job) *job.Diagnostic {
	a := l.Job
	switch {
	case a.AsPlanned:
		l.Path, l.Whole = l.Planned, true
		l.ColdLead, l.Return = or(a.ColdLead, a.Issued.ColdLead), or(a.Return, a.Issued.Return)
	case len(a.Corners) > 0:
		l.Path, l.Whole = slices.CompactFunc(slices.Clone(a.Corners),
			func(p, q plane.Point) bool { return p.Dist(q) < 1 }), true
	case len(a.Legs) > 0:
		l.Path, l.Whole = walkLegs(c, *a.Start, a.Legs), true
	case a.Runs > 0:
		planned := layout.Runs(l.Planned, c.BendRadius, c.Lattice)
		if a.Runs > len(planned) {
			return &job.Diagnostic{Span: a.Spans.At("runs"),
				Hint:    "runs are numbered on the cable plan, from the start of heat",
				Message: fmt.Sprintf("%d runs are said to be laid, but cable %s has %d", a.Runs, c.ID, len(planned))}
		}
		l.Path = l.Planned[:planned[a.Runs-1].Leg+1]
		return recount(j, l, c, planned[:a.Runs])
	}
	return nil
}

// recount moves what follows a miscounted run with it.
func recount(j *job.Job, l *layout.Laid, c *layout.Cable, laid []layout.Run) *job.Diagnostic {
	if len(l.Job.Miscounts) > 0 {
		l.Path = slices.Clone(l.Path)
	}
	for _, m := range l.Job.Miscounts {
		if m.Run > len(laid) {
			words := fmt.Sprintf("run %d is said to have %d pegs, but %s of cable %s %s laid", m.Run, m.Pegs,
				say.Counted(len(laid), "run"), c.ID, say.Are(len(laid)))
			if j.Strips != nil {
				words = fmt.Sprintf("run %d is said to be %d %s long, but %s of cable %s %s laid", m.Run, m.Pegs,
					j.RunUnit(), say.Counted(len(laid), "run"), c.ID, say.Are(len(laid)))
			}
			return &job.Diagnostic{Span: l.Job.Spans.At("runs"),
				Hint: "only a run that is laid can have been miscounted", Message: words}
		}
		r := laid[m.Run-1]
		by := r.To.Sub(r.From).Unit().Mul(float64(m.Pegs-r.Pegs) * c.Lattice.Pegs(r.To.Sub(r.From)))
		for i := r.Leg; i < len(l.Path); i++ {
			l.Path[i] = l.Path[i].Add(by)
		}
	}
	return nil
}

func or(a, b []plane.Point) []plane.Point {
	if len(a) > 0 {
		return a
	}
	return b
}

// walkLegs follows legs counted in pegs. A compass word means the nearest of
// the lattice's own eight directions, for membranes that do not lie square to
// north.
func walkLegs(c *layout.Cable, at plane.Point, legs []job.Leg) []plane.Point {
	out := []plane.Point{at}
	const eighth = math.Pi / 4
	for _, leg := range legs {
		world := (90 - leg.Bearing) * math.Pi / 180
		k := math.Round((world - c.Lattice.Angle) / eighth)
		step := c.Lattice.Pitch * float64(leg.Pegs)
		switch {
		case math.Mod(math.Abs(k), 2) == 1 && c.Lattice.Across > 0: // so many pegs both ways
			side := func(v float64) float64 { return math.Copysign(float64(leg.Pegs), v) }
			at = at.Add(c.Lattice.Offset(side(math.Cos(k*eighth)), side(math.Sin(k*eighth))))
			out = append(out, at)
			continue
		case math.Mod(math.Abs(k), 2) == 1:
			step *= math.Sqrt2
		case math.Mod(math.Abs(k), 4) == 2 && c.Lattice.Across > 0:
			step = c.Lattice.Across * float64(leg.Pegs)
		}
		at = at.Add(plane.Pt(step, 0).Rotate(c.Lattice.Angle + float64(k*eighth)))
		out = append(out, at)
	}
	return plane.Corners(out)
}

// ends fills in the joint and the end cap where they are the path's ends.
func ends(l *layout.Laid) {
	if l.Joint == nil && len(l.Path) > 0 {
		l.Joint = &l.Path[0]
	}
	if l.EndCap == nil && l.Whole {
		l.EndCap = &l.Path[len(l.Path)-1]
	}
}

// lengthShare is the share by which a taped path may differ from the length on
// the label before a run is likely to be missing.
const lengthShare = 0.04

// besideFloor mm beside the floor a peg may be said to lie: tape and plan differ.
const besideFloor = plane.Inch + 5

// check looks at what a cable cannot do: cross itself, leave its room, or be of
// another length than its label says.
func check(l *layout.Laid, r *layout.Room, c *layout.Cable, j *job.Job) *job.Diagnostic {
	key := given(l.Job)
	at := l.Job.Spans.At(key)
	for i, p := range l.Path {
		if !r.Floor.Contains(p) && r.Floor.Distance(p) > besideFloor {
			return &job.Diagnostic{Span: at, Hint: "look at that leg and those before it",
				Message: fmt.Sprintf("%s: leg %d of cable %s would leave room %q, to (%s, %s)", key, i, c.ID,
					r.Job.Name,
					plane.FormatLength(p.X, j.Units), plane.FormatLength(p.Y, j.Units))}
		}
	}
	if len(l.Path) == 1 {
		return &job.Diagnostic{Span: at, Hint: "give the corners one after the other",
			Message: fmt.Sprintf("%s: all corners of cable %s are at one place", key, c.ID)}
	}
	if i, k, ok := selfCrossing(l.Path); ok {
		return &job.Diagnostic{Span: at, Hint: "a cable never crosses or touches itself: one of the two was misread",
			Message: fmt.Sprintf("%s: cable %s would cross itself, leg %d over leg %d", key, c.ID, i, k)}
	}
	if !l.Whole {
		return nil
	}
	n := route.Length(l.Path, c.BendRadius)
	if j.Info.Status != job.AsLaid && n < (1-lengthShare)*c.Label.Length && l.Job.EndCap == nil {
		l.Whole, l.EndCap = false, nil // the part that is laid so far
		return nil
	}
	if off := rate(l, c)*n - c.Label.Length; math.Abs(off) > lengthShare*c.Label.Length {
		return &job.Diagnostic{Severity: job.Warning, ID: "W110", Span: at,
			Hint: "look for a run left out or counted twice",
			Message: fmt.Sprintf("cable %s as laid measures %s, but its label says %s", c.ID, say.About(n, j.Units),
				say.About(c.Label.Length, j.Units))}
	}
	return nil
}

// rate is the cable used per length of way by the mark farthest along the record, 1
// without one: a cable that drifted is as long as its label says, over another way.
func rate(l *layout.Laid, c *layout.Cable) float64 {
	rs, cum := layout.Runs(l.Path, c.BendRadius, c.Lattice), route.Stations(l.Path, c.BendRadius)
	rate, far := 1.0, 0.0
	for _, m := range l.Job.Marks {
		if m.Run > len(rs) {
			continue // reported
		}
		run := rs[m.Run-1]
		if at := min(cum[run.Leg-1]+m.Pegs*c.Lattice.Pegs(run.To.Sub(run.From)), cum[run.Leg]); at > far {
			rate, far = layout.MarkRead(m, c)/at, at
		}
	}
	if math.Abs(rate-1) > refit.RateOff {
		return 1
	}
	return rate
}

// given names the key that says where the cable lies.
func given(a *job.Laid) string {
	switch {
	case a.AsPlanned:
		return "as_planned"
	case len(a.Corners) > 0:
		return "corners"
	case len(a.Legs) > 0:
		return "legs"
	case a.Runs == 0 && len(a.PhotoRuns()) > 0:
		return "photo"
	}
	return "runs"
}

// straightBack is the cosine below which a path turns back on itself.
const straightBack = -0.9999

// selfCrossing returns two legs of a path that cross, touch or lie on each
// other, counted from 1.
func selfCrossing(path []plane.Point) (i, k int, ok bool) {
	leg := func(i int) plane.Segment { return plane.Segment{A: path[i-1], B: path[i]} }
	for i := 1; i < len(path); i++ {
		if i+1 < len(path) {
			if u, v := path[i].Sub(path[i-1]).Unit(), path[i+1].Sub(path[i]).Unit(); u.Dot(v) < straightBack {
				return i, i + 1, true // straight back over itself
			}
		}
		for k := i + 2; k < len(path); k++ {
			if leg(i).Meets(leg(k)) {
				return i, k, true
			}
		}
	}
	return 0, 0, false
}

// becomes puts the cable where it lies, for sheets that show it as laid.
func becomes(c *layout.Cable, l *layout.Laid, j *job.Job) {
	if !l.Whole {
		return
	}
	c.Path = l.Path
	if l.ColdLead != nil {
		c.ColdLead = l.ColdLead
	}
	if l.Return != nil {
		c.Return = l.Return
	}
	c.Routed = route.Length(c.Path, c.BendRadius)
	c.Runs = layout.Runs(c.Path, c.BendRadius, c.Lattice)
	c.Marks = layout.Marks(c.Path, c.BendRadius, c.Runs)
	refit.Judge(c, j)
}

// laidSensors joins what is known of the sensors.
func laidSensors(r *layout.Room, a *job.Laid, s job.Status) {
	for _, l := range []struct {
		name   string
		as, is job.LaidSensor
	}{{"S1", a.Sensor, issuedSensor(a, false)}, {"S2", a.Spare, issuedSensor(a, true)}} {
		as := l.as
		if as.Tip == nil {
			as = l.is
		}
		if as.Tip == nil || a.Evidence == job.PlanOnly {
			continue
		}
		laidSensor(r, l.name, as, s)
	}
}

// issuedSensor is a sensor of the plan the cable was held against.
func issuedSensor(a *job.Laid, spare bool) job.LaidSensor {
	switch {
	case !a.AsPlanned:
		return job.LaidSensor{}
	case spare:
		return a.Issued.Spare
	}
	return a.Issued.Sensor
}

// laidSensor puts a sensor's place beside the plan's, or in its stead once the
// status is as laid. A sensor that the plan had no place for is added. A lead
// that was not recorded stays as planned: no other way is made up for it.
func laidSensor(r *layout.Room, name string, as job.LaidSensor, s job.Status) {
	k := -1
	for i := range r.Sensors {
		if r.Sensors[i].Name == name {
			k = i
		}
	}
	if k < 0 {
		k = len(r.Sensors)
		r.Sensors = append(r.Sensors, layout.Sensor{Name: name, Spare: name == "S2", Tip: *as.Tip, Why: "as laid"})
	}
	sensor := &r.Sensors[k]
	sensor.Found, sensor.FoundLead = as.Tip, len(as.Lead) > 1
	if s != job.AsLaid {
		return
	}
	sensor.Tip = *as.Tip
	if sensor.FoundLead {
		sensor.Lead = slices.Clone(as.Lead)
		sensor.Lead[len(sensor.Lead)-1] = *as.Tip
	}
}

// unrecorded refuses the status as laid for cables without a record of the
// floor: a plan never passes for what was laid.
func unrecorded(p *layout.Plan, said map[*layout.Cable]bool) []job.Diagnostic {
	if p.Job.Info.Status != job.AsLaid {
		return nil
	}
	var out []job.Diagnostic
	for i := range p.Rooms {
		for k := range p.Rooms[i].Cables {
			if c := &p.Rooms[i].Cables[k]; !c.Laid.Recorded() && !said[c] {
				out = append(out, job.Diagnostic{Span: p.Job.Spans.At("job.status"),
					Hint: "add [[as_laid]] for it with its evidence, or take status = \"for installation\"",
					Message: fmt.Sprintf("the status is \"as laid\", but nothing says how cable %s of room %q was "+
						"found to lie", c.ID, p.Rooms[i].Job.Name)})
			}
		}
	}
	return out
}
