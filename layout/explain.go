package layout

import (
	"strings"

	"oxturn/layout/job"
	"oxturn/layout/plancode"
)

// Explanations returns the warnings that laying the cable may give, by ID.
func Explanations() []job.Explanation {
	landing := func(corners, cable string) string {
		return "[[room]]\nname = \"Landing\"\ncorners = " + corners + "\ncables = [\"C\"]\n\n" +
			"[room.thermostat]\nwall = \"A\"\nfrom = \"600 mm\"\n\n" +
			"[[cable]]\nid = \"C\"\nvolts = 120\nlead = \"3 m\"\n" + cable + "\n"
	}
	slot := func(from, box string) string { // the box hangs at the end of a slot
		cable := func(id string) string {
			return "\n[[cable]]\nid = \"" + id + "\"\nvolts = 120\nlead = \"3 m\"\nlength = \"10 m\"\nwatts = 100\n"
		}
		return "[[room]]\nname = \"Landing\"\ncorners = [[0, 0], [" + from + ", 0], [" + from +
			", -200], [600, -200], [600, 0], [2400, 0], [2400, 1000], [0, 1000]]\n" +
			"cables = [\"C\", \"D\"]\n\n[room.thermostat]\nat = [" + box + ", -200]\n" + cable("C") + cable("D")
	}
	whole := landing("[[0, 0], [1200, 0], [1200, 1000], [0, 1000]]", "length = \"10 m\"\nwatts = 100")
	pegged := func(roll string) string { // pegs so far apart that a narrow roll holds none
		return "[membrane]\npitch = \"70 mm\"\nroll_width = \"" + roll + "\"\n\n" +
			"[spacing]\nclosest = 1\nwidest = 2\n\n" + whole
	}
	supplied := func(size string) string {
		return "[supply]\nregion = \"north america\"\n\n" + whole + "\n[[circuit]]\nname = \"7\"\nbreaker = 20\n" +
			"conductor = \"" + size + "\"\nlength = \"15 m\"\n"
	}
	limited := strings.Replace(whole, "from = \"600 mm\"\n", "from = \"600 mm\"\nfloor_limit = \"29 C\"\n", 1)
	layers := "[[layer]]\nkind = \"wood\"\nthickness = \"19 mm\"\n\n"
	membraneLayer := "[[layer]]\nkind = \"tile\"\nthickness = \"10 mm\"\n\n[[layer]]\nkind = \"membrane\"\nthickness " +
		"= \"5.5 mm\"\n\n"
	cover := func(limit string) string { return "[warmth]\ncovering_limit = " + limit + "\n\n" }
	laid := func(runs string) string {
		return "[job]\nstatus = \"as laid\"\n\n" + whole + "\n[[as_laid]]\nroom = \"Landing\"\nevidence = \"measured " +
			"by hand\"\nstart = [100, 100]\nlegs = [" + runs + "]\n"
	}
	spool := "\n[[as_laid.reading]]\nstage = \"on spool\"\nohms = 144.0\n"
	read := func(ohms string) string {
		return whole + "\n[[as_laid]]\nroom = \"Landing\"\nevidence = \"measured by hand\"\nruns = 1\n" + spool +
			"\n[[as_laid.reading]]\nstage = \"laid, before cover\"\nohms = " + ohms + "\n"
	}
	again := func(stage string) string { return "\n[[as_laid.reading]]\nstage = \"" + stage + "\"\nohms = 144.5\n" }
	pair := `"north 27", "east 3", "south 27", "east 3", `
	return []job.Explanation{
		{ID: "W101", Title: "a floor sensor finds no place",
			Text: "A sensor lies midway between two runs, well inside the heated floor and away from other heat, and " +
				"its tube reaches the box clear of heating cable and lead joints, never off the floor. " +
				"No gap of this room allows that for the sensor or for its spare. Without a spare, a sensor " +
				"that fails " +
				"means lifting tile; the cable plan shows what could be placed.",
			Bad:  landing("[[0, 0], [2400, 0], [2400, 420], [0, 420]]", "length = \"8.1 m\"\nwatts = 81"),
			Good: landing("[[0, 0], [1200, 0], [1200, 1000], [0, 1000]]", "length = \"10 m\"\nwatts = 100")},
		{ID: "W103", Title: "floor to be heated stays without cable",
			Text: "A cable may not cross a movement joint, pass under a fixture or be cut and joined, so that each " +
				"part of the floor needs a cable of its own. " +
				"The room lists fewer cables than it has parts with room for one. The part left out is dotted on the " +
				"drawings and counted with the floor that is not heated.",
			Bad: landing("[[0, 0], [2400, 0], [2400, 1000], [0, 1000]]", "length = \"10 m\"\nwatts = 100") +
				"\n[[room.joint]]\nfrom = [1200, 0]\nto = [1200, 1000]\n",
			Good: whole},
		{ID: "W104", Title: "floor lies out of the warmth's reach",
			Text: "Some of the floor that a cable serves lies farther from its nearest run than three half spacings. " +
				"A run needs room to turn: behind a neck that is too narrow " +
				"for two runs side by side the floor stays cool, and so does a corner that nothing fits into. " +
				"Where the " +
				"cable is shorter than its floor takes, it runs out before the end.",
			Bad: landing("[[0, 0], [1200, 0], [1200, 415], [1350, 415], [1350, 200], [1900, 200], [1900, 800], "+
				"[1350, 800], [1350, 585], [1200, 585], [1200, 1000], [685, 1000], [685, 1150], [900, 1150], [900, "+
				"1700], [300, 1700], [300, 1150], "+
				"[515, 1150], [515, 1000], [0, 1000], [0, 585], [-150, 585], [-150, 800], [-700, 800], [-700, 200], "+
				"[-150, 200], [-150, 415], [0, 415]]", "length = \"14 m\"\nwatts = 140"),
			Good: whole},
		{ID: "W105", Title: "runs lie farther apart than allowed",
			Text: "Two neighbouring runs have more floor between them than [spacing] widest allows, with nothing but " +
				"heated floor between; or the runs of a cable would have to lie farther apart than that to serve all " +
				"its floor. " +
				"Either the cable is too short for its floor, or the room's shape leaves no neater way for a " +
				"cable of " +
				"just this length. The floor midway stays cooler, and may be felt as a stripe.",
			Bad: landing("[[0, 0], [1200, 0], [1200, 1000], [0, 1000]]", "length = \"6 m\"\nwatts = 60"), Good: whole},
		{ID: "W106", Title: "tile runs far without a movement joint",
			Text: "Tile, bed and what carries them move with warmth and damp, and a warmed floor moves more. " +
				"Movement joints take that up: indoors every 20 to 25 ft (6.1 to 7.6 m) each way, " +
				"every 12 ft (3.7 m) at most in direct sun or where it gets wet, and at walls and changes of plane " +
				"(TCNA " +
				"EJ171 and ANSI A108.01, as relayed in the trade). Local standards differ. " +
				"No cable may cross such a joint: one that the tile layer adds later cuts through it. Ask before the " +
				"cable is chosen, and give each joint as a [[room.joint]].",
			Bad:  landing("[[0, 0], [6500, 0], [6500, 1000], [0, 1000]]", "length = \"60 m\"\nwatts = 600"),
			Good: whole},
		{ID: "W107", Title: "cold leads lie on one another",
			Text: "Where several cables come to one box, their cold leads go side by side over the floor. Here one " +
				"finds no way but over another, or over the lead joint of another cable. " +
				"Two leads on one another stand up under tile and are pressed there; a joint is the thickest and " +
				"weakest " +
				"part of a cable, and nothing may lie on it. The cable plan notes each such place, and the leads " +
				"must be kept apart there in depth: each in a tube or recess of its own.",
			Bad: slot("580", "590"), Good: slot("520", "560")},
		{ID: "W108", Title: "more power per area than allowed",
			Text: "A power per area says nothing without its area. At even spacing, cable length times spacing, half " +
				"a gap beyond the outer runs is counted in; over the floor within the clearances alone the same " +
				"watts come to more. " +
				"[supply] max_density is held against both, so that the stricter counts, unless " +
				"max_density_over says " +
				"which of the two it is over; and against three neighbouring runs where they lie closest.",
			Bad:  "[supply]\nmax_density = \"105 W/m2\"\n\n" + whole,
			Good: "[supply]\nmax_density = \"105 W/m2\"\nmax_density_over = \"even spacing\"\n\n" + whole},
		{ID: "W109", Title: "the search for routes was ended early",
			Text: "How far a job's routes are looked for is bounded by counted steps, in proportion to its floors " +
				"and cables, so that any machine gives the same plan. A floor with very many corners or a hall " +
				"with a dozen cables may spend them; then the best plan found is taken. It keeps every rule, but " +
				"some floor may lie colder, or a lead longer, than need be: the warning says what was given up. " +
				"[spacing] search looks farther; a floor drawn as several rooms is soon through.",
			Bad: "[spacing]\nsearch = 0.00016\n\n" + whole, Good: "[spacing]\nsearch = 0.1\n\n" + whole},
		{ID: "W110", Title: "a cable as laid is not as long as its label says",
			Text: "What was measured of a cable on the floor adds up to another length than the cable has. A run was " +
				"left out or counted twice, or a leg misread: " +
				"the map would show cable where there is none, or none where there is.",
			Bad:  laid(strings.Repeat(pair, 4) + `"north 27"`),
			Good: laid(strings.Repeat(pair, 5) + `"north 27", "east 3", "south 20"`)},
		{ID: "W111", Title: "a reading is outside its limit",
			Text: "A cable is measured on its spool, laid, covered, tiled and grouted, and each time it is held " +
				"against its label and against the first reading. " +
				"This one is outside. Read it again with the leads apart and the thermostat and sensor " +
				"disconnected; if " +
				"it stays outside, the damage lies in what was done since the last good reading, and is cheapest to " +
				"mend before the next layer.",
			Bad: read("120.0"), Good: read("144.5")},
		{ID: "W112", Title: "a reading is out of order",
			Text: "The readings of a cable stand in the order they were taken: on the spool, laid, covered, tiled, " +
				"grouted, at hook-up, in service. Each is held against the first, and between two of them the damage " +
				"is looked for. " +
				"This one names an earlier stage, or bears an earlier date, than one written above it: one of " +
				"the two " +
				"was misread or put in the wrong place, and what the record proves about who covered what is open to " +
				"dispute.",
			Bad: read("144.5") + again("on spool"), Good: read("144.5") + again("covered")},
		{ID: "W113", Title: "a record rests on another plan",
			Text: "Every plan has a plan code, which stands in its title blocks; a job that is worked out again " +
				"after a change gives another plan and another code. " +
				"This record names the plan that was laid from, and the job no longer gives that plan. Where " +
				"the cable " +
				"lies was measured and holds; what is said of it against the plan does not. The layout file of the " +
				"plan that was laid settles it.",
			Bad: strings.Replace(laid(strings.Repeat(pair, 5)+`"north 27", "east 3", "south 20"`), "[[as_laid]]\n",
				"[[as_laid]]\nplan = \""+plancode.Example+"\"\n", 1),
			Good: laid(strings.Repeat(pair, 5) + `"north 27", "east 3", "south 20"`)},
		{ID: "W114", Title: "a stage of the test record was skipped",
			Text: "A cable is measured on its spool, laid, covered, tiled, grouted and at hook-up: each reading " +
				"closes the account of the trade before it. A later stage has a reading here and this one has none. " +
				"If the cable turns out to be damaged, nobody can say whether it came so, or who did it, and more " +
				"floor " +
				"has to be opened to find out. If it was read and only not written down, write it down; the test " +
				"record shows the gap.",
			Bad: whole + "\n[[as_laid]]\nroom = \"Landing\"\nevidence = \"measured by hand\"\nruns = 1\n" +
				again("laid, before cover"), Good: read("144.5") + again("covered")},
		{ID: "W120", Title: "the membrane cannot be planned",
			Text: "Strips of membrane are cut in whole pitches so that their pegs stay in step. The roll or sheet " +
				"given does not hold one peg, or is out of all proportion to the rooms: " +
				"a unit is probably wrong. The take-off falls back on area with waste, and there is no sheet for " +
				"cutting " +
				"the membrane.",
			Bad: pegged("60 mm"), Good: pegged("1 m")},
		{ID: "W121", Title: "the floor's warmth cannot be worked out",
			Text: "Surface temperature and warm-up follow from the layers of the floor, from the tile down to what " +
				"carries it. One of them has no conductivity, or none is the membrane that holds the cable. " +
				"The section is drawn all the same, without its charts.",
			Bad: layers + whole, Good: membraneLayer + layers + limited},
		{ID: "W122", Title: "the floor would pass its covering's limit",
			Text: "Left on without a thermostat, the surface over a cable would become warmer than the covering may " +
				"get by its own instructions. It is judged at its warmest: no heat lost below or, on ground, soil " +
				"that has settled, and the air at [warmth] warmest. " +
				"The floor thermostat must then hold it down: it needs a limit of its own, and its sensor must lie " +
				"where " +
				"the floor is at its warmest.",
			Bad: cover("\"24 C\"") + membraneLayer + layers + limited, Good: cover("\"45 C\"") + membraneLayer +
				layers + limited},
		{ID: "W123", Title: "nothing written down keeps the floor comfortable",
			Text: "Left on without a thermostat, the surface over a cable would become warmer than people are to " +
				"stand on for long: 29 °C in a room at 20 °C, 33 °C in a bathroom at 24 °C, 9 K over the air " +
				"either way " +
				"(EN 1264-2; a room with a tub or a shower counts as a bathroom). It is judged at its warmest: " +
				"no heat " +
				"lost below or, on ground, soil that has settled, and the air at [warmth] warmest. Most warmed tile " +
				"floors could do so, and their thermostat keeps them below: " +
				"it must have a floor sensor, and its floor limit must be set. Give what it is set to as " +
				"[room.thermostat] floor_limit: the electrician's sheet then asks for it.",
			Bad: membraneLayer + layers + whole, Good: membraneLayer + layers + limited},
		{ID: "W130", Title: "a figure is outside a region's rule",
			Text: "The job names a region, and one of its figures lies outside what that region's wiring rules ask " +
				"for, as read in the edition named. " +
				"Rules change and are adopted place by place: look the clause up in the edition in force. It " +
				"is never " +
				"said that a rule is met.",
			Bad: "[supply]\nregion = \"north america\"\n\n" + strings.Replace(whole, "lead = \"3 m\"", "lead = \"2 m\"",
				1), Good: "[supply]\nregion = \"north america\"\n\n" + whole},
		{ID: "W131", Title: "the load is more than a rating carries",
			Text: "The thermostat's contacts, or the circuit's breaker, carry less than the cables draw. " +
				"In North America heating is a continuous load: it is held against 80 % of a breaker, which is the " +
				"same " +
				"as 125 % of the load against all of it; in Europe against the whole rating. A relay, a second " +
				"thermostat or another circuit is the electrician's to settle.",
			Bad: "[supply]\nthermostat_amps = 0.5\n\n" + whole, Good: "[supply]\nthermostat_amps = 10\n\n" + whole},
		{ID: "W132", Title: "a supply conductor is smaller than its breaker asks for",
			Text: "The job gives a circuit's breaker and its conductor, and the region's table has copper of that " +
				"size behind smaller breakers only: NEC 2023, 240.4(D) in North America, IEC 60364-5-52 with a " +
				"cable in a conduit in an insulated wall in Europe; elsewhere no table is on file. How it is " +
				"laid, its insulation and local code may allow or ask for more: the electrician settles it.",
			Bad: supplied("14 AWG"), Good: supplied("12 AWG")},
	}
}
