package sheets

import (
	"os"
	"path/filepath"
	"slices"
	"strings"
	"testing"

	"oxturn/drawing"
	"oxturn/drawing/floorplan"
	"oxturn/drawing/setting"
	"oxturn/drawing/signs"
	"oxturn/layout"
	"oxturn/layout/job"
	"oxturn/layout/language"
	"oxturn/layout/plane"
)

// TestOtherOwnersMaps: what TestOwnersMapIsOnePage says of the examples holds
// for a floor as laid too, and for every job of the directory that OXTURN_JOBS
// names.
func TestOtherOwnersMaps(t *testing.T) {
	for _, dir := range []string{"../../testdata/laid", os.Getenv("OXTURN_JOBS")} {
		files, err := filepath.Glob(filepath.Join(dir, "*.toml"))
		if err != nil || dir == "" {
			continue
		}
		for _, f := range files {
			if filepath.Base(f) == "cables.toml" {
				continue
			}
			p := readPlan(t, f)
			for i := range p.Rooms {
				pages, err := ownerMap(p, &p.Rooms[i])
				if err != nil || len(pages) != 1 {
					t.Errorf("%s: %d pages, %v", f, len(pages), err)
				}
			}
		}
	}
}

// TestSmallestPaperThatHoldsAll: what one A4 cannot hold goes on one A3, not on
// two A4.
func TestSmallestPaperThatHoldsAll(t *testing.T) {
	p := samplePlan(t, plane.Millimetres)
	s := floorplan.OfRoom(kindNamed("owner-map"), &p.Rooms[0])
	n := s.Need(p, setting.TitleFor(p, "Map", "Map"))
	for _, c := range []struct {
		paras int
		paper string
	}{{5, "A4"}, {120, "A3"}, {2000, ""}} {
		long := setting.List{Head: "Notes", Paras: strings.Split(strings.Repeat("one more note that takes a line|",
			c.paras), "|")}
		n.Levels = []setting.Level{{Blocks: []setting.Block{long}}, {Blocks: []setting.Block{long}, Overflow: true}}
		if a, ok := setting.ArrangeSmall(n, p.Job, s.Room); ok != (c.paper != "") || ok && a.Paper.Name != c.paper {
			t.Errorf("%d notes: on %q, %v, want %q", c.paras, a.Paper.Name, ok, c.paper)
		}
	}
}

// TestMapSaysWhatItIsWorth: a plan is called one in capitals, and only a record
// tells how far it may be off.
func TestMapSaysWhatItIsWorth(t *testing.T) {
	for _, c := range []struct {
		words string
		laid  bool
	}{{"THIS IS A PLAN, NOT A RECORD", false}, {"Recorded AS LAID", true}} {
		p := samplePlan(t, plane.Millimetres)
		p.Job.Info.Status = job.ForInstallation
		if c.laid {
			p = laidPlan(t)
		}
		p.Job.Tile.Thickness = 10
		pages, err := ownerMap(p, &p.Rooms[0])
		if err != nil {
			t.Fatal(err)
		}
		got := said(pages[0].Sheet)
		for _, want := range []string{c.words, "Switch off at the distribution board", "DO NOT DRILL", "Offsets, mm",
			"of the lead rise", "No depth is free of risk"} {
			if !strings.Contains(got, want) {
				t.Errorf("laid %v: the map does not say %q", c.laid, want)
			}
		}
		if strings.Contains(got, "NOT A RECORD") == c.laid {
			t.Errorf("laid %v: the map calls itself both", c.laid)
		}
	}
}

// TestLegendLeavesNoOneAlone: a legend that goes on takes two signs along at
// least.
func TestLegendLeavesNoOneAlone(t *testing.T) {
	ty, l := setting.NewTypesetter(language.English), setting.Legend{Head: "Legend"}
	for k := signs.Cable; k <= signs.Unheated; k++ {
		l.Signs = append(l.Signs, k)
	}
	parted := 0
	for h := 10.0; h < l.Height(ty, 52)+5; h++ {
		fits, rest := l.Split(ty, 52, h)
		if fits == nil || rest == nil {
			continue
		}
		parted++
		a, b := fits.(setting.Legend), rest.(setting.Legend)
		if len(a.Signs) < 4 || len(b.Signs) < 2 || len(a.Signs)+len(b.Signs) != len(l.Signs) || a.Height(ty, 52) > h {
			t.Errorf("in %.0f mm: %d and %d signs of %d", h, len(a.Signs), len(b.Signs), len(l.Signs))
		}
	}
	if parted < 20 {
		t.Errorf("parted at %d heights only", parted)
	}
}

// TestHeadingOnceAbreast: what goes on in the column beside has no second
// heading; what goes on in another place, or after that column, has.
func TestHeadingOnceAbreast(t *testing.T) {
	ty := setting.NewTypesetter(language.English)
	l := setting.List{Head: "Cautions", Number: 1,
		Paras: strings.Split(strings.Repeat("a caution that takes about two lines of a narrow column|", 29), "|")}
	column := func(x, y float64) drawing.Box { return drawing.Box{X0: x, Y0: y, X1: x + 60, Y1: y + 60} }
	heads := func(slots ...drawing.Box) (out []string) {
		placed, rest := setting.Flow(ty, []setting.Block{l}, slots)
		for _, p := range placed {
			out = append(out, p.Block.(setting.List).Shown())
		}
		for _, b := range rest {
			out = append(out, b.(setting.List).Shown())
		}
		return out
	}
	const again = "Cautions (continued)"
	for _, c := range []struct {
		slots []drawing.Box
		want  []string
	}{
		{[]drawing.Box{column(0, 0), column(66, 0), column(132, 0)}, []string{"Cautions", "", "", again}},
		{[]drawing.Box{column(0, 0), column(66, 100), column(132, 100)}, []string{"Cautions", again, "", again}},
		{[]drawing.Box{column(66, 0), column(0, 0)}, []string{"Cautions", again, again}},
	} {
		if got := heads(c.slots...); !slices.Equal(got, c.want) {
			t.Errorf("columns %v: headings %q, want %q", c.slots, got, c.want)
		}
	}
}

