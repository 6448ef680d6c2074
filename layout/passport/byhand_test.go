package passport

import (
	"math"
	"strings"
	"testing"
	"time"

	"oxturn/layout"
	"oxturn/layout/internal/hand"
	"oxturn/layout/job"
	"oxturn/layout/plane"
)

// The catalogue of CRCs gives BB3D for CRC-16/ARC over the digits 1 to 9; blanks and line
// ends do not count here.
func TestTheSum(t *testing.T) {
	for _, s := range []string{"123456789", "123 456\r\n789\n"} {
		if got := checkOf(s); got != "BB3D" {
			t.Errorf("%q: %s", s, got)
		}
	}
}

// label is a whole text, by rows, whose last row is the path.
var label = []string{firstLine, "room Bath", "plan 7KF-4RP", "record none: a plan", "cable H1 Mat A",
	"120 V 100 W 144 ohm, 137 to 158.4", "length 9000 lead 3000 ends 1", "mm, x east, y north; answers in in",
	"walls A 0,0 B 900,0 C 900,900 D 0,900", "box 1,-2 up 1200", "START 75,76", "END 135,575", "S1 200,300",
	"S2 400,300 spare", "bend 15 pegs 37.5", "lead 1,0 N75 E74", "S1 lead 1,0 E199 N300", "path 75,75 N500 E60"}

// with is the label with the row that begins with a word as given; empty: without it.
func with(word, row string) string {
	var out []string
	for _, r := range label {
		switch {
		case !strings.HasPrefix(r, word):
			out = append(out, r)
		case row != "":
			out = append(out, row)
		}
	}
	return Checked(strings.Join(out, "\n") + "\n")
}

func TestALabelIsRead(t *testing.T) {
	p, err := Read([]byte(with("none", "")))
	if err != nil {
		t.Fatal(err)
	}
	if p.Room != "Bath" || p.Code != "7KF-4RP" || p.Cable != "H1" || p.Label != "Mat A" || p.Volts != 120 ||
		p.Watts != 100 ||
		p.Ohms != 144 || p.OhmsLow != 137 || p.OhmsHigh != 158.4 || p.Length != 9000 || p.Lead != 3000 || p.Ends != 1 ||
		p.Units != "in" || len(p.Walls) != 4 || p.Walls[2] != (Corner{"C", plane.Pt(900, 900)}) ||
		p.Box != plane.Pt(1, -2) ||
		p.BoxUp != 1200 || p.Start != plane.Pt(75, 76) || p.End != plane.Pt(135, 575) || p.Bend != 15 ||
		p.Pitch != 37.5 {
		t.Errorf("%+v", p)
	}
	for _, k := range []struct{ got, want []plane.Point }{{p.Path, hand.Points(75, 75, 75, 575, 135, 575)},
		{p.ColdLead, hand.Points(1, 0, 1, 75, 75, 75)}, {p.Sensors[0].Lead, hand.Points(1, 0, 200, 0, 200, 300)},
		{[]plane.Point{*p.Sensors[0].Tip, *p.Sensors[1].Tip}, hand.Points(200, 300, 400, 300)}} {
		if len(k.got) != len(k.want) {
			t.Fatalf("%v, want %v", k.got, k.want)
		}
		for i := range k.got {
			if k.got[i] != k.want[i] {
				t.Errorf("%v, want %v", k.got, k.want)
			}
		}
	}
	if len(p.Sensors) != 2 || p.Sensors[0].Spare || !p.Sensors[1].Spare || p.Return != nil ||
		p.Evidence != job.PlanOnly {
		t.Errorf("%+v", p)
	}
	_ = p.LayBy(&job.Job{})
	for row, want := range map[string][2]float64{"read 145 ohm 3.5 nF": {145, 3.5}, "read 145 ohm": {145, 0},
		"read 3.5 nF": {0, 3.5}} {
		p, err := Read([]byte(with("mm,", row+"\nmm, answers in mm")))
		if err != nil || [2]float64{p.ReadOhms, p.ReadFarads} != want || p.Units != "mm" {
			t.Errorf("%s: %+v, %v", row, p, err)
		}
	}
	p, err = Read([]byte(with("record", "record measured by hand, +-25, keep 75.5 more 2026-11-28")))
	if err != nil || p.Evidence != job.ByHand || p.Error != 25 || p.Finger != 75.5 || p.Date != "2026-11-28" {
		t.Errorf("%+v, %v", p, err)
	}
	p, err = Read([]byte(with("record", "record measured by hand, +-25, keep 75.5 more")))
	if err != nil || p.Date != "" || p.Finger != 75.5 {
		t.Errorf("%+v, %v", p, err)
	}
	p, err = Read([]byte(with("path", "path 75,75 500,400 S100 W20")))
	if err != nil || len(p.Path) != 4 || p.Path[3] != plane.Pt(480, 300) {
		t.Errorf("%+v, %v", p, err)
	}
}

