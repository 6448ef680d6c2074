package record

import (
	"testing"
	"time"
)

func TestEarliestUse(t *testing.T) {
	day := func(m time.Month, d int) time.Time { return time.Date(2026, m, d, 0, 0, 0, 0, time.UTC) }
	layers := []Cure{
		{"fill mortar", day(3, 2), 7},
		{"bed mortar", day(3, 4), 14},
		{"grout", day(3, 6), 3},
	}
	use, ok := EarliestUse(layers)
	if !ok || !use.Date.Equal(day(3, 18)) || use.Layer != "bed mortar" || !use.Stated {
		t.Errorf("%+v, %v", use, ok)
	}
	// 28 days for cement where nothing is stated: common practice
	layers[2].Days = 0
	use, ok = EarliestUse(layers)
	if !ok || !use.Date.Equal(day(4, 3)) || use.Layer != "grout" || use.Stated || use.Days != 28 {
		t.Errorf("%+v, %v", use, ok)
	}
}

func TestNoDayIsGuessed(t *testing.T) {
	day := time.Date(2026, 3, 2, 0, 0, 0, 0, time.UTC)
	for name, layers := range map[string][]Cure{
		"nothing":     nil,
		"no date":     {{"grout", day, 3}, {"bed mortar", time.Time{}, 14}},
		"minus a day": {{"grout", day, -1}},
	} {
		if use, ok := EarliestUse(layers); ok {
			t.Errorf("%s: %+v", name, use)
		}
	}
}
