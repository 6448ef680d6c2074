package build

import (
	"fmt"
	"slices"

	"oxturn/layout/language"

	"oxturn/layout"
	"oxturn/layout/job"
	"oxturn/layout/route"
)

// A choiceArea is floor of a room that cables are chosen for by itself.
type choiceArea struct {
	draft
	zone *job.Zone // that asks for a density of its own; nil: the rest of the room
}

// choiceAreas are the zones of a room that ask for a density of their own, then the rest where
// the job names no cables for it; the room itself where no zone asks.
func (d draft) choiceAreas() (out []choiceArea) {
	var rest []int
	for i := range d.Zones {
		if z := d.Spoken(i); z != nil && z.Density > 0 {
			out = append(out, choiceArea{d.only([]int{i}, z.Density), z})
		} else {
			rest = append(rest, i)
		}
	}
	switch {
	case out == nil:
		return []choiceArea{{d, nil}}
	case len(rest) > 0 && len(d.Job.Cables) == 0:
		out = append(out, choiceArea{d.only(rest, d.Job.Density), nil})
	}
	return out
}

// only is the room with no other zones, none of its cables named.
func (d draft) only(zones []int, density float64) draft {
	r, of := *d.Room, *d.Room.Job
	of.Cables, of.Zones, of.Density = nil, nil, density
	r.Job, r.Zones, r.Named, r.Heated = &of, nil, nil, nil
	for _, i := range zones {
		r.Zones, r.Named = append(r.Zones, d.Zones[i]), append(r.Named, d.Spoken(i))
		r.Heated = append(r.Heated, d.Zones[i]...)
	}
	for i, z := range d.Zones { // where an inch more or less is looked at, the others are told by it
		if !slices.Contains(zones, i) {
			r.Bare = append(r.Bare, z...)
		}
	}
	return draft{&r, d.job, d.steps, d.search}
}

// chooseByArea chooses the cables of every part by itself, then lays all of the room's
// together.
func chooseByArea(d draft, areas []choiceArea) ([]route.Route, []job.Cable, []job.Diagnostic) {
	of := *d.Job
	of.Zones = slices.Clone(of.Zones)
	own, left := ownCables(d.Job), *d.job
	left.Cables = slices.Clone(left.Cables)
	var why []language.Message
	d.Chosen = &layout.Choice{}
	for _, p := range areas {
		p.job = &left
		_, labels, wrong := choose(p.draft)
		d.Chosen.RunnersUp = append(d.Chosen.RunnersUp, p.Chosen.RunnersUp...)
		if wrong != nil {
			return nil, nil, inZone(wrong, p.zone)
		}
		ids := p.Chosen.Taken
		d.Chosen.Taken = append(d.Chosen.Taken, ids...)
		why = append(why, language.Joined(": ", p.words(), p.Chosen.Why))
		left.Cables = without(left.Cables, labels)
		if p.zone == nil {
			own = append(own, ids...)
			continue
		}
		at := slices.IndexFunc(of.Zones, func(z job.Zone) bool { return z.At == p.zone.At })
		of.Zones[at].Cables = ids
	}
	d.Chosen.Why = language.Joined("; ", why...)
	of.Cables = own
	for _, z := range of.Zones {
		of.Cables = append(of.Cables, z.Cables...)
	}
	return d.layAs(&of)
}

// layAs lays the cables that a changed room of the job names, in the zones it names them for.
func (d draft) layAs(of *job.Room) ([]route.Route, []job.Cable, []job.Diagnostic) {
	r, labels := *d.Room, layout.Named(d.job, of.Cables)
	r.Job = of
	routes, err := draft{&r, d.job, d.steps, d.search}.routed(labels)
	if err != nil {
		return nil, nil, []job.Diagnostic{refusal(d, labels, err)}
	}
	return routes, labels, nil
}

// ownCables are those that a room names, without those it names for zones.
func ownCables(r *job.Room) []string {
	n := len(r.Cables)
	for _, z := range r.Zones {
		n -= len(z.Cables)
	}
	return slices.Clone(r.Cables[:max(n, 0)])
}

// without takes cables off a list that has so many of each.
func without(list, used []job.Cable) (out []job.Cable) {
	for _, c := range list {
		n := 0
		for _, u := range used {
			if u.ID == c.ID {
				n++
			}
		}
		if c.Count > 0 {
			if c.Count -= n; c.Count <= 0 {
				continue
			}
		}
		out = append(out, c)
	}
	return out
}

// words names a part of a room.
func (p choiceArea) words() language.Message {
	if p.zone == nil {
		return language.Say("the rest")
	}
	return language.As(p.zone.Name)
}

// inZone says of what is wrong with a choice that it is about a zone.
func inZone(wrong []job.Diagnostic, z *job.Zone) []job.Diagnostic {
	if z == nil {
		return wrong
	}
	for i := range wrong {
		wrong[i].Message = fmt.Sprintf("zone %q: %s", z.Name, wrong[i].Message)
		wrong[i].Span = z.Spans.At("density")
	}
	return wrong
}
