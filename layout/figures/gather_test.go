package figures

import (
	"encoding/json"
	"fmt"
	"math"
	"testing"
	"time"

	"oxturn/layout"
	"oxturn/layout/circuit"
	"oxturn/layout/heat"
	"oxturn/layout/internal/hand"
	"oxturn/layout/job"
	"oxturn/layout/plane"
	"oxturn/layout/record"
	"oxturn/layout/takeoff"
)

func square(side float64) plane.Region {
	return plane.FromRing(plane.Rectangle(plane.Pt(0, 0), plane.Pt(side, side)))
}

// Two cables of 600 and 300 W at 75 mm, 60 and 30 m long, warm 6.75 m²: 133.3 W/m², 144 over
// 6.25 m² of heated floor and 100 over 9 m² of tile. One has a lead at either end: three come to the box.
func TestRoomAddsUpItsCables(t *testing.T) {
	r := layout.Room{Job: &job.Room{Name: "Bath"}, Floor: square(4000), Tiled: square(3000), Heated: square(2500),
		Sensors: make([]layout.Sensor, 2)}
	for _, c := range []struct{ watts, length float64 }{{600, 60000}, {300, 30000}} {
		r.Cables = append(r.Cables, layout.Cable{Spacing: 75, Label: job.Cable{Watts: c.watts, Length: c.length,
			Lead: 4000}, LeadReach: 2500,
			ColdLead: []plane.Point{{X: 0, Y: 0}, {X: 300, Y: 400}, {X: 300, Y: 1000}}})
	}
	r.Cables[1].Return = []plane.Point{{X: 0, Y: 0}, {X: 0, Y: 1500}}
	p := &layout.Plan{Job: &job.Job{Rooms: []job.Room{*r.Job}}, Rooms: []layout.Room{r}, Load: []layout.Load{
		{Room: "Hall", Load: circuit.Load{Watts: 1}}, {Room: "Bath", Load: circuit.Load{Volts: 240, Watts: 900,
			Amps: 3.75, Continuous: 4.6875, Contacts: 15, Ohms: 64, Margin: 11.25}}}}
	out := room(p, &p.Rooms[0])
	for what, f := range map[string][2]float64{
		"floor": {out.Floor, 16}, "tiled": {out.Tiled, 9}, "heated": {out.Heated, 6.25},
		"density": {out.Density, 900 / 6.75}, "over tile": {out.OverTile, 100}, "over heated": {out.OverHeated, 144},
		"at even spacing":   {out.AtEven, 6.75},
		"its first cable's": {out.Cables[0].Spacing.AtEven, 4.5},
		"lead":              {out.Cables[0].Lead.Used, 1100}, "left": {out.Cables[0].Lead.Left, 1400},
		"longer lead of two": {out.Cables[1].Lead.Used, 1500},
		"watts":              {out.Thermostat.Watts, 900}, "ohms": {out.Thermostat.Ohms, 64},
		"margin": {out.Thermostat.Margin,
			11.25}, "contacts": {out.Thermostat.Contacts.Value, 15},
	} {
		if math.Abs(f[0]-f[1]) > 1e-9 {
			t.Errorf("%s: %g, want %g", what, f[0], f[1])
		}
	}
	if got := fmt.Sprint(out.Thermostat.ColdLeads, out.Thermostat.Sensors, out.Cables[0].Lead.Ends,
		out.Cables[1].Lead.Ends); got != "3 2 1 2" {
		t.Error(got)
	}
	p.Rooms[0].Cables = p.Rooms[0].Cables[1:]
	if got := thermostat(p, &p.Rooms[0]).ColdLeads; got != 2 {
		t.Errorf("%d leads of one cable with two cold ends", got)
	}
	if density(100, 0) != 0 {
		t.Error("heat over no floor")
	}
	if c := out.Cables[0]; c.HalfRun != 0 || c.HalfInto != 0 || len(c.Readings) != 0 || c.Worst != "" {
		t.Errorf("%+v", c)
	}
}

