package main

import (
	"context"
	"encoding/base64"
	"encoding/json"
	"os"
	"os/exec"
	"path/filepath"
	"strings"
	"testing"
	"time"

	"github.com/chromedp/chromedp"
	"github.com/chromedp/chromedp/kb"
)

// A person is one at a phone's browser, with the page as a file and no network.
type person struct {
	t   *testing.T
	ctx context.Context

	rules func() string // those of access that the page breaks; nil where they are not asked
}

func (p person) value(expression string) string {
	p.t.Helper()
	out, err := chromedp.Run(p.ctx, chromedp.Evaluate[string]("String("+expression+")"))
	if err != nil {
		p.t.Fatalf("%s: %v", expression, err)
	}
	return out
}

func (p person) until(expression string) {
	p.t.Helper()
	for end := time.Now().Add(90 * time.Second); time.Now().Before(end); time.Sleep(50 * time.Millisecond) {
		if p.value("Boolean("+expression+")") == "true" {
			return
		}
	}
	p.t.Fatalf("never true: %s\nthe page reads: %s", expression, p.value("document.body.innerText"))
}

// press presses the button with these words.
func (p person) press(words string) {
	p.t.Helper()
	p.until(`[...document.querySelectorAll("button")].find((b) => b.textContent.startsWith("` + words + `"))`)
	p.value(`[...document.querySelectorAll("button")].find((b) => b.textContent.startsWith("` + words + `")).click()`)
}

// enter fills in a control and leaves it.
func (p person) enter(control, text string) {
	p.t.Helper()
	p.until(`document.querySelector('` + control + `')`)
	quoted, _ := json.Marshal(text)
	p.value(`((c) => { c.value = ` + string(quoted) + `; c.dispatchEvent(new Event("input")); ` +
		`c.dispatchEvent(new Event("change")); })(document.querySelector('` + control + `'))`)
}

// drawn does something that changes the job, and waits for the drawing of it.
func (p person) drawn(change func()) {
	p.t.Helper()
	p.until("!timer && !drawing") // of what was changed before
	before := p.value("document.body.dataset.drawn || 0")
	change()
	p.until("Number(document.body.dataset.drawn || 0) > " + before)
}

func (p person) sees(place, words string) {
	p.t.Helper()
	p.until(`document.querySelector("` + place + `")`)
	if got := p.value(`document.querySelector("` + place + `").textContent`); !strings.Contains(got, words) {
		p.t.Errorf("%s reads %q, not %q", place, got, words)
	}
}

// TestPage lives with a floor on a phone, from the first wall to a fault, and compares
// the files that the page makes with those of the command.
func TestPage(t *testing.T) {
	made := builtFor(t, "it builds the page and lives with a floor on it")
	p := atTheOpenPage(t, made.page)
	p.fromFile(made)
	p.press("Files")
	p.value(`void (window.came = [], window.watch = new MutationObserver(() => came.push(document.querySelector("#paper svg")
		?.getAttribute("class") || "")), watch.observe(document.getElementById("paper"), { childList: true }))`)
	p.drawn(func() { p.press("Start") })
	p.sees("#status", "up to date")
	p.until(`document.querySelector("#paper svg g.layer")`)
	if p.value(`came.includes("glimpse") && !came.at(-1) && !document.querySelector(".glimpse")`) != "true" {
		t.Errorf("a new job's cable was not seen before its sheets were drawn: %s", p.value("came.join()"))
	}
	p.value("watch.disconnect() ?? ''")
	p.along()
	p.byMouse()
	p.sameBytes(made)
	p.walls()
	p.lists()
	p.text()
	p.onSite()
	if err := chromedp.Do(p.ctx, chromedp.Navigate("file://"+made.page)); err != nil {
		t.Fatal(err)
	}
	p.until(`document.body.dataset.ready === "yes" && document.body.dataset.drawn`)
	p.sees("#name", "bath.toml")
	p.press("Site")
	p.press("Lay the cable")
	p.sees("#panel .run b", "2") // the first is laid
	p.value(`void (history.back())`)
	p.until(`!asked`)
	p.value(`void (kept.set("laid", ["another plan's"]))`)
	p.press("Lay the cable")
	p.sees("#panel", "Runs laid by an earlier plan: 1; of them the same in this one: 0.")
	p.sees("#panel .run b", "1")
}

// fromFile has a table that is none refused where it was chosen, and a sound one made the
// same draft that the command makes of it.
func (p person) fromFile(s site) {
	p.t.Helper()
	p.until(`document.getElementById("from") && document.body.dataset.ready === "yes"`)
	choose := func(text string) {
		quoted, _ := json.Marshal(text)
		p.value(`((d, f) => { d.items.add(new File([` + string(quoted) + `], "survey.csv")); f.files = d.files; ` +
			`f.dispatchEvent(new Event("change")); })(new DataTransfer(), document.getElementById("from"))`)
	}
	choose("direction,length\nup,3m\n")
	p.until(`!document.getElementById("from-told").hidden`)
	p.sees("#from-told", "survey.csv:2")
	const table = "direction,length\neast,2.4 m\nnorth,1.9 m\nwest,2.4 m\nsouth,1.9 m\n"
	p.drawn(func() { choose(table) })
	p.sees("#panel details", "hold it against a tape")
	dir := p.t.TempDir()
	from, to := filepath.Join(dir, "survey.csv"), filepath.Join(dir, "survey.toml")
	if err := os.WriteFile(from, []byte(table), 0o666); err != nil {
		p.t.Fatal(err)
	}
	if out, err := exec.Command(s.command, "new", "--from", from, "--units", "mm", to).
		CombinedOutput(); err != nil {
		p.t.Fatalf("%v\n%s", err, out)
	}
	if want, err := os.ReadFile(to); err != nil || p.value("job.text") != string(want) {
		p.t.Errorf("the page's draft differs from the command's (%v):\n%s", err, p.value("job.text"))
	}
}

