package setting

import (
	"math"

	"oxturn/drawing"
	"oxturn/layout/job"
)

// A Half is which share of a frame's height a drawing has, from the top, where two share a
// sheet: the upper of them has neither title block nor proof. The zero value is all of it.
type Half struct{ from, to float64 }

// above reports whether another drawing stands below.
func (h Half) above() bool { return h.to > 0 && h.to < 1 }

func (h Half) of(f drawing.Box) drawing.Box {
	if h.to == 0 {
		return f
	}
	f.Y0, f.Y1 = f.Y0+h.from*f.H(), f.Y0+h.to*f.H()
	return f
}

// halfWorth is how many times smaller two drawings may be that share a sheet than if either
// had all of it, without anything beside it.
const halfWorth = 3

// Halved returns how two drawings share one small sheet, at the largest scale that leaves both
// their room. ok is false where the job wants other paper, or where one of them would be much
// smaller than on a sheet of its own.
func Halved(upper, lower Need, j *job.Job) (a, b Half, s drawing.Scale, ok bool) {
	scales, err := scalesFor(j)
	papers, wrong := PapersFor(j.Sheet, j.Figures().Units)
	if err != nil || wrong != nil || !IsSmall(papers[0]) {
		return a, b, s, false
	}
	paper, alone := papers[0], math.Inf(1)
	for _, s = range scales {
		if s.Ratio > halfWorth*alone+sumSlack {
			break
		}
		if math.IsInf(alone, 1) && upper.hasRoom(paper, s) && lower.hasRoom(paper, s) {
			alone = s.Ratio
		}
		if a, b, ok = halving(upper.onPaper(paper, s), lower.onPaper(paper, s), paper, s); ok {
			return a, b, s, true
		}
	}
	return a, b, s, false
}

// halving shares out a paper's height at a scale: what is over goes to both alike.
func halving(upper, lower Need, p drawing.Paper, s drawing.Scale) (a, b Half, ok bool) {
	f := p.Frame()
	_, high := upper.field(s)
	_, low := lower.field(s)
	high, low = high+2*fieldEdge, low+4*fieldEdge+lower.Proof.Height(lower.Ty, f.W()-2*fieldEdge)+
		lower.titleHeight(min(TitleMax, f.W()))
	if high+low > f.H() {
		return a, b, false
	}
	at := (high + (f.H()-high-low)/2) / f.H()
	upper.Half, lower.Half = Half{0, at}, Half{at, 1}
	return upper.Half, lower.Half, upper.hasRoom(p, s) && lower.hasRoom(p, s)
}

// Above puts the drawing of another page above a page's own: both are one sheet. What the
// other has no room for stays with it.
func (pg *Page) Above(upper *Page) {
	pg.Sheet.Items = append(upper.Sheet.Items, pg.Sheet.Items...)
	pg.calls, pg.Details = append(upper.calls, pg.calls...), append(upper.Details, pg.Details...)
	pg.Upper = upper
}
