package refit

import (
	"fmt"
	"math"
	"strings"

	"oxturn/layout"
	"oxturn/layout/plane"
	"oxturn/layout/route"
	"oxturn/layout/say"
)

// Lines says in lines for people how far off the laid part is and what to lay
// from there on, or what can be done where nothing fits.
func (f *Refit) Lines(u plane.Units) []string {
	var out []string
	for i, s := range f.facts(u) {
		if i == 0 {
			out = append(out, s.words)
			continue
		}
		out = append(out, fmt.Sprintf("%-8s %s%s", s.about, s.words, s.typed))
	}
	if f.New == nil {
		return append(out, f.stuckLines(u)...)
	}
	return append(out, f.newLines(u)...)
}

// Summary says the same for a sheet that shows the runs besides.
func (f *Refit) Summary(u plane.Units) []string {
	var out []string
	for _, s := range append(f.facts(u), f.changeFacts(u)...) {
		out = append(out, s.words)
	}
	return out
}

// A refitFact is one thing said, with a word that says what it is about, and what
// can be typed about it, which is for no drawing.
type refitFact struct{ about, words, typed string }

// facts say where laying stands.
func (f *Refit) facts(u plane.Units) []refitFact {
	c := f.Planned
	are := "are"
	if f.WayOut.Lift > 0 {
		are = "stay"
	}
	out := []refitFact{{words: fmt.Sprintf("%s, cable %s: %s %s laid, %s of %s used, %s left", f.Room.Job.Name, c.ID,
		f.laidWords(), are, say.About(f.Used, u), say.About(c.Label.Length, u), say.About(f.Left, u))}}
	out = append(out, f.restsFact())
	if miscounts := f.miscounts(); miscounts != "" {
		out = append(out, refitFact{about: "laid", words: miscounts})
	}
	if f.WayOut.Lift > 0 {
		out = append(out, refitFact{about: "lift", words: fmt.Sprintf("first take up the %s, %s of cable",
			lastRuns(f.WayOut.Lift), say.About(f.Lifted, u))})
	}
	if f.WayOut.GiveUp > 0 {
		out = append(out, refitFact{about: "give up",
			words: fmt.Sprintf("low-value area %d gets no new cable: %s of floor", f.WayOut.GiveUp,
				say.AreaBoth(f.Spared, u))})
	}
	if d := f.pegsOff(); d.Norm() >= layout.SamePeg {
		out = append(out, refitFact{about: "pegs", words: "the pegs lie " + offWords(d,
			func(mm float64) string { return small(mm, u) }) + " of where the plan has them, and every run with them"})
	}
	if f.Laid != nil {
		if run, by := f.intrusion(); run > 0 {
			out = append(out, refitFact{about: "clear",
				words: fmt.Sprintf("run %d lies %s inside a clearance, the worst of the laid runs: it stays as it "+
					"lies unless it is lifted; look whether what it lies near allows that", run, small(by, u))})
		}
	}
	if math.Abs(f.Early) >= 1 {
		out = append(out, refitFact{about: "off",
			words: fmt.Sprintf("the mark came %s of cable %s than drawn: %s %s is used than the way covered",
				small(math.Abs(f.Early), u), earlier(f.Early), driftShare(f.Drift), more(f.Drift))})
	} else {
		read := "the mark came where it was drawn"
		if len(c.Laid.Job.Marks) == 0 {
			read = "no mark was read off the cable"
		}
		out = append(out, refitFact{about: "off", words: read + ": the rest is planned as drawn, with what is left"})
	}
	out = append(out, f.endFacts(u)...)
	if f.hotter() {
		out = append(out, refitFact{about: "power",
			words: fmt.Sprintf("every run gives %s more heat for its length than drawn, so that the job's limit "+
				"asks for %d pegs over the two gaps beside it, %d as drawn: of the plan only runs that have them are "+
				"kept, and what is laid closer is for the electrician to judge", say.PercentFine(f.Rate-1),
				f.twoGaps(f.Rate),
				f.twoGaps(1))})
	}
	return append(out, f.floorFacts()...)
}

