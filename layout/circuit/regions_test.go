package circuit

import (
	"math"
	"regexp"
	"slices"
	"strings"
	"testing"
)

func clauses(t *testing.T, region string, facts ...Fact) []string {
	t.Helper()
	ws, err := Check(region, facts)
	if err != nil {
		t.Fatal(err)
	}
	var out []string
	for _, w := range ws {
		if w.Quantity != "" {
			out = append(out, w.Clause)
		}
	}
	return out
}

// Limits as read in NEC 2023 and IEC 60364-7-753; a figure exactly at its limit
// raises nothing.
func TestRulesAtTheirEdge(t *testing.T) {
	for _, c := range []struct {
		region string
		fact   Fact
		want   []string
	}{
		{"north america", Fact{LeadLength, 7 * 304.8, "H1"}, nil},
		{"north america", Fact{LeadLength, 2000, "H1"}, []string{"424.34"}},
		{"north america", Fact{CircuitAmps, 48, "Bath"}, nil},
		{"north america", Fact{CircuitAmps, 48.1, "Bath"}, []string{"424.22(B)"}},
		{"north america", Fact{SharedAmps, 31, "Bath"}, []string{"424.4(A)"}},
		{"north america", Fact{PowerPerLength, 54.13, "H1"}, nil},
		{"north america", Fact{PowerPerLength, 55, "H1"}, []string{"424.44(A)"}},
		{"north america", Fact{GroundFaultTrip, 5, "Bath"}, nil},
		{"north america", Fact{GroundFaultTrip, 30, "Bath"}, []string{""}},
		{"europe", Fact{GroundFaultTrip, 30, "Bath"}, nil},
		{"europe", Fact{GroundFaultTrip, 100, "Bath"}, []string{"753.411.3.2"}},
		{"europe", Fact{ZoneCelsius, 80, "H1"}, nil}, // from memory
		{"europe", Fact{ZoneCelsius, 80.1, "H1"}, []string{"753.424"}},
		{"north america", Fact{ZoneCelsius, 100, "H1"}, nil},
		{"europe", Fact{InsulationMohm, 0.5, "H1"}, []string{""}},
		{"europe", Fact{InsulationVolts, 500, "H1"}, nil},
		{"europe", Fact{InsulationVolts, 499, "H1"}, []string{""}},
		{"north america", Fact{LeadInBox, 150, "Bath"}, nil},
		{"north america", Fact{LeadInBox, 149, "Bath"}, []string{"424.43(B)"}},
		{"europe", Fact{LeadLength, 100, "H1"}, nil},
		{"", Fact{CircuitAmps, 1000, "Bath"}, nil},
	} {
		if got := clauses(t, c.region, c.fact); !slices.Equal(got, c.want) {
			t.Errorf("%s, %v: clauses %q, want %q", c.region, c.fact, got, c.want)
		}
	}
}

func TestWarningsNameTheirEdition(t *testing.T) {
	claim := regexp.MustCompile(`(?i)compl(y|ies|iant)|\bsafe\b|violat`)
	for _, region := range []string{NorthAmerica.Name, Europe.Name} {
		ws, err := Check(region, []Fact{{GroundFaultTrip, 100, "Bath"}})
		if err != nil || len(ws) < 3 {
			t.Fatalf("%s: %d warnings, %v", region, len(ws), err)
		}
		for _, w := range ws {
			if s := w.String(); !strings.Contains(s, w.Edition) || w.Edition == "" || claim.MatchString(s) {
				t.Errorf("%s: %q", region, s)
			}
		}
	}
	ws, _ := Check("europe", []Fact{{GroundFaultTrip, 100, "Bath"}})
	want := "Bath: ground-fault trip is 100 mA, and a residual-current device of 30 mA or less is asked for (IEC " +
		"60364-7-753:2014, 753.411.3.2; check the edition in force)"
	if ws[0].String() != want {
		t.Errorf("got  %s\nwant %s", ws[0], want)
	}
}

func TestCheckRefuses(t *testing.T) {
	if _, err := Check("atlantis", nil); err == nil || !strings.Contains(err.Error(),
		"north america or europe or elsewhere") {
		t.Errorf("unknown region: %v", err)
	}
	if _, err := Check("europe", []Fact{{CircuitAmps, math.NaN(), "Bath"}}); err == nil {
		t.Error("a load that is not a number: no error")
	}
}

func TestEveryRuleBelongsToARegion(t *testing.T) {
	for _, r := range Rules {
		if !slices.Contains(RegionNames(), r.Region) || r.Edition == "" || r.Text == "" || r.Quantity != "" &&
			r.Least == 0 && r.Most == 0 {
			t.Errorf("incomplete rule %+v", r)
		}
	}
}

