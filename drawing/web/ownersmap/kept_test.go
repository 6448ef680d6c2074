package ownersmap

import (
	"html"
	"strings"
	"testing"
	"time"

	"oxturn/layout"
	"oxturn/layout/circuit"
	"oxturn/layout/job"
	"oxturn/layout/plane"
)

// Whoever comes to find a fault when the job file is lost has label, readings, circuit
// and the text of the label's code on the page, as text that prints too.
func TestWhatAFaultIsFoundBy(t *testing.T) {
	p := samplePlan(plane.Millimetres, job.AsLaid, "Bath")
	c := &p.Rooms[0].Cables[0]
	c.Label = job.Cable{ID: "A240-60", Volts: 240, Watts: 600, Length: 60000, Lead: 4000}
	c.Circuit = circuit.Cable{Nominal: 96, OhmsFrom: "label"}
	a := c.Laid.Job
	a.Lot, a.Tester, a.TripTest, a.Volts, a.Amps, a.Lead = "4711-08", "IT-5", "tripped", 239, 2.5, 2400
	a.Readings = []job.Reading{{Stage: "hook-up", Date: time.Date(2026, 12, 9, 0, 0, 0, 0, time.UTC), By: "E. L.",
		Ohms: job.Figure{Value: 96.4, Taken: true}, Insulation: job.Figure{Value: 2000, Taken: true, Over: true},
		Volts: 500, Capacitance: job.Figure{Value: 9.1, Taken: true}}}
	p.Circuits = []layout.Circuit{{Rooms: []string{"Bath"}, Job: &job.Circuit{Name: "L3", Breaker: 16, GroundFault: 30,
		GroundFaultsAt: "breaker"}}}
	page := html.UnescapeString(write(t, p))
	for _, want := range []string{"A240-60: 240 V, 600 W, heating cable 60.00 m", "96.0 Ω at 20 °C (label)", "4711-08",
		"239 V, 2.5 A, the floor on", "L3, breaker 16 A, ground-fault device 30 mA at the breaker", "2026-12-09, E. L.",
		"96.4 Ω", "over 2000 MΩ at 500 V", "9.1 nF", "OXTURN FLOOR 1", "read 96.4 ohm 9.1 nF",
		"one cold lead is 2.40 m as cut at the box"} {
		if !strings.Contains(page, want) {
			t.Errorf("the page does not say %q", want)
		}
	}
	// a series circuit: a break leaves it cold everywhere, a short between the cores of a twin
	// from there on; a single conductor, whose ends both come back, has no cores to short
	twin := "stripes warmer than usual from START to the short, none beyond"
	if c.Spacing = 90; !strings.Contains(write(t, p), "stripes about 90 mm apart on all of its floor. Broken: none") ||
		!strings.Contains(write(t, p), twin) {
		t.Error("it does not say what a thermal camera shows")
	}
	c.Return = []plane.Point{{X: 100, Y: 100}, {X: 0, Y: 100}}
	if strings.Contains(write(t, p), twin) {
		t.Error("a single conductor's cores are said to be shorted")
	}
	c.Return, a.Readings = nil, nil
	if page := write(t, p); !strings.Contains(page, "No reading of this cable is recorded") {
		t.Error("it does not say that nothing was read")
	}
}
