package figures

import (
	"slices"
	"strings"
	"testing"
	"unicode/utf8"

	"oxturn/layout/language"

	"pgregory.net/rapid"

	"oxturn/layout/circuit"
	"oxturn/layout/plane"
	"oxturn/layout/say"
	"oxturn/layout/takeoff"
)

// said is what a page in one of the two systems, of a region, has written.
func said(u plane.Units, in circuit.Region, write func(p *page)) string {
	p := &page{units: u, in: in}
	write(p)
	return p.b.String()
}

func metric(write func(p *page)) string { return said(plane.Millimetres, circuit.Europe, write) }

func american(write func(p *page)) string { return said(plane.Inches, circuit.NorthAmerica, write) }

func hold(t *testing.T, got string, want ...string) {
	t.Helper()
	if joined := strings.Join(want, "\n") + "\n"; got != joined {
		t.Errorf("%s\nwant:\n%s", got, joined)
	}
}

// Whatever there is to say, all of it is said, in order, in lines of at most 110 letters that are
// broken between two parts where the next would not have gone in.
func TestPutKeepsEveryPart(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		name := rapid.StringMatching(`[a-z]{1,24}`).Draw(t, "name")
		parts := append(rapid.SliceOfN(rapid.StringMatching(`([a-z°]{1,60}:?)?`), 0, 9).Draw(t, "parts"),
			rapid.StringMatching(`[a-z]{1,60}`).Draw(t, "last"))
		got := metric(func(p *page) { p.put(name, parts...) })
		want := []string{name}
		for _, s := range parts {
			if s != "" && !strings.HasSuffix(s, ":") {
				s += ";"
			}
			if s != "" {
				want = append(want, s)
			}
		}
		last := len(want) - 1
		want[last] = strings.TrimSuffix(want[last], ";")
		if !slices.Equal(strings.Fields(got), want) {
			t.Fatalf("%q is said of %q", got, parts)
		}
		lines := strings.Split(strings.TrimSuffix(got, "\n"), "\n")
		if len(name) > 15 {
			lines = lines[1:] // the name stands alone
		}
		if r := []rune(strings.TrimPrefix(lines[0], "  "+name)); strings.TrimLeft(string(r),
			" ") != string([]rune(lines[0])[18:]) {
			t.Fatalf("%q does not begin at its column", lines[0])
		}
		for i, l := range lines {
			if i > 0 && !strings.HasPrefix(l, strings.Repeat(" ", 18)) || strings.HasSuffix(l, " ") {
				t.Fatalf("%q", l)
			}
			if wide := utf8.RuneCountInString(l); wide > reportColumns {
				t.Fatalf("%d letters: %q", wide, l)
			} else if i+1 < len(lines) && wide+1+utf8.RuneCountInString(strings.Fields(lines[i+1])[0]) < reportColumns {
				t.Fatalf("%q is broken too early: %q", got, lines[i+1])
			}
		}
	})
	hold(t, metric(func(p *page) {
		p.put("heat", "a", "", "b:", "c")
		p.put("a very long name", "x")
		p.put("at fifteen char", "y")
		p.put("none", "", "z")
	}),
		"  heat            a; b: c", "  a very long name", "                  x", "  at fifteen char y",
		"  none            z")
}

