package build

import (
	"errors"
	"fmt"
	"math"
	"slices"
	"strings"
	"testing"
	"time"

	"oxturn/layout/language"

	"oxturn/layout"
	"oxturn/layout/circuit"
	"oxturn/layout/heat"
	"oxturn/layout/internal/hand"
	"oxturn/layout/job"
	"oxturn/layout/plane"
	"oxturn/layout/route"
	"oxturn/layout/say"
)

func near(t *testing.T, what string, got, want float64) {
	t.Helper()
	if !(math.Abs(got-want) <= 1e-6*max(1, math.Abs(want))) {
		t.Errorf("%s: %g, want %g", what, got, want)
	}
}

func box(x0, y0, x1, y1 float64) plane.Ring {
	return plane.Rectangle(plane.Pt(x0, y0), plane.Pt(x1, y1))
}

func zone(x0, y0, x1, y1 float64) plane.Region { return plane.FromRing(box(x0, y0, x1, y1)) }

// pegged is a job at pegs of 30 mm, two to five of them between runs.
func pegged() *job.Job {
	return &job.Job{Membrane: job.Membrane{Pitch: 30}, Spacing: job.Spacing{Closest: 2, Widest: 5}}
}

// roomOf is a room of 3 by 2 m with zones.
func roomOf(zones ...plane.Region) *layout.Room {
	r := &layout.Room{Job: hand.Room(box(0, 0, 3000, 2000)), Zones: zones, Floor: zone(0, 0, 3000, 2000)}
	r.Job.Name = "Bath"
	r.Heated = joined(zones)
	return r
}

// Of candidates that lie the first that covers enough is taken at once; of the first three
// others the one that covers a hundredth more than those before it.
func TestTheBestCandidate(t *testing.T) {
	of := func(covered ...float64) (out []layout.Candidate) {
		for _, c := range covered {
			out = append(out, layout.Candidate{Covered: c, Fits: c > 0})
		}
		return out
	}
	for _, k := range []struct {
		covered []float64
		at      int
		sure    bool
	}{
		{nil, -1, false}, {[]float64{0, 0}, -1, false}, {[]float64{0.9}, 0, true}, {[]float64{0.89}, 0, false},
		{[]float64{0, 0.5, 0.9}, 2, true}, {[]float64{0.5, 0.505}, 0, false}, {[]float64{0.5, 0.52}, 1, false},
		{[]float64{0.5, 0.6, 0.7}, 2, true}, {[]float64{0.5, 0.6, 0.55, 0.95}, 1, true}, {[]float64{0.5, 0, 0.6}, 2,
			false},
	} {
		if at, sure := best(of(k.covered...), 0.9); at != k.at || sure != k.sure {
			t.Errorf("%v: %d, %v; want %d, %v", k.covered, at, sure, k.at, k.sure)
		}
	}
}

// A floor of 1.2 by 1 m takes its area over the gap and half its edge: at 150 mm 8 m and
// 2.2, at 60 mm 20 m and 2.2.
func TestLengthsAFloorTakes(t *testing.T) {
	least, most := lengths(pegged(), zone(0, 0, 1200, 1000))
	near(t, "least", least, 10200)
	near(t, "most", most, 22200)
}

// The smaller zones want a cable of their own where they are over a twentieth of the floor,
// and over a quarter of it or two cables of one voltage suit the two.
func TestZonesThatWantACable(t *testing.T) {
	cable := func(volts, length float64) job.Cable { return job.Cable{Volts: volts, Length: length} }
	large := zone(0, 0, 3000,
		1000) // takes 24 to 54 m
	pocket, half, sliver := zone(3100, 0, 3700, 1000), zone(3100, 0, 4200, 1000), zone(3100, 0, 3250, 1000)
	// they take 11.6, 20.4 and 3.65 m at most
	for _, k := range []struct {
		name   string
		zones  []plane.Region
		cables []job.Cable
		supply float64
		want   int
	}{
		{"alone", []plane.Region{large}, nil, 0, 1},
		{"a pocket, and a pair", []plane.Region{pocket, large}, []job.Cable{cable(240, 30e3), cable(240, 11e3)}, 0, 2},
		{"of two voltages", []plane.Region{pocket, large}, []job.Cable{cable(240, 30e3), cable(120, 11e3)}, 0, 1},
		{"the pair, the supply another", []plane.Region{pocket, large}, []job.Cable{cable(240, 30e3), cable(240,
			11e3)}, 120, 1},
		{"the pair, the supply's", []plane.Region{pocket, large}, []job.Cable{cable(240, 30e3), cable(240, 11e3)},
			240, 2},
		{"the large one too short", []plane.Region{pocket, large}, []job.Cable{cable(240, 20e3), cable(240, 11e3)}, 0,
			1},
		{"the large one too long", []plane.Region{pocket, large}, []job.Cable{cable(240, 60e3), cable(240, 11e3)}, 0,
			1},
		{"none short enough", []plane.Region{pocket, large}, []job.Cable{cable(240, 30e3), cable(240, 12e3)}, 0, 1},
		{"over a quarter, no pair", []plane.Region{half, large}, []job.Cable{cable(240, 20e3)}, 0, 2},
		{"over a quarter, none short", []plane.Region{half, large}, []job.Cable{cable(240, 21e3)}, 0, 1},
		{"a sliver", []plane.Region{sliver, large}, []job.Cable{cable(240, 30e3), cable(240, 3e3)}, 0, 1},
	} {
		j := pegged()
		j.Cables, j.Supply.Volts = k.cables, k.supply
		got := served(roomOf(k.zones...), j)
		if len(got) != k.want || got[0].Area() != large.Area() {
			t.Errorf("%s: %d zones, want %d", k.name, len(got), k.want)
		}
	}
}

// How far a set is off: by its mean, or where each has a zone by the worse of both; 10 W/m
// over 1 m² of 1 by 1 m, of which 2 m are the edge.
func TestHowFarFromThePowerWanted(t *testing.T) {
	one := zone(0, 0, 1000, 1000)
	set := []job.Cable{{Length: 12e3, Watts: 120}, {Length: 10e3,
		Watts: 100}} // runs 100 and 125 mm apart: 100 and 80 W/m²
	near(t, "on one floor", off(90, 100, set, []plane.Region{one}), 0.1)
	near(t, "more than wanted", off(110, 100, set, []plane.Region{one}), 0.1)
	near(t, "each on its own", off(90, 100, set, []plane.Region{one, one}), 0.2)
	near(t, "whatever their order", off(90, 100, []job.Cable{set[1], set[0]}, []plane.Region{one, one}), 0.2)
	near(t, "more zones than cables", off(90, 100, set, []plane.Region{one, one, one}), 0.1)
	for _, k := range []struct {
		c    layout.Candidate
		want float64
	}{{layout.Candidate{Off: 0.1}, 0.1}, {layout.Candidate{Off: 0.1, Spare: 1}, 0.1 + 1./3 + 0.1},
		{layout.Candidate{Off: 0.1, Spare: 2}, 0.1 + 1./3 + 0.2}, {layout.Candidate{Off: 0.4}, 0.4 + 1./3},
		{layout.Candidate{Off: 1. / 3}, 1. / 3}, {layout.Candidate{Off: 0.1, Why: "x"}, 1000.1}} {
		near(t, "rank", rank(k.c), k.want)
	}
}

