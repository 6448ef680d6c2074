package takeoff

import (
	"math"
	"slices"
	"strings"
	"testing"

	"oxturn/layout/language"

	"oxturn/layout/job"
	"oxturn/layout/plane"
)

// Three rooms, of which one has no box of its own: everything adds up room by room.
func TestControlsAddUp(t *testing.T) {
	in := bath()
	in.Rooms = append(in.Rooms, Room{Name: "Hall", Tiled: rect(1000, 1000)},
		Room{Name: "WC", Tiled: rect(1000, 1000), Thermostat: &Thermostat{Rise: 900, Relay: true, ColdLeads: 3,
			Sensors: 1, Spares: 2, SensorTube: 2500}})
	l := counted(in)
	for code, want := range map[string]float64{
		"thermostat": 2, "relay": 1, "sensor": 2, "spare-sensor": 3, "box": 2, "nail-plate": 4,
		"conduit": 2 * (1.2 + 0.9), "sensor-tube": 5.5,
	} {
		near(t, code, line(t, l, code).Net, want, 1e-9)
	}
	if got, want := line(t, l,
		"box").Basis, "cold leads 4, of sensors 5; electrician to size"; got.String() != want {
		t.Errorf("%q, want %q", got, want)
	}
	if got := line(t, l, "sensor-tube"); got.Packs != 0 || got.Waste != cutWaste {
		t.Errorf("%+v", got)
	}
	in.Rooms = in.Rooms[1:2]
	if l := counted(in); l.find("box").Code+l.find("conduit").Code+l.find("relay").Code != "" {
		t.Error("a room without a box takes one")
	}
}

// Products that are sold by a pack whose use is not said are asked about, and those
// that nobody named are not.
func TestUnderlaysAskForWhatIsMissing(t *testing.T) {
	asked := func(in Input, what string) bool {
		return slices.ContainsFunc(english(counted(in).Questions), func(q string) bool {
			return strings.HasPrefix(q,
				what)
		})
	}
	in := bath()
	for pack, want := range map[float64]bool{0: false, 0.75: true, 5: true} {
		in.Materials.Primer = job.Product{Pack: pack, Unit: "L"}
		if got := asked(in, "Primer: area that a pack covers"); got != want {
			t.Errorf("primer in packs of %g: asked %v", pack, got)
		}
	}
	in.Materials.Primer, in.Materials.Band = job.Product{Coverage: 0.8}, job.Product{}
	l := counted(in)
	if got := line(t, l, "primer"); got.Unit != "m²" || got.Packs != 5 { // 3.61 / 0.8
		t.Errorf("%+v", got)
	}
	in.Materials.Board, in.Boards = job.Product{}, nil
	if asked(in, "In the section but not in this list") {
		t.Error("boards are asked for where the section shows none")
	}
	if l.find("band").Code != "" || asked(in, "Seam") {
		t.Error("a band that nobody named is bought or asked about")
	}
}

// A cartridge may be sold by the length that it fills: 8.8 m and a tenth are 9.68 m, two of 6 m.
func TestSealantByLength(t *testing.T) {
	in := bath()
	in.Materials.Sealant = job.Product{Pack: 6, Unit: "m", Waste: 0.1}
	l := counted(in)
	got := line(t, l, "edge-sealant")
	near(t, "m", got.Gross, 9.68, 1e-9)
	if got.Packs != 2 || got.PackName != "cartridge" || len(l.Questions) != len(counted(bath()).Questions) {
		t.Errorf("%+v, %q", got, l.Questions)
	}
	// what cannot be counted is asked about: no section, or no size
	for what, change := range map[string]func(*job.Materials){
		"no depth": func(m *job.Materials) { m.SealantDepth = 0 },
		"no size":  func(m *job.Materials) { m.Sealant = job.Product{Unit: "m"} },
	} {
		in := bath()
		change(&in.Materials)
		l := counted(in)
		got := line(t, l, "edge-sealant")
		if got.Packs != 0 || got.PackName != "" || got.Unit != "m" || !slices.Contains(english(l.Questions),
			"Sealant at the perimeter: width and depth of the joint and size of a cartridge, to count cartridges.") {
			t.Errorf("%s: %+v, %q", what, got, l.Questions)
		}
	}
	open := bath() // a cartridge whose size nobody gave fills nothing
	open.Materials.Sealant.Pack = 0
	if got := line(t, Compute(open), "edge-sealant"); strings.Contains(got.Note.String(), "a cartridge fills") ||
		got.Packs != 0 {
		t.Errorf("%+v", got)
	}
	small := bath() // half a millilitre of joint is counted all the same
	small.Rooms[0].Joints = []Joint{{Name: "MJ1", Length: 16, Width: 5}}
	near(t, "mL", line(t, Compute(small), "joint-sealant").Net, 0.48, 1e-9)
}

