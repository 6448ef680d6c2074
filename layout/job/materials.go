package job

// A productKind is something the job may have bought by the pack, with what
// holds where the file is silent. An empty pack means that it is not taken off
// unless the file speaks of it.
type productKind struct {
	key, doc                                  string
	pack, coverage, yield, density, wasteText string
	packIn, coverageIn, yieldIn               string // in a job in inches, where it is another
}

// productKinds: a 50 lb bag of mortar that covers 60 to 90 ft² as a bond coat
// and gives about half a cubic foot or 3.75 gal wet is common practice; so is a
// bag of 25 kg, which at the same 3.25 kg/m² and 0.64 L/kg covers 7.7 m² and gives 16 L;
// as are bags of grout of 5 kg and of 10 lb, and cartridges of 300 mL and of
// 10.1 fl oz; dry grout at 1.6 kg/L is the middle of the figures in print (1.4
// to 1.75).
var productKinds = []productKind{
	{"bond_mortar", "Mortar under the membrane", `"25 kg"`, `"7.7 m2"`, "", "", "0.1", `"50 lb"`, `"75 ft2"`, ""},
	{"fill_mortar", "Mortar that fills the pegs", `"25 kg"`, "", `"16 L"`, "", "0.1", `"50 lb"`, "", `"3.75 gal"`},
	{"bed_mortar", "Mortar bed of the tile", `"25 kg"`, "", `"16 L"`, "", "0.1", `"50 lb"`, "", `"3.75 gal"`},
	{"grout", "Grout", `"5 kg"`, "", "", "1.6", "0.1", `"10 lb"`, "", ""},
	{"sealant", "Sealant of perimeter and movement joints", `"0.3 L"`, "", "", "", "0.1", `"10.1 fl oz"`, "", ""},
	{"primer", "Primer of the subfloor", "", "", "", "", "0.1", "", "", ""},
	{"board", "Insulation board under the membrane", "", "", "", "", "0.1", "", "", ""},
	{"waterproofing", "Waterproofing of the floor", "", "", "", "", "0.1", "", "", ""},
	{"band", "Seam and corner band", "", "", "", "", "0.1", "", "", ""},
}

func (p productKind) keys() []Key {
	silent := "not taken off"
	if p.pack != "" {
		silent = ""
	}
	return under(Key{Path: "materials." + p.key, Type: TypeTable, Doc: p.doc, Otherwise: silent,
		Example: "[materials." + p.key + "]\npack = \"22.7 kg\""},
		Key{Path: "name", Type: TypeText, Doc: "What to ask for", Example: `name = "Flexible mortar"`},
		Key{Path: "pack", Type: TypePack, Limits: overZero, Default: p.pack, DefaultIn: p.packIn,
			Doc: "Size of a pack: kg, lb, L, gal, fl oz, m, ft, m2 or ft2", Example: `pack = "50 lb"`},
		Key{Path: "coverage", Type: TypeArea, Limits: overZero, Default: p.coverage, DefaultIn: p.coverageIn,
			Doc: "Area a pack covers", Example: `coverage = "75 ft2"`},
		Key{Path: "yield", Type: TypeVolume, Limits: overZero, Default: p.yield, DefaultIn: p.yieldIn,
			Doc: "Wet volume a pack gives", Example: `yield = "14.5 L"`},
		Key{Path: "density", Type: TypeNumber, Limits: overZero, Default: p.density, Doc: "Dry kg/L, of grout",
			Example: "density = 1.6"},
		Key{Path: "waste", Type: TypeShare, Limits: Limits{Max: 1}, Default: p.wasteText, Doc: "Share added for waste",
			Example: `waste = "10 %"`},
		Key{Path: "price", Type: TypeNumber, Doc: "Of a pack", Example: "price = 24.5"},
	)
}

// usualBed is the mean bed of a tile where nothing tells, mm.
const usualBed = 3.4