// turnedRoom is a job with a room of 3000 x 2000 turned so that its sides run as
// 4 to 3 over the sheet, which it reaches 3600 x 3400 over.
const turnedRoom = `units = "mm"
[job]
title = "Turned"
[membrane]
pitch = 30
[[cable]]
id = "C54"
volts = 240
watts = 432
length = "54000 mm"
lead = "6000 mm"
[[room]]
name = "Turned"
corners = [[0, 0], [2400, 1800], [1200, 3400], [-1200, 1600]]
cables = ["C54"]
[room.thermostat]
at = [1200, 900]
height = 1200
`

// planOf lays the job of a text.
func planOf(t *testing.T, text string) *layout.Plan {
	t.Helper()
	file := filepath.Join(t.TempDir(), "job.toml")
	if err := os.WriteFile(file, []byte(text), 0o644); err != nil {
		t.Fatal(err)
	}
	return readPlan(t, file)
}

// TestRunsWithoutNumber: where the scale is too small for the number of every run,
// a note says how those without one are counted, and nowhere else.
func TestRunsWithoutNumber(t *testing.T) {
	small := planOf(t, turnedRoom+"[sheet]\nscale = \"1:100\"\n")
	for p, want := range map[*layout.Plan]bool{samplePlan(t, plane.Millimetres): false, small: true} {
		pages, err := cablePlan(&p.Rooms[0]).Pages(p)
		if err != nil {
			t.Fatal(err)
		}
		if got := strings.Contains(said(pages[0].Sheet), "run without a number"); got != want {
			t.Errorf("%s: a note on runs without a number: %v, want %v", p.Rooms[0].Job.Name, got, want)
		}
	}
}

// TestTurnedRoomIsMeasuredAlongItsWalls: the length and width on the map of a room
// that stands askew to the sheet are those of its walls, which a tape can be laid
// along, not how far it reaches over the sheet.
func TestTurnedRoomIsMeasuredAlongItsWalls(t *testing.T) {
	p := planOf(t, turnedRoom)
	pages, err := ownerMap(p, &p.Rooms[0])
	if err != nil {
		t.Fatal(err)
	}
	var written []string
	for _, x := range pages[0].Sheet.Texts() {
		written = append(written, x.Text)
	}
	for text, want := range map[string]bool{"3000": true, "2000": true, "3600": false, "3400": false} {
		if slices.Contains(written, text) != want {
			t.Errorf("%q on the map: %v, want %v", text, !want, want)
		}
	}
}

// TestPanelLabelNamesItsCircuit: the label inside the panel's door has the circuit
// that the job gives, and a blank where it gives none.
func TestPanelLabelNamesItsCircuit(t *testing.T) {
	for name, want := range map[string]string{"kitchen": "Kitchen, circuit K7", "bath": "Bath, circuit ______"} {
		p := *example(t, name).plan
		p.Job = withStatus(p.Job, job.ForInstallation)
		pages, err := ownerMap(&p, &p.Rooms[0])
		if err != nil {
			t.Fatal(err)
		}
		if !strings.Contains(said(pages[0].Sheet), want) {
			t.Errorf("%s: the label does not say %q", name, want)
		}
	}
}

// TestProposalIsNothingToKeep: the map of a floor that is only proposed has no label to cut out and nothing to
// keep at the panel, but every caution of one that is to be laid.
func TestProposalIsNothingToKeep(t *testing.T) {
	for _, name := range []string{"kitchen", "bath", "entry", "bath on letter", "kitchen on A4"} {
		texts := map[job.Status]string{}
		for _, status := range []job.Status{job.Proposal, job.ForInstallation} {
			p := *example(t, name).plan
			p.Job = withStatus(p.Job, status)
			pages, err := ownerMap(&p, &p.Rooms[0])
			if err != nil || len(pages) != 1 {
				t.Fatal(len(pages), err)
			}
			texts[status] = said(pages[0].Sheet)
			var v floorplan.View
			v.Page, v.Room, v.Fig = setting.NewPage(&p, drawing.Paper{}), &p.Rooms[0], p.Job.Figures()
			for _, caution := range mayIDrill(&v).Paras {
				for _, word := range strings.Fields(caution) {
					if !strings.Contains(texts[status], word) {
						t.Errorf("%s, %v: %q of %q is missing", name, status, word, caution)
					}
				}
			}
		}
		for _, words := range []string{labelHead, "Keep this map"} {
			if strings.Contains(texts[job.Proposal], words) {
				t.Errorf("%s: the map of a proposal says %q", name, words)
			}
		}
		if !strings.Contains(texts[job.ForInstallation], "Keep this map") {
			t.Errorf("%s: nothing says where the map is kept", name)
		}
	}
}

// withStatus is a job of another status.
func withStatus(j *job.Job, s job.Status) *job.Job {
	other := *j
	other.Info.Status = s
	return &other
}