// The figures of the regions against the standards they are said to be from:
// usual ratings of NEC 2023, 240.6(A), and preferred ones of IEC 60898-1, 5.3.2
// (from memory), 125 % for continuous loads of NEC 210.20(A), none in
// IEC 60364-4-43, 433.1, 4 to 6 mA of UL 943 class A (from memory), 30 mA of
// IEC 60364-7-753, reach of 48 in of the 2010 ADA Standards, 308.
func TestRegionsHoldTheirStandards(t *testing.T) {
	for _, c := range []struct {
		in                               Region
		ratings                          []float64
		factor, contacts, class, highest float64
	}{
		{NorthAmerica, []float64{15, 20, 25, 30, 35, 40, 45, 50, 60}, 1.25, 15, 6, 1219.2},
		{Europe, []float64{6, 10, 13, 16, 20, 25, 32, 40, 50, 63}, 1, 16, 30, 1200},
		{Elsewhere, nil, 1, 15, 0, 1200},
	} {
		if !slices.Equal(c.in.Ratings, c.ratings) {
			t.Errorf("%s: ratings %v, want %v", c.in.Name, c.in.Ratings, c.ratings)
		}
		near(t, c.in.Name+" factor", c.in.Continuous.Value, c.factor, 1e-9)
		near(t, c.in.Name+" contacts", c.in.Contacts.Value, c.contacts, 1e-9)
		near(t, c.in.Name+" class", c.in.FaultClass.Value, c.class, 1e-9)
		near(t, c.in.Name+" box", c.in.BoxHeight.Value, c.highest, 1e-9)
		if c.in.Continuous.Source == "" || c.in.Contacts.Source == "" || c.in.BoxHeight.Source == "" ||
			(c.ratings == nil) != (c.in.RatingsBy == "") {
			t.Errorf("%s: a figure without its source", c.in.Name)
		}
	}
}

// 16 A on a 16 A circuit-breaker: allowed where the load is held against the
// whole rating, not where 125 % of it is (20 A). Plain arithmetic.
func TestRatingByRegion(t *testing.T) {
	c := cable(t, "H1", 230, 16*230)
	for _, w := range []struct {
		in     Region
		carry  float64
		usable float64
		under  bool
	}{{Europe, 16, 16, true}, {Elsewhere, 16, 16, true}, {NorthAmerica, 20, 12.8, false}} {
		l, err := Total([]Cable{c}, 0, w.in)
		if err != nil {
			t.Fatal(err)
		}
		row := l.Bindings([]float64{16})[0]
		near(t, w.in.Name+" carries", l.Continuous, w.carry, 1e-9)
		near(t, w.in.Name+" usable", row.Usable, w.usable, 1e-9)
		if row.Under != w.under {
			t.Errorf("%s: 16 A on 16 A: %v", w.in.Name, row.Under)
		}
	}
}

// Breakers that copper usually goes behind: 14, 12 and 10 AWG behind 15, 20 and 30 A
// (NEC 240.4(D)); by IEC 60364-5-52, table B.52.2, method A2, 14, 18.5, 25 and 32 A (from
// memory). Those three loaded cores in a conduit on a wall carry, 15, 20, 27 and 34 A (the
// same standard's method B2 as a compressor maker's manual prints it), are a little more.
func TestLeastSizes(t *testing.T) {
	for _, c := range []struct {
		in      Region
		breaker float64
		want    string
	}{
		{NorthAmerica, 15, "14 AWG"}, {NorthAmerica, 15.1, "12 AWG"}, {NorthAmerica, 20, "12 AWG"},
		{NorthAmerica, 30, "10 AWG"}, {NorthAmerica, 35, ""},
		{Europe, 10, "1.5 mm²"}, {Europe, 14, "1.5 mm²"}, {Europe, 16, "2.5 mm²"}, {Europe, 20, "4 mm²"},
		{Europe, 25, "4 mm²"}, {Europe, 32, "6 mm²"}, {Europe, 40, ""}, {Elsewhere, 16, ""},
	} {
		got, ok := c.in.LeastSize(c.breaker)
		if got.Name != c.want || ok != (c.want != "") {
			t.Errorf("%s, %g A: %q, want %q", c.in.Name, c.breaker, got.Name, c.want)
		}
	}
	for i, most := range []float64{15, 20, 27, 34} {
		if s := Europe.Sizes[i]; s.Most >= most || s.Most < 0.9*most {
			t.Errorf("%s behind %g A, where three loaded cores carry %g A", s.Name, s.Most, most)
		}
	}
	for _, r := range All {
		if (r.Sizes == nil) != (r.SizesBy == "") {
			t.Errorf("%s: sizes without their source", r.Name)
		}
		for _, s := range r.Sizes {
			if _, err := FindConductor(s.Name); err != nil {
				t.Errorf("%s: %v", r.Name, err)
			}
			if got, ok := r.SizeNamed(s.Name); !ok || got != s {
				t.Errorf("%s: %v is not found by its name", r.Name, s)
			}
		}
	}
}

func TestRegionByUnits(t *testing.T) {
	for _, c := range []struct {
		name   string
		inches bool
		want   string
	}{{"", true, "north america"}, {"", false, "elsewhere"}, {"europe", true, "europe"}, {"north america", false,
		"north america"}} {
		if got := RegionNamed(c.name, c.inches).Name; got != c.want {
			t.Errorf("%q, inches %v: %s, want %s", c.name, c.inches, got, c.want)
		}
	}
}

// What counts as 125 % of itself in North America (NEC 2023, 210.20(A)) counts as it is where
// IEC 60364 goes; a place of the circuit other than the breaker is called alike everywhere.
func TestRegionsSpeakOfLoads(t *testing.T) {
	if !NorthAmerica.Derated() || Europe.Derated() || Elsewhere.Derated() {
		t.Errorf("derated: %v, %v, %v", NorthAmerica.Derated(), Europe.Derated(), Elsewhere.Derated())
	}
	if got := NorthAmerica.Called("breaker"); got != NorthAmerica.Breaker {
		t.Error(got)
	}
	if got := Europe.Called("breaker"); got != Europe.Breaker || got == "breaker" {
		t.Error(got)
	}
	if got := Europe.Called("thermostat"); got != "thermostat" {
		t.Error(got)
	}
	if OneEnd.Return() || !BothEnds.Return() {
		t.Error("a cable with both cold ends at one end comes back, or one that has to does not")
	}
}
