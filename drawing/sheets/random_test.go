package sheets

import (
	"fmt"
	"math"
	"os"
	"strconv"
	"testing"

	"pgregory.net/rapid"

	"oxturn/drawing"
	"oxturn/layout"
	"oxturn/layout/job"
	"oxturn/layout/plane"
	"oxturn/layout/takeoff"
)

// randomPlan draws a room of 3 to 60 corners round a point, with openings,
// keep-outs and a thermostat anywhere on its walls, in any unit and on any
// paper.
func randomPlan(t *rapid.T) *layout.Plan {
	n := rapid.IntRange(3, 60).Draw(t, "corners")
	var ring plane.Ring
	for i := range n {
		a := 2 * math.Pi * (float64(i) + rapid.Float64Range(-0.3, 0.3).Draw(t, "turn")) / float64(n)
		r := rapid.Float64Range(900, 6000).Draw(t, "reach")
		ring = append(ring, plane.Pt(r*math.Cos(a), r*math.Sin(a)))
	}
	if rapid.Bool().Draw(t, "clockwise") {
		for i, j := 0, n-1; i < j; i, j = i+1, j-1 {
			ring[i], ring[j] = ring[j], ring[i]
		}
	}
	r := job.Room{Name: rapid.SampledFrom([]string{"", "Bath",
		"A room of which the name is long enough to wrap in any title block"}).Draw(t, "name"), Outline: ring}
	for i := range ring {
		r.Walls = append(r.Walls, job.Wall{Letter: fmt.Sprintf("W%d", i), Segment: ring.Edge(i)})
	}
	for range rapid.IntRange(0, 3).Draw(t, "openings") {
		w := rapid.IntRange(0, n-1).Draw(t, "wall")
		r.Openings = append(r.Openings, job.Opening{
			Name: "door", Kind: rapid.SampledFrom([]string{"door", "opening", "window"}).Draw(t, "kind"), Wall: w,
			From: 0.2 * r.Walls[w].Length(), To: 0.7 * r.Walls[w].Length(), Threshold: rapid.Bool().Draw(t,
				"threshold"),
			Swing: rapid.SampledFrom([]string{"in", "out", "slide", "none"}).Draw(t, "swing"),
			Hinge: rapid.SampledFrom([]string{"start", "end"}).Draw(t, "hinge"),
		})
	}
	for range rapid.IntRange(0, 3).Draw(t, "fixtures") {
		c := plane.Pt(rapid.Float64Range(-600, 600).Draw(t, "x"), rapid.Float64Range(-600, 600).Draw(t, "y"))
		r.Fixtures = append(r.Fixtures, job.Fixture{Kind: job.Cabinet, Name: "cabinet",
			Outline: plane.Rectangle(c, c.Add(plane.Pt(300, 200))), Undecided: rapid.Bool().Draw(t, "undecided")})
	}
	w := rapid.IntRange(0, n-1).Draw(t, "box")
	r.Thermostat = job.Thermostat{Wall: w, At: r.Walls[w].At(r.Walls[w].Length() / 2), Along: r.Walls[w].Length() / 2,
		Height: rapid.SampledFrom([]float64{0, 1200}).Draw(t, "height")}
	j := sampleJob(rapid.SampledFrom([]plane.Units{plane.Millimetres, plane.Inches}).Draw(t, "units"))
	j.Rooms = []job.Room{r}
	j.Sheet.Both = rapid.Bool().Draw(t, "both")
	j.Sheet.Size = rapid.SampledFrom([]string{"", "A4", "A3", "letter", "arch C"}).Draw(t, "paper")
	c := sampleCable()
	c.Path = []plane.Point{{X: -500, Y: 0}, {X: 500, Y: 0}, {X: 500, Y: 90}, {X: -500, Y: 90}}
	c.ColdLead = []plane.Point{r.Thermostat.At, c.Path[0]}
	c.Runs, c.Marks = c.Runs[:2], nil
	c.Runs[0].From, c.Runs[0].To, c.Runs[1].From, c.Runs[1].To = c.Path[0], c.Path[1], c.Path[2], c.Path[3]
	floor := plane.FromRing(ring)
	room := layout.Room{Job: &j.Rooms[0], Floor: floor, Tiled: floor, Cables: []layout.Cable{c}}
	if in, err := floor.Grow(-75); err == nil {
		room.Heated, room.Zones = in, []plane.Region{in}
	}
	return &layout.Plan{Job: j, Rooms: []layout.Room{room}, TakeOff: takeoff.List{}}
}

// TestRandomRooms: whatever the room, every sheet keeps the rules, and the same
// plan gives the same sheets. OXTURN_ROOMS asks for more rooms than a few.
func TestRandomRooms(t *testing.T) {
	rooms := 5
	if n, err := strconv.Atoi(os.Getenv("OXTURN_ROOMS")); err == nil {
		rooms = n
	}
	plans := rapid.Custom(randomPlan)
	for seed := range rooms {
		p := plans.Example(seed)
		var set []*drawing.Sheet
		if t.Run(strconv.Itoa(seed), func(t *testing.T) { set = checkedSet(t, p) }) && seed%4 == 0 {
			if again, err := Set(p); err != nil || dump(set) != dump(again) {
				t.Errorf("room %d drawn twice: the sheets differ, %v", seed, err)
			}
		}
		write(t, "random-"+strconv.Itoa(seed), set)
	}
}
