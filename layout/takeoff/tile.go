package takeoff

import (
	"fmt"
	"math"

	"oxturn/layout/job"
	"oxturn/layout/language"
	"oxturn/layout/plane"
	"oxturn/layout/tiling"
)

// tile adds the tile: place by place as it is set out in each room, cuts and all, so that
// only breakage is added; where a room is not set out, by area with its joint and waste.
func (b *builder) tile() {
	t := b.in.Tile
	l := Line{Code: "tile", Item: tileName(t, b.in.Units), Basis: b.tiledBasis(), Unit: "each", Pack: 1}
	if !(usable(t.Length) && usable(t.Width) && usable(t.Joint) && t.Length >= narrowestPiece &&
		t.Width >= narrowestPiece) {
		l.note("no tile size is given")
		b.ask("Tile: size and joint, to count tiles.")
		b.add(l, 0)
		return
	}
	if t.PerBox > 0 {
		l.Pack, l.PackName = float64(t.PerBox), "box"
	}
	if t.Pattern == tiling.Offset && max(t.Length, t.Width) > largeSide && t.Offset > mostOffset {
		b.ask("Tile: sides over %s are offset by a third at most unless their instructions allow more (ANSI A108.02, "+
			"4.3.8.2), here by %s.", b.both(largeSide, "mm"), percent(t.Offset))
	}
	l.Net = tiling.ByArea(b.in.tiled(), t)
	waste := b.usableShare(language.Say("Tile: a waste"), t.Waste)
	byArea := math.Ceil(snap(l.Net * (1 + waste)))
	c, err := b.countTiles()
	if err != nil {
		l.take(byArea)
		l.note("by area with the joint and %s waste; %v", percent(waste), err)
		b.addGross(l, 0)
		return
	}
	breakage := b.usableShare(language.Say("Tile: a breakage"), t.Breakage)
	l.take(float64(tiling.Bought(c.Tiles(), breakage)))
	l.note("%s: %d whole, %d cut, %s, so %d, with %s breakage %.0f; by area with %s waste: %.0f",
		b.setOutBy(), c.Whole, c.Cut, fromOffcuts(c.Pairs), c.Tiles(), percent(breakage), l.Gross,
		percent(waste), byArea)
	b.addGross(l, 0)
}

// Of a large tile in offset rows: beyond this side, mm, it is moved by a third at most, since
// the bow of a tile is worst beside the middle of its neighbour (ANSI A108.02, 4.3.8.2, as
// quoted at fcimag.com/articles/94659).
const (
	largeSide  = 15 * plane.Inch
	mostOffset = 0.34
)

// usableShare asks about a share that is none, and adds nothing for it.
func (b *builder) usableShare(what language.Message, share float64) float64 {
	if usable(share) {
		return share
	}
	b.ask("%s of %g is not usable; none is added.", what, share)
	return 0
}

// setOutBy says whose layouts the tiles are counted on.
func (b *builder) setOutBy() language.Message {
	recorded := 0
	for _, r := range b.in.Rooms {
		if r.Tiles.Recorded {
			recorded++
		}
	}
	switch recorded {
	case 0:
		return language.Say("by the tile plan")
	case len(b.in.Rooms):
		return language.Say("as the tiler set it out")
	}
	return language.Say("as set out in some rooms, as proposed in others")
}

// fromOffcuts words how many cut tiles come from what is left of others.
func fromOffcuts(n int) language.Message {
	switch n {
	case 0:
		return language.Say("none from off-cuts")
	case 1:
		return language.Say("1 of them from an off-cut")
	}
	return language.Say("%d of them from off-cuts", n)
}

// countTiles adds up the rooms as they are set out.
func (b *builder) countTiles() (total tiling.Count, err error) {
	for _, r := range b.in.Rooms {
		switch {
		case r.Uncounted != nil:
			return total, r.Uncounted
		case r.Tiles == nil:
			return total, fmt.Errorf("the pattern %q is not counted tile by tile", b.in.Tile.Pattern)
		}
		total.Whole += r.Tiles.Whole
		total.Cut += r.Tiles.Cut
		total.Pairs += r.Tiles.Pairs
	}
	return total, nil
}

func tileName(t job.Tile, u plane.Units) language.Message {
	pattern := t.Pattern
	if pattern == "" {
		pattern = tiling.Straight
	}
	return language.Say("Tile %s x %s, %s", language.Figure(plane.FormatLength(t.Width, u)),
		language.Figure(plane.FormatLength(t.Length, u)), language.Say(string(pattern)))
}
