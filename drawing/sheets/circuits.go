package sheets

import (
	"slices"
	"strings"

	"oxturn/drawing/floorplan"
	"oxturn/drawing/setting"
	"oxturn/layout"
	"oxturn/layout/circuit"
	"oxturn/layout/job"
	"oxturn/layout/pattern"
	"oxturn/layout/plane"
	"oxturn/layout/say"
)

// circuitOf returns what feeds the room's thermostat.
func circuitOf(v *floorplan.View) (layout.Circuit, bool) {
	for _, c := range v.Plan.Circuits {
		for _, name := range c.Rooms {
			if name == v.Room.Job.Name {
				return c, true
			}
		}
	}
	return layout.Circuit{}, false
}

// circuitRows say what the circuit carries: held against its breaker where the
// job gives one, against usual ones otherwise.
func circuitRows(v *floorplan.View) (rows [][]setting.Cell) {
	c, ok := circuitOf(v)
	if !ok {
		return nil
	}
	add := func(name, words string) { rows = append(rows, setting.Row(name, words)) }
	if c.Job != nil {
		add(v.Fig.Text("Circuit"), c.Job.Name)
	}
	if len(c.Rooms) > 1 {
		add(v.Fig.Text("Serves"), strings.Join(c.Rooms, ", "))
		add(v.Fig.Text("Amps in all"), v.Fig.Amps(c.Total.Amps))
	}
	in := c.Total.Region
	if len(c.Rooms) > 1 && in.Derated() {
		add(v.Fig.Textf("The same at %s", v.Fig.Percent(in.Continuous.Value)), v.Fig.Amps(c.Total.Continuous))
	}
	for i, r := range c.Ratings {
		if i > 1 && c.Ratings[i-1].Under {
			break // larger ones say nothing new
		}
		words := v.Fig.Text("enough")
		if !r.Under {
			words = v.Fig.Text("LESS than the load")
		}
		if in.Derated() {
			words = v.Fig.Textf("%s at %s: %s", v.Fig.AmpsGiven(r.Usable), v.Fig.Percent(1/in.Continuous.Value), words)
		}
		if r.Binds == "thermostat contacts" {
			words += v.Fig.Textf("; the contacts carry only %s", v.Fig.AmpsGiven(r.Limit))
		}
		add(floorplan.UnbrokenWords(v.Fig.Textf("%s "+in.Breaker, v.Fig.AmpsGiven(r.Breaker))), words)
	}
	if len(c.Ratings) > 0 && (c.Job == nil || c.Job.Breaker == 0) {
		add(v.Fig.Text("Ratings by"), wholeStandards(in.RatingsBy))
	}
	if row := leastConductors(v.Fig, c); row != nil {
		rows = append(rows, row)
	}
	if d := c.Drop; d != nil {
		table, _, _ := strings.Cut(wholeStandards(d.Standard), ",")
		add(v.Fig.Text("Feed, one way"), v.Fig.Textf("%s of %s, job file", v.Fig.Long(c.Job.Length), c.Job.Conductor))
		add(v.Fig.Text("Voltage drop"), v.Fig.Textf("%s; copper at %s, %s", v.Fig.VoltageDrop(d.Volts, d.Share),
			v.Fig.Figure(say.Degrees(d.At, plane.Millimetres)), table))
	}
	return rows
}

// leastConductors names the conductors that usually go behind the breakers of the
// table by the region's rules; nil where it has none on file.
func leastConductors(f say.Figures, c layout.Circuit) []setting.Cell {
	in := c.Total.Region
	var words []string
	for i, r := range c.Ratings {
		if i > 1 && c.Ratings[i-1].Under {
			break
		}
		s, ok := in.LeastSize(r.Breaker)
		if !ok {
			continue
		}
		words = append(words, floorplan.UnbrokenWords(f.Textf("%s for %s", s.Name, f.AmpsGiven(r.Breaker))))
	}
	if len(words) == 0 {
		return nil
	}
	return setting.Row(f.Text("Usual copper"), strings.Join(append(words, wholeStandards(in.SizesBy)), ", "))
}

// settled is what the job gives of the rows that the electrician settles;
// empty where it is left to be filled in.
func settled(v *floorplan.View) map[string]string {
	out := map[string]string{}
	c, ok := circuitOf(v)
	if !ok || c.Job == nil {
		return out
	}
	j := c.Job
	out[settleCircuit] = j.Name
	if j.Breaker > 0 {
		out[settleBreaker] = v.Fig.Textf("%s, job file", v.Fig.AmpsGiven(j.Breaker))
	}
	if j.Conductor != "" {
		out[settleConductor] = v.Fig.Textf("%s, job file", j.Conductor)
	}
	var fault []string
	if j.GroundFaultsAt != "" {
		fault = append(fault, v.Fig.Text(v.Plan.Job.Region().Called(j.GroundFaultsAt)))
	}
	if j.GroundFault > 0 {
		fault = append(fault, v.Fig.Milliamps(j.GroundFault))
	}
	if len(fault) > 0 {
		out[settleFault] = v.Fig.Textf("%s, job file", strings.Join(fault, ", "))
	}
	return out
}

