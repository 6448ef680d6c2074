package takeoff

import (
	"fmt"
	"math"
	"regexp"
	"slices"
	"strconv"
	"strings"
	"testing"

	"oxturn/layout/language"

	"pgregory.net/rapid"

	"oxturn/layout/job"
	"oxturn/layout/plane"
	"oxturn/layout/tiling"
)

// bath is a whole input: 2.4 x 2.0 m with a tub's place cut out.
func bath() Input {
	tiled := plane.Region{{Outer: plane.Ring{plane.Pt(0, 0), plane.Pt(2400, 0), plane.Pt(2400, 1300),
		plane.Pt(700, 1300), plane.Pt(700, 2000), plane.Pt(0, 2000)}}}
	return Input{
		Rooms: []Room{{
			Name: "Bath", Floor: 4.8e6, Heated: 2.5e6, Tiled: tiled,
			Joints:     []Joint{{Name: "MJ1", Length: 1300}},
			Cables:     []Cable{{"H1", job.Cable{ID: "A240-300", Volts: 240, Watts: 300, Length: 30000, Price: 180}}},
			Thermostat: &Thermostat{Rise: 1200, ColdLeads: 1, Sensors: 1, Spares: 1, SensorTube: 3000},
			Undecided:  []string{"vanity"},
		}},
		Membrane: job.Membrane{RollWidth: 1000, RollLength: 12500, Height: 5.5, VoidShare: 0.7},
		Tile:     job.Tile{Length: 600, Width: 300, Joint: 3, Thickness: 9, Waste: 0.1, PerBox: 6},
		Materials: job.Materials{
			BondMortar: job.Product{Pack: 22.7, Unit: "kg", Coverage: 7, Waste: 0.05},
			FillMortar: job.Product{Pack: 22.7, Unit: "kg", Yield: 14.5, Waste: 0.05},
			BedMortar:  job.Product{Pack: 22.7, Unit: "kg", Yield: 14.5, Waste: 0.05}, BedThickness: 3.4,
			Grout:   job.Product{Pack: 5, Unit: "kg", Density: 1.6, Waste: 0.1},
			Sealant: job.Product{Pack: 0.3, Unit: "L", Waste: 0.1}, SealantWidth: 5, SealantDepth: 6,
			Primer: job.Product{Pack: 5, Unit: "L", Coverage: 30},
			Board:  job.Product{Pack: 0.72, Unit: "m²", Waste: 0.05},
			Band:   job.Product{Pack: 10, Unit: "m", Waste: 0.05},
		},
	}
}

// counted is the take-off of rooms whose tile is set out.
func counted(in Input) List {
	in.Rooms = slices.Clone(in.Rooms)
	for i := range in.Rooms {
		r := &in.Rooms[i]
		all, err := tiling.Layouts(tiling.Room{Tiled: r.Tiled}, in.Tile)
		if r.Uncounted = err; len(all) > 0 {
			r.Tiles = &all[0]
		}
	}
	return Compute(in)
}

func line(t *testing.T, l List, code string) Line {
	t.Helper()
	got := l.find(code)
	if got.Code == "" {
		t.Fatalf("no line %q", code)
	}
	return got
}

