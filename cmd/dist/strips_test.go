package main

import (
	"os"
	"strings"
	"testing"
)

// TestStripsOnThePage lays a floor of strips from home paper: its runs are told in inches, and the
// sheet that it is laid by shows the one to lay, whichever was in view.
func TestStripsOnThePage(t *testing.T) {
	s := builtFor(t, "it draws a floor on the page")
	job, err := os.ReadFile("drawing/sheets/testdata/strips.toml")
	if err != nil {
		t.Fatal(err)
	}
	text := strings.Replace(string(job), "[strips]", "[sheet]\nsize = \"letter\"\n[strips]", 1)
	p := atTheOpenPage(t, s.page)
	p.drawn(func() {
		p.value(`void (putAway(), job.load("strips.toml", { "strips.toml": ` + quoted(text) + ` }))`)
	})
	p.value(`void sheets.show(sheets.state.sheets.find((s) => s.id.startsWith("owner-map")).id)`)
	p.until(`view.shown.startsWith("owner-map")`)
	p.press("Site")
	p.press("Lay the cable")
	p.until(`view.shown.startsWith("field-sheet") && document.querySelector("#paper .laying path")`)
	if got := p.value(`document.querySelector("#panel .run").textContent`); !strings.Contains(got, " in") ||
		strings.Contains(got, "pegs") || !strings.Contains(got, "clips to the next") {
		t.Errorf("the run to lay is told as %q", got)
	}
}