// Limits that an estimate is held against, each at its edge.
func TestLimitsOfAnEstimate(t *testing.T) {
	for _, k := range []struct {
		name string
		set  func(j *job.Job, c *layout.Candidate, set []job.Cable)
		says string
	}{
		{"within", func(j *job.Job, c *layout.Candidate, set []job.Cable) {}, ""},
		{"just the closest", func(j *job.Job, c *layout.Candidate, set []job.Cable) { c.Spacing = 60 }, ""},
		{"closer", func(j *job.Job, c *layout.Candidate, set []job.Cable) { c.Spacing = 57 },
			"too long: its runs would be 1.9 pegs"},
		{"just the widest", func(j *job.Job, c *layout.Candidate, set []job.Cable) { c.Spacing = 150 }, ""},
		{"wider", func(j *job.Job, c *layout.Candidate, set []job.Cable) { c.Spacing = 153 },
			"too short: its runs would be 5.1 pegs"},
		{"endless", func(j *job.Job, c *layout.Candidate, set []job.Cable) { c.Spacing = math.Inf(1) },
			"would not reach round"},
		{"another supply", func(j *job.Job, c *layout.Candidate, set []job.Cable) { j.Supply.Volts = 120 },
			"made for 240 V, supply is 120 V"},
		{"another supply, and wider: the volts come first", func(j *job.Job, c *layout.Candidate, set []job.Cable) {
			j.Supply.Volts, c.Spacing = 120, 153
		}, "made for 240 V, supply is 120 V"},
		{"its supply", func(j *job.Job, c *layout.Candidate, set []job.Cable) { j.Supply.Volts = 240 }, ""},
		{"at the density", func(j *job.Job, c *layout.Candidate, set []job.Cable) { j.Supply.MaxDensity = 100 }, ""},
		{"over it", func(j *job.Job, c *layout.Candidate, set []job.Cable) { j.Supply.MaxDensity = 99 }, "100 W/m²"},
		{"over it, by the heated floor", func(j *job.Job, c *layout.Candidate, set []job.Cable) {
			j.Supply.MaxDensity, j.Supply.MaxDensityOver = 95, job.OverHeated
		}, ""},
		{"over the heated floor", func(j *job.Job, c *layout.Candidate, set []job.Cable) {
			j.Supply.MaxDensity, j.Supply.MaxDensityOver = 89, job.OverHeated
		}, "90 W/m² (8.4 W/ft²) over the heated floor is above"},
		{"by even spacing", func(j *job.Job, c *layout.Candidate, set []job.Cable) {
			j.Supply.MaxDensity, j.Supply.MaxDensityOver, c.OverHeated = 100, job.OverEven, 120
		}, ""},
		{"by what rounding leaves", func(j *job.Job, c *layout.Candidate, set []job.Cable) {
			j.Supply.MaxDensity, c.OverHeated = 100, 100.05
		}, ""},
		{"a lead that ends before", func(j *job.Job, c *layout.Candidate, set []job.Cable) { set[0].Lead = 900 },
			"does not reach the floor"},
		{"two zones", func(j *job.Job, c *layout.Candidate, set []job.Cable) { c.Off = 2 },
			"2 zones need a cable each"},
	} {
		j, r := pegged(), roomOf(zone(0, 0, 3000, 2000))
		r.Job.Thermostat.Height = 1000
		set := []job.Cable{{Volts: 240, Length: 30e3, Watts: 300}}
		c := layout.Candidate{Spacing: 100, Density: 100, OverHeated: 90}
		k.set(j, &c, set)
		zones := 1
		if c.Off > 0 {
			zones = 2
		}
		if says := beyond(r, j, set, c, zones); (says == "") != (k.says == "") || !strings.Contains(says, k.says) {
			t.Errorf("%s: %q, want %q", k.name, says, k.says)
		}
	}
}

// Pairs are of one voltage, and of one kind only where there are several of it.
func TestWhatIsWeighed(t *testing.T) {
	j, r := pegged(), roomOf(zone(0, 0, 3000, 2000))
	j.Cables = []job.Cable{{ID: "A", Volts: 240, Length: 60e3, Watts: 600, Count: 1}, {ID: "B", Volts: 240,
		Length: 40e3, Watts: 400},
		{ID: "C", Volts: 120, Length: 40e3, Watts: 400, Count: 1}}
	var got []string
	for _, c := range candidates(r, j) {
		got = append(got, strings.Join(c.IDs, "+"))
	}
	slices.Sort(got)
	if want := []string{"A", "A+B", "B", "B+B", "C"}; !slices.Equal(got, want) {
		t.Errorf("%v, want %v", got, want)
	}
	// 6 m², edge 10 m: 60 m less 5 at 6e6/55e3 = 109.09 mm, 10 W/m: 91.67 W/m²; 600 W on 6 m²
	c := estimate(r, j, j.Cables[:1], []plane.Region{r.Zones[0]})
	near(t, "spacing", c.Spacing, 6e6/55e3)
	near(t, "density", c.Density, 10/(6e3/55e3))
	near(t, "over the heated floor", c.OverHeated, 100)
	near(t, "off", c.Off, (135-10/(6e3/55e3))/135)
	if c.Spare != 0 || !c.Within || c.Why != "" {
		t.Errorf("%+v", c)
	}
	c = estimate(r, j, j.Cables[:2], []plane.Region{r.Zones[0]})
	near(t, "two cables' density", c.Density, 10/(6e3/95e3))
	if c.Spare != 1 {
		t.Errorf("%d spare", c.Spare)
	}
	r.Job.Density = 200
	near(t, "off what is asked for", estimate(r, j, j.Cables[:1], []plane.Region{r.Zones[0]}).Off,
		(200-10/(6e3/55e3))/200)
}

// What was laid: means over the routes; a cable beside another fits only up to 1.05 of the
// widest gap.
func TestWhatWasLaidIsTaken(t *testing.T) {
	j, r := pegged(), roomOf(zone(0, 0, 1000, 1000), zone(2000, 0, 3000, 1000))
	labels := []job.Cable{{ID: "A", Length: 10e3, Watts: 100}, {ID: "B", Length: 20e3, Watts: 300}}
	rt := func(cable, zone int, spacing, covered float64) route.Route {
		return route.Route{Cable: cable, Zone: zone, Spacing: spacing, Share: r.Zones[zone],
			Score: route.Score{Covered: covered}}
	}
	c := layout.Candidate{Why: ""}
	settle(r, j, &c, labels, []route.Route{rt(0, 0, 100, 1), rt(1, 1, 150, 0.5)})
	near(t, "spacing", c.Spacing, 125)
	near(t, "density", c.Density, (10/0.1+15/0.15)/2)
	near(t, "covered", c.Covered, 0.75)
	if !c.Fits {
		t.Errorf("%+v", c)
	}
	settle(r, j, &c, labels, []route.Route{rt(0, 0, 100, 1), rt(1, 1, 158, 0.5)})
	if c.Fits || !strings.Contains(c.Why,
		"B is too short for its part of the floor: its runs would be 5.3 pegs apart, widest allowed 5") {
		t.Errorf("%+v", c)
	}
	c.Why = ""
	settle(r, j, &c, labels, []route.Route{rt(1, 1, 158, 0.5)})
	if !c.Fits || c.Why != "" {
		t.Errorf("alone: %+v", c)
	}
	near(t, "the density of one", c.Density, 15/0.158)
	near(t, "covered of both zones", c.Covered, 0.25)
	r.Zones[0] = zone(0, 0, 50, 1000) // too narrow for two runs: not counted
	near(t, "covered of the zone that takes cable", covered(r, j, []route.Route{rt(1, 1, 158, 0.5)}), 0.5)
	near(t, "its share counts where it has cable", covered(r, j, []route.Route{rt(0, 0, 100, 1), rt(1, 1, 158, 0.5)}),
		(0.05+0.5)/1.05)
	for mm, want := range map[float64]bool{157.5: false, 157.6: true} {
		if sparse(j, mm) != want {
			t.Errorf("%g mm sparse: %v", mm, !want)
		}
	}
	for width, want := range map[float64]bool{61: true, 59: false} {
		if takesCable(j, zone(0, 0, width, 1000)) != want {
			t.Errorf("a zone %g mm wide takes two runs: %v", width, !want)
		}
	}
	near(t, "enough", enough(roomOf(zone(0, 0, 3000, 1000), zone(0, 1100, 100, 1300)), j), 0.95*3/(3.02))
}

func TestWhyACableWasTaken(t *testing.T) {
	j, r := pegged(), roomOf(zone(0, 0, 3000, 2000))
	one := layout.Candidate{IDs: []string{"A"}, Density: 120, Spacing: 90, Off: 0.2, Within: true}
	two := layout.Candidate{IDs: []string{"A", "B"}, Off: 0.1, Within: true}
	for _, k := range []struct {
		cands []layout.Candidate
		at    int
		want  string
	}{{[]layout.Candidate{one}, 0, "nearest to 135 W/m² (12.5 W/ft²) of the 1 tried: 120 W/m²"},
		{[]layout.Candidate{one, two}, 0, "one cable does, and no other alone comes nearer"},
		{[]layout.Candidate{one, two}, 1, "nearest to"},
		{[]layout.Candidate{one, {IDs: []string{"A", "B"}, Off: 0.1}}, 0, "nearest to"},
		{[]layout.Candidate{one, {IDs: []string{"A", "B"}, Off: 0.2, Within: true}}, 0, "nearest to"},
		{[]layout.Candidate{one, {IDs: []string{"B"}, Off: 0.1, Within: true}}, 0, "nearest to"}} {
		if got := whyChosen(r, j, k.cands, k.at); !strings.HasPrefix(got.String(), k.want) {
			t.Errorf("%+v, %d: %q, want %q", k.cands, k.at, got, k.want)
		}
	}
	cands := slices.Repeat([]layout.Candidate{{IDs: []string{"A", "B"}, Why: "why"}}, 6)
	d := noneFits(r, j, cands, nil)
	if len(d.Notes) != 5 || d.Notes[0].Message != "A + B: why" || !strings.Contains(d.Hint,
		"takes 45.0 m to 105.0 m of cable") {
		t.Errorf("%+v", d)
	}
	if d := noneFits(r, j, cands[:1], nil); len(d.Notes) != 1 {
		t.Errorf("%+v", d.Notes)
	}
}

