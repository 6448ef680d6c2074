package takeoff

import (
	"slices"
	"strings"
	"testing"

	"oxturn/layout/job"
	"oxturn/layout/plane"
)

// Cartridges can be reckoned from the note: 8.8 m of 5 x 6 mm are 264 mL, and
// 300 mL fill 10 m. In feet and ounces: a 10.1 oz cartridge fills 24 ft of a
// joint of 1/4 x 1/4 in, as charts of sealant coverage have it (24.3; from memory).
func TestSealantCanBeReckonedOver(t *testing.T) {
	in := bath()
	in.Materials.SealantWidthSource = job.FromJob
	got := line(t, counted(in), "edge-sealant")
	for _, want := range []string{"joint 5 mm (0.197 in) wide, job file, and 6 mm (0.236 in) deep, as the tile;",
		"a cartridge fills 10.00 m (32.8 ft)"} {
		if !strings.Contains(got.Note.String(), want) {
			t.Errorf("note %q lacks %q", got.Note, want)
		}
	}
	in.Units = plane.Inches
	in.Materials.SealantWidth, in.Materials.SealantDepth, in.Materials.Sealant.Pack = plane.Inch/4, plane.Inch/4,
		10.1*29.5735/1000
	if got = line(t, counted(in), "edge-sealant"); !strings.Contains(got.Note.String(), "a cartridge fills 24.3 ft") {
		t.Errorf("note %q", got.Note)
	}
}

// Joints of several widths are filled each by its own: 2 m of 6 mm and 1 m of
// 10 mm, 6 mm deep, are 72 + 60 mL.
func TestSealantOfSeveralWidths(t *testing.T) {
	in := bath()
	in.Rooms[0].Joints = []Joint{{"MJ1", 1200, 6, job.FromDefault}, {"MJ2", 1000, 10, job.FromJob},
		{"MJ3", 800, 6, job.FromDefault}, {"MJ4", 0, 8, job.FromJob}}
	got := line(t, counted(in), "joint-sealant")
	near(t, "mL", got.Net, 132, 1e-9)
	for _, want := range []string{"2.00 m (6.6 ft) of joint 6 mm (0.236 in) wide, default",
		"1.00 m (3.3 ft) of joint 10 mm (0.394 in) wide, job file"} {
		if !strings.Contains(got.Note.String(), want) {
			t.Errorf("note %q lacks %q", got.Note, want)
		}
	}
	if strings.Contains(got.Note.String(), "8 mm") {
		t.Errorf("note %q speaks of a joint without length", got.Note)
	}
}

// Depths say what they are made of. A bed in the section unlike the one that is
// bought is asked about.
func TestDepthsSayWhereTheyComeFrom(t *testing.T) {
	in := bath()
	if got, want := line(t, counted(in), "fill-mortar").Note, "3.85 mm (0.152 in) mean depth, of pegs 5.5 mm (0.217 "+
		"in) high, default, 70 % void, default"; !strings.HasPrefix(got.String(), want) {
		t.Errorf("note %q, want %q", got, want)
	}
	asked := func() bool {
		return slices.ContainsFunc(english(counted(in).Questions),
			func(q string) bool { return strings.HasPrefix(q, "Tile-bed mortar: 3.4 mm") })
	}
	for shown, want := range map[float64]bool{0: false, 0.8: true, 3.2: false, 3.4: false, 6: true} {
		if in.Bed = shown; asked() != want {
			t.Errorf("%g mm in the section: asked %v, want %v", shown, !want, want)
		}
	}
	in.Materials.BedNotch, in.Materials.BedSource = 10, job.FromJob
	note := line(t, counted(in), "bed-mortar").Note // 10 sin 45° / 2
	if want := "3.54 mm (0.139 in) mean depth, half the ridge of a 10 mm (0.394 in) notch held at 45 degrees, " +
		"job file"; !strings.HasPrefix(note.String(), want) {
		t.Errorf("note %q, want %q", note, want)
	}
}

// Joints of one source and two widths are two; of one width, the one has no length of its
// own to be told from. Of no joints there is no line.
func TestJointsAreToldApartByWidth(t *testing.T) {
	in := bath()
	in.Rooms[0].Joints = []Joint{{"MJ1", 1200, 6, job.FromJob}, {"MJ2", 1000, 10, job.FromJob}}
	got := line(t, counted(in), "joint-sealant")
	near(t, "mL", got.Net, 1.2*6*6+1*10*6, 1e-9)
	if n := strings.Count(got.Note.String(), " of joint "); n != 2 {
		t.Errorf("%d joints in %q", n, got.Note)
	}
	in.Rooms[0].Joints = in.Rooms[0].Joints[:1]
	if got := line(t, counted(in), "joint-sealant").Note; strings.Contains(got.String(), " of joint ") {
		t.Errorf("a single joint has a length: %q", got)
	}
	in.Rooms[0].Joints = nil
	if l := counted(in); l.find("joint-sealant").Code != "" {
		t.Error("no joints are filled")
	}
}

// A bag of half a kilogram is worded with its weight.
func TestSmallBagHasItsWeight(t *testing.T) {
	in := bath()
	in.Materials.BedMortar.Pack = 0.5
	if got := line(t, counted(in), "bed-mortar").Note; !strings.Contains(got.String(),
		"a bag of 0.5 kg (1.1 lb) yields") {
		t.Error(got)
	}
}
