package main

import (
	"bytes"
	"context"
	"html"
	"os"
	"path/filepath"
	"strings"
	"testing"
	"time"

	"oxturn/drawing"
	"oxturn/drawing/web/ownersmap"
	"oxturn/layout"
	"oxturn/layout/calendar"
	"oxturn/layout/compare"
	"oxturn/layout/figures"
	"oxturn/layout/plane"
	"oxturn/layout/probe"
	"oxturn/layout/say"
	"oxturn/layout/takeoff"
)

// TestSaidAlike: a quantity of the examples reads the same wherever it is said.
func TestSaidAlike(t *testing.T) {
	for _, n := range []string{"bath", "kitchen", "entry"} {
		name := "../../testdata/jobs/" + n + ".toml"
		data, err := os.ReadFile(name)
		if err != nil {
			t.Fatal(err)
		}
		open := func(other string) ([]byte, error) { return os.ReadFile(filepath.Join(filepath.Dir(name), other)) }
		w, err := do(context.Background(), source{name: name, data: data, open: open},
			workOptions{timeLimit: 2 * time.Minute})
		if err != nil || w.plan == nil {
			t.Fatalf("%s: %v", n, err)
		}
		said := everywhere(t, w)
		for _, q := range quantitiesOf(w.plan) {
			for _, where := range strings.Fields(q.where) {
				if !strings.Contains(said[where], q.words) {
					t.Errorf("%s: %s is not said as %q in %s", n, q.what, q.words, where)
				}
			}
		}
	}
}

// A said is a quantity with its words and where they stand.
type said struct{ what, words, where string }

func quantitiesOf(p *layout.Plan) []said {
	var out []said
	u := p.Units()
	for i := range p.Rooms {
		r := &p.Rooms[i]
		l := p.LoadOf(r.Job.Name)
		out = append(out, said{"heated", say.Area(r.Heated.Area(), u), "check sheets"},
			said{"tiled", say.Area(r.Tiled.Area(), u), "check"},
			said{"watts", say.Watts(l.Watts), "check sheets summary brief compare"},
			said{"amps", say.Amps(l.Amps), "check sheets summary compare"},
			said{"box", say.Whole(r.Job.Thermostat.Height, u), "check"})
		for k := range r.Cables {
			c := &r.Cables[k]
			limits, record := c.Circuit.Limits, c.RecordLimits()
			out = append(out, said{"length", say.Long(c.Label.Length, u), "check sheets takeoff summary"},
				said{"volts", say.Volts(c.Label.Volts), "check sheets takeoff summary compare map"},
				said{"a cable's amps", say.Amps(c.Circuit.Amps), "check sheets"},
				said{"ohms", say.Ohms(c.Circuit.Nominal), "check sheets map"},
				said{"ohms allowed", say.OhmsFigures(limits.Low, limits.High), "check sheets map calendar"},
				said{"tolerance", say.Tolerance(limits.LowShare, limits.HighShare), "check sheets"},
				said{"least insulation", say.Megohms(record.Megohms), "calendar"},
				said{"least insulation", "MΩ (" + say.Plain(record.Megohms) + " least)", "sheets"},
				said{"test voltage", say.Volts(record.Volts) + " dc", "calendar"},
				said{"even, in pegs", say.Pegs(c.Spacing / p.Job.Membrane.Pitch), "check summary"},
				said{"even", say.Apart(c.Spacing, u), "check sheets summary"},
				said{"density", say.Density(c.Density, u), "check sheets summary compare"},
				said{"over heated", say.Density(c.OverServed(), u), "check sheets summary"},
				said{"densest", say.Density(c.Gaps.Densest, u), "check sheets"},
				said{"per length", say.PerLength(c.Circuit.WattsPerMetre, u), "check sheets"},
				said{"lead", say.Long(c.Label.Lead, u), "check sheets"},
				said{"half-way", say.Long(c.Halfway().Along, u), "probe"})
			if run := p.Warmth.Of(c.ID); run != nil {
				limit := run.Verdicts[0].Limit.Celsius
				out = append(out, said{"limit", say.Degrees(limit, u), "check sheets"})
			}
		}
		tape := layout.NewTape(r.Job, u)
		for _, s := range r.Sensors {
			out = append(out, said{s.Name, tape.Length(tape.Walls[tape.D1].FromWall(s.Tip)), "map"})
		}
	}
	for _, c := range p.Circuits {
		out = append(out, circuitQuantities(c, u)...)
	}
	return out
}

