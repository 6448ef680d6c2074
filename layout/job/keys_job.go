package job

import (
	"oxturn/layout/circuit"
	"oxturn/layout/language"
)

func topKeys() []Key {
	return []Key{
		{Path: "units", Type: TypeChoice, Values: []string{"mm", "in"},
			Doc:       "What a bare number means, and how drawings read unless [sheet] says otherwise",
			Otherwise: "every length needs a unit", Example: `units = "mm"`},
		{Path: "format", Type: TypeWhole, Limits: Limits{Min: 1, Max: Format}, Default: "1",
			Doc:     "Version of this file's format; a newer one is refused by versions that do not know it",
			Example: "format = 1"},
		{Path: "catalogue", Type: TypeText,
			Doc:     "A file with more [[cable]] tables, named from where the job file lies",
			Example: `catalogue = "cables.toml"`},
		{Path: "prices", Type: TypeText,
			Doc: "A CSV file of prices with the columns code and price, named from where the job file lies; code is " +
				"the take-off's, price that of one pack or, of what is not bought by the pack, of one unit: an hour, " +
				"a metre, or a foot in a job in inches", Otherwise: "prices stand only where the job gives them",
			Example: `prices = "prices.csv"`},
		{Path: "currency", Type: TypeText, Doc: "What prices and costs are in, as it is to be printed",
			Otherwise: "prices are printed bare", Example: `currency = "$"`},
		{Path: "language", Type: TypeChoices, Values: language.Tags(), Default: `"en"`,
			Doc: "What the sheets are read in; of two the first leads, and cautions, headings and legend stand in " +
				"both; what has no words in it yet stays English", Example: `language = ["en", "es"]`},
		{Path: "governs", Type: TypeChoice, Values: language.Tags(),
			Doc:       "Of two languages, the one whose text holds where they differ",
			Otherwise: "English, or the first where English is not one of them", Example: `governs = "es"`},
		{Path: "notes", Type: TypeTexts, Doc: "Notes printed on the sheets", Example: `notes = ["Vanity by others"]`},
	}
}

func infoKeys() []Key {
	text := func(name, doc, example string) Key {
		return Key{Path: name, Type: TypeText, Doc: doc, Example: name + " = " + `"` + example + `"`}
	}
	return append(under(Key{Path: "job", Type: TypeTable, Doc: "The title block", Example: "[job]"},
		text("title", "What is built", "Bath, upper floor"),
		text("number", "Drawing or job number", "26-014"),
		text("client", "For whom", "M. Example"),
		text("site", "Where", "12 Sample Street"),
		text("contractor", "Who builds it", "Invented Tile Co."),
		text("drawn_by", "Who drew it", "A. B."),
		text("checked_by", "Who checked it", "C. D."),
		text("approved_by", "Who approved it", "E. F."),
		text("permit", "Number of the permit, in the title block where it is given", "P-26-311"),
		Key{Path: "date", Type: TypeDate, Doc: "Date of issue", Example: "date = 2026-11-24"},
		Key{Path: "status", Type: TypeChoice, Values: []string{"proposal", "for installation", "as laid"},
			Default: `"proposal"`,
			Doc:     "What the sheets may be used for", Example: `status = "for installation"`},
	), under(Key{Path: "revision", Type: TypeTables, Doc: "A row of the revision table", Example: "[[revision]]"},
		text("letter", "The revision's letter", "A"),
		text("text", "What changed", "Tub moved"),
		text("by", "Who changed it", "A. B."),
		Key{Path: "date", Type: TypeDate, Doc: "When", Example: "date = 2026-12-01"},
	)...)
}

