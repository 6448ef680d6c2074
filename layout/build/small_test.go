package build

import (
	"fmt"
	"math"
	"reflect"
	"slices"
	"strings"
	"sync/atomic"
	"testing"
	"time"

	"oxturn/layout/language"

	"oxturn/layout"
	"oxturn/layout/heat"
	"oxturn/layout/internal/hand"
	"oxturn/layout/job"
	"oxturn/layout/plane"
	"oxturn/layout/route"
	"oxturn/layout/takeoff"
	"oxturn/layout/tiling"
)

// landing is a floor of 1.2 by 1 m, and cables of so many metres, by name A, B and so on, of
// 20 W/m.
func landing(lengths ...float64) string {
	text := `units = "mm"
[membrane]
pitch = 30
[[room]]
name = "Landing"
corners = [[0, 0], [1200, 0], [1200, 1000], [0, 1000]]
NAMED
[room.thermostat]
wall = "A"
from = 600
`
	for i, n := range lengths {
		text += "[[cable]]\nid = \"" + string(rune('A'+i)) + "\"\nvolts = 120\nwatts = " + formatted(20*n) +
			"\nlength = \"" + formatted(n) + " m\"\nlead = \"3 m\"\n"
	}
	return text
}

func formatted(v float64) string {
	return strings.TrimSuffix(plane.FormatLength(v, plane.Millimetres), " mm")
}

// drafted is the first room of a job with its areas.
func drafted(t *testing.T, text string, named ...string) draft {
	t.Helper()
	names := ""
	if named != nil {
		names = `cables = ["` + strings.Join(named, `", "`) + `"]`
	}
	j, report := job.Read("job.toml", []byte(strings.Replace(text, "NAMED", names, 1)), nil)
	if report.Errors() > 0 {
		t.Fatal(report.Diagnostics())
	}
	d := draft{&layout.Room{Job: &j.Rooms[0]}, j, &route.Steps{}, Search{}}
	if wrong := prepare(d.Room, j); wrong != nil {
		t.Fatal(wrong)
	}
	d.giveSteps()
	return d
}

// A room that no longer suits its cable gets the first other that lies there, nearest to the
// power wanted, 135 W/m²: of 20 W/m that is 148 mm between runs, more than the 120 of four pegs,
// which 8 m would need; 10 m lie at 110 mm, 12 m at 88; by area or laid.
func TestCablesInstead(t *testing.T) {
	d := drafted(t, landing(12, 8, 10, 14))
	for _, lay := range []bool{false, true} {
		if got := instead(d, layout.Named(d.job, []string{"A"}), lay); got != "C" {
			t.Errorf("laid %v: %s", lay, got)
		}
		if got := instead(d, layout.Named(d.job, []string{"C"}), lay); got != "A" {
			t.Errorf("laid %v: %s for C", lay, got)
		}
	}
	d = drafted(t, landing(12))
	if got := instead(d, layout.Named(d.job, []string{"A"}), true); got != "none of the catalogue's" {
		t.Error(got)
	}
	// five of the catalogue whose limits suit, and no lead of which has a way: four are tried
	d = drafted(t, landing(12, 9, 10, 11, 13, 14))
	var tried atomic.Int32 // the ways of a cable are asked at the same time
	d.search.Stop = func() bool { tried.Add(1); return true }
	if got := instead(d, layout.Named(d.job, []string{"A"}), true); got != "none of the catalogue's" ||
		tried.Load() == 0 {
		t.Errorf("%s after %d", got, tried.Load())
	}
}

// A cable that is refused is tried shorter, or longer where it left floor cold, by so many
// per cent, in whole 100 mm, with as much heat a metre.
func TestLengthsThatLie(t *testing.T) {
	d := drafted(t, landing(12, 10), "A")
	labels := layout.Named(d.job, []string{"A"})
	d.job.Supply.MaxDensity = 340 // 20 W/m at the closest gap of 60 mm are 333 W/m²
	near(t, "shorter", lengthThatLies(d, labels, &route.Refusal{}), 11700)
	near(t, "longer", lengthThatLies(d, labels, &route.Refusal{Cold: 0.3}), 12400)
	d.job.Supply.MaxDensity = 0
	near(t, "shorter, without a limit", lengthThatLies(d, labels, &route.Refusal{}), 11700)
	labels[0].Length = 60000
	near(t, "none", lengthThatLies(d, labels, &route.Refusal{}), 0)
	d.job.Units = plane.Inches
	labels[0].Length = 12000 // 98 % are 38.58 ft: 38.5 ft
	near(t, "in tenths of a foot", lengthThatLies(d, labels, &route.Refusal{}), 38.5*plane.Foot)
}