// The short formula in print counts more: for 48 mm mosaic with joints of 3 mm
// 0.125 D against 0.1142 D, 9.5 %; no joint, no grout, no comparison.
func TestGroutSaysWhatTheShortFormulaGives(t *testing.T) {
	in := bath()
	in.Tile.Length, in.Tile.Width = 48, 48
	if got := line(t, counted(in), "grout").Note; !strings.Contains(got.String(), "; short formula 9.5 % more") {
		t.Error(got)
	}
	in.Tile.Joint = 0
	if got := line(t, counted(in), "grout"); strings.Contains(got.Note.String(), "short formula") || got.Net != 0 {
		t.Errorf("%+v", got)
	}
	for what, change := range map[string]func(*Input){
		"tile size, joint":     func(in *Input) { in.Tile.Width = 0 },
		"tile size, joint and": func(in *Input) { in.Tile.Length = 0 },
		"dry density":          func(in *Input) { in.Materials.Grout.Density = 0 },
	} {
		in := bath()
		change(&in)
		l := counted(in)
		if got := line(t, l, "grout"); got.Net != 0 || !slices.ContainsFunc(english(l.Questions),
			func(q string) bool { return strings.HasPrefix(q, "Grout: "+what) }) {
			t.Errorf("%s: %+v, %q", what, got, l.Questions)
		}
	}
}

// A stock whose size is given by half is none: the membrane is taken by area, and the band
// has the edge alone, 8.8 m. Sheets serve where a roll's length is missing.
func TestMembraneOfHalfASize(t *testing.T) {
	for what, m := range map[string]job.Membrane{
		"no roll length": {RollWidth: 1000}, "no roll width": {RollLength: 12500},
		"no sheet length": {SheetSize: [2]float64{800, 0}}, "no sheet width": {SheetSize: [2]float64{0, 800}},
		"roll too narrow": {RollWidth: 0.5, RollLength: 12500}, "sheet too small": {SheetSize: [2]float64{0.5, 0.5}},
	} {
		in := bath()
		m.Waste = 0.1
		in.Membrane = m
		l := counted(in)
		got := line(t, l, "membrane")
		near(t, what, got.Gross, 3.61*1.1, 1e-9)
		near(t, what+", band", line(t, l, "band").Net, 8.8, 1e-9)
		if got.Packs != 0 || !strings.HasPrefix(got.Note.String(), "by area with waste") ||
			!slices.ContainsFunc(english(l.Questions),
				func(q string) bool { return strings.HasPrefix(q, "Membrane: ") }) {
			t.Errorf("%s: %+v, %q", what, got, l.Questions)
		}
	}
	in := bath()
	in.Membrane = job.Membrane{RollWidth: 1000, SheetSize: [2]float64{800, 1000}}
	if got := line(t, counted(in), "membrane"); got.PackName != "sheet" || math.Abs(got.Pack-0.8) > 1e-9 {
		t.Errorf("%+v", got)
	}
	in.Cut = &CutPlan{Packs: 2, Taken: 4e6}
	if got := line(t, counted(in), "membrane"); got.PackName != "sheet" || math.Abs(got.Pack-0.8) > 1e-9 {
		t.Errorf("by a cut plan: %+v", got)
	}
}