// circuitQuantities are those of a circuit that the electrician has settled.
func circuitQuantities(c layout.Circuit, u plane.Units) (out []said) {
	if c.Job == nil {
		return nil
	}
	if c.Job.Breaker > 0 {
		out = append(out, said{"breaker", say.AmpsGiven(c.Job.Breaker), "check sheets map"})
	}
	if c.Job.GroundFault > 0 {
		out = append(out, said{"trips at", say.Milliamps(c.Job.GroundFault), "check sheets map"})
	}
	if d := c.Drop; d != nil {
		out = append(out, said{"drop", say.VoltageDrop(d.Volts, d.Share), "check sheets"},
			said{"feed", say.Long(c.Job.Length, u), "check sheets"})
	}
	return out
}

// everywhere is all that is said of a job, by where it is said.
func everywhere(t *testing.T, w *work) map[string]string {
	t.Helper()
	var check, takeOff, page, days bytes.Buffer
	p := w.plan
	for _, err := range []error{figures.Of(p).WriteText(&check), takeoff.WriteCSV(&takeOff, p.TakeOff),
		ownersmap.Write(&page, p), calendar.Write(&days, p)} {
		if err != nil {
			t.Fatal(err)
		}
	}
	return map[string]string{
		"check": check.String(), "takeoff": takeOff.String(), "map": html.UnescapeString(page.String()),
		"sheets": lettering(w.sheets), "summary": strings.Join(summaryLines(p), "\n"), "brief": briefLine(p),
		"calendar": unfolded(days.String()),
		"compare":  doubled(p), "probe": atHalfway(p),
	}
}

// unfolded is the text of a calendar without the line breaks and escapes of its format.
func unfolded(ics string) string {
	return strings.NewReplacer("\r\n ", "", `\;`, ";", `\,`, ",").Replace(ics)
}

// lettering is all that is written on sheets.
func lettering(set []*drawing.Sheet) string {
	var b strings.Builder
	for _, s := range set {
		for _, it := range s.Items {
			if x, ok := it.(*drawing.Text); ok {
				b.WriteString(x.Text + " ")
			}
		}
	}
	return strings.ReplaceAll(b.String(), "\u00a0", " ")
}

// doubled is what compare says of a plan beside one of twice its heat.
func doubled(p *layout.Plan) string {
	q := *p
	q.Load = append([]layout.Load{}, p.Load...)
	for i := range q.Load {
		q.Load[i].Watts *= 2
	}
	q.Rooms = append([]layout.Room{}, p.Rooms...)
	for i := range q.Rooms {
		q.Rooms[i].Cables = append([]layout.Cable{}, p.Rooms[i].Cables...)
		for k := range q.Rooms[i].Cables {
			q.Rooms[i].Cables[k].Density *= 2
		}
	}
	var out []string
	for _, c := range compare.Plans(p, &q) {
		out = append(out, c.String())
	}
	return strings.Join(out, "\n")
}

// atHalfway is what probe says of every half-way mark.
func atHalfway(p *layout.Plan) string {
	var out []string
	for i := range p.Rooms {
		m := probe.Of(p, &p.Rooms[i])
		for k := range p.Rooms[i].Cables {
			for _, n := range m.At(p.Rooms[i].Cables[k].Halfway().At).Near {
				out = append(out, m.Reckoning(n))
			}
		}
	}
	return strings.Join(out, "\n")
}