// A bath worked by hand. Tiled area 2.4·1.3 + 0.7·0.7 = 3.61 m², edge 8.8 m.
func TestBathByHand(t *testing.T) {
	l := counted(bath())
	joint := 1 - 300.0*600/(303*603)
	for _, c := range []struct {
		code       string
		net, gross float64
		unit       string
		packs      int
	}{
		// strips of 1 m: 2.4 + 2.4 m east-west, 2.0 + 1.3 + 1.3 m north-south
		{"membrane", 3.61, 4.6, "m²", 1},
		{"bond-mortar", 3.61 / 7 * 22.7, 3.61 / 7 * 22.7 * 1.05, "kg", 1},
		{"fill-mortar", 3.61 * 5.5 * 0.7, 3.61 * 5.5 * 0.7 * 1.05, "L", 2},
		{"bed-mortar", 3.61 * 3.4, 3.61 * 3.4 * 1.05, "L", 1},
		{"grout", 3.61 * joint * 9 * 1.6, 3.61 * joint * 9 * 1.6 * 1.1, "kg", 1},
		{"edge-sealant", 264, 290.4, "mL", 1},
		{"joint-sealant", 39, 42.9, "mL", 1},
		{"primer", 3.61 / 30 * 5, 3.61 / 30 * 5, "L", 1},
		{"board", 3.61, 3.7905, "m²", 6},
		{"band", 8.8 + 1.3 + 1.3, 11.97, "m", 2},
		{"cable A240-300", 1, 1, "each", 1},
		{"thermostat", 1, 1, "each", 1},
		{"sensor", 1, 1, "each", 1},
		{"spare-sensor", 1, 1, "each", 1},
		{"box", 1, 1, "each", 1},
		{"conduit", 2.4, 2.64, "m", 0},
		{"sensor-tube", 3, 3.3, "m", 0},
		{"nail-plate", 2, 2, "each", 2},
	} {
		got := line(t, l, c.code)
		near(t, c.code+" net", got.Net, c.net, 1e-6)
		near(t, c.code+" gross", got.Gross, c.gross, 1e-6)
		if got.Unit != c.unit || got.Packs != c.packs {
			t.Errorf("%s: %d packs in %s, want %d in %s", c.code, got.Packs, got.Unit, c.packs, c.unit)
		}
	}
	near(t, "spare board", line(t, l, "board").Spare, 6*0.72-3.7905, 1e-9)
	near(t, "spare fill", line(t, l, "fill-mortar").Spare, 29-3.61*5.5*0.7*1.05, 1e-6)
	near(t, "price of the cable", line(t, l, "cable A240-300").Price, 180, 0)
}

// 4 mm of fill over 60 ft² is 22.3 L, two bags of 14.5 L: plain arithmetic.
func TestPegFillOverSixtyFeet(t *testing.T) {
	in := bath()
	in.Rooms[0].Tiled = rect(6*plane.Foot, 10*plane.Foot)
	in.Membrane.Height, in.Membrane.VoidShare = 5, 0.8
	in.Materials.FillMortar.Waste = 0
	got := line(t, counted(in), "fill-mortar")
	near(t, "litres", got.Net, 22.3, 0.01)
	if got.Packs != 2 || got.PackName != "bag" {
		t.Errorf("%d %s, want 2 bags", got.Packs, got.PackName)
	}
	if !strings.Contains(got.Basis.String(), "60.0 ft²") || !strings.Contains(got.Note.String(), "14.5 L") {
		t.Errorf("basis %q, note %q", got.Basis, got.Note)
	}
}

// TestNotesInTheJobsUnits: in a job in inches every metric figure of a basis or a
// note stands in brackets behind its own. Water is 62.4 lb/ft³, a 22.7 kg bag is
// one of 50 lb, half a cubic foot is 14.16 L: tables in print, from memory.
func TestNotesInTheJobsUnits(t *testing.T) {
	in := bath()
	in.Units = plane.Inches
	in.Labour = []Labour{{Phase: "tile", PerHour: 2, Fixed: 1}}
	metric := regexp.MustCompile(`[0-9] (mm|m|m²|kg|L|kg/L)\b`)
	brackets := regexp.MustCompile(`\([^()]*\)`)
	for _, l := range counted(in).Lines {
		for _, s := range []string{l.Basis.String(), l.Note.String()} {
			if bare := brackets.ReplaceAllString(s, ""); metric.MatchString(bare) {
				t.Errorf("%s: %q is metric", l.Item, s)
			}
		}
	}
	us, si := &builder{in: in}, &builder{in: bath()}
	for got, want := range map[string]string{
		string(us.both(1, "kg/L")): "62.4 lb/ft³ (1 kg/L)", string(us.both(22.7, "kg")): "50 lb (22.7 kg)",
		string(us.both(25.4, "mm")): "1 in (25.4 mm)",
		string(si.both(3, "mm")):    "3 mm (0.118 in)", string(us.both(100,
			"m²")): "1076 ft² (100 m²)", string(us.both(2, "each")): "2 each",
	} {
		if got != want {
			t.Errorf("%s, want %s", got, want)
		}
	}
}