// membraneKeys: a roll of about 1 m by 10 m, or of 39 in by 32 ft (104 ft²), and pegs that take 3.5 to 4.5 mm of mortar
// over the whole floor are common practice, as is 5 to 8 % of waste.
func membraneKeys() []Key {
	return append(under(Key{Path: "membrane", Type: TypeTable, Required: true, Unless: "strips",
		Doc: "The pegged sheet that holds the cable", Example: "[membrane]\npitch = \"30 mm\""},
		Key{Path: "pitch", Type: TypeLength, Required: true, Limits: overZero,
			Doc:     "Peg to peg, or, where pitch_across is given, peg to peg along the roll",
			Example: `pitch = "30 mm"`},
		Key{Path: "pitch_across", Type: TypeLength, Limits: overZero, Otherwise: "as along the roll",
			Doc: "Peg to peg across the roll, where that is not the pitch along it; the gaps between runs are then " +
				"given as lengths", Example: `pitch_across = "40 mm"`},
		Key{Path: "rows", Type: TypeChoice, Values: []string{"straight", "staggered"}, Default: `"straight"`,
			Doc: "How the rows of pegs along the roll lie: pegs beside pegs, or every second row half a pitch on, so " +
				"that channels across the rows lie half a pitch apart, between pegs of one row and the next; whether " +
				"cable has room there, the maker's instructions say",
			Example: `rows = "staggered"`},
		Key{Path: "bend_radius", Type: TypeLength, Limits: overZero, Doc: "Of the cable's centre line round a corner",
			Otherwise: "half of the closest gap", Example: `bend_radius = "15 mm"`},
		Key{Path: "roll_width", Type: TypeLength, Limits: overZero, Default: `"1 m"`, DefaultIn: `"39in"`,
			Doc: "Width of a roll", Example: `roll_width = "1 m"`},
		Key{Path: "roll_length", Type: TypeLength, Limits: overZero, Default: `"10 m"`, DefaultIn: `"32ft"`,
			Doc: "Length of a roll", Example: `roll_length = "10 m"`},
		Key{Path: "sheet", Type: TypeSize, Limits: overZero, Otherwise: "it comes in rolls",
			Doc:     "Width and length of a single sheet, where it does not come in rolls",
			Example: `sheet = ["800 mm", "1 m"]`},
		Key{Path: "height", Type: TypeLength, Limits: overZero, Otherwise: "the membrane layer's thickness, else 5 mm",
			Doc: "Height of the pegs, which mortar fills", Example: `height = "5.5 mm"`},
		Key{Path: "void_share", Type: TypeShare, Limits: Limits{Above: true, Max: 1}, Default: "0.8",
			Doc: "Share of that height that mortar fills", Example: "void_share = 0.75"},
		Key{Path: "waste", Type: TypeShare, Limits: Limits{Max: 1}, Default: "0.08",
			Doc: "Share added where there is no cut plan", Example: `waste = "8 %"`},
	), append(under(Key{Path: "strips", Type: TypeTable, Otherwise: "the cable lies on the pegs of a [membrane]",
		Doc:     "Strips that loose cable is clipped to, across its runs, in place of a membrane",
		Example: "[strips]\nclips = \"25 mm\""},
		Key{Path: "clips", Type: TypeLength, Required: true, Limits: overZero,
			Doc: "From clip to clip along a strip", Example: `clips = "25 mm"`},
		Key{Path: "apart", Type: TypeLength, Limits: overZero, Default: `"400 mm"`, DefaultIn: `"16in"`,
			Doc: "From strip to strip at most; no run is shorter", Example: `apart = "400 mm"`},
		Key{Path: "from_turns", Type: TypeLength, Default: `"50 mm"`, DefaultIn: `"2in"`,
			Doc:     "How far the first strip and the last lie from where the runs turn",
			Example: `from_turns = "50 mm"`},
		Key{Path: "bend_radius", Type: TypeLength, Limits: overZero, Otherwise: "half of the closest gap",
			Doc: "Of the cable's centre line round a turn", Example: `bend_radius = "30 mm"`},
	), under(Key{Path: "spacing", Type: TypeTable,
		Doc: "The allowed gap between neighbouring runs, in pegs; as lengths where pegs lie otherwise one way than " +
			"the other",
		Example: "[spacing]\nclosest = 2\nwidest = 4"},
		Key{Path: "closest", Type: TypeWhole, Limits: Limits{Min: 1, Max: 1000}, Default: "2",
			Doc: "Closest gap, in pegs", Example: "closest = 2"},
		Key{Path: "widest", Type: TypeWhole, Limits: Limits{Min: 1, Max: 1000}, Default: "4",
			Doc: "Widest gap, in pegs; a cable too short to keep to it is laid with a warning, or refused where " +
				"floor would stay cold", Example: "widest = 4"},
		Key{Path: "closest_gap", Type: TypeLength, Limits: overZero,
			Otherwise: "closest holds, or twice the wider pitch",
			Doc:       "Closest gap as a length, where pegs lie otherwise one way than the other",
			Example:   `closest_gap = "60 mm"`},
		Key{Path: "widest_gap", Type: TypeLength, Limits: overZero,
			Otherwise: "widest holds, or four times the wider pitch",
			Doc:       "Widest gap as a length, where pegs lie otherwise one way than the other",
			Example:   `widest_gap = "160 mm"`},
		Key{Path: "search", Type: TypeNumber, Limits: Limits{Above: true, Max: 100}, Default: "1",
			Doc: "How far routes are looked for, in times of the usual: less for a quick sketch, more where W109 " +
				"says that the search was ended early", Example: "search = 2"},
	)...)...)
}