// materialKeys: 3.4 mm is the mean bed of a 1/4 x 3/8 in square notch held at
// 45 degrees, half of the ridges' height flattened; 1/4 in is the least
// perimeter joint of the trade's movement joint rules, and 6 mm what goes by it elsewhere.
func materialKeys() []Key {
	out := under(Key{Path: "materials", Type: TypeTable, Doc: "Yields of what is bought by area or volume",
		Example: "[materials]"},
		Key{Path: "bed_thickness", Type: TypeLength, Limits: overZero,
			Otherwise: "the layer of mortar next under the tile, else 3.4 mm",
			Doc:       "Mean thickness of the bed under the tile", Example: `bed_thickness = "3.4 mm"`},
		Key{Path: "bed_notch", Type: TypeLength, Limits: overZero, Otherwise: "bed_thickness",
			Doc:     "Depth of the square notch of the trowel that lays that bed; it wins over bed_thickness",
			Example: `bed_notch = "3/8in"`},
		Key{Path: "sealant_width", Type: TypeLength, Limits: overZero, Default: `"6 mm"`, DefaultIn: `"1/4in"`,
			Doc: "Width of a sealed joint", Example: `sealant_width = "6 mm"`},
		Key{Path: "sealant_depth", Type: TypeLength, Limits: overZero, Otherwise: "the tile's thickness",
			Doc: "Depth of a sealed joint", Example: `sealant_depth = "8 mm"`},
	)
	for _, p := range productKinds {
		out = append(out, p.keys()...)
	}
	return out
}

// readMaterials reads the products, after the tile and the layers.
func (j *Job) readMaterials(t table) {
	m := &j.Materials
	m.BedThickness = t.numOr("bed_thickness", usualBed)
	m.BedNotch = t.num("bed_notch")
	m.BedSource = max(t.source("bed_thickness"), t.source("bed_notch"))
	if l, ok := j.Bed(); ok && m.BedSource == FromDefault {
		m.BedThickness, m.BedSource = l.Thickness, FromJob
	}
	m.SealantWidth, m.SealantWidthSource = t.num("sealant_width"), t.source("sealant_width")
	m.SealantDepth, m.SealantDepthSource = t.numOr("sealant_depth", j.Tile.Thickness), t.source("sealant_depth")
	m.BondMortar = readProduct(t.sub("bond_mortar"))
	m.FillMortar = readProduct(t.sub("fill_mortar"))
	m.BedMortar = readProduct(t.sub("bed_mortar"))
	holdPack(t.sub("bond_mortar"), m.BondMortar, "coverage", bondPerArea,
		func(pack, area float64) float64 { return pack / area })
	holdPack(t.sub("fill_mortar"), m.FillMortar, "yield", wetPerDry,
		func(pack, wet float64) float64 { return wet / pack })
	holdPack(t.sub("bed_mortar"), m.BedMortar, "yield", wetPerDry,
		func(pack, wet float64) float64 { return wet / pack })
	m.Grout = readProduct(t.sub("grout"))
	m.Sealant = readProduct(t.sub("sealant"))
	m.Primer = readProduct(t.sub("primer"))
	m.Board = readProduct(t.sub("board"))
	m.Band = readProduct(t.sub("band"))
	m.Waterproofing = readProduct(t.sub("waterproofing"))
}

func readProduct(t table) Product {
	p := t.pack("pack")
	out := Product{Name: t.text("name"), Pack: p.size, Unit: p.unit, Coverage: t.num("coverage"), Yield: t.num("yield"),
		Density: t.num("density"), Waste: t.num("waste"), Price: t.num("price")}
	if t.n != nil {
		out.Source = FromJob
	}
	return out
}

// holdPack holds what a pack covers or gives against its size, where that is in
// kg.
func holdPack(t table, p Product, key string, r plausible, of func(pack, v float64) float64) {
	if p.Unit == "kg" && p.Pack > 0 && t.readable(key) {
		t.hold(key, held{plausible: r, with: "for a pack of " + brief(p.Pack) + " kg",
			of: func(v float64) float64 { return of(p.Pack, v) }})
	}
}
