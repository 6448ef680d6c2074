package takeoff

import (
	"oxturn/layout/job"
	"oxturn/layout/language"
	"oxturn/layout/plane"
	"oxturn/layout/say"
	"oxturn/layout/tiling"
)

// words adds what the figures stand for and what they leave out.
func (b *builder) words() {
	b.inclusions()
	b.list.Exclusions = []language.Message{
		language.Say("Electrical work by others: circuit, protection, wiring, hook-up."),
		language.Say("Permit and inspection."),
		language.Say("Demolition, levelling and repair of the subfloor."),
		language.Say("Fixtures, thresholds, skirting, wall tile."),
		language.Say("Heat-loss calculation by a standard."),
	}
	if !b.hires() {
		b.list.Exclusions = append(b.list.Exclusions, language.Say("Hire of an insulation tester and alarm."))
	}
	b.assumptions()
	b.questions()
}

func (b *builder) inclusions() {
	for _, r := range b.in.Rooms {
		u := b.in.Units
		b.list.Inclusions = append(b.list.Inclusions, language.Say("%s: floor %s, tiled %s, heated %s.",
			r.Name, area(r.Floor, u), area(r.Tiled.Area(), u), area(r.Heated, u)))
	}
}

// area writes an area in both systems, the job's own first.
func area(mm2 float64, u plane.Units) language.Figure { return language.Figure(say.AreaBoth(mm2, u)) }

// percent writes a share as it is given.
func percent(share float64) language.Figure { return language.Figure(say.PercentGiven(share)) }

func (b *builder) assumptions() {
	if len(b.in.Strips) == 0 {
		b.list.Assumptions = []language.Message{
			language.Say("Membrane under all tile, strips butted."),
			language.Say("Cable's volume not taken off the peg fill."),
		}
	}
	b.list.Assumptions = append(b.list.Assumptions,
		language.Say("Grout as deep as the tile."),
		language.Say("Packs for the whole job."),
		language.Say("Cut lengths and spacers with %s waste (common practice).", percent(cutWaste)),
	)
	if b.in.Tile.Pattern == tiling.Herringbone {
		b.list.Assumptions = append(b.list.Assumptions,
			language.Say("Herringbone is counted with its zigzag along the longer side of each room, every tile at 45 "+
				"degrees to the walls."))
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