// A zone of 300 by 300 mm is looked at a peg at a time, 10 by 10 places and those on its far
// edges; one run lies along its south edge. Out of half of 60 and 30 mm lies what is 46 mm
// and more away.
func TestFloorThatStaysCool(t *testing.T) {
	r := roomOf(zone(-1, -1, 299, 299))
	r.Cables = []layout.Cable{{Zone: 0, Path: hand.Points(-1, -1, 299, -1)}, {Zone: 1, Path: hand.Points(0, 5000, 9,
		5000)}}
	area, at, away := cool(r, r.Zones[0], 30, 60)
	rows := 8.0 // at 60, 90 ... 270 mm
	if area < rows*10*900 || area > (rows+1)*11*900 || away < 269 || away > 301 || at.Y != away-1 {
		t.Errorf("%g mm² cool, the farthest at %v, %g mm away", area, at, away)
	}
	near(t, "from the cable", fromCable(r, plane.Pt(100, 99)), 100)
	if got := home(r, 0); got != plane.Pt(149, -1) {
		t.Errorf("home %v", got)
	}
	r.Cables[0].Path = hand.Points(-1, -1, 299, -1, 299, 199, 99, 199)
	if got := home(r, 0); got != plane.Pt(199, 199) {
		t.Errorf("home %v, the deepest of three legs' middles is at 199, 199", got)
	}
	d := draft{Room: r, job: pegged()}
	if r.Cables[0].Score.Bare = coolFrom; stayCool(d) != nil {
		t.Errorf("%+v", stayCool(d))
	}
	r.Cables[0].Score.Bare, r.Cables[1].Score.Bare = 0, 9 // of another zone, which is not there
	if said := stayCool(d); said != nil {
		t.Errorf("%+v", said)
	}
	// of a cable along the west edge, its runs 90 mm apart, what is 60 mm off and less is in reach: eight columns of
	// ten rows or eleven are not
	r = roomOf(zone(-1, -1, 301, 301))
	r.Cables = []layout.Cable{{Path: hand.Points(0, -1, 0, 301)}}
	if area, _, _ := cool(r, r.Zones[0], 30, 90); area < 8*10*900 || area > 8*11*900 {
		t.Errorf("%g mm² are cool", area)
	}
}

// Stretches of a wall of 3 m before which floor is free, at 10 mm apart, of 150 mm at least.
func TestFreeStretchesOfTheBoxsWall(t *testing.T) {
	for _, k := range []struct {
		name     string
		floor    plane.Region
		openings []job.Opening
		want     [][2]float64
	}{
		{"all", zone(-5, 0, 3005, 2000), nil, [][2]float64{{0, 3000}}},
		{"cut in two", plane.Region{zone(-5, 0, 1005, 2000)[0], zone(1995, 0, 3005, 2000)[0]}, nil, [][2]float64{{0,
			1000}, {2000, 3000}}},
		{"150 mm", zone(95, 0, 255, 2000), nil, [][2]float64{{100, 250}}}, {"140 mm", zone(95, 0, 245, 2000), nil, nil},
		{"a door", zone(-5, 0, 3005, 2000), []job.Opening{{Kind: "door", Wall: 0, From: 1000, To: 1800}},
			[][2]float64{{0, 990}, {1810, 3000}}},
		{"a window", zone(-5, 0, 3005, 2000), []job.Opening{{Kind: "window", Wall: 0, From: 1000, To: 1800}},
			[][2]float64{{0, 3000}}},
		{"a door elsewhere", zone(-5, 0, 3005, 2000), []job.Opening{{Kind: "door", Wall: 1, From: 1000, To: 1800}},
			[][2]float64{{0, 3000}}},
	} {
		r := roomOf()
		r.Job.Openings = k.openings
		if got := freeStretches(r, k.floor, 10); !slices.Equal(got, k.want) {
			t.Errorf("%s: %v, want %v", k.name, got, k.want)
		}
	}
	r := roomOf()
	if got := foot(r, 500); got != plane.Pt(500, 10) {
		t.Errorf("foot %v", got)
	}
}

func TestWhyACableIsRefused(t *testing.T) {
	c := job.Cable{ID: "A", Length: 30e3}
	for _, k := range []struct {
		why  route.Refusal
		want string
		in   bool
	}{
		{route.Refusal{Shortest: 10e3, Longest: 29e3}, "cable A of 30.0 m is too long, with the closest gaps allowed",
			false},
		{route.Refusal{Shortest: 31e3, Longest: 40e3}, "cable A of 30.0 m is too short, with the widest gaps allowed",
			false},
		{route.Refusal{Shortest: 30e3, Longest: 40e3}, "no route was found for cable A of 30.0 m", true},
		{route.Refusal{Shortest: 10e3, Longest: 30e3},
			"no route was found for cable A of 30.0 m: it is close to the most", true},
		{route.Refusal{Shortest: 10e3, Longest: 33.4e3}, "no route was found for cable A of 30.0 m", true},
		{route.Refusal{Shortest: 10e3, Longest: 33.3e3}, "no route was found for cable A of 30.0 m: it is close", true},
		{route.Refusal{Shortest: 10e3, Longest: 40e3, Cold: 0.2},
			"cable A of 30.0 m is too short: with the widest gaps allowed it " +
				"leaves 20 % of its floor cold", true},
	} {
		got := misfit(c, &k.why, plane.Millimetres)
		if !strings.HasPrefix(got, k.want) || !strings.Contains(k.want, "close") && strings.Contains(got,
			"close to the most") {
			t.Errorf("%+v: %q, want %q", k.why, got, k.want)
		}
		if inRange(c, &k.why) != k.in {
			t.Errorf("%+v: in range %v", k.why, !k.in)
		}
	}
	if got := misfit(job.Cable{ID: "A", Length: 27e3}, &route.Refusal{Longest: 30e3},
		plane.Millimetres); strings.Contains(got, "close") {
		t.Errorf("nine tenths of the most: %q", got)
	}
	if inRange(c, &route.Refusal{Shortest: 0, Longest: 0}) {
		t.Error("no range is known")
	}
	r := roomOf()
	r.Job.Thermostat.Height, r.Job.Thermostat.Wall = 1000, 0
	c.Lead = 3000
	labels := []job.Cable{c}
	for _, k := range []struct {
		err  error
		want string
	}{
		{errors.New("plain"), "plain"},
		{&route.Refusal{Reason: "why", Cable: 0, Lead: 2500},
			"the cold lead of cable A is too short: 2.0 m of it are left for the floor, " +
				"and the nearest place where heat may start asks for 2.5 m"},
		{&route.Refusal{Reason: "why", Cable: 0, Lead: 0.5}, "the cold lead of cable A is too short"},
		{&route.Refusal{Reason: "why", Cable: 0, Longest: 0.5}, "cable A of 30.0 m is too long"},
		{&route.Refusal{Reason: "why", Cable: -1, Lead: 2500}, "why"}, {&route.Refusal{Reason: "why", Cable: 0,
			Lead: math.Inf(1)}, "why"},
		{&route.Refusal{Reason: "why", Cable: 0, Start: true, Longest: 9},
			"no route was found for cable A of 30.0 m that starts where"},
		{&route.Refusal{Reason: "why", Cable: -1, Longest: 9}, "why"}, {&route.Refusal{Reason: "why", Cable: 0}, "why"},
		{&route.Refusal{Reason: "why", Cable: 0, Longest: 9}, "cable A of 30.0 m is too long"},
	} {
		if got := reason(r, labels, k.err, plane.Millimetres); !strings.HasPrefix(got, k.want) {
			t.Errorf("%+v: %q, want %q", k.err, got, k.want)
		}
	}
	if leadRefusal(errors.New("x")) != nil || leadRefusal(&route.Refusal{}) != nil ||
		leadRefusal(&route.Refusal{Lead: 0.5}) == nil {
		t.Error("a refusal for its lead has one")
	}
	many := []job.Cable{{ID: "A", Length: 10e3}, {ID: "B", Length: 20e3}, {ID: "C", Length: 30e3}}
	for _, k := range []struct {
		lo, hi float64
		want   string
	}{{10e3, 30e3, "B (20.0 m), C (30.0 m)"}, {20e3, 20e3, "B (20.0 m)"}, {20.1e3, 29e3, ""}, {0, 15e3, ""}} {
		if got := within(many, many[:1], k.lo, k.hi, plane.Millimetres); got != k.want {
			t.Errorf("%g to %g: %q, want %q", k.lo, k.hi, got, k.want)
		}
	}
}

// The box stays 100 mm beside openings and what stands there.
func TestWhereABoxMayHang(t *testing.T) {
	r := roomOf().Job
	r.Openings = []job.Opening{{Kind: "door", Wall: 0, From: 1000, To: 1800}}
	r.Fixtures = []job.Fixture{{Outline: box(2400, 0, 2800, 500)}}
	for at, want := range map[float64]bool{500: true, 900: true, 901: false, 1400: false, 1899: false, 1900: true,
		2299: true, 2301: false,
		2600: false, 2899: false, 2901: true} {
		if got := free(r, r.BoxWalls("A")[0], at); got != want {
			t.Errorf("at %g: free %v", at, got)
		}
	}
	if !free(r, r.BoxWalls("C")[0], 1400) {
		t.Error("the door is in another wall")
	}
}

