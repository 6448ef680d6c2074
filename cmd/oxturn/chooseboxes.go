package main

import (
	"context"
	"fmt"
	"slices"
	"strconv"
	"strings"

	"oxturn/layout/asjson"
	"oxturn/layout/build"
	"oxturn/layout/job"
	"oxturn/layout/plane"
	"oxturn/layout/say"
)

// shownBoxes is how many places for a box are listed of a room.
const shownBoxes = 8

// boxes finds places for the box along some walls, room by room.
func (o *chooseOrder) boxes(ctx context.Context, c *commandLine, s source) int {
	j, report := job.Read(s.name, s.data, s.open)
	if j == nil || report.Errors() > 0 {
		printReport(c.console, report, c.style)
		return exitJob
	}
	if !slices.ContainsFunc(j.Rooms, func(r job.Room) bool { _, bad := wallsNamed(&r, o.box); return bad == "" }) {
		return c.fail(fmt.Errorf("--box %q: no room has all these walls; write letters, or partitions by their names, "+
			"such as A,C", o.box))
	}
	c.keep(report)
	found := make([][]build.BoxPlace, len(j.Rooms))
	line := waiting(c.console, s.name+": laying the floor with its box elsewhere")
	err := within(ctx, c.timeLimit, func(stop func() bool) {
		for i := range j.Rooms {
			if walls, unknown := wallsNamed(&j.Rooms[i], o.box); unknown == "" {
				found[i] = build.BoxPlaces(j, i, walls, search(stop))
			}
		}
	})
	line.end()
	if ctx.Err() != nil {
		return exitInterrupted
	}
	if err != nil {
		return c.stop(exitJob, fmt.Errorf("looking for a place for the box was given up: %w", err))
	}
	if o.format == "json" {
		err = asjson.Write(c.Out, boxesJSON(j, found, c.told))
	} else {
		err = o.boxesText(c, j, found)
	}
	if err != nil {
		return c.fail(err)
	}
	return exitOK
}

// wallsNamed finds a room's walls by letters and partitions by their names, with commas
// between; unknown is one that it does not have.
func wallsNamed(r *job.Room, names string) (walls []job.BoxWall, unknown string) {
	for name := range strings.SplitSeq(names, ",") {
		found := r.BoxWalls(name)
		if len(found) == 0 {
			return nil, strings.TrimSpace(name)
		}
		walls = append(walls, found...)
	}
	return walls, ""
}

// calledOn is what a box hangs on, for a table: a letter, or a partition with its face.
func calledOn(w job.BoxWall) string {
	if side := w.Side(); side != "" {
		return printable(w.Called) + ", " + side
	}
	return strings.TrimPrefix(w.Called, "wall ")
}

func (o *chooseOrder) boxesText(c *commandLine, j *job.Job, found [][]build.BoxPlace) error {
	u := j.Units
	for i, places := range found {
		r := &j.Rooms[i]
		if _, unknown := wallsNamed(r, o.box); unknown != "" {
			c.tellf("%s: it has no wall %q; it has walls A to %s", printable(r.Name), unknown,
				r.Walls[len(r.Walls)-1].Letter)
			continue
		}
		c.tellf("%s: the box at %d places, the best first", printable(r.Name), len(places))
		t := c.table("wall", "from its start", "cold lead", "sensor tube", "lead on lead", "joints passed", "covered")
		for k, p := range places {
			if p.Refused != "" || k == shownBoxes {
				break
			}
			t.row(calledOn(p.On), say.Long(p.Along, u), say.Long(p.Lead, u), say.Long(p.Tube, u), onLead(p, u),
				strconv.Itoa(p.Joints), say.Percent(p.Covered))
		}
		if err := t.Flush(); err != nil {
			return err
		}
		if n := refusals(places); n > 0 {
			c.tellf("\nAt %d of them no cable can be laid: %s", n, places[len(places)-1].Refused)
		}
	}
	c.tellf("\nWhether a box may hang there is for local code and the electrician.")
	return nil
}

func onLead(p build.BoxPlace, u plane.Units) string {
	if p.Stacked < 1 {
		return "none"
	}
	return say.Long(p.Stacked, u)
}

func refusals(places []build.BoxPlace) (n int) {
	for _, p := range places {
		if p.Refused != "" {
			n++
		}
	}
	return n
}

// A boxJSON is a place for the box, for programs.
type boxJSON struct {
	Room    string  `json:"room"`
	Wall    string  `json:"wall"`
	Face    string  `json:"face,omitempty"` // of a partition: left or right
	Along   float64 `json:"along_mm"`
	Lead    float64 `json:"cold_lead_mm"`
	Tube    float64 `json:"sensor_tube_mm"`
	Stacked float64 `json:"lead_on_lead_mm"`
	Joints  int     `json:"joints_passed"`
	Covered float64 `json:"covered"`
	Refused string  `json:"refused,omitempty"`
}

func boxesJSON(j *job.Job, found [][]build.BoxPlace, told func(string) string) []boxJSON {
	out := []boxJSON{}
	for i, places := range found {
		for _, p := range places {
			out = append(out, boxJSON{j.Rooms[i].Name, strings.TrimPrefix(p.On.Called, "wall "), p.On.Side(), p.Along,
				p.Lead, p.Tube,
				p.Stacked,
				p.Joints, p.Covered, told(p.Refused)})
		}
	}
	return out
}
