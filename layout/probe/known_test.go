package probe

import (
	"math"
	"strings"
	"testing"

	"oxturn/layout"
	"oxturn/layout/circuit"
	"oxturn/layout/job"
	"oxturn/layout/language"
	"oxturn/layout/plane"
	"oxturn/layout/record"
)

func cableRead(label job.Cable, readings ...job.Reading) *layout.Cable {
	c := &layout.Cable{ID: "H1", Label: label}
	if readings != nil {
		c.Laid = &layout.Laid{Job: &job.Laid{Readings: readings}}
	}
	return c
}

// By hand: 240 V and 600 W are 96 Ω, of which 10 % are 9.6; a meter that may be off by 1 % reads
// 95 Ω to 0.95, all of it its gain. The wider side of a tolerance holds.
func TestOhmsByRecordAndLabel(t *testing.T) {
	taken := func(v float64) job.Figure { return job.Figure{Value: v, Taken: true} }
	label := job.Cable{Volts: 240, Watts: 600, OhmsLow: -0.05, OhmsHigh: 0.1}
	given := label
	given.Ohms = 100
	lower := given
	lower.OhmsLow, lower.OhmsHigh = -0.1, 0.05
	small := label
	small.Ohms = 0.5
	for _, k := range []struct {
		name string
		c    *layout.Cable
		want record.Measured
		from string
	}{
		{"volts and watts", cableRead(label), record.Measured{Value: 96, Error: 9.6},
			"reckoned from the volts and watts"},
		{"ohms", cableRead(given), record.Measured{Value: 100, Error: 10},
			"are those on its label, within its tolerance of 10 %"},
		{"lower ohms", cableRead(lower), record.Measured{Value: 100, Error: 10}, "on its label"},
		{"half an ohm", cableRead(small), record.Measured{Value: 0.5, Error: 0.05}, "on its label"},
		{"no figures", cableRead(job.Cable{}), record.Measured{}, ""},
		{"no watts", cableRead(job.Cable{Volts: 240}), record.Measured{}, ""},
		{"nothing read", cableRead(given, job.Reading{Stage: "laid, before cover"}), record.Measured{Value: 100,
			Error: 10},
			"on its label"},
		{"read", cableRead(given, job.Reading{Stage: "tiled", Ohms: taken(95)}),
			record.Measured{Value: 95, Error: 0.95, Gain: 0.95}, `recorded at stage "tiled"`},
		{"read twice", cableRead(given, job.Reading{Stage: "covered", Ohms: taken(94)},
			job.Reading{Stage: "tiled", Ohms: taken(95)}), record.Measured{Value: 95, Error: 0.95, Gain: 0.95},
			`"tiled"`},
		{"read in service", cableRead(given, job.Reading{Stage: "tiled", Ohms: taken(95)},
			job.Reading{Stage: record.Service.String(), Ohms: taken(60)}),
			record.Measured{Value: 95, Error: 0.95, Gain: 0.95}, `"tiled"`},
		{"only in service", cableRead(given, job.Reading{Stage: record.Service.String(), Ohms: taken(60)}),
			record.Measured{Value: 100, Error: 10}, "on its label"},
		{"over its range", cableRead(given, job.Reading{Stage: "tiled", Ohms: job.Figure{Value: 200, Taken: true,
			Over: true}}), record.Measured{Value: 100, Error: 10}, "on its label"},
		{"not taken", cableRead(given, job.Reading{Stage: "tiled", Ohms: job.Figure{Value: 95}}),
			record.Measured{Value: 100, Error: 10}, "on its label"},
	} {
		got := KnownOf(k.c, plane.Millimetres, 0.01, language.English)
		if math.Abs(got.Ohms.Value-k.want.Value) > 1e-9 || math.Abs(got.Ohms.Error-k.want.Error) > 1e-9 ||
			math.Abs(got.Ohms.Gain-k.want.Gain) > 1e-9 || !strings.Contains(got.OhmsFrom, k.from) ||
			(got.OhmsFrom == "") != (k.from == "") {
			t.Errorf("%s: %+v, %q", k.name, got.Ohms, got.OhmsFrom)
		}
	}
}

// Capacitance is known from a record only; lengths read in the units of the drawings.
func TestCapacitanceByRecord(t *testing.T) {
	label := job.Cable{Length: 30000, Lead: 3000, Ends: circuit.BothEnds, Ohms: 100}
	read := cableRead(label, job.Reading{Stage: "covered", Capacitance: job.Figure{Value: 9, Taken: true}},
		job.Reading{Stage: "grouted", Ohms: job.Figure{Value: 95, Taken: true}})
	k := KnownOf(read, plane.Inches, 0.02, language.English)
	if k.Farads != (record.Measured{Value: 9, Error: 0.18, Gain: 0.18}) || !strings.Contains(k.FaradsFrom,
		`"covered"`) ||
		k.Ohms.Value != 95 || !k.Feet || k.Length != 30000 || k.Lead != 3000 || k.Ends != circuit.BothEnds {
		t.Errorf("%+v", k)
	}
	if k := KnownOf(cableRead(label), plane.Millimetres, 0.02, language.English); k.Farads != (record.Measured{}) ||
		k.FaradsFrom != "" ||
		k.Feet {
		t.Errorf("%+v", k)
	}
}

// A lead that was cut at the box counts as cut, where that was written down.
func TestLeadAsCut(t *testing.T) {
	c := cableRead(job.Cable{Length: 30000, Lead: 3000, Ohms: 100}, job.Reading{})
	if k := KnownOf(c, plane.Millimetres, 0.01, language.English); k.Lead != 3000 {
		t.Errorf("by the label: %g mm", k.Lead)
	}
	c.Laid.Job.Lead = 2400
	if k := KnownOf(c, plane.Millimetres, 0.01, language.English); k.Lead != 2400 {
		t.Errorf("as cut: %g mm", k.Lead)
	}
}
