package load

import (
	"strings"
	"testing"

	"oxturn/layout"
	"oxturn/layout/circuit"
	"oxturn/layout/job"
	"oxturn/layout/record"
)

// of returns the values of the facts of a quantity.
func of(q circuit.Quantity, all []fact) (out []float64) {
	for _, f := range all {
		if f.Quantity == q {
			out = append(out, f.Value)
		}
	}
	return out
}

// What a region's rules speak of, by hand: 22 °C of room and 30 K over it are 52 °C at the
// cable; a circuit shared by two cables counts by its breaker, by its continuous load where
// the job gives none; 3 of 100 V are 3 %. A room without cable has no lead in its box.
func TestFactsByHand(t *testing.T) {
	p := &layout.Plan{Job: &job.Job{}, Warmth: &layout.Warmth{Warmest: 22}}
	p.Rooms = []layout.Room{{Job: &job.Room{Thermostat: job.Thermostat{Tail: 150}}},
		{Job: &job.Room{Thermostat: job.Thermostat{Tail: 200}}, Cables: make([]layout.Cable, 1)}}
	run := layout.Warm{Cables: []string{"H1"}}
	run.Hot.Steady.Hottest = 30
	p.Warmth.Runs = []layout.Warm{run}
	alone, shared := circuit.Load{Cables: 1, Continuous: 12.5}, circuit.Load{Cables: 2, Continuous: 12.5}
	p.Circuits = []layout.Circuit{{Total: alone}, {Total: shared}, {Total: shared, Job: &job.Circuit{}},
		{Total: shared, Job: &job.Circuit{Breaker: 0.5, GroundFault: 0.5}, Drop: &circuit.Drop{Share: 0.03}}}
	all := facts(p)
	for q, want := range map[circuit.Quantity][]float64{
		circuit.LeadInBox: {200}, circuit.ZoneCelsius: {52}, circuit.SharedAmps: {12.5, 12.5, 0.5},
		circuit.GroundFaultTrip: {0.5}, circuit.FeedShare: {3},
	} {
		got := of(q, all)
		if len(got) != len(want) {
			t.Fatalf("%v: %v, want %v", q, got, want)
		}
		for i := range want {
			if d := got[i] - want[i]; d > 1e-9 || d < -1e-9 {
				t.Errorf("%v: %v, want %v", q, got, want)
			}
		}
	}
}

// Thermostats that the job puts on no circuit stand alone.
func TestEachOnItsOwnCircuit(t *testing.T) {
	p := &layout.Plan{Job: &job.Job{}}
	for _, name := range []string{"Bath", "Hall"} {
		p.Rooms = append(p.Rooms, layout.Room{Job: &job.Room{Name: name}})
		p.Load = append(p.Load, layout.Load{Room: name})
	}
	if got := circuits(p); len(got) != 2 {
		t.Errorf("%d circuits", len(got))
	}
}

// A breaker that the job gives is the one rating, however small; without, all usual ones are.
func TestRatingsOfACircuit(t *testing.T) {
	c, err := circuit.Compute(circuit.Label{ID: "C", Volts: 120, Watts: 24, Length: 10000}, 0)
	if err != nil {
		t.Fatal(err)
	}
	for breaker, want := range map[float64]int{0: len(circuit.NorthAmerica.Ratings), 0.5: 1} {
		g := group{job: &job.Circuit{Breaker: breaker}, cables: []circuit.Cable{c}}
		if got, err := g.add(circuit.NorthAmerica); err != nil || len(got.Ratings) != want {
			t.Errorf("a breaker of %g A: %d ratings, want %d, %v", breaker, len(got.Ratings), want, err)
		}
	}
}

// 80 % of a breaker is for continuous loads (NEC 210.20(A)): 1 A carries 0.8 A.
func TestSmallBreakerIsOverloaded(t *testing.T) {
	c := layout.Circuit{Job: &job.Circuit{Breaker: 1}, Ratings: []circuit.Binding{{Usable: 0.8}},
		Total: circuit.Load{Amps: 2, Region: circuit.NorthAmerica}}
	if got := overloaded(c); len(got) != 1 || !strings.Contains(got[0].Message, "0.8 A, which is 80 % of its") {
		t.Errorf("%+v", got)
	}
}

// A reading that goes back is said by what goes back: its date or its stage.
func TestWhatGoesBackIsNamed(t *testing.T) {
	c := &layout.Cable{Laid: &layout.Laid{Job: &job.Laid{Readings: make([]job.Reading, 2)}}}
	v := record.Verdict{Item: record.OfDate, Reading: 1}
	if got := disorder(c, v).Hint; !strings.Contains(got, "which of the two dates") {
		t.Errorf("a date: %q", got)
	}
	v.Item = record.OfStage
	if got := disorder(c, v).Hint; !strings.Contains(got, "name the stage") {
		t.Errorf("a stage: %q", got)
	}
}