// clearanceKeys: the defaults are common practice: 50 to 100 mm from walls,
// 50 mm from cabinets and tubs, 150 mm from a toilet's ring, 100 mm from drains
// and 200 mm from other sources of heat.
func clearanceKeys() []Key {
	clear := func(name, value, doc string) Key {
		k := Key{Path: name, Type: TypeLength, Doc: doc, Example: name + ` = "50 mm"`}
		if value == "" {
			k.Otherwise = "as from fixtures"
		} else {
			k.Default = `"` + value + `"`
		}
		return k
	}
	return under(Key{Path: "clearance", Type: TypeTable,
		Doc:     "How far the cable's centre line stays from things; a thing's own clear wins",
		Example: "[clearance]\nwall = \"75 mm\""},
		clear("wall", "75 mm", "From walls"),
		clear("fixture", "50 mm", "From fixtures"),
		clear("joint", "50 mm", "From movement joints"),
		clear("flange", "150 mm", "From the ring a toilet is bolted to, at its edge"),
		clear("drain", "100 mm", "From floor drains"),
		clear("register", "200 mm", "From floor registers, which give off heat"),
		clear("hearth", "200 mm", "From hearths, which give off heat"),
		clear("fixing", "100 mm", "Round what is screwed or drilled down later"),
		clear("column", "", "From columns"),
		clear("island", "", "From islands"),
		clear("keep_out", "", "From keep-outs"),
	)
}

// supplyKeys: what differs between regions stands in circuit.All.
func supplyKeys() []Key {
	return under(Key{Path: "supply", Type: TypeTable, Doc: "What the electrician brings",
		Example: "[supply]\nvolts = 240"},
		Key{Path: "volts", Type: TypeNumber, Limits: Limits{Above: true, Max: 1000},
			Otherwise: "the cables' own, and said so", Doc: "Supply voltage", Example: "volts = 240"},
		Key{Path: "thermostat_amps", Type: TypeNumber, Limits: Limits{Above: true, Max: 1000},
			Otherwise: "16 in Europe, 15 in other regions", Doc: "Rating of the thermostat's contacts",
			Example: "thermostat_amps = 16"},
		Key{Path: "max_density", Type: TypeDensity, Limits: overZero, Otherwise: "no limit is checked",
			Doc: "Greatest power per area, locally and overall", Example: `max_density = "160 W/m2"`},
		Key{Path: "max_density_from", Type: TypeChoice, Values: []string{"job file", "label", "instructions"},
			Default: `"job file"`, Doc: "Where that limit was read", Example: `max_density_from = "label"`},
		Key{Path: "max_density_over", Type: TypeChoice, Values: []string{OverHeated, OverEven},
			Otherwise: "both, so that the stricter counts",
			Doc: "The floor that the limit is over: the heated floor within the clearances, or cable length " +
				"times even spacing, as where a label gives it by the gap between runs",
			Example: `max_density_over = "even spacing"`},
		Key{Path: "region", Type: TypeChoice, Values: circuit.RegionNames(),
			Otherwise: "usual ratings and words are those of North America in a job in inches, on a supply under " +
				"150 V or wired by AWG, and of nowhere in any other; no rules are looked up",
			Doc:     "Whose usual ratings, words and wiring rules to go by",
			Example: `region = "europe"`},
	)
}

