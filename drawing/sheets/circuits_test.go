package sheets

import (
	"strings"
	"testing"

	"oxturn/drawing/floorplan"
	"oxturn/drawing/setting"
	"oxturn/layout"
	"oxturn/layout/circuit"
	"oxturn/layout/job"
	"oxturn/layout/plane"
	"oxturn/layout/say"
)

// circuitView is the sample's bath on a circuit.
func circuitView(t *testing.T, j *job.Circuit, ratings []float64) *floorplan.View {
	t.Helper()
	p := samplePlan(t, plane.Inches)
	load := p.Load[0].Load
	p.Circuits = []layout.Circuit{{Job: j, Rooms: []string{p.Rooms[0].Job.Name}, Total: load,
		Ratings: load.Bindings(ratings)}}
	return &floorplan.View{Page: &setting.Page{Plan: p}, Room: &p.Rooms[0], Fig: p.Job.Figures()}
}

func rowsOf(b setting.Block) string {
	var out []string
	for _, r := range b.(setting.Table).Rows {
		var cells []string
		for _, c := range r {
			cells = append(cells, c.Text)
		}
		out = append(out, strings.Join(cells, ": "))
	}
	return strings.Join(out, "\n")
}

// What the job gives of a circuit stands in the electrician's rows, with its
// source; what it does not give stays to be filled in.
func TestGivenCircuitIsFilledIn(t *testing.T) {
	v := circuitView(t, &job.Circuit{Name: "7", Breaker: 20, GroundFault: 5}, []float64{20})
	got := rowsOf(toSettle(v))
	for _, want := range []string{settleCircuit + ", panel: 7", "Breaker, A: 20 A, job file", settleConductor + ": \n",
		settleFault + ": at thermostat / at panel, class, mA: 5 mA, job file", "Disconnect: \n"} {
		if !strings.Contains(got, want) {
			t.Errorf("no %q in\n%s", want, got)
		}
	}
}

// 1.5 A on a 1 A breaker: 80 % is 0.8 A. On 20 A the 15 A contacts decide.
func TestCircuitSaysWhatBinds(t *testing.T) {
	v := circuitView(t, nil, []float64{1, 20})
	got := strings.ReplaceAll(rowsOf(circuitTable(v)[0]), setting.NoBreak, " ")
	for _, want := range []string{"1 A breaker: 80 % is 0.8 A; LESS than the load",
		"20 A breaker: 80 % is 16 A; more than the load, but the contacts carry only 15 A"} {
		if !strings.Contains(got, want) {
			t.Errorf("no %q in\n%s", want, got)
		}
	}
}

// What is expected stands at the sheet's own degrees and in kΩ, and an assumed curve says
// that it is.
func TestSensorTable(t *testing.T) {
	f := say.Figures{Units: plane.Inches}
	for _, c := range []struct{ kind, want string }{{"10k-3977", "77 °F (25 °C): 10.00: "},
		{"12k", "assumed 1.2 times"}, {"pt1000", "50 °F (10 °C): 1.04: "}} {
		family, err := circuit.FindFamily(c.kind)
		if err != nil {
			t.Fatal(err)
		}
		got := rowsOf(sensorTable(job.Sensor{Family: family, Tolerance: 3}, f)[0])
		if !strings.Contains(got, c.want) {
			t.Errorf("%s: no %q in\n%s", c.kind, c.want, got)
		}
	}
	if l, ok := sensorTable(job.Sensor{}, f)[0].(setting.List); !ok || !strings.Contains(l.Paras[0], "not given") {
		t.Error("no kind, and it is not said")
	}
}
