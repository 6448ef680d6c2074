package takeoff

import (
	"fmt"

	"oxturn/layout/job"
	"oxturn/layout/say"
	"oxturn/layout/tiling"
)

// words adds what the figures stand for and what they leave out.
func (b *builder) words() {
	b.inclusions()
	b.list.Exclusions = []string{
		"Electrical work by others: circuit, protection, wiring, hook-up.",
		"Permit and inspection.",
		"Demolition, levelling and repair of the subfloor.",
		"Fixtures, thresholds, skirting, wall tile.",
		"Heat-loss calculation by a standard.",
	}
	if !b.hires() {
		b.list.Exclusions = append(b.list.Exclusions, "Hire of an insulation tester and alarm.")
	}
	b.assumptions()
	b.questions()
}

func (b *builder) inclusions() {
	for _, r := range b.in.Rooms {
		u := b.in.Units
		b.list.Inclusions = append(b.list.Inclusions, fmt.Sprintf("%s: floor %s, tiled %s, heated %s.",
			r.Name, say.AreaBoth(r.Floor, u), say.AreaBoth(r.Tiled.Area(), u), say.AreaBoth(r.Heated, u)))
	}
}

func (b *builder) assumptions() {
	b.list.Assumptions = []string{
		"Membrane under all tile, heated or not, strips butted.",
		"The cable's volume is not taken off the peg fill.",
		"Grout joints as deep as the tile is thick.",
		"Packs are for the whole job.",
		"Cut lengths and spacers with 10 % waste (common practice).",
	}
	if b.in.Tile.Pattern == tiling.Herringbone {
		b.list.Assumptions = append(b.list.Assumptions,
			"Herringbone is counted with its zigzag along the longer side of each room, every tile at 45 degrees to "+
				"the walls.")
	}
}

// questions adds what is open in the rooms and, for a proposal, that sizes
// must still be measured.
func (b *builder) questions() {
	if b.in.Status == job.Proposal {
		b.ask("Proposal: site measure required. Cable is ordered only after the finished walls are measured.")
	}
	for _, r := range b.in.Rooms {
		for _, name := range r.Undecided {
			b.ask("%s: %s is not decided; its place is kept free of cable.", r.Name, name)
		}
		for _, q := range r.Questions {
			b.ask("%s: %s", r.Name, q)
		}
		if len(r.Tiled) == 0 {
			b.ask("%s: no tiled area.", r.Name)
		}
	}
}
