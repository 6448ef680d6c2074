package main

import (
	"context"
	"strings"
	"testing"
	"time"

	"github.com/chromedp/cdproto/cdp"
	"github.com/chromedp/cdproto/input"
	"github.com/chromedp/chromedp"
	"github.com/chromedp/chromedp/kb"
	"github.com/google/go-cmp/cmp"

	"oxturn/drawing/web/headless"
)

// A reader looks at the page.
type reader struct {
	t   *testing.T
	ctx context.Context
}

func (r reader) run(actions ...chromedp.Action[chromedp.Void]) {
	r.t.Helper()
	if err := chromedp.Do(r.ctx, actions...); err != nil {
		r.t.Fatal(err)
	}
}

// until waits for a JavaScript expression to be true.
func (r reader) until(expression string) {
	r.t.Helper()
	for end := time.Now().Add(testPatience); time.Now().Before(end); time.Sleep(30 * time.Millisecond) {
		if ok, err := chromedp.Run(r.ctx, chromedp.Evaluate[bool]("Boolean("+expression+")")); err == nil && ok {
			return
		}
	}
	r.t.Fatalf("never true: %s\nthe page reads: %s", expression, r.value(`document.body.innerText`))
}

func (r reader) value(expression string) string {
	r.t.Helper()
	out, err := chromedp.Run(r.ctx, chromedp.Evaluate[string]("String("+expression+")"))
	if err != nil {
		r.t.Fatal(err)
	}
	return out
}

// TestPage reads the page as a person does while a job is edited, broken and
// mended.
func TestPage(t *testing.T) {
	w := startWatch(t)
	w.until("drawn", drawn)
	r := reader{t, headless.For(t, 90*time.Second, chromedp.WindowSize(1280, 900))}
	r.run(chromedp.Navigate(w.url))
	r.until(`document.querySelector("#paper svg g.layer") && document.querySelector("#status").textContent === "up ` +
		`to date"`)
	if got := r.value(`document.querySelector("#tabs").textContent`); !strings.HasPrefix(got, "Cable plan") ||
		!strings.HasSuffix(got, "Take-off figuresRuns") {
		t.Errorf("the tabs are %q", got)
	}
	r.layers()
	r.hover()
	r.keepsView(w)
	r.follows(w)
	r.tables()
	r.tabKeys()
	r.onAPhone()
}

// tabKeys goes from tab to tab as a list of tabs is gone through
// (https://www.w3.org/WAI/ARIA/apg/patterns/tabs/); a new drawing leaves the focus where it is.
func (r reader) tabKeys() {
	r.t.Helper()
	chosen := `document.querySelector("[role=tab][aria-selected=true]")`
	r.run(chromedp.Evaluate[chromedp.Void](chosen + `.focus()`))
	for _, c := range []struct{ key, at string }{{kb.Home, "0"}, {kb.ArrowLeft, "-1"}, {kb.ArrowRight, "0"},
		{kb.ArrowRight, "1"}, {kb.End, "-1"}, {kb.Home, "0"}} {
		r.run(chromedp.KeyEvent(c.key))
		if r.value(`[...document.querySelectorAll("[role=tab]")].at(`+c.at+`) === `+chosen+
			` && document.activeElement === `+chosen+` && `+chosen+`.tabIndex === 0`) != "true" {
			r.t.Errorf("%q does not lead to tab %s", c.key, c.at)
		}
	}
	if n := r.value(`document.querySelectorAll("[role=tab][tabindex='0']").length`); n != "1" {
		r.t.Errorf("%s tabs are stops", n)
	}
	r.run(chromedp.Evaluate[chromedp.Void](`refresh()`))
	if r.value(`document.activeElement === `+chosen) != "true" {
		r.t.Error("a new state takes the focus away")
	}
}

// onAPhone holds the page to half a window of drawing, also where all is twice as large, and zooms it
// by two fingers.
func (r reader) onAPhone() {
	r.t.Helper()
	for _, size := range [][2]int64{{390, 844}, {720, 450}, {195, 422}} {
		r.run(chromedp.EmulateViewport(size[0], size[1], chromedp.EmulateTouch))
		if got := r.value(`[document.querySelector("main").offsetHeight >= innerHeight / 2, ` +
			`document.documentElement.scrollWidth <= innerWidth].join()`); got != "true,true" {
			r.t.Errorf("in a window of %v: %s, the drawing is %s px high", size, got,
				r.value(`document.querySelector("main").offsetHeight`))
		}
	}
	r.run(chromedp.EmulateViewport(390, 844, chromedp.EmulateTouch))
	r.until(`document.querySelector("#paper svg")`)
	wide := `Number(document.querySelector("#paper svg").getAttribute("viewBox").split(" ")[2])`
	before := r.value(wide)
	r.touch(input.DispatchTouchEventTypeTouchStart, 150, 210)
	r.touch(input.DispatchTouchEventTypeTouchMove, 135, 225)
	r.touch(input.DispatchTouchEventTypeTouchMove, 120, 240)
	r.touch(input.DispatchTouchEventTypeTouchEnd)
	if r.value(wide+` < 0.6 * `+before) != "true" {
		r.t.Errorf("two fingers that go apart leave %s of %s mm", r.value(wide), before)
	}
}

