package sheets

import (
	"errors"
	"fmt"
	"testing"
	"time"

	"oxturn/layout/language"

	"oxturn/layout"
	"oxturn/layout/circuit"
	"oxturn/layout/job"
	"oxturn/layout/plane"
	"oxturn/layout/route"
	"oxturn/layout/takeoff"
)

// sampleJob is a bath of 5 x 8 ft, its long side east.
func sampleJob(u plane.Units) *job.Job {
	w, h := 8*plane.Foot, 5*plane.Foot
	r := job.Room{Name: "Hall bath", Outline: plane.Ring{{X: 0, Y: 0}, {X: w, Y: 0}, {X: w, Y: h}, {X: 0, Y: h}}}
	for i := range r.Outline {
		r.Walls = append(r.Walls, job.Wall{Letter: string(rune('A' + i)), Segment: r.Outline.Edge(i)})
	}
	r.Fixtures = []job.Fixture{
		{Kind: job.Tub, Name: "tub", Outline: plane.Rectangle(plane.Pt(0, 0), plane.Pt(762, h)),
			Back: plane.Segment{A: plane.Pt(0, h), B: plane.Pt(0, 0)}, Width: h, Depth: 762, Clear: 50},
		{Kind: job.Toilet, Name: "toilet", Outline: plane.Rectangle(plane.Pt(960, h-710), plane.Pt(1340, h)),
			Back: plane.Segment{A: plane.Pt(1340, h), B: plane.Pt(960, h)}, Width: 380, Depth: 710, Tiled: true,
			Clear: 50, Flange: &job.Flange{Centre: plane.Pt(1150, h-305), Radius: 90, Clear: 150}},
		{Kind: job.Vanity, Name: "vanity", Outline: plane.Rectangle(plane.Pt(1524, h-533), plane.Pt(2438.4, h)),
			Back: plane.Segment{A: plane.Pt(2438.4, h), B: plane.Pt(1524, h)}, Width: 914.4, Depth: 533, Clear: 50,
			Undecided: true},
	}
	r.Openings = []job.Opening{{Name: "door", Kind: "door", Wall: 0, From: 1650, To: 2360, Swing: "in", Hinge: "end",
		Threshold: true}}
	r.Fixings = []job.Fixing{{Kind: "door stop", Name: "door stop", Line: []plane.Point{{X: 2330, Y: 720}}, Clear: 60}}
	r.Thermostat = job.Thermostat{At: plane.Pt(1450, 0), Wall: 0, Along: 1450, Height: 1219, Tail: 200, Slack: 100}
	return &job.Job{
		File: "bath.toml", Units: u,
		Info: job.Info{
			Title: "Bathroom refit", Number: "25-118", Client: "A. and B. Marsh", Site: "14 Orchard Row, Millbrook",
			Contractor: "Fieldgate Tile & Stone", DrawnBy: "R. Hale", Date: time.Date(2026, 11, 24, 0, 0, 0, 0,
				time.UTC),
		},
		Membrane: job.Membrane{Pitch: 30, BendRadius: 15, RollWidth: 1000, RollLength: 12500, Height: 5.5},
		Rooms:    []job.Room{r},
		Notes:    []string{"Finished walls to be measured again before the cable is ordered."},
	}
}

// samplePlan is the sample for a test to change what it will.
func samplePlan(t testing.TB, u plane.Units) *layout.Plan {
	t.Helper()
	p, err := sampled(u)
	if err != nil {
		t.Fatal(err)
	}
	return p
}