// Two baths on rolls: strips of both from the same rolls, each room named; seams of
// both, 1.3 + 1.3 m each.
func TestStripsOfTwoRooms(t *testing.T) {
	in := bath()
	second := in.Rooms[0]
	second.Name = "Shower room"
	in.Rooms = append(in.Rooms, second)
	l := counted(in)
	got := line(t, l, "membrane")
	near(t, "taken", got.Gross, 9.2, 1e-9)
	near(t, "left", got.Spare, 12.5-9.2, 1e-9)
	near(t, "band", line(t, l, "band").Net, 2*(8.8+1.3+1.3), 1e-9)
	if want := "Bath: 3 strips north-south; Shower room: 3 strips north-south; off-cuts reused, a narrow last strip " +
		"takes the full width"; got.Note.String() != want {
		t.Errorf("%q, want %q", got.Note, want)
	}
	in.Membrane = job.Membrane{SheetSize: [2]float64{800, 1000}}
	in.Rooms[0].Tiled, in.Rooms[1].Tiled = rect(1700, 1000), rect(1600, 1000)
	near(t, "three sheets and two", line(t, counted(in), "membrane").Gross, 5*0.8, 1e-9)
	in.Rooms[0].Tiled = rect(2000, 1600)
	l = counted(in)
	got = line(t, l, "membrane")
	near(t, "sheets", got.Gross, 6*0.8, 1e-9)
	near(t, "band on sheets", line(t, l, "band").Net, 7.2+3.6+5.2+1, 1e-9)
	if got.Packs != 6 || !strings.HasPrefix(got.Note.String(), "Bath: 4 sheets; Shower room: 2 sheets; on a grid") {
		t.Errorf("%+v", got)
	}
}

// A coat without a yield or without a depth goes by what a bag covers; with neither it is asked for.
func TestCoatsByWhatIsKnown(t *testing.T) {
	for _, c := range []struct {
		what     string
		p        job.Product
		bed, net float64
		unit     string
		packs    int
	}{
		{"no yield", job.Product{Pack: 20, Unit: "kg", Coverage: 2}, 3.4, 3.61 / 2 * 20, "kg", 2},
		{"no depth", job.Product{Pack: 20, Unit: "kg", Coverage: 2, Yield: 14}, 0, 3.61 / 2 * 20, "kg", 2},
		{"less than a litre", job.Product{Pack: 1, Unit: "kg", Yield: 0.5}, 3.4, 3.61 * 3.4, "L", 25},
		{"less than 1 mm", job.Product{Pack: 1, Unit: "kg", Yield: 5}, 0.5, 3.61 * 0.5, "L", 1},
		{"the job's coverage, in m²", job.Product{Coverage: 0.5, Yield: 14, Source: job.FromJob}, 3.4, 3.61, "m²", 8},
		{"a pack in m²", job.Product{Pack: 2, Unit: "m²", Coverage: 2}, 0, 3.61, "m²", 2},
		{"a pack of half a kg", job.Product{Pack: 0.5, Unit: "kg", Coverage: 2}, 0, 3.61 / 2 * 0.5, "kg", 2},
		{"no pack", job.Product{Unit: "kg", Coverage: 2}, 0, 3.61, "m²", 2},
		{"nothing", job.Product{Pack: 20, Unit: "kg"}, 3.4, 3.61, "m²", 0},
	} {
		in := bath()
		in.Materials.BedMortar, in.Materials.BedThickness = c.p, c.bed
		l := counted(in)
		got := line(t, l, "bed-mortar")
		near(t, c.what, got.Net, c.net, 1e-9)
		asked := slices.Contains(english(l.Questions), "Tile-bed mortar: coverage of a bag, or depth and yield, to "+
			"count bags.")
		if got.Unit != c.unit || got.Packs != c.packs || asked != (c.packs == 0) ||
			(got.PackName == "") != (c.packs == 0) {
			t.Errorf("%s: %+v, asked %v", c.what, got, asked)
		}
	}
}

