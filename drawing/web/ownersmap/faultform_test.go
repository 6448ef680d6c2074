package ownersmap

import (
	"context"
	"encoding/base64"
	"fmt"
	"regexp"
	"strings"
	"testing"

	"github.com/chromedp/cdproto/cdp"
	cdppage "github.com/chromedp/cdproto/page"
	"github.com/chromedp/chromedp"
	"github.com/chromedp/chromedp/kb"

	"oxturn/drawing/web/headless"
	"oxturn/layout"
	"oxturn/layout/circuit"
	"oxturn/layout/job"
	"oxturn/layout/plane"
)

// faultyPlan is the sample with the figures of its cable, 9.3 m of 93 Ω; with two it has a
// single-conductor cable as well.
func faultyPlan(u plane.Units, cables int) *layout.Plan {
	p := samplePlan(u, job.AsLaid, "Bath")
	r := &p.Rooms[0]
	l := &r.Cables[0].Label
	l.Volts, l.Watts, l.Ohms, l.OhmsLow, l.OhmsHigh, l.Lead = 230, 569, 93, -0.05, 0.1, 3000
	r.Cables[0].Spacing = 90
	if cables > 1 {
		c := r.Cables[0]
		c.ID, c.Label.Ends = "H2", circuit.BothEnds
		r.Cables = append(r.Cables, c)
	}
	return p
}

// opened is a map with its fault form unfolded.
func opened(t *testing.T, p *layout.Plan) context.Context {
	t.Helper()
	ctx := browser(t, write(t, p))
	evaluate[bool](t, ctx, `(() => { for (const d of `+
		`document.querySelectorAll("details.fault, details.fault details")) d.open = true; return true; })()`)
	return ctx
}

// readShort types a short of so many ohms, without an error of its own, and asks.
func readShort(t *testing.T, ctx context.Context, ohms string) {
	t.Helper()
	evaluate[bool](t, ctx, `(() => { const f = document.querySelector("form.fault"), `+
		`s = f.querySelector("[value=short]"); if (!s.checked) s.click(); `+
		`f.querySelector("[data-key=v0] [name=value]").value = ""; return true; })()`)
	do(t, ctx, chromedp.SendKeys("form.fault [data-key=v0] [name=value]", ohms),
		chromedp.Click("form.fault [type=submit]"))
}

const (
	verdictSaid = `document.querySelector(".verdict").textContent`
	faultDrawn  = `document.querySelector("svg.map .stretch") !== null`
	faultAnswer = `document.querySelector(".answer").dataset.verdict === "FAULT"`
	faultError  = `document.querySelector("form.fault .error").textContent`
)

// TestFaultFormIsFoldedAway: an owner never meets it; without a cable's figures there is none.
func TestFaultFormIsFoldedAway(t *testing.T) {
	ctx := browser(t, write(t, faultyPlan(plane.Millimetres, 1)))
	if evaluate[bool](t, ctx, `(() => { const d = document.querySelector("details.fault"); `+
		`return d.open || d.hidden; })()`) {
		t.Error("the form is unfolded at first, or not there at all")
	}
	if !evaluate[bool](t, ctx, `document.querySelector("form.fault .which").hidden`) {
		t.Error("one cable is offered to choose from")
	}
}

