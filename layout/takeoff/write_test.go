package takeoff

import (
	"bytes"
	"encoding/csv"
	"encoding/json"
	"errors"
	"math"
	"slices"
	"strconv"
	"strings"
	"testing"

	"oxturn/layout/language"

	"pgregory.net/rapid"
)

func TestCSVReadsBack(t *testing.T) {
	var out bytes.Buffer
	l := List{Lines: []Line{
		{Code: "grout", Item: language.As("=HYPERLINK(\"x\")"), Basis: language.As("+1"), Unit: "kg", Net: 1,
			Waste: 0.1, Gross: 1.1, Pack: 5,
			PackName: "@bag", Packs: 1, Spare: 3.9, Note: language.As("-2, \"quoted\"\nand a line")},
		{Code: "tube", Item: language.As("Tube"), Unit: "m", Net: 3, Gross: 3},
		{Code: "box", Item: language.As("\tBox"), Unit: "each", Net: 2, Gross: 2, Pack: 1, Packs: 2, Price: 19.5},
	}}
	if err := WriteCSV(&out, l); err != nil {
		t.Fatal(err)
	}
	rows, err := csv.NewReader(&out).ReadAll()
	if err != nil || len(rows) != 4 {
		t.Fatalf("%d rows, %v", len(rows), err)
	}
	cell := func(row int, head string) string {
		for i, h := range rows[0] {
			if h == head {
				return rows[row][i]
			}
		}
		t.Fatalf("no column %q", head)
		return ""
	}
	for _, c := range []struct {
		row        int
		head, want string
	}{
		{1, "item", "'=HYPERLINK(\"x\")"}, {1, "basis", "'+1"}, {1, "pack", "'@bag"},
		{1, "note", "'-2, \"quoted\"\nand a line"},
		{3, "item", "'\tBox"}, {1, "waste (%)", "10.0"}, {1, "net", "1.00"}, {1, "net (US)", "2.20"},
		{1, "unit (US)", "lb"},
		{1, "whole packs", "1"}, {2, "whole packs", ""}, {2, "pack size", ""}, {2, "gross (US)", "9.84"},
		{3, "net", "2"}, {3, "price", "19.50"}, {2, "price", ""},
	} {
		if got := cell(c.row, c.head); got != c.want {
			t.Errorf("row %d, %s: %q, want %q", c.row, c.head, got, c.want)
		}
	}
}

func TestCSVEndsLinesByTheBook(t *testing.T) {
	var out bytes.Buffer
	if err := WriteCSV(&out, counted(bath())); err != nil {
		t.Fatal(err)
	}
	if strings.Count(out.String(), "\n") != strings.Count(out.String(), "\r\n") {
		t.Error("a line does not end in CRLF")
	}
}

type broken struct{}

func (broken) Write([]byte) (int, error) { return 0, errors.New("disk full") }

func TestWriteErrorsAreReturned(t *testing.T) {
	if WriteCSV(broken{}, List{}) == nil || WriteJSON(broken{}, List{}) == nil {
		t.Error("a full disk goes unnoticed")
	}
}

func TestJSONReadsBackAndRepeats(t *testing.T) {
	var first, second bytes.Buffer
	if WriteJSON(&first, counted(bath())) != nil || WriteJSON(&second, counted(bath())) != nil {
		t.Fatal("not written")
	}
	if !bytes.Equal(first.Bytes(), second.Bytes()) {
		t.Error("the same job gives other bytes")
	}
	var got struct {
		Schema int
		Status string
		Lines  []struct {
			Code       string
			Metric, US struct {
				Unit string
				Net  float64
			}
		}
		Exclusions []string
	}
	if err := json.Unmarshal(first.Bytes(), &got); err != nil {
		t.Fatal(err)
	}
	if got.Schema != Schema || got.Status != "proposal" || len(got.Exclusions) == 0 {
		t.Errorf("%+v", got)
	}
	m := got.Lines[0]
	near(t, "ft² of membrane", m.US.Net, m.Metric.Net*10.7639, 1e-3)
	if m.Code != "membrane" || m.US.Unit != "ft²" {
		t.Errorf("first line %+v", m)
	}
}

