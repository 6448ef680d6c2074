// Package record judges the readings taken of a heating cable, stage by stage,
// and turns the reading of a faulty one into a stretch of cable on the floor.
//
// Nothing here fills in a reading: what was not measured stays open. Words say
// what was measured and against what, and leave the decision to the reader.
package record

import (
	"math"

	"oxturn/layout/language"
)

// A Figure is a number read off an instrument. The zero value: not taken.
type Figure struct {
	Value float64
	Taken bool
	Over  bool // the instrument's range ended: the true figure is Value or more
}

// valid reports whether the figure is one an instrument could show.
func (f Figure) valid() bool {
	return !f.Taken || f.Value >= 0 && !math.IsInf(f.Value, 1)
}

// in writes the figure as a quantity is said.
func (f Figure) in(write func(float64) string) language.Message {
	if f.Over {
		return language.Say("over %s", language.Figure(write(f.Value)))
	}
	return language.Figure(write(f.Value)).Message()
}