// A coverage that the job file gives wins over depth and yield; a default
// coverage does not.
func TestCoverageOfTheJobFileWins(t *testing.T) {
	in := bath()
	in.Materials.BedMortar.Coverage = 5
	if got := line(t, counted(in), "bed-mortar"); got.Unit != "L" {
		t.Errorf("default coverage: in %s", got.Unit)
	}
	in.Materials.BedMortar.Source = job.FromJob
	if got := line(t, counted(in), "bed-mortar"); got.Unit != "kg" || !strings.Contains(got.Note.String(), "job file") {
		t.Errorf("job file's coverage: in %s, note %q", got.Unit, got.Note)
	}
}

// A pack in the wrong unit is never counted as if it were in the right one.
func TestPackInAnotherUnit(t *testing.T) {
	in := bath()
	in.Materials.Board.Unit, in.Materials.Band.Unit, in.Materials.Sealant.Unit, in.Materials.Grout.Unit = "m", "kg",
		"kg", "L"
	in.Materials.Board.Name = "Thin board"
	l := counted(in)
	for _, code := range []string{"board", "band", "edge-sealant", "joint-sealant", "grout"} {
		got := line(t, l, code)
		if got.Packs != 0 || !slices.ContainsFunc(english(l.Questions),
			func(q string) bool { return strings.HasPrefix(q, got.Item.String()+":") }) {
			t.Errorf("%s: %d packs, questions %q", code, got.Packs, l.Questions)
		}
	}
	if !strings.HasPrefix(line(t, l, "board").Note.String(), "Thin board; ") {
		t.Errorf("note %q does not name the product", line(t, l, "board").Note)
	}
}

// Tiles are those of the layout with breakage, in whole boxes; the note gives the trade's
// figure by area beside them: 20 modules of 603 by 303 with a tenth, 22.
func TestTileLine(t *testing.T) {
	in := bath()
	in.Tile.Breakage = 0.1
	got := line(t, counted(in), "tile")
	near(t, "net, as written", got.Net, 3.61e6/(303*603), 0.005)
	all, err := tiling.Layouts(tiling.Room{Tiled: in.Rooms[0].Tiled}, in.Tile)
	if err != nil || got.Gross != math.Ceil(float64(all[0].Tiles())*1.1) || got.Packs != WholePacks(got.Gross, 6) ||
		got.PackName != "box" {
		t.Errorf("%+v of %d tiles, %v", got, all[0].Tiles(), err)
	}
	for _, want := range []string{"by the tile plan", "whole", "cut", "10 % waste: 22"} {
		if !strings.Contains(got.Note.String(), want) {
			t.Errorf("note %q lacks %q", got.Note, want)
		}
	}
	in = bath()
	in.Tile.Pattern = tiling.Herringbone
	if got = line(t, counted(in), "tile"); !strings.Contains(got.Note.String(), "by the tile plan") ||
		got.Gross < got.Net {
		t.Errorf("herringbone: %+v", got)
	}
	in.Tile.Pattern = "basketweave"
	got = line(t, counted(in), "tile")
	near(t, "a pattern that is not known, by area, whole tiles", got.Gross, math.Ceil(3.61e6/(303*603)*1.1), 0)
	if !strings.Contains(got.Note.String(), "not counted tile by tile") {
		t.Errorf("note %q", got.Note)
	}
}

