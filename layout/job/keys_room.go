package job

func roomKeys() []Key {
	return under(Key{Path: "room", Type: TypeTables, Required: true, Doc: "One tiled floor",
		Example: "[[room]]\nname = \"Bath\"\ncorners = [[0, 0], [2850, 0], [2850, 2400], [0, 2400]]"},
		Key{Path: "name", Type: TypeText, Required: true, Doc: "What it is called", Example: `name = "Bath"`},
		Key{Path: "corners", Type: TypePoints, Least: 3,
			Doc:     "Corners of the finished walls, one after the other; wall A runs from the first to the second",
			Example: "corners = [[0, 0], [2850, 0], [2850, 2400], [0, 2400]]"},
		Key{Path: "walls", Type: TypeTexts, Least: 3,
			Doc: "Walls as a tape reads them: a compass word or a bearing clockwise from north, and a length; the " +
				"first begins at [0, 0]",
			Example: `walls = ["east 9ft 4in", "north 6ft", "west 9ft 4in", "south 6ft"]`},
		Key{Path: "closure", Type: TypeLength, Otherwise: "1/200 of the way round, 50 mm at most",
			Doc: "By how much taped walls may miss their start", Example: `closure = "30 mm"`},
		Key{Path: "diagonals", Type: TypeTexts, Least: 1,
			Doc:     "Diagonals as a check: the two walls at whose starts the tape was held, and the length",
			Example: `diagonals = ["A-C 11ft 1in", "B-D 11ft 1-1/4in"]`},
		Key{Path: "measured_to", Type: TypeChoice, Values: []string{"finish", "stud"}, Default: `"finish"`,
			Doc: "To what the tape was held", Example: `measured_to = "stud"`},
		Key{Path: "lining", Type: TypeLength, Default: "0",
			Doc:     "Thickness of board and wall tile that goes on every wall measured to its studs",
			Example: `lining = "3/4in"`},
		Key{Path: "cables", Type: TypeTexts, Otherwise: "the best fit of the catalogue is chosen, and why is said",
			Doc: "The cables laid here, by id", Example: `cables = ["A240-60"]`},
		Key{Path: "first_peg", Type: TypePoint,
			Otherwise: "the pegs are set out so that the outer runs lie on the clearance line",
			Doc: "A crossing of the channels between the pegs, where the first strip of membrane is laid " +
				"already or must begin", Example: "first_peg = [90, 82]"},
		Key{Path: "exposed", Type: TypeLength,
			Otherwise: "the ground is that of a house of about 9 by 7 m, or of the room alone where that is larger",
			Doc: "How much of the floor's edge lies along outside walls, for the ground under a slab; 0 for a " +
				"room without any", Example: `exposed = "5.2 m"`},
		Key{Path: "first_tile", Type: TypePoints, Least: 2,
			Otherwise: "that of [[as_laid]]; without either, nothing is said by tile, only by place",
			Doc: "As the tiler set out: a corner of one whole tile, and a second point along the same edge in " +
				"the direction that its row runs; the tile lies to the left of that line, its longer side along it",
			Example: "first_tile = [[150, 90], [2250, 90]]"},
		Key{Path: "rolled", Type: TypeText, Otherwise: "along the longer way of the floor, or across it where the " +
			"cable lies better so",
			Doc: "The wall along which the membrane is rolled out, by its letter, or that direction, as in along; " +
				"where its pegs lie otherwise along the roll than across it", Example: `rolled = "A"`},
		Key{Path: "along", Type: TypeText, Otherwise: "whichever way covers the floor better",
			Doc: "The wall that the runs lie along, by its letter, or their direction: a compass word, or a bearing " +
				"clockwise from north; along no wall it turns the pegs",
			Example: `along = "A"`},
		Key{Path: "start", Type: TypeText, Otherwise: "where the cold lead is short and the floor comes out best",
			Doc: "The corner in which the heat starts, by the letter of the wall that begins there; a cable whose " +
				"part of the floor does not come there starts where that comes nearest",
			Example: `start = "B"`},
		Key{Path: "density", Type: TypeDensity, Limits: overZero, Otherwise: "a usual one",
			Doc: "Power per area wanted where the cable is chosen", Example: `density = "140 W/m2"`},
	)
}

