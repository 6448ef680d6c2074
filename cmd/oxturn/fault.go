package main

import (
	"context"
	"fmt"
	"math"

	"oxturn/drawing/sheets"
	"oxturn/layout"
	"oxturn/layout/language"
	"oxturn/layout/plane"
	"oxturn/layout/probe"
	"oxturn/layout/record"
	"oxturn/layout/say"
)

const faultHelp = `
Turns a reading of a faulty cable into the stretch of floor it must lie under,
with the tiles over it and the runs it could be taken for. Figures may carry
their error: 19.0, 19.0+-0.2 or 19.0+-1%; a share counts once for readings by
one meter. Give several methods to see where they meet. Isolate the circuit
before any test. The owner's map asks for the same and needs no program.

  oxturn fault bath.toml --cable H1 --short 19.0 --lead-ohms 0.12
  oxturn fault bath.toml --earth 52.9,1221.0,1231.9 -o out
  oxturn fault bath.toml --capacitance 3.15 --whole-capacitance 9.0

Flags:
  --short OHMS           core to core at the lead: a short between the cores
  --earth AB,A,B         the loop, and from each of its ends to the braid
  --murray P,Q           bridge arms in balance, Q at the faulty conductor
  --varley P,Q,S,AB      bridge arms, ohms in series and the loop
  --capacitance NF       conductors to braid: a break
  --capacitance-ends A,B the same read from both ends
  --echo-time NS         a pulse's echo, with --velocity
  --echo-distance LENGTH what the instrument shows, with --set and --velocity
  --cable ID             the cable, where the job has several
  --plan CODE            plan code on the drawing at hand: no other plan answers
                         for it; or its layout file, whose plan answers then
  --whole-ohms OHMS      the whole cable; left out: by the record or the label
  --whole-capacitance NF the whole cable; left out: by the record
  --lead-ohms OHMS       the lead there and back; left out: taken as none
  --lead LENGTH          one cold lead as cut; left out: by record or label
  --warmer KELVIN        how much warmer than when it was read whole
  --per-kelvin SHARE     with --warmer: the conductor's coefficient as stated
  --core-share SHARE     share of a twin's ohms in its first core (0.5)
  --velocity FACTOR      of the cable, or its core insulation: PE, XLPE, PTFE,
                         FEP, ETFE, PVC
  --set FACTOR           what the instrument was set to
  --meter-error SHARE    of figures without their own (default 1%), and one of
                         their last place
  -o DIR                 also draw the stretch, NAME-fault-ID.pdf and .svg
  --format FORMAT        text or json
` + jobFlagsHelp + `
Exit codes: 0 answered, 1 errors in the job, a reading that fits no place on the
cable or a stretch that cannot be drawn, 2 usage.
`

func (o *faultOrder) run(ctx context.Context, c *commandLine) int {
	method, err := o.method()
	if err != nil {
		return c.misuse(err)
	}
	w, code := c.loadLaid(ctx, o.plan)
	if code != exitOK {
		return code
	}
	f, code := o.find(c, w.plan, method)
	if code != exitOK {
		return code
	}
	if o.dir != "" {
		if code := drawFault(c, w, f, o.dir); code != exitOK {
			return code
		}
	}
	lines := func() []string { return c.facts(f.Lines()) }
	if err := c.answer(o.format, f.WriteJSON, lines); err != nil {
		return c.fail(err)
	}
	return exitOK
}

// find applies the method to the cable meant.
func (o *faultOrder) find(c *commandLine, p *layout.Plan, find method) (*probe.Fault, int) {
	_, cable, err := probe.CableNamed(p, o.cable)
	if err != nil {
		return nil, c.fail(err)
	}
	if code := c.restsOn(o.plan, []string{p.CodeOf(cable)}); code != exitOK {
		return nil, code
	}
	known, taken, err := o.known(cable, p)
	if err != nil {
		return nil, c.fail(err)
	}
	s, err := find(known)
	if err != nil {
		return nil, c.stop(exitJob, fmt.Errorf("cable %s: %w", cable.ID, err))
	}
	s.Assumptions = append(s.Assumptions, taken...)
	f, err := probe.TraceIn(p, cable.ID, s, c.Language)
	if err != nil {
		return nil, c.fail(err)
	}
	return f, exitOK
}

func drawFault(c *commandLine, w *work, f *probe.Fault, dir string) int {
	set, err := sheets.FaultPlan(w.plan, f)
	if err != nil {
		return c.stop(exitJob, notDrawn(err))
	}
	files := &fileSet{base: w.source.base + "-fault-" + f.Cable.ID}
	files.drawn(set, w.unpriced())
	return c.writeSet(files, dir)
}

// known gathers what is known of a cable: the flags first, then its record and label. taken
// says in words what was assumed.
func (o *faultOrder) known(c *layout.Cable, p *layout.Plan) (out record.Cable, taken []string, err error) {
	k := probe.KnownOf(c, p.Job.Units, o.meterShare, language.English)
	out = k.Cable
	out.CoreShare = o.coreShare
	if out.LeadOhms, err = o.measured("lead-ohms", o.leadOhms); err != nil {
		return
	}
	if out.Ohms, err = o.measured("whole-ohms", o.wholeOhms); err != nil {
		return
	}
	if out.Farads, err = o.measured("whole-capacitance", o.wholeFarads); err != nil {
		return
	}
	if o.lead != "" {
		if out.Lead, err = plane.ParseLength(o.lead, p.Job.Units); err != nil {
			return out, nil, fmt.Errorf("--lead: %w", err)
		}
	}
	if o.wholeOhms == "" && o.short+o.earth+o.murray+o.varley != "" && k.OhmsFrom != "" {
		out.Ohms, taken = k.Ohms, append(taken, k.OhmsFrom)
	}
	if o.wholeFarads == "" && o.break1 != "" && k.FaradsFrom != "" {
		out.Farads, taken = k.Farads, append(taken, k.FaradsFrom)
	}
	return o.warmed(out, taken)
}

// warmed brings the ohms to the temperature that the readings were taken at.
func (o *faultOrder) warmed(out record.Cable, taken []string) (record.Cable, []string, error) {
	switch {
	case o.warmer != 0 && o.perKelvin == 0:
		return out, nil, fmt.Errorf("--warmer needs --per-kelvin, the conductor's own coefficient by the cable's " +
			"instructions; it differs from alloy to alloy")
	case !(math.Abs(o.perKelvin*o.warmer) < 0.5):
		return out, nil, fmt.Errorf("--warmer %g by --per-kelvin %g changes the ohms by %s: that is no heating "+
			"cable", o.warmer, o.perKelvin, say.Percent(o.perKelvin*o.warmer))
	case o.warmer != 0:
		out = out.Warmed(o.warmer, o.perKelvin)
	}
	return out, taken, nil
}
