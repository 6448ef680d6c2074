package main

import (
	"fmt"
	"strings"

	"oxturn/layout"
	"oxturn/layout/plane"
	"oxturn/layout/probe"
)

// spot turns the flags into a place in a room.
func (o *probeOrder) spot(p *layout.Plan) (*probe.Map, plane.Point, error) {
	if len(o.from) == 2 {
		r, err := roomNamed(p, o.room)
		if err != nil {
			return nil, plane.Point{}, err
		}
		return offWalls(probe.In(p, r, o.told), o.from)
	}
	spot, err := parseSpot(o.at, p.Job.Units)
	if err != nil {
		return nil, spot, err
	}
	r, err := roomAt(p, o.room, spot)
	if err != nil {
		return nil, spot, err
	}
	return probe.In(p, r, o.told), spot, nil
}

// parseSpot reads two lengths with a comma, or with a semicolon where decimals have
// commas.
func parseSpot(text string, u plane.Units) (plane.Point, error) {
	x, y, found := strings.Cut(text, ";")
	if !found && strings.Count(text, ",") == 1 {
		x, y, found = strings.Cut(text, ",")
	}
	if !found {
		return plane.Point{}, fmt.Errorf("--at %q is not two lengths with a comma, such as 1200,850 or \"3ft "+
			"4in,2ft\"; "+
			"with decimal commas, a semicolon parts them: \"1,2 m; 0,85 m\"", text)
	}
	var at [2]float64
	for i, s := range []string{x, y} {
		v, err := plane.ParseLength(strings.TrimSpace(s), u)
		if err != nil {
			return plane.Point{}, fmt.Errorf("--at %q: %w", text, err)
		}
		at[i] = v
	}
	return plane.Pt(at[0], at[1]), nil
}

// roomNamed finds a room of a plan; without a name, its only one.
func roomNamed(p *layout.Plan, name string) (*layout.Room, error) {
	var names []string
	for i := range p.Rooms {
		if strings.EqualFold(p.Rooms[i].Job.Name, name) || name == "" && len(p.Rooms) == 1 {
			return &p.Rooms[i], nil
		}
		names = append(names, p.Rooms[i].Job.Name)
	}
	if name == "" {
		return nil, fmt.Errorf("the job has several rooms: name one with --room; rooms: %s", strings.Join(names, ", "))
	}
	return nil, fmt.Errorf("the job has no room %q%s; rooms: %s", name, didYouMean(name, names),
		strings.Join(names, ", "))
}

// roomAt finds the room a spot lies in. Rooms may share coordinates.
func roomAt(p *layout.Plan, name string, spot plane.Point) (*layout.Room, error) {
	if name != "" || len(p.Rooms) == 1 {
		return roomNamed(p, name)
	}
	var in []*layout.Room
	for i := range p.Rooms {
		if p.Rooms[i].Floor.Contains(spot) {
			in = append(in, &p.Rooms[i])
		}
	}
	if len(in) == 1 {
		return in[0], nil
	}
	if len(in) == 0 {
		return nil, fmt.Errorf("the spot lies in no room of the job")
	}
	return nil, fmt.Errorf("the spot lies in %d rooms, whose coordinates overlap: name one with --room", len(in))
}

func offWalls(m *probe.Map, from []string) (*probe.Map, plane.Point, error) {
	var walls [2]string
	var off [2]float64
	for i, s := range from {
		wall, length, _ := strings.Cut(strings.TrimSpace(s), " ")
		v, err := plane.ParseLength(strings.TrimSpace(length), m.Units)
		if wall == "" || length == "" || err != nil {
			return nil, plane.Point{}, fmt.Errorf(
				"--from %q is not a wall's letter and a length, such as \"A 2ft 3in\"", s)
		}
		walls[i], off[i] = wall, v
	}
	p, err := m.OffWalls(walls[0], off[0], walls[1], off[1])
	return m, p, err
}
