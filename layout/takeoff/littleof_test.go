package takeoff

import (
	"math"
	"strings"
	"testing"

	"oxturn/layout/job"
	"oxturn/layout/plane"
	"oxturn/layout/tiling"
)

// Heating is the cable and what its leads run to and in; floor and work are not.
func TestWhatIsOfTheHeating(t *testing.T) {
	for code, want := range map[string]bool{"cable A240-300": true, "thermostat": true, "spare-sensor": true,
		"conduit": true, "nail-plate": true, "membrane": false, "tile": false, "labour cable": false, "": false} {
		if got := OfHeating(code); got != want {
			t.Errorf("%q: %v", code, got)
		}
	}
}

// Whole packs stand in the table where something is bought by the pack, also where none or one
// of them is needed or a pack holds less than one.
func TestWholePacksOfARow(t *testing.T) {
	column := -1
	for i, h := range csvHead {
		if h == "whole packs" {
			column = i
		}
	}
	for _, k := range []struct {
		line Line
		want string
	}{{Line{}, ""}, {Line{Pack: 0.72}, "0"}, {Line{Pack: 0.72, Packs: 3}, "3"}, {Line{Packs: 1}, "1"}, {Line{Packs: 2},
		"2"}, {Line{Pack: 5}, "0"}} {
		if got := csvRow(k.line)[column]; got != k.want {
			t.Errorf("%g in packs of %g: %q", k.line.Gross, k.line.Pack, got)
		}
	}
}

// Pieces have their waste from the number as it is written, what is measured from the figure.
func TestWasteOfPiecesAsWritten(t *testing.T) {
	for unit, net := range map[string]float64{"each": 1.23, "m": 1.2345} {
		l := Line{Unit: unit, Net: 1.2345}
		l.take(2)
		if l.Net != net || math.Abs(l.Waste-(2/net-1)) > 1e-12 || l.Gross != 2 {
			t.Errorf("%s: %+v", unit, l)
		}
	}
	l := Line{Unit: "m"}
	if l.take(0); l.Waste != 0 {
		t.Errorf("of nothing: %+v", l)
	}
}

// A tile of 300 by 600 with 3 mm joints has a mean 0.134 mm of grout at 9 mm; the short formula
// gives (900/180000) 3 x 9 = 0.135, 1.0 % more. Without a joint there is nothing to compare.
func TestGroutByBothFormulas(t *testing.T) {
	in := bath()
	if got := line(t, counted(in), "grout").Note; !strings.Contains(got.String(), "short formula 1") {
		t.Error(got)
	}
	in.Tile.Joint = 0
	if got := line(t, counted(in), "grout").Note; strings.Contains(got.String(), "short formula") {
		t.Error(got)
	}
}

// A joint whose length or width is none is asked about and not filled.
func TestJointsThatCannotBeCounted(t *testing.T) {
	for _, j := range []Joint{{Name: "MJ1", Length: math.NaN()}, {Name: "MJ1", Length: 900, Width: -1}} {
		in := bath()
		in.Rooms[0].Joints = []Joint{j}
		l := counted(in)
		if got := l.find("joint-sealant"); got.Code != "" || !strings.Contains(strings.Join(english(l.Questions), "\n"),
			"Bath: joint MJ1 of ") {
			t.Errorf("%+v: %+v, %q", j, got, l.Questions)
		}
	}
}

// A bag is told with its weight, where it has one that is not what it yields.
func TestWhatABagYields(t *testing.T) {
	b := &builder{in: bath()}
	for want, p := range map[string]job.Product{
		"a bag of 22.7 kg (50 lb) yields 14.5 L (3.83 gal), ": {Pack: 22.7, Unit: "kg", Yield: 14.5},
		"a bag yields 14.5 L (3.83 gal), ":                    {Pack: 14.5, Unit: "L", Yield: 14.5},
		"a bag yields 2 L (0.528 gal), ":                      {Unit: "kg", Yield: 2},
	} {
		if got := b.yields(p); !strings.HasPrefix(got.String(), want) {
			t.Errorf("%q, want %q", got, want)
		}
	}
}

// A bed of so many millimetres says nothing of a trowel; one by a notch does.
func TestBedsWithAndWithoutANotch(t *testing.T) {
	for notch, said := range map[float64]bool{0: false, 10: true} {
		in := bath()
		in.Materials.BedNotch = notch
		if got := line(t, counted(in), "bed-mortar").Note; strings.Contains(got.String(),
			"notch held at 45 degrees") != said {
			t.Errorf("a notch of %g mm: %s", notch, got)
		}
	}
}

// 3.61 m² at 0.8 m² a can are 4.5 cans, five; waterproofing is of the tiled floor.
func TestWaterproofingOfTheTiledFloor(t *testing.T) {
	in := bath()
	in.Materials.Waterproofing = job.Product{Coverage: 0.8}
	got := line(t, counted(in), "waterproofing")
	if near(t, "m²", got.Net, 3.61, 1e-9); got.Packs != 5 || got.PackName != "can" {
		t.Errorf("%+v", got)
	}
}

