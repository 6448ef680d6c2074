package sheets

import (
	"fmt"
	"math"
	"slices"
	"strings"
	"testing"

	"oxturn/drawing"
	"oxturn/drawing/setting"
)

// wideRoom is too large for small paper: its runs, about 85 mm apart, would lie closer than 1.2 mm on it.
const wideRoom = `units = "mm"
[job]
title = "Hall"
[membrane]
pitch = "30 mm"
[supply]
volts = 240
[[cable]]
id = "C245"
volts = 240
watts = 2400
length = "245 m"
ohms = 24.0
lead = "6 m"
[[room]]
name = "Hall"
cables = ["C245", "C245"]
corners = [%s]
[room.thermostat]
at = [%s]
height = 1200
[sheet]
size = "%s"
`

// onSquare and askew are the corners of one L, square to the sheet and turned by an angle whose sine is 0.6.
const (
	onSquare = "[0, 0], [9000, 0], [9000, 5000], [4000, 5000], [4000, 3600], [0, 3600]"
	askew    = "[0, 0], [7200, 5400], [4200, 9400], [200, 6400], [1040, 5280], [-2160, 2880]"
)

// partsOf returns the plan's sheets of parts.
func partsOf(pages []*setting.Page) (out []*setting.Page) {
	for _, pg := range pages {
		if kindNamed(partsID).Has(pg.Sheet.ID) {
			out = append(out, pg)
		}
	}
	return out
}

// TestPartsHoldTheWholeCable: cut at their match lines, the sheets of a floor in parts show each piece of its cable
// once: together as much as the floor has, and runs no closer on paper than they are told apart.
func TestPartsHoldTheWholeCable(t *testing.T) {
	for name, text := range map[string]string{
		"square, A4":     fmt.Sprintf(wideRoom, onSquare, "5000, 0", "A4"),
		"askew, A4":      fmt.Sprintf(wideRoom, askew, "4000, 3000", "A4"),
		"square, letter": fmt.Sprintf(wideRoom, onSquare, "5000, 0", "letter"),
	} {
		t.Run(name, func(t *testing.T) {
			p := planOf(t, text)
			d, err := draw(p)
			if err != nil {
				t.Fatal(err)
			}
			d.checked(t)
			parts := partsOf(d.pages)
			if len(parts) < 2 {
				t.Fatalf("%d parts", len(parts))
			}
			ratio := parts[0].Sheet.Ratio
			got, want := 0.0, 0.0
			for _, pg := range parts {
				got += ratio * cableIn(pg.Sheet, within(pg.Sheet))
			}
			for _, c := range p.Rooms[0].Cables {
				if c.Spacing/ratio < setting.ToldApart {
					t.Errorf("runs are %.2f mm apart on the sheets of parts, want %v or more", c.Spacing/ratio,
						setting.ToldApart)
				}
				whole := drawing.Rounded(drawing.View{Ratio: ratio}.Pts(c.Path), c.BendRadius/ratio)
				want += ratio * lengthOf(drawing.Flatten(whole, 0.02))
			}
			if math.Abs(got-want) > 0.002*want {
				t.Errorf("the parts show %.0f mm of cable, the floor has %.0f", got, want)
			}
		})
	}
}

// within is what the match lines of a sheet leave of it: its own part.
func within(s *drawing.Sheet) drawing.Box {
	all := drawing.BoxOfItems(s.Items)
	var lines []drawing.Box
	var seen drawing.Box // of the cable
	for _, it := range s.Items {
		p, ok := it.(*drawing.Path)
		switch {
		case !ok:
		case p.Title == "match line":
			lines = append(lines, p.Box())
		case strings.HasPrefix(p.Title, "heating cable") && seen == drawing.Box{}:
			seen = p.Box()
		case strings.HasPrefix(p.Title, "heating cable"):
			seen = seen.Union(p.Box())
		}
	}
	mid := seen.Centre()
	for _, l := range lines {
		at := l.Centre()
		switch upright := l.H() > l.W(); {
		case upright && at.X < mid.X:
			all.X0 = max(all.X0, at.X)
		case upright:
			all.X1 = min(all.X1, at.X)
		case at.Y < mid.Y:
			all.Y0 = max(all.Y0, at.Y)
		default:
			all.Y1 = min(all.Y1, at.Y)
		}
	}
	return all
}