// wallKeys place a thing along a lettered wall.
func wallKeys() []Key {
	return []Key{
		{Path: "wall", Type: TypeText,
			Doc: "The wall it stands against, by its letter, or a partition by its name; along a curve lengths are " +
				"measured on the curve",
			Example: `wall = "B"`},
		{Path: "from", Type: TypeLength, Doc: "From the wall's start to its near end", Example: `from = "2ft"`},
		{Path: "to_end", Type: TypeLength, Doc: "From its far end to the wall's end, instead of from",
			Example: `to_end = "1ft 6in"`},
		{Path: "centre", Type: TypeLength, Doc: "From the wall's start to its middle, instead of from",
			Example: `centre = "18in"`},
	}
}

// faceKey says on which side of a partition a thing is.
func faceKey() Key {
	return Key{Path: "face", Type: TypeChoice, Values: []string{"left", "right"}, Default: `"left"`,
		Doc:     "Of a partition: the side it stands at, as one goes from the partition's start to its end",
		Example: `face = "right"`}
}

// floorKeys place a rectangle, a circle or an outline on the floor.
func floorKeys() []Key {
	return append(wallKeys(),
		faceKey(),
		Key{Path: "off", Type: TypeLength, Default: "0", Doc: "How far its back stands off the wall",
			Example: `off = "1in"`},
		Key{Path: "width", Type: TypeLength, Limits: overZero, Doc: "Along the wall", Example: `width = "30in"`},
		Key{Path: "depth", Type: TypeLength, Limits: overZero, Doc: "Out from the wall", Example: `depth = "21in"`},
		Key{Path: "diameter", Type: TypeLength, Limits: overZero, Doc: "Of a round thing, instead of width and depth",
			Example: `diameter = "200 mm"`},
		Key{Path: "at", Type: TypePlace,
			Doc: "Its centre, where it stands free: a point, or a wall, the length along it from its start and that " +
				"out from it", Example: `at = "A 1.2 m, 0.9 m"`},
		Key{Path: "corner", Type: TypeText,
			Doc: "The corner it stands in, by the letter of the wall that begins there: its back on that wall, its " +
				"side on the one before; from and off are setbacks from the one before and from its own",
			Example: `corner = "C"`},
		Key{Path: "shape", Type: TypeChoice, Values: []string{"rectangle", "neo-angle", "quadrant", "diagonal"},
			Default: `"rectangle"`,
			Doc: "Of a thing in a corner: with its front corner cut off (neo-angle) or rounded (quadrant), or turned " +
				"to face out of the corner (diagonal)", Example: `shape = "neo-angle"`},
		Key{Path: "cut", Type: TypeLength, Limits: overZero,
			Otherwise: "neo-angle: half its shorter side; quadrant: 550 mm, its shorter side at most",
			Doc:       "How much of each side the cut or the round front takes", Example: `cut = "18in"`},
		Key{Path: "beside", Type: TypeText,
			Doc:     "The fixture or keep-out written before it that it stands next to, by its name, on the same wall",
			Example: `beside = "tub"`},
		Key{Path: "side", Type: TypeChoice, Values: []string{"after", "before"}, Default: `"after"`,
			Doc:     "On which side of that, as one goes along the wall from its start",
			Example: `side = "before"`},
		Key{Path: "gap", Type: TypeLength, Default: "0", Doc: "How far from that", Example: `gap = "2in"`},
		Key{Path: "between", Type: TypeTexts, Least: 2,
			Doc: "In the middle between two things on its wall, by their names or the letters of the walls next to " +
				"it; without a width it fills the gap", Example: `between = ["tub", "C"]`},
		Key{Path: "angle", Type: TypeAngle, Limits: anySign, Default: "0",
			Doc: "By how much a free thing is turned counter-clockwise; at 0 its width runs east and its back is to " +
				"the south", Example: "angle = 45"},
		Key{Path: "outline", Type: TypePoints, Least: 3, Doc: "Its corners, instead of a wall or a centre",
			Example: "outline = [[0, 0], [760, 0], [760, 1520], [0, 1520]]"},
		Key{Path: "rises", Type: TypeLengths, Least: 3, Limits: anySign, Otherwise: "all sides are straight",
			Doc: "Of an outline, one for each of its sides, that after its first corner first: how far a curve's " +
				"middle stands off the straight way, outwards; below 0 inwards",
			Example: `rises = [0, 0, "120 mm", 0]`},
		Key{Path: "clear", Type: TypeLength, Otherwise: "by [clearance]", Doc: "How far the cable stays away",
			Example: `clear = "50 mm"`},
	)
}

