package setting

import (
	"oxturn/drawing"
	"oxturn/fonts"
	"oxturn/layout/plane"
	"oxturn/symbols"
)

// figuredGovern is printed on every sheet, beside the check line.
const figuredGovern = "Figured dimensions govern. Print at 100" + NoBreak + "%."

// A Proof lets a reader find out whether a print is true to scale: a check
// line and a bar in the units of the floor.
type Proof struct {
	ratio float64 // 0: no bar, the sheet has no scale
	small bool    // for small paper
	none  bool    // another drawing on the sheet has it
	Units plane.Units
}

const (
	checkLength = 4 * plane.Inch
	checkRoom   = checkLength + 10
	barLong     = 100.0
	barShort    = 44.0 // so that check line and bar stand abreast on small paper
	barText     = 14.0 // what the bar's last figure takes beyond it
	proofRow    = 9.5
)

// bar is the length of the scale bar at most, mm.
func (p Proof) bar() float64 {
	if p.small {
		return barShort
	}
	return barLong
}

// textLeast is the least width beside the bars into which the sentence is set.
const textLeast = 44

// A proofPlan says where the parts of a proof stand in a given width.
type proofPlan struct {
	barBelow, textBelow bool
	textX, textW        float64
	height              float64
}

func (p Proof) plan(ty *Typesetter, w float64) proofPlan {
	var q proofPlan
	used := checkRoom
	if p.ratio > 0 {
		bar := p.bar() + barText
		if q.barBelow = used+bar > w; !q.barBelow {
			used += bar
		}
	}
	q.height = proofRow
	if q.barBelow {
		q.height += proofRow - 2
	}
	q.textX, q.textW = used, w-used
	if q.textBelow = q.textW < textLeast; q.textBelow {
		q.textX, q.textW = 0, w
		q.height += p.lines(ty, q) * Leading
	}
	q.height = max(q.height, p.lines(ty, q)*Leading)
	return q
}

func (p Proof) lines(ty *Typesetter, q proofPlan) float64 {
	return float64(ty.Lines(fonts.Lettering, ty.Said(figuredGovern), Note, q.textW))
}

// Height returns what the proof takes of a strip w wide.
func (p Proof) Height(ty *Typesetter, w float64) float64 {
	if p.none {
		return 0
	}
	return p.plan(ty, w).height
}

// Set draws the proof with its upper left corner at at.
func (p Proof) Set(pg *Page, at drawing.Pt, w float64) {
	q := p.plan(pg.Ty, w)
	pg.Add(symbols.CheckLine(at.Add(drawing.Pt{Y: 4.5}))...)
	bar := drawing.Pt{X: checkRoom, Y: 4.2}
	if q.barBelow {
		bar = drawing.Pt{X: 2, Y: 4.2 + proofRow - 0.5}
	}
	if p.ratio > 0 {
		pg.Add(symbols.ScaleBar(at.Add(bar), p.ratio, p.Units, p.bar())...)
	}
	text := drawing.Pt{X: at.X + q.textX, Y: at.Y}
	if q.textBelow {
		text.Y += proofRow
		if q.barBelow {
			text.Y += proofRow - 2
		}
	}
	for i, l := range pg.Ty.Wrap(pg.Ty.Said(figuredGovern), q.textW) {
		pg.Write(text.Add(drawing.Pt{Y: 3.2 + float64(i)*Leading}), l, Note, drawing.Start)
	}
}
