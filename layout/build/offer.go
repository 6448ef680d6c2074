package build

import (
	"strings"

	"oxturn/layout"
	"oxturn/layout/job"
	"oxturn/layout/money"
	"oxturn/layout/takeoff"
)

// The groups of an offer, in its order.
const (
	groupFloor = "Membrane, mortars, tile and joints"
	groupHeat  = "Heating cable, sensors and controls"
	groupWork  = "Labour, visits and tests"
)

// offer makes the offer of a proposal out of its take-off. A job that neither says that it is one
// nor has terms for one offers nothing: it is somebody trying out a floor.
func offer(p *layout.Plan) {
	_, said := p.Job.Spans["job.status"]
	if _, terms := p.Job.Spans["proposal"]; p.Job.Info.Status != job.Proposal || !said && !terms {
		return
	}
	t, o := p.Job.Proposal, &layout.Offer{}
	costs := map[string]money.Cents{}
	for _, l := range p.TakeOff.Lines {
		c := money.Of(l.Price)
		costs[groupOf(l.Code)] += c
		o.Cost += c
		if c == 0 {
			o.Unpriced = append(o.Unpriced, l.Item)
		}
	}
	for _, name := range []string{groupFloor, groupHeat, groupWork} {
		if c := costs[name]; c != 0 { // each group is rounded, so that what is printed adds up
			group := layout.OfferGroup{Name: name, Sum: c + c.Share(t.Markup)}
			o.Groups = append(o.Groups, group)
			o.Net += group.Sum
		}
	}
	o.Markup = o.Net - o.Cost
	o.Tax = o.Net.Share(t.Tax)
	o.Total = o.Net + o.Tax
	for _, one := range t.Options {
		o.Options = append(o.Options, layout.Option{Name: one.Name, Price: optionPrice(p.Job, one)})
	}
	if d := p.Job.Info.Date; !d.IsZero() {
		o.Until = d.AddDate(0, 0, t.ValidDays)
	}
	p.Offer = o
}

// optionPrice is what an option costs with markup and tax; 0: nobody gave its price.
func optionPrice(j *job.Job, o job.ProposalOption) money.Cents {
	c := money.Of(o.Price)
	if c == 0 {
		for _, p := range j.Prices {
			if p.Code == o.Code {
				c = money.Times(p.Price, o.Count)
			}
		}
	}
	c += c.Share(j.Proposal.Markup)
	return c + c.Share(j.Proposal.Tax)
}

// groupOf is the group of an offer that a line of the take-off belongs to.
func groupOf(code string) string {
	switch {
	case strings.HasPrefix(code, "labour "), code == "visits", code == "tester-hire":
		return groupWork
	case takeoff.OfHeating(code):
		return groupHeat
	}
	return groupFloor
}