func TestUSUnits(t *testing.T) {
	for _, c := range []struct {
		value float64
		unit  string
		want  float64
		us    string
	}{{1, "m²", 10.7639, "ft²"}, {1, "m", 3.28084, "ft"}, {22.6796, "kg", 50, "lb"}, {3.785411784, "L", 1,
		"gal"}, {3785.411784, "mL", 128, "fl oz"}, {7, "each", 7, "each"}, {2.5, "h", 2.5, "h"}} {
		got, unit := US(c.value, c.unit)
		near(t, c.unit, got, c.want, 1e-4)
		if unit != c.us {
			t.Errorf("%s becomes %s, want %s", c.unit, unit, c.us)
		}
	}
}

// A figure in US units and back is the figure: 1 lb, ft, ft² and gallon are so
// many kg, m, m² and L by definition.
func TestUSUnitsRoundTrip(t *testing.T) {
	back := map[string]float64{"m²": 0.09290304, "m": 0.3048, "kg": 0.45359237, "L": 3.785411784, "mL": 29.5735295625,
		"each": 1, "h": 1}
	rapid.Check(t, func(t *rapid.T) {
		v := rapid.Float64Range(-1e6, 1e6).Draw(t, "v")
		for unit, factor := range back {
			if us, _ := US(v, unit); math.Abs(us*factor-v) > 1e-9*math.Abs(v) {
				t.Fatalf("%g %s comes back as %g", v, unit, us*factor)
			}
		}
	})
}

// A price stands in the JSON where one is given, and nowhere else; a pack likewise.
func TestJSONHasPricesThatAreGiven(t *testing.T) {
	var b bytes.Buffer
	l := List{Lines: []Line{{Code: "box", Unit: "each", Net: 2, Gross: 2, Packs: 2, Pack: 1, Price: 0.9},
		{Code: "tube", Unit: "m", Net: 3.048, Gross: 3.048}}}
	if err := WriteJSON(&b, l); err != nil {
		t.Fatal(err)
	}
	var got struct{ Lines []map[string]any }
	if err := json.Unmarshal(b.Bytes(), &got); err != nil {
		t.Fatal(err)
	}
	if got.Lines[0]["price"] != 0.9 {
		t.Errorf("%v", got.Lines[0])
	}
	if _, priced := got.Lines[1]["price"]; priced {
		t.Errorf("%v", got.Lines[1])
	}
	us := got.Lines[1]["us"].(map[string]any)
	if _, packed := us["pack"]; packed || us["net"] != 10.0 || us["unit"] != "ft" {
		t.Errorf("%v", us)
	}
}

// Quantities read as people buy them: three decimals below one, whole pieces and millilitres, fluid ounces to a tenth.
func TestFiguresAsBought(t *testing.T) {
	for _, c := range []struct {
		v    float64
		unit string
		want string
	}{
		{0.186, "m²", "0.186"}, {0, "m²", "0.00"}, {1, "kg", "1.00"}, {0.9996, "kg", "1.000"}, {12.345, "L", "12.35"},
		{2, "each", "2"}, {2.5, "each", "2.50"}, {0.5, "each", "0.500"}, {264.4, "mL", "264"}, {8.94, "fl oz", "8.9"},
		{0.25, "fl oz", "0.2"},
	} {
		got := Figure(c.v, c.unit)
		if got != c.want {
			t.Errorf("%g %s: %s, want %s", c.v, c.unit, got, c.want)
		}
		if back, err := strconv.ParseFloat(got, 64); err != nil || written(c.v, c.unit) != back {
			t.Errorf("%g %s is reckoned with as %g", c.v, c.unit, written(c.v, c.unit))
		}
	}
}

// Whole packs stand in the file where packs are known or counted, a 0 among them, and
// nowhere else.
func TestCSVHasPacksThatAreCounted(t *testing.T) {
	var out bytes.Buffer
	l := List{Lines: []Line{{Code: "grout", Unit: "kg", Pack: 5}, {Code: "membrane", Unit: "m²", Packs: 2},
		{Code: "tube", Unit: "m"}}}
	if err := WriteCSV(&out, l); err != nil {
		t.Fatal(err)
	}
	rows, err := csv.NewReader(&out).ReadAll()
	if err != nil {
		t.Fatal(err)
	}
	at := slices.Index(rows[0], "whole packs")
	for i, want := range []string{"0", "2", ""} {
		if got := rows[i+1][at]; got != want {
			t.Errorf("%s: %q packs, want %q", l.Lines[i].Code, got, want)
		}
	}
}
