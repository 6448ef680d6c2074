package heat

import (
	"math"

	"oxturn/layout/language"
)

// The basic characteristic of floor heating, EN 1264-2 (also ISO 11855-2
// equation 1): q = 8.92 (mean surface - room)^1.1, q in W/m².
const (
	characteristicFactor   = 8.92
	characteristicExponent = 1.1
)

// coolFilm is the total coefficient in W/(m² K) for a floor colder than the
// room, ISO 11855-2 (floor cooling).
const coolFilm = 7.0

// words says how a surface gives its heat to the room, as a formula that can
// be computed with. In US units q is W/ft² of a rise in °F, the factor
// 8.92 x 0.0929 / 1.8^1.1.
func (f Film) words(w words) language.Message {
	if f.Coefficient != 0 {
		return language.Say("surface to room: %s", w.film(f.Coefficient))
	}
	factor, flux, kelvin := language.Figure("8.92"), "W/m²", "K"
	if w.us {
		factor, flux, kelvin = "0.434", "W/ft²", "°F"
	}
	return language.Say("surface to room: q = %s (mean surface - air)^%s in %s and %s (EN 1264-2); %s where the "+
		"floor is colder than the air (ISO 11855-2)", factor, language.Figure("1.1"), flux, kelvin, w.film(coolFilm))
}

// A Film is how the surface gives its heat to the room. The zero value is the
// characteristic of EN 1264; a Coefficient in W/(m² K) takes its place.
type Film struct{ Coefficient float64 }

// Flux returns the heat in W/m² that a surface gives off at a mean rise in K
// over the room; negative when it is colder.
func (f Film) Flux(rise float64) float64 {
	switch {
	case f.Coefficient != 0:
		return f.Coefficient * rise
	case rise < 0:
		return coolFilm * rise
	}
	return characteristicFactor * math.Pow(rise, characteristicExponent)
}

// Rise returns the mean rise in K of a surface that gives off q W/m².
func (f Film) Rise(q float64) float64 {
	switch {
	case f.Coefficient != 0:
		return q / f.Coefficient
	case q < 0:
		return q / coolFilm
	}
	return math.Pow(q/characteristicFactor, 1/characteristicExponent)
}

// At returns the coefficient in W/(m² K) that holds at a mean surface rise.
func (f Film) At(rise float64) float64 {
	const tiny = 1e-9 // K; below it the flux is nothing either way
	switch {
	case f.Coefficient != 0:
		return f.Coefficient
	case rise < tiny:
		return coolFilm
	}
	return f.Flux(rise) / rise
}