// Of a room 3 by 2 m an inch longer, cables laid 5 % wider than by area are so on both.
func TestSpacingOfAChangedRoom(t *testing.T) {
	was, now := zone(0, 0, 3000, 2000), zone(0, 0, 3100, 2000)
	near(t, "spacing", shiftedSpacing(was, now, 45e3, 1.05*6e6/40e3), 1.05*6.2e6/(45e3-5100))
	if got := shiftedSpacing(was, now, 5050, 100); !math.IsInf(got, 1) {
		t.Errorf("too short for the larger edge: %g", got)
	}
	if got := shiftedSpacing(now, was, 5050, 100); got != 6e6/50 {
		t.Errorf("too short for the edge before: %g", got)
	}
	j := pegged()
	label := []job.Cable{{Length: 10e3, Watts: 100}}
	for _, k := range []struct {
		spacing, laid, limit float64
		want                 bool
	}{{60, 0, 0, true}, {59.9, 0, 0, false}, {150, 0, 0, true}, {150.1, 0, 0, false}, {155, 156, 0, true}, {157, 156,
		0, false},
		{58, 57, 0, true}, {56, 57, 0, false}, {100, 0, 100, true}, {99.9, 0, 100, false}, {100, 0, 99.9, false}} {
		j.Supply.MaxDensity = k.limit
		if got := suits(j, k.spacing, k.laid, label); got != k.want {
			t.Errorf("%+v: suits %v", k, got)
		}
	}
	r := &layout.Room{Cables: []layout.Cable{{Spacing: 100, Label: job.Cable{Length: 30e3}}, {Spacing: 200,
		Label: job.Cable{Length: 10e3}}}}
	near(t, "mean spacing", meanSpacing(r), 125)
	near(t, "of none", meanSpacing(&layout.Room{}), 0)
}

// A room is taken an inch off where a job's drawings are in inches, else 25 mm.
func TestByHowMuchARoomIsOff(t *testing.T) {
	for units, want := range map[plane.Units]float64{plane.Inches: 25.4, plane.Millimetres: 25} {
		j := pegged()
		j.Units = units
		p := &layout.Plan{Job: j, Rooms: []layout.Room{*roomOf(zone(75, 75, 2925, 1925))}}
		p.Rooms[0].Cables = []layout.Cable{{Label: job.Cable{ID: "A", Length: 50e3, Watts: 500}, Spacing: 115}}
		got := shifts(p, false, nil)
		if len(got) != 4 || got[0].By != want || got[1].By != -want || !got[0].East || got[2].East {
			t.Errorf("%v: %+v", units, got)
		}
		larger := shifted(&p.Rooms[0], j)[1]
		near(t, "the floor that much longer and wider", larger.Area(), (3000+want)*(2000+want))
	}
}

// Free of corners, things, openings and the box; the widest stretch, the first of equals.
func TestTheWidestFreeStretch(t *testing.T) {
	x := func(p plane.Point) float64 { return p.X }
	y := func(p plane.Point) float64 { return p.Y }
	r := *roomOf().Job
	r.Thermostat.At = plane.Pt(1400, 0)
	for _, k := range []struct {
		name          string
		set           func(r *job.Room)
		along         func(plane.Point) float64
		middle, width float64
	}{
		{"beside the box", func(r *job.Room) {}, x, 2200, 1600}, {"the other way", func(r *job.Room) {}, y, 1000, 2000},
		{"a tub", func(r *job.Room) { r.Fixtures = []job.Fixture{{Outline: box(1700, 0, 2500, 900)}} }, x, 700, 1400},
		{"a long tub", func(r *job.Room) { r.Fixtures = []job.Fixture{{Outline: box(1500, 0, 2950, 900)}} }, x, 700,
			1400},
		{"a column", func(r *job.Room) { r.KeepOuts = []job.KeepOut{{Outline: box(1300, 0, 2500, 900)}} }, x, 650,
			1300},
		{"a door", func(r *job.Room) { r.Openings = []job.Opening{{Wall: 0, From: 1500, To: 2500}} }, x, 700, 1400},
		{"a door square to it", func(r *job.Room) { r.Openings = []job.Opening{{Wall: 1, From: 500, To: 900}} }, y,
			1450, 1100},
		{"a door nowhere", func(r *job.Room) {
			r.Openings = []job.Opening{{Wall: 4, From: 500, To: 900},
				{Wall: -1}}
		}, y, 1000, 2000},
		{"one in another", func(r *job.Room) {
			r.Fixtures = []job.Fixture{{Outline: box(0, 0, 2500, 900)}, {Outline: box(100, 0, 200, 900)}}
		}, x, 2750, 500},
	} {
		r := r
		k.set(&r)
		if middle, width := widestFree(r, k.along); middle != k.middle || width != k.width {
			t.Errorf("%s: %g about %g, want %g about %g", k.name, width, middle, k.width, k.middle)
		}
	}
	r.Fixtures = []job.Fixture{{Outline: box(5, 0, 2995, 900)}}
	for room, want := range map[float64]bool{4: true, 6: true, 1600: false} {
		cut, ok := cutFor(r, x, room)
		if ok != want || room == 6 && cut != 2200 {
			t.Errorf("for %g mm: %v at %g", room, ok, cut)
		}
	}
}

// Cut at 1500 and drawn out by 25.4 mm, all beyond moves, things as a whole by their middle.
func TestWhatMovesWithAWall(t *testing.T) {
	r := *roomOf().Job
	r.Openings = []job.Opening{{Wall: 0, From: 2000, To: 2800}, {Wall: 1, From: 100, To: 900}, {Wall: 2, From: 100,
		To: 900}, {Wall: 9, From: 1,
		To: 2}, {Wall: 0, From: 2300, To: 3000}}
	r.Fixtures = []job.Fixture{{Outline: box(1400, 0, 1900, 500), Back: hand.Segment(1400, 0, 1900, 0),
		Flange: &job.Flange{Centre: plane.Pt(1600,
			250)}}, {Outline: box(1000, 0, 1900, 500)}}
	r.KeepOuts = []job.KeepOut{{Outline: box(2000, 0, 2100, 500)}}
	r.Fixings = []job.Fixing{{Line: hand.Points(1000, 5, 2000, 5)}}
	r.Joints = []job.Joint{{Segment: hand.Segment(2500, 0, 2500, 2000)}}
	r.Low = []plane.Ring{box(1000, 0, 2000, 500)}
	r.Thermostat.At = plane.Pt(2900, 0)
	by := plane.Pt(25.4, 0)
	out := moved(r, func(p plane.Point) plane.Point {
		if p.X <= 1500 {
			return p
		}
		return p.Add(by)
	})
	if out.Outline.Area() != 3025.4*2000 || out.Walls[0].Length() != 3025.4 || out.Walls[1].Length() != 2000 {
		t.Errorf("%v", out.Outline)
	}
	for i, want := range []float64{2025.4, 100, 100, 1, 2325.4} {
		near(t, fmt.Sprintf("opening %d", i), out.Openings[i].From, want)
		near(t, "its width", out.Openings[i].To-out.Openings[i].From, r.Openings[i].To-r.Openings[i].From)
	}
	if f := out.Fixtures[0]; f.Outline[0].Dist(plane.Pt(1425.4, 0)) > 1e-9 || f.Outline.Area() != 250_000 ||
		f.Flange.Centre.Dist(plane.Pt(1625.4,
			250)) > 1e-9 || f.Back.A.Dist(plane.Pt(1425.4, 0)) > 1e-9 || f.Back.B.Dist(plane.Pt(1925.4, 0)) > 1e-9 {
		t.Errorf("%+v", f)
	}
	if out.Fixtures[1].Outline[0] != plane.Pt(1000, 0) || r.Fixtures[0].Flange.Centre != plane.Pt(1600, 250) {
		t.Errorf("%+v", out.Fixtures[1])
	}
	if out.KeepOuts[0].Outline[0].Dist(plane.Pt(2025.4, 0)) > 1e-9 || out.Fixings[0].Line[1].Dist(plane.Pt(2025.4,
		5)) > 1e-9 ||
		out.Joints[0].A.Dist(plane.Pt(2525.4, 0)) > 1e-9 || out.Low[0].Area() != 1025.4*500 ||
		out.Thermostat.At.Dist(plane.Pt(2925.4, 0)) > 1e-9 {
		t.Errorf("%+v", out)
	}
	for _, k := range []struct {
		east bool
		by   float64
		area float64
	}{{true, 25.4, 3025.4 * 2000}, {true, -25.4, 2974.6 * 2000}, {false, 25.4, 3000 * 2025.4}, {false, -25.4,
		3000 * 1974.6}} {
		out, ok := stretched(*roomOf().Job, k.east, k.by)
		if !ok || math.Abs(out.Outline.Area()-k.area) > 1e-3 {
			t.Errorf("%+v: %g, %v", k, out.Outline.Area(), ok)
		}
	}
}

