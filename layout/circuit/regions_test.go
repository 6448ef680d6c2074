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
	for _, region := range Regions {
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
	want := "Bath: ground-fault trip is 100 mA, and a residual-current device of 30 mA or less is asked for (IEC 60364-7-753:2014, 753.411.3.2; check the edition in force)"
	if ws[0].String() != want {
		t.Errorf("got  %s\nwant %s", ws[0], want)
	}
}

func TestCheckRefuses(t *testing.T) {
	if _, err := Check("atlantis", nil); err == nil || !strings.Contains(err.Error(), "north america or europe") {
		t.Errorf("unknown region: %v", err)
	}
	if _, err := Check("europe", []Fact{{CircuitAmps, math.NaN(), "Bath"}}); err == nil {
		t.Error("a load that is not a number: no error")
	}
}

func TestEveryRuleBelongsToARegion(t *testing.T) {
	for _, r := range Rules {
		if !slices.Contains(Regions, r.Region) || r.Edition == "" || r.Text == "" || r.Quantity != "" && r.Least == 0 && r.Most == 0 {
			t.Errorf("incomplete rule %+v", r)
		}
	}
}
