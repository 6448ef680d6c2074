package drawing

import (
	"strings"

	"oxturn/layout/plane"
)

// A Scale is a standard drawing scale. Ratio is how many mm of floor one mm
// of paper stands for.
type Scale struct {
	Ratio float64
	Name  string // as printed: "1:20", `1/2" = 1'-0"`
}

// MetricScales returns the scales of ISO 5455, large to small.
func MetricScales() []Scale {
	return []Scale{
		{0.2, "5:1"}, {0.5, "2:1"}, {1, "1:1"}, {2, "1:2"}, {5, "1:5"}, {10, "1:10"}, {20, "1:20"},
		{50, "1:50"}, {100, "1:100"}, {200, "1:200"}, {500, "1:500"}, {1000, "1:1000"},
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

// ParseScale reads a scale as a person writes it: "1:20", `1/2" = 1'-0"`,
// "1/2in = 1ft", "full size". Only standard scales are known.
func ParseScale(text string) (Scale, bool) {
	for _, s := range append(MetricScales(), InchScales()...) {
		if scaleKey(s.Name) == scaleKey(text) {
			return s, true
		}
	}
	return Scale{}, false
}

// scaleKey spells every way of writing a scale alike.
func scaleKey(s string) string {
	s = strings.ToLower(s)
	s = strings.NewReplacer(" ", "", "-", "", "in", "\"", "ft", "'", "”", "\"", "″", "\"", "’", "'", "′", "'").Replace(s)
	s = strings.NewReplacer("½", "1/2", "¼", "1/4", "¾", "3/4").Replace(s)
	return strings.TrimSuffix(s, `0"`)
}

// BestScale returns the largest of scales, given large to small, at which a
// drawing of w x h mm of floor fits field. ok is false when none is small
// enough.
func BestScale(w, h float64, field Box, scales []Scale) (s Scale, ok bool) {
	const slack = 1e-6 // a drawing that fills its field exactly does fit
	for _, s := range scales {
		if w/s.Ratio <= field.W()+slack && h/s.Ratio <= field.H()+slack {
			return s, true
		}
	}
	return Scale{}, false
}
