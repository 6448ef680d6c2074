package build_test

import (
	"fmt"
	"math"
	"strings"
	"testing"

	"oxturn/layout"
	"oxturn/layout/internal/trial"
	"oxturn/layout/plane"
)

// parted is a job of one empty room of 6 by 2.4 m with two cables, and more of the room.
func parted(more string) string {
	return "units = \"mm\"\n[membrane]\npitch = 30\n" +
		"[[cable]]\nid = \"A\"\nvolts = 230\nwatts = 528\nlength = \"44 m\"\nlead = \"4 m\"\n" +
		"[[cable]]\nid = \"B\"\nvolts = 230\nwatts = 696\nlength = \"58 m\"\nlead = \"4 m\"\n" +
		"[[cable]]\nid = \"C\"\nvolts = 230\nwatts = 1440\nlength = \"120 m\"\nlead = \"4 m\"\n" +
		"[[room]]\nname = \"Hall\"\ncorners = [[0, 0], [6000, 0], [6000, 2400], [0, 2400]]\n" +
		"[room.thermostat]\nwall = \"A\"\nfrom = 1900\n" + more
}

// off is how near a cable's middle line comes to a shape.
func off(c *layout.Cable, ring plane.Ring) float64 {
	near := math.Inf(1)
	for _, s := range plane.Segments(c.Path) {
		for i := range ring {
			near = math.Min(near, s.Gap(ring.Edge(i)))
		}
	}
	return near
}

// A partition is kept off on both sides by its clearance; through its doorway the one cable
// goes on to the other side.
func TestPartitionWithDoorway(t *testing.T) {
	p, _ := trial.Said(t, strings.Replace(
		parted("[[room.partition]]\nfrom = \"A 3 m\"\nto = \"C 3 m\"\nthickness = 120\n"+
			"[[room.partition.opening]]\nfrom = 400\nwidth = 800\n"), "name = \"Hall\"",
		"name = \"Hall\"\ncables = [\"C\"]", 1))
	r := &p.Rooms[0]
	if n := len(r.Zones); n != 1 {
		t.Fatalf("the floor is in %d pieces", n)
	}
	// By hand: 6 by 2.4 m less a wall of 120 mm over 1.6 m of its 2.4 m.
	if want := 14.4e6 - 120*1600; math.Abs(r.Tiled.Area()-want) > 1 {
		t.Errorf("tiled %.0f mm², want %.0f", r.Tiled.Area(), want)
	}
	c := &r.Cables[0]
	for _, k := range r.Job.KeepOuts {
		if d := off(c, k.Outline); d < 75-0.1 {
			t.Errorf("the cable comes within %.1f mm of %s", d, k.Name)
		}
	}
	sides := [2]bool{}
	for _, at := range c.Path {
		sides[0], sides[1] = sides[0] || at.X < 2900, sides[1] || at.X > 3100
	}
	if !sides[0] || !sides[1] {
		t.Error("the cable does not go through the doorway")
	}
}

// Where two partitions meet, the corner between them is wall as well.
func TestPartitionsMeet(t *testing.T) {
	p, _ := trial.Said(t, parted("[[room.partition]]\nfrom = \"A 3 m\"\nto = [3000, 1500]\nthickness = 100\n"+
		"[[room.partition]]\nfrom = [3000, 1500]\nto = [4000, 1500]\nthickness = 100\n"))
	var all []plane.Region
	for _, k := range p.Rooms[0].Job.KeepOuts {
		all = append(all, plane.FromRing(k.Outline))
	}
	walls, err := plane.Union(all...)
	if err != nil {
		t.Fatal(err)
	}
	for _, at := range []plane.Point{{X: 2955, Y: 1545}, {X: 3045, Y: 1455}} {
		if !walls.Contains(at) {
			t.Errorf("there is no wall at %v", at)
		}
	}
	// 1500 and 1000 mm along their middles, each half a thickness longer at the corner, which both have.
	if want := 100.0 * (1550 + 1050 - 100); math.Abs(walls.Area()-want) > 1 {
		t.Errorf("the walls take %.0f mm², want %.0f", walls.Area(), want)
	}
}

// Cables lie in the zones that they are named for, though the other way round would be as
// even; a zone that stays cold has none, and nothing is said against it.
func TestZones(t *testing.T) {
	const joints = "[[room.joint]]\nfrom = \"A 2 m\"\nto = \"C 4 m\"\n[[room.joint]]\nfrom = \"A 4.5 m\"\nto = \"C " +
		"1.5 m\"\n"
	zone := func(at int, says string) string {
		return fmt.Sprintf("[[room.zone]]\nat = \"A %d, 1 m\"\n%s\n", at, says)
	}
	p, said := trial.Said(t, parted(joints+zone(1000, `cables = ["A"]`)+zone(3000, `cables = ["B"]`)+zone(5000,
		"cold = true")))
	for _, d := range said {
		if words := strings.Join(d, " "); strings.Contains(words, "stays without cable") {
			t.Errorf("said: %s", words)
		}
	}
	r := &p.Rooms[0]
	for _, c := range r.Cables {
		lo, hi := 0.0, 2000.0
		if c.Label.ID == "B" {
			lo, hi = 2000, 4500
		}
		for _, at := range c.Path {
			if at.X < lo || at.X > hi {
				t.Fatalf("%s lies at %v, beyond %v to %v", c.Label.ID, at, lo, hi)
			}
		}
	}
	if r.Cold.Area() < 2e6 || !r.Bare.Empty() {
		t.Errorf("%.0f mm² stay cold, %.0f mm² are bare", r.Cold.Area(), r.Bare.Area())
	}
}

// Floor left cold on purpose is tiled, and the cable goes round it.
func TestCold(t *testing.T) {
	p, _ := trial.Said(t, strings.Replace(
		parted("[[room.cold]]\nwall = \"C\"\ncentre = 3000\nwidth = 900\ndepth = 600\n"),
		"name = \"Hall\"", "name = \"Hall\"\ncables = [\"C\"]", 1))
	r := &p.Rooms[0]
	if r.Tiled.Area() != 14.4e6 {
		t.Errorf("tiled %.0f mm²", r.Tiled.Area())
	}
	cold := plane.FromRing(r.Job.KeepOuts[0].Outline)
	for _, at := range r.Cables[0].Path {
		if cold.Depth(at) > 0.5 {
			t.Errorf("the cable lies in it at %v", at)
		}
	}
	if floor, err := r.LeadFloor(); err != nil || !floor.Contains(plane.Pt(3000, 2200)) {
		t.Errorf("no lead may cross it: %v", err)
	}
}