// Figures in both systems: an inch is 25.4 mm, a foot 304.8 mm, 1 m² 10.764 ft², 20 °C are
// 68 °F and a degree 1.8 (plain arithmetic).
func TestFiguresInBothSystems(t *testing.T) {
	us, si := &page{units: plane.Inches}, &page{units: plane.Millimetres}
	for _, c := range []struct {
		write func(p *page) string
		us    string
		si    string
	}{
		{func(p *page) string { return p.length(381) }, `1'-3"`, "381 mm"},
		{func(p *page) string { return p.small(38.1) }, "1.5 in", "38.1 mm"},
		{func(p *page) string { return p.long(3048) }, "10.0 ft", "3.05 m"},
		{func(p *page) string { return p.area(9.2903) }, "100.0 ft²", "9.29 m²"},
		{func(p *page) string { return p.density(129.167) }, "12.0 W/ft²", "129 W/m²"},
		{func(p *page) string { return p.perLength(10) }, "3.05 W/ft", "10.0 W/m"},
		{func(p *page) string { return p.degrees(20) }, "68 °F", "20 °C"},
		{func(p *page) string { return p.difference(5) }, "9 °F", "5 °C"},
	} {
		if got := [2]string{c.write(us), c.write(si)}; got != [2]string{c.us, c.si} {
			t.Errorf("%q, want %q and %q", got, c.us, c.si)
		}
	}
	if say.Counted(1, "cable")+say.Counted(2, "cable")+say.Counted(0, "cable") != "1 cable2 cables0 cables" {
		t.Error(say.Counted(1, "cable"), say.Counted(2, "cable"))
	}
}

// wound is a cable of 96 ohms on 240 V, so 600 W and 2.5 A, -5/+10 %, 60 m long: by 75 mm 4.5 m² and 133.3 W/m²,
// and 150 W/m² over the 4 m² that it serves.
func wound() Cable {
	return Cable{
		ID: "H1", Label: "A240-60", Volts: 240, Watts: 600, Amps: 2.5, Length: 60000, WattsPerMetre: 10, Runs: 24,
		HalfRun: 12, HalfInto: 450,
		Ohms: Ohms{Nominal: 96, From: "label", Low: 91.2, High: 105.6, Under: -5, Over: 10, Source: "label",
			Most: 631.6, Least: 545.5},
		Spacing: Spacing{Even: 75, Closest: 60, Widest: 90, Density: 133.3, AtEven: 4.5, OverServed: 150, Keeps: true,
			Densest: 150, DensestRun: 3}, Served: 4,
		Lead: Lead{Length: 4000, Rise: Limit{1200, "default"}, Tail: Limit{200, "job file"},
			Slack: Limit{100, "default"}, Reach: 2500, Used: 1900, Left: 600, Ends: 1},
		runName: func(n int) string { return string(rune('a' + n)) },
	}
}

func TestCableInWords(t *testing.T) {
	c, s := wound(), Supply{Pitch: Limit{30, "job file"}, MaxDensity: &Limit{160, "label"},
		MostOver: "over the heated floor"}
	hold(t, metric(func(p *page) { p.cable(c, s) }),
		"  cable H1        A240-60: 240 V, 600 W, 2.50 A; 60.00 m, 10.0 W/m",
		"  resistance      96.0 Ω at 20 °C (label); limits 91.2 to 105.6 Ω, -5/+10 % (label);",
		"                  546 to 632 W between them", // 240²/105.6 and 240²/91.2
		"  spacing         even 75 mm (2.5 pegs); closest 60 mm (2 pegs); widest 90 mm (3 pegs)",
		"  heat per area   133 W/m² at even spacing, over 4.50 m²; 150 W/m² over the heated 4.00 m² that it serves;",
		"                  densest 150 W/m² over three neighbouring runs, round run d;",
		"                  160 W/m² allowed over the heated floor (label): kept",
		"  runs            24, half-way mark on run m, 450 mm into it",
		"  drift           not known how much the plan takes",
		"  cold lead       4.00 m less rise 1200 mm (default), tail 200 mm (job file), slack 100 mm (default);",
		"                  reaches 2.50 m over the floor, 1.90 m used, 0.60 m left",
	)
	// both ends at the box, no two runs side by side, a label that is off its own volts and watts, readings
	c.Lead.Ends, c.Spacing.Closest, c.Ohms.LabelGap, c.Worst, c.HeldAgainst = 2, 0, -1.23, "fails", "the label"
	c.Spacing.Keeps = false
	c.Readings = []Verdict{{"before laying", "resistance", "passes", "96.1 Ω."}, {"after tiling", "stage", "open",
		"nothing was read after tiling"}}
	got := metric(func(p *page) { p.cable(c, s) })
	for _, want := range []string{
		"-1.2 % from volts²/watts", "  spacing         even 75 mm (2.5 pegs); no two runs lie side by side for " +
			"long\n  heat per area   133 W/m² at even spacing, over 4.50 m²; 150 W/m² over the heated 4.00 m² that " +
			"it serves;\n" +
			"                  160 W/m² allowed over the heated floor (label): NOT kept\n",
		"0.60 m left; both ends return to the box\n",
		"  readings        held against the label\n                  before laying, resistance: passes. 96.1 Ω.\n    " +
			"              nothing was read after tiling\n",
	} {
		if !strings.Contains(got, want) {
			t.Errorf("no %q in\n%s", want, got)
		}
	}
	c.Ohms.LabelGap = 0.004
	s.MaxDensity = nil
	c.Spacing.Closest = 60
	got = metric(func(p *page) { p.cable(c, s) })
	if strings.Contains(got, "volts²") || !strings.Contains(got, "no limit is given\n") {
		t.Error(got)
	}
}