func openingKeys() []Key {
	return under(Key{Path: "room.opening", Type: TypeTables, Doc: "A doorway, cased opening or window",
		Example: "[[room.opening]]\nkind = \"door\"\nwall = \"A\"\nfrom = \"2ft\"\nwidth = \"30in\""},
		append(wallKeys(),
			Key{Path: "name", Type: TypeText, Otherwise: "its kind", Doc: "What it is called",
				Example: `name = "hall door"`},
			Key{Path: "kind", Type: TypeChoice, Values: []string{"door", "opening", "window"}, Default: `"door"`,
				Doc: "What it is", Example: `kind = "opening"`},
			Key{Path: "width", Type: TypeLength, Limits: overZero, Required: true, Doc: "Clear width along the wall",
				Example: `width = "30in"`},
			Key{Path: "swing", Type: TypeChoice, Values: []string{"in", "out", "slide", "none"},
				Otherwise: "in for a door, none otherwise", Doc: "Which way the leaf goes", Example: `swing = "out"`},
			Key{Path: "hinge", Type: TypeChoice, Values: []string{"start", "end"}, Default: `"start"`,
				Doc: "At which end of the opening, along the wall, the leaf hangs", Example: `hinge = "end"`},
			Key{Path: "threshold", Type: TypeFlag, Default: "false",
				Doc:     "A threshold will be screwed down here; the cable keeps the clearance of a fixing",
				Example: "threshold = true"},
		)...)
}

// fixtureKeys: 12 in of rough-in and a ring of about 7 in are the trade's.
func fixtureKeys() []Key {
	return under(Key{Path: "room.fixture", Type: TypeTables, Doc: "Something that stands on the floor",
		Example: "[[room.fixture]]\nkind = \"vanity\"\nwall = \"B\"\nfrom = \"2ft\""},
		append(withUsualSizes(floorKeys()),
			Key{Path: "kind", Type: TypeChoice, Values: fixtureNames(), Required: true,
				Doc:     "What it is; width, depth, clearance and the rest follow where they are left out",
				Example: `kind = "vanity"`},
			Key{Path: "name", Type: TypeText, Otherwise: "its kind, numbered where there are several",
				Doc: "What it is called", Example: `name = "double vanity"`},
			Key{Path: "tiled", Type: TypeFlag, Otherwise: "by kind: true for toilet, appliance and drain",
				Doc: "Whether tile runs under it", Example: "tiled = true"},
			Key{Path: "undecided", Type: TypeFlag, Default: "false",
				Doc:     "Not chosen yet: its place is reserved and listed as an open question",
				Example: "undecided = true"},
			Key{Path: "heated", Type: TypeFlag, Default: "false",
				Doc: "Of a shower with a tiled floor: cable lies in it as in the rest of the room. Its drain is " +
					"given as a fixture of its own; leads, joints and sensors stay outside. Of a vanity, bench or " +
					"cabinet on legs or hung on the wall: cable lies below it",
				Example: "heated = true"},
			Key{Path: "heat", Type: TypeFlag, Otherwise: "by kind: true for hearth and register",
				Doc: "Whether it gives off heat, so that sensors stay away", Example: "heat = true"},
			Key{Path: "rough_in", Type: TypeLength, Limits: overZero, Default: `"305 mm"`,
				Doc: "A toilet's flange, from the finished wall to its centre", Example: `rough_in = "12in"`},
			Key{Path: "flange", Type: TypePoint, Otherwise: "the rough-in out from the middle of its back",
				Doc: "Centre of a toilet's flange", Example: "flange = [600, 305]"},
			Key{Path: "flange_radius", Type: TypeLength, Limits: overZero, Default: `"89 mm"`,
				Doc: "Radius of the ring", Example: `flange_radius = "3-1/2in"`},
			Key{Path: "flange_clear", Type: TypeLength, Otherwise: "by [clearance]",
				Doc: "How far the cable stays from the ring's edge", Example: `flange_clear = "6in"`},
		)...)
}

