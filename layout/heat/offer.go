package heat

import (
	"fmt"
	"math"

	"oxturn/layout/language"

	"oxturn/layout/plane"
	"oxturn/layout/say"
)

// WarmUpSpread is the share by which a real floor's warm-up time may differ
// from the computed one either way: moisture, voids, the room's own warmth.
// Common practice.
const WarmUpSpread = 0.5

// A Board is an insulation board that may go into the floor: Layer, put in
// above layer Above of the section, below the cable.
type Board struct {
	Layer Layer
	Above int
}

// An Offer is one way to lay the cable in a floor, and how soon it is warm.
type Offer struct {
	Spacing   float64 // mm
	Board     bool
	Flux      float64 // W/m²
	Curve     Curve
	Reached   bool    // within the hours asked for
	Time      float64 // s until the rise is there, computed; 0 when not Reached
	Low, High float64 // s, Time with WarmUpSpread
	Settles   float64 // K gained in the end, however long is waited
	Never     bool    // the rise is more than that
}

// Offers computes the warm-up of s for each spacing in mm, without the board
// and, where one is given, with it: rows in the order of the spacings, the
// board's after its twin. rise is what the mean of the surface is to gain, in
// K; hours is how long is waited for it.
func (s Section) Offers(spacings []float64, board *Board, rise, hours float64) ([]Offer, error) {
	if err := (bound{"the rise waited for", rise, 0.1, 100, "K"}).check(); err != nil {
		return nil, err
	}
	if board != nil && (board.Above < 0 || board.Above > len(s.Layers)) {
		return nil, fmt.Errorf("the board goes above layer %d, but there are %d layers", board.Above, len(s.Layers))
	}
	var out []Offer
	for _, spacing := range spacings {
		laid := s
		laid.Spacing = spacing
		o, err := laid.offer(rise, hours)
		if err != nil {
			return nil, fmt.Errorf("at a spacing of %g mm: %w", spacing, err)
		}
		out = append(out, o)
		if board == nil {
			continue
		}
		o, err = laid.WithLayer(board.Above, board.Layer).offer(rise, hours)
		if err != nil {
			return nil, fmt.Errorf("at a spacing of %g mm with %s: %w", spacing, board.Layer.Name, err)
		}
		o.Board = true
		out = append(out, o)
	}
	return out, nil
}

func (s Section) offer(rise, hours float64) (Offer, error) {
	curve, err := s.WarmUp(hours)
	if err != nil {
		return Offer{}, err
	}
	o := Offer{Spacing: s.Spacing, Flux: s.Flux(), Curve: curve}
	o.Time, o.Reached = curve.TimeTo(rise)
	o.Low, o.High = o.Time*(1-WarmUpSpread), o.Time*(1+WarmUpSpread)
	o.Settles = curve.Steady - curve.Start
	o.Never = !o.Reached && o.Settles <= rise
	return o, nil
}

// Range writes the offer's warm-up as a range, that the rise is not reached in
// the hours waited for, or what the floor gains where it never is.
func (o Offer) Range(hours float64, us bool) language.Message {
	switch {
	case o.Reached:
		return language.Say("%s to %s", language.Figure(FormatTime(o.Low)), language.Figure(FormatTime(o.High)))
	case o.Never:
		return language.Say("never: settles at %s", words{us}.gainedAtMost(o.Settles))
	}
	return language.Say("not within %s h", language.Figure(say.Plain(hours)))
}

// Assumptions says in words what the figures of s rest on, for printing
// beside them: in feet, inches and Fahrenheit, or in SI units. What lies below
// is said by Below.Words.
func (s Section) Assumptions(us bool) []language.Message {
	s = s.defaults()
	w := words{us}
	return []language.Message{
		language.Say("rises are over the room's air, taken as steady: no room temperature is computed"),
		s.Top.words(w),
		language.Say("dry layers in full contact; nothing on the floor"),
		language.Say("cable full on at %s, %s apart, %s thick, its middle %s below the surface",
			w.perLength(s.WattsPerMetre), w.apart(s.Spacing), w.length(s.Diameter), w.length(s.Depth)),
		language.Say("warm-up from a floor long off; real floors differ by ±%s",
			language.Figure(say.Percent(WarmUpSpread))),
	}
}

// Words says what lies under the floor, with its resistance where there is
// one, in one of the two systems.
func (b Below) Words(us bool) language.Message { return words{us}.below(b) }

// words writes figures in one of the two systems.
type words struct{ us bool }

func (w words) figure(si float64, siUnit string, us float64, usUnit string) language.Figure {
	if w.us {
		return language.Figure(say.Digits(us, 3) + " " + usUnit)
	}
	return language.Figure(say.Digits(si, 3) + " " + siUnit)
}

func (w words) length(mm float64) language.Figure { return w.figure(mm, "mm", mm/plane.Inch, "in") }

// apart writes the distance of runs, finely enough to work out their heat again.
func (w words) apart(mm float64) language.Figure {
	if w.us {
		return w.length(mm)
	}
	return language.Figure(say.Digits(mm, 4) + " mm")
}

func (w words) perLength(wattsPerMetre float64) language.Figure {
	return w.figure(wattsPerMetre, "W/m", wattsPerMetre*footMetres, "W/ft")
}

// film writes a film coefficient.
func (w words) film(c float64) language.Figure {
	return w.figure(c, "W/(m² K)", c/usFilm, "Btu/(h ft² °F)")
}

func (w words) temperature(c float64) language.Figure {
	return language.Figure(say.Degrees(c, w.units()))
}

func (w words) difference(k float64) language.Figure {
	return w.figure(k, "°C", k*say.Fahrenheits, "°F")
}

// tenthsOver writes a difference to a tenth of a degree.
func (w words) tenthsOver(k float64) language.Figure {
	return language.Figure(say.Difference(k, w.units()))
}

func (w words) units() plane.Units {
	if w.us {
		return plane.Inches
	}
	return plane.Millimetres
}

// gainedAtMost writes a gain with its sign, +6.9 °C, rounded down: it stays below what
// was wanted and not reached.
func (w words) gainedAtMost(k float64) language.Figure {
	unit := "°C"
	if w.us {
		k, unit = k*say.Fahrenheits, "°F"
	}
	return language.Figure(fmt.Sprintf("%+.1f %s", math.Floor(10*k+1e-9)/10, unit))
}

func (w words) below(b Below) language.Message {
	at := language.Say("at the room's temperature")
	switch {
	case b.Rise < 0:
		at = language.Say("%s colder than the room", w.difference(-b.Rise))
	case b.Rise > 0:
		at = language.Say("%s warmer than the room", w.difference(b.Rise))
	}
	switch b.Kind {
	case FilmBelow:
		return language.Say("a space %s, through %s (ISO 6946, heat flowing down)", at, w.film(b.Coefficient))
	case SoilBelow:
		return language.Say("soil that has settled, to outside air %s, through %s", at, w.film(b.Coefficient))
	case Ground:
		return language.Say("ground held %s right under the lowest layer, without any soil's resistance", at)
	}
	return language.Say("no heat is lost")
}
