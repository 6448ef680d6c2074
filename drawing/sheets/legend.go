package sheets

import (
	"oxturn/drawing"
	"oxturn/fonts"
)

// A swatch is the box a sign is shown in, mm.
const (
	swatchW = 13.0
	swatchH = 4.6
)

// A legend explains the signs a sheet uses, and no others.
type legend struct {
	head  string
	signs []sign
	mute  bool // the heading is not set, as in a list
}

// shown is the heading as it is set.
func (l legend) shown() string { return list{head: l.head, mute: l.mute}.shown() }

// legendOf puts signs in the legend's order.
func legendOf(used []sign) legend {
	l := legend{head: "Legend"}
	for s := signCable; s < signCount; s++ {
		for _, u := range used {
			if u == s {
				l.signs = append(l.signs, s)
			}
		}
	}
	return l
}

func (l legend) entry(ty *typesetter, s sign, w float64) (h float64) {
	return max(swatchH+0.5, float64(ty.lines(fonts.Lettering, s.words(), note, w-swatchW-3))*leading+0.9)
}

func (l legend) height(ty *typesetter, w float64) float64 {
	h := ty.headingHeight(l.shown(), w)
	for _, s := range l.signs {
		h += l.entry(ty, s, w)
	}
	return h
}

func (l legend) split(ty *typesetter, w, h float64) (fits, rest block) {
	used, n := ty.headingHeight(l.shown(), w), 0
	for n < len(l.signs) {
		e := l.entry(ty, l.signs[n], w)
		if used+e > h {
			break
		}
		used += e
		n++
	}
	switch {
	case n == len(l.signs):
		return l, nil
	case n < 4:
		return nil, l
	case n == len(l.signs)-1 && n > 4: // one sign alone would look forgotten
		n--
	}
	return legend{l.head, l.signs[:n], l.mute}, legend{head: continued(l.head), signs: l.signs[n:]}
}

func (l legend) set(pg *page, at drawing.Pt, w float64) {
	y := at.Y + setHeading(pg, at, l.shown(), w)
	for _, s := range l.signs {
		pg.add(s.sample(drawing.Box{X0: at.X, Y0: y, X1: at.X + swatchW, Y1: y + swatchH})...)
		for i, t := range pg.ty.wrap(s.words(), w-swatchW-3) {
			pg.write(drawing.Pt{X: at.X + swatchW + 3, Y: y + 3.55 + float64(i)*leading}, t, note, drawing.Start)
		}
		y += l.entry(pg.ty, s, w)
	}
}