// miscounts say which laid runs have other pegs than the plan's.
func (f *Refit) miscounts() string {
	var out []string
	for _, m := range f.Planned.Laid.Job.Miscounts {
		words := fmt.Sprintf("run %s has %d %s, not %d", f.Planned.RunName(m.Run), m.Pegs, f.Job.RunUnit(),
			f.Old[m.Run-1].Pegs)
		if m.Pegs == f.Old[m.Run-1].Pegs {
			words = fmt.Sprintf("run %s has %d %s, as drawn", f.Planned.RunName(m.Run), m.Pegs, f.Job.RunUnit())
		}
		out = append(out, words)
	}
	return strings.Join(out, "; ")
}

func (f *Refit) wholePegs(n float64) string {
	if f.Job.Strips != nil {
		return fmt.Sprintf("%.0f %s", n, f.Job.RunUnit())
	}
	return say.Counted(int(math.Round(n)), "peg")
}

// laidWords say how many runs are laid, and how far the last where it is laid in part.
func (f *Refit) laidWords() string {
	if f.into > 0 && f.WayOut.Lift == 0 {
		return fmt.Sprintf("%d of %d runs and %s of run %s", f.Runs-1, len(f.Old), f.wholePegs(f.into),
			f.Planned.RunName(f.Runs))
	}
	if f.plan != nil && f.Runs > 0 && f.Runs <= len(f.Old) {
		run, end := layout.Runs(f.plan, f.Planned.BendRadius, f.Planned.Lattice)[f.Runs-1], f.Laid[len(f.Laid)-1]
		switch {
		case run.From.Dist(end) <= layout.SamePeg:
			return fmt.Sprintf("%d of %d runs", f.Runs-1, len(f.Old))
		case run.To.Dist(end) > layout.SamePeg:
			return fmt.Sprintf("%d of %d runs and %s of run %s", f.Runs-1, len(f.Old),
				f.wholePegs(run.From.Dist(end)/f.Planned.Lattice.Pegs(run.To.Sub(run.From))), f.Planned.RunName(f.Runs))
		}
	}
	return fmt.Sprintf("%d of %d runs", f.Runs, len(f.Old))
}

// restsFact says which plan was laid from, and asks for it where nobody said.
func (f *Refit) restsFact() refitFact {
	out := refitFact{about: "plan", words: "laid by plan " + f.Code}
	switch code := f.Planned.Laid.Job.PlanCode; code {
	case f.Code:
	case "":
		out.words += " if that stands on the drawings on site; nothing says so"
		out.typed = ": give the plan code on them, or their layout file, as plan"
	default:
		out.words = "laid by plan " + code + ", read from its layout file; the job's own plan is " + f.Code + " now"
	}
	return out
}

// floorFacts say, where there are several cables, whose floor is used.
func (f *Refit) floorFacts() []refitFact {
	var others []string
	for _, c := range f.Room.Cables {
		if c.ID != f.Planned.ID {
			others = append(others, c.ID)
		}
	}
	if others == nil {
		return nil
	}
	names := strings.Join(others, ", ")
	out := []refitFact{{about: "floor", words: fmt.Sprintf(
		"only cable %s's own part of the room is used; %s stays as planned", f.Planned.ID, names)}}
	if f.Planned.Laid.Job.FirstPeg != nil {
		out = append(out, refitFact{words: names + " lies on the same pegs: give first_peg in its [[as_laid]] too, " +
			"and refit it by itself"})
	}
	return out
}

// leastColdShare of a floor going cold is worth a word.
const leastColdShare = 0.001

