package record

import "time"

// UnstatedCure is the days allowed for a portland-cement layer whose cure time
// is not stated: common practice.
const UnstatedCure = 28

// First heating of a new screed by EN 1264-4, from memory: not before so many
// days, then LowDays with the floor at LowLeast to LowMost °C, then FullDays at
// the most it is laid out for.
const (
	CementScreed, SulphateScreed = 21, 7 // days
	LowDays, FullDays            = 3, 4
	LowLeast, LowMost            = 20, 25 // °C
)

// A Cure is one layer that must harden before the floor is warmed.
type Cure struct {
	Layer  string
	Placed time.Time
	Days   int // 0: not stated, UnstatedCure is taken
}

// Wait returns the days that the layer is given.
func (c Cure) Wait() int {
	if c.Days == 0 {
		return UnstatedCure
	}
	return c.Days
}

// A FullUse is the first day of full use as far as curing goes.
type FullUse struct {
	Date   time.Time
	Layer  string // that decides it
	Days   int
	Stated bool // false: the days are UnstatedCure
}

// EarliestUse returns the first day on which every layer has had its days; of
// layers that end on one day the first given decides. ok is false when there
// is no layer, or one without a date: a day not written down is not guessed.
func EarliestUse(layers []Cure) (use FullUse, ok bool) {
	for _, l := range layers {
		if l.Placed.IsZero() || l.Days < 0 {
			return FullUse{}, false
		}
		if end := l.Placed.AddDate(0, 0, l.Wait()); end.After(use.Date) {
			use = FullUse{end, l.Layer, l.Wait(), l.Days != 0}
		}
	}
	return use, len(layers) > 0
}
