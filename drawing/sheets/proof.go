package sheets

import (
	"oxturn/drawing"
	"oxturn/fonts"
	"oxturn/layout/plane"
	"oxturn/symbols"
)

// govern is printed on every sheet, beside the check line.
const govern = "Figured dimensions govern. Print at 100" + noBreak + "%: this line is 100" + noBreak + "mm" + noBreak + "/" + noBreak + "4" + noBreak + "in"

// A proof lets a reader find out whether a print is true to scale: a check
// line and a bar in the units of the floor.
type proof struct {
	ratio float64 // 0: no bar, the sheet has no scale
	units plane.Units
}

const (
	checkLength = 4 * plane.Inch
	checkRoom   = checkLength + 10
	barRoom     = 100 + 14.0 // the bar is 100 mm long at most
	proofRow    = 9.5
)

// textLeast is the least width beside the bars into which the sentence is set.
const textLeast = 44

// A proofPlan says where the parts of a proof stand in a given width.
type proofPlan struct {
	barBelow, textBelow bool
	textX, textW        float64
	height              float64
}

func (p proof) plan(ty *typesetter, w float64) proofPlan {
	var q proofPlan
	used := checkRoom
	if p.ratio > 0 {
		if q.barBelow = used+barRoom > w; !q.barBelow {
			used += barRoom
		}
	}
	q.height = proofRow
	if q.barBelow {
		q.height += proofRow - 2
	}
	q.textX, q.textW = used, w-used
	if q.textBelow = q.textW < textLeast; q.textBelow {
		q.textX, q.textW = 0, w
		q.height += p.lines(ty, q) * leading
	}
	q.height = max(q.height, p.lines(ty, q)*leading)
	return q
}

func (p proof) lines(ty *typesetter, q proofPlan) float64 {
	return float64(ty.lines(fonts.Lettering, govern, note, q.textW))
}

// height returns what the proof takes of a strip w wide.
func (p proof) height(ty *typesetter, w float64) float64 { return p.plan(ty, w).height }

// set draws the proof with its upper left corner at at.
func (p proof) set(pg *page, at drawing.Pt, w float64) {
	q := p.plan(pg.ty, w)
	pg.add(symbols.CheckLine(at.Add(drawing.Pt{Y: 4.5}))...)
	bar := drawing.Pt{X: checkRoom, Y: 4.2}
	if q.barBelow {
		bar = drawing.Pt{X: 2, Y: 4.2 + proofRow - 0.5}
	}
	if p.ratio > 0 {
		pg.add(symbols.ScaleBar(at.Add(bar), p.ratio, p.units)...)
	}
	text := drawing.Pt{X: at.X + q.textX, Y: at.Y}
	if q.textBelow {
		text.Y += proofRow
		if q.barBelow {
			text.Y += proofRow - 2
		}
	}
	for i, l := range pg.ty.wrap(govern, q.textW) {
		pg.write(text.Add(drawing.Pt{Y: 3.2 + float64(i)*leading}), l, note, drawing.Start)
	}
}
