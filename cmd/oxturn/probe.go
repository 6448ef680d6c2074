package main

import (
	"context"
	"flag"
	"fmt"
	"strconv"
	"strings"

	"oxturn/layout"
	"oxturn/layout/plane"
	"oxturn/layout/probe"
	"oxturn/layout/takeoff"
)

const probeHelp = `
Says what lies at a spot on a finished floor or in a wall, before anything is
drilled: the nearest cable, joints, leads and sensors, how far they are less
what the record may be off, and what lies under the tile. A verdict is given
only from a floor recorded as laid, never from a plan, and none calls a spot
free of risk.

  oxturn probe bath.toml --from "A 2ft 3in" --from "B 14in"
  oxturn probe bath.toml --at 1200,850
  oxturn probe house.toml --room Bath --tile 3,2
  oxturn probe bath.toml --wall B --from 26in --up 40in

Flags:
  --from "WALL LENGTH"   square off a wall's face; give two walls
  --at X,Y               in the coordinates of the job's corners
  --tile ROW,COLUMN      a whole tile, as the owner's map numbers them
  --wall LETTER          a hole in this wall: one --from LENGTH, from its
                         corner with the wall lettered before it
  --up LENGTH            how high above the floor that hole is
  --room NAME            the room, where the job has several
  --plan CODE            plan code on the drawing at hand: no other plan answers
                         for it; or its layout file, whose plan answers then
  --format FORMAT        text or json
` + mannerHelp + `
Exit codes: 0 answered, 1 errors in the job, 2 usage.
`

// A probeOrder is what the flags of probe ask for.
type probeOrder struct {
	at, tile, wall, up, room, plan, format string
	from                                   []string
}

func probeVerb(ctx context.Context, c *console, args []string) int {
	fs := flag.NewFlagSet("probe", flag.ContinueOnError)
	var o probeOrder
	fs.StringVar(&o.at, "at", "", "")
	fs.StringVar(&o.tile, "tile", "", "")
	fs.StringVar(&o.wall, "wall", "", "")
	fs.StringVar(&o.up, "up", "", "")
	fs.StringVar(&o.room, "room", "", "")
	fs.StringVar(&o.plan, "plan", "", "")
	fs.StringVar(&o.format, "format", "text", "")
	fs.Func("from", "", func(s string) error { o.from = append(o.from, s); return nil })
	m := mannerFlags(fs)
	names, code, ok := parse(c, "probe", fs, args)
	if !ok {
		return code
	}
	name, ok := oneJob(c, "probe", names)
	if !ok || !m.settle(c, "probe") || !formatKnown(c, "probe", o.format) {
		return exitUsage
	}
	if err := o.check(); err != nil {
		c.say("oxturn probe: %v\nhint: oxturn help probe", err)
		return exitUsage
	}
	w, code := loadLaid(ctx, c, "probe", name, o.plan, m)
	if code != exitOK {
		return code
	}
	if code, ok := restsOn(c, "probe", o.plan, planCodes(w.plan)); !ok {
		return code
	}
	if err := o.answer(c, w.plan); err != nil {
		c.say("oxturn probe: %v", err)
		return exitUsage
	}
	return exitOK
}

// check holds that a spot is given in exactly one way.
func (o probeOrder) check() error {
	if o.wall != "" || o.up != "" {
		return o.checkWall()
	}
	ways := 0
	for _, given := range []bool{o.at != "", o.tile != "", len(o.from) > 0} {
		if given {
			ways++
		}
	}
	switch {
	case ways == 0:
		return fmt.Errorf("say where: --from \"A 2ft 3in\" --from \"B 14in\", --at X,Y or --tile ROW,COLUMN")
	case ways > 1:
		return fmt.Errorf("a spot is given in more than one way; keep --from, --at or --tile")
	case len(o.from) == 1:
		return fmt.Errorf("one wall does not fix a spot: give a second --from, off a wall about square to the first; for a hole in the wall itself, --wall B --from 26in --up 40in")
	case len(o.from) > 2:
		return fmt.Errorf("%d walls are given; a spot takes two --from", len(o.from))
	}
	return nil
}

// checkWall holds that a hole in a wall is given whole, and nothing else.
func (o probeOrder) checkWall() error {
	switch {
	case o.at != "" || o.tile != "":
		return fmt.Errorf("a hole in a wall and a spot on the floor are given; keep one")
	case o.wall == "" || o.up == "" || len(o.from) != 1:
		return fmt.Errorf("a hole in a wall takes the wall, how far along it and how high: --wall B --from 26in --up 40in")
	}
	return nil
}