// TestRefusedReadingTakesTheStretchAway: what cannot be used is said in plain words, and no
// verdict and no stretch stands beside it.
func TestRefusedReadingTakesTheStretchAway(t *testing.T) {
	ctx := opened(t, faultyPlan(plane.Millimetres, 1))
	for _, c := range [][2]string{{"1,250", "can be read in two ways"}, {"fifty", "is not a figure such as 19.0"},
		{"-3", "is not a figure"}, {" ", "write the figure that was read"}, {"700", "beyond the end of the cable"},
		{"19+-x", "is not an error such as"}} {
		readShort(t, ctx, "46,5")
		if !evaluate[bool](t, ctx, faultAnswer+" && "+faultDrawn) || evaluate[string](t, ctx, faultError) != "" {
			t.Fatalf("a reading that can be used is not answered: %s", evaluate[string](t, ctx, faultError))
		}
		if got := evaluate[string](t, ctx, verdictSaid); !strings.Contains(got, "likeliest at 4.65 m") {
			t.Errorf("half of the ohms are %s, not half of 9.3 m", got)
		}
		readShort(t, ctx, c[0])
		if evaluate[bool](t, ctx, faultAnswer+" || "+faultDrawn) {
			t.Errorf("%q: the last stretch stays", c[0])
		}
		if got := evaluate[string](t, ctx, faultError); !strings.Contains(got, c[1]) {
			t.Errorf("%q: refused with %q, want %q", c[0], got, c[1])
		}
	}
	readShort(t, ctx, "46,5")
	do(t, ctx, chromedp.SendKeys("form.fault [data-key=leadOhms] [name=value]", "0.2"))
	if evaluate[bool](t, ctx, faultAnswer+" || "+faultDrawn) {
		t.Error("the stretch stays while its readings are changed")
	}
	do(t, ctx, chromedp.Click("form.fault [type=submit]"))
	touch(t, ctx, "svg.map")
	if evaluate[bool](t, ctx, faultAnswer+" || "+faultDrawn) {
		t.Error("the stretch stays beside the answer about a spot")
	}
	for _, c := range [][3]string{{"warmer", "10", "coefficient too"}, {"meter", "60", "50 % at most"}, {"lead", "far",
		"is not a figure"}, {"coreShare", "120", "between 0 and 100 %"}} {
		field := "form.fault [data-key=" + c[0] + "] [name=value]"
		do(t, ctx, chromedp.SendKeys(field, c[1]), chromedp.Click("form.fault [type=submit]"))
		if got := evaluate[string](t, ctx, faultError); !strings.Contains(got, c[2]) {
			t.Errorf("%s %s: refused with %q, want %q", c[0], c[1], got, c[2])
		}
		evaluate[bool](t, ctx, fmt.Sprintf(`(document.querySelector(%q).value = "", true)`, field))
	}
}

// TestReadingsThatContradict: two methods that cannot both be true of one fault are refused, and
// met again once one is taken away.
func TestReadingsThatContradict(t *testing.T) {
	ctx := opened(t, faultyPlan(plane.Inches, 1))
	readShort(t, ctx, "46.5")
	do(t, ctx, chromedp.Click("form.fault [data-more]"))
	evaluate[bool](t, ctx, `(document.querySelectorAll("form.fault [value=murray]")[1].click(), true)`)
	do(t, ctx, chromedp.SendKeys("form.fault .reading:nth-child(2) [data-key=v0] [name=value]", "1000"),
		chromedp.SendKeys("form.fault .reading:nth-child(2) [data-key=v1] [name=value]", "100"),
		chromedp.Click("form.fault [type=submit]"))
	if got := evaluate[string](t, ctx, faultError); !strings.Contains(got, "both cannot be true of one fault") ||
		evaluate[bool](t, ctx, faultDrawn) {
		t.Errorf("readings that contradict: %q", got)
	}
	do(t, ctx, chromedp.Click("form.fault .reading:nth-child(2) [data-less]"),
		chromedp.Click("form.fault [type=submit]"))
	if !evaluate[bool](t, ctx, faultAnswer+" && "+faultDrawn) {
		t.Error("one of them alone is not answered")
	}
}

// TestFaultFormSuitsTheCable: what is read is named by the kind of cable chosen, and a short of
// cores is not offered for one that has no second core.
func TestFaultFormSuitsTheCable(t *testing.T) {
	ctx := opened(t, faultyPlan(plane.Millimetres, 2))
	const labels = `(document.querySelector("form.fault [value=earth]").click(), ` +
		`document.querySelector("form.fault .reading .figures").innerText)`
	if got := evaluate[string](t, ctx, labels); !strings.Contains(got, "AB: core to core") {
		t.Errorf("of a twin is asked %q", got)
	}
	do(t, ctx, chromedp.SendKeys("form.fault [data-key=v1] [name=value]", "12"))
	evaluate[bool](t, ctx, `(() => { const s = document.querySelector("form.fault [name=cable]"); s.value = "1"; `+
		`s.dispatchEvent(new Event("change")); return true; })()`)
	if got := evaluate[string](t, ctx, labels); !strings.Contains(got, "B: END lead to braid") {
		t.Errorf("of a single-conductor cable is asked %q", got)
	}
	if got := evaluate[string](t, ctx,
		`document.querySelector("form.fault [data-key=v1] [name=value]").value`); got != "12" {
		t.Errorf("what was typed becomes %q with another cable", got)
	}
	if !evaluate[bool](t, ctx, `document.querySelector("form.fault [value=short]").closest("label").hidden`) {
		t.Error("a short of its cores is offered for a cable with one conductor")
	}
}

