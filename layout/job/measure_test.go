package job

import "testing"

func TestQuantities(t *testing.T) {
	tests := []struct {
		in    string
		units []unit
		want  float64
		ok    bool
	}{
		{"30deg", angleUnits, 30, true}, {"-12.5 °", angleUnits, -12.5, true}, {"10 %", shareUnits, 0.1, true},
		{"6.5 m2", areaUnits, 6.5, true}, {"70 ft²", areaUnits, 6.5032128, true}, {"70 SQ FT", areaUnits, 6.5032128,
			true},
		{"14.5 L", volumeUnits, 14.5, true}, {"310 ml", volumeUnits, 0.31, true}, {"1 gal", volumeUnits, 3.785411784,
			true}, {"0.5 ft3", volumeUnits, 14.158423296, true},
		{"50 lb", massUnits, 22.6796185, true}, {"12 W/ft2", densityUnits, 129.16692500, true},
		{"12", areaUnits, 0, false}, {"m2", areaUnits, 0, false}, {"", areaUnits, 0, false},
		{"1 acre", areaUnits, 0, false}, {"1.2.3 m2", areaUnits, 0, false},
	}
	for _, c := range tests {
		got, err := quantity(c.in, c.units)
		if (err == nil) != c.ok {
			t.Errorf("%q: %v", c.in, err)
		}
		near(t, c.in, got, c.want, 1e-6)
	}
}

func TestNearest(t *testing.T) {
	names := []string{"height", "name", "at", "keep_out", "north-east", "A240-60", "A240-80"}
	for in, want := range map[string]string{"hieght": "height", "heigth": "height", "keep-out": "keep_out",
		"KeepOut": "keep_out", "nmae": "name", "at": "at", "ta": "at", "zz": "", "north east": "north-east",
		"A240-06": "A240-60", "": "", "height above floor": "height", "North": "north-east", "A240": "", "k": ""} {
		if got := nearest(in, names); got != want {
			t.Errorf("%q: %q, want %q", in, got, want)
		}
	}
}
