package ownersmap

import (
	"oxturn/layout"
	"oxturn/layout/job"
	"oxturn/layout/passport"
	"oxturn/layout/say"
)

// cableKept is what must be known of one cable before a fault of it can be found, years
// after its job file is lost.
type cableKept struct {
	ID       string
	Facts    []kept
	Readings []readingKept
	Text     string // what the code on the panel's label says
}

// kept is one fact in words.
type kept struct{ About, Words string }

// readingKept is a row of the test record.
type readingKept struct{ Stage, Date, By, Ohms, Insulation, Capacitance string }

// cablesKept are those of a room.
func cablesKept(p *layout.Plan, r *layout.Room) (out []cableKept) {
	f := p.Job.Figures()
	for i := range r.Cables {
		c := &r.Cables[i]
		l := c.Label
		k := cableKept{ID: c.ID, Text: passport.Of(p, r, c)}
		k.add(f.Text("label"), f.Textf("%s: %s, %s, heating cable %s, cold lead %s", l.ID, f.Volts(l.Volts),
			f.Watts(l.Watts), f.Long(l.Length), f.Long(l.Lead)))
		k.add(f.Text("ohms"), f.Textf("%s at 20 °C (%s), good from %s", f.Ohms(c.Circuit.Nominal),
			f.Text(c.Circuit.OhmsFrom), f.OhmsRange(c.Circuit.Limits.Low, c.Circuit.Limits.High)))
		k.recorded(c, f)
		k.circuit(p, r, f)
		k.seenWarm(c, f)
		out = append(out, k)
	}
	return out
}

func (k *cableKept) add(about, words string) { k.Facts = append(k.Facts, kept{about, words}) }

// recorded adds what was written down of the cable as it lies.
func (k *cableKept) recorded(c *layout.Cable, f say.Figures) {
	if c.Laid == nil {
		return
	}
	a := c.Laid.Job
	if a.Lead > 0 {
		k.add(f.Text("lead"), f.Textf("one cold lead is %s as cut at the box", f.Long(a.Lead)))
	}
	for _, x := range []kept{{f.Text("lot"), a.Lot}, {f.Text("tester"), a.Tester},
		{f.Text("trip test"), f.Text(a.TripTest)}} {
		if x.Words != "" {
			k.Facts = append(k.Facts, x)
		}
	}
	if a.Volts > 0 || a.Amps > 0 {
		k.add(f.Text("hook-up"), f.Textf("%s, %s, the floor on", f.Volts(a.Volts), f.AmpsGiven(a.Amps)))
	}
	for _, r := range a.Readings {
		row := readingKept{Stage: f.Text(r.Stage), By: r.By, Ohms: read(f, r.Ohms, say.Ohms),
			Insulation: read(f, r.Insulation, say.Megohms), Capacitance: read(f, r.Capacitance, say.Nanofarads)}
		if r.Insulation.Taken {
			row.Insulation = f.Textf("%s at %s", row.Insulation, f.Volts(r.Volts))
		}
		if !r.Date.IsZero() {
			row.Date = r.Date.Format("2006-01-02")
		}
		k.Readings = append(k.Readings, row)
	}
}

// seenWarm says what a thermal camera shows of the cable, whole and not: it is one series
// circuit, which a break stops everywhere and a short of its cores ends.
func (k *cableKept) seenWarm(c *layout.Cable, f say.Figures) {
	if c.Spacing <= 0 {
		return
	}
	words := f.Textf("only where it passes its tests is it switched on. Half an hour later, whole: stripes about %s "+
		"apart on all of its floor. Broken: none anywhere.", f.Spacing(c.Spacing))
	if len(c.Joined()) == 1 {
		words += f.Text(" Its cores shorted: stripes warmer than usual from START to the short, none beyond.")
	}
	k.add(f.Text("thermal camera"), words)
}

// read writes a figure off an instrument; empty where none was taken.
func read(f say.Figures, v job.Figure, write func(float64) string) string {
	switch {
	case !v.Taken:
		return ""
	case v.Over:
		return f.Textf("over %s", f.Figure(write(v.Value)))
	}
	return f.Figure(write(v.Value))
}

// circuit says what feeds the room, and what guards it, where the job says so.
func (k *cableKept) circuit(p *layout.Plan, r *layout.Room, f say.Figures) {
	for _, c := range p.Circuits {
		if c.Job == nil {
			continue
		}
		for _, name := range c.Rooms {
			if name != r.Job.Name {
				continue
			}
			words := c.Job.Name
			if c.Job.Breaker > 0 {
				words += f.Textf(", breaker %s", f.AmpsGiven(c.Job.Breaker))
			}
			if c.Job.GroundFault > 0 {
				words += f.Textf(", ground-fault device %s", f.Milliamps(c.Job.GroundFault))
			}
			if c.Job.GroundFaultsAt != "" {
				words += f.Textf(" at the %s", f.Text(c.Job.GroundFaultsAt))
			}
			k.add(f.Text("circuit"), words)
		}
	}
}
