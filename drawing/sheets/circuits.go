package sheets

import (
	"fmt"
	"regexp"
	"strings"

	"oxturn/layout"
	"oxturn/layout/circuit"
	"oxturn/layout/job"
)

// circuit returns what feeds the room's thermostat.
func (v *roomView) circuit() (layout.Circuit, bool) {
	for _, c := range v.plan.Circuits {
		for _, name := range c.Rooms {
			if name == v.room.Job.Name {
				return c, true
			}
		}
	}
	return layout.Circuit{}, false
}

// circuitTable is what the circuit carries: held against its breaker where the
// job gives one, against usual ones otherwise.
func (v *roomView) circuitTable() []block {
	c, ok := v.circuit()
	if !ok {
		return nil
	}
	t := table{head: "Its circuit", cols: []column{{wraps: true}, {wraps: true}}}
	if c.Job != nil {
		t.rows = append(t.rows, row("Circuit", c.Job.Name))
	}
	if len(c.Rooms) > 1 {
		t.rows = append(t.rows, row("Serves", strings.Join(c.Rooms, ", ")), row("Amps in all", fmt.Sprintf("%.2f A", c.Total.Amps)))
	}
	in := c.Total.Region
	if len(c.Rooms) > 1 && in.Derated() {
		t.rows = append(t.rows, row(fmt.Sprintf("The same at %.0f %%", 100*in.Continuous.Value), fmt.Sprintf("%.2f A", c.Total.Continuous)))
	}
	for i, r := range c.Ratings {
		if i > 1 && c.Ratings[i-1].Under {
			break // larger ones say nothing new
		}
		carries := "more than the load"
		if !r.Under {
			carries = "LESS than the load"
		}
		words := carries
		if in.Derated() {
			words = fmt.Sprintf("%.0f %% is %g A; %s", 100/in.Continuous.Value, r.Usable, carries)
		}
		if r.Binds == "thermostat contacts" {
			words += fmt.Sprintf(", but the contacts carry only %g A", r.Limit)
		}
		t.rows = append(t.rows, row(unbrokenWords(fmt.Sprintf("%g A %s", r.Breaker, in.Breaker)), words))
	}
	if len(c.Ratings) > 0 && (c.Job == nil || c.Job.Breaker == 0) {
		t.rows = append(t.rows, row("Ratings by", wholeStandards(in.RatingsBy)))
	}
	if d := c.Drop; d != nil {
		table, _, _ := strings.Cut(wholeStandards(d.Standard), ",")
		t.rows = append(t.rows,
			row("Feed, one way", fmt.Sprintf("%s of %s, job file", v.fig.long(c.Job.Length), c.Job.Conductor)),
			row("Voltage drop", fmt.Sprintf("%.2f V, %.2f %%; copper at %g °C, %s", d.Volts, 100*d.Share, d.At, table)))
	}
	if len(t.rows) == 0 {
		return nil
	}
	return []block{t}
}

// settled is what the job gives of the rows that the electrician settles;
// empty where it is left to be filled in.
func (v *roomView) settled() map[string]string {
	out := map[string]string{}
	c, ok := v.circuit()
	if !ok || c.Job == nil {
		return out
	}
	j := c.Job
	out[settleCircuit] = j.Name
	if j.Breaker > 0 {
		out[settleBreaker] = fmt.Sprintf("%g A, job file", j.Breaker)
	}
	if j.Conductor != "" {
		out[settleConductor] = j.Conductor + ", job file"
	}
	var fault []string
	if j.GroundFaultsAt != "" {
		fault = append(fault, v.plan.Job.Region().Called(j.GroundFaultsAt))
	}
	if j.GroundFault > 0 {
		fault = append(fault, fmt.Sprintf("%g mA", j.GroundFault))
	}
	if len(fault) > 0 {
		out[settleFault] = strings.Join(fault, ", ") + ", job file"
	}
	return out
}

// lookUp lists what the rules of the job's region remind of.
func lookUp(p *layout.Plan) []block {
	if len(p.ToLookUp) == 0 {
		return nil
	}
	l := list{head: "To look up, " + titled(p.Job.Supply.Region), number: 1}
	for _, w := range p.ToLookUp {
		l.paras = append(l.paras, sentence(wholeStandards(strings.Replace(w, "; "+circuit.InForce, "", 1))))
	}
	l.paras = append(l.paras, sentence(circuit.InForce)+" Whether a rule is met is not judged here.")
	return []block{l}
}

var standard = regexp.MustCompile(`\b(EN|IEC|ISO|NEC) (\d)`)

// wholeStandards keeps the letters and the number of a standard on one line.
func wholeStandards(text string) string {
	return standard.ReplaceAllString(text, "$1"+noBreak+"$2")
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
func sensorLine(s job.Sensor, f figures) string {
	for _, e := range layout.ExpectedSensor(s) {
		if e.Celsius == 20 {
			return fmt.Sprintf("%s (%s): %.0f Ω at %s", s.Family.Name, s.Source, e.Ohms, f.degrees(e.Celsius))
		}
	}
	return "kind not given"
}

// sensorTable is what the job's sensor should read at usual floor
// temperatures, in the unit of the record's columns.
func sensorTable(s job.Sensor, f figures) []block {
	expected := layout.ExpectedSensor(s)
	if len(expected) == 0 {
		return []block{list{head: "Sensor", paras: []string{"Its kind is not given, so that its readings cannot be judged here. Read it at a known floor temperature and compare with its instructions."}}}
	}
	kilo := func(ohms float64) string { return fmt.Sprintf("%.2f", ohms/1000) }
	t := table{head: fmt.Sprintf("Sensor %s (%s), kΩ", s.Family.Name, s.Source), cols: []column{{head: "Floor"}, {head: "reads", align: decimal}, {head: "within " + f.difference(s.Tolerance), wraps: true}}}
	for _, e := range expected {
		t.rows = append(t.rows, row(f.degrees(e.Celsius), kilo(e.Ohms), kilo(e.Lowest)+" to "+kilo(e.Highest)))
	}
	if strings.HasPrefix(s.Family.Source, "assumed") {
		t.rows = append(t.rows, row("curve", "", s.Family.Source))
	}
	return []block{t}
}
