package sheets

import (
	"strconv"
	"strings"
	"testing"

	"oxturn/layout/language"

	"oxturn/drawing"
	"oxturn/drawing/floorplan"
	"oxturn/drawing/setting"
	"oxturn/drawing/signs"
	"oxturn/layout"
	"oxturn/layout/job"
	"oxturn/layout/plane"
	"oxturn/layout/say"
	"oxturn/layout/takeoff"
)

// sheet returns the first sheet whose ID begins so.
func sheet(t *testing.T, set []*drawing.Sheet, id string) *drawing.Sheet {
	t.Helper()
	for _, s := range set {
		if strings.HasPrefix(s.ID, id) {
			return s
		}
	}
	t.Fatalf("no sheet %s", id)
	return nil
}

func sampleSet(t *testing.T, u plane.Units) []*drawing.Sheet {
	t.Helper()
	return sample(t, u).set
}

// TestCablePlanSays: everything an inspector asks for is written on the plan.
// 2438 and 1524 mm are 8 and 5 ft; 76.0 and 88.0 are 80 ohms less 5 and plus
// 10 percent.
func TestCablePlanSays(t *testing.T) {
	for u, want := range map[plane.Units][]string{
		plane.Millimetres: {"2438", "1524", "+1219", "START", "END", "S1", "S2", "1/2", "1/4", "3/4", "D1", "D2", "tub",
			"toilet", "vanity", "UNDECIDED", "door stop", "Locating dimensions", "Legend"},
		plane.Inches: {`8'-0"`, `5'-0"`, `+4'-0"`, "START", "END", "76.0 to 88.0 Ω", "120 V, 180 W, 1.50 A",
			"Cable schedule", "Areas", "Heated", "Tiled"},
	} {
		s := sheet(t, sampleSet(t, u), "cable-plan")
		for _, w := range want {
			if !strings.Contains(said(s), w) {
				t.Errorf("in %s: %q is not on the plan", u, w)
			}
		}
	}
}

// TestLegend explains what a sheet uses and nothing else: the sample has no
// third cable, and its setting-out sheet has pegs.
func TestLegend(t *testing.T) {
	set := sampleSet(t, plane.Inches)
	plan, out := sheet(t, set, "cable-plan"), sheet(t, set, "setting-out")
	for s, want := range map[signs.Sign]bool{signs.Third: false, signs.Undecided: true, signs.Peg: false,
		signs.Spare: true} {
		if has(plan, s.Words()) != want {
			t.Errorf("cable plan: %q explained: %v", s.Words(), !want)
		}
	}
	if !has(out, signs.Peg.Words()) || has(out, signs.Spare.Words()) {
		t.Error("setting out: legend is not what the sheet uses")
	}
}

// TestBothUnits prints the second system in brackets.
func TestBothUnits(t *testing.T) {
	p := samplePlan(t, plane.Millimetres)
	p.Job.Sheet.Both = true
	set, err := Set(p)
	if err != nil {
		t.Fatal(err)
	}
	if !has(set[0], `2438 (8'-0")`) {
		t.Error("no feet and inches in brackets")
	}
}

// TestStatus: a plan is never shown as laid.
func TestStatus(t *testing.T) {
	for status, word := range map[job.Status]string{job.Proposal: "PROPOSAL", job.ForInstallation: "FOR INSTALLATION",
		job.AsLaid: "AS LAID"} {
		p := samplePlan(t, plane.Millimetres)
		p.Job.Info.Status = status
		if status == job.AsLaid {
			c := &p.Rooms[0].Cables[0]
			c.Laid = &layout.Laid{Job: &job.Laid{Evidence: job.ByHand}, Whole: true, Path: c.Path, Error: 25}
		}
		set, err := Set(p)
		if err != nil {
			t.Fatal(err)
		}
		for _, s := range set {
			var all []string
			for _, x := range s.Texts() {
				all = append(all, x.Text)
			}
			if status == job.AsLaid && !strings.Contains(strings.Join(all, " "),
				"measured by hand, within 25 mm either way") {
				t.Errorf("%s does not say how the cable was found", s.ID)
			}
			if !has(s, word) {
				t.Errorf("%s does not say %s", s.ID, word)
			}
		}
		all := said(sheet(t, set, "owner-map"))
		if strings.Contains(all, "THIS IS A PLAN, NOT A RECORD") == (status == job.AsLaid) {
			t.Errorf("%s: the owner's map is wrong about its worth", word)
		}
	}
}

