package circuit

import (
	"math"
	"testing"
)

// Between 20 and 25 °C of the published 3977 table, straight ohms give 10,996
// at 23 °C (a service manual's own example, 0.7 % off); the curve between
// points must be ten times nearer to the family's curve, 10,922.6.
func TestTableBetweenPoints(t *testing.T) {
	tab, err := NewTable([]RT{{25, 10000}, {20, 12490}})
	if err != nil {
		t.Fatal(err)
	}
	near(t, "Ω at 23 °C", ohms(t, tab, 23), 10922.6, (10996-10922.6)/10)
	near(t, "°C back", celsius(t, tab, ohms(t, tab, 23)), 23, 1e-9)
}

// Every point of a table is met exactly, ends included, nothing beyond.
func TestTableAtItsPoints(t *testing.T) {
	for _, name := range []string{"sensor-10k-3977.csv", "sensor-pt1000.csv"} {
		var points []RT
		for _, row := range table(t, name) {
			points = append(points, RT{row[0], row[1]})
		}
		tab, err := NewTable(points)
		if err != nil {
			t.Fatal(err)
		}
		for _, p := range points {
			near(t, "Ω", ohms(t, tab, p.Celsius), p.Ohms, 1e-9*p.Ohms)
			near(t, "°C", celsius(t, tab, p.Ohms), p.Celsius, 1e-9)
		}
		low, high := tab.Range()
		for _, at := range []float64{low - 0.1, high + 0.1, math.NaN()} {
			if _, err := tab.Ohms(at); err == nil {
				t.Errorf("%s at %g °C: no error", name, at)
			}
		}
		if _, err := tab.Celsius(1e9); err == nil {
			t.Errorf("%s at 1 GΩ: no error", name)
		}
	}
}

func TestUnusableTables(t *testing.T) {
	for name, points := range map[string][]RT{
		"empty":        nil,
		"one point":    {{20, 10000}},
		"twice":        {{20, 10000}, {20, 9000}},
		"up and down":  {{10, 100}, {20, 90}, {30, 95}},
		"flat":         {{10, 100}, {20, 100}},
		"flat later":   {{10, 100}, {20, 110}, {30, 110}},
		"zero ohms":    {{10, 100}, {20, 0}},
		"not a number": {{math.NaN(), 100}, {20, 90}},
	} {
		if _, err := NewTable(points); err == nil {
			t.Errorf("%s: no error", name)
		}
	}
	if _, err := (Table{}).Ohms(0); err == nil {
		t.Error("the zero table at 0 °C: no error")
	}
	if _, err := (Table{}).Celsius(100); err == nil {
		t.Error("the zero table at 100 Ω: no error")
	}
}