// lookUp lists what the rules of the job's region remind of.
func lookUp(p *layout.Plan) []setting.Block {
	if len(p.ToLookUp) == 0 {
		return nil
	}
	region := p.Job.Language.Text(circuit.Titled(p.Job.Supply.Region))
	l := setting.List{Head: p.Job.Language.Textf("To look up, %s", region), Number: 1, Fine: onSmall(p)}
	of := oneEdition(p.ToLookUp)
	if of != "" {
		l.Head += p.Job.Language.Joint(": ") + of
	}
	for _, w := range p.ToLookUp {
		if continuous := p.Job.Region().Continuous.Source; w.Clause != "" && strings.Contains(continuous, w.Clause) {
			continue // the load's table has it
		}
		read := w.Read()
		if of != "" && w.Clause != "" {
			read = w.Clause
		}
		l.Paras = append(l.Paras, sentence(p.Job.Language.Text(w.Text)+" ("+wholeStandards(read)+")"))
	}
	l.Paras = append(l.Paras, sentence(p.Job.Language.Text("check the edition in force; nothing is judged")))
	return []setting.Block{l}
}

var standardNumber = pattern.Of(`\b(EN|IEC|ISO|NEC) (\d)`)

// oneEdition is the edition that all of some rules were read in; empty where there are several.
func oneEdition(rules []circuit.Warning) string {
	of := rules[0].Edition
	if slices.ContainsFunc(rules, func(w circuit.Warning) bool { return w.Edition != of }) {
		return ""
	}
	return of
}

// wholeStandards keeps the letters and the number of a standard on one line.
func wholeStandards(text string) string {
	return standardNumber().ReplaceAllString(text, "$1"+setting.NoBreak+"$2")
}

// sensorLine is what the sensor should read in a room, for hook-up.
func sensorLine(s job.Sensor, f say.Figures) string {
	for _, e := range layout.ExpectedSensor(s) {
		if e.Celsius == 20 {
			return f.Textf("%s (%s): %s at %s", s.Family.Name, s.Source, f.SensorOhms(e.Ohms),
				degrees(f, e.Celsius))
		}
	}
	return f.Text("kind not given")
}

// sensorTable is what the job's sensor should read at usual floor
// temperatures, in the unit of the record's columns: a table or, brief, in words.
func sensorTable(s job.Sensor, f say.Figures, brief bool) (table []setting.Block, said []string) {
	expected := layout.ExpectedSensor(s)
	if len(expected) == 0 {
		return nil,
			[]string{f.Text("Sensor: kind not given; compare its readings with its instructions.")}
	}
	if brief {
		return nil, []string{sensorWords(s, expected, f)}
	}
	t := setting.Table{Span: true, Cols: []setting.Column{{Wraps: true,
		Head: f.Textf("Sensor %s (%s)", s.Family.Name, s.Source)}}}
	reads, within := setting.Row(f.Text("reads, kΩ")), setting.Row(f.Textf("within %s",
		f.Figure(say.Difference(s.Tolerance, f.Units))))
	for _, e := range expected {
		t.Cols = append(t.Cols, setting.Column{Head: floorplan.UnbrokenWords(degrees(f, e.Celsius)), Wraps: true})
		reads = append(reads, setting.Cell{Text: f.Kilohms(e.Ohms)})
		within = append(within, setting.Cell{Text: f.Textf("%s to %s", f.Kilohms(e.Lowest), f.Kilohms(e.Highest))})
	}
	if strings.HasPrefix(s.Family.Source, "assumed") {
		within = append(within, setting.Cell{Text: f.Textf("curve: %s", s.Family.Source)})
	}
	t.Rows = [][]setting.Cell{reads, within}
	return []setting.Block{t}, nil
}

// sensorWords says in a sentence what the table has.
func sensorWords(s job.Sensor, expected []layout.SensorOhms, f say.Figures) string {
	var reads []string
	for _, e := range expected {
		reads = append(reads, floorplan.UnbrokenWords(f.Textf("%s %s (%s to %s)", degrees(f, e.Celsius),
			f.Kilohms(e.Ohms), f.Kilohms(e.Lowest), f.Kilohms(e.Highest))))
	}
	words := f.Textf("Sensor %s (%s)", s.Family.Name, s.Source) + ", kΩ, " + f.Textf("within %s",
		f.Figure(say.Difference(s.Tolerance, f.Units))) + f.Joint(": ") + strings.Join(reads, f.Joint("; ")) + "."
	if strings.HasPrefix(s.Family.Source, "assumed") {
		words += " " + sentence(f.Textf("curve: %s", s.Family.Source))
	}
	return words
}
