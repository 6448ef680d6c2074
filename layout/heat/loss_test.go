package heat

import (
	"testing"

	"oxturn/layout/language"

	"pgregory.net/rapid"
)

// A room of a British home-heating page: 63.03 W/K and 1,387 W at 22 K, with 0.33
// for the air where EN 12831 has 0.34.
func TestWorkedRoom(t *testing.T) {
	room := Loss{
		Elements: []Element{{"glass", 3 * 2, 2.9, -1}, {"outside wall", 6 * 2.3, 1.5, -1}, {"floor", 3.3 * 3, 1, -1}},
		Volume:   3.3 * 3 * 2.3, Changes: Range{2, 2}, Inside: 21, Outside: -1,
	}
	got := room.Watts()
	near(t, "W at 22 K", (got.Low+got.High)/2-(0.34-0.33)*2*3.3*3*2.3*22, 1387, 1)
	near(t, "least", got.Low, 0.85*(got.Low+got.High)/2, 1e-9)
}

// Parts of a house worked in ft², °F and Btu/h on another page, each of which
// it gives as a whole number; without the air.
func TestWorkedPartsInBtu(t *testing.T) {
	celsius := func(f float64) float64 { return (f - 32) / 1.8 }
	for _, c := range []struct{ area, inside, beyond, u, btu float64 }{
		{72, 70, 30, 0.18, 518}, {40, 70, 30, 0.51, 816}, {120, 70, 65, 0.38, 228}, {238, 70, 65, 0.29, 345},
		{238, 70, 30, 0.12, 1142}, {16, 65, 30, 0.51, 286},
		{95.75, 65, 30, 0.18, 603}, {231.5, 60, 30, 0.18, 1250}, {80, 60, 30, 0.05, 120}, {238, 65, 30, 0.05, 417},
	} {
		l := Loss{Elements: []Element{{"part", c.area * 0.09290304, c.u * 5.678263, celsius(c.beyond)}},
			Inside: celsius(c.inside)}
		r := l.Watts()
		near(t, "Btu/h", (r.Low+r.High)/2/BtuPerHour, c.btu, 0.6)
	}
}

// 25 ft² of 12 W/ft² are 300 W, 1,024 Btu/h: of the 1,075 Btu/h that a bath in a
// cold place was worked to need, 95 %. The question is one of a builders' forum.
func TestBathOfAForum(t *testing.T) {
	need := 1075 * BtuPerHour
	near(t, "share", Covered(Range{300, 300}, Range{need, need}).Low, 0.952, 0.001)
	if got := (Range{300, 300}).Power(true, language.English); got != "300 to 300 W (1020 to 1020 Btu/h)" {
		t.Error(got)
	}
}

func TestCoveredWords(t *testing.T) {
	for r, want := range map[Range]string{
		{0.551, 0.697}: "covers 55 to 70 % of the loss", {0.9, 2.5}: "covers 90 % of the loss at least",
		{2.1, 3}: "covers the loss more than twice",
	} {
		if got := CoveredWords(r, language.English); got != want {
			t.Errorf("%q, want %q", got, want)
		}
	}
	if r := Covered(Range{100, 120}, Range{0, 0}); CoveredWords(r, language.English) != "covers the loss more than "+
		"twice" {
		t.Errorf("nothing lost: %v", r)
	}
}

// More area, a worse wall, more air or a colder day never lower the loss; the
// range holds its middle.
func TestLossGrows(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		figure := func(name string, low, high float64) float64 { return rapid.Float64Range(low, high).Draw(t, name) }
		l := Loss{Elements: []Element{{"wall", figure("area", 0, 80), figure("u", 0.05, 6), -5}},
			Volume: figure("volume", 0, 200), Inside: 20, Outside: figure("outside", -40, 19)}
		l.Changes = Range{figure("changes", 0, 2), 2}
		was := l.Watts()
		if was.Low > was.High || l.Check() != nil {
			t.Fatalf("%v, %v", was, l.Check())
		}
		l.Elements[0].Area *= 1.1
		l.Outside--
		if now := l.Watts(); now.Low < was.Low || now.High < was.High {
			t.Fatalf("%v fell to %v", was, now)
		}
	})
}
