package drawing

import "oxturn/layout/plane"

// A Scale is a standard drawing scale. Ratio is how many mm of floor one mm
// of paper stands for.
type Scale struct {
	Ratio float64
	Name  string // as printed: "1:20", `1/2" = 1'-0"`
}

// MetricScales returns the scales of ISO 5455, large to small, and between 1:10 and
// 1:100, where it leaves half or more of a sheet empty, the steps of the usual scale rulers.
func MetricScales() []Scale {
	return []Scale{
		{0.2, "5:1"}, {0.5, "2:1"}, {1, "1:1"}, {2, "1:2"}, {5, "1:5"}, {10, "1:10"}, {15, "1:15"},
		{20, "1:20"}, {25, "1:25"}, {30, "1:30"}, {40, "1:40"}, {50, "1:50"}, {75, "1:75"}, {100, "1:100"},
		{200, "1:200"}, {500, "1:500"}, {1000, "1:1000"},
	}
}

// InchScales returns the architect's scales, large to small: so many inches
// on paper for a foot.
func InchScales() []Scale {
	return []Scale{
		{1, `FULL SIZE`}, {2, `6" = 1'-0"`}, {4, `3" = 1'-0"`}, {8, `1 1/2" = 1'-0"`}, {12, `1" = 1'-0"`},
		{16, `3/4" = 1'-0"`}, {24, `1/2" = 1'-0"`}, {32, `3/8" = 1'-0"`}, {48, `1/4" = 1'-0"`},
		{64, `3/16" = 1'-0"`}, {96, `1/8" = 1'-0"`}, {128, `3/32" = 1'-0"`}, {192, `1/16" = 1'-0"`},
	}
}

// ScalesFor returns the scales that belong to u: the inch scales for Inches,
// else the metric ones.
func ScalesFor(u plane.Units) []Scale {
	if u == plane.Inches {
		return InchScales()
	}
	return MetricScales()
}

// ScaleOf returns the standard scale of that ratio, metric before inch unless
// u is Inches. ok is false for a ratio in neither series.
func ScaleOf(ratio float64, u plane.Units) (s Scale, ok bool) {
	for _, s := range append(ScalesFor(u), append(MetricScales(), InchScales()...)...) {
		if s.Ratio == ratio {
			return s, true
		}
	}
	return Scale{}, false
}
