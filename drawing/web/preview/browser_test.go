package preview

import (
	"testing"
	"time"

	"github.com/chromedp/chromedp"
	"github.com/chromedp/chromedp/kb"

	"oxturn/drawing/web/headless"
)

// cableSheet has a cable of 20 mm of paper in its middle.
const cableSheet = `<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 100 100"><g class="layer" id="layer-cable">
<g class="object"><title>heating cable H1</title><path d="M40 50L60 50" stroke="black"/></g></g></svg>`

const emptySheet = `<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 10 10"/>`

// twoSheets has that cable, of 200 mm, another sheet, a table and a warning.
func twoSheets() State {
	return State{Job: "bath.toml", Units: "mm",
		Sheets: []Sheet{{ID: "plan", Title: "Plan", Ratio: 10, SVG: []byte(cableSheet)},
			{ID: "details", Title: "Details", SVG: []byte(emptySheet)}},
		Cables: []Cable{{ID: "H1", Length: 200, Runs: []Run{{Number: 1, End: 100}, {Number: 2, End: 200}}}},
		Tables: []Table{{ID: "table:runs", Title: "Runs", Columns: []string{"run", "mm"}, Right: []bool{false, true},
			Rows: [][]string{{"1", "100"}}}},
		Problems: []Problem{{Severity: "warning", ID: "W104", Place: "bath.toml:3:1", Message: "cold",
			Line: "pitch = 30", Length: 5}}}
}

// TestInABrowser looks at a preview on a phone: the drawing has half of the window, the tabs obey
// their keys, what lies under the pointer is told, and a newer drawing leaves the view as it was.
func TestInABrowser(t *testing.T) {
	s, h := serve(t)
	s.Show(twoSheets())
	ctx := headless.For(t, 2*time.Minute)
	do := func(acts ...chromedp.Action[chromedp.Void]) {
		t.Helper()
		if err := chromedp.Do(ctx, acts...); err != nil {
			t.Fatal(err)
		}
	}
	is := func(expression, want string) {
		t.Helper()
		got := ""
		for end := time.Now().Add(20 * time.Second); time.Now().Before(end); time.Sleep(20 * time.Millisecond) {
			var err error
			if got, err = chromedp.Run(ctx, chromedp.Evaluate[string]("String("+expression+")")); err != nil {
				t.Fatalf("%s: %v", expression, err)
			}
			if got == want {
				return
			}
		}
		t.Errorf("%s is %q, not %q", expression, got, want)
	}
	do(chromedp.EmulateViewport(390, 844), chromedp.Navigate(h.URL))
	is(`$("paper").querySelector("path") !== null`, "true")
	is(`$("status").textContent`, "up to date, 1 warning")
	is(`$("paper").clientHeight >= innerHeight / 2 && document.documentElement.scrollWidth <= innerWidth`, "true")
	is(`$("problems").querySelector("mark").textContent`, "pitch")

	// the square sheet is 390 px wide in the window: a mm of paper has 3.9 px
	x, err := chromedp.Run(ctx, chromedp.Evaluate[float64](`view.svg.getScreenCTM().f +
		50 * view.svg.getScreenCTM().d`))
	if err != nil {
		t.Fatal(err)
	}
	do(chromedp.MouseEvent("mouseMoved", 3.9*57, x))
	is(`$("tip").hidden + " " + $("tip").textContent`, "false H1, run 2: 0.17 m of 0.20 m")
	do(chromedp.MouseEvent("mouseMoved", 3.9*57, x+3.9*10))
	is(`$("tip").hidden`, "true")

	do(chromedp.Click("#in"))
	is(`view.box().map(Math.round).join(" ")`, "15 15 70 70")
	newer := twoSheets()
	newer.Sheets[0].SVG = append([]byte("<?xml version=\"1.0\"?>"), newer.Sheets[0].SVG...)
	s.Drawing()
	is(`$("status").textContent`, "drawing …")
	s.Show(newer)
	is(`$("status").textContent`, "up to date, 1 warning")
	is(`view.box().map(Math.round).join(" ")`, "15 15 70 70")
	do(chromedp.Navigate(h.URL))
	is(`view.svg && view.box().map(Math.round).join(" ")`, "15 15 70 70")

	do(chromedp.Focus("#tab-plan"), chromedp.KeyEvent(kb.ArrowRight))
	is(`document.activeElement.textContent + " " + view.shown`, "Details details")
	is(`[...$("tabs").children].map((b) => b.getAttribute("aria-selected")).join(" ")`, "false true false")
	do(chromedp.KeyEvent(kb.End))
	is(`$("paper").querySelector("td.figure").textContent`, "100")
	do(chromedp.KeyEvent(kb.Home))
	is(`view.shown`, "plan")

}

// TestAccessible holds the preview against the rules of axe-core, with a drawing and a warning.
func TestAccessible(t *testing.T) {
	s, h := serve(t)
	s.Show(twoSheets())
	ctx := headless.For(t, 2*time.Minute)
	rules := headless.Rules(t, ctx)
	for _, scheme := range []string{"light", "dark"} {
		if err := chromedp.Do(ctx, headless.Preferring(scheme), chromedp.Navigate(h.URL),
			chromedp.WaitVisible("#paper svg path")); err != nil {
			t.Fatal(err)
		}
		if broken := rules(); broken != "" {
			t.Errorf("%s: %s", scheme, broken)
		}
	}
}
