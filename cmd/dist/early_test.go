package main

import (
	"strings"
	"testing"
)

// TestDrawnEarly changes a room while its sheets are looked at: the one in view comes first and is
// the one that the whole set then has; forms are answered meanwhile, and a drawing that is not
// wanted any more is given up.
func TestDrawnEarly(t *testing.T) {
	s := builtFor(t, "it draws a floor on the page some times")
	p := atTheOpenPage(t, s.page)
	p.value(`void (window.confirm = () => true)`)
	p.press("Files")
	p.drawn(func() { p.press("Start") })
	for _, kind := range []string{"cover", "cable-plan", "tile-plan", "owner-map", "take-off"} {
		p.value(`void (window.there = false, sheets.show(sheets.state.sheets.find((s) => s.id.startsWith("` + kind +
			`")).id).then(() => { there = true; }))`)
		p.until("there")
		p.value(`void (window.came = [], window.watch?.disconnect(), window.watch = new MutationObserver(() =>
			came.push([drawing, $("status").textContent, view.svg.outerHTML])), watch.observe($("paper"), { childList: true }))`)
		p.drawn(func() {
			p.value(`void job.change(job.text.replace(/2\.4(\d) m/g, (m, d) => "2.4" + (1 - d) + " m"))`)
			p.sees("#status", "drawing")
		})
		p.sees("#status", "up to date")
		if kind != "take-off" && p.value("came.length && came[0][0]") != "true" { // that rests on all others
			t.Errorf("%s came with the whole set", kind)
		}
		if n := p.value("came.length"); n != "1" {
			t.Errorf("%s was shown %s times", kind, n)
		}
		p.value(`void (window.exact = "", engine.ask("sheet", { sheet: view.shown }).then((s) => { exact = s; }))`)
		p.until("exact")
		if p.value("exact === sheets.text") != "true" {
			t.Errorf("%s is not shown as the set has it", kind)
		}
	}
	p.meanwhile()
}

// meanwhile changes the job over and over while it is drawn.
func (p person) meanwhile() {
	p.t.Helper()
	p.value(`void (window.answers = [], window.asks = engine.ask, engine.ask = async function (call, ...more) {
		const a = await asks.call(engine, call, ...more);
		if (call === "open") answers.push(a);
		return a;
	})`)
	p.drawn(func() {
		p.value(`void (window.order = [], job.change(job.text.replace(/2\.4\d m/g, "2.43 m")), (async () => {
			while (!drawing) await new Promise((later) => setTimeout(later, 5));
			order.push("asked " + drawing);
			await engine.ask("tables", { text: job.text });
			order.push("told " + drawing);
			for (const n of [44, 45, 46]) {
				job.change(job.text.replace(/2\.4\d m/g, "2." + n + " m"));
				await new Promise((later) => setTimeout(later, 120));
				order.push("changed " + document.body.dataset.drawn);
			}
		})())`)
		p.until("order.length === 5")
	})
	if order := strings.Split(p.value("order.join()"), ","); order[0] != "asked true" || order[1] != "told true" {
		p.t.Errorf("forms waited for the drawing: %v", order)
	}
	p.until("!timer && !drawing")
	p.sees("#status", "up to date")
	if p.value("answers.filter((a) => a === null).length > 0") != "true" {
		p.t.Errorf("no drawing was given up: %s", p.value("answers.length"))
	}
	last := p.value("sheets.text")
	p.drawn(func() { p.value(`void job.change(job.text + "\n# the same again\n")`) })
	if p.value("sheets.text") != last || p.value(`job.text.includes("2.46 m")`) != "true" {
		p.t.Error("what was shown at the end is not the last change")
	}
	p.value("void (engine.ask = asks)")
	p.bothHold()
}

// bothHold asks for two edits at once: neither undoes the other.
func (p person) bothHold() {
	p.t.Helper()
	p.value(`void (window.made = null, Promise.all(["title", "client"].map((key) =>
		edit({ do: "set", table: "job", key, value: JSON.stringify("a " + key) }))).then((told) => { made = told; }))`)
	p.until("made")
	if got := p.value("job.text"); p.value("made.join()") != "," || !strings.Contains(got, `"a title"`) ||
		!strings.Contains(got, `"a client"`) {
		p.t.Errorf("of two edits one undid the other (%s):\n%s", p.value("made.join()"), got)
	}
}
