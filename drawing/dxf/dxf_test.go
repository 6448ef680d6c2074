package dxf_test

import (
	"bytes"
	"encoding/json"
	"image"
	"math"
	"os"
	"os/exec"
	"path/filepath"
	"strings"
	"testing"

	"oxturn/drawing/dxf"
	"oxturn/drawing/internal/outside"
	"oxturn/layout"
	"oxturn/layout/build"
	"oxturn/layout/draft"
	"oxturn/layout/job"
	"oxturn/layout/plane"
	"oxturn/layout/skip"
)

func planned(t *testing.T, name string) *layout.Plan {
	t.Helper()
	path := filepath.Join("../../testdata/jobs", name)
	data, err := os.ReadFile(path)
	if err != nil {
		t.Fatal(err)
	}
	open := func(other string) ([]byte, error) { return os.ReadFile(filepath.Join(filepath.Dir(path), other)) }
	j, report := job.Read(name, data, open)
	if report.Errors() > 0 {
		t.Fatal(report.Summary())
	}
	plan, found := build.Plan(j)
	for _, d := range found {
		if d.ID == "" {
			t.Fatal(d.Message)
		}
	}
	return plan
}

func written(t *testing.T, p *layout.Plan) []byte {
	t.Helper()
	var b bytes.Buffer
	if err := dxf.Write(&b, p); err != nil {
		t.Fatal(err)
	}
	return b.Bytes()
}

// measuring asks ezdxf, which others wrote, for the unit, the layers, and of every closed
// line its area and of every other its length, arcs flattened to a micrometre.
const measuring = `
import sys, json, ezdxf
from ezdxf import path
from ezdxf.math import area
d = ezdxf.readfile(sys.argv[1])
bad = d.audit().errors
out = {"units": d.header.get("$INSUNITS", 0), "layers": sorted(l.dxf.name for l in d.layers), "errors": len(bad),
       "areas": {}, "lengths": {}, "texts": []}
for e in d.modelspace():
    if e.dxftype() == "TEXT": out["texts"].append(e.plain_text())
    if e.dxftype() != "POLYLINE": continue
    v = list(path.make_path(e).flattening(0.0001, 64))
    if e.is_closed: out["areas"].setdefault(e.dxf.layer, []).append(area(v))
    else: out["lengths"].setdefault(e.dxf.layer, []).append(sum(a.distance(b) for a, b in zip(v, v[1:])))
json.dump(out, sys.stdout)
`

type measured struct {
	Units          int
	Errors         int
	Layers, Texts  []string
	Areas, Lengths map[string][]float64
}

func measure(t *testing.T, drawing []byte) (m measured) {
	t.Helper()
	const python = "/usr/bin/python3" // Debian's own, which its packages are for
	if exec.Command(python, "-c", "import ezdxf").Run() != nil {
		skip.Test(t, skip.NoProgram, "ezdxf (python3-ezdxf)")
	}
	out := outside.Run(t, python, "-c", measuring, outside.File(t, "plan.dxf", drawing))
	if err := json.Unmarshal(out, &m); err != nil {
		t.Fatal(err)
	}
	return m
}

// Another library finds the room's area and the cable's exact length in the drawing.
func TestAnotherLibraryAgrees(t *testing.T) {
	for _, name := range []string{"bath.toml", "entry.toml"} {
		p := planned(t, name)
		m := measure(t, written(t, p))
		unit, units := 1.0, 4
		if p.Units() == plane.Inches {
			unit, units = plane.Inch, 1
		}
		if m.Units != units || m.Errors > 0 {
			t.Errorf("%s: unit %d, want %d; %d errors", name, m.Units, units, m.Errors)
		}
		for i := range p.Rooms {
			r := &p.Rooms[i]
			if got, want := m.Areas["WALLS"][i]*unit*unit, r.Floor.Area(); math.Abs(got-want) > 1e-5*want {
				t.Errorf("%s: the floor is %.1f mm², want %.1f", name, got, want)
			}
		}
		c := &p.Rooms[0].Cables[0]
		if got := m.Lengths["CABLE"][0] * unit; math.Abs(got-c.Label.Length) > 1 {
			t.Errorf("%s: the cable is %.2f mm long, want %.2f", name, got, c.Label.Length)
		}
		if !strings.Contains(strings.Join(m.Texts, "\n"), p.CodeNow()) {
			t.Errorf("%s: no plan code among %q", name, m.Texts)
		}
	}
}