// changeFacts say what changes.
func (f *Refit) changeFacts(u plane.Units) []refitFact {
	n := f.Change
	if n.From == 0 {
		return []refitFact{{about: "change", words: "lay on as planned" + f.fartherWords(u)}}
	}
	kept := ""
	switch {
	case n.From == f.Runs+2:
		kept = fmt.Sprintf("run %s as planned, ", f.Planned.RunName(f.Runs+1))
	case n.From > f.Runs+2:
		kept = fmt.Sprintf("runs %s to %s as planned, ", f.Planned.RunName(f.Runs+1), f.Planned.RunName(n.From-1))
	}
	what := fmt.Sprintf("from run %s on anew", f.Planned.RunName(n.From))
	switch {
	case n.Runs == 1 && n.From == len(f.Old):
		what = fmt.Sprintf("run %s, the last, ends elsewhere", f.Planned.RunName(n.From))
	case n.From > len(f.New.Runs):
		what = fmt.Sprintf("then the cable ends; run %s and those after it fall away", f.Planned.RunName(n.From))
	}
	stay := ""
	if f.Runs > 0 {
		stay = "; the laid runs stay as they are"
	}
	out := []refitFact{{about: "change", words: kept + what + stay}}
	if share := f.coldShare(); share >= leastColdShare {
		out = append(out, refitFact{about: "cold",
			words: fmt.Sprintf("%s of its floor, %s, comes out of warmth's reach by that", say.PercentFine(share),
				say.AreaBoth(n.Cold, u))})
	}
	if n.Doorway {
		out = append(out, refitFact{about: "end",
			words: "the end cap comes into a doorway, a door's swing or beside a flange"})
	}
	return out
}

// fartherWords say where the end cap comes where nothing else changes.
func (f *Refit) fartherWords(u plane.Units) string {
	switch {
	case f.Farther >= 1:
		return fmt.Sprintf("; the end cap comes %s farther", small(f.Farther, u))
	case f.Farther <= -1:
		return fmt.Sprintf("; the end cap comes %s sooner", small(-f.Farther, u))
	}
	return ""
}

// coldShare is the share of the cable's floor that comes out of its reach.
func (f *Refit) coldShare() float64 { return f.Change.Cold / f.Planned.Share.Area() }

// newLines says what changes, and lists the runs still to be laid.
func (f *Refit) newLines(u plane.Units) []string {
	var out []string
	for _, s := range f.changeFacts(u) {
		out = append(out, fmt.Sprintf("%-8s %s", s.about, s.words))
	}
	for _, r := range f.New.Runs {
		if r.Number > f.Runs || f.InPart(r) || f.Change.From > 0 && r.Number >= f.Change.From {
			out = append(out, f.runLine(r, u))
		}
	}
	if f.Change.From == 0 {
		return out
	}
	end, was, tape := f.New.Path[len(f.New.Path)-1], f.oldEnd(), layout.NewTape(f.Room.Job, u)
	return append(out, fmt.Sprintf("%-8s %s; planned %s", f.Planned.EndName(), tape.Place(end), tape.Place(was)))
}

// readTwice reports whether a mark can be read as a drift and as one slip.
func (f *Refit) readTwice() bool { return f.Laid != nil && math.Abs(f.Early) >= 1 }

// misses are by how much the cable would end short of its planned end, mm: if it
// drifts on as before the mark, and if the mark came of one slip.
func (f *Refit) misses() (steady, once float64) {
	way := route.Length(f.plan, f.Planned.BendRadius)
	return float64((1+f.Drift)*way) - f.Planned.Label.Length, way + f.Early - f.Planned.Label.Length
}

// endFacts say where the cable would end if nothing changed, by both readings of a
// mark that came too soon or too late, and by which of them the rest is planned.
func (f *Refit) endFacts(u plane.Units) []refitFact {
	if !f.readTwice() {
		if f.plan == nil || f.Laid == nil {
			return nil
		}
		return []refitFact{{about: "end", words: "if nothing changed the cable would " + missWords(f.Miss, u)}}
	}
	var out []refitFact
	if f.plan != nil {
		steady, once := f.misses()
		out = append(out, refitFact{about: "end",
			words: fmt.Sprintf("if it goes on like this the cable would %s; if it was one slip, it would %s",
				missWords(steady, u), missWords(once, u))})
	}
	if f.New != nil && f.Change.From == 0 {
		return out // nothing hangs on how the mark is read
	}
	return append(out, f.readingFact())
}