// The later a rise is gained the slower, never is slowest, and of two that never do the one
// that settles lower; of verdicts on a limit the one with less margin.
func TestTheSlowerFloor(t *testing.T) {
	at := func(minutes float64) heat.Offer { return heat.Offer{Reached: true, Time: minutes} }
	never := func(settles float64) heat.Offer { return heat.Offer{Settles: settles} }
	for i, k := range []struct {
		a, b heat.Offer
		want bool
	}{{at(30), at(20), true}, {at(20), at(30), false}, {at(20), at(20), false}, {never(5), at(30), true}, {at(30),
		never(5), false},
		{never(4), never(5), true}, {never(5), never(4), false}, {never(5), never(5), false}} {
		if got := slower(k.a, k.b); got != k.want {
			t.Errorf("%d: slower %v", i, got)
		}
	}
	verdicts := func(margins ...float64) (out []heat.Verdict) {
		for _, m := range margins {
			out = append(out, heat.Verdict{Margin: m})
		}
		return out
	}
	if got := lessMargin(verdicts(1, -2, 3), verdicts(2, -3, 3)); got[0].Margin != 1 || got[1].Margin != -3 ||
		got[2].Margin != 3 {
		t.Errorf("%+v", got)
	}
}

// Gaps are held against the widest with a tenth of a peg; the mean spacing where no gap is
// wider, with 5 %.
func TestGapsThatAreTooWide(t *testing.T) {
	for mm, want := range map[float64]bool{150: false, 153: false, 153.1: true} {
		if tooWide(pegged(), mm) != want {
			t.Errorf("%g mm too wide: %v", mm, !want)
		}
	}
	for _, k := range []struct {
		name         string
		gap, spacing float64
		bare, length float64
		says, hint   string
	}{
		{"neither", 150, 150, 1, 60e3, "", ""},
		{"a gap", 180, 100, 1, 60e3, "beside run 3 of H1 the next run is 180 mm (6 pegs) away, more than the 5 pegs",
			"may lie more evenly"},
		{"a gap of too little cable", 180, 100, 1, 30e3, "beside run 3",
			"30.0 m of cable is little for this floor, which takes about 45.0 m"},
		{"the spacing", 150, 165, 1, 60e3, "would have to lie 165 mm (5.5 pegs) apart", "take a longer cable; see"},
		{"the spacing of too little cable", 150, 165, 1, 30e3, "would have to lie", "is little for this floor"},
		{"said by another", 150, 165, 3.1, 60e3, "", ""}, {"not quite", 150, 165, 3, 60e3, "would have", ""},
	} {
		r := roomOf(zone(0, 0, 3000, 2000))
		r.Cables = []layout.Cable{{ID: "H0", Label: job.Cable{Length: 1}, Zone: 5, Gaps: layout.Gaps{Widest: 20},
			Spacing: 50},
			{ID: "H1", Label: job.Cable{Length: k.length}, Gaps: layout.Gaps{Widest: k.gap, Beside: 3},
				Spacing: k.spacing,
				Score:   route.Score{Bare: k.bare}}}
		got := wideGap(r, pegged())
		if (len(got) == 0) != (k.says == "") || len(got) > 0 && (!strings.Contains(got[0].Message, k.says) ||
			!strings.Contains(got[0].Hint, k.hint)) {
			t.Errorf("%s: %+v", k.name, got)
		}
	}
	if wideGap(roomOf(), pegged()) != nil {
		t.Error("no cable lies there")
	}
	r := roomOf(zone(0, 0, 3000, 2000))
	r.Cables = []layout.Cable{{Label: job.Cable{Length: 20e3}}, {Label: job.Cable{Length: 25e3}}}
	if got := little(r, pegged(), 0); got != "" {
		t.Errorf("45 m are what it takes: %q", got)
	}
	for at, want := range map[int][2]float64{0: {45e3, 45e3}, -1: {0, 0}, 1: {0, 0}} {
		if least, laid := takes(r, pegged(), at); [2]float64{least, laid} != want {
			t.Errorf("zone %d takes %g, has %g", at, least, laid)
		}
	}
}

func TestTooMuchPowerInWords(t *testing.T) {
	for _, k := range []struct {
		density, densest, most float64
		over                   string
		says, not              string
	}{
		{100, 90, 0, "", "", ""}, {100, 90, 100, "", "", ""}, {100, 90, 100 / 1.002, "", "at even spacing, over",
			"half a gap"},
		{90, 110, 100, "", "110 W/m² (10.2 W/ft²) over three neighbouring runs, round run 4", "half a gap"},
		{90, 80, 100, "", "W/m² (13.9 W/ft²) over the 4.00 m²", ""}, {90, 80, 100, job.OverEven, "", ""},
		{90, 80, 90, "", "at even spacing, half a gap beyond the outer runs counted in, it is 90 W/m²", ""},
		{90, 80, 100, job.OverHeated, "over the 4.00 m²", "half a gap"},
	} {
		r := roomOf(zone(0, 0, 3000, 2000))
		r.Cables = []layout.Cable{{ID: "H1", Label: job.Cable{Length: 60e3, Watts: 600}, Density: k.density,
			Spacing: 100,
			Share:   zone(0, 0, 2000, 2000), Gaps: layout.Gaps{Densest: k.densest, Run: 4, Most: k.most,
				MostOver: k.over}}}
		if k.density == 100 {
			r.Cables[0].Share = nil
		}
		if k.densest > k.density {
			r.Cables[0].Share = zone(0, 0, 9000, 2000)
		}
		got := tooDense(r, pegged())
		if (len(got) == 0) != (k.says == "") || len(got) > 0 && (!strings.Contains(got[0].Message, k.says) ||
			k.not != "" &&
				strings.Contains(got[0].Message, k.not)) {
			t.Errorf("%+v: %+v", k, got)
		}
	}
}

// What hardens: the grout, what is made with cement, and what is given days or a day.
func TestWhatHardens(t *testing.T) {
	day := time.Date(2026, 3, 1, 0, 0, 0, 0, time.UTC)
	j := pegged()
	j.BuildUp = []job.Layer{{Kind: "tile", Name: "tile"}, {Kind: "mortar", Name: "bed"}, {Kind: "membrane",
		Name: "mat"},
		{Kind: "board", Name: "board", CureDays: 1}, {Kind: "wood", Name: "deck", Placed: day}, {Kind: "screed",
			Name: "screed"}}
	var got []string
	for _, c := range cures(j) {
		got = append(got, c.Layer)
	}
	if want := []string{"grout", "bed", "mat", "board", "deck", "screed"}; !slices.Equal(got, want) {
		t.Errorf("%v, want %v", got, want)
	}
	for _, k := range []struct {
		name string
		set  func(p *layout.Plan)
		want bool
	}{{"layers", func(p *layout.Plan) {}, true}, {"no cable", func(p *layout.Plan) { p.Rooms[0].Cables = nil }, false},
		{"no layers", func(p *layout.Plan) { p.Job.BuildUp = nil }, false},
		{"no layers, a day of grouting", func(p *layout.Plan) { p.Job.BuildUp, p.Job.Tile.Grouted = nil, day }, true},
		{"no layers, days for the grout", func(p *layout.Plan) { p.Job.BuildUp, p.Job.Tile.GroutCure = nil, 1 },
			true}} {
		own := *j
		p := &layout.Plan{Job: &own, Rooms: []layout.Room{{Cables: make([]layout.Cable, 1)}}}
		k.set(p)
		if fullUse(p); (p.FullUse != nil) != k.want {
			t.Errorf("%s: %+v", k.name, p.FullUse)
		}
		if k.name == "layers" && (p.FullUse.Screed != "screed" || len(p.FullUse.Open) != 5 ||
			!p.FullUse.Date.IsZero()) {
			t.Errorf("%+v", p.FullUse)
		}
	}
}

// What is counted for a thermostat: two leads of a cable with two cold ends, a sensor and
// its spare with 3 and 4 m of tube.
func TestWhatAThermostatTakes(t *testing.T) {
	r := roomOf()
	r.Job.Thermostat.Height = 1200
	r.Cables = []layout.Cable{{}, {Return: hand.Points(0, 0, 1, 0), Label: job.Cable{Ends: circuit.BothEnds}}}
	r.Sensors = []layout.Sensor{{Lead: hand.Points(0, 0, 3000, 0)}, {Spare: true, Lead: hand.Points(0, 0, 0, 4000)}}
	p := &layout.Plan{Job: pegged(), Rooms: []layout.Room{*r}}
	got := thermostat(r, p)
	if got.ColdLeads != 3 || got.Sensors != 1 || got.Spares != 1 || got.SensorTube != 7000 || got.Rise != 1200 ||
		got.Limits || got.Relay {
		t.Errorf("%+v", got)
	}
	for limit, want := range map[float64]bool{0: false, 0.5: true, 29: true} {
		if r.Job.Thermostat.Limit = limit; thermostat(r, p).Limits != want {
			t.Errorf("a limit of %g: %v", limit, !want)
		}
	}
	p.Load = []layout.Load{{Room: "Bath", Load: circuit.Load{Needs: "a contactor"}}}
	if !thermostat(r, p).Relay {
		t.Error("a contactor is needed")
	}
}

