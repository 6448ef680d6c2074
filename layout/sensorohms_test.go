package layout_test

import (
	"math"
	"strings"
	"testing"

	"oxturn/layout"
	"oxturn/layout/internal/trial"
)

const readOnce = "[[as_laid]]\nroom = \"Landing\"\nevidence = \"measured by hand\"\nruns = " +
	"1\n[[as_laid.reading]]\nstage = \"on spool\"\nohms = 60\nsensor = "

func sensorSays(t *testing.T, kind, rest string) string {
	t.Helper()
	p, said := trial.Said(t, trial.Landing+"[sensor]\n"+kind+"\n"+readOnce+rest+"\n")
	_, verdicts, err := p.Rooms[0].Cables[0].Readings()
	if err != nil {
		t.Fatal(err)
	}
	for _, v := range verdicts {
		if v.Item == "sensor" {
			outside := strings.Contains(strings.Join(said["W111"], "\n"), "sensor")
			if outside != (v.Grade.String() == "outside limits") {
				t.Errorf("%s: warned %v", v.Grade, outside)
			}
			return v.Grade.String() + ": " + v.Words.String()
		}
	}
	return ""
}

// 12,490 Ω at 20 °C and 32,650 Ω at 0 °C are what an instrument service manual and
// a probe manual print for the 10 kΩ family; 1.2 times the first would be a 12 kΩ
// sensor's, by the multiple assumed here.
func TestSensorReadingsAreJudged(t *testing.T) {
	for _, c := range []struct{ kind, rest, want string }{
		{`kind = "10k-3977"`, "12490\nfloor = 20", "within limits: 12490 Ω"},
		{`kind = "10k-3977"`, "32650\nfloor = 0", "within limits: 32650 Ω"},
		{`kind = "10k-3977"`, "14990\nfloor = 20", "outside limits"},
		{`kind = "10k-3977"`, "14990\nfloor = 20", "it fits another kind better: a 12k would read that at 20 °C"},
		{`kind = "12k"`, "14990\nfloor = 20", "within limits"},
		{`kind = "pt1000"`, "1077.9\nfloor = 20", "within limits"},
		{`kind = "10k-3977"`, "1077.9\nfloor = 20", "a pt1000 would read that"},
		{`kind = "10k-3977"`, "12490", "look at this: 12490 Ω; no figure to hold it against"},
		{"kind = \"table\"\ntable = [\"10 C 20000\", \"30 C 8000\"]", "8000\nfloor = 30", "within limits"},
		{"kind = \"table\"\ntable = [\"0 C 30000\", \"10 C 20000\", \"40 C 5000\"]", "20000\nfloor = 10",
			"within limits"},
	} {
		if got := sensorSays(t, c.kind, c.rest); !strings.Contains(got, c.want) {
			t.Errorf("%s, %q: %q, want %q", c.kind, c.rest, got, c.want)
		}
	}
}

// What is expected is printed for usual temperatures, lowest ohms first whichever
// way the kind runs.
func TestExpectedSensor(t *testing.T) {
	for kind, want := range map[string]float64{"10k-3977": 10000, "pt1000": 1097.35} {
		p, _ := trial.Said(t, trial.Landing+"[sensor]\nkind = \""+kind+"\"\n")
		all := layout.ExpectedSensor(p.Job.Sensor)
		if len(all) != 5 || all[3].Celsius != 25 || math.Abs(all[3].Ohms-want) > 1e-3*want {
			t.Errorf("%s: %+v", kind, all)
		}
		for _, o := range all {
			if !(o.Lowest < o.Ohms && o.Ohms < o.Highest) {
				t.Errorf("%s: %+v", kind, o)
			}
		}
	}
	p, _ := trial.Said(t, trial.Landing)
	if got := layout.ExpectedSensor(p.Job.Sensor); got != nil {
		t.Errorf("no kind, yet %+v", got)
	}
}
