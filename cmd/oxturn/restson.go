package main

import (
	"context"
	"fmt"
	"slices"
	"strings"
	"time"

	"oxturn/layout"
	"oxturn/layout/build"
	"oxturn/layout/job"
	"oxturn/layout/plancode"
)

// loadLaid loads the only job for an answer about a floor that is laid. Where
// its plan is given as a layout file the cables lie as that has them, whatever the
// job would be laid like now; if that is otherwise, it is said.
func (c *commandLine) loadLaid(ctx context.Context, plan string) (*work, int) {
	if !job.NamesFile(plan) {
		return c.loadPlan(ctx, c.args[0], nil)
	}
	w, code := c.load(ctx, c.args[0], "", workOptions{undrawn: true, laid: true, laidBy: true,
		amend: func(j *job.Job) error { return j.LayBy(plan, readPlan) }})
	if code != exitOK {
		return w, code
	}
	today, err := codeToday(ctx, w.job, c.timeLimit)
	if ctx.Err() != nil {
		return w, exitInterrupted
	}
	if err == nil && today != w.plan.Code {
		c.say("oxturn %s: %s is of plan %s, and the job would be planned otherwise now (plan %s): "+
			"cable, leads and sensors are those of the file, all else is the job's", c.verb, plan, w.plan.Code, today)
	}
	return w, code
}

// codeToday is the code of the plan that a job would get were nothing laid.
func codeToday(ctx context.Context, j *job.Job, limit time.Duration) (code string, err error) {
	unlaid := *j
	unlaid.LaidBy, unlaid.Laid = nil, nil
	var plan *layout.Plan
	if err := within(ctx, limit, func(stop func() bool) { plan, _ = build.Lay(&unlaid, search(stop)) }); err != nil {
		return "", err
	}
	return plan.Code, nil
}

// restsOn holds the code of the plan that a person has in hand against those that
// an answer rests on; exitOK where they agree. Without one the answer says which
// they are and that is all.
func (c *commandLine) restsOn(given string, codes []string) int {
	if given == "" || job.NamesFile(given) {
		return exitOK
	}
	inHand, err := plancode.Parse(given)
	if err != nil {
		return c.fail(fmt.Errorf("--plan: %w", err))
	}
	if len(codes) == 1 && codes[0] == inHand {
		return exitOK
	}
	known := fmt.Sprintf("what this job knows rests on plan %s", strings.Join(codes, " and "))
	if slices.Contains(codes, inHand) {
		known += ", on more than one"
	}
	return c.stop(exitJob, fmt.Errorf("the plan at hand is %s, but %s: a place given by the one may be wrong on the "+
		"other\n"+
		"hint: give the layout file drawn with that plan, --plan NAME.layout.json, or take the job as it was then",
		inHand, known))
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
