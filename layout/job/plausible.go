package job

// A plausible is the range in which a figure lies on any floor that is warmed by
// cable. What lies beyond low and high cannot be meant and is refused; what lies
// beyond least and most is unusual and is warned of.
type plausible struct {
	keys        []string // paths of those it is for
	kinds       []string // of the table's kind, where it is for these alone
	unit        string   // a name of measures
	low, high   float64
	least, most float64
	says        string // what has the range, "%s" standing for it
	source      string
}

// commonPractice is the source of what the trade does without a standard.
const commonPractice = "common practice"

// plausibles are the ranges of single figures; a key may stand in one for some
// kinds and in another for others. Length and power of a cable are judged by what
// they make together, in derived.
var plausibles = []plausible{
	{[]string{"membrane.pitch", "membrane.pitch_across"}, nil, "mm", 20, 120, 25, 100, "pegs stand %s apart",
		commonPractice},
	{[]string{"spacing.closest_gap", "spacing.widest_gap"}, nil, "mm", 20, 1000, 40, 500, "runs lie %s apart",
		commonPractice},
	row("strips.clips", "mm", 10, 150, 15, 100, "clips of a strip are %s apart"),
	row("strips.apart", "mm", 100, 1500, 200, 1000, "strips for cable lie %s apart"),
	row("strips.from_turns", "mm", 5, 500, 10, 300, "strips lie %s from the turns"),
	row("strips.bend_radius", "mm", 4, 150, 6, 100, "cable is bent at a radius of %s"),
	row("membrane.bend_radius", "mm", 4, 150, 6, 100, "cable is bent at a radius of %s"),
	row("membrane.height", "mm", 2, 40, 3, 20, "pegs are %s high"),
	row("membrane.roll_width", "mm", 50, 6000, 400, 3000, "membranes are %s wide"),
	row("membrane.roll_length", "mm", 500, 500e3, 2000, 100e3, "rolls of membrane are %s long"),
	row("membrane.sheet", "mm", 150, 6000, 300, 3000, "sheets of membrane are %s wide and long"),
	{[]string{"clearance.wall", "clearance.fixture", "clearance.joint", "clearance.flange", "clearance.drain",
		"clearance.register", "clearance.hearth",
		"clearance.fixing", "clearance.column", "clearance.island", "clearance.keep_out", "room.fixture.clear",
		"room.fixture.flange_clear", "room.keep_out.clear",
		"room.fixing.clear", "room.joint.clear"}, nil, "mm", 1, 1000, 10, 500, "cable stays %s away from things",
		commonPractice},

	row("cable.volts", "V", 12, 600, 100, 415, "heating cable is made for %s"),
	row("cable.lead", "mm", 1000, 50e3, 1500, 20e3, "a cold lead is %s long"),
	row("cable.diameter", "mm", 1.5, 20, 2, 12, "heating cable is %s thick"),
	row("cable.min_bend", "mm", 3, 150, 5, 60, "heating cable is bent at a radius of %s"),
	row("cable.tolerance", "%", -50, 50, -25, 25, "ohms keep to the label within %s"),
	row("supply.volts", "V", 12, 600, 100, 415, "floors are supplied with %s"),
	row("supply.thermostat_amps", "A", 0.5, 63, 6, 32, "a thermostat's contacts carry %s"),
	{[]string{"supply.max_density", "room.density"}, nil, "W/m²", 40, 400, 60, 250, "tiled floors are given %s",
		commonPractice},
	row("circuit.breaker", "A", 2, 125, 6, 63, "heating hangs on breakers of %s"),
	row("circuit.length", "mm", 1000, 300e3, 2000, 100e3, "a feed is %s long"),
	row("circuit.ground_fault", "mA", 3, 1000, 4, 300, "such devices trip at %s"),

	row("tile.size", "mm", 8, 3300, 45, 1800, "tiles are %s wide and long"),
	row("tile.joint", "mm", 0.5, 30, 1, 15, "grout joints are %s wide"),
	row("tile.thickness", "mm", 2, 60, 3, 30, "tiles are %s thick"),
	layer("mm", 2, 60, 3, 30, "tiles are %s thick", "tile"),
	layer("mm", 1, 120, 2, 80, "a bed of mortar is %s thick", "mortar"),
	layer("mm", 2, 40, 3, 20, "a membrane is %s thick", "membrane"),
	layer("mm", 2, 300, 3, 150, "boards are %s thick", "board"),
	layer("mm", 3, 500, 6, 200, "wooden floors are %s thick", "wood"),
	layer("mm", 5, 300, 10, 120, "a screed is %s thick", "screed"),
	layer("mm", 10, 1500, 40, 500, "a slab is %s thick", "concrete"),
	row("layer.conductivity", "W/(m K)", 0.01, 450, 0.02, 5, "what floors are built of conducts %s"),
	row("layer.density", "kg/m³", 5, 12e3, 10, 3500, "what floors are built of weighs %s"),
	row("layer.heat_capacity", "J/(kg K)", 100, 5000, 350, 2500, "what floors are built of takes up %s"),
	row("warmth.board", "mm", 2, 300, 3, 150, "boards are %s thick"),
	row("warmth.room", "°C", -20, 40, 10, 30, "rooms are kept at %s"),
	row("warmth.covering_limit", "°C", 20, 80, 24, 45, "coverings bear %s"),
	row("room.thermostat.floor_limit", "°C", 15, 60, 20, 45, "floors are kept below %s"),
	row("sensor.tolerance", "K", 0.05, 20, 0.2, 6, "floor sensors are good to %s"),

	row("materials.bed_thickness", "mm", 1, 60, 2, 25, "tile is bedded in %s"),
	row("materials.bed_notch", "mm", 2, 40, 3, 25, "trowels have notches of %s"),
	{[]string{"materials.sealant_width", "room.joint.width"}, nil, "mm", 1, 60, 3, 25, "sealed joints are %s wide",
		commonPractice},
	row("materials.sealant_depth", "mm", 1, 80, 3, 40, "sealed joints are %s deep"),
	row("materials.grout.density", "kg/L", 0.5, 3, 0.9, 2.2, "dry grout weighs %s"),
	{[]string{"tile.waste", "tile.breakage", "membrane.waste", "materials.bond_mortar.waste",
		"materials.fill_mortar.waste", "materials.bed_mortar.waste",
		"materials.grout.waste", "materials.sealant.waste", "materials.primer.waste", "materials.board.waste",
		"materials.band.waste", "materials.waterproofing.waste"}, nil, "%", 0, 100, 0, 50,
		"of what is bought, %s is lost", commonPractice},
	row("labour.per_hour", "m²", 0.1, 300, 0.3, 60, "%s of floor is done in an hour"),

	row("room.loss.walls_u", "W/(m² K)", 0.05, 7, 0.08, 2.5, "outside walls let through %s"),
	row("room.loss.windows_u", "W/(m² K)", 0.2, 7, 0.5, 6, "windows let through %s"),
	row("room.lining", "mm", 2, 1500, 5, 100, "board and wall tile come to %s"),
	row("room.thermostat.height", "mm", 150, 3000, 300, 1800, "such boxes hang %s above the floor"),
	row("room.thermostat.tail", "mm", 30, 2000, 100, 600, "%s of lead is left inside a box"),
	row("room.thermostat.slack", "mm", 10, 5000, 20, 1500, "%s of lead is kept as slack"),
	row("room.loss.ceiling_height", "mm", 1500, 20e3, 2000, 6000, "ceilings are %s high"),
	row("room.partition.thickness", "mm", 10, 1500, 40, 600, "walls that stand in a room are %s thick"),
	row("room.partition.opening.width", "mm", 150, 20e3, 500, 8000, "doorways are %s wide"),
	row("room.arc.rise", "mm", 3, 20e3, 20, 10e3, "a curved wall rises %s"),
	row("room.arc.radius", "mm", 200, 200e3, 400, 50e3, "the radius of a curved wall is %s"),
	{[]string{"room.opening.width"}, []string{"door", ""}, "mm", 300, 6000, 500, 3000, "doorways are %s wide",
		commonPractice},
	{[]string{"room.opening.width"}, []string{"opening", "window"}, "mm", 150, 20e3, 300, 8000, "openings are %s wide",
		commonPractice},
	{[]string{"room.fixture.rough_in"}, []string{"toilet"}, "mm", 100, 1500, 200, 1500,
		"a toilet's flange is %s out from its wall", commonPractice},
	{[]string{"room.fixture.flange_radius"}, []string{"toilet"}, "mm", 30, 200, 50, 130,
		"the ring of a flange has a radius of %s", commonPractice},
	fixture("width", 200, 1000, 300, 600, "toilets are %s wide", "toilet"),
	fixture("depth", 250, 1200, 350, 900, "toilets are %s deep", "toilet"),
	fixture("width", 200, 5000, 300, 3000, "vanities are %s wide", "vanity"),
	fixture("depth", 120, 1500, 200, 900, "vanities are %s deep", "vanity"),
	fixture("width", 400, 5000, 600, 2500, "tubs and showers are %s wide", "tub", "shower"),
	fixture("depth", 400, 5000, 500, 2000, "tubs and showers are %s deep", "tub", "shower"),
	fixture("width", 80, 15e3, 150, 10e3, "cabinets and appliances are %s wide", "cabinet", "appliance"),
	fixture("depth", 80, 3000, 150, 1200, "cabinets and appliances are %s deep", "cabinet", "appliance"),
	fixture("width", 150, 15e3, 300, 8000, "islands and hearths are %s wide", "island", "hearth"),
	fixture("depth", 150, 15e3, 200, 5000, "islands and hearths are %s deep", "island", "hearth"),
	fixture("width", 20, 3000, 50, 1500, "columns, drains and registers are %s wide", "column", "drain", "register"),
	fixture("depth", 20, 3000, 50, 1500, "columns, drains and registers are %s deep", "column", "drain", "register"),
	fixture("diameter", 20, 6000, 40, 2500, "round things are %s across"),
}