func keepOutKeys() []Key {
	return append(under(Key{Path: "room.keep_out", Type: TypeTables, Doc: "Floor without cable, of any shape",
		Example: "[[room.keep_out]]\nname = \"tub\"\noutline = [[0, 0], [760, 0], [760, 1520], [0, 1520]]"},
		append(floorKeys(),
			Key{Path: "name", Type: TypeText, Otherwise: "keep-out and a number", Doc: "What it is called",
				Example: `name = "tub"`},
			Key{Path: "tiled", Type: TypeFlag, Default: "false", Doc: "Whether tile runs under it",
				Example: "tiled = true"},
		)...),
		under(Key{Path: "room.low", Type: TypeTables, Doc: "Floor where warmth matters least: the cable may end there",
			Example: "[[room.low]]\nwall = \"C\"\nfrom = 0\nwidth = \"600 mm\"\ndepth = \"300 mm\""},
			lowKeys()...)...)
}

// lowKeys are those of a place on the floor, but for its clearance.
func lowKeys() []Key {
	var out []Key
	for _, k := range floorKeys() {
		if k.Path != "clear" {
			out = append(out, k)
		}
	}
	return out
}

// zoneKeys speak of parts of a floor.
func zoneKeys() []Key {
	return append(under(Key{Path: "room.zone", Type: TypeTables,
		Doc:     "A part of the floor that movement joints, partitions or what stands about part from the rest",
		Example: "[[room.zone]]\nname = \"by the window\"\nat = \"C 600 mm, 600 mm\"\ncables = [\"A240-60\"]"},
		Key{Path: "name", Type: TypeText, Otherwise: "zone and a number", Doc: "What it is called",
			Example: `name = "by the window"`},
		Key{Path: "at", Type: TypePlace, Required: true,
			Doc:     "Any place in it: a point, or a wall with the length along it and out from it",
			Example: `at = "C 600 mm, 600 mm"`},
		Key{Path: "cables", Type: TypeTexts, Doc: "The cables laid there, by id, beside the room's own",
			Example: `cables = ["A240-60"]`},
		Key{Path: "density", Type: TypeDensity, Limits: overZero, Otherwise: "the room's, or its own cables'",
			Doc:     "Power per area wanted there: a cable of the catalogue is chosen for it alone",
			Example: `density = "170 W/m2"`},
		Key{Path: "along", Type: TypeText, Otherwise: "as in the room",
			Doc: "The wall that its runs lie along, or their direction", Example: `along = "A"`},
		Key{Path: "start", Type: TypeText, Otherwise: "as in the room",
			Doc:     "The corner in which its heat starts, by the letter of the wall that begins there",
			Example: `start = "B"`},
		Key{Path: "cold", Type: TypeFlag, Default: "false", Doc: "It stays without cable on purpose",
			Example: "cold = true"},
	), under(Key{Path: "room.cold", Type: TypeTables,
		Doc:     "Tiled floor that stays without cable on purpose, of any shape",
		Example: "[[room.cold]]\nwall = \"C\"\nfrom = 0\nwidth = \"600 mm\"\ndepth = \"300 mm\""},
		append(lowKeys(), Key{Path: "name", Type: TypeText, Otherwise: "left cold", Doc: "What it is called",
			Example: `name = "under the wardrobe"`})...)...)
}

func fixingKeys() []Key {
	return under(Key{Path: "room.fixing", Type: TypeTables,
		Doc:     "Something to be screwed or drilled into the floor later",
		Example: "[[room.fixing]]\nkind = \"door stop\"\nat = [700, 60]"},
		append(wallKeys(),
			Key{Path: "kind", Type: TypeText, Required: true,
				Doc: "Door stop, threshold, shower glass, anti-tip bracket or the like", Example: `kind = "door stop"`},
			Key{Path: "name", Type: TypeText, Otherwise: "its kind", Doc: "What it is called",
				Example: `name = "stop behind the door"`},
			Key{Path: "at", Type: TypePlace, Doc: "Where, for a single point, or from a wall's start along and out",
				Example: `at = "A 700 mm, 60 mm"`},
			Key{Path: "line", Type: TypePoints, Least: 2, Doc: "Where, for something along a line",
				Example: "line = [[0, 900], [900, 900]]"},
			Key{Path: "width", Type: TypeLength, Default: "0", Doc: "Its length along the wall",
				Example: `width = "30in"`},
			faceKey(),
			Key{Path: "off", Type: TypeLength, Default: "0", Doc: "How far it is off the wall", Example: `off = "3in"`},
			Key{Path: "clear", Type: TypeLength, Otherwise: "by [clearance]", Doc: "How far the cable stays away",
				Example: `clear = "100 mm"`},
		)...)
}