// A room of 3 by 2 m with a half round end, and a wall within of 1.2 m by 100 mm: another
// library finds their areas, by hand.
func TestCurveAndPartitionAgree(t *testing.T) {
	j, report := job.Read("round.toml", []byte("units = \"mm\"\n[membrane]\npitch = 30\n[[cable]]\nid = \"C\"\n"+
		"volts = 230\nwatts = 696\nlength = \"58 m\"\nlead = \"6 m\"\n[[room]]\nname = \"R\"\ncables = [\"C\"]\n"+
		"corners = [[0, 0], [3000, 0], [3000, 2000], [0, 2000]]\n[[room.arc]]\nwall = \"B\"\nrise = 1000\n"+
		"[[room.partition]]\nfrom = \"A 1500\"\nto = [1500, 1200]\nthickness = 100\n"+
		"[room.thermostat]\nwall = \"D\"\nfrom = 1000\n"), nil)
	if report.Errors() > 0 {
		t.Fatal(report.Summary())
	}
	p, found := build.Plan(j)
	for _, d := range found {
		if d.Severity == job.Error {
			t.Fatal(d.Message)
		}
	}
	m := measure(t, written(t, p))
	if got, want := m.Areas["WALLS"][0], 6e6+math.Pi/2*1e6; math.Abs(got-want) > 1e-3*want || m.Errors > 0 {
		t.Errorf("the floor is %.0f mm², want %.0f; %d errors", got, want, m.Errors)
	}
	if got := m.Areas["PARTITIONS"]; len(got) != 1 || math.Abs(got[0]-1.2e5) > 1 {
		t.Errorf("the walls within: %v", got)
	}
	if got := m.Lengths["CABLE"][0]; math.Abs(got-58000) > 1 {
		t.Errorf("the cable is %.2f mm long", got)
	}
}

// What is written is read as a room again, of the same size.
func TestRoomComesBack(t *testing.T) {
	p := planned(t, "bath.toml")
	found, bad := draft.Read("bath.dxf", written(t, p), draft.Options{Layer: "walls"})
	if bad != nil {
		t.Fatal(bad)
	}
	if got, want := found.Rooms[0].Outline.Area(), p.Rooms[0].Floor.Area(); math.Abs(got-want) > 1e-4*want {
		t.Errorf("the floor is %.0f mm², want %.0f", got, want)
	}
}

// A drawing program opens it: LibreCAD draws it without a window.
func TestDrawingProgramOpensIt(t *testing.T) {
	if _, err := exec.LookPath("librecad"); err != nil {
		skip.Test(t, skip.NoProgram, "librecad")
	}
	in := outside.File(t, "kitchen.dxf", written(t, planned(t, "kitchen.toml")))
	out := strings.TrimSuffix(in, ".dxf") + ".pdf" // where it writes
	cmd := exec.Command("librecad", "dxf2pdf", "-a", in)
	cmd.Env = append(os.Environ(), "QT_QPA_PLATFORM=offscreen", "HOME="+t.TempDir(), "XDG_RUNTIME_DIR="+t.TempDir())
	if said, err := cmd.CombinedOutput(); err != nil {
		t.Fatalf("%v\n%s", err, said)
	}
	page := outside.RasterPDF(t, mustRead(t, out), "60")
	if n := inked(page); n < 1000 {
		t.Errorf("the drawing has %d dark points", n)
	}
}

func inked(page *image.Gray) (n int) {
	for _, grey := range page.Pix {
		if grey < 200 {
			n++
		}
	}
	return n
}

func mustRead(t *testing.T, name string) []byte {
	t.Helper()
	data, err := os.ReadFile(name)
	if err != nil {
		t.Fatal(err)
	}
	return data
}

// Names of a job keep to their line, in letters that the format has.
func TestNamesStayOnTheirLine(t *testing.T) {
	p := planned(t, "bath.toml")
	copied := *p.Rooms[0].Job
	copied.Name = "Küche\n  0\nEOF"
	p.Rooms[0].Job = &copied
	text := string(written(t, p))
	if n := strings.Count(text, "\nEOF"); n != 1 || !strings.Contains(text, `K\U+00FCche   0 EOF`) {
		t.Errorf("%d ends of file", n)
	}
}
