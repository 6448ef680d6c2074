package build

import (
	"fmt"
	"slices"
	"strings"
	"testing"

	"oxturn/layout"
	"oxturn/layout/internal/hand"
	"oxturn/layout/job"
	"oxturn/layout/plane"
)

// Boxes are tried 100 mm off both corners of a wall, that place among them.
func TestStationsAlongAWall(t *testing.T) {
	for length, want := range map[float64]string{1400: "[100 400 700 1000 1300]", 1399: "[100 400 700 1000]",
		1350: "[100 400 700 1000]", 200: "[100]", 199: "[]"} {
		if got := fmt.Sprint(stations(length, 300)); got != want {
			t.Errorf("%g mm: %s, want %s", length, got, want)
		}
	}
}

// The better of two places comes first, by what counts more than all after it.
func TestTheBetterPlaceForABox(t *testing.T) {
	order := []BoxPlace{{Covered: 0.9, Lead: 500, Tube: 400}, {Covered: 0.9, Lead: 300, Tube: 700},
		{Covered: 0.89, Lead: 100}, {Joints: 1, Covered: 1}, {Joints: 2, Covered: 1}, {Stacked: 10, Covered: 1},
		{Stacked: 24, Covered: 1}, {Refused: "no", Covered: 1}}
	for i, a := range order {
		for k, b := range order {
			got := betterPlace(a, b)
			if i < k && got >= 0 || i > k && got <= 0 || i == k && got != 0 {
				t.Errorf("%+v against %+v: %d", a, b, got)
			}
		}
	}
	long := strings.Repeat("no ", 9) // a longer reason is no worse
	for _, k := range []struct{ a, b BoxPlace }{
		{BoxPlace{Stacked: 3, Lead: 5}, BoxPlace{Stacked: 0, Lead: 5}},
		{BoxPlace{Covered: 0.902, Lead: 5}, BoxPlace{Covered: 0.899, Lead: 5}},
		{BoxPlace{Refused: "no"}, BoxPlace{Refused: long}},
	} {
		if got := betterPlace(k.a, k.b); got != 0 {
			t.Errorf("%+v against %+v: %d", k.a, k.b, got)
		}
	}
}

// Cables are numbered through the job, room after room, and know whether another lies beside
// them.
func TestCablesAreNumberedThroughTheJob(t *testing.T) {
	first := strings.NewReplacer("NAMED", `cables = ["A", "A"]`, `"Landing"`, `"First"`).Replace(landing(5.5, 12))
	room := first[strings.Index(first, "[[room]]"):strings.Index(first, "[[cable]]")]
	second := strings.NewReplacer(`"A", "A"`, `"B"`, `"First"`, `"Second"`).Replace(room)
	j, report := job.Read("job.toml", []byte(strings.Replace(first, "[[cable]]", second+"[[cable]]", 1)), nil)
	if report.Errors() > 0 {
		t.Fatal(report.Diagnostics())
	}
	p, said := Lay(j, Search{})
	var got []string
	for _, r := range p.Rooms {
		for _, c := range r.Cables {
			got = append(got, fmt.Sprint(r.Job.Name, " ", c.ID, " ", c.Several))
		}
	}
	if want := []string{"First H1 true", "First H2 true", "Second H3 false"}; !slices.Equal(got, want) {
		t.Errorf("%q, want %q; %v", got, want, said)
	}
}

