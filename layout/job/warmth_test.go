package job

import (
	"bytes"
	"os"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"

	"oxturn/layout/plane"
)

func TestWarmthEnergyLabour(t *testing.T) {
	j := readGood(t, "testdata/good/every-key.toml")
	w := j.Warmth
	w.Spans = nil
	for _, c := range []struct {
		name      string
		want, got any
	}{
		{"warmth", Warmth{Room: 20, Warmest: 24, Soil: 1.5, Below: "void", BelowAt: 5, BelowGiven: true, Rise: 7,
			Hours: 6, Board: 6, Covering: Covering{"vinyl plank", 27, true, FromInstructions}}, w},
		{"energy", Energy{0.28, "EUR", 3, 9, 0.3, 0.9}, j.Energy},
		{"labour", []Labour{{Phase: "membrane", Heated: false, PerHour: 70 * 0.09290304, Fixed: 1, HourCost: 55,
			Crew: 2, Visits: 2, VisitCost: 35}}, j.Labour},
		{"exposed", []any{5200.0, true}, []any{j.Rooms[0].Exposed, j.Rooms[0].ExposedGiven}},
		{"first peg", &plane.Point{X: 90, Y: 82}, j.Rooms[0].FirstPeg},
		{"prices", []float64{210, 24.5}, []float64{j.Prices[0].Price, j.Prices[1].Price}},
		{"codes", []string{"membrane", "bond-mortar"}, []string{j.Prices[0].Code, j.Prices[1].Code}},
	} {
		if d := cmp.Diff(c.want, c.got, approx); d != "" {
			t.Errorf("%s (-want +got):\n%s", c.name, d)
		}
	}
	if got := textAt(t, "testdata/good/catalogue/prices.csv", j.Prices[1].Span); got != "24.5" {
		t.Errorf("a price stands at %q", got)
	}
	plain := mustRead(t, head+"[[room]]\nname = \"R\"\ncorners = [[0, 0], [3000, 0], [3000, 2000], [0, 2000]]\n"+tail)
	w = plain.Warmth
	w.Spans = nil
	if d := cmp.Diff(Warmth{Room: 20, Warmest: 20, Soil: 2, Rise: 8, Hours: 4, Board: 10}, w, approx); d != "" ||
		plain.Rooms[0].FirstPeg != nil || len(plain.Labour) != 0 {
		t.Errorf("defaults (-want +got):\n%s", d)
	}
	if d := cmp.Diff(Energy{0, "", 4, 10, 0.4, 1}, plain.Energy, approx); d != "" {
		t.Errorf("default use (-want +got):\n%s", d)
	}
}

func TestWarmthTroubles(t *testing.T) {
	room := "[[room]]\nname = \"R\"\ncorners = [[0, 0], [3000, 0], [3000, 2000], [0, 2000]]\n" + tail
	for _, c := range []struct{ piece, want string }{
		{"[energy]\nleast_hours = 12\n", "least_hours = 12 is more than most_hours = 10"},
		{"[energy]\nmost_duty = 0.2\n", "least_duty = 0.4 is more than most_duty = 0.2"},
		{"[[labour]]\nphase = \"cable\"\n", `the phase "cable" has no hours`},
		{"[[labour]]\nphase = \"a\"\nfixed = 1\n[[labour]]\nphase = \"a\"\nfixed = 1\n", `two phases are called "a"`},
		{"[warmth]\nroom = \"warm\"\n", `room is a temperature such as "68 F" or "20 C", not "warm"`},
		{"[warmth]\nbelow = \"cellar\"\n", `below cannot be "cellar"; it is one of: room, void, ground, insulated`},
	} {
		_, report := readText(head + c.piece + room)
		if !strings.Contains(human(report), c.want) || report.Errors() != 1 {
			t.Errorf("%q:\n%s", c.piece, human(report))
		}
	}
}

func TestPriceFileTroubles(t *testing.T) {
	text := "prices = \"p.csv\"\n" + head + "[[room]]\nname = \"R\"\ncorners = [[0, 0], [3000, 0], [3000, 2000], [0, " +
		"2000]]\n" + tail
	give := func(s string) func(string) ([]byte, error) {
		return func(string) ([]byte, error) { return []byte(s), nil }
	}
	for _, c := range []struct {
		name string
		open func(string) ([]byte, error)
		want string
	}{
		{"sound", give("note,Code,PRICE\r\nx,a,1.5\r\n,b,0\r\nshort\r\n"), ""},
		{"with a byte order mark", give("\ufeffcode,price\na,1\n"), ""},
		{"none to be had", nil, "job.toml:1:10: error: the price file \"p.csv\" cannot be read here\n"},
		{"missing", func(n string) ([]byte, error) { return os.ReadFile("testdata/nowhere/" + n) },
			"job.toml:1:10: error: cannot read the price file \"p.csv\": there is no such file\n"},
		{"empty", give(""), "p.csv: error: the price file is empty\n"},
		{"other columns", give("item,cost\na,1\n"),
			"p.csv:1:1: error: the price file's first row has no columns \"code\" and \"price\"\n"},
		{"no figure", give("code,price\na,$12\n"), "p.csv:2:3: error: \"$12\" is not a price\n"},
		{"comma", give("code,price\na,\"12,50\"\n"), "p.csv:2:3: error: \"12,50\" is not a price\n"},
		{"negative", give("code,price\na,-1\n"), "p.csv:2:3: error: \"-1\" is not a price\n"},
		{"no code", give("code,price\n,1\n"), "p.csv:2:2: error: a price of 1 has no code\n"},
		{"twice", give("code,price\na,1\na,2\n"), "p.csv:3:3: error: two prices for \"a\"\n"},
		{"open quote", give("code,price\n\"a,1\n"),
			"p.csv:3:1: error: the price file is not CSV: extraneous or missing \" in quoted-field\n"},
	} {
		_, report := Read("job.toml", []byte(text), c.open)
		var b bytes.Buffer
		if err := report.Short(&b); err != nil || b.String() != c.want {
			t.Errorf("%s: %v\n got %s\nwant %s", c.name, err, b.String(), c.want)
		}
	}
}

