package main

import (
	"os"
	"strings"
	"testing"

	"oxturn/drawing/web/headless"
	"oxturn/layout/skip"
)

// TestAccessible holds each part of the page against the rules of axe-core.
func TestAccessible(t *testing.T) {
	if os.Getenv("OXTURN_AXE") == "" {
		skip.Test(t, skip.NoProgram, "OXTURN_AXE names no script of axe-core")
	}
	t.Chdir("../..")
	made, err := built()
	if err != nil {
		t.Fatal(err)
	}
	p := atTheOpenPage(t, made.page)
	p.rules = headless.Rules(t, p.ctx)
	p.value(`void (putAway(), Object.assign(job, { name: "", files: {}, photos: {}, drafts: [] }), changed(), ` +
		`enter("Files"))`)
	p.until(`document.querySelector("#panel h2").textContent === "A floor to warm"`)
	p.fits("files")
	p.press("Files")
	p.drawn(func() { p.press("Start") })
	for _, part := range []string{"Files", "Site", "Room"} {
		p.press(part)
		p.until(`document.querySelector("#panel *")`)
		p.fits(strings.ToLower(part))
	}
	p.value(`document.querySelector("[data-arrange]").click()`)
	p.until(`placing.room && view.svg && placing.marks?.childElementCount > 5`)
	p.fits("plan")
	p.value(`document.getElementById("plan-back").click()`)
	p.until(`!view.hand && document.querySelector("[data-arrange]")`)
	p.press("Text")
	p.drawn(func() { p.enter("#text", strings.Replace(p.value("job.text"), "closest = 2", "closset = 2", 1)) })
	p.value(`text.toLine(18) ?? ""`)
	p.fits("text")
}

// fits asks for what breaks a rule on each screen.
func (p person) fits(part string) {
	p.t.Helper()
	on := fewScreens
	if *everyCase {
		on = screens
	}
	p.onScreens(on, func(screen string) {
		if got := p.rules(); got != "" {
			p.t.Errorf("%s on %s: %s", part, screen, got)
		}
		p.picture(part + "-" + screen)
	})
}