// 2.0 x 1.6 m takes four sheets of 1.0 x 0.8 m, which meet along 3.6 m; a door
// of 0.8 m is left out of the 7.2 m of edge.
func TestSheetsSeamsAndGivenPerimeter(t *testing.T) {
	in := bath()
	in.Rooms[0].Tiled = rect(2000, 1600)
	in.Rooms[0].Perimeter = 6400
	in.Membrane = job.Membrane{SheetSize: [2]float64{800, 1000}, Height: 5.5, VoidShare: 0.7}
	l := counted(in)
	if got := line(t, l, "membrane"); got.Packs != 4 || got.PackName != "sheet" {
		t.Errorf("%d %s, want 4 sheets", got.Packs, got.PackName)
	}
	near(t, "band", line(t, l, "band").Net, 6.4+3.6, 1e-9)
}

// A tub of 1500 x 700 mm in a corner of 3000 x 2000 mm, measured 0.1 mm off both
// walls: what lies behind it is no edge to be sealed. Plain arithmetic: an L has
// the edge of its rectangle, 10 m.
func TestNoEdgeBehindAFixture(t *testing.T) {
	tub := plane.FromRing(plane.Rectangle(plane.Pt(0.1, 0.1), plane.Pt(1500, 700)))
	tiled, err := rect(3000, 2000).Less(tub)
	if err != nil {
		t.Fatal(err)
	}
	in := bath()
	in.Rooms[0].Tiled = tiled
	near(t, "edge", in.edge(), 10_000, 10)
	in.Rooms[0].Tiled = rect(3000, 2000)
	near(t, "whole edge", in.edge(), 10_000, 1e-9)
}

// What the section shows and no line buys is asked about, until the job gives it
// a pack.
func TestBoardOfTheSectionIsAskedFor(t *testing.T) {
	in := bath()
	in.Boards = []string{"insulation board"}
	asked := func() bool {
		return strings.Contains(strings.Join(english(counted(in).Questions), "\n"),
			"In the section but not in this list: insulation board")
	}
	if in.Materials.Board = (job.Product{}); !asked() {
		t.Error("not asked for")
	}
	if in.Materials.Board = (job.Product{Pack: 0.72, Unit: "m²"}); asked() {
		t.Error("asked for, though it is bought")
	}
}

// A cut plan made elsewhere replaces the count of strips.
func TestCutPlanReplacesStrips(t *testing.T) {
	in := bath()
	in.Cut = &CutPlan{Packs: 3, Taken: 4e6, Seams: 2000, Note: language.As("see membrane sheet")}
	l := counted(in)
	if got := line(t, l, "membrane"); got.Packs != 3 || got.Gross != 4 || got.Note.String() != "see membrane sheet" {
		t.Errorf("%+v", got)
	}
	near(t, "band", line(t, l, "band").Net, 8.8+2, 1e-9)
}

func TestRoomsShareRollsAndCablesGroup(t *testing.T) {
	in := bath()
	second := in.Rooms[0]
	second.Name = "Shower room"
	second.Cables = []Cable{{"H2", in.Rooms[0].Cables[0].Label}}
	in.Rooms = append(in.Rooms, second)
	l := counted(in)
	if got := line(t, l, "membrane"); got.Packs != 1 || got.Net != 7.22 {
		t.Errorf("two baths: %d rolls for %g m²", got.Packs, got.Net)
	}
	got := line(t, l, "cable A240-300")
	if got.Net != 2 || !strings.HasPrefix(got.Basis.String(), "H1, H2:") {
		t.Errorf("cables %+v", got)
	}
	if got := line(t, l, "bond-mortar").Basis; got.String() != "tiled area 7.22 m² (77.7 ft²), 2 rooms" {
		t.Errorf("basis %q", got)
	}
}

func TestWordsOfAProposal(t *testing.T) {
	l := counted(bath())
	for _, c := range []struct {
		where string
		lines []string
		want  string
	}{
		{"questions", english(l.Questions), "Proposal: site measure required."},
		{"questions", english(l.Questions), "Bath: vanity is not decided"},
		{"exclusions", english(l.Exclusions), "Electrical work by others"},
		{"inclusions", english(l.Inclusions), "Bath: floor 4.80 m² (51.7 ft²), tiled 3.61 m² (38.9 ft²), heated " +
			"2.50 m² (26.9 " +
			"ft²)."},
	} {
		if !slices.ContainsFunc(c.lines, func(s string) bool { return strings.HasPrefix(s, c.want) }) {
			t.Errorf("%s %q lack %q", c.where, c.lines, c.want)
		}
	}
	in := bath()
	in.Status = job.ForInstallation
	in.Rooms[0].Undecided = nil
	if l := counted(in); len(l.Questions) != 0 || l.Status != "for installation" {
		t.Errorf("nothing is open, got %q, status %q", l.Questions, l.Status)
	}
}