// Every row that is missing or misread is named; exactly the largest figures are taken.
func TestRowsThatAreMissingOrMisread(t *testing.T) {
	for _, k := range []struct{ word, row, says string }{
		{"room", "", "of which room and cable"}, {"cable", "", "of which room and cable"},
		{"cable", "cable H1", "of which room and cable"}, {"cable", "cable  X", "of which room and cable"},
		{"120", "", "label's figures"}, {"120", "0 V 100 W 144 ohm, 137 to 158", "label's figures"},
		{"120", "120 V 0 W 144 ohm, 137 to 158", "label's figures"}, {"120", "120 V 100 W 0 ohm, 137 to 158",
			"label's figures"},
		{"120", "-1 V 100 W 144 ohm, 137 to 158", "label's figures"}, {"120", "1 V 1 W 1 ohm, 1 to 2", ""},
		{"length", "length 0 lead 3000 ends 1", "label's figures"}, {"length", "length 1 lead 3000 ends 1", ""},
		{"length", "length 9000 lead 3000 ends 0", "which ends"}, {"length", "length 9000 lead 3000 ends 2", ""},
		{"length", "length 9000 lead 3000 ends 3", "which ends"}, {"walls", "walls A 0,0 B 900,0",
			"walls are not in it"},
		{"walls", "walls A 0,0 B 900,0 C 1,900", ""}, {"walls", "walls A 0,0 B", "ends too soon"},
		{"path", "", "path is not in it"}, {"path", "path 75,75", "path is not in it"}, {"path", "path 75,75 N5", ""},
		{"path", "path left out: too long; see the drawing", "path is not in it"},
		{"box", "box 1 up 1200",
			`line 10, "box 1 up 1200": "1" is no place`}, {"box", "box 1,2 up", "ends too soon"},
		{"box", "box 1,2 up x", `"x" is no figure`},
		{"box", "box x,2 up 9", `"x,2" is no place`}, {"box", "box 1,x up 9", `"1,x" is no place`},
		{"box", "box 1000000,2 up 9", ""}, {"box", "box 1000001,2 up 9", "is no place"}, {"box",
			"box -1000001,2 up 9", "is no place"},
		{"box", "box 2,1000001 up 9", "is no place"}, {"box", "box 2,-1000000 up 9", ""}, {"box",
			"box 2,-1000001 up 9", "is no place"},
		{"box", "box 1,2 up 1000000", ""}, {"box", "box 1,2 up 1000001", "is no figure"}, {"box",
			"box 1,2 up -1000001", "is no figure"},
		{"path", "path 75,75 N-5", `"N-5" is no leg`}, {"path", "path 75,75 N0", ""}, {"path", "path 75,75 Nx",
			`"Nx" is no leg`},
		{"path", "path 75,75 N1000000", ""}, {"path", "path 75,75 N1000001", "is no leg"}, {"path", "path 75,75 Q5",
			"is no place"},
		{"record", "record seen by someone, +-25, keep 75 more", "does not say how the cable was found"},
		{"record", "record measured by hand, +-25", "does not say how"}, {"record",
			"record measured by hand, +-a, keep b more", "invalid"},
		{"record", "record measured by hand, +-25, keep b more", "invalid"},
		{"mm,", "read 145", "ends too soon"}, {"mm,", "read 145 ohm 3", "ends too soon"}, {"mm,", "read x ohm",
			`"x" is no figure`}, {"mm,", "read 145 ohm 3 nF", ""},
		{firstLine, "OXTURN FLOOR 0", "its first line"}, {firstLine, "OXTURN FLOOR 2",
			"form 2, and this version reads form 1"},
		{firstLine, "OXTURN FLOOR one", "its first line"},
	} {
		_, err := Read([]byte(with(k.word, k.row)))
		if (err == nil) != (k.says == "") || err != nil && !strings.Contains(err.Error(), k.says) {
			t.Errorf("%q: %v, want %q", k.row, err, k.says)
		}
	}
}

