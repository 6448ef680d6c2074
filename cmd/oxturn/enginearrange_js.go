package main

import (
	"errors"

	"oxturn/layout/arrange"
	"oxturn/layout/job"
	"oxturn/layout/job/tree"
)

// An arrangeable is a room as the page shows it to be arranged.
type arrangeable struct {
	arrange.Room
	Cables [][]xy `json:"cables"` // as they are drawn
}

// arrangement is what can be moved in each room of a job's text.
func (e *engine) arrangement(r request) (string, error) {
	text := tree.WithStraightQuotes(r.Text)
	j, report := job.Read(r.Name, []byte(text), opener(r.Name))
	if j == nil {
		return "", firstError(report)
	}
	rooms, err := arrange.Rooms(j, text)
	if err != nil {
		return "", err
	}
	out := []arrangeable{}
	l := photoLister{engine: e}
	for _, room := range rooms {
		a := arrangeable{room, [][]xy{}}
		if p := l.planned(room.Name); p != nil {
			for i := range p.Cables {
				var path []xy
				for _, q := range p.Cables[i].Path {
					path = append(path, onFloor(q))
				}
				a.Cables = append(a.Cables, path)
			}
		}
		out = append(out, a)
	}
	return asText(out)
}

func firstError(r *job.Report) error {
	for _, d := range r.Diagnostics() {
		if d.Severity == job.Error {
			return errors.New(d.Message)
		}
	}
	return errors.New("the job cannot be read: look under Text")
}

// moved is a job's text with a thing elsewhere.
func moved(r request) (string, error) {
	text := tree.WithStraightQuotes(r.Text)
	j, report := job.Read(r.Name, []byte(text), opener(r.Name))
	if j == nil {
		return "", firstError(report)
	}
	return arrange.Moved(j, text, r.Move)
}

// added is a job's text with a new thing, and the way to it.
func added(r request) (string, error) {
	text := tree.WithStraightQuotes(r.Text)
	read := func(text string) *job.Job {
		j, _ := job.Read(r.Name, []byte(text), opener(r.Name))
		return j
	}
	j, report := job.Read(r.Name, []byte(text), opener(r.Name))
	if j == nil {
		return "", firstError(report)
	}
	now, table, err := arrange.Added(j, text, r.New, read)
	if err != nil {
		return "", err
	}
	return asText(struct {
		Text  string `json:"text"`
		Table string `json:"table"`
	}{now, table})
}
