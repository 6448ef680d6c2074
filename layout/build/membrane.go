package build

import (
	"fmt"
	"slices"

	"github.com/sourcegraph/conc"

	"oxturn/layout"
	"oxturn/layout/job"
	"oxturn/layout/language"
	"oxturn/layout/membrane"
	"oxturn/layout/plane"
	"oxturn/layout/say"
	"oxturn/layout/takeoff"
)

// doorDepth is how far in front of a doorway a seam is unwelcome, mm: where
// the foot falls.
const doorDepth = 300

// cutMembrane plans the cutting of the whole job's membrane. Where that cannot
// be done the plan goes without, and a warning says why.
func cutMembrane(p *layout.Plan) []job.Diagnostic { return new(cutting).done(p) }

// A cutting is the planning of a job's membrane, which may begin before its plan is complete.
type cutting struct {
	begun bool
	wait  conc.WaitGroup
	plan  *membrane.Plan
	err   error
}

// start begins with the cutting for rooms whose cables lie.
func (c *cutting) start(j *job.Job, rooms []layout.Room) {
	c.begun = true
	in := membraneInput(j, rooms)
	if len(in.Rooms) > 0 && j.Strips == nil {
		c.wait.Go(func() { c.plan, c.err = membrane.Cut(in) })
	}
}

// done adds what was cut to the plan.
func (c *cutting) done(p *layout.Plan) []job.Diagnostic {
	if !c.begun {
		c.start(p.Job, p.Rooms)
	}
	c.wait.Wait()
	if c.err != nil {
		return []job.Diagnostic{{
			Severity: job.Warning, ID: "W120", Span: p.Job.Spans.At("membrane.roll_width"),
			Message: fmt.Sprintf("the membrane cannot be planned: %v", c.err),
			Hint:    "look at roll_width, roll_length or sheet, and at pitch, in [membrane]",
		}}
	}
	p.Membrane = c.plan
	return nil
}

// membraneInput states the job as the cut plan wants it.
func membraneInput(j *job.Job, rooms []layout.Room) membrane.Input {
	m := j.Membrane
	in := membrane.Input{Pitch: m.Pitch, Across: m.Across,
		Stock: membrane.Stock{Width: m.RollWidth, Length: m.RollLength}}
	if m.SheetSize[0] > 0 {
		in.Stock = membrane.Stock{Width: m.SheetSize[0], Length: m.SheetSize[1], Sheets: true}
	}
	for i := range rooms {
		if r := &rooms[i]; len(r.Cables) > 0 {
			in.Rooms = append(in.Rooms, membraneRoom(r))
		}
	}
	return in
}

// insideStep mm inside a wall is looked for whether a doorway has floor there.
const insideStep = 5.0

// membraneRoom states a room as the cut plan wants it.
func membraneRoom(r *layout.Room) membrane.Room {
	l := r.Cables[0].Lattice
	out := membrane.Room{Name: r.Job.Name, Tiled: r.Tiled, Origin: l.Origin, Angle: l.Angle}
	for _, m := range r.Job.Joints {
		out.Joints = append(out.Joints, membrane.Joint{Segment: m.Segment, Width: m.Width})
	}
	for _, o := range r.Job.Openings {
		if o.Kind == "window" || o.Wall < 0 || o.Wall >= len(r.Job.Walls) {
			continue
		}
		w := r.Job.Walls[o.Wall].Segment
		a, b := w.At(o.From), w.At(o.To)
		in := b.Sub(a).Unit().Left().Mul(doorDepth)
		if !r.Floor.Contains(a.Lerp(b, 0.5).Add(in.Unit().Mul(insideStep))) {
			in = in.Mul(-1)
		}
		out.Doorways = append(out.Doorways, plane.Ring{a, b, b.Add(in), a.Add(in)}.CCW())
	}
	return out
}

// cutPlan states the cut plan as the take-off wants it.
func cutPlan(p *layout.Plan, m *membrane.Plan) *takeoff.CutPlan {
	if m == nil {
		return nil
	}
	var rooms []language.Message
	for _, r := range m.Rooms {
		rooms = append(rooms, language.Say("%s: %s %s", r.Name, say.CountedMessage(len(r.Pieces), "piece"),
			stripsAlong(p, r.Name, r.Along)))
	}
	note := language.Say("by the cut plan; %s; %s", language.Joined(", ", rooms...), fewest(m))
	return &takeoff.CutPlan{Packs: len(m.Packs), Taken: m.Taken, Seams: m.Seams(), Note: note}
}

// fewest says how many rolls or sheets a cut plan takes against the fewest
// that any plan could.
func fewest(m *membrane.Plan) language.Message {
	what := "roll"
	if m.Stock.Sheets {
		what = "sheet"
	}
	if m.Fewest() {
		return language.Say("%s, the fewest possible", say.CountedMessage(len(m.Packs), what))
	}
	return language.Say("%s, at least %d needed", say.CountedMessage(len(m.Packs), what), m.Bound)
}

// stripsAlong says which way the strips of a room run: along the wall that is
// nearest to parallel.
func stripsAlong(p *layout.Plan, room string, angle float64) language.Message {
	for i := range p.Rooms {
		if p.Rooms[i].Job.Name != room {
			continue
		}
		letter, off := layout.Along(p.Rooms[i].Job, plane.Pt(1, 0).Rotate(angle))
		if off > 1 {
			return language.Say("at %s to wall %s", say.Angle(off), letter)
		}
		return language.Say("along wall %s", letter)
	}
	return language.Message{}
}

// onTile returns the length of a segment that lies on the tiled floor, in mm.
func onTile(r *layout.Room, s plane.Segment) float64 {
	cuts := []float64{0}
	for _, ring := range r.Tiled.Rings() {
		for i := range ring {
			if e := ring.Edge(i); s.Meets(e) {
				if p, ok := s.Intersection(e); ok {
					cuts = append(cuts, p.Dist(s.A))
				}
			}
		}
	}
	cuts = append(cuts, s.Length())
	slices.Sort(cuts)
	n := 0.0
	for i := 1; i < len(cuts); i++ {
		if r.Tiled.Contains(s.At((cuts[i-1] + cuts[i]) / 2)) {
			n += cuts[i] - cuts[i-1]
		}
	}
	return n
}