func TestRoomInWords(t *testing.T) {
	r := Room{Name: "Bath", Floor: 6, Tiled: 5, Heated: 4, Density: 133.3, AtEven: 4.5, OverHeated: 150, OverTile: 120,
		Wall: Limit{50, "default"}, Cables: []Cable{wound()},
		Thermostat: Thermostat{Volts: 240, Watts: 600, Amps: 2.5, Continuous: 3.125, Ohms: 96,
			Contacts: Limit{16, "default"}, Margin: 13.5, Height: Limit{1200, "default"}, ColdLeads: 1, Sensors: 2}}
	got := metric(func(p *page) { p.room(r, Supply{Pitch: Limit{30, ""}}) })
	want := "Room Bath\n  areas           floor 6.00 m², tiled 5.00 m², heated 4.00 m²; cable 50 mm clear of " +
		"walls (default)\n" +
		"  heat            133 W/m² at even spacing, over 4.50 m²: half a gap beyond the outer runs is counted in;\n" +
		"                  150 W/m² over the heated 4.00 m²; 120 W/m² over the tiled 5.00 m²\n\n  cable H1"
	if !strings.HasPrefix(got, want) {
		t.Error(got)
	}
	if want := "\n\n  thermostat      240 V, 600 W, 2.50 A; 96.0 Ω in parallel\n  its contacts    16 A (default), " +
		"13.50 A to spare; nothing more needed\n" +
		"  its box         1200 mm up (default); 1 cold lead and 2 sensor leads come up\n"; !strings.HasSuffix(got,
		want) {
		t.Error(got)
	}
	r.Thermostat.FloorMost = &Limit{33, "bathroom, EN 1264-2"}
	got = metric(func(p *page) { p.thermostat(r.Thermostat) })
	if want := "  its floor limit NOT given;\n                  33 °C at most for lasting contact " +
		"(bathroom, EN 1264-2): left on, the floor would pass it\n"; !strings.Contains(got, want) {
		t.Error(got)
	}
	r.Thermostat.FloorMost, r.Thermostat.FloorLimit = nil, &Limit{29, "job file"}
	if got, want := american(func(p *page) { p.thermostat(r.Thermostat) }),
		"  its floor limit 84.2 °F (job file)\n"; !strings.Contains(got, want) {
		t.Error(got)
	}
	r.Thermostat.FloorLimit = nil
	r.Thermostat.Needs = "a relay"
	hold(t, american(func(p *page) { p.thermostat(r.Thermostat) }),
		"  thermostat      240 V, 600 W, 2.50 A; as a continuous load, 125 %: 3.12 A; 96.0 Ω in parallel",
		"  its contacts    16 A (default), 13.50 A to spare; needs a relay",
		`  its box         3'-11 1/4" up (default); 1 cold lead and 2 sensor leads come up`)
}

