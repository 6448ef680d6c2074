package main

import (
	"errors"
	"fmt"
	"math"
	"slices"
	"strings"

	"oxturn/layout/arrange"
	"oxturn/layout/job"
	"oxturn/layout/job/edit"
	"oxturn/layout/job/tree"
	"oxturn/layout/plane"
	"oxturn/layout/say"
)

// A photoRoom is a room with the places that can be named in a photo of it.
type photoRoom struct {
	Name    string        `json:"name"`
	Records []photoRecord `json:"records"`
	Cables  []string      `json:"cables"`
	Walls   []photoWall   `json:"walls"`
	Stands  [][]xy        `json:"stands"`
	Spots   []spot        `json:"spots"`
}

// A photoRecord is what is known of one cable as laid.
type photoRecord struct {
	Table   string `json:"table"`   // the way to it
	Cable   string `json:"cable"`   // empty: the room's only one
	Settled bool   `json:"settled"` // it says where the whole cable lies
	Claim   string `json:"claim"`   // the evidence that it claims
	Spots   []spot `json:"spots"`   // that it has measured
}

type photoWall struct {
	Letter string `json:"letter"`
	From   xy     `json:"from"`
	To     xy     `json:"to"`
}

// A spot is a place on the floor with the key and the value that a known point has for it.
type spot struct {
	Group string `json:"group"`
	Label string `json:"label"`
	Key   string `json:"key"`
	Value string `json:"value"`
	At    xy     `json:"at"`
}

func onFloor(p plane.Point) xy { return xy{p.X, p.Y} }

// mostCorners is how many corners a thing has at most that are worth naming: a round one has more.
const mostCorners = 12

func (l *photoLister) room(r *job.Room, laid []*tree.Node) {
	if len(r.Outline) < 3 || len(r.Walls) == 0 {
		return // its slips are said elsewhere
	}
	out := photoRoom{Name: r.Name}
	if _, hangs := r.BoxWall(); hangs {
		out.Spots = append(out.Spots, marked("foot of the box", "BOX", r.Thermostat.At))
	}
	for i, a := range laid {
		if textAt(a, "room") == r.Name {
			rec := photoRecord{Table: fmt.Sprintf("as_laid/%d", i), Cable: textAt(a, "cable"),
				Claim: textAt(a, "evidence"), Spots: l.marks(r, a)}
			for _, key := range []string{"as_planned", "corners", "legs", "runs"} {
				rec.Settled = rec.Settled || a.Get(key) != nil
			}
			out.Records = append(out.Records, rec)
		}
	}
	if p := l.planned(r.Name); p != nil {
		for i := range p.Cables {
			out.Cables = append(out.Cables, p.Cables[i].ID)
		}
	}
	before := r.Walls[len(r.Walls)-1].Letter
	for _, w := range r.Walls {
		out.Walls = append(out.Walls, photoWall{w.Letter, onFloor(w.A), onFloor(w.B)})
		out.Spots = append(out.Spots, spot{"corners of the room", "corner " + w.Letter + ", between walls " + before +
			" and " + w.Letter, "corner", edit.Literal(w.Letter), onFloor(w.A)})
		before = w.Letter
	}
	for _, s := range r.Stands() {
		l.stand(&out, r, s)
	}
	l.out.Rooms = append(l.out.Rooms, out)
}

// measured is the group of what is neither a corner of the room nor of what stands in it.
const measured = "box and marks"

func marked(label, mark string, at plane.Point) spot {
	return spot{measured, label, "mark", edit.Literal(mark), onFloor(at)}
}

// marks are the things that a record has measured.
func (l *photoLister) marks(r *job.Room, record *tree.Node) (out []spot) {
	for i := range l.work.job.Laid {
		a := &l.work.job.Laid[i]
		if &l.work.job.Rooms[a.Room] != r || a.Span.Start != record.Span.Start {
			continue
		}
		start := a.Joint
		if start == nil {
			start = a.Start
		}
		for _, m := range []struct {
			label, mark string
			at          *plane.Point
		}{{"START, the lead joint", "START", start}, {"END, the end cap", "END", a.EndCap},
			{"S1, tip of the sensor", "S1", a.Sensor.Tip}, {"S2, tip of the spare", "S2", a.Spare.Tip}} {
			if m.at != nil {
				out = append(out, marked(m.label, m.mark, *m.at))
			}
		}
	}
	if datums := itemsOf(record.Get("datums")); len(datums) == 2 {
		a, okA := wallIndex(r, fmt.Sprint(datums[0].Value))
		b, okB := wallIndex(r, fmt.Sprint(datums[1].Value))
		if p, ok := r.OffWalls(a, 0, b, 0); okA && okB && ok {
			out = append(out, spot{measured, "where the datum walls " + r.Walls[a].Letter + " and " +
				r.Walls[b].Letter + " meet", "at", "[0, 0]", onFloor(p)})
		}
	}
	return out
}