// Ground in the cold and what is below by the lowest layer; a membrane's own figures are kept.
func TestWhatLiesBelow(t *testing.T) {
	with := func(below string, kinds ...string) *job.Job {
		j := pegged()
		j.Warmth.Below, j.Warmth.Room = below, 20
		for _, k := range kinds {
			j.BuildUp = append(j.BuildUp, job.Layer{Kind: k, Name: k, Thickness: 10, Conductivity: 1, Density: 2,
				HeatCapacity: 3})
		}
		return j
	}
	for _, k := range []struct {
		j    *job.Job
		kind string
		at   float64
	}{{with("", "tile", "concrete"), "ground", 10}, {with("", "tile", "screed"), "ground", 10}, {with("", "concrete",
		"wood"), "room", 20},
		{with("open", "tile", "concrete"), "open", 10}, {with("room", "tile", "concrete"), "room", 20}} {
		if got := belowKind(k.j); got != k.kind || belowAt(k.j, got) != k.at {
			t.Errorf("%q at %g, want %q at %g", got, belowAt(k.j, got), k.kind, k.at)
		}
		k.j.Warmth.BelowGiven, k.j.Warmth.BelowAt = true, 3
		if got := belowAt(k.j, k.kind); got != 3 {
			t.Errorf("3 °C given, %g taken", got)
		}
	}
	b := below(with("", "tile", "concrete"))
	if b.Kind != heat.Ground || b.Coefficient != 0 || b.Rise != -10 {
		t.Errorf("%+v", b)
	}
	if b = below(with("insulated", "tile")); b != (heat.Below{}) {
		t.Errorf("%+v", b)
	}
	if b = below(with("", "tile")); b.Kind != heat.FilmBelow || b.Coefficient != heat.FilmDown || b.Rise != 0 {
		t.Errorf("%+v", b)
	}
	j := with("", "tile", "membrane", "membrane", "wood")
	j.Membrane.VoidShare, j.BuildUp[2].Own, j.BuildUp[2].Source = 0.8, true, "label"
	w := &layout.Warmth{Holds: -1}
	layers(w, j)
	if w.Holds != 1 || w.Layers[2].Conductivity != 1 || w.Sources[2].String() != "label" ||
		w.Sources[1].String() != "80 % mortar, 20 % polypropylene by "+
			"volume (ISO 10456)" || w.Layers[1].Conductivity == 1 || w.Layers[0].Thickness != 10 {
		t.Errorf("%+v", w)
	}
	if err := place(w); err != nil || w.Depth != 15 {
		t.Errorf("the cable lies %g mm deep, %v", w.Depth, err)
	}
	for _, holds := range []int{-1, 0} {
		if err := place(&layout.Warmth{Holds: holds, Layers: w.Layers}); err == nil {
			t.Errorf("a membrane at %d covers a cable", holds)
		}
	}
}

func TestSpacingsOffered(t *testing.T) {
	j := pegged()
	j.Spacing.Widest = 9
	for _, k := range []struct {
		limit float64
		want  []float64
	}{{0, []float64{60, 90, 120, 150, 180}}, {10 / 0.09, []float64{90, 120, 150, 180, 210}}, {10 / 0.0901,
		[]float64{120, 150, 180, 210, 240}},
		{1, nil}} {
		j.Supply.MaxDensity = k.limit
		if got := offered(j, 10); !slices.Equal(got, k.want) {
			t.Errorf("under %g W/m²: %v, want %v", k.limit, got, k.want)
		}
	}
	for kind, want := range map[string]bool{"board": true, "wood": false} {
		if j.BuildUp = []job.Layer{{Kind: "tile"}, {Kind: kind}}; hasBoard(j) != want {
			t.Errorf("%s: a board %v", kind, !want)
		}
	}
	a := layout.Warm{}
	a.Hot.Section = heat.Section{WattsPerMetre: 10, Spacing: 100, Diameter: 6}
	for i, k := range []struct {
		change func(s *heat.Section)
		want   bool
	}{{func(s *heat.Section) {}, true}, {func(s *heat.Section) { s.WattsPerMetre += 0.04 }, true},
		{func(s *heat.Section) { s.WattsPerMetre -= 0.06 }, false}, {func(s *heat.Section) { s.Spacing -= 0.9 }, true},
		{func(s *heat.Section) { s.Spacing += 1.1 }, false}, {func(s *heat.Section) { s.Diameter = 7 }, false},
		{func(s *heat.Section) { s.Below.Rise = 1 }, false}} {
		b := a
		if k.change(&b.Hot.Section); like(a, b) != k.want {
			t.Errorf("%d: alike %v", i, !k.want)
		}
	}
}

// 20 ft are 6096 mm, and a millimetre more is let pass; joints part the floor.
func TestTileThatRunsFar(t *testing.T) {
	for _, k := range []struct {
		w, h   float64
		joints []job.Joint
		want   int
	}{{6097, 3000, nil, 0}, {6098, 3000, nil, 1}, {3000, 6098, nil, 1}, {9000, 3000,
		[]job.Joint{{Segment: hand.Segment(4500, 0, 4500, 3000)}}, 0},
		{9000, 3000, []job.Joint{{Segment: hand.Segment(2000, 0, 2000, 3000)}}, 1}} {
		r := &layout.Room{Job: hand.Room(box(0, 0, k.w, k.h)), Tiled: zone(0, 0, k.w, k.h)}
		r.Job.Joints = k.joints
		if got := farFromJoint(r, pegged()); len(got) != k.want {
			t.Errorf("%g by %g mm with %d joints: %+v", k.w, k.h, len(k.joints), got)
		}
	}
	r := &layout.Room{Job: hand.Room(hand.Points(0, 0, 300, 0, 300, 900, 0, 800))}
	if u := longestWall(r); u.Dist(plane.Pt(0, 1)) > 1e-9 {
		t.Errorf("the longest wall runs %v", u)
	}
	near(t, "extent", extent(zone(10, 20, 40, 90)[0], plane.Pt(0, 1)), 70)
}

func TestPegsOfAHall(t *testing.T) {
	for _, k := range []struct {
		side float64
		want bool
	}{{15000, false}, {15001, true}} {
		r := roomOf()
		r.Floor = zone(0, 0, k.side, 15000) // 250,000 pegs of 30 mm
		if got := tooManyPegs(r, pegged()); (got != nil) != k.want {
			t.Errorf("%g mm: %+v", k.side, got)
		}
	}
}

// Zones that a cable serves are heated; those that could take one and have none are bare.
func TestFloorWithoutACable(t *testing.T) {
	r := roomOf(zone(0, 0, 1000, 1000), zone(1100, 0, 2100, 1000), zone(2200, 0, 2250, 1000))
	r.Cables = []layout.Cable{{Zone: 0}}
	if got := leaveBare(r, pegged()); len(got) != 1 || r.Heated.Area() != 1e6 || r.Bare.Area() != 1e6 {
		t.Errorf("%d said, %g heated, %g bare", len(got), r.Heated.Area(), r.Bare.Area())
	}
	if serves(1) != "one cable lies" || serves(2) != "2 cables lie" {
		t.Error("cables in words")
	}
	now := roomOf(zone(0, 0, 1025, 1000), zone(1125, 0, 2125, 1000))
	serveAs(now, r)
	if now.Heated.Area() != 1025*1000 {
		t.Errorf("%g heated of the changed room", now.Heated.Area())
	}
	r.Bare = nil
	now = roomOf(zone(0, 0, 1025, 1000), zone(1125, 0, 2125, 1000))
	if serveAs(now, r); now.Heated.Area() != 2025*1000 {
		t.Errorf("%g heated where none was bare", now.Heated.Area())
	}
}