func TestLabourAndPrices(t *testing.T) {
	in := bath()
	in.Labour = []Labour{
		{Phase: "membrane", Heated: false, PerHour: 5, Fixed: 1, HourCost: 60},
		{Phase: "cable", Heated: true, PerHour: 5, Fixed: 0, HourCost: 60},
	}
	in.Prices = map[string]float64{"bond-mortar": 25, "cable A240-300": 200}
	l := counted(in)
	near(t, "hours", line(t, l, "labour membrane").Net, 3.61/5+1, 1e-9)
	near(t, "hours on heated area", line(t, l, "labour cable").Net, 0.5, 1e-9)
	near(t, "labour", line(t, l, "labour cable").Price, 30, 1e-9)
	near(t, "a price file wins", line(t, l, "cable A240-300").Price, 200, 0)
	sum, unpriced := l.Total()
	near(t, "sum", sum, 200+25+30+60*1.72, 1e-9) // 3.61 / 5 + 1 h as the sheet has it
	if !slices.Contains(english(unpriced), "Grout") || slices.Contains(english(unpriced),
		"Bond mortar under the membrane") {
		t.Errorf("unpriced %q", unpriced)
	}
}

// Every price can be worked out again from what is written beside it: packs or,
// where there are none, the quantity in the job's own units, times the price of
// one. 2.4 m of conduit are 7.87 ft.
func TestPricesFollowFromTheLine(t *testing.T) {
	for _, u := range []plane.Units{plane.Millimetres, plane.Inches} {
		in := bath()
		in.Units = u
		in.Labour = []Labour{{Phase: "membrane", Heated: false, PerHour: 7, Fixed: 0, HourCost: 61.3}}
		in.Prices = map[string]float64{"bond-mortar": 25.01, "tile": 58.4, "conduit": 3.4, "sensor-tube": 1.9,
			"nail-plate": 1.1}
		total := 0.0
		priced := 0
		for _, l := range counted(in).Lines {
			if l.Price == 0 {
				continue
			}
			n, unit := float64(l.Packs), ""
			if l.Packs == 0 {
				n, unit = l.Gross, l.Unit
				if u == plane.Inches {
					n, unit = US(l.Gross, l.Unit)
				}
				n, _ = strconv.ParseFloat(Figure(n, unit), 64)
			}
			near(t, l.Item.String(), l.Price, math.Round(n*l.Each*100)/100, 1e-9)
			total += l.Price
			priced++
		}
		sum, _ := counted(in).Total()
		near(t, "total", sum, total, 1e-9)
		if priced < 6 {
			t.Errorf("%d lines have a price", priced)
		}
	}
}

// What is none is not counted: no hours that are 0, no off-cuts that serve.
func TestLabourIsWorded(t *testing.T) {
	in := bath()
	in.Labour = []Labour{
		{Phase: "a", Heated: false, PerHour: 5, Fixed: 0, HourCost: 60},
		{Phase: "b", Heated: false, PerHour: 0, Fixed: 2, HourCost: 60},
		{Phase: "c", Heated: false, PerHour: 5, Fixed: 1.5, HourCost: 60},
	}
	l := counted(in)
	for code, want := range map[string]string{
		"labour a": "5 m² (53.8 ft²) an hour, job file", "labour b": "2 h fixed, job file",
		"labour c": "5 m² (53.8 ft²) an hour and 1.5 h fixed, job file",
	} {
		if got := line(t, l, code).Note; got.String() != want {
			t.Errorf("%s: %q, want %q", code, got, want)
		}
	}
	for n, want := range map[int]string{0: "none from off-cuts", 1: "1 of them from an off-cut",
		3: "3 of them from off-cuts"} {
		if got := fromOffcuts(n); got.String() != want {
			t.Errorf("%d: %q, want %q", n, got, want)
		}
	}
}

