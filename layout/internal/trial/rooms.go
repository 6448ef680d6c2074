package trial

import (
	"fmt"
	"math/rand/v2"
)

// SomeRoom is a rectangle or an L with one to four cables that about fill it, laid
// on a membrane of any pitch, the box anywhere on the first wall.
func SomeRoom(rnd *rand.Rand) string {
	pitch := []float64{30, 37.5, 60, 120}[rnd.IntN(4)]
	w, h := 1700+1300*rnd.Float64(), 1500+1000*rnd.Float64()
	if pitch > 100 {
		w, h = 2*w, 2*h
	}
	area, corners := w*h, fmt.Sprintf("[0, 0], [%.0f, 0], [%.0f, %.0f], [0, %.0f]", w, w, h, h)
	if rnd.IntN(2) > 0 {
		area, corners = 0.75*area, fmt.Sprintf("[0, 0], [%.0f, 0], [%.0f, %.0f], [%.0f, %.0f], [%.0f, %.0f], "+
			"[0, %.0f]",
			w, w, h/2, w/2, h/2, w/2, h, h)
	}
	text := fmt.Sprintf("units = \"mm\"\n[membrane]\npitch = %v\nbend_radius = %v\n[spacing]\nclosest = %d\nwidest "+
		"= 4\n", pitch, min(pitch/2, 25), 1+int(60/pitch)/2)
	n, ends := 1+rnd.IntN(4), []string{"one", "one", "both"}[rnd.IntN(3)]
	length := (area - 2*(w+h)*60) / (2.9 * pitch) / float64(n)
	ids := ""
	for k := range n {
		text += fmt.Sprintf("[[cable]]\nid = \"C%d\"\nvolts = 240\nwatts = %.0f\nlength = \"%.0f mm\"\nlead = \"12 "+
			"m\"\nends = %q\n", k, length/100, length, ends)
		ids += fmt.Sprintf("%q, ", fmt.Sprintf("C%d", k))
	}
	return text + fmt.Sprintf("[[room]]\nname = \"Some\"\ncorners = [%s]\ncables = [%s]\n[room.thermostat]\nat = "+
		"[%.0f, 0]\n", corners, ids, w*(0.1+0.8*rnd.Float64()))
}