// What is kept off beside a toilet and fixings: all of them, the flange by its radius and its clearance, a single
// fixing by a disc, a line of them by as much to every side and round its ends.
func TestFloorKeptForFlangesAndFixings(t *testing.T) {
	r := &layout.Room{Job: &job.Room{Fixings: []job.Fixing{{Name: "bolt", Line: hand.Points(500, 500), Clear: 40},
		{Name: "rail", Line: hand.Points(1000, 0, 2000, 0), Clear: 50}},
		Joints: []job.Joint{{Segment: hand.Segment(3000, 0, 3000, 900), Clear: 10}}}}
	toilet := job.Fixture{Name: "toilet", Clear: 25, Flange: &job.Flange{Centre: plane.Pt(0, 2000), Radius: 50,
		Clear: 30}}
	toilet.Outline = box(-200, 1700, 200, 2400)
	r.Job.Fixtures = []job.Fixture{toilet}
	if _, err := keepOffs(r); err != nil {
		t.Fatal(err)
	}
	var names []string
	for _, z := range r.NoCut {
		names = append(names, z.Name)
	}
	if want := []string{"toilet flange", "toilet", "bolt", "rail", ""}; !slices.Equal(names, want) {
		t.Fatalf("%q, want %q", names, want)
	}
	for i, k := range map[int]struct {
		from plane.Point
		off  float64
	}{0: {plane.Pt(0, 2000), 80}, 2: {plane.Pt(500, 500), 40}, 3: {plane.Pt(2000, 0), 50}} {
		for a := -80.0; a <= 80; a++ {
			way := plane.Pt(1, 0).Rotate(plane.Radians(a))
			in, out := k.from.Add(way.Mul(k.off*0.997)), k.from.Add(way.Mul(k.off*1.01))
			if i == 3 { // grown so that its chords keep the distance
				in = k.from.Add(way.Mul(k.off - 0.001))
			}
			if z := r.NoCut[i].Region; !z.Contains(in) || z.Contains(out) {
				t.Fatalf("%s at %g degrees: %v kept off %v, %v %v", r.NoCut[i].Name, a, in, z.Contains(in), out,
					z.Contains(out))
			}
		}
	}
}

// What is chosen from goes on with the others, and is warmed by what the router found.
func TestRunnersUpAreTheOthers(t *testing.T) {
	d := drafted(t, strings.Replace(landing(12, 10, 8), "NAMED", "", 1))
	_, labels, wrong := choose(d)
	if wrong != nil || len(labels) != 1 {
		t.Fatalf("%v, %v", labels, wrong)
	}
	for _, c := range d.Chosen.RunnersUp {
		if slices.Equal(c.IDs, d.Chosen.Taken) {
			t.Errorf("%v is taken and a runner-up", c.IDs)
		}
	}
	if n := len(candidates(d.Room, d.job)); len(d.Chosen.RunnersUp) != n-1 {
		t.Errorf("%d runners-up of %d", len(d.Chosen.RunnersUp), n)
	}
}

// A cable of just the length a floor takes at the most, or at the least, is one for it.
func TestLengthsJustTaken(t *testing.T) {
	j, large, pocket := pegged(), zone(0, 0, 3000, 1000), zone(3100, 0, 3700, 1000)
	least, most := lengths(j, large)
	_, small := lengths(j, pocket)
	for _, k := range []struct {
		long, short float64
		want        bool
	}{{least, small, true}, {most, small, true}, {least - 1, small, false}, {most + 1, small, false},
		{most, small + 1, false}} {
		j.Cables = []job.Cable{{Volts: 240, Length: k.long}, {Volts: 240, Length: k.short}}
		if got := paired(j, large, pocket); got != k.want {
			t.Errorf("%g and %g mm: %v", k.long, k.short, got)
		}
	}
	for length, want := range map[float64]bool{most: true, most + 1: false} {
		j.Cables = []job.Cable{{Volts: 240, Length: length}}
		if got := shortEnough(j, large); got != want {
			t.Errorf("%g mm: %v", length, got)
		}
	}
}

// What is said to stand where the leads come down: a thing, or floor that is kept for a fixing, not what else is
// kept off there.
func TestWhatIsUnderTheBox(t *testing.T) {
	d := drafted(t, strings.Replace(landing(12), "NAMED", "", 1))
	for reason, want := range map[layout.Reason]string{layout.ForFixing: "on floor kept free for fixing post",
		layout.ForJoint: ""} {
		d.NoCut = []layout.NoCut{{Reason: reason, Name: "post", Region: zone(400, 0, 800, 300)}}
		if got := underBox(d.Room); got != want {
			t.Errorf("%v: %q, want %q", reason, got, want)
		}
	}
}

// A box on a partition goes with that one, and an opening stays within its wall where that gets
// shorter: all beyond 1500 mm comes 25 mm nearer.
func TestWhatGoesWithAPartition(t *testing.T) {
	nearer := func(p plane.Point) plane.Point {
		if p.X <= 1500 {
			return p
		}
		return p.Sub(plane.Pt(25, 0))
	}
	for _, k := range []struct {
		first float64 // where the other partition stands
		on    int
	}{{1000, 1}, {2000, 1}} {
		r := *roomOf().Job
		r.Partitions = []job.Partition{{Segment: hand.Segment(k.first, 0, k.first, 900)},
			{Segment: hand.Segment(2500, 0, 2500, 900)}}
		r.Thermostat.Face, r.Thermostat.At = &job.Face{Partition: k.on}, plane.Pt(2550, 300)
		if got := moved(r, nearer).Thermostat.At; got != plane.Pt(2525, 300) {
			t.Errorf("beside a partition at %g: %v", k.first, got)
		}
	}
	r := *roomOf().Job
	r.Openings = []job.Opening{{Wall: 0, From: 10, To: 2980}}
	if o := moved(r, nearer).Openings[0]; o.From != 5 || o.To != 2975 { // of a wall of 2975 mm
		t.Errorf("%+v", o)
	}
}