// TestFaultByKeysAlone finds a fault without a pointer: unfold, choose, type, ask.
func TestFaultByKeysAlone(t *testing.T) {
	ctx := browser(t, write(t, faultyPlan(plane.Millimetres, 1)))
	evaluate[bool](t, ctx, `(document.querySelector("details.fault > summary").focus(), true)`)
	const focused = `(document.activeElement.name + " " + document.activeElement.value)`
	do(t, ctx, chromedp.KeyEvent(kb.Enter), chromedp.KeyEvent(kb.Tab))
	if got := evaluate[string](t, ctx, focused); !strings.HasPrefix(got, "way-0-0 ") {
		t.Fatalf("behind the summary is %q, not what was read", got)
	}
	do(t, ctx, chromedp.KeyEvent(" "), chromedp.KeyEvent(kb.ArrowRight), chromedp.KeyEvent(kb.ArrowLeft),
		chromedp.KeyEvent(kb.Tab), chromedp.KeyEvent("46,5"), chromedp.KeyEvent(kb.Tab), chromedp.KeyEvent("0,5"),
		chromedp.KeyEvent(kb.Enter))
	if got := evaluate[string](t, ctx, verdictSaid); !strings.HasPrefix(got, "FAULT: Bath, cable H1: between ") {
		t.Errorf("by keys alone: %q", got)
	}
}

// bothSeen is whether a stretch and what is said of it are on the screen, neither over the other.
const bothSeen = `(() => { const box = (q) => document.querySelector(q).getBoundingClientRect();
	const v = box(".verdict"), s = box(".stretch .bar"), a = box(".answer"), on = (b) => b.top >= 0 && b.bottom <= innerHeight;
	return on(v) && on(s) && (s.bottom < a.top || s.top > a.bottom); })()`

// TestFaultFormOnAPhone: on 390 px nothing goes beyond the screen whatever was read, what is
// touched is 44 px high (WCAG 2.2, 2.5.5), figures ask for the keys of figures, and the stretch is
// seen with its answer.
func TestFaultFormOnAPhone(t *testing.T) {
	for _, u := range []plane.Units{plane.Millimetres, plane.Inches} {
		ctx := opened(t, faultyPlan(u, 2))
		do(t, ctx, chromedp.EmulateViewport(390, 844))
		for way := range figuresOf {
			evaluate[bool](t, ctx, fmt.Sprintf(`(document.querySelector("form.fault [value=%s]").click(), true)`, way))
			if w := evaluate[int](t, ctx, `document.documentElement.scrollWidth`); w > 390 {
				t.Errorf("%s: the page is %d px wide", way, w)
			}
			low := evaluate[[]string](t, ctx, `[...document.querySelectorAll("form.fault :is(button, select, `+
				`label.way, .figure input), details.fault summary")].filter((e) => { const h = `+
				`e.getBoundingClientRect().height; return h > 0 && h < 43.5; }).map((e) => e.outerHTML.slice(0, 90))`)
			if len(low) > 0 {
				t.Errorf("%s: low to touch: %v", way, low)
			}
			if n := evaluate[int](t, ctx,
				`document.querySelectorAll("form.fault .figure input:not([inputmode=decimal])").length`); n > 0 {
				t.Errorf("%s: %d figures ask for letters", way, n)
			}
		}
		evaluate[bool](t, ctx, `(document.querySelector("form.fault [value=short]").click(), true)`)
		readShort(t, ctx, "46.5")
		if !evaluate[bool](t, ctx, bothSeen) {
			t.Error("stretch and answer are not seen at once")
		}
		if w := evaluate[int](t, ctx, `document.documentElement.scrollWidth`); w > 390 {
			t.Errorf("with its answer the page is %d px wide", w)
		}
	}
}