// What lies is named with the cables of the job between it and the longest or the shortest.
func TestRefusedWithinTheRange(t *testing.T) {
	d := drafted(t, landing(12, 11, 14, 15), "A")
	labels := layout.Named(d.job, []string{"A"})
	for _, k := range []struct {
		cold      float64
		says, fit string
	}{
		{0, "; 11.7 m in its place was tried and lies", "B (11.0 m);"},
		{0.3, "; 12.4 m in its place was tried and lies", "C (14.0 m);"},
	} {
		got := inRangeRefusal(d, labels, &route.Refusal{Cold: k.cold, Shortest: 8000, Longest: 14500}, job.Diagnostic{})
		if got.Message != k.says || !strings.HasPrefix(got.Hint, "cables of this job that may fit: "+k.fit) {
			t.Errorf("%+v", got)
		}
	}
	long := slices.Clone(labels)
	long[0].Length = 80000
	got := inRangeRefusal(d, long, &route.Refusal{Shortest: 8000, Longest: 90000}, job.Diagnostic{})
	if got.Message != "; nor for any of the lengths a little below it" || !strings.HasPrefix(got.Hint, "add a cable") {
		t.Errorf("%+v", got)
	}
}

// Floor stays cool for want of cable where a longer one reaches it all, of the zone that is
// asked about.
func TestMoreCableReaches(t *testing.T) {
	d := drafted(t, landing(6), "A")
	c := layout.Cable{Label: d.job.Cables[0]}
	c.Path = hand.Points(100, 100, 1100, 100)
	d.Cables = []layout.Cable{c}
	if !moreReaches(d, 0) {
		t.Error("a longer cable does not reach the landing")
	}
	d.Cables = append(d.Cables, layout.Cable{Label: job.Cable{ID: "B", Length: 400000, Watts: 1}, Zone: 1})
	if moreReaches(d, 0) {
		t.Error("400 m of another cable lie on the landing")
	}
}

// Cables are taken off a list: those without a count stay, of two one is left, of one none.
func TestCablesLeft(t *testing.T) {
	list := []job.Cable{{ID: "A"}, {ID: "B", Count: 2}, {ID: "C", Count: 1}, {ID: "D", Count: 3}, {ID: "E", Count: 1}}
	used := []job.Cable{{ID: "A"}, {ID: "B"}, {ID: "C"}, {ID: "D"}, {ID: "D"}, {ID: "D"}, {ID: "D"}}
	got := without(list, used)
	want := []job.Cable{{ID: "A"}, {ID: "B", Count: 1}, {ID: "E", Count: 1}}
	if !slices.EqualFunc(got, want, func(a, b job.Cable) bool { return a.ID == b.ID && a.Count == b.Count }) {
		t.Errorf("%+v", got)
	}
	r := &job.Room{Cables: []string{"A", "B", "C"}, Zones: []job.Zone{{Cables: []string{"C"}}, {Cables: []string{"B"}}}}
	if got := ownCables(r); !slices.Equal(got, []string{"A"}) {
		t.Errorf("%v", got)
	}
	r.Cables = r.Cables[:1]
	if got := ownCables(r); len(got) != 0 {
		t.Errorf("%v", got)
	}
}

