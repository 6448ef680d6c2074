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
	got := strings.ReplaceAll(rowsOf(setting.Table{Rows: circuitRows(v)}), setting.NoBreak, " ")
	for _, want := range []string{"1 A breaker: 0.8 A at 80 %: LESS than the load",
		"20 A breaker: 16 A at 80 %: enough; the contacts carry only 15 A"} {
		if !strings.Contains(got, want) {
			t.Errorf("no %q in\n%s", want, got)
		}
	}
}

// What is expected stands at the sheet's own degrees and in kΩ, and an assumed curve says
// that it is.
func TestSensorTable(t *testing.T) {
	f := say.Figures{Units: plane.Inches}
	for _, c := range []struct {
		kind, want string
		at         int // of the column that is headed want
		reads      string
	}{{"10k-3977", "77 °F", 4, "10.00"}, {"12k", "59 °F", 2, ""},
		{"pt1000", "50 °F", 1, "1.04"}} {
		family, err := circuit.FindFamily(c.kind)
		if err != nil {
			t.Fatal(err)
		}
		table, _ := sensorTable(job.Sensor{Family: family, Tolerance: 3}, f, false)
		sheet := table[0].(setting.Table)
		if got := strings.ReplaceAll(sheet.Cols[c.at].Head, setting.NoBreak, " "); got != c.want {
			t.Errorf("%s: column %d is headed %q, want %q", c.kind, c.at, got, c.want)
		}
		if got := sheet.Rows[0][c.at].Text; c.reads != "" && got != c.reads {
			t.Errorf("%s at %s: %s kΩ, want %s", c.kind, c.want, got, c.reads)
		}
		if assumed := strings.Contains(rowsOf(sheet), "assumed 1.2 times"); assumed != (c.kind == "12k") {
			t.Errorf("%s: its curve is said to be assumed: %v", c.kind, assumed)
		}
	}
	if _, words := sensorTable(job.Sensor{}, f, false); len(words) != 1 || !strings.Contains(words[0], "not given") {
		t.Error("no kind, and it is not said")
	}
}