// What goes into the job: a record with what there is of it, and nothing of what there is not.
func TestAPassportAsAJob(t *testing.T) {
	p, err := Read([]byte(with("record", "record measured by hand, +-25, keep 75 more")))
	if err != nil {
		t.Fatal(err)
	}
	says := func(want string, yes bool) {
		t.Helper()
		if got := string(p.Job()); strings.Contains(got, want) != yes {
			t.Errorf("%q in it: %v, in\n%s", want, !yes, got)
		}
	}
	says("cold_lead = [[1, 0], [1, 75], [75, 75]]", true)
	says("sensor = [200, 300]\nsensor_lead = [[1, 0], [200, 0], [200, 300]]\nspare = [400, 300]", true)
	for _, none := range []string{"spare_lead", "return_lead", "reading", "date"} {
		says(none, false)
	}
	says("closest = 1\n", true)              // two bends of 15 mm go into a peg of 37.5
	says("closest = 1\nwidest = 13\n", true) // 500 mm are 13.3 pegs
	says("status = \"as laid\"", true)
	says("[[as_laid]]\nroom = \"Bath\"\ncable = \"H1\"\nevidence = \"measured by hand\"\nerror = 25\n", true)
	says("ends = \"one\"\n", true)
	says("height = 1200\n", true)
	says("tolerance = [-0.048611, 0.100000]", true)
	p.BoxUp, p.Bend, p.Date, p.ReadOhms, p.ColdLead = 0, 37.5, "2026-11-28", 0.5, p.ColdLead[:1]
	says("height = 1\n", true)
	says("closest = 2\n", true)
	says("date = 2026-11-28", true)
	says("cold_lead", false)
	says("[[as_laid.reading]]\nstage = \"hook-up\"\nohms = 0.5\n", true)
	says("capacitance", false)
	p.Bend, p.ReadOhms, p.ReadFarads, p.Return = 37.6, 0, 0.5, hand.Points(1, 0, 2, 0)
	says("closest = 3\n", true)
	says("[[as_laid.reading]]\nstage = \"hook-up\"\ncapacitance = 0.5\n", true)
	says("ohms = 0", false)
	says("return_lead = [[1, 0], [2, 0]]", true)
	p.Bend, p.Pitch = 0, 30
	says("closest = 1\n", true)
	p.Pitch, p.Bend = 300, 400 // its bends need three pegs, and one is under 500 mm
	says("closest = 3\nwidest = 3\n", true)
	p.Bend, p.Pitch, p.Ends = 0, 30, 2
	says("ends = \"both\"\n", true)
	p.Evidence = job.PlanOnly
	says("status = \"for installation\"", true)
	says("[[as_laid]]", false)
	p.Evidence = job.ByHand
	p.Return, p.Sensors[0].Lead = p.Return[:1], p.Sensors[0].Lead[:1]
	says("return_lead", false)
	says("sensor_lead", false)
	j := &job.Job{}
	if err := p.LayBy(j); err != nil || j.LaidBy.Rooms[0].Pegs.Origin != p.Path[0] ||
		j.LaidBy.Rooms[0].Cables[0].ID != "H1" {
		t.Errorf("%+v, %v", j.LaidBy, err)
	}
}