func wallIndex(r *job.Room, letter string) (int, bool) {
	for i, w := range r.Walls {
		if strings.EqualFold(w.Letter, strings.TrimSpace(letter)) {
			return i, true
		}
	}
	return 0, false
}

func (l *photoLister) stand(out *photoRoom, r *job.Room, s job.Stand) {
	var outline []xy
	for _, p := range s.Outline {
		outline = append(outline, onFloor(p))
	}
	out.Stands = append(out.Stands, outline)
	if len(outline) > mostCorners {
		return
	}
	for _, p := range s.Outline {
		if named(out.Spots, p) {
			continue
		}
		if value, ok := placeOffWall(r, p, l.work.job.Units, everyWall(r)); ok {
			out.Spots = append(out.Spots, spot{s.Name, s.Name + ", its corner at wall " + value, "at",
				edit.Literal(value), onFloor(p)})
		}
	}
}

// samePlace mm apart two things are one place to a finger.
const samePlace = 5.0

func named(spots []spot, p plane.Point) bool {
	return slices.ContainsFunc(spots, func(s spot) bool { return p.Dist(plane.Pt(s.At[0], s.At[1])) < samePlace })
}

func everyWall(r *job.Room) (out []int) {
	for i := range r.Walls {
		out = append(out, i)
	}
	return out
}

// placeOffWall writes a place as it is taped: along the nearest of some walls, and out from it.
func placeOffWall(r *job.Room, p plane.Point, u plane.Units, walls []int) (string, bool) {
	best, least, found := "", math.Inf(1), false
	for _, i := range walls {
		w := r.Walls[i]
		along, out := p.Sub(w.A).Dot(w.B.Sub(w.A).Unit()), p.Sub(w.A).Dot(r.Outline.Outward(w.Segment).Mul(-1))
		if w.Arc != nil || along < -1 || along > w.Length()+1 || out < -1 || out >= least {
			continue
		}
		least, found = out, true
		best = w.Letter + " " + tapeLength(math.Max(along, 0), u) + ", " + tapeLength(math.Max(out, 0), u)
	}
	return best, found
}

// tapeLength writes a length as a job file has it.
func tapeLength(mm float64, u plane.Units) string {
	if u != plane.Inches {
		return say.TrimFigure(mm) + " mm"
	}
	return arrange.Tape(mm)
}

// besideWall mm is how far outside of a room a taped place may come: a tape held to a wall that bulges.
const besideWall = plane.Inch

// placed turns distances off two walls into a place that a known point may have.
func (e *engine) placed(r request) (string, error) {
	text := tree.WithStraightQuotes(r.Text)
	j, _ := job.Read(r.Name, []byte(text), opener(r.Name))
	room := roomOf(j, r.Room)
	if room == nil || len(r.Walls) != 2 || len(r.Distances) != 2 {
		return "", errors.New("the room cannot be read: look under Text")
	}
	var wall [2]int
	var off [2]float64
	for i := range wall {
		var ok bool
		var err error
		if wall[i], ok = wallIndex(room, r.Walls[i]); !ok {
			return "", fmt.Errorf("there is no wall %s", r.Walls[i])
		}
		if off[i], err = plane.ParseLength(r.Distances[i], j.Units); err != nil {
			return "", err
		}
	}
	p, ok := room.OffWalls(wall[0], off[0], wall[1], off[1])
	if !ok {
		return "", fmt.Errorf("walls %s and %s are parallel: take two that are about square to each other", r.Walls[0],
			r.Walls[1])
	}
	value, ok := placeOffWall(room, p, j.Units, wall[:])
	if !ok {
		value, ok = placeOffWall(room, p, j.Units, everyWall(room))
	}
	if !ok || !room.Outline.Contains(p) && room.Outline.Distance(p) > besideWall {
		return "", fmt.Errorf("that is outside of the room: measure both distances into the room, square off the walls")
	}
	return asText(spot{Label: value, Key: "at", Value: edit.Literal(value), At: onFloor(p)})
}

func roomOf(j *job.Job, name string) *job.Room {
	if j == nil {
		return nil
	}
	for i := range j.Rooms {
		if r := &j.Rooms[i]; r.Name == name && len(r.Walls) > 0 {
			return r
		}
	}
	return nil
}