// An occupied floor may have 29 °C in air at 20 (EN 1264): one that would have 9.5 K is spoken
// of unless its thermostat is set below.
func TestFloorsThatGetTooHot(t *testing.T) {
	p := &layout.Plan{Job: &job.Job{}, Warmth: &layout.Warmth{Room: 20, Warmest: 20, Runs: []layout.Warm{
		{Cables: []string{"H1"}, Hot: layout.Bound{Steady: heat.Steady{OverCable: 9.5, Mean: 9}}}}}}
	p.Rooms = []layout.Room{{Job: &job.Room{Name: "Hall"}, Cables: []layout.Cable{{ID: "H1"}}}}
	for _, k := range []struct {
		rise, set float64
		says      string
	}{
		{9.5, 0, "no floor_limit is given"}, {9.5, 29, ""}, {9.5, 28, ""}, {9.5, 29.5, "floor_limit = 29.5"},
		{8.5, 0, ""}, {8.5, 35, ""}, {9.5, 0.5, ""},
	} {
		p.Warmth.Runs[0].Hot.Steady.OverCable, p.Rooms[0].Job.Thermostat.Limit = k.rise, k.set
		got := tooHot(p)
		if (len(got) > 0) != (k.says != "") || len(got) > 0 && !strings.Contains(got[0].Message, k.says) {
			t.Errorf("%g K, set to %g °C: %+v", k.rise, k.set, got)
		}
	}
}

// The first layer may be the screed that is warmed slowly the first time.
func TestScreedOnTop(t *testing.T) {
	p := &layout.Plan{Job: &job.Job{BuildUp: []job.Layer{{Kind: "screed", Name: "top"}, {Kind: "tile", Name: "tile"}}}}
	p.Rooms = []layout.Room{{Cables: make([]layout.Cable, 1)}}
	if fullUse(p); p.FullUse == nil || p.FullUse.Screed != "top" {
		t.Errorf("%+v", p.FullUse)
	}
}

// A room whose loss is asked for has one only with cable.
func TestLossNeedsACable(t *testing.T) {
	p := &layout.Plan{Job: &job.Job{}}
	for _, loss := range []*job.Loss{nil, {}} {
		for n := range 2 {
			p.Rooms = append(p.Rooms, layout.Room{Job: &job.Room{Loss: loss}, Cables: make([]layout.Cable, n)})
		}
	}
	p.Rooms[1].Job.Name, p.Rooms[3].Job.Name = "no loss", "both"
	if losses(p); len(p.Losses) != 1 || p.Losses[0].Room != "both" {
		t.Errorf("%+v", p.Losses)
	}
}

// An offer by hand: 200.00 for the floor, 100.00 for the heat and 50.00 of work with 10 % on
// top are 385.00, 35.00 of it markup; 8 % of tax 30.80.
func TestOfferByHand(t *testing.T) {
	p := &layout.Plan{Job: &job.Job{}}
	p.Job.Spans = job.Spans{"proposal": {}}
	p.Job.Proposal.Markup, p.Job.Proposal.Tax = 0.1, 0.08
	p.Job.Prices = []job.Price{{Code: "tile", Price: 3}, {Code: "stat", Price: 40}}
	p.Job.Proposal.Options = []job.ProposalOption{{Name: "a second sensor", Code: "stat", Count: 2}, {Name: "a border",
		Price: 10}, {Name: "unpriced", Code: "none", Count: 1}}
	p.TakeOff = takeoff.List{Lines: []takeoff.Line{{Code: "tile", Price: 200}, {Code: "cable A", Price: 100},
		{Code: "labour tile", Price: 30}, {Code: "visits", Price: 15}, {Code: "tester-hire", Price: 5},
		{Code: "grout", Item: language.As("Grout")}}}
	offer(p)
	o := p.Offer
	if o == nil || o.Cost != 35000 || o.Net != 38500 || o.Markup != 3500 || o.Tax != 3080 || o.Total != 41580 {
		t.Fatalf("%+v", o)
	}
	var groups []string
	for _, x := range o.Groups {
		groups = append(groups, x.Name+" "+x.Sum.String())
	}
	want := []string{groupFloor + " 220.00", groupHeat + " 110.00", groupWork + " 55.00"}
	if !slices.Equal(groups, want) {
		t.Errorf("%v", groups)
	}
	// twice 40.00 and 10.00 with markup and tax: 88.00 + 7.04 and 11.00 + 0.88
	if len(o.Options) != 3 || o.Options[0].Price != 9504 || o.Options[1].Price != 1188 || o.Options[2].Price != 0 ||
		!slices.Equal(language.In(language.English, o.Unpriced), []string{"Grout"}) {
		t.Errorf("%+v, %v", o.Options, o.Unpriced)
	}
	if !o.Until.IsZero() {
		t.Errorf("without a date it holds until %v", o.Until)
	}
	p.Job.Info.Date, p.Job.Proposal.ValidDays = time.Date(2026, 1, 10, 0, 0, 0, 0, time.UTC), 30
	if offer(p); p.Offer.Until != time.Date(2026, 2, 9, 0, 0, 0, 0, time.UTC) {
		t.Errorf("30 days from 10 January it holds until %v", p.Offer.Until)
	}
	p.Offer, p.Job.Spans = nil, nil
	if offer(p); p.Offer != nil {
		t.Error("a floor that is only tried out is offered")
	}
}