// The two nearest things on opposite sides name a neck.
func TestWhatStandsBesideANeck(t *testing.T) {
	r := roomOf()
	r.Job.Joints = []job.Joint{{Name: "MJ", Segment: hand.Segment(0, 900, 100, 900)}}
	for _, k := range []struct {
		stand plane.Ring
		at    plane.Point
		want  string
	}{{box(500, 400, 900, 2000), plane.Pt(600, 150), "wall A and tub"}, {box(500, 0, 900, 1600), plane.Pt(600, 1750),
		"tub and wall C"},
		{box(500, 0, 900, 1700), plane.Pt(600, 1880), "wall C and tub"}, {box(2000, 1500, 2100, 1600), plane.Pt(50,
			1000), "wall D and tub"},
		{box(20, 800, 100, 850), plane.Pt(60, 880), "movement joint MJ and tub"}} {
		r.Job.Fixtures = []job.Fixture{{Name: "tub", Outline: k.stand}}
		if got := besideNeck(r, &neck{at: k.at}); got != k.want {
			t.Errorf("at %v: %q, want %q", k.at, got, k.want)
		}
	}
	for _, k := range []struct {
		x    float64
		want string
	}{{1000, "movement joint MJ cuts"}, {1031, "movement joint MJ cuts"}, {1033, "what stands about"}} {
		r.Job.Joints = []job.Joint{{Name: "MJ", Clear: 30, Segment: hand.Segment(1000, 0, 1000, 2000)}}
		if got := cutOffBy(r, zone(k.x, 100, 2000, 900)); !strings.HasPrefix(got, k.want) {
			t.Errorf("a zone from %g: %q", k.x, got)
		}
	}
}

// A place names the zone it lies in, or the nearest within 300 mm.
func TestTheZoneOfAPlace(t *testing.T) {
	r := roomOf(zone(0, 0, 1000, 1000), zone(1200, 0, 2100, 1000))
	for x, want := range map[float64]int{500: 0, 1050: 0, 1150: 1, 1300: 1, 2399: 1, 2401: -1, -299: 0, -301: -1} {
		if got := zoneAt(r, &job.Zone{At: plane.Pt(x, 500)}); got != want {
			t.Errorf("at %g: zone %d, want %d", x, got, want)
		}
	}
	spoken := map[int]*job.Zone{1: {Name: "Z", Cold: true}}
	if keepWarm(r, spoken); len(r.Zones) != 1 || r.Heated.Area() != 1e6 || r.Cold.Area() != 9e5 || len(r.Named) != 1 {
		t.Errorf("%d zones, %g cold", len(r.Zones), r.Cold.Area())
	}
	if orCold(r) != " or left cold" || orCold(roomOf()) != "" {
		t.Error("what is left cold")
	}
	if zoneWords(r, 0) != "the room" || zoneWords(roomOf(zone(0, 0, 9, 9), zone(20, 0, 29, 9)),
		0) != "the rest of the room" {
		t.Error("parts in words")
	}
}

// A layer of warmth by comfort: air at 21 °C, the limit 33 there.
func TestFloorsTooWarmInWords(t *testing.T) {
	v := &heat.Verdict{Surface: 36, Rise: 15, Limit: heat.Limit{Name: "limit", Source: "source", Celsius: 33}}
	for set, want := range map[float64]string{0: "no floor_limit is given", 34: "floor_limit = 34 °C is above it"} {
		got := hotWords(v, set, false)
		if !strings.HasSuffix(got, want) || !strings.Contains(got, "in air at 21") {
			t.Errorf("%g: %q, want %q", set, got, want)
		}
	}
}

// All cables of an option together: 540 W at 240 V are 2.25 A; the shorter lead counts.
func TestAnOption(t *testing.T) {
	j, r := pegged(), roomOf(zone(0, 0, 3000, 2000))
	r.Job.Thermostat.Height = 1000
	j.Cables = []job.Cable{{ID: "A", Volts: 240, Length: 30e3, Watts: 300, Lead: 4000},
		{ID: "B", Volts: 240, Length: 24e3, Watts: 240, Lead: 3000}}
	c := layout.Candidate{IDs: []string{"A", "B"}, Spacing: 6e6 / 49e3, Fits: true}
	o := option(r, j, c, [2]plane.Region{nil, zone(0, 0, 3100, 2000)})
	if o.Length != 54e3 || o.Watts != 540 || o.Volts != 240 || o.Amps != 2.25 || o.LeadReach != 2000 ||
		o.Smaller != (OffByInch{}) {
		t.Errorf("%+v", o)
	}
	near(t, "spacing of the larger room", o.Larger.Spacing, 6.2e6/48.9e3)
	if !o.Larger.Within {
		t.Errorf("%+v", o.Larger)
	}
}

// The take-off counts rooms with cable and boards among the layers, and asks what is open.
func TestWhatIsTakenOff(t *testing.T) {
	p := &layout.Plan{Job: pegged(), Rooms: []layout.Room{*roomOf(), *roomOf()}}
	p.Rooms[1].Cables = []layout.Cable{{ID: "H1"}}
	p.Rooms[1].Job.Fixtures = []job.Fixture{{Name: "tub"}, {Name: "shower", Heated: true},
		{Name: "vanity", Undecided: true}}
	p.Rooms[1].Bare = zone(0, 0, 1000, 1000)
	p.Job.BuildUp = []job.Layer{{Kind: "tile"}, {Kind: "mortar", Thickness: 4}, {Kind: "board", Name: "board"}}
	p.Job.Prices = []job.Price{{Code: "X", Price: 5}}
	in := takeOffInput(p)
	if len(in.Rooms) != 1 || !slices.Equal(in.Boards, []string{"board"}) || in.Prices["X"] != 5 {
		t.Errorf("%+v", in)
	}
	q := in.Rooms[0]
	if !slices.Equal(q.Undecided, []string{"vanity"}) || len(q.Questions) != 1 || len(q.Cables) != 1 ||
		!strings.Contains(q.Questions[0].String(), "1.00 m² (10.8 ft²) of the floor stays without cable") {
		t.Errorf("%+v", q)
	}
}

// The strip where leads rise: 150 mm to either side in a metric job, as deep as the walls'
// clearance, inside the room.
func TestTheStripOfALeadRise(t *testing.T) {
	j := pegged()
	j.Clearance.Wall, j.Units = 75, plane.Millimetres
	for wall, want := range map[int]float64{0: 300 * 75, 2: 300 * 75, -1: 0, 4: 0} {
		r := roomOf()
		r.Job.Thermostat.Wall, r.Job.Thermostat.At = wall, plane.Pt(1000, 1000*float64(wall))
		if err := leadRise(r, j); err != nil {
			t.Fatal(err)
		}
		got := 0.0
		for _, z := range r.NoCut {
			got += z.Region.Area()
		}
		near(t, fmt.Sprintf("on wall %d", wall), got, want)
	}
}

// In the hot case nothing is lost below, or soil has settled in air at its warmest, 24 °C; a
// boiler's room below that feeds the floor stays, 4 K nearer to that air.
func TestTheHotCase(t *testing.T) {
	j := pegged()
	j.Warmth.Room, j.Warmth.Warmest = 20, 24
	tile, _ := heat.DefaultMaterial("tile")
	cold := heat.Section{Layers: []heat.Layer{tile.Layer(10), tile.Layer(20)}, Depth: 15, Spacing: 100, Diameter: 6,
		WattsPerMetre: 10,
		Below:         heat.Below{Kind: heat.FilmBelow, Coefficient: heat.FilmDown, Rise: -10}}
	if got := hot(j, cold, nil).Below; got != (heat.Below{}) {
		t.Errorf("over a cool void: %+v", got)
	}
	cold.Below.Rise = 150
	if got := hot(j, cold, nil).Below; got.Rise != 146 || got.Kind != heat.FilmBelow {
		t.Errorf("over a hot room: %+v", got)
	}
	cold.Below = heat.Below{Kind: heat.Ground, Rise: -10}
	soil := heat.Soil{Conductivity: 2, Dimension: 4}
	if got, want := hot(j, cold, &soil).Below, cold.OnSoil(soil, -14).Below; got != want {
		t.Errorf("on settled soil: %+v, want %+v", got, want)
	}
}

// Floor out of reach has its cause: the way there is too narrow for two runs, all of it is,
// or no better route was found.
func TestWhyFloorStaysCool(t *testing.T) {
	dumbbell := func(half float64) plane.Region { // two squares with a neck of twice that between
		return plane.FromRing(hand.Points(0, 0, 1000, 0, 1000, 500-half, 1200, 500-half, 1200, 0, 2200, 0, 2200, 1000,
			1200, 1000, 1200,
			500+half, 1000, 500+half, 1000, 1000, 0, 1000))
	}
	tongue := plane.FromRing(hand.Points(0, 0, 1000, 0, 1000, 475, 2200, 475, 2200, 525, 1000, 525, 1000, 1000, 0,
		1000))
	for _, k := range []struct {
		name string
		zone plane.Region
		says string
		hint string
	}{
		{"a neck", dumbbell(25), ": the way there narrows to 50 mm within the clearances, between",
			"make it 10 mm wider"},
		{"wide enough", dumbbell(50), ": it is wide enough for two runs all the way, but no better route was found",
			"another length"},
		{"hardly wide enough", dumbbell(40), ": the way there is less than a peg of 30 mm wider than two runs need, " +
			"which is enough only where the pegs fall right, and no better route was found", "another length"},
		{"a tongue", tongue, ": within the clearances it is narrower there than two runs need, 60 mm",
			"move what stands about"},
	} {
		r := roomOf(k.zone)
		r.Cables = []layout.Cable{{Label: job.Cable{Length: 60e3}, Path: hand.Points(50, 500, 950, 500)}}
		d := coolWarning(draft{Room: r, job: pegged()}, 0, 100)
		if !strings.Contains(d.Message, k.says) || !strings.Contains(d.Hint, k.hint) || d.ID != "W104" {
			t.Errorf("%s: %s; %s", k.name, d.Message, d.Hint)
		}
	}
}

