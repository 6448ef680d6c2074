package main

import (
	"context"
	"fmt"
	"slices"
	"strings"

	"oxturn/layout"
	"oxturn/layout/build"
	"oxturn/layout/job"
	"oxturn/layout/plancode"
)

// loadLaid is loadPlan for an answer about a floor that is laid. Where its plan is
// given as a layout file the cables lie as that has them, whatever the job would be
// laid like now; if that is otherwise, it is said.
func loadLaid(ctx context.Context, c *console, verb, name, plan string, m *manner) (*work, int) {
	if !job.NamesFile(plan) {
		return loadPlan(ctx, c, name, m)
	}
	m.amend = func(j *job.Job) error { return j.LayBy(plan, readFile) }
	w, code := loadPlan(ctx, c, name, m)
	if code != exitOK {
		return w, code
	}
	now := *w.job
	now.LaidBy, now.Laid = nil, nil
	today := ""
	err := within(ctx, m.timeLimit, func(stop func() bool) {
		p, _ := build.PlanUntil(&now, stop)
		today = p.Code
	})
	if ctx.Err() != nil {
		return w, exitInterrupted
	}
	if err == nil && today != w.plan.Code {
		c.say("oxturn %s: %s is of plan %s, and the job would be planned otherwise now (plan %s): cable, leads and sensors are those of the file, all else is the job's", verb, plan, w.plan.Code, today)
	}
	return w, code
}

// restsOn holds the code of the plan that a person has in hand against those that
// an answer rests on. Without one the answer says which they are and that is all.
func restsOn(c *console, verb, given string, codes []string) (code int, ok bool) {
	if given == "" || job.NamesFile(given) {
		return exitOK, true
	}
	inHand, err := plancode.Parse(given)
	if err != nil {
		c.say("oxturn %s: --plan: %v", verb, err)
		return exitUsage, false
	}
	if len(codes) == 1 && codes[0] == inHand {
		return exitOK, true
	}
	known := fmt.Sprintf("what this job knows rests on plan %s", strings.Join(codes, " and "))
	if slices.Contains(codes, inHand) {
		known += ", on more than one"
	}
	c.say("oxturn %s: the plan at hand is %s, but %s: a place given by the one may be wrong on the other", verb, inHand, known)
	c.say("hint: give the layout file drawn with that plan, --plan NAME.layout.json, or take the job as it was then")
	return exitJob, false
}

// planCodes are the codes of the plans that what is known of a job's cables rests on.
func planCodes(p *layout.Plan) []string {
	var out []string
	for i := range p.Rooms {
		for k := range p.Rooms[i].Cables {
			out = append(out, p.CodeOf(&p.Rooms[i].Cables[k]))
		}
	}
	slices.Sort(out)
	return slices.Compact(out)
}