// What has to be kept off a point fixed through the floor is a disc, off a line a band.
func TestFloorKeptForFixings(t *testing.T) {
	r := &layout.Room{Job: &job.Room{}}
	for _, line := range [][]plane.Point{hand.Points(500, 500), hand.Points(0, 0, 1000, 0)} {
		if err := keepOffFixing(r, job.Fixing{Name: "post", Line: line, Clear: 100}); err != nil {
			t.Fatal(err)
		}
	}
	for i, want := range []float64{math.Pi * 100 * 100, 1000*200 + math.Pi*100*100} {
		if got := r.NoCut[i].Region.Area(); math.Abs(got-want) > 0.005*want {
			t.Errorf("%d: %g mm², want %g", i, got, want)
		}
	}
}

// Floor lost beside each kind of thing, by how much a cut along it is seen.
func TestHowMuchThingsAreSeen(t *testing.T) {
	for kind, want := range map[job.FixtureKind]float64{job.Cabinet: 0.5, job.Vanity: 0.5, job.Appliance: 0.5,
		job.Tub: 1.5, job.Shower: 1.5, job.Island: 1.5, job.Column: 1.5, job.Hearth: 1.5, job.Toilet: 1} {
		if got := seenOfStand(kind); got != want {
			t.Errorf("%v: %g, want %g", kind, got, want)
		}
	}
	r := roomOf(zone(0, 0, 3000, 2000))
	r.Job.Joints = []job.Joint{{Width: 8}, {}}
	j := pegged()
	j.Materials.SealantWidth = 6
	got := tiledRoom(r, j)
	if len(got.Joints) != 2 || got.Joints[0].Width != 8 || got.Joints[1].Width != 6 || got.Edge != 6 {
		t.Errorf("%+v", got.Joints)
	}
}

// A room an inch smaller and larger: 1.2 by 1 m, 50 mm clear of its walls, with 25 mm less and
// more both ways.
func TestFloorsByAnInch(t *testing.T) {
	d := drafted(t, landing(12), "A")
	got := shifted(d.Room, d.job)
	base := d.Heated.Bounds()
	for i, by := range []float64{-25, 25} {
		b := got[i].Bounds()
		near(t, "width", b.W(), base.W()+by)
		near(t, "height", b.H(), base.H()+by)
	}
	if got := offByInch(d.Room, d.job, layout.Candidate{IDs: []string{"A"}}, nil); got != (OffByInch{}) {
		t.Errorf("%+v", got)
	}
}

// A lead of half a millimetre is one, and too short; none is not spoken of.
func TestLeadsThatAreTooShort(t *testing.T) {
	r := roomOf(zone(0, 0, 3000, 2000))
	r.Job.Thermostat.Height = 1000
	for lead, want := range map[float64]int{0: 0, 0.5: 1, 900: 1, 1000: 1, 1001: 0, 4000: 0} {
		got := leadsTooShort(r, []job.Cable{{ID: "A", Lead: lead}}, plane.Millimetres)
		if len(got) != want {
			t.Errorf("%g mm: %+v", lead, got)
		}
		if want > 0 && strings.HasPrefix(got[0].Hint, "is the unit") != (lead < layout.ShortLead) {
			t.Errorf("%g mm: %s", lead, got[0].Hint)
		}
	}
}

