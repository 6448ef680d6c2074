package job

// Warmth is what is assumed about the floor's surroundings and use, to work
// out how warm it gets, how soon, and what that costs.
type Warmth struct {
	Room       float64 // °C of the air above
	Warmest    float64 // °C of it at its warmest, for the limits
	Soil       float64 // W/(m K) of the ground's
	Below      string  // "room", "void", "ground", "insulated" or "": by the lowest layer
	BelowAt    float64 // °C down there, where BelowGiven
	BelowGiven bool
	Rise       float64 // K that the surface is to gain
	Hours      float64 // h that are waited for it
	Board      float64 // mm of the insulation board compared with, 0: none
	Covering   Covering
	Spans      Spans
}

// A Covering is what lies on the floor and how warm it may get.
type Covering struct {
	Name    string
	Celsius float64
	Given   bool
	Source  Source
}

// Energy is how a floor is used and what a kWh costs.
type Energy struct {
	Tariff     float64 // a kWh; 0: no cost is worked out
	Currency   string
	LeastHours float64 // a day that the thermostat calls for warmth
	MostHours  float64
	LeastDuty  float64 // share of those hours with the current on
	MostDuty   float64
}

// A Labour is one phase of work at the job's own rates.
type Labour struct {
	Phase     string
	Heated    bool    // counted on the heated area, else on the tiled one
	PerHour   float64 // m² an hour, 0: Fixed alone
	Fixed     float64 // h, whatever the area
	HourCost  float64
	Crew      int // who are at it together
	Visits    int // ways to the site for it; 0: not counted
	VisitCost float64
}

// warmthKeys: 20 °C is the room of EN 1264-2; a rise of 8 K takes a floor at
// room temperature to about 28 °C; a board of 10 mm is common practice; 4 to
// 10 hours a day with the current on for 40 to 100 % of them are broad
// assumptions.
func warmthKeys() []Key {
	return append(under(Key{Path: "warmth", Type: TypeTable,
		Doc: "What is assumed to work out how warm the floor gets and how soon", Example: "[warmth]\nroom = \"68 F\""},
		Key{Path: "room", Type: TypeTemperature, Limits: Limits{Min: -20, Max: 40}, Default: `"20 C"`,
			Doc: "Temperature of the air above the floor", Example: `room = "68 F"`},
		Key{Path: "warmest", Type: TypeTemperature, Limits: Limits{Min: -20, Max: 50}, Otherwise: "as room",
			Doc:     "Temperature of that air at its warmest while the floor is on: limits are held against it",
			Example: `warmest = "24 C"`},
		Key{Path: "soil_conductivity", Type: TypeNumber, Limits: Limits{Min: 0.2, Max: 5}, Default: "2",
			Doc: "Of the ground under a slab, W/(m K): 1.5 for clay or silt, 2.0 for sand or gravel, 3.5 for rock " +
				"(ISO 13370)", Example: "soil_conductivity = 1.5"},
		Key{Path: "below", Type: TypeChoice, Values: []string{"room", "void", "ground", "insulated"},
			Otherwise: "ground under concrete or screed, else a room", Doc: "What lies under the lowest layer",
			Example: `below = "ground"`},
		Key{Path: "below_temperature", Type: TypeTemperature, Limits: Limits{Min: -40, Max: 60},
			Otherwise: "as above for a room, 10 °C for a void or the ground", Doc: "Temperature down there",
			Example: `below_temperature = "50 F"`},
		Key{Path: "rise", Type: TypeNumber, Limits: Limits{Min: 0.5, Max: 40}, Default: "8",
			Doc: "What the surface is to gain, in K, for the warm-up", Example: "rise = 8"},
		Key{Path: "hours", Type: TypeNumber, Limits: Limits{Min: 0.5, Max: 48}, Default: "4",
			Doc: "How long is waited for that", Example: "hours = 6"},
		Key{Path: "board", Type: TypeLength, Default: `"10 mm"`,
			Doc: "Thickness of the insulation board under the membrane that the warm-up is compared with; 0 " +
				"for none",
			Example: `board = "6 mm"`},
		Key{Path: "covering", Type: TypeText, Default: `"covering"`,
			Doc: "What lies on the floor and has a limit of its own", Example: `covering = "vinyl plank"`},
		Key{Path: "covering_limit", Type: TypeTemperature, Limits: Limits{Min: 10, Max: 80},
			Otherwise: "comfort limits alone are looked at", Doc: "How warm its surface may get",
			Example: `covering_limit = "27 C"`},
		Key{Path: "covering_limit_from", Type: TypeChoice, Values: []string{"job file", "label", "instructions"},
			Default: `"job file"`, Doc: "Where that limit was read", Example: `covering_limit_from = "instructions"`},
	), under(Key{Path: "energy", Type: TypeTable, Doc: "How the floor is used and what a kWh costs",
		Example: "[energy]\ntariff = 0.28"},
		Key{Path: "tariff", Type: TypeNumber, Otherwise: "no cost is worked out", Doc: "Price of a kWh",
			Example: "tariff = 0.28"},
		Key{Path: "currency", Type: TypeText, Otherwise: "the job's currency",
			Doc: "What the tariff is in, where that is not the job's currency", Example: `currency = "$"`},
		Key{Path: "least_hours", Type: TypeNumber, Limits: Limits{Max: 24}, Default: "4",
			Doc: "Fewest hours a day that warmth is called for", Example: "least_hours = 3"},
		Key{Path: "most_hours", Type: TypeNumber, Limits: Limits{Max: 24}, Default: "10",
			Doc: "Most hours a day that warmth is called for", Example: "most_hours = 8"},
		Key{Path: "least_duty", Type: TypeShare, Limits: Limits{Max: 1}, Default: "0.4",
			Doc: "Smallest share of those hours with the current on", Example: `least_duty = "30 %"`},
		Key{Path: "most_duty", Type: TypeShare, Limits: Limits{Max: 1}, Default: "1",
			Doc: "Largest share of those hours with the current on", Example: "most_duty = 0.9"},
	)...)
}