// TestFaultFormCanBeRead: every control is named, and text stands out 4.5 to 1 in light and dark
// (WCAG 2.2, 1.4.3), with every way of reading chosen once.
func TestFaultFormCanBeRead(t *testing.T) {
	ctx := opened(t, faultyPlan(plane.Millimetres, 2))
	for way := range figuresOf {
		evaluate[bool](t, ctx, fmt.Sprintf(`(document.querySelector("form.fault [value=%s]").click(), true)`, way))
		unnamed := evaluate[[]string](t, ctx, `[...document.querySelectorAll("form.fault :is(button, input, select)")].filter((e) =>
			!(e.getAttribute("aria-label") || e.textContent.trim() && e.tagName === "BUTTON" || e.labels && e.labels.length > 0 && e.labels[0].textContent.trim())).map((e) => e.outerHTML.slice(0, 80))`)
		if len(unnamed) > 0 {
			t.Errorf("%s: controls without a name: %v", way, unnamed)
		}
	}
	evaluate[bool](t, ctx, `(document.querySelector("form.fault [value=short]").click(), true)`)
	readShort(t, ctx, "700")
	refused := evaluate[string](t, ctx, faultError)
	readShort(t, ctx, "46.5")
	evaluate[bool](t, ctx, fmt.Sprintf(`(document.querySelector("form.fault .error").textContent = %q, true)`, refused))
	for _, scheme := range []string{"light", "dark"} {
		do(t, ctx, headless.Preferring(scheme))
		weak := evaluate[[]string](t, ctx, `(() => {
  const channel = (v) => { v /= 255; return v <= 0.04045 ? v / 12.92 : ((v + 0.055) / 1.055) ** 2.4; };
  const light = (c) => { const [r, g, b] = c.match(/[\d.]+/g).map(Number); return 0.2126 * channel(r) + 0.7152 * channel(g) + 0.0722 * channel(b); };
  const back = (e) => { for (; e; e = e.parentElement) { const c = getComputedStyle(e).backgroundColor; if (!c.startsWith("rgba(0, 0, 0, 0")) return c; } return "rgb(255, 255, 255)"; };
  return [...document.querySelectorAll("details.fault :is(summary, p, label, legend, span, button, select, input, .error), .answer :is(.verdict, p, li, th, td, summary)")].flatMap((e) => {
    const a = light(getComputedStyle(e).color), b = light(back(e)), ratio = (Math.max(a, b) + 0.05) / (Math.min(a, b) + 0.05);
    return ratio < 4.5 ? [e.outerHTML.slice(0, 60) + " " + ratio.toFixed(1)] : [];
  });
})()`)
		if len(weak) > 0 {
			t.Errorf("%s: too little contrast: %v", scheme, weak)
		}
	}
}

var printedPage = regexp.MustCompile(`/Type\s*/Page\b`)

// printed is how many pages of A4 a page takes.
func printed(t *testing.T, ctx context.Context) int {
	t.Helper()
	pages := 0
	do(t, ctx, chromedp.Func(func(ctx context.Context, t *chromedp.Target) error {
		const a4Wide, a4High = 8.27, 11.69
		r, err := cdp.Call(ctx, t, cdppage.PrintToPDF,
			cdppage.PrintToPDFParams{PaperWidth: a4Wide, PaperHeight: a4High})
		if err != nil {
			return err
		}
		data := []byte(r.Data)
		if b, err := base64.StdEncoding.DecodeString(string(r.Data)); err == nil {
			data = b
		}
		pages = len(printedPage.FindAll(data, -1))
		return nil
	}))
	return pages
}

// TestMapPrintsOnTwoPages: a room's map does, and so it does with a stretch and all that is said of it.
func TestMapPrintsOnTwoPages(t *testing.T) {
	ctx := opened(t, faultyPlan(plane.Inches, 1))
	if n := printed(t, ctx); n < 1 || n > 2 {
		t.Errorf("the map takes %d pages", n)
	}
	readShort(t, ctx, "46.5")
	if n := printed(t, ctx); n < 1 || n > 2 {
		t.Errorf("with a fault it takes %d pages", n)
	}
}

// TestMapIsSmall: without photos the page stays under a megabyte by far.
func TestMapIsSmall(t *testing.T) {
	const most = 250_000
	if n := len(write(t, faultyPlan(plane.Inches, 2))); n > most {
		t.Errorf("the page has %d bytes", n)
	}
}