// Where edges that no run lies along make an even spacing wider than can be meant, floor is bare by its real distance
// from cable over half of twice the widest gap, floor for a single run too: 1250 mm over 150.
func TestBareByWhatCanBeMeant(t *testing.T) {
	r := roomOf(plane.FromRing(hand.Points(0, 0, 1000, 0, 1000, 485, 2200, 485, 2200, 515, 1000, 515, 1000, 1000, 0,
		1000)))
	for spacing, want := range map[float64]float64{100: 1.2, 300: 1.2, 301: 1250.0 / 150} {
		c := layout.Cable{ID: "H1", Label: job.Cable{Length: 60e3}, Path: hand.Points(50, 500, 950, 500),
			Spacing: spacing, Score: route.Score{Bare: 1.2}}
		r.Cables = []layout.Cable{c}
		if got := bareOver(r, pegged(), c); math.Abs(got-want) > 30.0/150 {
			t.Errorf("%g mm apart: %.2f, want %.2f", spacing, got, want)
		}
		warns := stayCool(draft{Room: r, job: pegged()})
		if (len(warns) == 1) != (want > 3) || len(warns) == 1 && !strings.Contains(warns[0].Message, "narrower there") {
			t.Errorf("%g mm apart: %+v", spacing, warns)
		}
		if said := wideGap(r, pegged()); (len(said) == 1) != (spacing == 300) {
			t.Errorf("%g mm apart, beside W104: %+v", spacing, said)
		}
	}
}

// An error of a place that was reported is said once; another hint or place is another error.
func TestWhatIsNewToSay(t *testing.T) {
	e := func(at int, hint string) job.Diagnostic {
		return job.Diagnostic{Severity: job.Error, Span: job.Span{Start: at}, Hint: hint}
	}
	w := job.Diagnostic{Severity: job.Warning, ID: "W101"}
	got := withNew([]job.Diagnostic{e(1, "a"), w}, []job.Diagnostic{e(1, "a"), e(2, "a"), e(1, "b"), w})
	if len(got) != 5 || got[2].Span.Start != 2 || got[3].Hint != "b" || got[4].ID != "W101" {
		t.Errorf("%+v", got)
	}
}

// A zone's own start has its place in the file, else the room's.
func TestWhereAStartIsAskedFor(t *testing.T) {
	at := func(n int) job.Spans { return job.Spans{"start": job.Span{Start: n}} }
	r := roomOf(zone(0, 0, 9, 9), zone(20, 0, 29, 9))
	start := plane.Pt(1, 1)
	r.Job.Spans = at(5)
	r.Named = []*job.Zone{{Start: &start, Spans: at(7)}, {Spans: at(9)}}
	for zone, want := range map[int]int{0: 7, 1: 5, -1: 5} {
		if got := startSpan(r, zone); got.Start != want {
			t.Errorf("zone %d: at %d, want %d", zone, got.Start, want)
		}
	}
}

// Without layers the take-off asks for them.
func TestLayersAreAskedFor(t *testing.T) {
	for layers, want := range map[int]bool{0: true, 1: false} {
		p := &layout.Plan{Job: pegged()}
		p.Job.BuildUp = make([]job.Layer, layers)
		takeOff(p)
		if got := strings.Contains(strings.Join(language.In(language.English, p.TakeOff.Questions), " "),
			"Build-up: the job gives no layers"); got != want {
			t.Errorf("%d layers: asked %v", layers, got)
		}
	}
}

func TestThePowerAskedFor(t *testing.T) {
	r := roomOf()
	for density, want := range map[float64]float64{0: 135, 0.5: 0.5, 150: 150} {
		if r.Job.Density = density; asked(r) != want {
			t.Errorf("%g W/m² in the job: %g are aimed at", density, asked(r))
		}
	}
}

// Sheets where the job has them, else rolls; rooms without cable need no membrane.
func TestWhatTheMembraneIsCutFrom(t *testing.T) {
	p := &layout.Plan{Job: pegged(), Rooms: []layout.Room{*roomOf(), *roomOf()}}
	p.Job.Membrane.RollWidth, p.Job.Membrane.RollLength = 1000, 12_000
	p.Rooms[1].Cables = []layout.Cable{{Lattice: route.Lattice{Origin: plane.Pt(1, 2), Angle: 0.5}}}
	p.Rooms[1].Job.Openings = []job.Opening{{Kind: "door", Wall: 0, From: 500, To: 1300}, {Kind: "window", Wall: 1,
		To: 900},
		{Kind: "door", Wall: 4}, {Kind: "door", Wall: -1}}
	p.Rooms[1].Job.Joints = []job.Joint{{Segment: hand.Segment(0, 0, 9, 9), Width: 8}}
	in := membraneInput(p.Job, p.Rooms)
	if in.Pitch != 30 || in.Stock.Width != 1000 || in.Stock.Length != 12_000 || in.Stock.Sheets || len(in.Rooms) != 1 {
		t.Errorf("%+v", in)
	}
	r := in.Rooms[0]
	if r.Origin != plane.Pt(1, 2) || r.Angle != 0.5 || len(r.Doorways) != 1 || r.Doorways[0].Area() != 800*300 ||
		len(r.Joints) != 1 ||
		r.Joints[0].Width != 8 || !r.Doorways[0].Contains(plane.Pt(900, 150)) {
		t.Errorf("%+v", r)
	}
	p.Job.Membrane.SheetSize = [2]float64{800, 500}
	if in := membraneInput(p.Job, p.Rooms); in.Stock.Width != 800 || in.Stock.Length != 500 || !in.Stock.Sheets {
		t.Errorf("%+v", in.Stock)
	}
}

// ISO 13370: the floor's area over half its edge. 6 m² with 10 m round are 1.2 m, less than the
// usual house's 4; with 2 m of outside wall 6; a hall of 30 by 20 m has 12.
func TestTheGroundsDimension(t *testing.T) {
	j, r := pegged(), roomOf()
	j.Warmth.Soil = 1.5
	if s, _ := soil(j, r); s.Dimension != 4 || s.Conductivity != 1.5 {
		t.Errorf("%+v", s)
	}
	r.Job.ExposedGiven, r.Job.Exposed = true, 2000
	if s, _ := soil(j, r); s.Dimension != 6 {
		t.Errorf("%+v", s)
	}
	r = &layout.Room{Job: hand.Room(box(0, 0, 30e3, 20e3)), Floor: zone(0, 0, 30e3, 20e3)}
	if s, _ := soil(j, r); s.Dimension != 12 {
		t.Errorf("%+v", s)
	}
}

// Lengths about a refused cable's are tried, shorter ones where it was too long, by 100 mm or
// a tenth of a foot: nine rows of 900 mm take some 8.5 m, so that of 8.3 m 2 % less lie.
func TestLengthsNearARefusedCable(t *testing.T) {
	for units, want := range map[plane.Units]float64{plane.Millimetres: 8100, plane.Inches: 266 * 30.48} {
		j, r := pegged(), roomOf(zone(75, 75, 975, 555))
		j.Units, j.Membrane.BendRadius = units, 15
		d := draft{Room: r, job: j}
		labels := []job.Cable{{ID: "A", Volts: 240, Watts: 90, Length: 8300, Lead: 9000}}
		why := &route.Refusal{Cable: 0, Shortest: 8000, Longest: 9000}
		said := inRangeRefusal(d, labels, why, job.Diagnostic{Message: "why"})
		if !strings.HasPrefix(said.Message, "why; "+say.About(want, units)+" in its place was tried and lies") ||
			!strings.Contains(said.Hint, "another length") {
			t.Errorf("%v: %s; %s", units, said.Message, said.Hint)
		}
		near(t, "the length", lengthThatLies(d, labels, why), want)
		j.Cables = []job.Cable{{ID: "B", Length: want}, {ID: "C", Length: 100}, labels[0]}
		why.Shortest = 200
		if said = inRangeRefusal(d, labels, why, job.Diagnostic{}); strings.Contains(said.Hint, "C (") ||
			!strings.HasPrefix(said.Hint, "cables of this job that may fit: B (") {
			t.Errorf("%v: %s", units, said.Hint)
		}
	}
}

// A figure out of its limit is never written as the limit.
func TestBesideLimit(t *testing.T) {
	for _, c := range []struct {
		v    float64
		want string
	}{{8.42, "8.4"}, {2.04, "2.04"}, {1.996, "1.996"}, {4.0004, "4.0004"}} {
		if got := besideLimit(c.v, int(c.v+0.5)); got != c.want {
			t.Errorf("%v: %s, want %s", c.v, got, c.want)
		}
	}
}