func (o probeOrder) answer(c *console, p *layout.Plan) error {
	if o.wall != "" {
		return o.answerWall(c, p)
	}
	if o.tile != "" {
		return o.answerTile(c, p)
	}
	m, spot, err := o.spot(p)
	if err != nil {
		return err
	}
	a := m.At(spot)
	var under []probe.Piece
	if a.Tile != nil {
		if u, err := m.Under(*a.Tile); err == nil {
			under = u.Pieces
		}
	}
	if o.format == "json" {
		return m.WriteJSON(c.Out, a, under, true)
	}
	printAnswer(c, m, a, probe.Fact{About: "spot", Words: m.Spot(a)}, under)
	return nil
}

func (o probeOrder) answerWall(c *console, p *layout.Plan) error {
	r, err := roomNamed(p, o.room)
	if err != nil {
		return err
	}
	along, err := plane.ParseLength(strings.TrimSpace(o.from[0]), p.Job.Units)
	if err != nil {
		return fmt.Errorf("--from %q, along wall %s: %w", o.from[0], o.wall, err)
	}
	up, err := plane.ParseLength(strings.TrimSpace(o.up), p.Job.Units)
	if err != nil {
		return fmt.Errorf("--up %q: %w", o.up, err)
	}
	m := probe.Of(p, r)
	s, err := m.WallSpot(strings.TrimSpace(o.wall), along, up)
	if err != nil {
		return err
	}
	a := m.OnWall(s)
	if o.format == "json" {
		return m.WriteJSON(c.Out, a, nil, false)
	}
	printAnswer(c, m, a, probe.Fact{About: "spot", Words: m.Spot(a)}, nil)
	return nil
}

func (o probeOrder) answerTile(c *console, p *layout.Plan) error {
	var place takeoff.Place
	row, col, _ := strings.Cut(o.tile, ",")
	var err1, err2 error
	place.Row, err1 = strconv.Atoi(strings.TrimSpace(row))
	place.Column, err2 = strconv.Atoi(strings.TrimSpace(col))
	if err1 != nil || err2 != nil {
		return fmt.Errorf("--tile %q is not a row and a column, such as 3,2", o.tile)
	}
	r, err := roomNamed(p, o.room)
	if err != nil {
		return err
	}
	m := probe.Of(p, r)
	u, err := m.Under(place)
	if err != nil {
		return err
	}
	if o.format == "json" {
		return m.WriteJSON(c.Out, u.Answer, u.Pieces, false)
	}
	printAnswer(c, m, u.Answer, m.TileFact(u), u.Pieces)
	return nil
}

// spot turns the flags into a place in a room.
func (o probeOrder) spot(p *layout.Plan) (*probe.Map, plane.Point, error) {
	if len(o.from) == 2 {
		r, err := roomNamed(p, o.room)
		if err != nil {
			return nil, plane.Point{}, err
		}
		return offWalls(probe.Of(p, r), o.from)
	}
	x, y, found := strings.Cut(o.at, ";")
	if !found && strings.Count(o.at, ",") == 1 {
		x, y, found = strings.Cut(o.at, ",")
	}
	if !found {
		return nil, plane.Point{}, fmt.Errorf("--at %q is not two lengths with a comma, such as 1200,850 or \"3ft 4in,2ft\"; with decimal commas, a semicolon parts them: \"1,2 m; 0,85 m\"", o.at)
	}
	var at [2]float64
	for i, s := range []string{x, y} {
		v, err := plane.ParseLength(strings.TrimSpace(s), p.Job.Units)
		if err != nil {
			return nil, plane.Point{}, fmt.Errorf("--at %q: %w", o.at, err)
		}
		at[i] = v
	}
	spot := plane.Pt(at[0], at[1])
	r, err := roomAt(p, o.room, spot)
	if err != nil {
		return nil, spot, err
	}
	return probe.Of(p, r), spot, nil
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
			return nil, plane.Point{}, fmt.Errorf("--from %q is not a wall's letter and a length, such as \"A 2ft 3in\"", s)
		}
		walls[i], off[i] = wall, v
	}
	p, err := m.OffWalls(walls[0], off[0], walls[1], off[1])
	return m, p, err
}

// printAnswer writes an answer for people.
func printAnswer(c *console, m *probe.Map, a probe.Answer, where probe.Fact, under []probe.Piece) {
	fmt.Fprintln(c.Out, m.Headline(a))
	for _, f := range append(m.Facts(a, where, under), probe.Fact{About: "plan", Words: m.Rests()}) {
		fmt.Fprintf(c.Out, "%-8s %s\n", f.About, f.Words)
	}
	for i, s := range m.CautionsOf(a) {
		fmt.Fprintf(c.Out, "%d. %s\n", i+1, s)
	}
}