// Legs by sides of the compass; what is off by a millimetre is none of its own, and what is
// aslant by more is a place.
func TestAWayInWords(t *testing.T) {
	for want, pts := range map[string][]plane.Point{
		"p 0,0 N100 E50":    hand.Points(0, 0, 0, 100, 50, 101),
		"p 0,0 100,-2":      hand.Points(0, 0, 100, -2),
		"p 0,0 -2,-100":     hand.Points(0, 0, -2, -100),
		"p 0,0 E100 N50":    hand.Points(0, 0, 100, 0, 100, 50),
		"p 0,0 W100 S50":    hand.Points(0, 0, -100, 0, -100, -50),
		"p 0,0 E100 N49":    hand.Points(0, 0, 100, 1, 101, 49), // the lines stay where they began
		"p 0,0 E100 102,52": hand.Points(0, 0, 100, 0, 102, 52),
		"p 0,0 100,2":       hand.Points(0, 0, 100, 2),
		"p 0,0 2,100":       hand.Points(0, 0, 2, 100),
		"p 0,0 E2":          hand.Points(0, 0, 1, 1, 2, 1),
		"p 0,0 S2":          hand.Points(0, 0, -1, -1, -1, -2),
		"p 0,0 N2":          hand.Points(0, 0, 1, 2),
		"p 0,0 W2":          hand.Points(0, 0, 0, 1, -1, 0, -2, 0),
		"p 1,-1 E100":       hand.Points(0.6, -0.6, 100.6, 0),
	} {
		w := &lines{}
		if w.way("p", pts); w.b.String() != want+"\n" {
			t.Errorf("%v: %q, want %q", pts, w.b.String(), want)
		}
	}
	w := &lines{}
	if w.way("p", hand.Points(1, 1)); w.b.String() != "" {
		t.Errorf("a point is a way: %q", w.b.String())
	}
	for s, want := range map[string]string{"Bäder, 2²": "Bader, 2?", " a\t\n b ": "a b", "~€": "~?"} {
		if got := plain(s); got != want {
			t.Errorf("%q: %q, want %q", s, got, want)
		}
	}
}

// The last reading before service that was taken, each of its two figures by itself.
func TestWhatWasReadLast(t *testing.T) {
	taken := func(v float64) job.Figure { return job.Figure{Value: v, Taken: true} }
	over := job.Figure{Value: 999, Taken: true, Over: true}
	for _, k := range []struct {
		readings []job.Reading
		want     string
	}{
		{nil, ""}, {[]job.Reading{{}}, ""},
		{[]job.Reading{{Ohms: taken(144), Capacitance: taken(3)}}, "read 144 ohm 3 nF\n"},
		{[]job.Reading{{Ohms: taken(144)}, {Ohms: taken(145)}}, "read 145 ohm\n"},
		{[]job.Reading{{Ohms: taken(144), Capacitance: taken(3)}, {Ohms: over, Capacitance: over}},
			"read 144 ohm 3 nF\n"},
		{[]job.Reading{{Capacitance: taken(3)}, {Ohms: taken(144), Stage: job.InService}}, "read 3 nF\n"},
		{[]job.Reading{{Ohms: job.Figure{Value: 144}}}, ""},
	} {
		w := &lines{}
		w.read(&layout.Cable{Laid: &layout.Laid{Job: &job.Laid{Readings: k.readings}}})
		if w.b.String() != k.want {
			t.Errorf("%+v: %q, want %q", k.readings, w.b.String(), k.want)
		}
	}
	w := &lines{}
	if w.read(&layout.Cable{}); w.b.String() != "" {
		t.Errorf("nothing recorded: %q", w.b.String())
	}
}