// A room at its warmest is not colder than it is, and has no more outside wall
// than it is round.
func TestWarmthRefusesWhatCannotBe(t *testing.T) {
	room := "[[room]]\nname = \"R\"\nexposed = %s\ncorners = [[0, 0], [3000, 0], [3000, 2000], [0, 2000]]\n"
	for text, want := range map[string]string{
		"[warmth]\nroom = 22\nwarmest = 21\n" + strings.Replace(room, "%s", "0",
			1): "warmest = 21 °C is colder than room = 22 °C",
		strings.Replace(room, "%s", `"10.5 m"`, 1): "has \"10.5 m\" = 10500 mm of " +
			"its edge along outside walls, but is only 10000 mm round",
	} {
		_, report := Read("job.toml", []byte(head+text+tail), nil)
		found := ""
		for _, d := range report.Diagnostics() {
			found += d.Message + "\n"
		}
		if !strings.Contains(found, want) {
			t.Errorf("%q is not said:\n%s", want, found)
		}
	}
}

const lossRoom = "[[room]]\nname = \"R\"\ncorners = [[0, 0], [3000, 0], [3000, 2000], [0, " +
	"2000]]\n[room.loss]\noutside = -5\n"

func TestLossIsRead(t *testing.T) {
	l := readGood(t, "testdata/good/every-key.toml").Rooms[0].Loss
	near(t, "outside", l.Outside, -5, 1e-6)
	near(t, "inside", l.Inside, 21.1111, 1e-3)
	near(t, "walls", l.Walls, 6.96773, 1e-4)
	near(t, "their U-value", l.WallsU, 0.340696, 1e-5) // 1 Btu/(h ft² °F) is 5.678263 W/(m² K)
	near(t, "height", l.Height, 2438.4, 1e-6)
	near(t, "air changes", l.Changes.High, 1.2, 1e-12)
	plain := mustRead(t, head+lossRoom+tail).Rooms[0].Loss
	if plain.Inside != 20 || plain.Above != -5 || plain.Below != -5 || plain.Changes.Low != 0.5 ||
		plain.Changes.High != 1.5 || plain.Height != 2400 {
		t.Errorf("defaults: %+v", plain)
	}
}

func TestLossRefusesWhatNoRoomIs(t *testing.T) {
	for text, want := range map[string]string{
		strings.Replace(lossRoom, "-5", "25", 1): "outside = 25 = 25 °C is not colder than the room at " +
			"20 °C",
		lossRoom + "walls = \"4 m2\"\n":                      "one of walls and walls_u without the other",
		lossRoom + "walls = \"40 m2\"\nwalls_u = 0.3\n":      "come to 40 m², but all its walls are 24 m²",
		lossRoom + "ceiling_u = 12\n":                        "7 W/(m² K) is the most",
		lossRoom + "ceiling_u = \"0.2 W/m\"\n":               "is not a unit known here",
		lossRoom + "air_changes = 2\nmost_air_changes = 1\n": "most_air_changes = 1 is less than air_changes = 2",
	} {
		_, report := Read("job.toml", []byte(head+text+tail), nil)
		found := ""
		for _, d := range report.Diagnostics() {
			found += d.Message + "\n" + d.Hint + "\n"
		}
		if !strings.Contains(found, want) {
			t.Errorf("%q is not said:\n%s", want, found)
		}
	}
}

// A bare U-value in a job in inches could be either system's.
func TestUValueInInches(t *testing.T) {
	inches := strings.Replace(head, `"mm"`, `"in"`, 1)
	_, report := Read("job.toml", []byte(inches+lossRoom+"ceiling_u = 0.05\n"+tail), nil)
	for _, d := range report.Diagnostics() {
		if d.Message == "ceiling_u: 0.05 has no unit, and U-values have two" &&
			d.Hint == `write "0.05 Btu/h ft2 F" or "0.05 W/m2K"` {
			return
		}
	}
	t.Error(report.Diagnostics())
}