// Nothing known: every line that the floor always needs still stands, with a
// question.
func TestNothingIsDroppedInSilence(t *testing.T) {
	in := Input{Rooms: []Room{{Name: "Bath", Tiled: rect(2000, 2000)}}}
	l := counted(in)
	for _, code := range []string{"membrane", "bond-mortar", "fill-mortar", "bed-mortar", "tile", "grout",
		"edge-sealant"} {
		item := line(t, l, code).Item
		word := strings.Fields(item.String())[0]
		if !slices.ContainsFunc(english(l.Questions), func(q string) bool { return strings.HasPrefix(q, word) }) {
			t.Errorf("%s is not counted, and no question says so: %q", item, l.Questions)
		}
	}
}

// Any figure at all gives lines with ordinary figures in them.
func TestUnusableFiguresAreAskedAbout(t *testing.T) {
	for i, change := range []func(*Input, float64){
		func(in *Input, v float64) { in.Membrane.RollWidth = v },
		func(in *Input, v float64) { in.Membrane.RollLength = v },
		func(in *Input, v float64) { in.Membrane = job.Membrane{SheetSize: [2]float64{v, 800}} },
		func(in *Input, v float64) { in.Cut = &CutPlan{Packs: 1, Taken: v} },
		func(in *Input, v float64) { in.Tile.Width = v },
		func(in *Input, v float64) { in.Tile.Joint = v },
		func(in *Input, v float64) { in.Tile.Waste = v },
		func(in *Input, v float64) { in.Materials.Grout.Density = v },
		func(in *Input, v float64) { in.Materials.Grout.Pack = v },
		func(in *Input, v float64) { in.Materials.BondMortar.Coverage = v },
		func(in *Input, v float64) { in.Materials.FillMortar.Yield = v },
		func(in *Input, v float64) { in.Materials.Sealant.Pack = v },
		func(in *Input, v float64) { in.Materials.SealantDepth = v },
		func(in *Input, v float64) {
			in.Rooms[0].Heated = v
			in.Labour = []Labour{{Phase: "cable", Heated: true, PerHour: 5, Fixed: 0, HourCost: 60}}
		},
		func(in *Input, v float64) {
			in.Labour = []Labour{{Phase: "cable", Heated: true, PerHour: 5, Fixed: 1, HourCost: v}}
		},
		func(in *Input, v float64) { in.Prices = map[string]float64{"tile": v} },
		func(in *Input, v float64) { in.Rooms[0].Joints[0].Length = v },
	} {
		for _, v := range []float64{math.NaN(), math.Inf(1), -1, 1e300} {
			in := bath()
			before := len(counted(in).Questions)
			change(&in, v)
			l := counted(in)
			for _, line := range l.Lines {
				for _, f := range []float64{line.Net, line.Waste, line.Gross, line.Pack, line.Spare, line.Price} {
					if !usable(f) {
						t.Errorf("change %d to %g: %s holds %g", i, v, line.Code, f)
					}
				}
			}
			if len(l.Questions) == before {
				t.Errorf("change %d to %g: no question", i, v)
			}
			if err := WriteJSON(&strings.Builder{}, l); err != nil {
				t.Errorf("change %d to %g: %v", i, v, err)
			}
		}
	}
}