// cableIn is how much heating cable a sheet shows in a box, mm on paper.
func cableIn(s *drawing.Sheet, b drawing.Box) (sum float64) {
	for _, it := range s.Items {
		if p, ok := it.(*drawing.Path); ok && strings.HasPrefix(p.Title, "heating cable") {
			for _, line := range drawing.Flatten(p.Segs, 0.02) {
				sum += lengthOf(b.Pieces(line))
			}
		}
	}
	return sum
}

func lengthOf(lines [][]drawing.Pt) (sum float64) {
	for _, l := range lines {
		for i := 1; i < len(l); i++ {
			sum += l[i-1].Dist(l[i])
		}
	}
	return sum
}

// TestMatchLinesMeet: every match line names the part beyond it, and that part has the same line back, as far
// from the same datum.
func TestMatchLinesMeet(t *testing.T) {
	d, err := draw(planOf(t, fmt.Sprintf(wideRoom, onSquare, "5000, 0", "A4")))
	if err != nil {
		t.Fatal(err)
	}
	parts := partsOf(d.pages)
	said := map[[2]int][]string{} // from part to part: where
	for i, pg := range parts {
		for _, x := range pg.Sheet.Texts() {
			words, ok := strings.CutPrefix(x.Text, "Match line, part ")
			if !ok {
				continue
			}
			var to int
			fmt.Sscan(words, &to)
			_, at, _ := strings.Cut(words, ": ")
			said[[2]int{i + 1, to}] = append(said[[2]int{i + 1, to}], at)
		}
	}
	if len(said) < 2 {
		t.Fatalf("match lines: %v", said)
	}
	for k, at := range said {
		back := said[[2]int{k[1], k[0]}]
		if len(at) != 1 || !slices.Equal(at, back) || !strings.Contains(at[0], "from D") {
			t.Errorf("part %d meets %d %q, and back %q", k[0], k[1], at, back)
		}
	}
}

// TestNoPartsWithoutNeed: a floor whose runs are told apart, or whose scale the job asks for, is not parted.
func TestNoPartsWithoutNeed(t *testing.T) {
	for name, text := range map[string]string{
		"larger paper": fmt.Sprintf(wideRoom, onSquare, "5000, 0", "A1"),
		"own scale":    fmt.Sprintf(wideRoom, onSquare, "5000, 0", "A4") + "scale = \"1:100\"\n",
	} {
		d, err := draw(planOf(t, text))
		if err != nil {
			t.Fatalf("%s: %v", name, err)
		}
		if got := partsOf(d.pages); len(got) > 0 {
			t.Errorf("%s: %d parts", name, len(got))
		}
	}
}

// TestTooManyParts: where the sheets of parts would be more than anyone finds his place on, the notes say what
// helps.
func TestTooManyParts(t *testing.T) {
	p := planOf(t, fmt.Sprintf(wideRoom, onSquare, "5000, 0", "A4"))
	for i := range p.Rooms[0].Cables {
		p.Rooms[0].Cables[i].Spacing = 20 // told apart at 1:10 only
	}
	d, err := draw(p)
	if err != nil {
		t.Fatal(err)
	}
	if got := partsOf(d.pages); len(got) > 0 {
		t.Errorf("%d parts", len(got))
	}
	told := func(pg *setting.Page) bool { return strings.Contains(said(pg.Sheet), "runs lie too close") }
	if !slices.ContainsFunc(d.pages, told) {
		t.Error("no note says that larger paper helps")
	}
}

// TestWholeFloorShowsItsParts: the sheet of all of a floor has the lines between its parts, and names each once.
func TestWholeFloorShowsItsParts(t *testing.T) {
	for _, paper := range []string{"A4", "letter"} {
		d, err := draw(planOf(t, fmt.Sprintf(wideRoom, onSquare, "5000, 0", paper)))
		if err != nil {
			t.Fatal(err)
		}
		parts, lines := len(partsOf(d.pages)), 0
		if parts < 2 {
			t.Fatalf("%s: %d parts", paper, parts)
		}
		whole := sheet(t, d.set, "field-sheet")
		for _, it := range whole.Items {
			if p, ok := it.(*drawing.Path); ok && p.Title == "match line" {
				lines++
			}
		}
		if lines < parts-1 {
			t.Errorf("%s: %d lines between %d parts", paper, lines, parts)
		}
		for i := range parts {
			name, n := fmt.Sprintf("part %d", i+1), 0
			for _, x := range whole.Texts() {
				if x.Text == name {
					n++
				}
			}
			if n != 1 {
				t.Errorf("%s: %s is named %d times", paper, name, n)
			}
		}
	}
}