// A room has two datums where two of its walls meet squarely; a triangle may have one.
func TestDatumsOfALabel(t *testing.T) {
	for _, k := range []struct {
		ring  plane.Ring
		wants bool
	}{{plane.Rectangle(plane.Pt(0, 0), plane.Pt(900, 600)), true}, {plane.Ring{{}, {X: 900}, {X: 450, Y: 780}},
		false}, {plane.Rectangle(plane.Pt(0, 0), plane.Pt(600, 900)), true},
		{plane.Ring{{}, {X: 900}, {X: 450, Y: 80}}, false}} { // none is square to another there, by far
		r := &layout.Room{Job: hand.Room(k.ring)}
		d1, d2 := layout.DatumWalls(r.Job)
		w := &lines{}
		w.walls(r)
		if got := strings.Contains(w.b.String(), "datums"); got != (d1 >= 0 && d2 >= 0) || k.wants && !got {
			t.Errorf("datums %d and %d: %q", d1, d2, w.b.String())
		}
	}
	if whole(2.5-1e-9) != 3 || whole(-2.4) != -2 || fine(1.234) != "1.23" || num(math.Pi) != "3.14159" {
		t.Error("figures are rounded otherwise")
	}
}

// A text says that the cable was found where it lies only of a floor that is handed over with
// a record of it; its ends are then those that were measured, where both were.
func TestTheRecordOfALabel(t *testing.T) {
	joint, end := plane.Pt(70, 80), plane.Pt(800, 90)
	by := job.Laid{Evidence: job.ByHand}
	dated := by
	dated.Date = time.Date(2026, 11, 28, 0, 0, 0, 0, time.UTC)
	const none, found = "none: a plan, the cable may lie elsewhere", "measured by hand, +-25.4, keep 76.2 more"
	for _, k := range []struct {
		status     job.Status
		laid       *layout.Laid
		record     string
		start, end string
	}{
		{job.AsLaid, nil, none, "75,75", "825,75"},
		{job.AsLaid, &layout.Laid{Job: &by, Whole: true}, found, "75,75", "825,75"},
		{job.AsLaid, &layout.Laid{Job: &dated, Whole: true, Joint: &joint, EndCap: &end}, found + " 2026-11-28",
			"70,80", "800,90"},
		{job.AsLaid, &layout.Laid{Job: &by, Whole: true, Joint: &joint}, found, "75,75", "825,75"},
		{job.AsLaid, &layout.Laid{Job: &by, Whole: true, EndCap: &end}, found, "75,75", "825,75"},
		{job.AsLaid, &layout.Laid{Job: &by, Joint: &joint, EndCap: &end}, none, "75,75", "825,75"},
		{job.AsLaid, &layout.Laid{Job: &job.Laid{}, Whole: true, Joint: &joint, EndCap: &end}, none, "75,75", "825,75"},
		{job.ForInstallation, &layout.Laid{Job: &by, Whole: true}, none, "75,75", "825,75"},
	} {
		if k.laid != nil {
			k.laid.Error, k.laid.FingerRoom = plane.Inch, 3*plane.Inch
		}
		r := &layout.Room{Job: hand.Room(plane.Rectangle(plane.Pt(0, 0), plane.Pt(900, 900)))}
		r.Sensors = []layout.Sensor{{Name: "S1", Tip: plane.Pt(200, 300)}, {Name: "S2", Tip: plane.Pt(400, 300),
			Spare: true}}
		c := &layout.Cable{ID: "H1", Path: hand.Points(75, 75, 825, 75), BendRadius: 15, Laid: k.laid}
		p := &layout.Plan{Code: "7KF-4RP", Job: &job.Job{Info: job.Info{Status: k.status}}}
		text := Of(p, r, c)
		for _, row := range []string{"record " + k.record, "START " + k.start, "END " + k.end, "path 75,75 E750",
			"plan 7KF-4RP", "S1 200,300", "S2 400,300 spare"} {
			if !strings.Contains(text, "\n"+row+"\n") {
				t.Errorf("%v, %+v: no %q in\n%s", k.status, k.laid, row, text)
			}
		}
	}
}
