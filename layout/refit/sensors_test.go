package refit_test

import (
	"slices"
	"strings"
	"testing"

	"oxturn/layout"
	"oxturn/layout/internal/hand"
	"oxturn/layout/internal/trial"
	"oxturn/layout/plane"
	"oxturn/layout/refit"
)

// over is a short path across a place.
func over(at plane.Point) []plane.Point {
	return []plane.Point{at.Add(plane.Pt(-20, 0)), at.Add(plane.Pt(20, 0))}
}

// A sensor under the path is placed again, where it is clear of the room's cable; the other
// stays where it was planned, and what was found on the floor stays in any case.
func TestSensorsUnderThePathArePlacedAgain(t *testing.T) {
	p := trial.Laid(t, hand.Bath)
	r := p.Rooms[0]
	planned := slices.Clone(r.Sensors)
	if len(planned) != 2 {
		t.Fatalf("%+v", planned)
	}
	far := plane.Pt(1200, 900)
	for _, k := range []struct {
		name   string
		path   []plane.Point
		change func(s []layout.Sensor)
		moves  []string // in the order planned; 0 after a name: no place was found
		same   int      // sensors that stay where they were
	}{
		{"neither lies under it", r.Cables[0].Path, func(s []layout.Sensor) {}, nil, 2},
		{"the sensor was found there", over(planned[0].Tip), func(s []layout.Sensor) { s[0].Found = &s[0].Tip }, nil,
			2},
		{"the sensor, planned elsewhere", over(far), func(s []layout.Sensor) { s[0].Tip = far }, []string{"S1"}, 1},
		{"the spare, planned elsewhere", over(far), func(s []layout.Sensor) { s[1].Tip = far }, []string{"S2"}, 1},
		{"the spare, its sensor found", over(far), func(s []layout.Sensor) { s[1].Tip, s[0].Found = far, &far },
			[]string{"S2"}, 1},
		{"the spare, its sensor planned 90 mm off", over(far),
			func(s []layout.Sensor) { s[0].Tip, s[0].Lead, s[1].Tip = s[0].Tip.Add(plane.Pt(90, 0)), nil, far },
			[]string{"S2"}, 1},
		{"all of three", over(far), func(s []layout.Sensor) { s[0].Tip, s[1].Tip, s[2].Tip = far, far, far },
			[]string{"S1", "S2", "S3 0"}, 0},
		{"two of three", over(far), func(s []layout.Sensor) { s[1].Tip, s[2].Tip = far, far }, []string{"S2", "S3 0"},
			1},
	} {
		r := p.Rooms[0]
		s := slices.Clone(planned)
		if strings.HasSuffix(k.name, "three") {
			s = append(s, layout.Sensor{Name: "S3", Spare: true, Tip: s[1].Tip, Lead: s[1].Lead})
		}
		k.change(s)
		r.Sensors = slices.Clone(s)
		var names []string
		for _, m := range refit.MoveSensors(&r, s, k.path, p.Job) {
			name := m.Name
			if m.To == nil {
				name += " 0"
			}
			names = append(names, name)
		}
		if !slices.Equal(names, k.moves) {
			t.Errorf("%s: moved %v, want %v", k.name, names, k.moves)
		}
		same := 0
		for i, now := range r.Sensors {
			if now.Tip == s[i].Tip {
				same++
			}
			if now.Name != s[i].Name || now.Spare != s[i].Spare || now.Found != s[i].Found {
				t.Errorf("%s: %+v is %+v now", k.name, s[i], now)
			}
			if now.Found == nil && plane.PathDistance(r.Cables[0].Path, now.Tip) < 30-1 {
				t.Errorf("%s: %s lies %g mm from the cable", k.name, now.Name, plane.PathDistance(r.Cables[0].Path,
					now.Tip))
			}
			for _, other := range r.Sensors[:i] {
				if other.Tip.Dist(now.Tip) < 100 {
					t.Errorf("%s: %s and %s lie at one place", k.name, other.Name, now.Name)
				}
			}
		}
		if same != k.same {
			t.Errorf("%s: %d stay, want %d", k.name, same, k.same)
		}
	}
	found := planned[0].Tip
	tape := layout.NewTape(r.Job, plane.Millimetres)
	to := plane.Pt(900, 500)
	for want, m := range map[string]refit.SensorMove{
		"S1 moves: " + tape.Place(to) + "; planned " + tape.Place(found): {"S1", found, &to},
		"S2, planned " + tape.Place(found) + ", comes under the cable":   {"S2", found, nil},
	} {
		if got := m.Words(tape); !strings.HasPrefix(got, want) {
			t.Errorf("%q, want %q", got, want)
		}
	}
}
