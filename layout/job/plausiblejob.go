package job

import (
	"fmt"
	"math"
	"slices"
	"strings"

	"oxturn/layout/plane"
)

// warn warns of what is unusual about a key's figure.
func (t table) warn(name, hint, format string, args ...any) {
	t.rd.report.Warnf("W008", t.at(name), hint, format, args...)
}

// gapsCannotBe refuses gaps that no floor is laid with, as where they were given in mm
// and not in pegs, and warns of unusual ones.
func (j *Job) gapsCannotBe(s table) bool {
	refused := false
	for _, key := range []string{"closest", "widest"} {
		if !s.has(key) || j.Membrane.Pitch <= 0 {
			continue
		}
		pegs, u, m := s.whole(key), s.rd.drawingUnits(), measureUnits["mm"]
		apart := float64(pegs) * j.Membrane.Pitch
		what, low, high, often := gapOfRuns.judge(apart), gapOfRuns.low, gapOfRuns.high, ""
		if what == unusualFigure {
			low, high, often = gapOfRuns.least, gapOfRuns.most, "usually "
		}
		message := fmt.Sprintf("%s = %d is counted in pegs, which %s apart make %s; %s (%s)", key, pegs,
			m.write(j.Membrane.Pitch, u), m.write(apart, u),
			strings.Replace(gapOfRuns.says, "%s", often+m.span(low, high, u), 1), gapOfRuns.source)
		switch hint := j.gapInPegs(key, pegs, s.rd.units); what {
		case absurdFigure:
			s.errorf(key, hint, "%s", message)
			refused = true
		case unusualFigure:
			s.warn(key, hint, "%s", message)
		}
	}
	return refused
}

// likelyPegs pegs at most are a usual gap: a length that makes so many was meant as one.
const likelyPegs = 12

// gapInPegs says what a gap typed as a length would be in pegs.
func (j *Job) gapInPegs(key string, typed int, u plane.Units) string {
	if n := math.Round(float64(typed) / j.Membrane.Pitch); u == plane.Millimetres && n >= 2 && n <= likelyPegs {
		return fmt.Sprintf("is it a length? %d mm would be %s = %.0f", typed, key, n)
	}
	return "write it like " + key + " = " + map[string]string{"closest": "2", "widest": "4"}[key]
}

// checkBox warns of boxes that hold so little or so much tile that its size or their
// count was misread.
func (tile Tile) checkBox(t table) {
	if !t.has("per_box") || tile.PerBox == 0 || t.broken() {
		return
	}
	holds := func(mm2 float64) float64 { return float64(tile.PerBox) * mm2 / 1e6 }
	area, m, u := tile.Width*tile.Length, measureUnits["m²"], t.rd.drawingUnits()
	if tilesInABox.judge(holds(area)) == usualFigure || tile.sizeIsUnusual() { // that is said already
		return
	}
	hint := "look at the tile's size and its unit, and at per_box"
	read := map[plane.Units]float64{plane.Millimetres: 1, plane.Inches: plane.Inch}[t.rd.units]
	if n := t.n.Get("size"); n != nil && endsBare(t.rd.source(lastLeaf(n))) && read > 0 {
		for _, name := range t.rd.unitsOf(Key{Type: TypeLength}) {
			one, err := plane.ParseLength("1 "+name, plane.NoUnits)
			if err != nil || one == read {
				continue
			}
			if other := area * math.Pow(one/read, 2); tilesInABox.judge(holds(other)) == usualFigure {
				hint = fmt.Sprintf("is the unit of its size missing? in %s a box would hold %s", name,
					m.write(holds(other), u))
				break
			}
		}
	}
	t.warn("per_box", hint, "per_box = %d makes %s a box, of tile %s by %s; %s (%s)", tile.PerBox,
		m.write(holds(area), u), t.length(tile.Width), t.length(tile.Length),
		strings.Replace(tilesInABox.says, "%s", "usually "+m.span(tilesInABox.least, tilesInABox.most, u), 1),
		tilesInABox.source)
}

func (tile Tile) sizeIsUnusual() bool {
	h, _ := heldFor("tile.size", "")
	return h.judge(tile.Width) != usualFigure || h.judge(tile.Length) != usualFigure
}

// Currencies in which a kWh costs about one or less, and the most it usually costs.
var (
	dearCurrencies = []string{"EUR", "€", "USD", "US$", "$", "GBP", "£", "CHF", "CAD", "AUD", "NZD"}
	mostTariff     = 3.0
)

// checkTariff warns of a tariff that looks like cents.
func (e Energy) checkTariff(t table) {
	if e.Tariff <= mostTariff || !slices.Contains(dearCurrencies, strings.ToUpper(strings.TrimSpace(e.Currency))) {
		return
	}
	hint := "look at the tariff again: it is the price of one kWh"
	if e.Tariff/100 <= mostTariff {
		hint = fmt.Sprintf("is it in cents? tariff = %s would be usual", figure(e.Tariff/100))
	}
	t.warn("tariff", hint, "tariff = %s is %s %s a kWh; it is usually up to %s (%s)", figure(e.Tariff),
		figure(e.Tariff), e.Currency, figure(mostTariff), commonPractice)
}