// Of two membranes the upper one holds the cable, which is refused where nothing covers it; what is too little heat for
// a whole room may do where another
// part of it has a cable of its own.
func TestTheFirstMembraneHolds(t *testing.T) {
	w := &layout.Warmth{Holds: -1}
	layers(w, &job.Job{BuildUp: []job.Layer{{Kind: "membrane", Thickness: 6}, {Kind: "tile", Thickness: 9},
		{Kind: "membrane", Thickness: 3}}})
	if err := place(w); w.Holds != 0 || err == nil || !strings.Contains(err.Error(), "nothing covers the cable") {
		t.Errorf("%+v, %v", w, err)
	}
	d := drafted(t, strings.Replace(landing(12), "NAMED", "", 1))
	little := []job.Cable{{ID: "A", Length: 12000, Watts: 1}}
	if cannotBeMeant(d.Room, d.job, little) == nil {
		t.Error("1 W warms the landing")
	}
	d.Zones = append(d.Zones, zone(5000, 0, 6000, 1000))
	if got := cannotBeMeant(d.Room, d.job, little); got != nil {
		t.Errorf("beside another part: %+v", got)
	}
}

// Options in their order: what was chosen where the job names none, what covers enough, what fits, what was not laid,
// the rest.
func TestThePlaceOfAnOption(t *testing.T) {
	fits := func(covered float64) layout.Candidate { return layout.Candidate{Fits: true, Covered: covered} }
	for i, k := range []struct {
		o      Option
		chosen bool
		want   int
	}{
		{Option{Taken: true}, true, 0}, {Option{Candidate: fits(0.9), Taken: true}, true, 0},
		{Option{Candidate: fits(0.9), Taken: true}, false, 1}, {Option{Candidate: fits(0.8)}, true, 1},
		{Option{Candidate: fits(0.79)}, true, 2}, {Option{Candidate: layout.Candidate{Unlaid: true, Covered: 1}}, true,
			3},
		{Option{Candidate: layout.Candidate{Covered: 1}}, true, 4},
	} {
		if got := k.o.place(k.chosen, 0.8); got != k.want {
			t.Errorf("%d: %d, want %d", i, got, k.want)
		}
	}
}

// Strips run along the wall that they are within a degree of, else at an angle to the nearest.
func TestTheWallStripsRunAlong(t *testing.T) {
	p := &layout.Plan{Rooms: []layout.Room{*roomOf()}}
	p.Rooms[0].Job.Name = "Bath"
	for degrees, want := range map[float64]string{0: "along wall A", 90: "along wall B", 0.5: "along wall A",
		20: "at 20° to wall A", 80: "at 10° to wall B"} {
		if got := stripsAlong(p, "Bath", plane.Radians(degrees)); got.String() != want {
			t.Errorf("%g: %q, want %q", degrees, got, want)
		}
	}
	if got := stripsAlong(p, "Hall", 0); got.String() != "" {
		t.Errorf("of a room that is not there: %q", got)
	}
}

// A thermostat is bought for the room's volts, and for the sensor where the job says which it reads.
func TestTheKindOfThermostat(t *testing.T) {
	p := &layout.Plan{Job: pegged(), Rooms: []layout.Room{*roomOf()}, Load: []layout.Load{{Room: "Bath"}}}
	p.Rooms[0].Job.Name, p.Load[0].Volts, p.Job.Supply.ThermostatAmps = "Bath", 230, 16
	for sensor, want := range map[string]string{"": "230 V, contacts for 16 A",
		"NTC 10k": "230 V, contacts for 16 A, reading a sensor NTC 10k"} {
		p.Job.Sensor.Family.Name = sensor
		if got := thermostat(&p.Rooms[0], p).Kind; got.String() != want {
			t.Errorf("%q, want %q", got, want)
		}
	}
}
