package setting

import (
	"math"

	"oxturn/drawing"
	"oxturn/layout/job"
)

// A Part is which share of a frame's height a drawing has, from the top, where two share a
// sheet: the upper of them has neither title block nor proof. The zero value is all of it.
type Part struct{ from, to float64 }

// above reports whether another drawing stands below.
func (p Part) above() bool { return p.to > 0 && p.to < 1 }

func (p Part) of(f drawing.Box) drawing.Box {
	if p.to == 0 {
		return f
	}
	f.Y0, f.Y1 = f.Y0+p.from*f.H(), f.Y0+p.to*f.H()
	return f
}

// partWorth is how many times smaller two drawings may be that share a sheet than if either
// had all of it, without anything beside it.
const partWorth = 3

// Parted returns how two drawings share one small sheet, at the largest scale that leaves both
// their room. ok is false where the job wants other paper, or where one of them would be much
// smaller than on a sheet of its own.
func Parted(upper, lower Need, j *job.Job) (a, b Part, s drawing.Scale, ok bool) {
	scales, err := scalesFor(j)
	papers, wrong := PapersFor(j.Sheet, j.Figures().Units)
	if err != nil || wrong != nil || !IsSmall(papers[0]) {
		return a, b, s, false
	}
	paper, alone := papers[0], math.Inf(1)
	for _, s = range scales {
		if s.Ratio > partWorth*alone+sumSlack {
			break
		}
		if math.IsInf(alone, 1) && upper.hasRoom(paper, s) && lower.hasRoom(paper, s) {
			alone = s.Ratio
		}
		if a, b, ok = parting(upper.onPaper(paper, s), lower.onPaper(paper, s), paper, s); ok {
			return a, b, s, true
		}
	}
	return a, b, s, false
}

// parting shares out a paper's height at a scale: what is over goes to both alike.
func parting(upper, lower Need, p drawing.Paper, s drawing.Scale) (a, b Part, ok bool) {
	f := p.Frame()
	_, high := upper.field(s)
	_, low := lower.field(s)
	high, low = high+2*fieldEdge, low+4*fieldEdge+lower.Proof.Height(lower.Ty, f.W()-2*fieldEdge)+
		lower.titleHeight(min(TitleMax, f.W()))
	if high+low > f.H() {
		return a, b, false
	}
	at := (high + (f.H()-high-low)/2) / f.H()
	upper.Part, lower.Part = Part{0, at}, Part{at, 1}
	return upper.Part, lower.Part, upper.hasRoom(p, s) && lower.hasRoom(p, s)
}

// Above puts the drawing of another page above a page's own: both are one sheet. What the
// other has no room for stays with it.
func (pg *Page) Above(upper *Page) {
	pg.Sheet.Items = append(upper.Sheet.Items, pg.Sheet.Items...)
	pg.calls, pg.Details = append(upper.calls, pg.calls...), append(upper.Details, pg.Details...)
	pg.Upper = upper
}