// Whatever the room: gross is at least net, packs hold gross, and a line not
// cut from rolls has no idle pack.
func TestPacksOfAnyRoom(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		in := bath()
		in.Rooms[0].Tiled = rect(rapid.Float64Range(600, 9000).Draw(t, "w"), rapid.Float64Range(600, 9000).Draw(t, "h"))
		in.Materials.Grout.Waste = rapid.Float64Range(0, 0.5).Draw(t, "waste")
		in.Tile.Pattern = rapid.SampledFrom([]string{tiling.Straight, tiling.Offset, tiling.Diagonal,
			tiling.Herringbone}).Draw(t, "pattern")
		for _, l := range counted(in).Lines {
			slack := 1e-8 * max(1, l.Pack)
			if l.Gross < l.Net || l.Pack > 0 && float64(l.Packs)*l.Pack < l.Gross-slack {
				t.Fatalf("%+v", l)
			}
			if l.Pack > 0 && l.Code != "membrane" && float64(l.Packs-1)*l.Pack >= l.Gross+slack {
				t.Fatalf("an idle pack: %+v", l)
			}
			if math.Abs(l.Net*(1+l.Waste)-l.Gross) > 1e-6*max(1, l.Gross) {
				t.Fatalf("net, waste and gross disagree: %+v", l)
			}
		}
	})
}

func TestCompare(t *testing.T) {
	small, large := bath(), bath()
	large.Rooms[0].Tiled = rect(2425, 2025)
	large.Rooms[0].Thermostat.Relay = true
	if got := Compare(counted(small), counted(bath())); len(got) != 0 {
		t.Errorf("the same job differs: %+v", got)
	}
	changes := Compare(counted(small), counted(large))
	var codes []string
	for _, c := range changes {
		codes = append(codes, fmt.Sprint(c.Code, " ", c.Packs))
	}
	for _, want := range []string{"fill-mortar 0", "relay 1"} {
		if !slices.Contains(codes, want) {
			t.Errorf("changes %q lack %q", codes, want)
		}
	}
}

// Breakage comes on top of a count that has its cuts already. Plain arithmetic: 2.8 by
// 4 tiles of 300 are 4 whole and 8 cut, 12; with a quarter for breakage 15.
func TestBreakageComesOnTop(t *testing.T) {
	in := bath()
	in.Rooms = []Room{{Name: "Bath", Tiled: rect(1200, 840)}}
	in.Tile = job.Tile{Length: 300, Width: 300, Waste: 0.1, Breakage: 0.25}
	if got := line(t, counted(in), "tile"); got.Gross != 15 {
		t.Errorf("%g tiles, want 15: %s", got.Gross, got.Note)
	}
	in.Tile.Breakage = 0
	if got := line(t, counted(in), "tile"); got.Gross != 12 {
		t.Errorf("%g tiles without breakage, want 12: %s", got.Gross, got.Note)
	}
}

// How herringbone is counted is said of herringbone alone.
func TestHerringboneIsAssumedOfHerringbone(t *testing.T) {
	for pattern, said := range map[string]bool{tiling.Herringbone: true, tiling.Straight: false, "": false} {
		in := bath()
		in.Tile.Pattern = pattern
		if got := strings.Contains(strings.Join(english(counted(in).Assumptions), " "), "Herringbone"); got != said {
			t.Errorf("%q: said %v", pattern, got)
		}
	}
}

// What a note says is a share in per cent.
func TestBreakageIsSaidInPerCent(t *testing.T) {
	in := bath()
	in.Tile.Breakage = 0.05
	if got := line(t, counted(in), "tile").Note; !strings.Contains(got.String(), "with 5 % breakage") {
		t.Error(got)
	}
}

// Half a tile is asked about where a side is over 15 in, and a third is not.
func TestOffsetOfLargeTile(t *testing.T) {
	for _, c := range []struct {
		long, offset float64
		pattern      string
		asked        bool
	}{{600, 0.5, "offset", true}, {600, 1.0 / 3, "offset", false}, {380, 0.5, "offset", false},
		{600, 0.5, "straight", false}} {
		in := bath()
		in.Tile.Length, in.Tile.Offset, in.Tile.Pattern = c.long, c.offset, c.pattern
		if got := strings.Contains(strings.Join(english(counted(in).Questions), " "), "4.3.8.2"); got != c.asked {
			t.Errorf("%+v: asked %v", c, got)
		}
	}
}
