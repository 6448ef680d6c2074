package build

import (
	"fmt"
	"strings"
	"testing"

	"oxturn/layout/job"
)

// benchHead begins a job of invented rooms.
const benchHead = `units = "mm"
[job]
title = "A house"
[membrane]
pitch = 30
bend_radius = 15
[spacing]
closest = 2
widest = 5
[supply]
volts = 230
`

// fiftyRooms is a job of 50 rooms from 4 to 14 m²: rectangles, Ls, Us and rooms out of square.
func fiftyRooms() string {
	var cables, rooms strings.Builder
	for i := range 50 {
		w, h := 2200+40*float64(i%20), 2000+37*float64(i*7%50)
		corners := []float64{0, 0, w, 0, w, h, 0, h}
		area := w * h
		switch i % 4 {
		case 1:
			corners = []float64{0, 0, w, 0, w, h / 2, w / 2, h / 2, w / 2, h, 0, h}
			area = 0.75 * w * h
		case 2:
			corners = []float64{0, 0, w, 0, w, h, 0.7 * w, h, 0.7 * w, h / 2, 0.35 * w, h / 2, 0.35 * w, h, 0, h}
			area = 0.825 * w * h
		case 3:
			corners = []float64{0, 0, w, 180, w - 240, h, 60, h - 90}
			area = 0.9 * w * h
		}
		length := 0.8 * area / 100
		fmt.Fprintf(&cables, "[[cable]]\nid = \"K%d\"\nvolts = 230\n"+
			"watts = %.0f\nlength = \"%.0f mm\"\nlead = \"6 m\"\n",
			i, length/100, length)
		fmt.Fprintf(&rooms, "[[room]]\nname = \"Room %d\"\ncables = [\"K%d\"]\ncorners = [", i+1, i)
		for k := 0; k < len(corners); k += 2 {
			fmt.Fprintf(&rooms, "[%.1f, %.1f], ", corners[k], corners[k+1])
		}
		fmt.Fprintf(&rooms, "]\n[room.thermostat]\nat = [%.1f, 0]\nheight = 1200\n", w/3*float64(1-i%4/3))
	}
	return benchHead + cables.String() + rooms.String()
}

// manyCables is a job whose room leaves the choice open among 200 cables.
func manyCables() string {
	var cables strings.Builder
	for i := range 200 {
		length := 6 + 0.9*float64(i)
		fmt.Fprintf(&cables, "[[cable]]\nid = \"K%d\"\nvolts = 230\n"+
			"watts = %.0f\nlength = \"%.1f m\"\nlead = \"4 m\"\n",
			i, length*[]float64{10, 12, 15}[i%3], length)
	}
	return benchHead + cables.String() + `[[room]]
name = "Bath"
corners = [[0, 0], [3600, 0], [3600, 1500], [2100, 1500], [2100, 3000], [0, 3000]]
[room.thermostat]
at = [1200, 0]
height = 1200
`
}

// benchLay lays a job over and over.
func benchLay(b *testing.B, text string) {
	j, said := job.Read("job.toml", []byte(text), nil)
	if j == nil {
		b.Fatal(said)
	}
	for b.Loop() {
		p, _ := Lay(j, Search{})
		for _, r := range p.Rooms {
			if len(r.Cables) == 0 {
				b.Fatalf("%s has no cable", r.Job.Name)
			}
		}
	}
}

func BenchmarkFiftyRooms(b *testing.B) { benchLay(b, fiftyRooms()) }

// BenchmarkTwoHundredCables takes the best of a catalogue of 200; Options looks at those beside it too.
func BenchmarkTwoHundredCables(b *testing.B) {
	b.Run("taken", func(b *testing.B) { benchLay(b, manyCables()) })
	b.Run("compared", func(b *testing.B) {
		j, said := job.Read("job.toml", []byte(manyCables()), nil)
		if j == nil {
			b.Fatal(said)
		}
		for b.Loop() {
			if rooms, wrong := Options(j); len(wrong) > 0 || len(rooms) != 1 {
				b.Fatal(wrong)
			}
		}
	})
}
