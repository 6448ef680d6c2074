package main

import (
	"os/exec"
	"strings"
	"testing"

	"oxturn/layout/skip"
)

// TestSeveralCables puts photos and readings of a room with two cables on the record of the cable that is asked for.
func TestSeveralCables(t *testing.T) {
	if !*everyCase {
		skip.Test(t, skip.NotAsked, "it draws a floor six times; -page.all has it")
	}
	s := photoSite(t)
	if out, err := exec.Command(s.command, "new", "--kind", "bath", s.at("two.toml")).CombinedOutput(); err != nil {
		t.Fatalf("%v\n%s", err, out)
	}
	text := strings.Replace(s.read(t, "two.toml"), `# cables = ["X230-20"]`, `cables = ["X230-12", "X230-16"]`, 1)
	s.write(t, "two.toml", []byte(text))
	p := atTheOpenPage(t, s.page)
	p.drawn(func() { p.choose("#open", s.at("two.toml")) })
	p.asLaid()
	p.until(`document.querySelectorAll("#photo-cable option").length === 2`)
	p.enter("#photo-cable", "H2")
	p.photoOf(s, "hall-1.jpg")
	if got := records(p.value("job.text")); got != "H2: hall-1.jpg" {
		t.Errorf("the photo is on record of %q", got)
	}
	p.press("← Back")
	p.photoOf(s, "hall-2.jpg") // of the first cable, as nothing else is said
	if got := records(p.value("job.text")); got != "H2: hall-1.jpg; H1: hall-2.jpg" {
		t.Errorf("the photos are on record of %q", got)
	}
	p.pictured("13-cables")
	p.enter("#photo-of", "H2")
	p.until(`pointing.record?.cable === "H2"`)
	if got := records(p.value("job.text")); got != "H2: hall-1.jpg hall-2.jpg; H1:" {
		t.Errorf("after the second was moved they are on record of %q", got)
	}
	p.points(4)
	p.drawn(func() { p.press("← Back") })
	p.value(`asked = "", sitePanel(document.getElementById("panel"))`)
	p.press("Readings")
	p.until(`document.querySelectorAll("#read-of option").length === 2`)
	p.enter(`input[aria-label="ohms, core to core"]`, "275")
	p.enter("#read-of", "1")
	p.drawn(func() { p.press("Save the reading") })
	if got := p.value("job.text"); strings.Index(got, "ohms = 275") > strings.Index(got, `cable = "H1"`) {
		t.Errorf("the reading of H2 is not on its record:\n%s", got)
	}
}

// photoOf takes a photo in and taps its corners.
func (p person) photoOf(s site, name string) {
	p.t.Helper()
	p.choose("#photo-pick", s.at(name))
	p.until(`document.querySelector("[data-photo='` + name + `']")`)
	p.value(`document.querySelector("[data-photo='` + name + `']").click()`)
	p.until("view.photo && view.svg")
	p.corners()
}

// records lists the cables of a job's records with the photos of each.
func records(text string) string {
	var out []string
	for _, part := range strings.Split(text, "[[as_laid]]")[1:] {
		_, after, _ := strings.Cut(part, `cable = "`)
		line := after[:strings.IndexByte(after, '"')] + ":"
		for _, photo := range strings.Split(part, `file = "`)[1:] {
			line += " " + photo[:strings.IndexByte(photo, '"')]
		}
		out = append(out, line)
	}
	return strings.Join(out, "; ")
}
