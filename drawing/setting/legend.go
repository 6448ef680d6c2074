package setting

import (
	"slices"

	"oxturn/drawing"
	"oxturn/drawing/signs"
	"oxturn/fonts"
	"oxturn/layout/language"
)

// A swatch is the box a sign is shown in, mm.
const (
	SwatchW = 13.0
	SwatchH = 4.0
)

// A Legend explains the signs a sheet uses, and no others.
type Legend struct {
	Head  string
	Signs []signs.Sign
	Span  bool // as wide as a sheet without a drawing, in columns of its own
	Fine  bool // its words set in fine print
	mute  bool // the heading is not set, as in a list
}

// Spans reports that a legend is as wide as its sheet.
func (l Legend) Spans() bool { return l.Span }

// signsWide is the least width of a column of signs with their words, mm.
const signsWide = 54.0

func (l Legend) extent() int { return len(l.Signs) }

func (l Legend) size() typeSize { return sizeOf(l.Fine) }

// columns parts the signs of a legend that is so wide, and returns how wide each column is.
func (l Legend) columns(w float64) (out [][]signs.Sign, each float64) {
	n, each := ColumnsIn(w, signsWide, colGap, len(l.Signs))
	for of := range slices.Chunk(l.Signs, max(1, (len(l.Signs)+n-1)/n)) {
		out = append(out, of)
	}
	return out, each
}

// shown is the heading as it is set.
func (l Legend) shown() string { return List{Head: l.Head, mute: l.mute}.Shown() }

// LegendOf puts signs in the legend's order.
func LegendOf(used []signs.Sign, reader language.Language) Legend {
	l := Legend{Head: reader.Text("Legend")}
	for s := signs.Cable; s < signs.Count; s++ {
		if slices.Contains(used, s) {
			l.Signs = append(l.Signs, s)
		}
	}
	return l
}

func (l Legend) entry(ty *Typesetter, s signs.Sign, w float64) (h float64) {
	return max(SwatchH+0.3, float64(ty.Lines(fonts.Lettering, ty.Said(s.Words()), l.size().height,
		w-SwatchW-sampleGap))*l.size().leading+0.9)
}

// Height is what the legend takes at a width of w, both mm of paper.
func (l Legend) Height(ty *Typesetter, w float64) float64 {
	columns, each := l.columns(w)
	high := 0.0
	for _, of := range columns {
		h := 0.0
		for _, s := range of {
			h += l.entry(ty, s, each)
		}
		high = max(high, h)
	}
	return ty.HeadingHeight(l.shown(), w) + high
}

// Split parts the legend so that what fits stays within h mm of paper at a width of w.
func (l Legend) Split(ty *Typesetter, w, h float64) (fits, rest Block) {
	if columns, _ := l.columns(w); len(columns) > 1 {
		return nil, l
	}
	used, n := ty.HeadingHeight(l.shown(), w), 0
	for n < len(l.Signs) {
		e := l.entry(ty, l.Signs[n], w)
		if used+e > h {
			break
		}
		used += e
		n++
	}
	switch {
	case n == len(l.Signs):
		return l, nil
	case n < 4:
		return nil, l
	case n == len(l.Signs)-1 && n > 4: // one sign alone would look forgotten
		n--
	}
	return Legend{Head: l.Head, Signs: l.Signs[:n], Fine: l.Fine, mute: l.mute},
		Legend{Head: Continued(l.Head), Signs: l.Signs[n:], Fine: l.Fine}
}

// Set draws the legend from at, the upper left corner, w mm wide.
func (l Legend) Set(pg *Page, at drawing.Pt, w float64) {
	at.Y += SetHeading(pg, at, l.shown(), w)
	columns, each := l.columns(w)
	for i, of := range columns {
		setSigns(pg, at.Add(drawing.Pt{X: float64(i) * (each + colGap)}), l, of, each)
	}
}

// setSigns sets a column of signs with their words.
func setSigns(pg *Page, at drawing.Pt, l Legend, of []signs.Sign, w float64) {
	y := at.Y
	words := l.size()
	for _, s := range of {
		pg.Add(s.Sample(drawing.Box{X0: at.X, Y0: y, X1: at.X + SwatchW, Y1: y + SwatchH})...)
		for i, t := range pg.Ty.WrapIn(fonts.Lettering, pg.Ty.Said(s.Words()), words.height, w-SwatchW-sampleGap) {
			pg.Write(drawing.Pt{X: at.X + SwatchW + sampleGap, Y: y + (SwatchH+words.height)/2 + 0.3 +
				float64(i)*words.leading}, t, words.height, drawing.Start)
		}
		y += l.entry(pg.Ty, s, w)
	}
}
