package preview

import (
	"testing"
	"time"

	"github.com/chromedp/chromedp"

	"oxturn/drawing/web/headless"
)

// cableSheet has a cable of 20 mm of paper in its middle.
const cableSheet = `<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 100 100"><g class="layer" id="layer-cable">
<g class="object"><title>heating cable H1</title><path d="M40 50H60" stroke="black"/></g></g></svg>`

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