// The beds of the tables' outermost trowels are theirs to within 2 %; between, and up to each row's
// own bed, how far a bag goes falls from row to row.
func TestBedsAtTheEndsOfTheTable(t *testing.T) {
	ft2 := 0.09290304
	quarter, threeEighths, half := MeanBed(6.35, math.Pi/4), MeanBed(9.525, math.Pi/4), MeanBed(12.7, math.Pi/4)
	for _, c := range []struct{ bed, least, most float64 }{
		{quarter * 0.985, 80, 100}, {quarter, 80, 100}, {half, 40, 50}, {half * 1.015, 40, 50},
		// a hundredth of 9.525 is 3 % of the step of 3.175
		{threeEighths * 0.99, 60.6, 80.6}, {threeEighths * 1.01, 59.4, 79.1},
	} {
		least, most, ok := inPrint(c.bed, 50/poundsPerKilo)
		if !ok {
			t.Fatalf("nothing for %g mm", c.bed)
		}
		near(t, "least", least, c.least*ft2, 1e-9)
		near(t, "most", most, c.most*ft2, 1e-9)
	}
	for _, bed := range []float64{quarter * 0.975, half * 1.025} {
		if _, _, ok := inPrint(bed, 22.68); ok {
			t.Errorf("a bed of %g mm is theirs", bed)
		}
	}
}

// A slow phase of work, half a square metre an hour, has its rate said and reckoned.
func TestSlowWorkIsWorded(t *testing.T) {
	in := bath()
	in.Labour = []Labour{
		{Phase: "a", Heated: false, PerHour: 0.5, Fixed: 0, HourCost: 10},
		{Phase: "b", Heated: false, PerHour: 0, Fixed: 0, HourCost: 10},
		{Phase: "c", Heated: false, PerHour: 0.5, Fixed: 0.5, HourCost: 10},
	}
	l := counted(in)
	near(t, "hours", line(t, l, "labour c").Net, 3.61/0.5+0.5, 1e-9)
	for code, want := range map[string]string{
		"labour a": "0.5 m² (5.38 ft²) an hour, job file", "labour b": "0 h fixed, job file",
		"labour c": "0.5 m² (5.38 ft²) an hour and 0.5 h fixed, job file",
	} {
		if got := line(t, l, code).Note; got.String() != want {
			t.Errorf("%q, want %q", got, want)
		}
	}
}

// What is not usable is taken as none, and nothing of it is left in the line.
func TestNothingIsLeftOfAnUnusableFigure(t *testing.T) {
	in := bath()
	in.Materials.Grout.Waste = -0.1
	got := line(t, counted(in), "grout")
	near(t, "grout without its waste", got.Gross, got.Net, 1e-12)
	in = bath()
	in.Rooms[0].Heated, in.Labour = math.Inf(1), []Labour{
		{Phase: "cable", Heated: true, PerHour: 5, Fixed: 0, HourCost: 60},
	}
	if got := line(t, counted(in), "labour cable"); got.Net != 0 || got.Gross != 0 || got.Waste != 0 ||
		got.Packs != 0 || got.Price != 0 {
		t.Errorf("%+v", got)
	}
	in = bath()
	in.Materials.Grout.Pack = math.Inf(1)
	if got := line(t, counted(in), "grout"); got.Pack != 0 || got.Packs != 0 || got.Net == 0 {
		t.Errorf("%+v", got)
	}
	in = bath()
	in.Prices = map[string]float64{"tile": -3}
	if got := line(t, counted(in), "tile"); got.Each != 0 || got.Price != 0 {
		t.Errorf("%+v", got)
	}
	in = bath()
	in.Tile.Waste, in.Tile.Breakage = -1, 0
	near(t, "tiles by the grid alone", line(t, counted(in), "tile").Gross, 22, 0)
	in.Tile.Waste, in.Tile.Breakage = 0, -1
	near(t, "tiles without breakage", line(t, counted(in), "tile").Gross, 22, 0)
}

// A line that nobody priced has no price, in whichever unit it is.
func TestNoPriceOfItsOwn(t *testing.T) {
	in := bath()
	in.Labour = []Labour{{Phase: "a", PerHour: 5}}
	in.Rooms[0].Cables[0].Label.Price = 0
	for _, l := range counted(in).Lines {
		if l.Each != 0 || l.Price != 0 {
			t.Errorf("%s costs %g each", l.Code, l.Each)
		}
	}
	in.Tile.Pattern = "basketweave"
	if got := line(t, counted(in), "tile"); got.Each != 0 || got.Price != 0 {
		t.Errorf("%+v", got)
	}
}

