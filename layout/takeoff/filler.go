package takeoff

import (
	"slices"

	"oxturn/layout/job"
	"oxturn/layout/language"
	"oxturn/layout/plane"
	"oxturn/layout/say"
)

// joints adds grout and sealant.
func (b *builder) joints() {
	b.grout()
	m := b.in.Materials
	b.sealant("edge-sealant", language.Say("Sealant at the perimeter"), language.Say("tile edge"),
		[]seal{{b.in.edge(), m.SealantWidth, m.SealantWidthSource}})
	if s := b.movementJoints(); len(s) > 0 {
		b.sealant("joint-sealant", language.Say("Sealant in movement joints"), language.Say("movement joints"), s)
	}
}

// A seal is a length of joint of one width to be filled, in mm.
type seal struct {
	length, width float64
	source        job.Source // of the width
}

// grout adds the grout by exact joint geometry and its dry density.
func (b *builder) grout() {
	p, t := b.in.Materials.Grout, b.in.Tile
	l := Line{Code: "grout", Item: language.Say("Grout"), Basis: b.tiledBasis(), Unit: "kg", Waste: p.Waste,
		Pack:     p.Pack,
		PackName: "bag"}
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
		b.fillJoints(&l, depth)
	}
	b.add(l, p.Price)
}

// fillJoints works out the grout in kg for joints that it fills to a mean depth in mm
// over the tiled floor.
func (b *builder) fillJoints(l *Line, depth float64) {
	p, t := b.in.Materials.Grout, b.in.Tile
	l.Net = b.in.tiled() / plane.SquareMetre * depth * p.Density
	l.note("joint %s, depth %s; %s dry, %s", b.both(t.Joint, "mm"), b.both(t.Thickness, "mm"),
		b.both(p.Density, "kg/L"), p.Source)
	if depth > 0 {
		l.note("short formula %s %% more", language.Figure(say.Digits(100*(GroutDepthShort(t)/depth-1), 2)))
	}
}

// movementJoints returns the movement joints of all rooms by their widths.
func (b *builder) movementJoints() []seal {
	var out []seal
	for _, r := range b.in.Rooms {
		for _, j := range r.Joints {
			if !usable(j.Length) || !usable(j.Width) {
				b.ask("%s: joint %s of %g x %g mm cannot be counted.", r.Name, j.Name, j.Length, j.Width)
				continue
			}
			if j.Length == 0 {
				continue
			}
			s := seal{j.Length, j.Width, j.WidthSource}
			if s.width == 0 {
				s.width, s.source = b.in.Materials.SealantWidth, b.in.Materials.SealantWidthSource
			}
			out = joined(out, s)
		}
	}
	return out
}

// joined adds a joint to those alike.
func joined(all []seal, s seal) []seal {
	i := slices.IndexFunc(all, func(o seal) bool { return o.width == s.width && o.source == s.source })
	if i < 0 {
		return append(all, s)
	}
	all[i].length += s.length
	return all
}

// sealant adds joints to be filled, bought by length or, when the product comes
// in litres, by volume: width and depth are said, so that both can be worked
// out again.
func (b *builder) sealant(code string, item, what language.Message, joints []seal) {
	m, p := b.in.Materials, b.in.Materials.Sealant
	length, volume := 0.0, 0.0
	for _, s := range joints {
		length += s.length
		volume += s.length * s.width * m.SealantDepth
	}
	l := Line{Code: code, Item: item, Basis: b.lengthBasis(what, length), Unit: "m", Net: length / 1000, Waste: p.Waste,
		Pack: p.Pack, PackName: "cartridge"}
	l.call(p)
	switch {
	case p.Unit == "L" && usable(volume) && volume > 0:
		l.Unit, l.Net, l.Pack = "mL", volume/1000, 1000*p.Pack
		b.noteSeals(&l, joints)
	case p.Unit == "L" || p.Pack == 0:
		l.Pack, l.PackName = 0, ""
		b.ask("%s: width and depth of the joint and size of a cartridge, to count cartridges.", l.Item)
	case p.Unit != "m":
		l.Pack, l.PackName = 0, ""
		b.ask("%s: a cartridge of %g %s; it must be in L or m.", l.Item, p.Pack, p.Unit)
	}
	l.note("cartridge size, %s", p.Source)
	b.add(l, p.Price)
}

func (b *builder) noteSeals(l *Line, joints []seal) {
	for _, s := range joints {
		l.addNote(b.sealed(s, len(joints) > 1))
	}
}

// sealed words a joint's section with where it comes from, and how far a
// cartridge goes in it; with its length where it is one of several.
func (b *builder) sealed(s seal, several bool) language.Message {
	m := b.in.Materials
	depth := language.Say(m.SealantDepthSource.String())
	if m.SealantDepthSource == job.FromDefault {
		depth = language.Say("as the tile")
	}
	out := language.Say("joint %s wide, %s, and %s deep, %s", b.both(s.width, "mm"), s.source,
		b.both(m.SealantDepth, "mm"), depth)
	if several {
		out = language.Say("%s of %s", b.longWords(s.length), out)
	}
	if section := s.width * m.SealantDepth; m.Sealant.Pack > 0 && section > 0 {
		out = language.Joined("; ", out, language.Say("a cartridge fills %s",
			b.longWords(m.Sealant.Pack*plane.SquareMetre/section)))
	}
	return out
}

// yields words what one pack gives.
func (b *builder) yields(p job.Product) language.Message {
	if p.Pack > 0 && p.Unit != "L" {
		return language.Say("a bag of %s yields %s, %s", b.both(p.Pack, p.Unit), b.both(p.Yield, "L"), p.Source)
	}
	return language.Say("a bag yields %s, %s", b.both(p.Yield, "L"), p.Source)
}