// A circuit of two rooms has the heat per area of both: 900 W over 4.5 and 2.25 m² of heated floor are
// 133.3 W/m², so that 3840 W warm 28.8 m².
func TestCircuitsHaveTheirRoomsFloor(t *testing.T) {
	room := func(name string, length float64) layout.Room {
		return layout.Room{Job: &job.Room{Name: name},
			Heated: plane.FromRing(plane.Rectangle(plane.Pt(0, 0), plane.Pt(length, 75)))}
	}
	p := &layout.Plan{Job: &job.Job{}, Rooms: []layout.Room{room("Bath", 60000), room("Hall", 30000),
		room("Den", 90000)},
		Circuits: []layout.Circuit{
			{Rooms: []string{"Bath", "Hall"}, Total: circuit.Load{Watts: 900, Volts: 240, Amps: 3.75, Cables: 2,
				Continuous: 4.6875},
				Ratings: []circuit.Binding{{Breaker: 20, Usable: 16, Limit: 16, Binds: "breaker", Watts: 3840,
					Under: true}}},
			{Job: &job.Circuit{Name: "7", Breaker: 0.5, GroundFault: 5, GroundFaultsAt: "panel", Conductor: "12 AWG",
				Length: 20000}, Rooms: []string{"Den"},
				Ratings: []circuit.Binding{{Breaker: 0.5}}, Drop: &circuit.Drop{Standard: "S", At: 75, Volts: 2.1,
					Share: 0.00875}},
			{Job: &job.Circuit{Name: "8"}, Rooms: []string{"Den"}, Ratings: []circuit.Binding{{Breaker: 15}}},
		}}
	out := circuits(p)
	a, b, c := out[0], out[1], out[2]
	if math.Abs(a.Ratings[0].Most-28.8) > 1e-9 || a.Ratings[0].Source != "usual rating" || !a.Ratings[0].Carries ||
		a.Name != "" || a.Drop != nil {
		t.Errorf("%+v", a)
	}
	if b.Ratings[0].Source != "job file" || b.Ratings[0].Most != 0 || b.Drop == nil ||
		math.Abs(b.Drop.Percent-0.875) > 1e-9 || b.Drop.Conductor != "12 AWG" || b.TripMA != 5 {
		t.Errorf("%+v", b)
	}
	if c.Ratings[0].Source != "usual rating" || c.Name != "8" {
		t.Errorf("%+v", c)
	}
}

func TestWaitsSayWhoSetThem(t *testing.T) {
	day := time.Date(2026, 12, 1, 0, 0, 0, 0, time.UTC)
	f := fullUse(&layout.FullUse{Date: day, By: "grout", Open: []string{"screed"},
		Cures: []record.Cure{{Layer: "grout", Placed: day, Days: 1}, {Layer: "screed"}}})
	if f.Date != "2026-12-01" || f.Layers[0] != (Cure{"grout", 1, "job file", "2026-12-01"}) ||
		f.Layers[1] != (Cure{"screed", record.UnstatedCure, "default", ""}) || len(f.Open) != 1 {
		t.Errorf("%+v", f)
	}
	if f := fullUse(&layout.FullUse{Cures: []record.Cure{{Layer: "grout"}}}); f.Date != "" {
		t.Errorf("%+v", f)
	}
	if fullUse(nil) != nil {
		t.Error("layers that nobody gave have a date")
	}
}

func TestShiftsKeepTheirDirection(t *testing.T) {
	out := shifts([]layout.Shift{{Room: "Bath", East: true, By: 25.4, Keeps: true, Spacing: 76,
		Changes: []takeoff.Change{{Code: "tile", Packs: 2}}}, {Room: "Bath", By: -25.4, Laid: true, Instead: "H"}})
	if a := out[0]; a.East != 25.4 || a.North != 0 || a.How != "by area" || !a.Keeps || len(a.Changes) != 1 ||
		a.Changes[0] != (Change{"tile", 2}) {
		t.Errorf("%+v", a)
	}
	if b := out[1]; b.East != 0 || b.North != -25.4 || b.How != "laid anew" || b.Keeps || b.Instead != "H" {
		t.Errorf("%+v", b)
	}
}

// What the job gives of its supply, and what not.
func TestSupplyOfTheJob(t *testing.T) {
	j := &job.Job{Supply: job.Supply{Volts: 0.5, MaxDensity: 0.5, MaxDensitySource: job.FromLabel}}
	s := supply(j)
	if s.Volts == nil || *s.Volts != (Limit{0.5, "job file"}) || s.MaxDensity == nil ||
		*s.MaxDensity != (Limit{0.5, "label"}) || s.RegionFrom != "the job's units" {
		t.Errorf("%+v", s)
	}
	s = supply(&job.Job{Supply: job.Supply{Region: "europe"}})
	if s.Volts != nil || s.MaxDensity != nil || s.RegionFrom != "job file" || s.Region != "europe" ||
		s.Continuous.Value != 1 {
		t.Errorf("%+v", s)
	}
}

// Rises become temperatures of the air they are over, the warm-up's seconds minutes, shares per cent.
func TestWarmthIsOverItsOwnAir(t *testing.T) {
	cold := heat.Steady{Mean: 7, OverCable: 9, Midway: 6, Hottest: 15, UpShare: 0.764, Down: 30}
	hot := heat.Steady{Mean: 8, OverCable: 10, Midway: 7, Hottest: 16, UpShare: 1}
	w := &layout.Warmth{Room: 20, Warmest: 24, Rise: 5, Hours: 12,
		Offers: []heat.Offer{{Spacing: 75, Flux: 133, Reached: true, Low: 1800, High: 5400, Settles: 7}}}
	w.Runs = append(w.Runs, layout.Warm{Cables: []string{"H1"}})
	w.Runs[0].Cold.Steady, w.Runs[0].Hot.Steady = cold, hot
	w.Runs[0].Verdicts = []heat.Verdict{{Limit: heat.Limit{Name: "oak", Celsius: 27, Source: "job file"}, Margin: -7}}
	out := warmth(w, plane.Inches)
	s := out.Surfaces[0]
	if s.State != (State{27, 29, 26, 35, 100 * 0.764, 30}) || s.Hot != (State{32, 34, 31, 40, 100, 0}) {
		t.Errorf("%+v", s)
	}
	if l := s.Limits[0]; l.words != "80.6 °F" || l.margin != "12.6 °F above" || l.Margin != -7 {
		t.Errorf("%+v", l)
	}
	if o := out.WarmUps[0]; o.Low != 30 || o.High != 90 || o.words != "30 min to 1 h 30 min" {
		t.Errorf("%+v", o)
	}
	if l := warmth(w, plane.Millimetres).Surfaces[0].Limits[0]; l.words != "27 °C" || l.margin != "7.0 °C above" {
		t.Errorf("%+v", l)
	}
	if warmth(nil, plane.Inches) != nil || len(energy(nil, "")) != 0 {
		t.Error("a floor without layers is warm")
	}
}