// 80 % of 15 A are 12 A, and 125 % of 10 A 12.5 (NEC 424.4(B)); ratings beyond three are left out
// once one carries the load, and all larger ones once the thermostat's contacts bind.
func TestCircuitInWords(t *testing.T) {
	c := Circuit{Name: "7", Rooms: []string{"Bath", "Hall"}, Cables: 2, Volts: 240, Watts: 2400, Amps: 10,
		Continuous: 12.5, TripMA: 5, TripAt: "breaker",
		Ratings: []Rating{
			{Breaker: 15, Source: "usual rating", Usable: 12, Limit: 12, Binds: "breaker", Carries: true, Most: 22},
			{Breaker: 20, Source: "usual rating", Usable: 16, Limit: 15, Binds: "both alike", Carries: true, Most: 27},
			{Breaker: 25, Source: "usual rating", Usable: 20, Limit: 15, Binds: "thermostat contacts", Carries: true,
				Most: 27},
			{Breaker: 30, Source: "usual rating", Usable: 24, Limit: 15, Binds: "thermostat contacts", Carries: true,
				Most: 27},
		},
		Drop: &Drop{Conductor: "12 AWG", Standard: "NEC chapter 9", Length: 20000, Celsius: 75, Volts: 2.1,
			Percent: 0.875},
	}
	want := []string{
		"Circuit 7: Bath, Hall",
		"  load            2 cables, 240 V, 2400 W, 10.00 A; as a continuous load, 125 %: 12.50 A",
		"  breakers        15 A (usual rating): 80 % is 12 A; the breaker binds at 12 A;",
		"                  carries the load, and up to 236 ft² of heated floor at this heat per area",
		"                  20 A (usual rating): 80 % is 16 A; breaker and contacts bind alike, at 15 A;",
		"                  carries the load, and up to 290 ft² of heated floor at this heat per area",
		"                  25 A (usual rating): 80 % is 20 A; the thermostat's contacts bind at 15 A;",
		"                  carries the load, and up to 290 ft² of heated floor at this heat per area",
		"  feed            65.6 ft one way of 12 AWG (job file), NEC chapter 9; copper at 75 °C;",
		"                  drop 2.10 V, 0.88 %",
		"  fault to earth  trips at 5 mA, at the breaker (job file)",
		"  not chosen here breaker, conductor, ground-fault device: the electrician's",
	}
	got := american(func(p *page) { p.circuit(c) })
	if a, b := strings.Fields(got), strings.Fields(strings.Join(want, " ")); !slices.Equal(a, b) {
		t.Errorf("%s\nwant:\n%s", got, strings.Join(want, "\n"))
	}
	// contacts that bind the first that carries end the list
	c.Ratings[0].Binds = "thermostat contacts"
	if got := american(func(p *page) { p.circuit(c) }); strings.Contains(got, "20 A (usual") {
		t.Error(got)
	}
	// while none carries the load, all are named
	for i := range c.Ratings {
		c.Ratings[i].Carries = false
	}
	if got := american(func(p *page) { p.circuit(c) }); strings.Count(got, "LESS than the load: up to") != 4 ||
		strings.Contains(got, "carries the load") {
		t.Error(got)
	}
	c.Ratings[0].Binds = "breaker"
	c.Ratings[0].Carries = true // only the one before ends the list
	if got := american(func(p *page) { p.circuit(c) }); strings.Count(got, "(usual rating)") != 4 {
		t.Error(got)
	}
	bare := Circuit{Rooms: []string{"Bath"}, Cables: 1, Volts: 230, Watts: 600, Amps: 2.61,
		Drop: &Drop{Celsius: 70, Convention: "the mean of a range", Length: 1000}}
	got = said(plane.Millimetres, circuit.Elsewhere, func(p *page) { p.circuit(bare) })
	for _, want := range []string{"Circuit, not named by the job: Bath\n", "1 cable, 230 V, 600 W, 2.61 A\n",
		"no usual ratings are on file for the region", "copper at 70 °C by the mean of a range",
		"  fault to earth  not given\n"} {
		if !strings.Contains(got, want) {
			t.Errorf("no %q in\n%s", want, got)
		}
	}
	bare.TripMA, bare.TripAt = 0.5, ""
	if got := metric(func(p *page) { p.circuit(bare) }); !strings.Contains(got,
		"trips at 0.5 mA, its place is not given (job file)") {
		t.Error(got)
	}
}