// A job that no file was read for searches as far as one that says nothing: its cables get
// as many steps.
func TestStepsOfAJob(t *testing.T) {
	d := drafted(t, landing(12), "A")
	for search, want := range map[float64]float64{0: 1, 1: 1, 0.5: 0.5} {
		d.steps, d.job.Spacing.Search = &route.Steps{}, search
		d.giveSteps()
		if full := route.StepsFor(d.Zones, 30, 2, want); !reflect.DeepEqual(d.steps, full) {
			t.Errorf("search %g: %+v, want %+v", search, d.steps, full)
		}
	}
	d.Job.Cables = nil
	d.steps, d.job.Spacing.Search = &route.Steps{}, 1
	d.giveSteps()
	if full := route.StepsFor(d.Zones, 30, 48, 1); !reflect.DeepEqual(d.steps, full) {
		t.Errorf("%+v, want %+v", d.steps, full)
	}
}

// A whole small job: what changes by an inch is what is bought otherwise, and no line that
// stays.
func TestChangesOfAShift(t *testing.T) {
	text := strings.Replace(landing(10), "NAMED", `cables = ["A"]`, 1) + "[tile]\nsize = [300, 300]\njoint = 3\n"
	j, report := job.Read("job.toml", []byte(text), nil)
	if report.Errors() > 0 {
		t.Fatal(report.Diagnostics())
	}
	p, _ := Plan(j)
	if len(p.Shifts) != 4 {
		t.Fatalf("%+v", p.Shifts)
	}
	if got := changes(p, 0, p.Rooms[0]); len(got) != 0 {
		t.Errorf("of a room that stays: %+v", got)
	}
	wider := p.Rooms[0]
	moved, ok := stretched(*wider.Job, true, 300)
	if !ok {
		t.Fatal("not stretched")
	}
	other := layout.Room{Job: &moved}
	if err := areas(&other, j.Clearance.Wall); err != nil {
		t.Fatal(err)
	}
	other.Cables, other.Sensors = wider.Cables, wider.Sensors
	got := changes(p, 0, other)
	if len(got) == 0 {
		t.Error("a quarter of floor more, and nothing more is bought")
	}
	for _, c := range got {
		if c.Packs <= 0 {
			t.Errorf("%+v", c)
		}
	}
}

// A wall of 21.8 m is tried in 36 places, 600 mm apart; what a place refuses is what the room
// with its box there is refused for, and no warning.
func TestPlacesTriedForABox(t *testing.T) {
	hall := strings.NewReplacer("1200", "21800", "1000", "2000", `lead = "3 m"`, `lead = "1 m"`, "NAMED",
		`cables = ["A"]`).Replace(landing(10))
	j, report := job.Read("job.toml", []byte(hall), nil)
	if report.Errors() > 0 {
		t.Fatal(report.Diagnostics())
	}
	places := BoxPlaces(j, 0, j.Rooms[0].BoxWalls("a"), Search{})
	if len(places) != 36 {
		t.Errorf("%d places", len(places))
	}
	for _, p := range places {
		if !strings.Contains(p.Refused, "its cold lead of 1000 does not reach the floor") || p.Lead != 0 {
			t.Fatalf("%+v", p)
		}
	}
	// the landing's cable lies, wherever its box hangs
	j, report = job.Read("job.toml", []byte(strings.Replace(landing(12), "NAMED", `cables = ["A"]`, 1)), nil)
	if report.Errors() > 0 {
		t.Fatal(report.Diagnostics())
	}
	places = BoxPlaces(j, 0, j.Rooms[0].BoxWalls("a"), Search{})
	if len(places) != 4 {
		t.Errorf("%d places", len(places))
	}
	for i, p := range places {
		if p.Refused != "" || p.Lead <= 0 || p.Tube <= 0 || p.Covered <= 0 || p.Covered > 1+1e-9 {
			t.Errorf("%+v", p)
		}
		q := places[max(0, i-1)]
		if alike := q.Stacked == p.Stacked && q.Joints == p.Joints && math.Abs(q.Covered-p.Covered) < 0.005; alike &&
			q.Lead+q.Tube > p.Lead+p.Tube+1e-9 {
			t.Errorf("%g mm of lead and tube before %g", q.Lead+q.Tube, p.Lead+p.Tube)
		}
	}
}

// Cable keeps its full distance off a movement joint on either side.
func TestFloorKeptForAJoint(t *testing.T) {
	r := &layout.Room{Job: &job.Room{Joints: []job.Joint{{Segment: hand.Segment(500, 0, 500, 1000), Clear: 100}}}}
	kept, err := keepOffs(r)
	if err != nil {
		t.Fatal(err)
	}
	for x, want := range map[float64]bool{399: false, 400: true, 500: true, 600: true, 601: false} {
		if got := kept.Contains(plane.Pt(x, 500)); got != want {
			t.Errorf("at %g: kept off %v", x, got)
		}
	}
}

