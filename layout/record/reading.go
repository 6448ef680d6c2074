package record

import (
	"fmt"
	"strings"
	"time"

	"oxturn/layout/language"
)

// A Stage is a moment in a cable's life at which it is measured.
type Stage int

// The stages, in their order. Each guards the next trade's work.
const (
	OnSpool Stage = iota // before it is unrolled
	Laid                 // before it is covered
	Covered              // after the mortar over the pegs
	Tiled
	Grouted // after grout, before hook-up
	HookUp
	Service // any time later
)

// Stages returns all stages in their order.
func Stages() []Stage {
	return []Stage{OnSpool, Laid, Covered, Tiled, Grouted, HookUp, Service}
}

// String returns the stage as the test record prints it.
func (s Stage) String() string {
	return [...]string{"on spool", "laid, before cover", "covered", "tiled", "grouted", "hook-up", "service"}[s]
}

func (s Stage) valid() bool { return s >= OnSpool && s <= Service }

// StageWords writes stages one after the other: stage "tiled", or stages "tiled" and "grouted".
func StageWords(stages []Stage, l language.Language) string {
	var b strings.Builder
	word := "stage"
	if len(stages) > 1 {
		word = "stages"
	}
	b.WriteString(l.Text(word))
	for i, s := range stages {
		switch {
		case i > 0 && i == len(stages)-1:
			b.WriteString(" " + l.Text("and"))
		case i > 0:
			b.WriteByte(',')
		}
		fmt.Fprintf(&b, " %q", l.Text(s.String()))
	}
	return b.String()
}

// StageNamed returns the stage that is printed as name.
func StageNamed(name string) (Stage, bool) {
	for _, s := range Stages() {
		if s.String() == name {
			return s, true
		}
	}
	return 0, false
}

// HandContact is what a hand meter shows between the conductors and the braid.
// It never stands for an insulation test.
type HandContact int

// What a hand meter may show.
const (
	NotTried HandContact = iota
	Open
	Connected
)

// A Reading is one row of the test record.
type Reading struct {
	Stage      Stage
	Date       time.Time // zero when not written down
	By         string
	Ohms       Figure // of the conductor, at the lead's ends
	Insulation Figure // conductors to braid at Volts, MΩ
	Volts      float64
	Hand       HandContact
	Sensor     Figure     // first sensor, Ω
	Spare      Figure     // second sensor, Ω
	Floor      Figure     // floor temperature, °C; below zero is a figure too
	SensorBand [2]float64 // Ω, low and high, that fit the sensor at that floor; zero: not known
	SensorKind string     // whose band that is: "10k-3977"
	// which other kind the reading fits, in words; empty for none
	SensorOther, SpareOther string
}
