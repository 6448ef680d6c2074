package say

import (
	"testing"

	"oxturn/layout/plane"
)

// By NIST SP 811, appendix B: 1 ft = 0.3048 m, 1 ft² = 0.092 903 04 m², t °F = 1.8 t °C
// + 32; so 1 W/ft² is 10.763 91 W/m², and 1 W/ft is 3.280 840 W/m.
func TestQuantities(t *testing.T) {
	const metric, us = plane.Millimetres, plane.Inches
	for _, c := range []struct {
		got, want string
	}{
		{Are(0), "are"}, {Are(1), "is"}, {Are(2), "are"}, {Counted(1, "box"), "1 box"}, {Counted(2, "box"), "2 boxes"},
		{Counted(0, "wall"), "0 walls"},
		{Plural(2, ""), ""}, {Long(60_000, metric), "60.00 m"}, {Long(15_240, us), "50.0 ft"},
		{LongBoth(15_240, us), "50.0 ft (15.24 m)"}, {LongBoth(15_240, metric), "15.24 m (50.0 ft)"},
		{About(60_049, metric), "60.0 m"}, {About(15_240, us), "50.0 ft"},
		{Whole(850.4, metric), "850 mm"}, {Whole(850.9, us), `2'-9 1/2"`}, {Whole(-0.3, metric), "0 mm"},
		{Area(2.5e6, metric), "2.50 m²"}, {Area(2.5e6, us), "26.9 ft²"},
		{AreaBoth(2.5e6, metric), "2.50 m² (26.9 ft²)"}, {AreaBoth(2.5e6, us), "26.9 ft² (2.50 m²)"},
		{Density(102.5, us), "9.5 W/ft²"}, {Density(102.6, metric), "103 W/m²"},
		{DensityBoth(107.64, us), "10.0 W/ft² (108 W/m²)"}, {DensityBoth(161.46, us), "15.0 W/ft² (161 W/m²)"},
		{DensityBoth(161.46, metric), "161 W/m² (15.0 W/ft²)"},
		{PerLength(10, metric), "10.0 W/m"}, {PerLength(10, us), "3.05 W/ft"},
		{Degrees(27, metric), "27 °C"}, {Degrees(27, us), "80.6 °F"}, {Degrees(20.05, metric), "20.1 °C"},
		{Figures{Units: us, Both: true}.Degrees(33), "91.4 °F (33 °C)"}, {Difference(9, us), "16.2 °F"},
		{Difference(9, metric), "9 °C"},
		{Ohms(115), "115.0 Ω"}, {Ohms(126.72), "126.7 Ω"}, {OhmsRange(109.44, 126.72), "109.4 to 126.7 Ω"},
		{SensorOhms(12_491.6), "12492 Ω"}, {SensorOhmsRange(11_900, 13_100.4), "11900 to 13100 Ω"},
		{Megohms(20), "20 MΩ"}, {Megohms(0.5), "0.5 MΩ"},
		{Amps(2.5), "2.50 A"}, {Watts(600), "600 W"}, {Watts(182.275), "182.28 W"},
	} {
		if c.got != c.want {
			t.Errorf("said %q, want %q", c.got, c.want)
		}
	}
}

// Water freezes at 32 °F and boils at 212 °F.
func TestCelsius(t *testing.T) {
	for f, c := range map[float64]float64{32: 0, 212: 100, -40: -40} {
		if got := Celsius(f); got != c {
			t.Errorf("%v °F is %v °C, want %v", f, got, c)
		}
	}
}
