package main

import (
	"context"
	"fmt"
	"strconv"
	"strings"

	"oxturn/layout"
	"oxturn/layout/language"
	"oxturn/layout/plane"
	"oxturn/layout/probe"
	"oxturn/layout/tiling"
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
  oxturn probe bath.pdf --at 1200,850         by what a PDF carries
  oxturn probe label.txt --at 1200,850        by what a panel label's code says

Flags:
  --from "WALL LENGTH"   square off a wall's face; give two walls
  --at X,Y               in the coordinates of the job's corners
  --tile ROW,COLUMN      a whole tile, as the owner's map numbers them; the job
                         must say with first_tile where the tiler began
  --wall LETTER          a hole in this wall: one --from LENGTH, from its
                         corner with the wall lettered before it
  --up LENGTH            how high above the floor that hole is
  --room NAME            the room, where the job has several
  --plan CODE            plan code on the drawing at hand: no other plan answers
                         for it; or its layout file, whose plan answers then
  --format FORMAT        text or json
` + jobFlagsHelp + `
Exit codes: 0 answered, 1 errors in the job, 2 usage.
`

// A probeOrder is what the flags of probe ask for.
type probeOrder struct {
	at, tile, wall, up, room, plan, format string
	told                                   language.Language // what the answer is in
	from                                   []string
}

func (o *probeOrder) flags(f *verbFlags) {
	f.text(&o.at, "at")
	f.text(&o.tile, "tile")
	f.text(&o.wall, "wall")
	f.text(&o.up, "up")
	f.text(&o.room, "room")
	f.text(&o.plan, "plan")
	f.each(&o.from, "from")
	f.format(&o.format)
}

func (o *probeOrder) run(ctx context.Context, c *commandLine) int {
	if err := o.check(); err != nil {
		return c.misuse(err)
	}
	w, code := c.loadLaid(ctx, o.plan)
	if code != exitOK {
		return code
	}
	if code := c.restsOn(o.plan, planCodes(w.plan)); code != exitOK {
		return code
	}
	if err := o.answer(c, w.plan); err != nil {
		return c.fail(err)
	}
	return exitOK
}

// check holds that a spot is given in exactly one way.
func (o *probeOrder) check() error {
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
		return fmt.Errorf("one wall does not fix a spot: give a second --from, off a wall about square to the first; " +
			"for a hole in the wall itself, --wall B --from 26in --up 40in")
	case len(o.from) > 2:
		return fmt.Errorf("%d walls are given; a spot takes two --from", len(o.from))
	}
	return nil
}

// checkWall holds that a hole in a wall is given whole, and nothing else.
func (o *probeOrder) checkWall() error {
	switch {
	case o.at != "" || o.tile != "":
		return fmt.Errorf("a hole in a wall and a spot on the floor are given; keep one")
	case o.wall == "" || o.up == "" || len(o.from) != 1:
		return fmt.Errorf("a hole in a wall takes the wall, how far along it and how high: --wall B --from 26in " +
			"--up 40in")
	}
	return nil
}

func (o *probeOrder) answer(c *commandLine, p *layout.Plan) error {
	o.told = c.Language
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
	under := underTileOf(m, a)
	if o.format == "json" {
		return m.WriteJSON(c.Out, a, under, true)
	}
	printAnswer(c, m, a, probe.Fact{About: "spot", Words: m.Spot(a)}, under)
	return nil
}

// underTileOf is what lies under the tile that an answer's spot is on, if on any.
func underTileOf(m *probe.Map, a probe.Answer) []probe.Piece {
	if a.Tile == nil {
		return nil
	}
	u, err := m.Under(*a.Tile)
	if err != nil {
		return nil
	}
	return u.Pieces
}

func (o *probeOrder) answerWall(c *commandLine, p *layout.Plan) error {
	r, err := roomNamed(p, o.room)
	if err != nil {
		return err
	}
	m := probe.In(p, r, o.told)
	s, err := o.wallSpot(m, p.Job.Units)
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

// wallSpot reads the place on a wall that the flags give.
func (o *probeOrder) wallSpot(m *probe.Map, u plane.Units) (probe.WallSpot, error) {
	along, err := plane.ParseLength(strings.TrimSpace(o.from[0]), u)
	if err != nil {
		return probe.WallSpot{}, fmt.Errorf("--from %q, along wall %s: %w", o.from[0], o.wall, err)
	}
	up, err := plane.ParseLength(strings.TrimSpace(o.up), u)
	if err != nil {
		return probe.WallSpot{}, fmt.Errorf("--up %q: %w", o.up, err)
	}
	return m.WallSpot(strings.TrimSpace(o.wall), along, up)
}

func (o *probeOrder) answerTile(c *commandLine, p *layout.Plan) error {
	place, err := o.tilePlace()
	if err != nil {
		return err
	}
	r, err := roomNamed(p, o.room)
	if err != nil {
		return err
	}
	m := probe.In(p, r, o.told)
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

// tilePlace reads the row and the column that --tile gives.
func (o *probeOrder) tilePlace() (tiling.Place, error) {
	row, col, _ := strings.Cut(o.tile, ",")
	r, err1 := strconv.Atoi(strings.TrimSpace(row))
	c, err2 := strconv.Atoi(strings.TrimSpace(col))
	if err1 != nil || err2 != nil {
		return tiling.Place{}, fmt.Errorf("--tile %q is not a row and a column, such as 3,2", o.tile)
	}
	return tiling.Place{Row: r, Column: c}, nil
}

// printAnswer writes an answer for people.
func printAnswer(c *commandLine, m *probe.Map, a probe.Answer, where probe.Fact, under []probe.Piece) {
	fmt.Fprintln(c.Out, m.Headline(a))
	facts := append(m.Facts(a, where, under), probe.Fact{About: "plan", Words: m.Rests()})
	for _, f := range facts {
		fmt.Fprintf(c.Out, "%-8s %s\n", c.told(f.About), c.told(f.Words))
	}
	for i, s := range m.CautionsOf(a) {
		fmt.Fprintf(c.Out, "%d. %s\n", i+1, s)
	}
}
