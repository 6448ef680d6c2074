package main

import "strings"

// hostileText has every text of a job, and what the files are called, try to become a part of the page.
func (p person) hostileText(s site) {
	p.t.Helper()
	const bad = `<img src=x onerror='hacked=1'><script>hacked=1</script></textarea></select>`
	text := strings.Replace(p.hall(s), `"A4"`, `"A2"`, 1) // long names take room
	for _, name := range []string{"Hall floor", "TT-2702", "Tideline Tilework"} {
		text = strings.ReplaceAll(text, `"`+name+`"`, `"`+bad+name+`"`)
	}
	text = strings.ReplaceAll(text, `"Hall"`, `"`+bad+`"`)
	text += "\n[[room.fixture]]\nkind = \"cabinet\"\nname = \"" + bad + "\"\nwall = \"A\"\nfrom = 1500\n" +
		"width = 300\ndepth = 200\n"
	s.write(p.t, "<b>hall.toml", []byte(text))
	clean := func(where string) {
		p.t.Helper()
		if got := p.value(`[typeof hacked, document.querySelectorAll("img[src=x], #panel script, #view script, b b")` +
			`.length].join()`); got != "undefined,0" {
			p.t.Errorf("%s: text of the job became a part of the page: %s", where, got)
		}
	}
	p.press("Files")
	p.drawn(func() { p.choose("#open", s.at("<b>hall.toml")) })
	p.until(`job.name === "<b>hall.toml" && !drawing && ` +
		`document.getElementById("status").textContent.startsWith("up to date")`)
	for _, mode := range []string{"Room", "Text", "Files"} {
		p.press(mode)
		p.until(`document.querySelector("#panel").childElementCount > 1`)
		clean(mode)
	}
	all := p.value(`[...sheets.state.sheets, ...sheets.state.tables].map((s) => s.id).join(" ")`)
	for _, id := range strings.Fields(all) {
		p.value("void (window.seen = null, sheets.show(" + quoted(id) + ").then(() => { window.seen = 'shown'; }, " +
			"(e) => { window.seen = e.stack; }))")
		p.until("window.seen")
		if got := p.value("window.seen"); got != "shown" {
			p.t.Errorf("sheet %s: %s", id, got)
		}
		clean("sheet " + id)
	}
	p.asLaid()
	p.choose("#photo-pick", s.at("hall-1.jpg"))
	p.until(`document.querySelector("[data-photo]")`)
	clean("photos")
	p.value(`document.querySelector("[data-photo]").click()`)
	p.until("view.photo && view.svg")
	p.tap(720, 808)
	p.sees("#spot", "<img src=x")
	clean("points")
	p.press("← Back")
	for _, question := range []string{"choose", "lay", "check"} {
		p.value(`asked = "` + question + `", sitePanel(document.getElementById("panel"))`)
		p.until(`!document.querySelector("#panel").textContent.includes("working")`)
		clean(question)
	}
}

// hall is the hall's job without its record.
func (p person) hall(s site) string {
	p.t.Helper()
	text, _, found := strings.Cut(s.read(p.t, "hall.toml"), "\n[[as_laid]]")
	if !found {
		p.t.Fatal("the hall has no record")
	}
	return strings.Replace(text, "status = \"as laid\"\n", "", 1)
}