// TestNothingMeasured: a test record has its limits and no readings, and an
// electrician's sheet chooses no breaker.
func TestNothingMeasured(t *testing.T) {
	set := sampleSet(t, plane.Millimetres)
	rec := sheet(t, set, "test-record")
	for _, w := range []string{"76.0", "88.0", "0 on the spool", "HOLD: inspection", "6 later service"} {
		if !has(rec, w) {
			t.Errorf("test record: no %q", w)
		}
	}
	stages := len(stages(say.Figures{}))
	tab := stageTable(say.Figures{}, []*layout.Cable{&samplePlan(t, plane.Millimetres).Rooms[0].Cables[0]})
	for _, r := range tab.Rows {
		for _, c := range r[1:] {
			if c.Text != "" {
				t.Errorf("a reading is filled in: %q", c.Text)
			}
		}
	}
	if len(tab.Rows) != stages {
		t.Errorf("%d rows for %d stages", len(tab.Rows), stages)
	}
	p := samplePlan(t, plane.Millimetres)
	v := &floorplan.View{Page: &setting.Page{Plan: p}, Room: &p.Rooms[0]}
	for _, r := range toSettle(v).(setting.Table).Rows {
		if r[1].Text != "" {
			t.Errorf("%s is chosen: %q", r[0].Text, r[1].Text)
		}
	}
}

// TestNumbers: sheets are numbered n of m in order, with unlike names and
// labels, and each says its own label.
func TestNumbers(t *testing.T) {
	set := sampleSet(t, plane.Inches)
	seen := map[string]bool{}
	for i, s := range set {
		if want := s.Label + ", " + strconv.Itoa(i+1) + " of " + strconv.Itoa(len(set)); !has(s, want) {
			t.Errorf("%s is not %s", s.ID, want)
		}
		if code, n, _ := strings.Cut(s.Label, "-"); len(code) != 2 || n == "" {
			t.Errorf("%s is labelled %q", s.ID, s.Label)
		}
		if seen[s.ID] || seen[s.Label] {
			t.Errorf("two sheets are called %s or %s", s.ID, s.Label)
		}
		seen[s.ID], seen[s.Label] = true, true
	}
}

// TestTwoColdEnds: a single-conductor cable comes back to its box, so that
// nothing on its sheets speaks of an end cap on it but the cautions for all
// cables (common practice).
func TestTwoColdEnds(t *testing.T) {
	p := samplePlan(t, plane.Millimetres)
	c := &p.Rooms[0].Cables[0]
	c.Return = []plane.Point{c.Path[len(c.Path)-1], {X: 1450, Y: 0}}
	set, err := Set(p)
	if err != nil {
		t.Fatal(err)
	}
	checkSheets(t, set)
	for _, id := range []string{"cable-plan", "setting-out", "owner-map"} {
		for _, x := range sheet(t, set, id).Texts() {
			if x.Text == "end cap" || strings.Contains(x.Text, "(cap)") || strings.HasPrefix(x.Text, "END, end cap") {
				t.Errorf("%s says %q", id, x.Text)
			}
		}
	}
	if s := sheet(t, set, "cable-plan"); !has(s, "END (joint)") {
		t.Error("the second joint is not located")
	}
}