// touch has fingers do one thing at these places across the window.
func (r reader) touch(what input.DispatchTouchEventType, across ...float64) {
	r.t.Helper()
	points := []*input.TouchPoint{}
	for i, x := range across {
		id := float64(i)
		points = append(points, &input.TouchPoint{X: x, Y: 400, ID: &id})
	}
	r.run(chromedp.Func(func(ctx context.Context, t *chromedp.Target) error {
		_, err := cdp.Call(ctx, t, input.DispatchTouchEvent, input.DispatchTouchEventParams{Type: what,
			TouchPoints: points})
		return err
	}))
}

// layers switches the walls off and on.
func (r reader) layers() {
	r.t.Helper()
	shown := `getComputedStyle(document.querySelector("#layer-walls")).display`
	r.run(chromedp.Evaluate[chromedp.Void](`document.querySelector("[data-layer=walls]").click()`))
	if got := r.value(shown); got != "none" {
		r.t.Errorf("walls switched off are shown: %s", got)
	}
	r.run(chromedp.Evaluate[chromedp.Void](`document.querySelector("[data-layer=walls]").click()`))
	if got := r.value(shown); got == "none" {
		r.t.Error("walls stay off")
	}
}

// hover points at the half of the cable and reads what lies there.
func (r reader) hover() {
	r.t.Helper()
	r.run(chromedp.Evaluate[chromedp.Void](`(() => {
		const path = [...document.querySelectorAll("g.object > title")].find((t) => t.textContent === "heating cable H1").parentNode.querySelector("path");
		const p = path.getPointAtLength(path.getTotalLength() / 2), m = document.querySelector("#paper svg").getScreenCTM();
		const at = new DOMPoint(p.x, p.y).matrixTransform(m);
		document.querySelector("#paper").dispatchEvent(new PointerEvent("pointermove", { clientX: at.x, clientY: at.y, bubbles: true }));
	})()`))
	got := r.value(`document.querySelector("#tip").hidden ? "" : document.querySelector("#tip").textContent`)
	if !strings.HasPrefix(got, "H1, run ") || !strings.Contains(got, ": 5.0") && !strings.Contains(got, ": 4.9") ||
		!strings.HasSuffix(got, " m of 10.00 m") {
		r.t.Errorf("at the half of a cable of 10 m the page says %q", got)
	}
}

// keepsView zooms, reloads, and finds the view as it was; a new drawing keeps
// it as well.
func (r reader) keepsView(w *watched) {
	r.t.Helper()
	view := `document.querySelector("#paper svg").getAttribute("viewBox")`
	whole := r.value(view)
	r.run(chromedp.Click("#in"), chromedp.Click("#in"))
	zoomed := r.value(view)
	if zoomed == whole {
		r.t.Error("zooming does nothing")
	}
	r.run(chromedp.Reload())
	r.until(`document.querySelector("#paper svg") && ` + view + ` === "` + zoomed + `"`)
	w.save("job = { title = \"Hill house\" }\n" + tinyJob)
	r.until(`document.querySelector("#paper svg").textContent.includes("Hill house")`)
	if got := r.value(view); got != zoomed {
		r.t.Errorf("a new drawing moves the view from %s to %s", zoomed, got)
	}
	r.run(chromedp.Click("#fit"))
}

// follows breaks the job and mends it.
func (r reader) follows(w *watched) {
	r.t.Helper()
	w.save(strings.Replace(tinyJob, "pitch", "<b>ptich", 1))
	r.until(`!document.querySelector("#stale").hidden && !document.querySelector("#problems").hidden`)
	for _, want := range []string{`document.querySelector("#status").className === "bad"`,
		`document.querySelector("#problems").textContent.includes("nook.toml:4:")`,
		`document.querySelector("#problems mark").textContent.length > 0`,
		`document.querySelector("#paper svg") !== null`,
		`document.querySelector("#problems b b") === null`, `document.title.startsWith("✗")`,
		`document.querySelector("#icon").href.endsWith("bad.svg")`} {
		if r.value(want) != "true" {
			r.t.Errorf("with a broken job not true: %s", want)
		}
	}
	w.save(tinyJob)
	r.until(`document.querySelector("#stale").hidden && document.querySelector("#problems").hidden && ` +
		`document.querySelector("#status").textContent === "up to date"`)
	r.until(`document.querySelector("#paper svg title").textContent.endsWith("Nook")`)
}

// tables opens the last tab and finds the runs, and the report before it.
func (r reader) tables() {
	r.t.Helper()
	r.run(chromedp.Evaluate[chromedp.Void](`document.querySelector("[data-tab='table:runs']").click()`))
	r.until(`document.querySelectorAll("#paper .table tbody tr").length > 3`)
	r.run(chromedp.Evaluate[chromedp.Void](`document.querySelector("[data-tab='table:report']").click()`))
	r.until(`document.querySelector("#paper .table").textContent.includes("120 V, 120 W, 1.00 A")`)
	if r.value(`document.querySelector("#pdf").hidden`) != "false" {
		r.t.Error("there is no PDF to download")
	}
}

// TestReportRows takes a report apart and loses no word of it.
func TestReportRows(t *testing.T) {
	got := reportRows("Bath\n  supply    120 V (default)\n  gap       2 pegs;\n            no more\n\nSensor: " +
		"none\n\nTo buy\n  a name of its own\n                  1 x roll\n")
	want := [][]string{{"Bath", "supply", "120 V (default)"}, {"", "gap", "2 pegs; no more"}, {"Sensor: none", "", ""},
		{"To buy", "a name of its own", "1 x roll"}}
	if d := cmp.Diff(want, got); d != "" {
		t.Error(d)
	}
}
