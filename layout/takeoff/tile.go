package takeoff

import (
	"fmt"
	"math"

	"oxturn/layout/job"
	"oxturn/layout/plane"
)

// tile adds the tile. It is counted twice, by area with its joint and waste,
// and place by place on a grid laid on each room; the larger figure is bought.
// The cuts are known on the grid, so that only breakage is added there.
func (b *builder) tile() {
	t := b.in.Tile
	l := Line{Code: "tile", Item: tileName(t, b.in.Units), Basis: b.tiledBasis(), Unit: "each", Pack: 1}
	if !(usable(t.Length) && usable(t.Width) && usable(t.Joint) && t.Length >= least && t.Width >= least) {
		l.note("no tile size is given")
		b.ask("Tile: size and joint, to count tiles.")
		b.add(l, 0)
		return
	}
	if t.PerBox > 0 {
		l.Pack, l.PackName = float64(t.PerBox), "box"
	}
	l.Net = TilesByArea(b.in.tiled(), t)
	waste := t.Waste
	if !usable(waste) {
		b.ask("Tile: a waste of %g is not usable; none is added.", waste)
		waste = 0
	}
	byArea := math.Ceil(snap(l.Net * (1 + waste)))
	counted, err := b.countTiles()
	if err != nil {
		l.take(byArea)
		l.note("by area with the joint and %.3g %% waste; %v", 100*waste, err)
		b.addGross(l, 0)
		return
	}
	breakage := t.Breakage
	if !usable(breakage) {
		b.ask("Tile: a breakage of %g is not usable; none is added.", breakage)
		breakage = 0
	}
	byGrid := math.Ceil(snap(float64(counted.Tiles()) * (1 + breakage)))
	l.take(max(byArea, byGrid))
	l.note("set out from the middle of each room: %d whole, %d cut, %s, so %d, with %.3g %% breakage %.0f; by area "+
		"with %.3g %% waste: %.0f; the larger is taken",
		counted.Whole, counted.Cut, fromOffcuts(counted.Pairs), counted.Tiles(), 100*breakage, byGrid, 100*waste,
		byArea)
	b.addGross(l, 0)
}

// fromOffcuts words how many cut tiles come from what is left of others.
func fromOffcuts(n int) string {
	switch n {
	case 0:
		return "none from off-cuts"
	case 1:
		return "1 of them from an off-cut"
	}
	return fmt.Sprintf("%d of them from off-cuts", n)
}

// countTiles counts all rooms on their own grids.
func (b *builder) countTiles() (Count, error) {
	var total Count
	for _, r := range b.in.Rooms {
		c, err := countTiles(r.Tiled, b.in.Tile)
		if err != nil {
			return Count{}, err
		}
		total.Whole += c.Whole
		total.Cut += c.Cut
		total.Pairs += c.Pairs
	}
	return total, nil
}

// countTiles counts one room's tiles in its pattern.
func countTiles(room plane.Region, t job.Tile) (Count, error) {
	room = withoutSlivers(room)
	if t.Pattern == Herringbone {
		return herringbone(room, t).count(room)
	}
	g, ok := TileGrid(room, t)
	if !ok {
		return Count{}, fmt.Errorf("the pattern %q is not counted tile by tile", t.Pattern)
	}
	return g.Count(room)
}

func tileName(t job.Tile, u plane.Units) string {
	pattern := t.Pattern
	if pattern == "" {
		pattern = Straight
	}
	return fmt.Sprintf("Tile %s x %s, %s", plane.FormatLength(t.Width, u), plane.FormatLength(t.Length, u), pattern)
}
