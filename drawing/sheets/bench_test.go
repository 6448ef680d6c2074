package sheets

import (
	"bytes"
	"fmt"
	"strings"
	"testing"

	"oxturn/drawing"
	"oxturn/drawing/internal/outside"
	"oxturn/drawing/pdf"
	"oxturn/drawing/svg"
	"oxturn/layout/build"
	"oxturn/layout/job"
	"oxturn/layout/plane"
)

// BenchmarkSet draws the whole set of a bath.
func BenchmarkSet(b *testing.B) {
	p := samplePlan(b, plane.Inches)
	b.ReportAllocs()
	for b.Loop() {
		if _, err := Set(p); err != nil {
			b.Fatal(err)
		}
	}
}

// BenchmarkExamples draws the sets of the examples, and of those that home paper takes.
func BenchmarkExamples(b *testing.B) {
	for _, x := range []struct{ name, paper string }{{"bath", ""}, {"entry", ""}, {"kitchen", ""}, {"bath", "letter"},
		{"kitchen", "A4"}} {
		b.Run(strings.TrimSpace(x.name+" "+x.paper), func(b *testing.B) {
			p, err := plannedFile(exampleFile(x.name))
			if err != nil {
				b.Fatal(err)
			}
			if x.paper != "" {
				p.Job.Sheet.Size = x.paper
			}
			for b.Loop() {
				if _, err := Set(p); err != nil {
					b.Fatal(err)
				}
			}
		})
	}
}

// twentyRooms is a job of twenty rooms of 3 to 11 m², one in four an L, each
// with a cabinet and a box; the cable of each is chosen.
func twentyRooms() string {
	var b strings.Builder
	b.WriteString("units = \"mm\"\n[job]\ntitle = \"twenty rooms\"\n[membrane]\npitch = 30\nroll_width = \"1 " +
		"m\"\nroll_length = \"12.5 m\"\n[supply]\nvolts = 240\n")
	for i := range 16 {
		length := 14 + 6*i
		fmt.Fprintf(&b, "[[cable]]\nid = \"R%d\"\nvolts = 240\nwatts = %d\nlength = \"%d m\"\nlead = \"6 m\"\n", length,
			12*length, length)
	}
	for i := range 20 {
		w, h := 1900+80*i, 1700+90*(i*7%20)
		corners := fmt.Sprintf("[[0,0],[%d,0],[%d,%d],[0,%d]]", w, w, h, h)
		if i%4 == 3 {
			corners = fmt.Sprintf("[[0,0],[%d,0],[%d,%d],[%d,%d],[%d,%d],[0,%d]]", w, w, h-600, w-700, h-600, w-700, h,
				h)
		}
		fmt.Fprintf(&b, "[[room]]\nname = \"Room %d\"\ncorners = %s\n[[room.fixture]]\nkind = \"cabinet\"\nwall = "+
			"\"A\"\nfrom = 0\nwidth = 600\ndepth = 400\n[room.thermostat]\nat = [%d, 0]\nheight = 1200\n", i+
			1, corners, w/2)
	}
	return b.String()
}

// writeAll writes a set as a PDF and as an SVG a sheet, and returns their
// sizes.
func writeAll(b *testing.B, set []*drawing.Sheet) (one, all int) {
	b.Helper()
	var doc bytes.Buffer
	if err := pdf.Write(&doc, set, pdf.Info{}); err != nil {
		b.Fatal(err)
	}
	for _, s := range set {
		var x bytes.Buffer
		if err := svg.Write(&x, s); err != nil {
			b.Fatal(err)
		}
		all += x.Len()
	}
	return doc.Len(), all
}

// BenchmarkTwentyRooms takes a job of twenty rooms from its text to its PDF and
// SVGs: 6 s at most are wanted.
func BenchmarkTwentyRooms(b *testing.B) {
	text := []byte(twentyRooms())
	for b.Loop() {
		j, report := job.Read("twenty.toml", text, nil)
		if j == nil || report.Errors() > 0 {
			b.Fatalf("%+v", report)
		}
		p, ds := build.Plan(j)
		for _, d := range ds {
			if d.Severity == job.Error {
				b.Fatal(d.Message)
			}
		}
		set, err := Set(p)
		if err != nil {
			b.Fatal(err)
		}
		one, _ := writeAll(b, set)
		b.ReportMetric(float64(len(set)), "sheets")
		b.ReportMetric(float64(one), "PDF-bytes")
	}
}

// BenchmarkPDF writes the bath's set as one PDF, side by side with a renderer
// of SVG that turns the same sheets into one.
func BenchmarkPDF(b *testing.B) {
	set, err := Set(samplePlan(b, plane.Inches))
	if err != nil {
		b.Fatal(err)
	}
	b.Run("own", func(b *testing.B) {
		size := 0
		for b.Loop() {
			var doc bytes.Buffer
			if err := pdf.Write(&doc, set, pdf.Info{}); err != nil {
				b.Fatal(err)
			}
			size = doc.Len()
		}
		b.ReportMetric(float64(size), "PDF-bytes")
	})
	b.Run("rsvg-convert", func(b *testing.B) {
		args := []string{"-f", "pdf"}
		for i, s := range set {
			var x bytes.Buffer
			if err := svg.Write(&x, s); err != nil {
				b.Fatal(err)
			}
			path := outside.File(b, fmt.Sprintf("%02d.svg", i), x.Bytes())
			args = append(args, path)
		}
		size := 0
		for b.Loop() {
			size = len(outside.Run(b, "rsvg-convert", args...))
		}
		b.ReportMetric(float64(size), "PDF-bytes")
	})
}
