package plancode

import (
	"strings"
	"testing"

	"pgregory.net/rapid"

	"oxturn/layout/plane"
)

func TestEverySlipOfOneLetterAndEverySwapIsNoticed(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		code := spell(rapid.SliceOfN(rapid.Byte(), 32, 32).Draw(t, "sum"))
		if got, err := Parse(code); err != nil || got != code {
			t.Fatalf("Parse(%q) = %q, %v", code, got, err)
		}
		plain := strings.ReplaceAll(code, "-", "")
		for i := range plain {
			for _, r := range codeLetters {
				if slip := plain[:i] + string(r) + plain[i+1:]; slip != plain {
					refused(t, code, slip)
				}
			}
			if i > 0 && plain[i] != plain[i-1] {
				refused(t, code, plain[:i-1]+plain[i:i+1]+plain[i-1:i]+plain[i+1:])
			}
		}
	})
}

func refused(t *rapid.T, code, slip string) {
	if got, err := Parse(slip); err == nil {
		t.Fatalf("%s misread as %s passes for %s", code, slip, got)
	}
}

func TestACodeIsReadAsPeopleWriteIt(t *testing.T) {
	want := Of(nil)
	for _, s := range []string{strings.ToLower(want), strings.ReplaceAll(want, "-", ""), " " + strings.ReplaceAll(want,
		"-", " ") + " "} {
		if got, err := Parse(s); err != nil || got != want {
			t.Errorf("Parse(%q) = %q, %v; want %q", s, got, err, want)
		}
	}
	for s, words := range map[string]string{"": "no plan code", "7KF": "no plan code", "7KF-4R0": "never in one",
		"ÄÖÜ-ÄÖÜ": "never in one"} {
		if _, err := Parse(s); err == nil || !strings.Contains(err.Error(), words) {
			t.Errorf("Parse(%q): %v; want %q in it", s, err, words)
		}
	}
	if _, err := Parse(Example); err != nil {
		t.Error(err)
	}
}

// Of pairs that are taken for each other in print or by hand, one at most is in a code.
func TestNoTwoLettersLookAlike(t *testing.T) {
	for _, pair := range []string{"0O", "0D", "0Q", "1I", "1L", "2Z", "5S", "8B", "6G", "UV", "4A", "VY"} {
		if strings.Contains(codeLetters, pair[:1]) && strings.Contains(codeLetters, pair[1:]) {
			t.Errorf("%c and %c are both in a code", pair[0], pair[1])
		}
	}
}

func room() Room {
	return Room{Name: "Bath", Origin: plane.Pt(75, 75), Pitch: 30, Angle: 12.5,
		Cables: []Cable{{ID: "H1", Label: "A", Length: 10000, Path: []plane.Point{{X: 75, Y: 75}, {X: 75, Y: 975}},
			ColdLead: []plane.Point{{X: 0, Y: 0}, {X: 75, Y: 75}},
			Return:   []plane.Point{{X: 10, Y: 20}}}},
		Sensors: []Sensor{{Name: "S1", Tip: plane.Pt(300, 300), Lead: []plane.Point{{X: 0, Y: 0}, {X: 300, Y: 300}}}}}
}

func TestEveryPartOfThePlanCountsForItsCode(t *testing.T) {
	was := map[string]string{Of([]Room{room()}): "nothing changed"}
	for what, change := range map[string]func(*Room){
		"name":   func(r *Room) { r.Name = "Hall" },
		"origin": func(r *Room) { r.Origin.Y += 0.2 }, "angle": func(r *Room) { r.Angle += 0.001 },
		"pitch": func(r *Room) { r.Pitch += 0.2 },
		"id":    func(r *Room) { r.Cables[0].ID = "H2" }, "label": func(r *Room) { r.Cables[0].Label = "B" },
		"length":    func(r *Room) { r.Cables[0].Length++ },
		"path":      func(r *Room) { r.Cables[0].Path[1].Y += 0.2 },
		"cold lead": func(r *Room) { r.Cables[0].ColdLead[0].X -= 0.2 },
		"return":    func(r *Room) { r.Cables[0].Return[0].X += 0.2 },
		"no return": func(r *Room) { r.Cables[0].Return = nil },
		"sensor":    func(r *Room) { r.Sensors[0].Name = "S2" }, "tip": func(r *Room) { r.Sensors[0].Tip.X += 0.2 },
		"sensor lead": func(r *Room) { r.Sensors[0].Lead[1].X += 0.2 },
	} {
		r := room()
		change(&r)
		code := Of([]Room{r})
		if other, ok := was[code]; ok {
			t.Errorf("%s: the code %s is the one of %s", what, code, other)
		}
		was[code] = what
	}
}

// Machines differ in the last bits: by up to 1e-9 mm on a floor of some metres.
func TestTheLastBitsDoNotChangeACode(t *testing.T) {
	for _, x := range []float64{76.25, 12.65, 1e4 + 0.05, -0.05, 0} {
		for _, off := range []float64{1e-9, -1e-9} {
			a, b := room(), room()
			a.Cables[0].Path[0].X, b.Cables[0].Path[0].X = x, x+off
			if Of([]Room{a}) != Of([]Room{b}) {
				t.Errorf("%v and %v give two codes", x, x+off)
			}
		}
	}
}

// What is less than a tenth of a millimetre apart is one plan, but where it falls
// to either side of a rounding.
func TestATenthOfAMillimetreIsTheSamePlan(t *testing.T) {
	a, b := room(), room()
	a.Cables[0].Path[0].X, b.Cables[0].Path[0].X = 76.26, 76.34
	if Of([]Room{a}) != Of([]Room{b}) {
		t.Error("0.08 mm make another plan")
	}
	b.Cables[0].Path[0].X = 76.36
	if Of([]Room{a}) == Of([]Room{b}) {
		t.Error("76.3 and 76.4 mm are one plan")
	}
}