// along holds how far along a cable the page takes places of a sheet to be to what the browser
// knows of the same path.
func (p person) along() {
	p.t.Helper()
	p.value(`void sheets.show(sheets.state.sheets.find((s) => s.id.startsWith("cable-plan")).id)`)
	p.until(`view.cables?.length`)
	if got := p.value(`((path) => { const whole = path.getTotalLength();
		return [0, 0.1, 0.35, 0.62, 0.99, 1].map((k) => underPointer(path.getPointAtLength(k * whole)).along /
			view.ratio - k * whole).filter((off) => Math.abs(off) > 0.002 * whole).join(); })(
		[...view.svg.querySelectorAll("g.object > title")].find((e) => e.textContent === "heating cable " +
			view.cables[0].cable.id).parentNode.querySelector("path"))`); got != "" {
		p.t.Errorf("places along a cable are elsewhere than the browser has them, by mm of paper: %s", got)
	}
}

// sameBytes holds every file of a drawn job to the command's.
func (p person) sameBytes(s site) {
	p.t.Helper()
	p.value(`void (window.ran = null, run("draw", job.name, "-o", "OUT").then((r) => { window.ran = r; }))`)
	p.until("window.ran")
	var made map[string]string
	if err := json.Unmarshal([]byte(p.value(`JSON.stringify(Object.fromEntries(ran.made.map((f) => [f.name, `+
		`btoa([...f.bytes].map((b) => String.fromCharCode(b)).join(""))])))`)), &made); err != nil {
		p.t.Fatal(err)
	}
	dir := p.t.TempDir()
	name := filepath.Join(dir, "bath.toml")
	if err := os.WriteFile(name, []byte(p.value("job.text")), 0o666); err != nil {
		p.t.Fatal(err)
	}
	out, err := exec.Command(s.command, "draw", name, "-o",
		filepath.Join(dir, "out")).CombinedOutput()
	if err != nil {
		p.t.Fatalf("%v\n%s", err, out)
	}
	entries, err := os.ReadDir(filepath.Join(dir, "out"))
	if err != nil || len(entries) != len(made) || len(made) < 8 {
		p.t.Fatalf("the page made %d files, the command %d (%v): %s", len(made), len(entries), err, p.value("ran.err"))
	}
	for _, e := range entries {
		want, err := os.ReadFile(filepath.Join(dir, "out", e.Name()))
		if err != nil {
			p.t.Fatal(err)
		}
		if got, err := base64.StdEncoding.DecodeString(made[e.Name()]); err != nil || string(got) != string(want) {
			p.t.Errorf("%s differs from the command's: %d and %d bytes (%v)", e.Name(), len(got), len(want), err)
		}
	}
}

// walls mistapes a wall, is told, and takes it back.
func (p person) walls() {
	p.press("Room")
	first := `input[aria-label="Length of wall A"]`
	p.drawn(func() { p.enter(first, "2.60 m") })
	p.sees("#status", "error")
	p.sees("#walls-room-0 p", "misses the start by 200 mm")
	p.sees("#stale", "last good drawing")
	p.sees("#slip", "end 200 mm") // in full, over the drawing
	p.drawn(func() { p.value(`document.getElementById("undo").click()`) })
	p.sees("#status", "up to date")
	if got := p.value(`document.querySelector('` + first + `').value`); got != "2.40 m" {
		p.t.Errorf("wall A is %q again", got)
	}
	if !strings.Contains(p.value("job.text"), "# A") {
		p.t.Error("the comments of the walls are gone")
	}
	p.drawn(func() {
		p.value(`((b) => { b.click(); b.click(); })([...document.querySelectorAll("button")].find((b) => ` +
			`b.textContent === "One more wall"))`)
		p.until(`document.querySelectorAll(".wall").length === 6`) // two taps are two walls, however soon
	})
	for p.value(`document.querySelectorAll(".wall").length`) != "4" {
		p.drawn(func() { p.value(`document.getElementById("undo").click()`) })
	}
	const taped = `7' 10 1/2"` // 2400.3 mm
	p.drawn(func() { p.enter(first, taped) })
	p.sees("#status", "up to date")
	if got := p.value(`document.querySelector('` + first + `').value`); got != taped {
		p.t.Errorf("wall A was typed as %s and is %s", taped, got)
	}
	p.drawn(func() { p.value(`document.getElementById("undo").click()`) })
}

