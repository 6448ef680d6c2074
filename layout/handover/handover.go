// Package handover says which of a floor's papers are there before it is handed over, and
// which are missing.
package handover

import (
	"math"
	"slices"
	"strings"

	"oxturn/layout"
	"oxturn/layout/job"
	"oxturn/layout/language"
	"oxturn/layout/record"
	"oxturn/layout/say"
)

// An Item is one thing that the papers are to have.
type Item struct {
	Name   string           // as the job names it
	Of     string           // the cable; empty: the whole job
	There  language.Message // what there is of it
	Lacks  language.Message // what is missing of it; empty: nothing
	ByHand bool             // the job cannot say whether it is there: a person does
}

// A source tells what a plan has of an item: in words, and what it lacks.
type source struct {
	ofCable func(c *layout.Cable, r *job.Laid) (there, lacks language.Message)
	ofJob   func(p *layout.Plan) (there, lacks language.Message)
	ofRoom  func(p *layout.Plan, r *layout.Room, c *layout.Cable) (there, lacks language.Message)
}

// photographs are looked up where the job has any; else a person may hold them.
const photographs = "photographs"

var paperSources = map[string]source{
	photographs: {ofRoom: photos},
	"as laid":   {ofCable: asLaid},
	"readings":  {ofCable: readings},
	"lot":       {ofCable: written(func(r *job.Laid) string { return r.Lot })},
	"tester":    {ofCable: written(func(r *job.Laid) string { return r.Tester })},
	"hook-up":   {ofCable: hookUp},
	"trip test": {ofCable: written(func(r *job.Laid) string { return r.TripTest })},
	"cure":      {ofJob: cure},
	"permit": {ofJob: func(p *layout.Plan) (there, lacks language.Message) {
		return orLacks(p.Job.Info.Permit)
	}},
}

// Items returns what the job asks for, each with what there is of it.
func Items(p *layout.Plan) (out []Item) {
	for _, name := range p.Job.HandOver.Required {
		key := strings.ToLower(strings.TrimSpace(name))
		s, known := paperSources[key]
		switch {
		case !known, key == photographs && p.Photos() == 0:
			out = append(out, Item{Name: name, ByHand: true})
		case s.ofJob != nil:
			there, lacks := s.ofJob(p)
			out = append(out, Item{Name: name, There: there, Lacks: lacks})
		default:
			out = append(out, ofCables(p, name, s)...)
		}
	}
	return out
}

// ofCables has an item of every cable.
func ofCables(p *layout.Plan, name string, s source) (out []Item) {
	for i := range p.Rooms {
		for k := range p.Rooms[i].Cables {
			c := &p.Rooms[i].Cables[k]
			it := Item{Name: name, Of: c.ID}
			if s.ofRoom != nil {
				it.There, it.Lacks = s.ofRoom(p, &p.Rooms[i], c)
			} else {
				r := &job.Laid{}
				if c.Laid != nil {
					r = c.Laid.Job
				}
				it.There, it.Lacks = s.ofCable(c, r)
			}
			out = append(out, it)
		}
	}
	return out
}

// photos are those of the cable's room, with how much of it they show.
func photos(p *layout.Plan, r *layout.Room, c *layout.Cable) (there, lacks language.Message) {
	all := p.PhotosOf(r)
	if len(all) == 0 {
		return there, language.Say("no photo of this room")
	}
	s := c.SeenIn(all)
	if there = language.Say("%s, %s of its length", say.CountedMessage(len(all), "photo"),
		language.Figure(say.Percent(math.Floor(100*s.Share)/100))); len(s.Unseen) > 0 {
		lacks = language.Say("in no photo: run %s", strings.Join(s.Unseen, ", "))
	}
	return there, lacks
}

func orLacks(text string) (there, lacks language.Message) {
	if text == "" {
		return there, language.Say("not written down")
	}
	return language.As(text), lacks
}

// written is a source for what the record says in one word or none.
func written(of func(*job.Laid) string) func(*layout.Cable, *job.Laid) (there, lacks language.Message) {
	return func(_ *layout.Cable, r *job.Laid) (there, lacks language.Message) { return orLacks(of(r)) }
}

func asLaid(c *layout.Cable, r *job.Laid) (there, lacks language.Message) {
	if !c.Laid.Recorded() {
		return there, language.Say("not recorded from the floor itself")
	}
	return language.Joined(", ", language.Say(r.Evidence.String()), language.As(r.Date.Format("2006-01-02"))), lacks
}

// readings are the stages measured, from the spool to the hook-up.
func readings(c *layout.Cable, _ *job.Laid) (there, lacks language.Message) {
	done := 0
	var open []record.Stage
	for _, s := range record.Stages() {
		if s == record.Service {
			continue // any time later
		}
		if slices.ContainsFunc(c.Tested, func(r record.Reading) bool { return r.Stage == s }) {
			done++
		} else {
			open = append(open, s)
		}
	}
	if there = stagesRead(done); len(open) > 0 {
		lacks = nothingReadAt(open)
	}
	if record.Worst(c.Verdicts) == record.Outside {
		return there, language.Joined("; ", lacks, language.Say("a reading outside its limits"))
	}
	return there, lacks
}

func stagesRead(n int) language.Message {
	if n == 1 {
		return language.Say("%d stage", n)
	}
	return language.Say("%d stages", n)
}

func nothingReadAt(open []record.Stage) language.Message {
	var names []language.Message
	for _, s := range open {
		names = append(names, language.Say("%q", s))
	}
	last := len(names) - 1
	if last == 0 {
		return language.Say("nothing read at stage %s", names[0])
	}
	return language.Say("nothing read at stages %s",
		language.Say("%s and %s", language.Joined(", ", names[:last]...), names[last]))
}

// hookUp are the volts and amps with the floor on.
func hookUp(_ *layout.Cable, r *job.Laid) (there, lacks language.Message) {
	if r.Volts == 0 || r.Amps == 0 {
		return there, language.Say("volts and amps not written down")
	}
	return language.Figure(say.Plain(r.Volts) + " V, " + say.Amps(r.Amps)).Message(), lacks
}

// cure is the day from which the floor may be used in full.
func cure(p *layout.Plan) (there, lacks language.Message) {
	switch use := p.FullUse; {
	case use == nil:
		return there, language.Say("no layer that hardens is written down")
	case len(use.Open) > 0:
		return there, language.Say("no day for %s", openLayers(use.Open))
	default:
		return language.Say("full use from %s", use.Date.Format("2006-01-02")), lacks
	}
}

func openLayers(names []string) language.Message {
	var out []language.Message
	for _, n := range names {
		out = append(out, language.Say(n))
	}
	return language.Joined(", ", out...)
}