// tileKeys: waste by pattern as trade guides give it: 10 % straight, 10 to 12
// offset, 15 diagonal, 15 to 20 herringbone.
func tileKeys() []Key {
	return under(Key{Path: "tile", Type: TypeTable, Doc: "The finished floor",
		Example: "[tile]\nsize = [\"300 mm\", \"600 mm\"]"},
		Key{Path: "size", Type: TypeSize, Limits: overZero, Default: `["300 mm", "300 mm"]`,
			DefaultIn: `["12in", "12in"]`, Doc: "Width and length of a tile", Example: `size = ["300 mm", "600 mm"]`},
		Key{Path: "joint", Type: TypeLength, Default: `"3 mm"`, DefaultIn: `"1/8in"`, Doc: "Width of the grout joint",
			Example: `joint = "3 mm"`},
		Key{Path: "thickness", Type: TypeLength, Limits: overZero, Default: `"10 mm"`, DefaultIn: `"3/8in"`,
			Doc: "Thickness of a tile", Example: `thickness = "9 mm"`},
		Key{Path: "pattern", Type: TypeChoice, Values: []string{"straight", "offset", "diagonal", "herringbone"},
			Default: `"straight"`, Doc: "How the tiles are laid", Example: `pattern = "offset"`},
		Key{Path: "offset", Type: TypeShare, Limits: Limits{Above: true, Max: 1}, Default: "0.5",
			Doc:     "By how much of a tile every second row is moved, where the pattern is offset",
			Example: `offset = "33 %"`},
		Key{Path: "start", Type: TypeChoice, Values: []string{"balanced", "tile", "joint", "door"},
			Default: `"balanced"`,
			Doc: "How the tile is begun: the best of several layouts, with the middle of a tile or a joint on the " +
				"middle of the floor, or with whole tiles at the doorway",
			Example: `start = "joint"`},
		Key{Path: "waste", Type: TypeShare, Limits: Limits{Max: 1},
			Otherwise: "10 % straight, 12 % offset, 15 % diagonal, 18 % herringbone",
			Doc:       "Share added for cuts and breakage", Example: `waste = "12 %"`},
		Key{Path: "breakage", Type: TypeShare, Limits: Limits{Max: 1}, Default: "0.05",
			Doc:     "Share added for breakage alone, where the tiles are counted one by one with their cuts",
			Example: `breakage = "3 %"`},
		Key{Path: "per_box", Type: TypeWhole, Otherwise: "tiles are counted singly", Doc: "Tiles in a box",
			Example: "per_box = 6"},
		Key{Path: "grout_cure", Type: TypeWhole, Limits: Limits{Max: 1000},
			Otherwise: "28, as for any cement that is not stated",
			Doc:       "Days that the grout's instructions ask for before the floor is warmed",
			Example:   "grout_cure = 7"},
		Key{Path: "grouted", Type: TypeDate, Doc: "When the floor was grouted", Example: "grouted = 2026-12-05"},
	)
}

func layerKeys() []Key {
	return under(Key{Path: "layer", Type: TypeTables, Doc: "One layer of the build-up, from the top down",
		Example: "[[layer]]\nkind = \"tile\"\nthickness = \"10 mm\""},
		Key{Path: "name", Type: TypeText, Otherwise: "its kind", Doc: "What it is called on the section",
			Example: `name = "Porcelain"`},
		Key{Path: "kind", Type: TypeChoice, Values: layerKinds(), Required: true, Doc: "What it is made of",
			Example: `kind = "mortar"`},
		Key{Path: "thickness", Type: TypeLength, Limits: overZero, Required: true, Doc: "Its thickness",
			Example: `thickness = "10 mm"`},
		Key{Path: "conductivity", Type: TypeNumber, Limits: overZero, Otherwise: "a usual value of its kind",
			Doc: "W/(m K)", Example: "conductivity = 1.3"},
		Key{Path: "density", Type: TypeNumber, Limits: overZero, Otherwise: "a usual value of its kind", Doc: "kg/m³",
			Example: "density = 2300"},
		Key{Path: "heat_capacity", Type: TypeNumber, Limits: overZero, Otherwise: "a usual value of its kind",
			Doc: "J/(kg K)", Example: "heat_capacity = 840"},
		Key{Path: "cure_days", Type: TypeWhole, Limits: Limits{Max: 1000},
			Otherwise: "28 for mortar, screed and a filled membrane; none for the rest",
			Doc:       "Days that its instructions ask for before the floor is warmed", Example: "cure_days = 7"},
		Key{Path: "placed", Type: TypeDate, Doc: "When it was placed", Example: "placed = 2026-12-03"},
	)
}