// revisedKeys: what a revision changed, to be found on the plan.
func revisedKeys() []Key {
	return under(Key{Path: "room.revised", Type: TypeTables,
		Doc:     "A place that a revision changed: a triangle with its letter stands there on the plan",
		Example: "[[room.revised]]\nletter = \"A\"\nat = \"C 30in, 15in\""},
		Key{Path: "letter", Type: TypeText, Required: true, Doc: "Of the [[revision]]", Example: `letter = "A"`},
		Key{Path: "at", Type: TypePlace, Required: true, Doc: "Where, from a wall's start along and out, or [x, y]",
			Example: `at = "C 30in, 15in"`})
}

// nicheKeys: floor that goes on into a recess.
func nicheKeys() []Key {
	return under(Key{Path: "room.niche", Type: TypeTables,
		Doc: "A recess of the floor into a straight wall, for a wardrobe, a bed or a window seat; the wall goes on " +
			"behind it as A.4, its own sides are A.1 to A.3",
		Example: "[[room.niche]]\nwall = \"A\"\nfrom = \"2ft\"\nwidth = \"30in\"\ndepth = \"1ft\""},
		append(wallKeys(),
			Key{Path: "name", Type: TypeText, Otherwise: "niche, numbered where there are several",
				Doc: "What it is called", Example: `name = "wardrobe"`},
			Key{Path: "width", Type: TypeLength, Limits: overZero, Required: true, Doc: "Along the wall",
				Example: `width = "30in"`},
			Key{Path: "depth", Type: TypeLength, Limits: overZero, Required: true, Doc: "Into the wall",
				Example: `depth = "1ft"`},
			Key{Path: "tiled", Type: TypeFlag, Default: "true", Doc: "Whether tile goes on into it",
				Example: "tiled = false"},
			Key{Path: "heated", Type: TypeFlag, Default: "true", Doc: "Whether cable does", Example: "heated = false"},
		)...)
}

func arcKeys() []Key {
	return under(Key{Path: "room.arc", Type: TypeTables,
		Doc:     "A wall that is curved: part of a circle between its ends",
		Example: "[[room.arc]]\nwall = \"B\"\nrise = \"300 mm\""},
		Key{Path: "wall", Type: TypeText, Required: true,
			Doc:     "Its letter; its length is the straight way between its ends",
			Example: `wall = "B"`},
		Key{Path: "rise", Type: TypeLength, Limits: overZero,
			Doc: "From the middle of that straight way to the middle of the curve", Example: `rise = "300 mm"`},
		Key{Path: "radius", Type: TypeLength, Limits: overZero,
			Doc:     "Of its circle, instead of rise: half of that straight way at least",
			Example: `radius = "1.5 m"`},
		Key{Path: "into", Type: TypeFlag, Default: "false", Doc: "It bulges into the room", Example: "into = true"},
	)
}

// partitionKeys: 100 mm and 4-1/2 in are studs of the usual size with board on both faces.
func partitionKeys() []Key {
	return append(under(Key{Path: "room.partition", Type: TypeTables,
		Doc:     "A wall that stands in the room: no cable lies under it, and it may go on through its doorways",
		Example: "[[room.partition]]\nfrom = \"A 1.2 m\"\nto = \"C 1.2 m\""},
		Key{Path: "name", Type: TypeText, Otherwise: "partition and a number", Doc: "What it is called",
			Example: `name = "toilet wall"`},
		Key{Path: "from", Type: TypePlace, Required: true,
			Doc: "Where its middle line begins: a point, or a wall with the length along it and out from it; what " +
				"reaches beyond the walls is trimmed", Example: `from = "A 1.2 m"`},
		Key{Path: "to", Type: TypePlace, Required: true, Doc: "Where it ends", Example: `to = "A 1.2 m, 1.5 m"`},
		Key{Path: "thickness", Type: TypeLength, Limits: overZero, Default: `"100 mm"`, DefaultIn: `"4-1/2in"`,
			Doc: "From finished face to finished face", Example: `thickness = "100 mm"`},
		Key{Path: "clear", Type: TypeLength, Otherwise: "as from walls, by [clearance]",
			Doc: "How far the cable stays away", Example: `clear = "75 mm"`},
	), under(Key{Path: "room.partition.opening", Type: TypeTables, Doc: "A doorway in a partition",
		Example: "[[room.partition.opening]]\nfrom = \"700 mm\"\nwidth = \"760 mm\""},
		Key{Path: "from", Type: TypeLength, Default: "0", Doc: "From the partition's start to its near end",
			Example: `from = "2ft"`},
		Key{Path: "to_end", Type: TypeLength, Doc: "From its far end to the partition's end, instead of from",
			Example: `to_end = "1ft 6in"`},
		Key{Path: "centre", Type: TypeLength, Doc: "From the partition's start to its middle, instead of from",
			Example: `centre = "18in"`},
		Key{Path: "name", Type: TypeText, Otherwise: "its kind", Doc: "What it is called",
			Example: `name = "toilet door"`},
		Key{Path: "kind", Type: TypeChoice, Values: []string{"door", "opening"}, Default: `"door"`, Doc: "What it is",
			Example: `kind = "opening"`},
		Key{Path: "width", Type: TypeLength, Limits: overZero, Required: true, Doc: "Clear width along the partition",
			Example: `width = "30in"`},
		Key{Path: "swing", Type: TypeChoice, Values: []string{"in", "out", "slide", "none"},
			Otherwise: "in for a door, none otherwise",
			Doc:       "Which way the leaf goes: in is to the left of the way from start to end",
			Example:   `swing = "out"`},
		Key{Path: "hinge", Type: TypeChoice, Values: []string{"start", "end"}, Default: `"start"`,
			Doc: "At which end of the doorway, along the partition, the leaf hangs", Example: `hinge = "end"`},
	)...)
}

