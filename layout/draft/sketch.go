package draft

import (
	"math"
	"strings"

	"oxturn/layout/job"
	"oxturn/layout/plane"
)

// How large a sketch is at most, in characters, and how much taller than wide one is.
const (
	sketchWide     = 44
	sketchHigh     = 16
	letterTallness = 2.0
)

// Sketch draws a line through points in characters, north up, with a letter on each
// stretch.
func Sketch(line []plane.Point) []string {
	box := plane.Bounds(line)
	each := math.Max(box.W()/(sketchWide-1), box.H()/(sketchHigh-1)/letterTallness)
	if len(line) < 2 || each == 0 {
		return nil
	}
	wide, high := int(math.Round(box.W()/each))+1, int(math.Round(box.H()/each/letterTallness))+1
	grid := make([][]rune, high)
	for i := range grid {
		grid[i] = []rune(strings.Repeat(" ", wide))
	}
	set := func(p plane.Point, mark rune) {
		x, y := int(math.Round((p.X-box.Min.X)/each)), int(math.Round((box.Max.Y-p.Y)/each/letterTallness))
		grid[y][min(x, wide-1)] = mark // a name's second letter may lie beyond
	}
	for _, s := range plane.Segments(line) {
		n := int(s.Length()/each) + 1
		for k := range n + 1 {
			set(s.A.Lerp(s.B, float64(k)/float64(n)), '·')
		}
	}
	for i, s := range plane.Segments(line) {
		for k, letter := range job.WallLetter(i) {
			set(s.A.Lerp(s.B, 0.5).Add(plane.Pt(float64(k)*each, 0)), letter)
		}
	}
	set(line[0], 'o')
	out := make([]string, high)
	for i, row := range grid {
		out[i] = strings.TrimRight(string(row), " ")
	}
	return out
}