// TestCheckLine: 100 mm and 4 in on every sheet with a drawing to scale, to the micrometre.
func TestCheckLine(t *testing.T) {
	for _, s := range sampleSet(t, plane.Inches) {
		found := false
		for _, it := range s.Items {
			if p, ok := it.(*drawing.Path); ok && p.Title == "check line" {
				found = true
				if w := drawing.PathBox(p.Segs).W(); w < 101.5999 || w > 101.6001 {
					t.Errorf("%s: the check line is %.4f mm long", s.ID, w)
				}
			}
		}
		if found != (s.Ratio > 0) {
			t.Errorf("%s, 1:%g: check line %v", s.ID, s.Ratio, found)
		}
	}
}

// TestScaleTrue: a wall of 2438.4 mm at 1:R is 2438.4/R mm long on paper.
func TestScaleTrue(t *testing.T) {
	s := sheet(t, sampleSet(t, plane.Millimetres), "cable-plan")
	for _, it := range s.Items {
		if p, ok := it.(*drawing.Path); ok && p.Title == "wall C" {
			if w := drawing.PathBox(p.Segs).W(); w < 2438.4/s.Ratio-1e-6 || w > 2438.4/s.Ratio+1e-6 {
				t.Errorf("wall C is %.3f mm on paper at 1:%g", w, s.Ratio)
			}
			return
		}
	}
	t.Error("wall C is not drawn")
}

// TestNoRoom: a room without an outline is an error, not a panic.
func TestNoRoom(t *testing.T) {
	p := samplePlan(t, plane.Millimetres)
	p.Rooms[0].Job.Outline = nil
	if _, err := Set(p); err == nil {
		t.Error("no error")
	}
}

// TestChangesRead: what is bought otherwise reads as it would be said, one or
// many.
func TestChangesRead(t *testing.T) {
	for want, c := range map[string]takeoff.Change{
		"+1 box of tile": {Code: "tile", Item: language.As("Tile 300 x 300, straight"), PackName: "box",
			Packs: 1},
		"-2 boxes of tile": {Code: "tile", Item: language.As("Tile 300 x 300, straight"), PackName: "box",
			Packs: -2},
		"+3 pieces of tile":     {Code: "tile", Item: language.As("Tile 1'-0\" x 2'-0\", offset"), Packs: 3},
		"-1 bag of bond mortar": {Item: language.As("Bond mortar"), PackName: "bag", Packs: -1},
	} {
		if got := changeWords(say.Figures{}, c); got != want {
			t.Errorf("%q, want %q", got, want)
		}
	}
}

// The setting-out sheet says what drift a plan takes, at both marks, and no more than
// was worked out; of a cable that is recorded it says nothing.
func TestSettingOutSaysTheDriftTaken(t *testing.T) {
	room := &layout.Room{Cables: []layout.Cable{
		{ID: "H1", Reserves: []layout.Reserve{{Mark: "1/2", Less: 0.0189, More: 0.024}, {Mark: "3/4", Less: 0.0004,
			More: 0.024}}},
		{ID: "H2", Reserves: []layout.Reserve{{Mark: "1/2", Less: 0.01, More: 0.02}, {Mark: "3/4", Less: 0.0101,
			More: 0.02}}},
		{ID: "H3"},
		{ID: "H4", Laid: &layout.Laid{}},
	}}
	got := strings.Join(driftRule(&floorplan.View{Room: room}), "\n")
	want := "Drift (- less, + more cable used than drawn) that it takes, nothing lifted, at most 5 % of the floor " +
		"cold: H1 -1.8 % / +2.4 % at 1/2, nothing / +2.4 % at 3/4; H2 -1.0 % / +2.0 % at 1/2 and 3/4; H3 not known."
	if got != want {
		t.Errorf("%s\nwant %s", got, want)
	}
	room.Cables = room.Cables[3:]
	if got := driftRule(&floorplan.View{Room: room}); got != nil {
		t.Error(got)
	}
}