func TestWarmthInWords(t *testing.T) {
	cold := State{Mean: 27, Over: 29.5, Midway: 25, Hottest: 35, Up: 76.4, Down: 30}
	hot := State{Mean: 29, Over: 31.5, Midway: 27, Hottest: 37, Up: 100}
	w := &Warmth{Room: 20, Warmest: 24, Rise: 5, Board: 10,
		Surfaces: []Surface{{Cables: []string{"H1", "H2"}, State: cold, Hot: hot,
			Limits: []HeatLimit{{Name: "bathroom", Source: "EN 1264-2", words: "33 °C", margin: "1.5 °C below"},
				{Name: "oak", Source: "job file", words: "27 °C", margin: "4.5 °C above"}}}},
		WarmUps: []WarmUp{{Spacing: 75, Density: 133.3, words: "30 min to 1 h"}, {Spacing: 75, Density: 133.3,
			Board: true, words: "20 to 40 min"}},
		assumptions: saidAll("one; two", "three")}
	hold(t, metric(func(p *page) { p.warmth(w) }),
		"Warmth, estimated: left on without a thermostat in a room at 20 °C",
		"  H1, H2          at least: surface 27 °C mean, 29.5 °C over a cable, 25 °C midway; 35 °C at the hottest "+
			"of the cable;",
		"                  76.4 % of the heat goes up",
		"                  at most in a room at 24 °C: surface 29 °C mean, 31.5 °C over a cable, 27 °C midway; "+
			"37 °C at the hottest of the cable;",
		"                  100 % of the heat goes up",
		"                  at its warmest 1.5 °C below the limit of 33 °C, bathroom (EN 1264-2)",
		"                  at its warmest 4.5 °C ABOVE the limit of 27 °C, oak (job file)",
		"  to gain 5 °C    75 mm apart, 133 W/m² at that gap, this floor: 30 min to 1 h",
		"                  75 mm apart, 133 W/m² at that gap, over a board of 10 mm: 20 to 40 min",
		"  assumed         one; two",
		"                  three")
	w.Warmest = 20
	if got := metric(func(p *page) { p.warmth(w) }); !strings.Contains(got, " at most: surface 29 ") {
		t.Error(got)
	}
	w.Surfaces[0].Hot = cold
	if got := metric(func(p *page) { p.warmth(w) }); strings.Contains(got, "at least") || strings.Contains(got,
		"at most") || strings.Count(got, "midway") != 1 {
		t.Error(got)
	}
	asLaid := FloorState{Mean: 26, Spread: 1.5, Coldest: &Spot{21, 400, 150, "150 mm from wall A"}}
	warmer := asLaid
	warmer.Mean, warmer.Coldest = 29, nil
	floor := Floor{Room: "Hall", Spot: 110, FloorState: asLaid, Hot: warmer}
	hold(t, metric(func(p *page) { p.floor(floor) }),
		"  floor of Hall   as laid, at least: heated floor 26 °C mean, standard deviation 1.5 °C;",
		"                  coldest place to stand 21 °C over 110 mm of floor, 150 mm from wall A",
		"                  at most: heated floor 29 °C mean, standard deviation 1.5 °C")
	if got := metric(func(p *page) { p.floor(floor) }); strings.Contains(got, "warmest") {
		t.Errorf("no place is warmest:\n%s", got)
	}
	floor.Hot = asLaid
	if got := metric(func(p *page) { p.floor(floor) }); strings.Contains(got, "at most") {
		t.Errorf("both cases are one:\n%s", got)
	}
	hold(t, metric(func(p *page) { p.warmth(nil) }), "Warmth: not worked out, the job gives no layers")
	hold(t, metric(func(p *page) { p.warmth(&Warmth{Problem: "no membrane"}) }), "Warmth: not worked out: no membrane")
	for up, want := range map[float64]string{-0.1: "none of the heat goes up", 0: "0 % of the heat goes up",
		0.6: "0.6 % of the heat goes up", 100: "100 % of the heat goes up",
		150.6: "all of the heat goes up, and 50.6 % as much comes from below"} {
		if got := upWords(up); got != want {
			t.Errorf("%g: %s", up, got)
		}
	}
}