// A cable that cannot be meant for a floor is refused with what would suit it.
func TestCablesThatCannotBeMeant(t *testing.T) {
	d := drafted(t, landing(12, 200, 11), "A")
	if got := cannotBeMeant(d.Room, d.job, layout.Named(d.job, []string{"A"})); got != nil {
		t.Errorf("%+v", got)
	}
	got := cannotBeMeant(d.Room, d.job, layout.Named(d.job, []string{"B"}))
	if got == nil || !strings.HasSuffix(got.Hint, "; of that length there is: A (12.0 m), C (11.0 m)") {
		t.Errorf("%+v", got)
	}
	d.job.Cables = d.job.Cables[1:2]
	if got := cannotBeMeant(d.Room, d.job, d.job.Cables); got == nil || !strings.HasSuffix(got.Hint, "meant for it") {
		t.Errorf("%+v", got)
	}
}

// The first cable too is refused by what lies near it, where it is within its floor's lengths.
func TestTheFirstCableRefused(t *testing.T) {
	d := drafted(t, landing(12), "A")
	got := refusal(d, layout.Named(d.job, []string{"A"}), &route.Refusal{Cable: 0, Shortest: 8000, Longest: 14500})
	if !strings.HasSuffix(got.Message, "; 11.7 m in its place was tried and lies") {
		t.Errorf("%+v", got)
	}
}

// Through what has no U-value nothing is counted as lost, nor through walls of no area.
func TestWhatARoomLosesThrough(t *testing.T) {
	r := &layout.Room{Job: &job.Room{Loss: &job.Loss{Walls: 10, WallsU: 0.3, Windows: 2, Above: 10, Height: 2500}},
		Floor: zone(0, 0, 3000, 2000)}
	var names []string
	for _, p := range enclosed(r).Elements {
		names = append(names, p.Name)
	}
	if !slices.Equal(names, []string{"outside walls"}) {
		t.Errorf("%v", names)
	}
	r.Job.Loss.Walls, r.Job.Loss.WindowsU, r.Job.Loss.CeilingU = 0, 1.1, 0.2
	l := enclosed(r)
	if len(l.Elements) != 2 || l.Elements[0].Name != "windows" || l.Elements[1].Area != 6 || l.Volume != 15 {
		t.Errorf("%+v", l)
	}
}

// A tub that reaches out of its wall by 10 mm and 2 m in leaves the floor beyond it, and the
// wall's own corner counts for nothing before that.
func TestTheWidestStretchBehindATub(t *testing.T) {
	r := *roomOf().Job
	r.Fixtures = []job.Fixture{{Outline: box(-10, 0, 2000, 900)}}
	r.Thermostat.At = plane.Pt(2500, 0)
	if middle, width := widestFree(r, func(p plane.Point) float64 { return p.X }); middle != 2250 && middle != 2750 ||
		width != 500 {
		t.Errorf("%g about %g", width, middle)
	}
}

// Doorways are as wide as they open, whichever end is given first; windows and thresholds that
// are there already are none.
func TestDoorwaysToBuyFor(t *testing.T) {
	r := roomOf(zone(50, 50, 2950, 1950))
	r.Job.Openings = []job.Opening{{Kind: "door", From: 800, To: 1600}, {Kind: "opening", From: 2000, To: 1100},
		{Kind: "window", From: 0, To: 700}, {Kind: "door", From: 100, To: 200, Threshold: true}}
	p := &layout.Plan{Job: pegged(), Rooms: []layout.Room{*r}}
	if got := quantities(p, 0).Doorways; !slices.Equal(got, []float64{800, 900}) {
		t.Errorf("%v", got)
	}
	for n := range 3 { // of the ways to set out the tile the first is bought
		p.Rooms[0].Tiles = []tiling.Layout{{Slivers: 1}, {Slivers: 2}}[:n]
		if got := quantities(p, 0).Tiles; (got == nil) != (n == 0) || got != nil && got.Slivers != 1 {
			t.Errorf("of %d layouts: %+v", n, got)
		}
	}
}