// sampled lays a serpentine by hand in front of the tub, toilet and vanity.
func sampled(u plane.Units) (*layout.Plan, error) {
	j := sampleJob(u)
	p := &layout.Plan{Job: j}
	r := layout.Room{Job: &j.Rooms[0]}
	var wrong error
	must := func(g plane.Region, err error) plane.Region {
		wrong = errors.Join(wrong, err)
		return g
	}
	r.Floor = plane.FromRing(r.Job.Outline)
	r.Tiled = r.Floor
	r.Heated = must(r.Floor.Grow(-75))
	for _, f := range r.Job.Fixtures {
		g := must(plane.FromRing(f.Outline).Grow(f.Clear))
		r.NoCut = append(r.NoCut, layout.NoCut{Reason: layout.ForFixture, Name: f.Name, Region: g})
		r.Heated = must(r.Heated.Less(g))
		if !f.Tiled {
			r.Tiled = must(r.Tiled.Less(plane.FromRing(f.Outline)))
		}
	}
	fix := plane.FromRing(plane.Circle(plane.Pt(2330, 720), 60, 32))
	r.NoCut = append(r.NoCut, layout.NoCut{Reason: layout.ForFixing, Name: "door stop", Region: fix},
		layout.NoCut{Reason: layout.LeadRise, Name: "lead rise",
			Region: plane.FromRing(plane.Rectangle(plane.Pt(1300, 0), plane.Pt(1600, 75)))})
	r.Heated = must(r.Heated.Less(fix))
	r.Zones = []plane.Region{r.Heated}
	r.Cables = []layout.Cable{sampleCable()}
	r.Cables[0].Share = r.Heated
	r.Sensors = []layout.Sensor{
		{Name: "S1", Tip: plane.Pt(1650, 365), Lead: []plane.Point{{X: 1450, Y: 0}, {X: 1470, Y: 60},
			{X: 1650, Y: 365}}},
		{Name: "S2", Spare: true, Tip: plane.Pt(1250, 545), Lead: []plane.Point{{X: 1450, Y: 0}, {X: 1250, Y: 545}}},
	}
	p.Rooms = []layout.Room{r}
	c := r.Cables[0].Circuit
	total, err := circuit.Total([]circuit.Cable{c}, 15, circuit.NorthAmerica)
	wrong = errors.Join(wrong, err)
	p.Load = []layout.Load{{Room: "Hall bath", Load: total}}
	p.TakeOff = sampleTakeOff()
	return p, wrong
}

// sampleCable runs to and fro, 90 mm from run to run.
func sampleCable() layout.Cable {
	c := layout.Cable{
		ID: "H1", Label: job.Cable{ID: "B120-50", Volts: 120, Watts: 180, Length: 15240, Ohms: 80, Lead: 3048},
		Lattice: route.Lattice{Origin: plane.Pt(860, 95), Pitch: 30}, BendRadius: 15, Routed: 15240, Spacing: 90,
		Density: 131, LeadReach: 1529,
		ColdLead: []plane.Point{{X: 1450, Y: 0}, {X: 1450, Y: 95}, {X: 860, Y: 95}},
	}
	for i := range 8 {
		y := 95 + 90*float64(i)
		a, b := plane.Pt(860, y), plane.Pt(2350, y)
		if i == 7 {
			b.X = 2200
		}
		if i%2 == 1 {
			a, b = b, a
		}
		c.Path = append(c.Path, a, b)
		c.Runs = append(c.Runs, layout.Run{Number: i + 1, From: a, To: b, Direction: []string{"east", "west"}[i%2],
			Pegs: 50, GapToNext: 3, RunningEnd: 1900 * float64(i+1)})
	}
	for k, n := range []string{"1/4", "1/2", "3/4"} {
		y := 95 + 90*float64(2*k+1)
		c.Marks = append(c.Marks, layout.Mark{Name: n, Along: 3810 * float64(k+1), At: plane.Pt(1700-200*float64(k), y),
			Run: 2*k + 2, Into: 400})
	}
	c.Circuit, _ = circuit.Compute(circuit.Label{ID: "B120-50", Volts: 120, Watts: 180, Length: 15240, Ohms: 80}, 0)
	return c
}

func sampleTakeOff() takeoff.List {
	l := takeoff.List{Status: "proposal",
		Inclusions:  []language.Message{language.As("Membrane, cable, sensors and mortar as listed.")},
		Exclusions:  []language.Message{language.As("Electrical work, by others.")},
		Assumptions: []language.Message{language.As("Subfloor flat, dry and sound.")},
		Questions:   []language.Message{language.As("Vanity: size and legs not decided.")},
	}
	for i := range 16 {
		l.Lines = append(l.Lines, takeoff.Line{
			Item: language.As(fmt.Sprintf("Item %d",
				i+1)), Basis: language.As("tiled area 2.56 m²"), Net: 2.56 * float64(i+1), Waste: 0.1,
			Gross: 2.816 * float64(i+1),
			Unit:  "m²", Pack: 10, PackName: "roll", Packs: i + 1, Spare: 7.18, Note: language.As("default waste"),
		})
	}
	return l
}