// The ranges of what figures make together. Cable for tiled floors has 8 to 25
// W/m; more is for snow and concrete, less for pipes.
var (
	powerPerLength = row("cable.length", "W/m", 4, 40, 6, 25, "floor cable gives %s")
	cableLength    = row("cable.length", "mm", 500, 500e3, 2000, 250e3, "heating cables are %s long")
	cablePower     = row("cable.watts", "W", 5, 10e3, 20, 5000, "heating cables have %s")
	labelRatio     = plausible{[]string{"cable.ohms"}, nil, "%", 50, 200, 90, 110, "its ohms are %s of that",
		"Ohm's law"}
	tilesInABox  = row("tile.per_box", "m²", 0.02, 20, 0.15, 4, "boxes of tile hold %s")
	gapOfRuns    = row("spacing.widest", "mm", 20, 1000, 40, 500, "runs lie %s apart")
	powerPerArea = row("room.cables", "W/m²", 10, 500, 40, 250, "tiled floors are given %s")
	roomArea     = row("room.corners", "m²", 0.2, 1500, 0.5, 1000, "warmed rooms have %s of floor")
	tableOhms    = row("sensor.table", "Ω", 50, 2e6, 80, 5e5, "floor sensors have %s")
	bondPerArea  = row("materials.bond_mortar.coverage", "kg/m²", 0.5, 15, 1.5, 8,
		"%s of mortar goes under a membrane")
	wetPerDry = plausible{[]string{"materials.fill_mortar.yield", "materials.bed_mortar.yield"}, nil, "L/kg", 0.3,
		2, 0.45, 1.2, "dry mortar gives %s", commonPractice}
)

func row(key, unit string, low, high, least, most float64, says string) plausible {
	return plausible{[]string{key}, nil, unit, low, high, least, most, says, commonPractice}
}

func layer(unit string, low, high, least, most float64, says, kind string) plausible {
	return plausible{[]string{"layer.thickness"}, []string{kind}, unit, low, high, least, most, says, commonPractice}
}

func fixture(key string, low, high, least, most float64, says string, kinds ...string) plausible {
	return plausible{[]string{"room.fixture." + key}, kinds, "mm", low, high, least, most, says, commonPractice}
}