func TestSensorInWords(t *testing.T) {
	s := &Sensor{Kind: "pt1000", Source: "job file", About: "platinum", Curve: "IEC 60751", Tolerance: 2,
		Expected: []Expected{{0, 1000, 992, 1008}, {20, 1077.9, 1070, 1086}}}
	hold(t, metric(func(p *page) { p.sensor(s) }), "Sensor pt1000 (job file): platinum", "  curve           IEC 60751",
		"  should read     1000 Ω at 0 °C; 992 to 1008 Ω within 2 °C",
		"                  1078 Ω at 20 °C; 1070 to 1086 Ω within 2 °C")
}

func TestEnergyInWords(t *testing.T) {
	price := 0.3
	all := []Energy{{Room: "Bath", PerHour: 0.6, Month: [2]float64{28.8, 180}, AlwaysOn: [2]float64{172.8, 432},
		Price: &price, MonthCost: &[2]float64{14.4, 90}, AlwaysCost: &[2]float64{86.4, 216}, Currency: "EUR",
		basis: saidAll("a", "b")},
		{Room: "Hall", PerHour: 0.3, Month: [2]float64{14, 90}, AlwaysOn: [2]float64{86, 216}, basis: saidAll("c")}}
	hold(t, metric(func(p *page) { p.energy(all) }),
		"Energy, Bath", "  an hour on      0.600 kWh", "  a month         29 to 180 kWh, 14 to 90 EUR",
		"  always on       170 to 430 kWh a month, 86 to 220 EUR",
		"", "Energy, Hall", "  an hour on      0.300 kWh", "  a month         14 to 90 kWh",
		"  always on       86 to 220 kWh a month",
		"  assumed         a", "                  b")
	all[0].Currency = ""
	if got := metric(func(p *page) { p.energy(all[:1]) }); !strings.Contains(got, "29 to 180 kWh, 14 to 90\n") {
		t.Error(got)
	}
}

func TestShiftsInWords(t *testing.T) {
	all := []Shift{
		{Room: "Bath", East: 25.4, How: "by area", Keeps: true, Spacing: 76.2, Changes: []Change{{"tile", 1},
			{"grout", -1}}},
		{Room: "Bath", North: -25.4, How: "by area", Instead: "A240-50"},
		{Room: "Hall", North: 25.4, How: "by area", Problem: "too long"},
	}
	hold(t, american(func(p *page) { p.shifts(all) }),
		"If a room measures otherwise (judged by area, quantities counted anew)",
		"  Bath            +1 in east-west: the cable stays, runs 3 in apart, tile +1, grout -1",
		"  Bath            -1 in north-south: the cable no longer suits, instead: A240-50",
		"  Hall            +1 in north-south: not looked at: too long")
	all[0].How, all[0].Spacing = "laid anew", 0
	if got := metric(func(p *page) { p.shifts(all[:1]) }); strings.Contains(got, "apart") {
		t.Error(got)
	}
	all[0].Spacing = 76.2
	if got := metric(func(p *page) { p.shifts(all[:1]) }); got != "If a room measures otherwise (cables laid anew, "+
		"quantities counted anew)\n  Bath            +25 mm east-west: the cable stays, runs 76.2 mm apart, tile +1, "+
		"grout -1\n" {
		t.Error(got)
	}
	if got := metric(func(p *page) {
		p.shifts(nil)
		p.takeOff(nil)
		p.fullUse(nil)
		p.energy(nil)
		p.losses(nil)
		p.region(&Report{})
	}); got != "" {
		t.Errorf("of nothing: %q", got)
	}
}