// A room whose floor is known place by place has its spots measured from its walls; others
// are left out.
func TestFloorsAsLaid(t *testing.T) {
	j := &job.Job{Units: plane.Millimetres}
	room := hand.Room(plane.Rectangle(plane.Pt(0, 0), plane.Pt(3000, 2000)))
	room.Name = "Hall"
	state := layout.FloorState{Mean: 26, Spread: 1.5, Coldest: &layout.FloorSpot{At: plane.Pt(400, 150), Celsius: 21}}
	p := &layout.Plan{Job: j, Rooms: []layout.Room{{Job: &job.Room{}},
		{Job: room, Warm: &layout.WarmFloor{Spot: 110, Cold: state, Hot: state}}}}
	out := floors(p)
	if len(out) != 1 || out[0].Room != "Hall" || out[0].Spot != 110 || out[0].Mean != 26 || out[0].Hot.Spread != 1.5 {
		t.Fatalf("%+v", out)
	}
	if c := out[0].Coldest; c == nil || *c != (Spot{21, 400, 150, "150 mm from wall A, 400 mm from wall D"}) &&
		*c != (Spot{21, 400, 150, "150 mm from wall A, 2600 mm from wall B"}) {
		t.Errorf("%+v", c)
	}
	if out[0].Warmest != nil {
		t.Errorf("%+v", out[0].Warmest)
	}
}

// Lost and given are ranges, shares become per cent.
func TestLossInPerCent(t *testing.T) {
	p := &layout.Plan{Job: &job.Job{Units: plane.Inches},
		Losses: []layout.RoomLoss{{Room: "Bath", Loss: heat.Loss{Inside: 20, Outside: -5, Volume: 10,
			Changes: heat.Range{Low: 0.5, High: 1}},
			Lost: heat.Range{Low: 400, High: 600}, Gives: heat.Range{Low: 300, High: 320}, Covers: heat.Range{Low: 0.5,
				High: 0.8}}}}
	l := losses(p)[0]
	if l.Lost != [2]float64{400, 600} || l.Gives != [2]float64{300, 320} || math.Abs(l.Percent[0]-50)+
		math.Abs(l.Percent[1]-80) > 1e-9 || l.Outside != -5 || l.Inside != 20 {
		t.Errorf("%+v", l)
	}
	// 0.018 in handbooks, from memory
	if want := "air: 353 ft³, 0.5 to 1 changes an hour, 0.0183 Btu/(ft³ °F) (EN 12831)"; l.Basis[0] != want {
		t.Errorf("%q, want %q", l.Basis[0], want)
	}
}

// Figures are rounded each to its own tag, deep inside too, and nothing of the report itself is.
func TestRoundedLeavesTheReportAsItIs(t *testing.T) {
	r := Report{Rooms: []Room{{Floor: 1.23456, Cables: []Cable{{Amps: 2.34567, Ohms: Ohms{Nominal: 96.789}}}}},
		Energy: []Energy{{Month: [2]float64{1.26, 3.44}}}, Supply: Supply{Volts: &Limit{230.456, "x"}}}
	var b, again []byte
	for _, to := range []*[]byte{&b, &again} {
		w := &writer{}
		if err := r.WriteJSON(w); err != nil {
			t.Fatal(err)
		}
		*to = w.b
	}
	var back Report
	if err := json.Unmarshal(b, &back); err != nil {
		t.Fatal(err)
	}
	if got := fmt.Sprint(back.Rooms[0].Floor, back.Rooms[0].Cables[0].Amps, back.Rooms[0].Cables[0].Ohms.Nominal,
		back.Energy[0].Month, back.Supply.Volts.Value); got != "1.235 2.346 96.79 [1.3 3.4] 230.46" {
		t.Error(got)
	}
	if r.Rooms[0].Floor != 1.23456 || r.Supply.Volts.Value != 230.456 || r.Energy[0].Month[0] != 1.26 ||
		string(b) != string(again) {
		t.Errorf("the report itself is rounded: %+v", r)
	}
	if back.Sensor != nil || back.Circuits != nil {
		t.Errorf("%+v", back)
	}
}

type writer struct{ b []byte }

func (w *writer) Write(p []byte) (int, error) { w.b = append(w.b, p...); return len(p), nil }