func jointKeys() []Key {
	return under(Key{Path: "room.joint", Type: TypeTables, Doc: "A movement joint: no heating cable crosses it",
		Example: "[[room.joint]]\nfrom = [1200, 0]\nto = [1200, 2400]"},
		Key{Path: "name", Type: TypeText, Otherwise: "MJ and a number", Doc: "What it is called",
			Example: `name = "MJ1"`},
		Key{Path: "from", Type: TypePlace, Required: true,
			Doc: "One end, as a point or as a wall and the length from its start; what reaches beyond the walls is " +
				"trimmed", Example: "from = [1200, 0]"},
		Key{Path: "to", Type: TypePlace, Required: true, Doc: "The other end", Example: `to = "C 5ft 4in"`},
		Key{Path: "clear", Type: TypeLength, Otherwise: "by [clearance]", Doc: "How far the cable stays away",
			Example: `clear = "50 mm"`},
		Key{Path: "width", Type: TypeLength, Default: `"6 mm"`, Doc: "Width of the joint", Example: `width = "1/4in"`},
	)
}

// thermostatKeys: a tail of 8 in and 4 in of slack are common practice.
func thermostatKeys() []Key {
	return under(Key{Path: "room.thermostat", Type: TypeTable, Required: true, Doc: "The box the leads rise to",
		Example: "[room.thermostat]\nwall = \"A\"\nfrom = \"4ft 6in\""},
		Key{Path: "at", Type: TypePlace, Doc: "Where its wall meets the floor; the lead comes down here",
			Example: "at = [1400, 0]"},
		Key{Path: "wall", Type: TypeText, Doc: "The letter of its wall, or a partition by its name, instead of at",
			Example: `wall = "A"`},
		faceKey(),
		Key{Path: "from", Type: TypeLength, Doc: "From the wall's start to the middle of the box",
			Example: `from = "4ft 6in"`},
		Key{Path: "to_end", Type: TypeLength, Doc: "From the middle of the box to the wall's end, instead of from",
			Example: `to_end = "2ft"`},
		Key{Path: "height", Type: TypeLength, Limits: Limits{Max: 5000},
			Otherwise: "48 in in North America, 1200 mm in other regions",
			Doc:       "Of the middle of the box above the finished floor",
			Example:   `height = "48in"`},
		Key{Path: "tail", Type: TypeLength, Default: `"200 mm"`, Doc: "Lead wanted inside the box",
			Example: `tail = "8in"`},
		Key{Path: "slack", Type: TypeLength, Default: `"100 mm"`, Doc: "Lead kept as slack on the floor",
			Example: `slack = "4in"`},
		Key{Path: "circuit", Type: TypeText, Otherwise: "the job's only [[circuit]], where there is just one",
			Doc: "The circuit that feeds it, by its name", Example: `circuit = "7"`},
		Key{Path: "floor_limit", Type: TypeTemperature, Limits: Limits{Min: 10, Max: 60},
			Otherwise: "not known; a warning says so where the floor needs one",
			Doc:       "What its floor sensor is set to keep the floor below", Example: `floor_limit = "29 C"`},
	)
}
