package main

import (
	"fmt"
	"slices"
	"strings"

	"oxturn/layout"
	"oxturn/layout/job"
)

// restsOn holds the plan that a person has in hand, by its code or its layout
// file, against those that an answer rests on. Without one the answer says which
// they are and that is all.
func restsOn(c *console, verb, given string, codes []string) (code int, ok bool) {
	if given == "" {
		return exitOK, true
	}
	inHand, err := job.PlanCode(given, readFile)
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
	c.say("hint: take the job as it was when that plan was drawn, or record the cable with [[as_laid]] and plan = \"NAME.layout.json\", the file drawn with it")
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