// Packs of one are packs: a box with a single tile.
func TestBoxOfOneTile(t *testing.T) {
	in := bath()
	for per, want := range map[int]string{0: "", 1: "box", 2: "box"} {
		in.Tile.PerBox = per
		if got := line(t, counted(in), "tile"); got.PackName != want ||
			got.Packs != int(math.Ceil(got.Gross/float64(max(1, per)))) {
			t.Errorf("%d in a box: %+v", per, got)
		}
	}
}

// The edge of several rooms adds up, those that give it as they do.
func TestEdgesAddUp(t *testing.T) {
	in := bath()
	in.Rooms = append(in.Rooms, Room{Tiled: rect(1000, 1000), Perimeter: 0.5}, Room{Tiled: rect(1000, 500)})
	near(t, "edge", in.edge(), 8800+0.5+3000, 1e-9)
	near(t, "tiled", in.tiled(), 3.61e6+1e6+0.5e6, 1e-3)
	in.Rooms[1].Heated = 0.7e6
	near(t, "heated", in.heated(), 3.2e6, 1e-6)
	in.Units = plane.Inches
	if got := (&builder{in: in}).lengthBasis(language.As("edge"),
		3048); got.String() != "edge 10.0 ft (3.05 m), 3 rooms" {
		t.Error(got)
	}
}

// Of no floor nothing is taken, and no share of it is waste.
func TestNoFloorNoWaste(t *testing.T) {
	in := bath()
	in.Rooms[0].Tiled, in.Cut = nil, &CutPlan{}
	for _, code := range []string{"membrane", "tile", "grout"} {
		if got := line(t, counted(in), code); got.Net != 0 || got.Gross != 0 || got.Waste > 0.1 ||
			math.IsNaN(got.Waste) {
			t.Errorf("%+v", got)
		}
	}
}

// Tables in print are for bags by weight: of a tub in litres nothing is said.
func TestTubIsNotHeldAgainstBags(t *testing.T) {
	for unit, want := range map[string]bool{"kg": true, "L": false, "": false} {
		in := bath()
		in.Materials.BedMortar.Unit, in.Materials.BedMortar.Yield = unit, 8
		if got := line(t, counted(in), "bed-mortar").Note; strings.Contains(got.String(),
			"trowel tables in print") != want {
			t.Errorf("in %q: %q", unit, got)
		}
	}
}

// A joint without a width, where the job gives none for all, has no section that a
// cartridge could fill.
func TestJointWithoutASectionFillsNoCartridge(t *testing.T) {
	in := bath()
	in.Materials.SealantWidth = 0
	in.Rooms[0].Joints = []Joint{{"MJ1", 1200, 6, job.FromJob}, {"MJ2", 1000, 0, job.FromDefault}}
	got := line(t, counted(in), "joint-sealant")
	near(t, "mL", got.Net, 1200*6*6/1000.0, 1e-9)
	if n := strings.Count(got.Note.String(), "a cartridge fills"); n != 1 || strings.Contains(got.Note.String(),
		"Inf") {
		t.Errorf("%d cartridges in %q", n, got.Note)
	}
}

// Packs too small to be counted are asked about; of nothing, no packs are wanted.
func TestPacksBeyondCounting(t *testing.T) {
	asked := func(in Input) bool {
		return slices.ContainsFunc(english(counted(in).Questions), func(q string) bool {
			return strings.HasPrefix(q, "Grout: ") && strings.HasSuffix(q, "cannot be counted.")
		})
	}
	in := bath()
	in.Materials.Grout.Pack = 1e-10
	if !asked(in) {
		t.Error("grout in packs of 1e-10 kg is not asked about")
	}
	in.Tile.Joint = 0
	if asked(in) {
		t.Error("packs of no grout are asked about")
	}
}