// readingFact says which of two readings of a mark is planned for.
func (f *Refit) readingFact() refitFact {
	if f.WayOut.Once {
		return refitFact{about: "read",
			words: "planned as one slip, such as a run miscounted: every metre from the mark on as drawn"}
	}
	return refitFact{about: "read",
		words: "planned for a drift that goes on: every metre from the mark on as before it",
		typed: "; if one run was miscounted, plan with --once"}
}

// InPart reports whether a run of the new plan is laid in part.
func (f *Refit) InPart(r layout.Run) bool {
	return len(f.Laid) > 1 && r.Number == f.Runs && r.To.Dist(f.Laid[len(f.Laid)-1]) > layout.SamePeg
}

func missWords(miss float64, u plane.Units) string {
	switch {
	case miss >= 1:
		return fmt.Sprintf("end %s short of its planned end", small(miss, u))
	case miss <= -1:
		return fmt.Sprintf("have %s over at its planned end", small(-miss, u))
	}
	return "end where it was planned to"
}

// leastDrift is the least drift that a tenth of a per cent shows.
const leastDrift = 0.0005

// driftShare writes a drift without its sign.
func driftShare(drift float64) string {
	if share := math.Abs(drift); share >= leastDrift {
		return say.PercentFine(share)
	}
	return "under 0.1 %"
}

func earlier(early float64) string {
	if early > 0 {
		return "sooner"
	}
	return "later"
}

func more(drift float64) string {
	if drift > 0 {
		return "more cable"
	}
	return "less cable"
}

// runLine is one run as an installer reads it; a star marks those that are not
// as planned.
func (f *Refit) runLine(r layout.Run, u plane.Units) string {
	mark := ' '
	if f.Change.From > 0 && r.Number >= f.Change.From {
		mark = '*'
	}
	s := fmt.Sprintf("run %-4s%c %d %s towards %s", f.Planned.RunName(r.Number), mark, r.Pegs, f.Job.RunUnit(),
		layout.Towards(f.Room.Job, r.To, r.To.Sub(r.From)))
	if r.GapToNext > 0 {
		s += fmt.Sprintf(", then %d over", r.GapToNext)
	}
	return s + fmt.Sprintf("; %s on the cable at its end", say.About(r.RunningEnd, u))
}

// stuckLines says why nothing fits and what can be done. Laid cable is never
// moved and no rule is given up without being asked.
func (f *Refit) stuckLines(u plane.Units) []string {
	out, once := []string{"no fit   " + f.Reason}, ""
	if f.WayOut.Once {
		once = " --once"
	}
	for _, c := range f.Choices {
		switch {
		case c.Remains > 0:
			out = append(out, fmt.Sprintf("%s%s of cable would find no place; it is never cut, coiled or doubled: "+
				"take another length", f.noWayOut(), say.About(c.Remains, u)))
		case c.Lacks > 0:
			out = append(out, fmt.Sprintf("%s%s of cable are lacking to leave no floor cold", f.noWayOut(),
				say.About(c.Lacks, u)))
		case c.Lift > 0:
			out = append(out, fmt.Sprintf("choice   lift the %s (%s of cable) and lay on from there: --lift %d%s",
				lastRuns(c.Lift), say.About(c.Lifted, u), c.Lift, once))
		case c.GiveUp > 0:
			out = append(out, fmt.Sprintf("choice   give up low-value area %d (%s of floor without cable): "+
				"--give-up %d%s", c.GiveUp, say.AreaBoth(c.Floor, u), c.GiveUp, once))
		}
	}
	if len(f.Choices) == 0 {
		out = append(out, "choice   none was found: lift the cable and take another length, or change what the job "+
			"asks for")
	}
	return out
}

// noWayOut is what stands before the length that is over or lacking: else there are
// other choices.
func (f *Refit) noWayOut() string {
	switch {
	case len(f.Choices) > 1:
		return "else     "
	case f.Laid != nil:
		return "choice   none, not even with all laid runs lifted: "
	}
	return "choice   none: "
}

func lastRuns(n int) string {
	if n == 1 {
		return "last run"
	}
	return fmt.Sprintf("last %d runs", n)
}

// small writes a short length of cable: mm, or feet and inches.
func small(mm float64, u plane.Units) string {
	return say.Whole(mm, u)
}