// Cable keeps its whole clearance off a thing, though round corners are drawn by chords.
func TestClearancesAreWhole(t *testing.T) {
	r := &layout.Room{Job: &job.Room{}}
	if err := keepOff(r, layout.ForFixture, "post", zone(0, 0, 100, 100), 200); err != nil {
		t.Fatal(err)
	}
	kept := r.NoCut[0].Region
	for i := range 90 {
		at := plane.Pt(100, 100).Add(plane.Pt(200, 0).Rotate(float64(i) * math.Pi / 180))
		if !kept.Contains(at) {
			t.Errorf("%v, 200 mm off, is not kept free", at)
		}
	}
	if kept.Contains(plane.Pt(301, 50)) {
		t.Error("a millimetre more is kept free")
	}
}

// A cable beyond its zone's lengths is told what the zone takes; where the router knows no
// range, what the floor takes by its area.
func TestWhatAZoneTakes(t *testing.T) {
	d := drafted(t, landing(20, 12), "A")
	for _, k := range []struct {
		why  route.Refusal
		says string
	}{
		{route.Refusal{Shortest: 8000, Longest: 14500}, "; this zone takes 8.0 m to 14.5 m of cable at 2 to 4 pegs"},
		{route.Refusal{Shortest: 14500, Longest: 14500}, "; this zone takes up to about 14.5 m of cable at 2 pegs"},
		{route.Refusal{Cable: -1}, "; the heated floor takes about 9.3 m to 16.8 m of cable at 2 to 4 pegs"},
		{route.Refusal{}, "; the heated floor takes about 9.3 m to 16.8 m of cable at 2 to 4 pegs"},
		{route.Refusal{Cable: -1, Shortest: 1000, Longest: 2000},
			"; the heated floor takes about 9.3 m to 16.8 m of cable at 2 to 4 pegs"},
	} {
		got := refusal(d, layout.Named(d.job, []string{"A"}), &k.why)
		if !strings.HasSuffix(got.Message, k.says) {
			t.Errorf("%+v: %s", k.why, got.Message)
		}
	}
}

// A zone that asks for a density of its own is a part, and the rest of the room another where
// the job names no cables for it.
func TestPartsOfARoom(t *testing.T) {
	r := roomOf(zone(50, 50, 1450, 1950), zone(1550, 50, 2950, 1950))
	dense := &job.Zone{Name: "door", Density: 170}
	for _, k := range []struct {
		named  []*job.Zone
		cables []string
		want   string
	}{
		{nil, nil, "the rest 2"}, {[]*job.Zone{dense, nil}, nil, "door 1, the rest 1"},
		{[]*job.Zone{dense, nil}, []string{"A"}, "door 1"}, {[]*job.Zone{dense, {Name: "x", Density: 90}}, nil,
			"door 1, x 1"}, {[]*job.Zone{{Name: "y"}, nil}, nil, "the rest 2"},
	} {
		r := *r
		r.Named, r.Job.Cables = k.named, k.cables
		var got []string
		for _, p := range (draft{Room: &r, job: pegged()}).choiceAreas() {
			got = append(got, fmt.Sprintf("%s %d", p.words(), len(p.Zones)))
		}
		if strings.Join(got, ", ") != k.want {
			t.Errorf("%v, want %s", got, k.want)
		}
	}
	r.Job.Cables = nil
}

// Of options the one to take comes first, then what else fits, and last what does not.
func TestOrderOfOptions(t *testing.T) {
	j, report := job.Read("job.toml", []byte(strings.Replace(landing(40, 12, 6, 10), "NAMED", "", 1)), nil)
	if report.Errors() > 0 {
		t.Fatal(report.Diagnostics())
	}
	rooms, wrong := Options(j)
	if len(rooms) != 1 || len(wrong) != 0 {
		t.Fatalf("%+v, %v", rooms, wrong)
	}
	fit := true
	for i, o := range rooms[0].Options {
		if o.Taken != (i == 0) || o.Fits && !fit || i == 0 && !o.Fits {
			t.Errorf("%d: %v taken %v, fits %v", i, o.IDs, o.Taken, o.Fits)
		}
		fit = o.Fits
	}
}