func labourKeys() []Key {
	return under(Key{Path: "labour", Type: TypeTables,
		Doc:     "A phase of work at your own rates; no labour is taken off without",
		Example: "[[labour]]\nphase = \"membrane\"\nper_hour = \"7 m2\""},
		Key{Path: "phase", Type: TypeText, Required: true, Doc: "What is done", Example: `phase = "membrane"`},
		Key{Path: "on", Type: TypeChoice, Values: []string{"tiled", "heated"}, Default: `"tiled"`,
			Doc: "The area it is counted on", Example: `on = "heated"`},
		Key{Path: "per_hour", Type: TypeArea, Limits: overZero, Otherwise: "the fixed hours alone",
			Doc: "Area done in an hour", Example: `per_hour = "70 ft2"`},
		Key{Path: "fixed", Type: TypeNumber, Limits: Limits{Max: 10000}, Default: "0",
			Doc: "Hours it takes whatever the area", Example: "fixed = 1.5"},
		Key{Path: "hour_cost", Type: TypeNumber, Limits: Limits{Max: 1e6},
			Otherwise: "hours are given without their cost", Doc: "Cost of an hour", Example: "hour_cost = 55"},
		Key{Path: "crew", Type: TypeWhole, Limits: Limits{Min: 1, Max: 100}, Default: "1",
			Doc: "How many are at it together: the hours stay, the days get fewer", Example: "crew = 2"},
		Key{Path: "visits", Type: TypeWhole, Limits: Limits{Max: 1000}, Otherwise: "ways to the site are not counted",
			Doc: "Ways to the site that it takes", Example: "visits = 2"},
		Key{Path: "visit_cost", Type: TypeNumber, Limits: Limits{Max: 1e6}, Doc: "Cost of a way to the site and back",
			Example: "visit_cost = 35"},
	)
}

func (j *Job) readWarmth(w, e table) {
	j.Warmth = Warmth{
		Room: w.num("room"), Below: w.text("below"), BelowAt: w.num("below_temperature"),
		BelowGiven: w.has("below_temperature"),
		Soil:       w.num("soil_conductivity"), Rise: w.num("rise"), Hours: w.num("hours"), Board: w.num("board"),
		Spans:    w.spans(),
		Covering: readCovering(w),
	}
	j.Warmth.Warmest = w.numOr("warmest", j.Warmth.Room)
	if !w.broken() && j.Warmth.Warmest < j.Warmth.Room {
		w.errorf("warmest", "give the highest temperature of the air, or leave it out",
			"warmest = %s °C is colder than room = %s °C", figure(j.Warmth.Warmest), figure(j.Warmth.Room))
	}
	j.Energy = Energy{
		Tariff: e.num("tariff"), Currency: e.text("currency"), LeastHours: e.num("least_hours"),
		MostHours: e.num("most_hours"),
		LeastDuty: e.num("least_duty"), MostDuty: e.num("most_duty"),
	}
	if j.Energy.Currency == "" {
		j.Energy.Currency = j.Currency
	}
	if e.broken() {
		return
	}
	j.Energy.checkTariff(e)
	if j.Energy.LeastHours > j.Energy.MostHours {
		e.errorf("least_hours", "swap them, or give both", "least_hours = %s is more than most_hours = %s",
			figure(j.Energy.LeastHours), figure(j.Energy.MostHours))
	}
	if j.Energy.LeastDuty > j.Energy.MostDuty {
		e.errorf("least_duty", "swap them, or give both", "least_duty = %s is more than most_duty = %s",
			figure(j.Energy.LeastDuty), figure(j.Energy.MostDuty))
	}
}

func readCovering(w table) Covering {
	if !w.has("covering_limit") {
		return Covering{}
	}
	return Covering{w.text("covering"), w.num("covering_limit"), true, sourceNamed(w.text("covering_limit_from"))}
}

func (j *Job) readLabour(top table) {
	seen := namesSeen{}
	for _, t := range top.each("labour") {
		seen.check(t, "phase", t.text("phase"), "phase")
		if !t.broken() && !t.has("per_hour") && t.num("fixed") == 0 {
			t.errorf("phase", `add per_hour = "70 ft2", fixed = 2, or both`, "the phase %q has no hours",
				t.text("phase"))
		}
		j.Labour = append(j.Labour, Labour{Phase: t.text("phase"), Heated: t.text("on") == "heated",
			PerHour: t.num("per_hour"), Fixed: t.num("fixed"), HourCost: t.num("hour_cost"),
			Crew: t.whole("crew"), Visits: t.whole("visits"), VisitCost: t.num("visit_cost")})
	}
}