// lists are typed with commas, without what a file has round them.
func (p person) lists() {
	p.t.Helper()
	for _, c := range [][3]string{{"texts", "X230-12, X230-16", `["X230-12", "X230-16"]`},
		{"texts", "X230-12", `["X230-12"]`}, {"texts", `["X230-12"]`, `["X230-12"]`},
		{"point", "90, 8 cm", `[90, "8 cm"]`}, {"place", "B 4ft", `"B 4ft"`}} {
		p.value(`void (window.made = "", written(` + quoted(c[1]) + `, ` + quoted(c[0]) +
			`).then((text) => { made = text; }))`)
		p.until("made")
		if got := p.value("made"); got != c[2] {
			p.t.Errorf("%s for %s is written as %s, not %s", c[1], c[0], got, c[2])
		}
	}
	if got := p.value(`plainList('["X230-12", "X230-16"]')`); got != "X230-12, X230-16" {
		p.t.Errorf("two cables are shown as %s", got)
	}
}

// text makes a slip in the text and goes to its line.
func (p person) text() {
	before := p.value("job.past.length")
	p.press("Text")
	p.drawn(func() { p.enter("#text", strings.Replace(p.value("job.text"), "closest = 2", "closset = 2", 1)) })
	p.sees("#problems", "closset")
	p.press("line ")
	if got := p.value(`text.selected`); !strings.HasPrefix(got, "closset") {
		p.t.Errorf("the line selected is %q", got)
	}
	inEditor := `text.shadowRoot.querySelector(".cm-lintRange-error")?.textContent`
	if got := p.value(inEditor); got != "closset" {
		p.t.Errorf("what is wrong is marked at %q", got)
	}
	p.keys("closest = 2")
	p.until(`document.querySelector("#status").textContent.startsWith("up to date")`)
	p.until(`!text.shadowRoot.querySelector(".cm-lintRange-error")`)
	p.lineEnds()
	for p.value("job.past.length") != before {
		p.drawn(func() { p.value(`document.getElementById("undo").click()`) })
	}
}

// lineEnds are left as a job has them by what is typed.
func (p person) lineEnds() {
	p.t.Helper()
	p.value(`job.change(job.text.replaceAll("\n", "\r\n")) ?? ""`)
	p.until(`text.value === job.text`)
	p.value(`text.toLine(1) ?? ""`)
	p.keys("# typed")
	p.until(`job.text.startsWith("# typed\r\n")`)
	if p.value(`job.text.split("\r\n").length === job.text.split("\n").length`) != "true" {
		p.t.Error("some lines end otherwise than they did")
	}
}

// onSite asks what is asked beside a floor.
func (p person) onSite() {
	answer := func(words string) {
		p.t.Helper()
		p.until(`document.querySelector("#panel pre, #panel .slip")`)
		p.sees("#panel [aria-live]:has(pre)", words)
	}
	ask := func(question string) {
		p.t.Helper()
		p.press("Site")
		p.value(`asked = "", sitePanel(document.getElementById("panel"))`)
		p.press(question)
	}
	ask("Which cable?")
	p.press("Compare")
	answer("X230-")
	ask("Lay the cable")
	p.value(`document.querySelector("#panel .run .main").focus()`)
	p.keys(kb.Enter)
	p.until(`document.querySelector("#panel .run b").textContent === "2"`)
	if got := p.value(`document.activeElement.textContent`); got != "Laid" {
		p.t.Errorf("after a run is laid the focus is on %q", got)
	}
	p.until(`view.shown.startsWith("cable-plan") && document.querySelector("#paper .laying path")`)
	if got := p.value(`Math.abs(document.querySelector("#paper .laying path").getTotalLength() * view.ratio - laying.run.to +
		laying.run.from) < 10`); got != "true" {
		p.t.Error("the run that stands out is not as long as the run to lay")
	}
	ask("I am at a mark")
	p.enter(`input[aria-label="in run"]`, "17")
	p.enter(`input[aria-label="after pegs"]`, "15")
	p.press("Plan the rest")
	answer("run 18")
	p.sees("#sheets .made", "bath-refit.svg")
	ask("What lies here?")
	p.enter(`input[aria-label="first wall and distance"]`, "A 690")
	p.enter(`input[aria-label="second wall and distance"]`, "B 350")
	p.press("What lies here")
	answer("NO VERDICT") // a plan shows no place to drill
	ask("The cable is faulty")
	p.enter(`input[aria-label="reading"]`, "100+-1")
	p.press("Find the stretch")
	answer("H1")
	ask("Readings")
	p.enter(`input[aria-label="ohms, core to core"]`, "220")
	p.drawn(func() { p.press("Save the reading") })
	p.sees("#panel", "Saved in the job")
	if got := p.value("job.text"); !strings.Contains(got, `evidence = "plan only"`) {
		p.t.Errorf("a reading claims to know where the cable lies:\n%s", got)
	}
	if got := p.value("job.text"); !strings.Contains(got, "[[as_laid.reading]]") || !strings.Contains(got,
		"ohms = 220") {
		p.t.Errorf("no reading in the job:\n%s", got)
	}
}
