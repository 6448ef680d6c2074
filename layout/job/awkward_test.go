package job

import (
	"math"
	"os"
	"path/filepath"
	"testing"
)

// Rooms as people type them from the reference: each is read at once, with no more said than
// which word stands for which kind. Their floors by hand, in m².
func TestAwkwardRooms(t *testing.T) {
	const foot = 0.3048
	segment := func(chord, rise float64) float64 { // of a circle, under its chord
		r := (chord*chord/4 + rise*rise) / (2 * rise)
		a := math.Asin(chord / 2 / r)
		return r * r * (a - math.Sin(2*a)/2)
	}
	const bow = (7*7 + 2.5*2.5) / (2 * 2.5) // ft, the radius of 2.5 ft over 14
	areas := map[string][]float64{
		"neo-bath": {11 * 9.5 * foot * foot}, "l-kitchen": {4.8 * 3.6}, "screened-attic": {4.2*3.1 + 0.9*0.3},
		"three-zones": {150 * foot * foot}, "boat-room": {5*2.4 + 2*segment(5, 0.5) + segment(2.4, 0.9)},
		// a straight window of 6 ft along the curve
		"bow-window": {(140 + segment(14, 2.5) - bow*bow/2*(6/bow-math.Sin(6/bow))) * foot * foot},

		"corner-bath": {9 * 8.5 * foot * foot}, "galley": {140 * foot * foot}, "hall": {56 * foot * foot},
		"wet-room": {84 * foot * foot}, "two-zones": {240 * foot * foot}, "attic-bath": {12},
		"bay":        {(12*10 + (2.0+6)/2*2) * foot * foot}, // 34 in aslant are 2 ft each way
		"niche-bath": {2.9*2.35 + 0.9*0.35}, "two-rooms": {20, 14}, "l-hall": {6*1.4 + 1.6*3 + 0.5},
		// a cap of 2.5 m over 4 m, less what the straight window takes off it
		"round-room": {16 + 2.5*2.5/2*(2*math.Asin(0.8)-math.Sin(2*math.Asin(0.8))) - 2.5*2.5/2*(0.4-math.Sin(0.4))},
	}
	for _, file := range glob(t, "testdata/awkward/*.toml") {
		data, err := os.ReadFile(file)
		if err != nil {
			t.Fatal(err)
		}
		j, report := Read(file, data, nil)
		name := filepath.Base(file[:len(file)-len(".toml")])
		for _, d := range report.Diagnostics() {
			if d.ID != "W009" {
				t.Errorf("%s: %s", name, d.Message)
			}
		}
		if len(j.Rooms) != len(areas[name]) {
			t.Fatalf("%s has %d rooms", name, len(j.Rooms))
		}
		for i, r := range j.Rooms {
			if want := areas[name][i]; math.Abs(r.Outline.Area()/1e6-want) > 0.003*want {
				t.Errorf("%s has %.4f m², want %.4f", name, r.Outline.Area()/1e6, want)
			}
		}
	}
}
