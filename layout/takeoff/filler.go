package takeoff

import (
	"fmt"

	"oxturn/layout/job"
)

// joints adds grout and sealant.
func (b *builder) joints() {
	b.grout()
	m := b.in.Materials
	edge := b.in.edge()
	b.sealant(Line{Code: "edge-sealant", Item: "Sealant at the perimeter", Basis: b.lengthBasis("tile edge", edge)},
		edge, edge*m.SealantWidth*m.SealantDepth)
	length, volume := b.movementJoints()
	if length != 0 {
		b.sealant(Line{Code: "joint-sealant", Item: "Sealant in movement joints", Basis: b.lengthBasis("movement joints", length)},
			length, volume)
	}
}

// grout adds the grout by exact joint geometry and its dry density.
func (b *builder) grout() {
	p, t := b.in.Materials.Grout, b.in.Tile
	l := Line{Code: "grout", Item: "Grout", Basis: b.tiledBasis(), Unit: "kg", Waste: p.Waste, Pack: p.Pack, PackName: "bag"}
	l.call(p)
	depth := GroutDepth(t)
	switch {
	case !(t.Length > 0 && t.Width > 0 && usable(depth)):
		b.ask("Grout: tile size, joint and thickness.")
	case !usable(p.Density) || p.Density == 0:
		b.ask("Grout: dry density in kg/L, to count bags.")
	case p.Unit != "kg":
		l.Pack, l.PackName = 0, ""
		b.ask("Grout: a pack of %g %s; it must be in kg.", p.Pack, p.Unit)
		fallthrough
	default:
		l.Net = b.in.tiled() / 1e6 * depth * p.Density
		l.note("joint %s, depth %s, exact joint geometry; %s dry, %s", b.both(t.Joint, "mm"), b.both(t.Thickness, "mm"), b.both(p.Density, "kg/L"), p.Source)
		if depth > 0 {
			l.note("%.2g %% more by the short formula", 100*(GroutDepthShort(t)/depth-1))
		}
	}
	b.add(l, p.Price)
}

// movementJoints returns the length in mm and the volume in mm³ of all
// movement joints.
func (b *builder) movementJoints() (length, volume float64) {
	for _, r := range b.in.Rooms {
		for _, j := range r.Joints {
			width := j.Width
			if !usable(j.Length) || !usable(j.Width) {
				b.ask("%s: joint %s of %g x %g mm cannot be counted.", r.Name, j.Name, j.Length, j.Width)
				continue
			}
			if width == 0 {
				width = b.in.Materials.SealantWidth
			}
			length += j.Length
			volume += j.Length * width * b.in.Materials.SealantDepth
		}
	}
	return length, volume
}

// sealant adds a length in mm to be filled, bought by length or, when the
// product comes in litres, by volume in mm³.
func (b *builder) sealant(l Line, length, volume float64) {
	p := b.in.Materials.Sealant
	l.Unit, l.Net, l.Waste, l.Pack, l.PackName = "m", length/1000, p.Waste, p.Pack, "cartridge"
	l.call(p)
	switch {
	case p.Unit == "L" && usable(volume) && volume > 0:
		l.Unit, l.Net = "L", volume/1e6
		l.note("%s deep", b.both(b.in.Materials.SealantDepth, "mm"))
	case p.Unit == "L" || p.Pack == 0:
		l.Pack, l.PackName = 0, ""
		b.ask("%s: width and depth of the joint and size of a cartridge, to count cartridges.", l.Item)
	case p.Unit != "m":
		l.Pack, l.PackName = 0, ""
		b.ask("%s: a cartridge of %g %s; it must be in L or m.", l.Item, p.Pack, p.Unit)
	}
	l.note("size of a pack: %s", p.Source)
	b.add(l, p.Price)
}

// yields words what one pack gives.
func (b *builder) yields(p job.Product) string {
	bag := "a bag"
	if p.Pack > 0 && p.Unit != "L" {
		bag += " of " + b.both(p.Pack, p.Unit)
	}
	return fmt.Sprintf("%s yields %s, %s", bag, b.both(p.Yield, "L"), p.Source)
}
