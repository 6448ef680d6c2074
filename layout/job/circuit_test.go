package job

import (
	"strings"
	"testing"
)

func TestCircuitOfAThermostat(t *testing.T) {
	one := &Job{Circuits: []Circuit{{Name: "7"}}}
	two := &Job{Circuits: []Circuit{{Name: "7"}, {Name: "9"}}}
	for _, c := range []struct {
		job   *Job
		named string
		want  string
	}{{one, "", "7"}, {one, "7", "7"}, {one, "9", ""}, {two, "", ""}, {two, "9", "9"}, {&Job{}, "", ""}} {
		got := ""
		if found := c.job.Circuit(Thermostat{Circuit: c.named}); found != nil {
			got = found.Name
		}
		if got != c.want {
			t.Errorf("%d circuits, %q named: %q, want %q", len(c.job.Circuits), c.named, got, c.want)
		}
	}
}

func TestCircuitAndSensorAreRead(t *testing.T) {
	j := readGood(t, "testdata/good/every-key.toml")
	c := j.Circuits[0]
	if c.Conductor != "2.5 mm²" || c.Length != 20000 || c.Breaker != 16 || !c.CelsiusGiven || c.Celsius != 70 ||
		c.GroundFault != 30 || c.GroundFaultsAt != "breaker" {
		t.Errorf("%+v", c)
	}
	if j.Rooms[0].Thermostat.Circuit != "7" {
		t.Error("the thermostat's circuit is not read")
	}
	if ohms, err := j.Sensor.Family.Ohms(20); err != nil || ohms < 12489 || ohms > 12491 ||
		j.Sensor.Source != FromInstructions {
		t.Errorf("sensor: %g, %v, %v", ohms, err, j.Sensor.Source)
	}
	if k := j.Warmth.Covering; !k.Given || k.Celsius != 27 || k.Source != FromInstructions {
		t.Errorf("%+v", k)
	}
}

// FuzzSensorTable: no line of a sensor's table is taken for what it is not.
func FuzzSensorTable(f *testing.F) {
	for _, s := range []string{"20 C 12490", "68 F 12490", "20 12490", "", " ", "C", "20 C", "20 C NaN", "20 C -1",
		"1e999 C 1"} {
		f.Add(s)
	}
	f.Fuzz(func(t *testing.T, line string) {
		text := "[sensor]\nkind = \"table\"\ntable = [" + quoted(line) + ", \"90 C 1000\"]\n"
		j, r := Read("f.toml", []byte(text), nil)
		if j == nil || j.Sensor.Family.Curve == nil {
			if r.Errors() == 0 {
				t.Fatalf("%q: no sensor and no error", line)
			}
			return
		}
		if _, err := j.Sensor.Family.Ohms(90); err != nil {
			t.Fatalf("%q: taken, but %v", line, err)
		}
	})
}

// quoted writes any text as a TOML string.
func quoted(s string) string {
	var b strings.Builder
	b.WriteByte('"')
	for _, r := range strings.ToValidUTF8(s, "") {
		if r == '"' || r == '\\' || r < ' ' || r == 0x7f {
			continue
		}
		b.WriteRune(r)
	}
	return b.String() + `"`
}