func cableKeys() []Key {
	return under(Key{Path: "cable", Type: TypeTables, Doc: "A cable, by its label",
		Example: "[[cable]]\nid = \"A240-60\""},
		Key{Path: "id", Type: TypeText, Required: true, Doc: "What rooms call it by", Example: `id = "A240-60"`},
		Key{Path: "volts", Type: TypeNumber, Limits: Limits{Above: true, Max: 1000}, Required: true,
			Doc: "Rated voltage", Example: "volts = 240"},
		Key{Path: "watts", Type: TypeNumber, Limits: Limits{Above: true, Max: 1e5}, Required: true, Doc: "Rated power",
			Example: "watts = 600"},
		Key{Path: "length", Type: TypeLength, Limits: overZero, Required: true,
			Doc: "Of the heating cable, without its lead", Example: `length = "60 m"`},
		Key{Path: "ohms", Type: TypeNumber, Limits: overZero, Otherwise: "volts squared over watts",
			Doc: "Resistance on the label", Example: "ohms = 96.0"},
		Key{Path: "tolerance", Type: TypeShares, Default: "[-0.05, 0.10]",
			Doc: "By how much of the label the ohms may be under and over", Example: "tolerance = [-0.10, 0.10]"},
		Key{Path: "tolerance_from", Type: TypeChoice, Values: []string{"job file", "label", "instructions"},
			Default: `"job file"`, Doc: "Where the tolerance was read", Example: `tolerance_from = "label"`},
		Key{Path: "lead", Type: TypeLength, Limits: overZero, Required: true, Doc: "Length of a cold lead",
			Example: `lead = "4 m"`},
		Key{Path: "ends", Type: TypeChoice, Values: circuit.EndWords(), Default: `"one"`,
			Doc: "Cold ends: one on a twin cable; both on a single-conductor cable, whose ends both return to " +
				"the box",
			Example: `ends = "one"`},
		Key{Path: "diameter", Type: TypeLength, Limits: overZero, Doc: "Of the cable", Example: `diameter = "6 mm"`},
		Key{Path: "min_bend", Type: TypeLength, Limits: overZero, Doc: "Tightest bend allowed, at the centre line",
			Example: `min_bend = "12 mm"`},
		Key{Path: "price", Type: TypeNumber, Doc: "Of one cable", Example: "price = 310"},
	)
}

func sheetKeys() []Key {
	return under(Key{Path: "sheet", Type: TypeTable, Doc: "How the drawings look", Example: "[sheet]\nsize = \"A3\""},
		Key{Path: "size", Type: TypeChoice, Values: []string{"A4", "A3", "A2", "A1", "A0", "letter", "tabloid",
			"ANSI C", "ANSI D",
			"ANSI E", "arch C", "arch D", "arch E"},
			Otherwise: "the smallest that serves",
			Doc:       "Paper of the plans; forms are on A4 or letter, and the owner's map is tried on it first",
			Example:   `size = "A3"`},
		Key{Path: "orientation", Type: TypeChoice, Values: []string{"portrait", "landscape"},
			Otherwise: "whichever gives the larger scale", Doc: "Which way the paper lies",
			Example: `orientation = "landscape"`},
		Key{Path: "scale", Type: TypeText, Otherwise: "the largest standard one that fits", Doc: "Scale of the plans",
			Example: `scale = "1:20"`},
		Key{Path: "units", Type: TypeChoice, Values: []string{"mm", "in"}, Otherwise: "the file's units",
			Doc: "How figures on the drawings read", Example: `units = "in"`},
		Key{Path: "both", Type: TypeFlag, Default: "false", Doc: "Print the other units too, in brackets",
			Example: "both = true"},
		Key{Path: "field_sheet", Type: TypeFlag, Otherwise: "true on A4 and letter, else false",
			Doc:     "Draw one field sheet a room, for whoever lays the cable, in place of cable plan and setting out",
			Example: "field_sheet = true"},
		Key{Path: "north", Type: TypeAngle, Limits: Limits{Min: -360, Max: 360}, Default: "0",
			Doc: "Where north is, clockwise from the top of the sheet", Example: `north = "30deg"`},
		Key{Path: "letterhead", Type: TypeTexts, Doc: "Lines above the title block",
			Example: `letterhead = ["Invented Tile Co."]`},
	)
}
