package heat

import (
	"fmt"
	"math"

	"oxturn/layout/language"
	"oxturn/layout/say"
)

// airHeat is what a m³ of air takes to warm by 1 K, Wh (EN 12831).
const airHeat = 0.34

// LossSpread is the share by which a room may lose more or less than the
// simplified sum says: junctions, wind, furniture and areas that are not known
// better. Common practice.
const LossSpread = 0.15

// Exact ratios of the international foot, in m, m² and m³.
const (
	footMetres = 0.3048
	squareFoot = 0.09290304
	cubicFoot  = 0.028316846592
)

// Units of the same quantity by Btu, hours, feet and °F, of the international table's Btu:
// W/(m² K) to a Btu/(h ft² °F), and Btu/(h ft °F) to a W/(m K).
const (
	usFilm         = 5.678263
	usConductivity = 0.577789
)

// BtuPerHour is that in W (international table).
const BtuPerHour = 0.29307107

// An Element is a piece of what encloses a room.
type Element struct {
	Name   string
	Area   float64 // m²
	U      float64 // W/(m² K)
	Beyond float64 // °C on its other side
}

// A Loss is what a room loses, simplified: steady, without sun, people or what
// walls store.
type Loss struct {
	Elements []Element
	Volume   float64 // m³ of air
	Changes  Range   // of it an hour
	Inside   float64 // °C
	Outside  float64 // °C
}

// Watts returns the sum of U A dT + 0.34 n V dT in W, with LossSpread and for
// both ends of the air changes. Elements to a warmer side take from it.
func (l Loss) Watts() Range {
	elements := 0.0
	for _, p := range l.Elements {
		elements += float64(p.U * p.Area * (l.Inside - p.Beyond))
	}
	air := airHeat * l.Volume * (l.Inside - l.Outside)
	at := func(changes, spread float64) float64 { return math.Max(0, (elements+changes*air)*spread) }
	return Range{at(l.Changes.Low, 1-LossSpread), at(l.Changes.High, 1+LossSpread)}
}

// Check reports the first figure that no room has.
func (l Loss) Check() error {
	bounds := []bound{{"the room's volume", l.Volume, 0, 1e5, "m³"}, {"the air changes", l.Changes.Low, 0, 20,
		"an hour"}, {"the most air changes", l.Changes.High, l.Changes.Low, 20, "an hour"}}
	for _, p := range l.Elements {
		bounds = append(bounds, bound{"the area of " + p.Name, p.Area, 0, 1e5, "m²"}, bound{"the U-value of " + p.Name,
			p.U, 0, 10, "W/(m² K)"})
	}
	return checkAll(bounds)
}

// Covered returns the share of a loss that so many W cover, from what is least
// given against most lost to the other way round.
func Covered(given, lost Range) Range {
	share := func(a, b float64) float64 {
		if b <= 0 {
			return math.Inf(1)
		}
		return a / b
	}
	return Range{share(given.Low, lost.High), share(given.High, lost.Low)}
}

// CoveredWords says that share: "covers 55 to 70 % of the loss". What is more
// than twice the loss is not told apart.
func CoveredWords(r Range, l language.Language) string {
	switch {
	case r.Low >= 2:
		return l.Text("covers the loss more than twice")
	case r.High > 2:
		return l.Textf("covers %s of the loss at least", say.Percent(r.Low))
	}
	return l.Textf("covers %s to %s of the loss", fmt.Sprintf("%.0f", 100*r.Low), say.Percent(r.High))
}

// Tens rounds a range to tens, as Power prints it.
func (r Range) Tens() Range { return Range{math.Round(r.Low/10) * 10, math.Round(r.High/10) * 10} }

// Power writes W, in US units also as Btu/h, to tens: what is printed can then be
// divided to a whole per cent.
func (r Range) Power(us bool, l language.Language) string {
	if us {
		return r.tens(l) + " W (" + r.Times(1/BtuPerHour).tens(l) + " Btu/h)"
	}
	return r.tens(l) + " W"
}

func (r Range) tens(l language.Language) string {
	return l.Textf("%s to %s", fmt.Sprintf("%.0f", r.Tens().Low), fmt.Sprintf("%.0f", r.Tens().High))
}

// Words says what the sum is made of, part by part, for redoing it.
func (l Loss) Words(us bool) []language.Message {
	w := words{us}
	var out []language.Message
	for _, p := range l.Elements {
		out = append(out, language.Say("%s: %s, %s, %s beyond", language.Say(p.Name), w.figure(p.Area, "m²",
			p.Area/squareFoot, "ft²"),
			w.film(p.U), w.temperature(p.Beyond)))
	}
	return append(out, language.Say("air: %s, %s to %s changes an hour, %s (EN 12831)",
		w.figure(l.Volume, "m³", l.Volume/cubicFoot,
			"ft³"), language.Figure(say.Plain(l.Changes.Low)), language.Figure(say.Plain(l.Changes.High)),
		w.figure(airHeat, "Wh/(m³ K)", airHeat/BtuPerHour*cubicFoot/say.Fahrenheits, "Btu/(ft³ °F)")),
		language.Say("±%s for what is simplified: steady, without sun, people or what walls store",
			language.Figure(say.Percent(LossSpread))))
}
