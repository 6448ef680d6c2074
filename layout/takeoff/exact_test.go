package takeoff

import (
	"strings"
	"testing"

	"oxturn/layout/language"

	"oxturn/layout/job"
	"oxturn/layout/plane"
)

// A price of 12.50 for 3.2 is 40; 0.1 three times is 0.30 to the cent, as sums of money are.
func TestCostIsPriceTimesNumber(t *testing.T) {
	for _, c := range [][3]float64{{12.5, 3.2, 40}, {0.1, 3, 0.3}, {7, 0, 0}} {
		if got := cost(c[0], c[1]); got != c[2] {
			t.Errorf("%g at %g: %g, want %g", c[1], c[0], got, c[2])
		}
	}
}

// Beds that differ by less than a trowel holds are one: half a millimetre is nothing to ask about,
// a whole one is.
func TestOnlyAnotherBedIsAskedAbout(t *testing.T) {
	for shown, asked := range map[float64]bool{3.4: false, 3.9: false, 2.9: false, 4.4: true, 2.4: true} {
		in := bath()
		in.Materials.BedThickness, in.Bed = 3.4, shown
		if got := strings.Contains(strings.Join(english(counted(in).Questions), " "), "which holds?"); got != asked {
			t.Errorf("a section with %g mm: asked %v", shown, got)
		}
	}
}

// A tile of exactly 15 in may be offset by half; a longer one is asked about (ANSI A108.02, 4.3.8.2).
func TestLargeTileIsOverFifteenInches(t *testing.T) {
	for long, asked := range map[float64]bool{15 * plane.Inch: false, 16 * plane.Inch: true} {
		in := bath()
		in.Tile.Pattern, in.Tile.Offset, in.Tile.Length, in.Tile.Width = "offset", 0.5, long, 150
		if got := strings.Contains(strings.Join(english(counted(in).Questions), " "),
			"by a third at most"); got != asked {
			t.Errorf("%g mm: asked %v", long, got)
		}
	}
}

// The straight pattern is what a tile has that is given none, and the tiler's layout is told where
// one is recorded for the room, for some of two rooms neither the one nor the other.
func TestPatternAndLayoutAreTold(t *testing.T) {
	if got := tileName(job.Tile{Width: 100, Length: 200},
		plane.Millimetres); got.String() != "Tile 100 x 200, straight" {
		t.Error(got)
	}
	if got := tileName(job.Tile{Width: 100, Length: 200, Pattern: "offset"},
		plane.Millimetres); !strings.HasSuffix(got.String(),
		", offset") {
		t.Error(got)
	}
	in := bath()
	l := counted(in)
	if note := line(t, l, "tile").Note; !strings.HasPrefix(note.String(), "by the tile plan") {
		t.Error(note)
	}
}

// Thermostats without a kind add none to the line's words, two of one kind name it once.
func TestKindsOfThermostatsAreNamedOnce(t *testing.T) {
	in := bath()
	two := in.Rooms[0]
	two.Name = "Hall"
	in.Rooms = append(in.Rooms, two)
	for _, kinds := range [][2]string{{"", ""}, {"for 16 A", "for 16 A"}} {
		for i := range in.Rooms {
			th := *in.Rooms[i].Thermostat
			th.Kind, in.Rooms[i].Thermostat = language.As(kinds[i]), &th
		}
		basis := line(t, counted(in), "thermostat").Basis
		if strings.Contains(basis.String(), ";  ") || strings.HasSuffix(basis.String(), "; ") || kinds[0] != "" &&
			strings.Count(basis.String(), kinds[0]) != 1 {
			t.Errorf("%q: %q", kinds, basis)
		}
	}
}
