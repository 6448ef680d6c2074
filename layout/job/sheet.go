package job

import (
	"fmt"
	"strings"

	"oxturn/layout/plane"
	"oxturn/layout/say"
)

// namedScales are the ratios a plan may be drawn at: those that ISO 5455
// recommends, steps between them that scale rulers have, and those of the inch
// scales, written as inches to a foot.
var namedScales = []struct {
	ratio float64
	inch  string
}{
	{1, ""}, {2, ""}, {5, ""}, {10, ""}, {15, ""}, {20, ""}, {25, ""}, {30, ""}, {40, ""},
	{50, ""}, {75, ""}, {100, ""}, {200, ""}, {500, ""},
	{4, "3in"}, {8, "1-1/2in"}, {12, "1in"}, {16, "3/4in"}, {24, "1/2in"}, {32, "3/8in"}, {48, "1/4in"},
	{64, "3/16in"}, {96, "1/8in"}, {128, "3/32in"}, {192, "1/16in"},
}

func (j *Job) readSheet(t table) {
	j.Sheet = Sheet{Size: t.text("size"), Orientation: t.text("orientation"), Scale: strings.TrimSpace(t.text("scale")),
		Units: j.Units,
		Both:  t.flag("both"), North: t.num("north"), Letterhead: t.texts("letterhead")}
	if t.has("field_sheet") {
		wanted := t.flag("field_sheet")
		j.Sheet.FieldSheet = &wanted
	}
	if u := unitsNamed(t.text("units")); u != plane.NoUnits {
		j.Sheet.Units = u
	}
	if j.Sheet.Scale == "" || t.broken() {
		return
	}
	ratio, err := parseScale(j.Sheet.Scale)
	if err != nil {
		t.errorf("scale", `write it as "1:20" or "1/2in = 1ft"`, "scale %q: %v", j.Sheet.Scale, err)
		return
	}
	j.Sheet.Ratio = ratio
	if !standard(ratio) {
		t.errorf("scale", "standard scales: "+scaleList(), "scale %q is 1:%s, which no scale rule has", j.Sheet.Scale,
			figure(ratio))
	}
}

// parseScale reads "1:20" or "1/2in = 1ft" and returns the 20 or the 24.
func parseScale(s string) (float64, error) {
	sep := ":"
	if strings.Contains(s, "=") {
		sep = "="
	}
	left, right, ok := strings.Cut(s, sep)
	if !ok {
		return 0, fmt.Errorf("it is not two lengths, paper and floor")
	}
	paper, err := plane.ParseLength(left, plane.Millimetres)
	if err != nil {
		return 0, err
	}
	floor, err := plane.ParseLength(right, plane.Millimetres)
	if err != nil {
		return 0, err
	}
	if !(paper > 0) || !(floor > 0) {
		return 0, fmt.Errorf("both of its sides must be above 0")
	}
	return floor / paper, nil
}

// sameScale is the share within which two scales are one.
const sameScale = 1e-9

func standard(ratio float64) bool {
	for _, s := range namedScales {
		if ratio > s.ratio*(1-sameScale) && ratio < s.ratio*(1+sameScale) {
			return true
		}
	}
	return false
}

func scaleList() string {
	var out []string
	for _, s := range namedScales {
		if s.inch == "" {
			out = append(out, fmt.Sprintf("1:%.0f", s.ratio))
		} else {
			out = append(out, s.inch+" = 1ft")
		}
	}
	return strings.Join(out, ", ")
}

// Printed is the system that a job is printed in.
func (j *Job) Printed() plane.Units {
	if j.Sheet.Units != plane.NoUnits {
		return j.Sheet.Units
	}
	return j.Units
}

// Both is what is said in the job's language, and after it in the second where it has two.
func (j *Job) Both(said func(f say.Figures) string) string {
	out := said(j.Figures())
	for _, l := range j.Also {
		f := j.Figures()
		f.Language = l
		out += setBetween + said(f)
	}
	return out
}

// setBetween stands between a text and the same in a second language.
const setBetween = " / "

// Figures write what the job's sheets say, in their language and units.
func (j *Job) Figures() say.Figures {
	return say.Figures{Language: j.Language, Units: j.Printed(), Both: j.Sheet.Both}
}
