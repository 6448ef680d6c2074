package sheets

import (
	"fmt"
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
		add("Circuit", c.Job.Name)
	}
	if len(c.Rooms) > 1 {
		add("Serves", strings.Join(c.Rooms, ", "))
		add("Amps in all", say.Amps(c.Total.Amps))
	}
	in := c.Total.Region
	if len(c.Rooms) > 1 && in.Derated() {
		add("The same at "+say.Percent(in.Continuous.Value), say.Amps(c.Total.Continuous))
	}
	for i, r := range c.Ratings {
		if i > 1 && c.Ratings[i-1].Under {
			break // larger ones say nothing new
		}
		words := "enough"
		if !r.Under {
			words = "LESS than the load"
		}
		if in.Derated() {
			words = fmt.Sprintf("%s at %s: %s", say.AmpsGiven(r.Usable), say.Percent(1/in.Continuous.Value), words)
		}
		if r.Binds == "thermostat contacts" {
			words += "; the contacts carry only " + say.AmpsGiven(r.Limit)
		}
		add(floorplan.UnbrokenWords(say.AmpsGiven(r.Breaker)+" "+in.Breaker), words)
	}
	if len(c.Ratings) > 0 && (c.Job == nil || c.Job.Breaker == 0) {
		add("Ratings by", wholeStandards(in.RatingsBy))
	}
	if row := leastConductors(c); row != nil {
		rows = append(rows, row)
	}
	if d := c.Drop; d != nil {
		table, _, _ := strings.Cut(wholeStandards(d.Standard), ",")
		add("Feed, one way", fmt.Sprintf("%s of %s, job file", v.Fig.Long(c.Job.Length), c.Job.Conductor))
		add("Voltage drop", fmt.Sprintf("%s; copper at %s, %s", say.VoltageDrop(d.Volts, d.Share),
			say.Degrees(d.At, plane.Millimetres), table))
	}
	return rows
}

// leastConductors names the conductors that usually go behind the breakers of the
// table by the region's rules; nil where it has none on file.
func leastConductors(c layout.Circuit) []setting.Cell {
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
		words = append(words, floorplan.UnbrokenWords(s.Name+" for "+say.AmpsGiven(r.Breaker)))
	}
	if len(words) == 0 {
		return nil
	}
	return setting.Row("Usual copper", strings.Join(append(words, wholeStandards(in.SizesBy)), ", "))
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
		out[settleBreaker] = say.AmpsGiven(j.Breaker) + ", job file"
	}
	if j.Conductor != "" {
		out[settleConductor] = j.Conductor + ", job file"
	}
	var fault []string
	if j.GroundFaultsAt != "" {
		fault = append(fault, v.Plan.Job.Region().Called(j.GroundFaultsAt))
	}
	if j.GroundFault > 0 {
		fault = append(fault, say.Milliamps(j.GroundFault))
	}
	if len(fault) > 0 {
		out[settleFault] = strings.Join(fault, ", ") + ", job file"
	}
	return out
}

// lookUp lists what the rules of the job's region remind of.
func lookUp(p *layout.Plan) []setting.Block {
	if len(p.ToLookUp) == 0 {
		return nil
	}
	l := setting.List{Head: "To look up, " + titled(p.Job.Supply.Region), Number: 1}
	of := oneStandard(p.ToLookUp)
	if of != "" {
		l.Head += ": " + of
	}
	for _, w := range p.ToLookUp {
		w = strings.Replace(w, "; "+circuit.InForce, "", 1)
		if of != "" {
			w = strings.ReplaceAll(w, of+", ", "")
		}
		l.Paras = append(l.Paras, sentence(wholeStandards(w)))
	}
	l.Paras = append(l.Paras, sentence(circuit.InForce+"; nothing is judged here"))
	return []setting.Block{l}
}

var standardNumber = pattern.Of(`\b(EN|IEC|ISO|NEC) (\d)`)

// cited finds the names of standards, without their clauses.
var cited = pattern.Of(`\b(?:EN|IEC|ISO|NEC) [^,;)]*`)

// oneStandard is the standard that all of some sentences refer to; "" where there are several,
// or one names none.
func oneStandard(sentences []string) string {
	one := ""
	for i, w := range sentences {
		names := cited().FindAllString(w, -1)
		if len(names) == 0 {
			return ""
		}
		for _, n := range names {
			if one == "" && i == 0 {
				one = n
			}
			if n != one {
				return ""
			}
		}
	}
	return one
}

// wholeStandards keeps the letters and the number of a standard on one line.
func wholeStandards(text string) string {
	return standardNumber().ReplaceAllString(text, "$1"+setting.NoBreak+"$2")
}

// titled writes the name of a region with capitals.
func titled(name string) string {
	words := strings.Fields(name)
	for i, w := range words {
		words[i] = strings.ToUpper(w[:1]) + w[1:]
	}
	return strings.Join(words, " ")
}

// sensorLine is what the sensor should read in a room, for hook-up.
func sensorLine(s job.Sensor, f say.Figures) string {
	for _, e := range layout.ExpectedSensor(s) {
		if e.Celsius == 20 {
			return fmt.Sprintf("%s (%s): %s at %s", s.Family.Name, s.Source, say.SensorOhms(e.Ohms),
				degrees(f, e.Celsius))
		}
	}
	return "kind not given"
}

// sensorTable is what the job's sensor should read at usual floor
// temperatures, in the unit of the record's columns.
func sensorTable(s job.Sensor, f say.Figures) (table []setting.Block, said []string) {
	expected := layout.ExpectedSensor(s)
	if len(expected) == 0 {
		return nil,
			[]string{"Sensor: kind not given. Compare its reading at a known temperature with its instructions."}
	}
	t := setting.Table{Span: true, Cols: []setting.Column{{Wraps: true,
		Head: fmt.Sprintf("Sensor %s (%s)", s.Family.Name, s.Source)}}}
	reads, within := setting.Row("reads, kΩ"), setting.Row("within "+say.Difference(s.Tolerance, f.Units))
	for _, e := range expected {
		t.Cols = append(t.Cols, setting.Column{Head: floorplan.UnbrokenWords(degrees(f, e.Celsius)), Wraps: true})
		reads = append(reads, setting.Cell{Text: say.Kilohms(e.Ohms)})
		within = append(within, setting.Cell{Text: say.Kilohms(e.Lowest) + " to " + say.Kilohms(e.Highest)})
	}
	if strings.HasPrefix(s.Family.Source, "assumed") {
		within = append(within, setting.Cell{Text: "curve: " + s.Family.Source})
	}
	t.Rows = [][]setting.Cell{reads, within}
	return []setting.Block{t}, nil
}