// Spacers go into joints of a millimetre and more, for one tile as for many, and for none there
// are none.
func TestSpacersOfFewTiles(t *testing.T) {
	for _, k := range []struct {
		joint float64
		tiles int
		want  float64
	}{{1, 8, 8}, {0.9, 8, 0}, {3, 1, 1}, {3, 0, 0}} {
		in := bath()
		in.Tile.Joint = k.joint
		in.Rooms[0].Tiles = &tiling.Layout{Count: tiling.Count{Whole: k.tiles}}
		l := Compute(in)
		got := l.find("spacers")
		if got.Net != k.want || (got.Code != "") != (k.want > 0) {
			t.Errorf("%d tiles, joints of %g mm: %+v", k.tiles, k.joint, got)
		}
	}
}

// A phase without a way to the site is none of the visits; of one alone no crew is told; a
// tester may be hired for less than 1.
func TestPhasesWithoutVisitsOrCrew(t *testing.T) {
	in := bath()
	in.Labour = []Labour{{Phase: "a", Fixed: 3, Crew: 1}, {Phase: "b", Fixed: 4, Visits: 2}}
	in.Prices = map[string]float64{"tester-hire": 0.5}
	l := counted(in)
	if got := line(t, l, "visits").Basis; got.String() != "2 for b" {
		t.Error(got)
	}
	for _, code := range []string{"labour a", "labour b"} {
		if got := line(t, l, code).Note; strings.Contains(got.String(), "crew") {
			t.Error(got)
		}
	}
	if got := l.find("tester-hire"); got.Code == "" {
		t.Error("no tester is hired at 0.50")
	}
	for crew, want := range map[int]float64{0: 8, 1: 8, 2: 4, 4: 2} {
		if got := crewHours(8, crew); got != want {
			t.Errorf("a crew of %d is %g h at 8", crew, got)
		}
	}
}

// A roll that has one figure of two is no roll: the membrane is then by area, and asked about.
func TestRollsOfOneFigure(t *testing.T) {
	for _, m := range []job.Membrane{{RollLength: 12500}, {RollWidth: 1000}, {}, {SheetSize: [2]float64{800, 0}},
		{SheetSize: [2]float64{0, 800}}} {
		in := bath()
		in.Membrane, in.Membrane.Waste = m, 0.1
		l := counted(in)
		got := line(t, l, "membrane")
		near(t, "m²", got.Gross, 3.61*1.1, 1e-9)
		if asked := strings.Join(english(l.Questions), "\n"); got.Packs != 0 || !strings.Contains(asked,
			"Membrane: roll or sheet size, to count rolls.") {
			t.Errorf("%+v: %+v", m, got)
		}
	}
	both := job.Membrane{RollWidth: 1000, SheetSize: [2]float64{800, 1000}}
	if area, name := packOf(both); area != 0.8 || name != "sheet" {
		t.Errorf("%g m² by the %s", area, name)
	}
	both.RollWidth, both.RollLength = 0, 12500
	if area, name := packOf(both); area != 0.8 || name != "sheet" {
		t.Errorf("%g m² by the %s", area, name)
	}
}

// Strips as wide as the floor is deep to a thousandth are one; a millimetre wider floor takes
// another. A roll of just the strip's length is one roll.
func TestStripsThatJustFit(t *testing.T) {
	for _, k := range []struct {
		deep  float64
		strip int
	}{{1000, 1}, {2000, 2}, {1999.9, 2}, {2002, 3}, {900, 1}} {
		s, err := strips(plane.FaceOf(rect(3000, k.deep), plane.Point{}, 0), 1000)
		if err != nil || len(s.Lengths) != k.strip {
			t.Errorf("%g mm deep: %v, %v", k.deep, s.Lengths, err)
		}
	}
	for _, k := range []struct {
		lengths []float64
		rolls   int
	}{{[]float64{2500}, 1}, {[]float64{2500, 2500}, 2}, {[]float64{5000}, 2}, {[]float64{1250, 1250}, 1},
		{[]float64{2501}, 2}, {[]float64{2499, 1}, 1}} {
		if got := Rolls(k.lengths, 2500); got != k.rolls {
			t.Errorf("%v: %d rolls of 2500, want %d", k.lengths, got, k.rolls)
		}
	}
}

// Of two rooms whose tile was recorded for none, one and both.
func TestWhoseTileLayoutIsCounted(t *testing.T) {
	for recorded, want := range map[[2]bool]string{{}: "by the tile plan",
		{true, false}: "as set out in some rooms, as proposed in others", {true, true}: "as the tiler set it out"} {
		in := bath()
		in.Rooms = append(in.Rooms, in.Rooms[0])
		for i := range in.Rooms {
			in.Rooms[i].Tiles = &tiling.Layout{Count: tiling.Count{Whole: 12}, Recorded: recorded[i]}
		}
		if got := line(t, Compute(in), "tile").Note; !strings.HasPrefix(got.String(), want) {
			t.Errorf("%v: %q, want %q", recorded, got, want)
		}
	}
}

// A yield of the job file counts by volume where it gives no coverage beside it.
func TestYieldOfTheJobFile(t *testing.T) {
	in := bath()
	in.Materials.BedMortar.Source = job.FromJob
	if got := line(t, counted(in), "bed-mortar"); got.Unit != "L" {
		t.Errorf("%+v", got)
	}
}