// 4.536 kg are 10 lb, 3.048 m 10 ft: the list in the job's own units, packs where there are any.
func TestListInWords(t *testing.T) {
	l := takeoff.List{Lines: []takeoff.Line{
		{Item: language.As("Größe"), Unit: "kg", Gross: 4.5359237, Pack: 2.26796185, PackName: "bag", Packs: 3,
			Spare: 2.26796185,
			Price: 0.5},
		{Item: language.As("Thermostat"), Unit: "each", Gross: 2, Pack: 1, Packs: 2},
		{Item: language.As("Board"), Unit: "m²", Gross: 0.09290304, Pack: 0.18580608, PackName: "board", Packs: 1,
			Spare: 0.09290304},
		{Item: language.As("Tube"), Unit: "m", Gross: 3.048, PackName: "roll", Price: 12.345},
	}}
	hold(t, american(func(p *page) { p.takeOff(lines(l, plane.Inches)) }),
		"To buy (waste included; the take-off sheet says what each is worked out from)",
		"  Größe       3 x bag of 5.00 lb, 5.00 lb to spare, 0.50", "  Thermostat  2",
		"  Board       1 x board of 2.00 ft², 1.00 ft² to spare", "  Tube        10.00 ft, 12.35")
	hold(t, metric(func(p *page) { p.takeOff(lines(l, plane.Millimetres)[1:]) }),
		"To buy (waste included; the take-off sheet says what each is worked out from)",
		"  Thermostat  2", "  Board       1 x board of 0.186 m², 0.093 m² to spare", "  Tube        3.05 m, 12.35")
}

func TestUseLossAndRegionInWords(t *testing.T) {
	hold(t, metric(func(p *page) {
		p.fullUse(&FullUse{Words: "2026-12-08", Layers: []Cure{{"membrane", 7, "job file", "2026-12-01"},
			{"grout", 3, "default", ""}}})
		p.losses([]HeatLoss{{Room: "Bath", words: "loses 300 W; covers half", basis: saidAll("wall: 6 m²; U 1",
			"air")}})
		p.region(&Report{Supply: Supply{Region: "europe"}, ToLookUp: []string{"zone 1", "zone 2"}})
	}),
		"Earliest full use: 2026-12-08", "  membrane        7 days (job file), placed 2026-12-01",
		"  grout           3 days (default), not yet placed, or its day is not written down",
		"", "Heat loss, Bath (simplified; no room temperature is promised)",
		"  result          loses 300 W; covers half", "  counted         wall: 6 m²; U 1", "                  air",
		"", "To look up, Europe (what rules remind of; whether they are met is not judged here)", "  - zone 1",
		"  - zone 2")
}

func TestGeneralInWords(t *testing.T) {
	r := &Report{Status: "proposal", Plan: "K7", Supply: Supply{Closest: Limit{2, "default"},
		Widest: Limit{3, "job file"}, Pitch: Limit{38.1, "job file"}}}
	hold(t, american(func(p *page) { p.general(r) }), "Job (proposal)", "  plan code       K7",
		"  supply          not given, the labels' own is assumed",
		"  gaps allowed    2 pegs (default) to 3 pegs (job file); a peg is 1.5 in (job file)",
		"  heat allowed    no limit is given")
	r.Job, r.Supply.Volts, r.Supply.MaxDensity = "Bath", &Limit{230, "job file"}, &Limit{160, "label"}
	r.Supply.MostOver = "at even spacing"
	hold(t, metric(func(p *page) { p.general(r) }), "Bath (proposal)", "  plan code       K7",
		"  supply          230 V (job file)",
		"  gaps allowed    2 pegs (default) to 3 pegs (job file); a peg is 38.1 mm (job file)",
		"  heat allowed    160 W/m² at most, locally and overall, at even spacing (label)")
}

// saidAll are texts as messages.
func saidAll(texts ...string) (out []language.Message) {
	for _, t := range texts {
		out = append(out, language.As(t))
	}
	return out
}
