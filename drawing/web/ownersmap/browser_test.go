package ownersmap

import (
	"context"
	"encoding/json"
	"fmt"
	"math"
	"math/rand/v2"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"sync"
	"testing"
	"time"

	"github.com/chromedp/chromedp"
	"github.com/chromedp/chromedp/kb"

	"oxturn/drawing/web/headless"
	"oxturn/layout/job"
	"oxturn/layout/language"
	"oxturn/layout/plane"
	"oxturn/layout/probe"
	"oxturn/layout/skip"
	"oxturn/layout/spend"
	"oxturn/layout/tiling"
)

// started is the one browser of all tests, each of which has a tab of its own;
// nil where none is installed.
var (
	started  context.Context
	starting sync.Once
	stopping []func()
)

func TestMain(m *testing.M) {
	spend.Memory()
	code := m.Run()
	for _, stop := range stopping {
		stop()
	}
	os.Exit(code)
}

func start() {
	temporary, err := os.MkdirTemp("", "map")
	if err != nil {
		return
	}
	stopping = []func(){func() { os.RemoveAll(temporary) }}
	ctx, stop, err := headless.Start(temporary, chromedp.WindowSize(1000, 900))
	if err != nil {
		return
	}
	stopping = []func(){stop, stopping[0]}
	if _, err := chromedp.Run(ctx, chromedp.Navigate("about:blank")); err == nil {
		started = ctx
	}
}

// browser opens a page in a tab of a headless browser; it skips the test where
// there is none.
func browser(t *testing.T, page string) context.Context {
	t.Helper()
	starting.Do(start)
	if started == nil {
		skip.Test(t, skip.NoProgram, "no chromium could be started: the page is not tried in a browser")
	}
	file := filepath.Join(t.TempDir(), "map.html")
	if err := os.WriteFile(file, []byte(page), 0o644); err != nil {
		t.Fatal(err)
	}
	ctx, end := chromedp.NewContext(started)
	t.Cleanup(end)
	do(t, ctx, chromedp.Navigate("file://"+file), chromedp.WaitReady("body"))
	return ctx
}

// touch clicks on the middle of what a selector finds.
func touch(t *testing.T, ctx context.Context, selector string) {
	t.Helper()
	at := evaluate[[]float64](t, ctx, fmt.Sprintf(`(() => { const e = document.querySelector(%q); e.scrollIntoView({ `+
		`block: "center" }); const b = e.getBoundingClientRect(); return [b.x + b.width / 2, b.y + b.height / `+
		`2]; })()`,
		selector))
	do(t, ctx, chromedp.MouseClickXY(at[0], at[1]))
}

// do acts on the page; it gives up on an action after a while, not before the
// browser has started.
func do(t *testing.T, ctx context.Context, acts ...chromedp.Action[chromedp.Void]) {
	t.Helper()
	for i, act := range acts {
		if _, err := chromedp.Run(ctx, act); err != nil {
			t.Fatalf("action %d: %v", i+1, err)
		}
	}
}

func evaluate[T any](t *testing.T, ctx context.Context, script string) T {
	t.Helper()
	limited, stop := context.WithTimeout(ctx, 60*time.Second)
	defer stop()
	v, err := chromedp.Run(limited, chromedp.Evaluate[T](script))
	if err != nil {
		t.Fatalf("%.200s: %v", script, err)
	}
	return v
}

// What the page said of one spot.
type said struct {
	Verdict, Headline, Spot, First string
	Within                         float64
	Distances, Runnings            []float64
	Kinds                          []string
	Facts                          [][2]string
}

const askAll = `JSON.stringify(%s.map((p, i) => {
  const m = window.floorMap, room = m.rooms[0], a = m.ask(room, p);
  return { Verdict: a.verdict, Headline: m.headline(room, a), Spot: m.spotWords(room, a), First: m.reckoning(room, a.near[0]),
    Within: Number.isFinite(a.within) ? a.within : -1, Distances: a.near.map((n) => n.distance), Runnings: a.near.map((n) => n.running),
    Kinds: a.near.map((n) => n.thing.kind), Facts: i < %d ? m.facts(room, a, ["spot", m.spotWords(room, a)]) : [] };
}))`

// tilesTried is for how many of the spots every line is compared, with what
// lies under their tile, which takes its time.
const tilesTried = 60

// TestPageAgreesWithProbe asks page and package about a thousand random spots
// and holds them to a millimetre, the same verdict and the same words.
func TestPageAgreesWithProbe(t *testing.T) {
	for _, c := range []struct {
		units  plane.Units
		status job.Status
		n      int
		in     language.Language
	}{{plane.Millimetres, job.AsLaid, 1000, language.English}, {plane.Inches, job.AsLaid, 300, language.English},
		{plane.Inches, job.Proposal, 100, language.English}, {plane.Inches, job.AsLaid, 100, language.Spanish},
		{plane.Millimetres, job.AsLaid, 100, language.German}, {plane.Millimetres, job.Proposal, 60, language.French}} {
		p := samplePlan(c.units, c.status, "Bath")
		p.Job.Language = c.in
		m := probe.In(p, &p.Rooms[0], c.in)
		ctx := browser(t, write(t, p))
		random := rand.New(rand.NewPCG(26, uint64(c.n)))
		spots := make([][2]float64, c.n)
		for i := range spots {
			spots[i] = [2]float64{random.Float64()*2800 - 100, random.Float64()*2700 - 100}
		}
		points, _ := json.Marshal(spots)
		text := evaluate[string](t, ctx, fmt.Sprintf(askAll, points, tilesTried))
		var answers []said
		if err := json.Unmarshal([]byte(text), &answers); err != nil {
			t.Fatal(err)
		}
		counted := map[string]int{}
		for i, got := range answers {
			compare(t, m, plane.Pt(spots[i][0], spots[i][1]), got, i < tilesTried)
			counted[got.Verdict]++
		}
		if c.status == job.AsLaid && len(counted) < 4 {
			t.Errorf("only these verdicts were tried: %v", counted)
		}
	}
}

func compare(t *testing.T, m *probe.Map, p plane.Point, got said, tile bool) {
	t.Helper()
	a := m.At(p)
	within := a.Within
	if a.Verdict == probe.NoVerdict {
		within = 0
	}
	if got.Verdict != string(a.Verdict) || math.Abs(got.Within-within) > 1 {
		t.Errorf("%v: the page says %s within %.2f, probe %s within %.2f", p, got.Verdict, got.Within, a.Verdict,
			within)
	}
	for _, w := range [][2]string{{got.Headline, m.Headline(a)}, {got.Spot, m.Spot(a)},
		{got.First, m.Reckoning(a.Near[0])}} {
		if w[0] != w[1] {
			t.Errorf("%v: the page says\n%s\nprobe\n%s", p, w[0], w[1])
		}
	}
	for i, n := range a.Near {
		if got.Kinds[i] != string(n.Kind) || math.Abs(got.Distances[i]-n.Distance) > 1 ||
			math.Abs(got.Runnings[i]-n.Running) > 1 {
			t.Errorf("%v: the page has %s at %.2f, probe %s at %.2f", p, got.Kinds[i], got.Distances[i], n.Kind,
				n.Distance)
		}
	}
	if !tile {
		return
	}
	var under []probe.Piece
	if a.Tile != nil {
		u, err := m.Under(*a.Tile)
		if err != nil {
			t.Fatal(err)
		}
		under = u.Pieces
	}
	sameFacts(t, fmt.Sprint(p), got.Facts, m, m.Facts(a, probe.Fact{About: "spot", Words: m.Spot(a)}, under))
}

// sameFacts holds the page's lines to probe's, but for those that stand beside
// the map.
func sameFacts(t *testing.T, what string, got [][2]string, m *probe.Map, facts []probe.Fact) {
	t.Helper()
	var want [][2]string
	for _, f := range facts {
		if f.Words != m.Record() && f.Words != m.Counting() {
			want = append(want, [2]string{f.About, f.Words})
		}
	}
	if fmt.Sprint(got) != fmt.Sprint(want) {
		t.Errorf("%s: the page says\n%q\nprobe\n%q", what, got, want)
	}
}

// TestPageAgreesOnTiles asks page and package about every tile of a room.
func TestPageAgreesOnTiles(t *testing.T) {
	p := samplePlan(plane.Inches, job.AsLaid, "Bath")
	m := probe.Of(p, &p.Rooms[0])
	ctx := browser(t, write(t, p))
	for row, r := range m.Tiling.Rows {
		for column := range r.Count {
			place := tiling.Place{Row: row + 1, Column: column + 1}
			u, err := m.Under(place)
			if err != nil {
				t.Fatal(err)
			}
			text := evaluate[string](t, ctx, fmt.Sprintf(`(() => { const m = window.floorMap, room = m.rooms[0], a = m.askTile(room, { row: %d, column: %d });
  return JSON.stringify({ Headline: m.headline(room, a), Facts: m.facts(room, a, m.tileFact(room, a)) }); })()`, place.Row, place.Column))
			var got said
			if err := json.Unmarshal([]byte(text), &got); err != nil {
				t.Fatal(err)
			}
			if want := m.Headline(u.Answer); got.Headline != want {
				t.Errorf("tile %v: the page says %q, probe %q", place, got.Headline, want)
			}
			sameFacts(t, fmt.Sprint(place), got.Facts, m, m.Facts(u.Answer, m.TileFact(u), u.Pieces))
		}
	}
}

// TestPageAgreesOnWalls asks page and package about random holes in every wall.
func TestPageAgreesOnWalls(t *testing.T) {
	for i, status := range []job.Status{job.AsLaid, job.Proposal, job.AsLaid} {
		p := samplePlan(plane.Inches, status, "Bath")
		if i == 2 {
			p.Job.Language = language.French
		}
		m := probe.In(p, &p.Rooms[0], p.Job.Language)
		ctx := browser(t, write(t, p))
		random := rand.New(rand.NewPCG(8, 30))
		var spots []probe.WallSpot
		for i := range 300 {
			face := i % len(m.Faces)
			spots = append(spots, probe.WallSpot{Face: face, Along: random.Float64() * m.Faces[face].Line.Length(),
				Up: random.Float64() * 2000})
		}
		points, _ := json.Marshal(spots)
		text := evaluate[string](t, ctx, fmt.Sprintf(`JSON.stringify(%s.map((s) => { const m = window.floorMap, room = m.rooms[0], a = m.askWall(room, { face: s.Face, along: s.Along, up: s.Up });
  return { Headline: m.headline(room, a), Facts: m.facts(room, a, ["spot", m.spotWords(room, a)]) }; }))`, points))
		var answers []said
		if err := json.Unmarshal([]byte(text), &answers); err != nil {
			t.Fatal(err)
		}
		for i, got := range answers {
			a := m.OnWall(spots[i])
			if want := m.Headline(a); got.Headline != want {
				t.Errorf("%+v: the page says %q, probe %q", spots[i], got.Headline, want)
			}
			sameFacts(t, fmt.Sprint(spots[i]), got.Facts, m, m.Facts(a, probe.Fact{About: "spot", Words: m.Spot(a)},
				nil))
		}
	}
}

// TestWallsByHand: a hole typed in a wall and a touch on its line get the wall's
// answer with its picture; a spot on the floor takes the picture away.
func TestWallsByHand(t *testing.T) {
	p := samplePlan(plane.Millimetres, job.AsLaid, "Bath")
	m := probe.Of(p, &p.Rooms[0])
	ctx := browser(t, write(t, p))
	const verdict, shown = `document.querySelector(".verdict").textContent`,
		`!document.querySelector("svg.elevation").hasAttribute("hidden")`
	do(t, ctx, chromedp.SetValue("form.wall [name=wall]", "0"), chromedp.SendKeys("form.wall [name=along]", "1400"),
		chromedp.SendKeys("form.wall [name=up]", "900"), chromedp.Click("form.wall button"))
	want := m.Headline(m.OnWall(probe.WallSpot{Face: 0, Along: 1400, Up: 900}))
	if got := evaluate[string](t, ctx, verdict); got != want || !strings.HasPrefix(got, "TOO CLOSE: lead rise wall A") {
		t.Errorf("typed: %q, want %q", got, want)
	}
	if !evaluate[bool](t, ctx, shown+` && document.querySelectorAll("svg.elevation .rise, svg.elevation .box, `+
		`svg.elevation circle.hole").length === 3`) {
		t.Error("the wall, its lead rise, box and hole are not shown")
	}
	if evaluate[bool](t, ctx, `(window.floorMap.views[0].showTouched([800, 800], "mouse"), `+shown+`)`) {
		t.Error("the wall is shown with a spot on the floor")
	}
	for _, y := range []int{36, 20, -60} { // wall A passes 800 at 30.8
		said := evaluate[string](t, ctx,
			fmt.Sprintf(`(window.floorMap.views[0].showTouched([800, %d], "mouse"), `+
				`document.querySelector(".reasons").textContent)`, y))
		if !strings.Contains(said, "Spot: wall A, ") || !strings.Contains(said, "a touch gives none") ||
			!evaluate[bool](t, ctx, shown) {
			t.Errorf("touched at %d: %s", y, said)
		}
	}
	do(t, ctx, chromedp.SetValue("form.wall [name=along]", "9000"), chromedp.Click("form.wall button"))
	if evaluate[bool](t, ctx, shown) || evaluate[string](t, ctx,
		`document.querySelector("form.wall .error").textContent`) == "" {
		t.Error("a place beyond the wall is not refused")
	}
}

// TestPageReadsLengths holds the page's reading of a length to the job file's.
func TestPageReadsLengths(t *testing.T) {
	for _, u := range []plane.Units{plane.Millimetres, plane.Inches} {
		ctx := browser(t, write(t, samplePlan(u, job.AsLaid, "Bath")))
		for _, s := range []string{"2ft 3in", "2' 3\"", "2ft", "14in", "14 1/2in", "14-1/2in", "1/2in", "9' 4 1/2\"",
			"9ft 4-1/2in", "9'-4 1/2\"", "686 mm", "686mm", "1.2 m", "28.5cm", "12", "12.5", "0", "2ft 3", "12,5 cm",
			"12,5", "0,125 m", "2ft 3,5in"} {
			want, err := plane.ParseLength(s, u)
			if err != nil {
				t.Fatal(err)
			}
			got := evaluate[float64](t, ctx, fmt.Sprintf("window.floorMap.parseLength(window.floorMap.rooms[0], %q)",
				s))
			if math.Abs(got-want) > 1e-6 {
				t.Errorf("%s: %q is read as %g, want %g", u, s, got, want)
			}
		}
		for _, s := range []string{"", "two feet", "1..2", "-3 mm", "3 4 mm", "5 ells", "1e400", "1,250 mm", "1,2,3",
			"12,"} {
			if !evaluate[bool](t, ctx, fmt.Sprintf(
				"Number.isNaN(window.floorMap.parseLength(window.floorMap.rooms[0], %q))", s)) {
				t.Errorf("%q is read as a length", s)
			}
		}
	}
}

// TestPageByHand uses the page as a reader does: by touch, by keyboard, by the
// two forms, with names that try to be code.
func TestPageByHand(t *testing.T) {
	p := samplePlan(plane.Millimetres, job.AsLaid,
		`"><img src=x onerror="window.hit=1"></script><script>window.hit=1</script>' onload='window.hit=1`)
	ctx := browser(t, write(t, p))
	verdict := func(acts ...chromedp.Action[chromedp.Void]) string {
		t.Helper()
		do(t, ctx, acts...)
		return evaluate[string](t, ctx, `document.querySelector(".verdict").textContent`)
	}
	m := probe.Of(p, &p.Rooms[0])
	spot, _ := m.OffWalls("A", 500, "F", 205)
	form := verdict(chromedp.SetValue("form.measure [name=wall1]", "0"), chromedp.SetValue("form.measure [name=wall2]",
		"5"),
		chromedp.SendKeys("form.measure [name=off1]", "500"), chromedp.SendKeys("form.measure [name=off2]",
			"205 mm"), chromedp.Click("form.measure button"))
	if want := m.Headline(m.At(spot)); form != want {
		t.Errorf("measured: %q, want %q", form, want)
	}
	tile, _ := m.Under(tiling.Place{Row: 2, Column: 1})
	want := m.Headline(tile.Answer)
	if got := verdict(chromedp.SendKeys("form.tile [name=row]", "2"), chromedp.SendKeys("form.tile [name=column]", "1"),
		chromedp.Click("form.tile button")); got != want {
		t.Errorf("tile: %q, want %q", got, want)
	}
	do(t, ctx, chromedp.SetValue("form.tile [name=row]", "99"), chromedp.Click("form.tile button"))
	if got := evaluate[string](t, ctx, `document.querySelector("form.tile .error").textContent`); got == "" {
		t.Error("nothing is said of a tile that is not there")
	}
	touch(t, ctx, "svg.map")
	touched := verdict()
	at := evaluate[[]float64](t, ctx, `(() => { const b = document.querySelector("svg.map").viewBox.baseVal; return `+
		`[b.x + b.width / 2, -(b.y + b.height / 2)]; })()`)
	if want := m.Headline(m.At(plane.Pt(at[0], at[1]))); touched != want {
		t.Errorf("touched: %q, want %q at %v", touched, want, at)
	}
	const viewBox = `document.querySelector("svg.map").getAttribute("viewBox")`
	before := evaluate[string](t, ctx, viewBox)
	evaluate[bool](t, ctx, `(document.querySelector("svg.map").focus(), true)`)
	do(t, ctx, chromedp.KeyEvent("+"))
	if evaluate[string](t, ctx, viewBox) == before {
		t.Error("plus does not zoom")
	}
	do(t, ctx, chromedp.KeyEvent("0"))
	if evaluate[string](t, ctx, viewBox) != before {
		t.Error("0 does not show all again")
	}
	moved := verdict(chromedp.KeyEvent(kb.ArrowLeft), chromedp.KeyEvent(kb.ArrowDown))
	if want := m.Headline(m.At(plane.Pt(at[0]-10, at[1]-10))); moved != want {
		t.Errorf("moved by keys: %q, want %q", moved, want)
	}
	if evaluate[bool](t, ctx, `window.hit === 1 || document.querySelectorAll("script").length !== 3 || document.querySelector("img") !== null ||
		[...document.querySelectorAll("*")].some((e) => [...e.attributes].some((a) => a.name.startsWith("on")))`) {
		t.Error("a name of the job became code")
	}
}

// TestLettersOnAPhone: on a screen of 390 px the names of walls and ends stand in
// letters of 9 px at least, common practice for the smallest that is read; a
// tile's figures are there once they are that large too.
func TestLettersOnAPhone(t *testing.T) {
	ctx := browser(t, write(t, samplePlan(plane.Millimetres, job.AsLaid, "Bath")))
	do(t, ctx, chromedp.EmulateViewport(390, 844))
	const small = `(() => { const svg = document.querySelector("svg.map"), px = svg.getScreenCTM().a;
  return [...svg.querySelectorAll("text.tag, text.wall, text.number")].filter((e) => e.getAttribute("visibility") !== "hidden")
    .map((e) => [e.textContent, Number(e.getAttribute("font-size")) * px, e.classList[0]]).filter((e) => e[1] < (e[2] === "number" ? 6.5 : 9)); })()`
	evaluate[bool](t, ctx, `(window.dispatchEvent(new Event("resize")), true)`)
	if got := evaluate[[][]any](t, ctx, small); len(got) > 0 {
		t.Errorf("too small to read: %v", got)
	}
	const over = `(() => { const shown = [...document.querySelectorAll("svg.map text.tag")].filter((e) => e.getAttribute("visibility") !== "hidden").map((e) => e.getBBox());
  return shown.length === 0 || shown.some((a, i) => shown.slice(i + 1).some((b) => a.x < b.x + b.width && b.x < a.x + a.width && a.y + 9 < b.y + b.height - 9 && b.y + 9 < a.y + a.height - 9)); })()`
	if evaluate[bool](t, ctx, over) {
		t.Error("the tags of a cable's ends lie over one another, or are not there")
	}
	const shown = `[...document.querySelectorAll("svg.map text.number")].filter((e) => e.getAttribute("visibility") ` +
		`!== "hidden").length`
	few := evaluate[int](t, ctx, shown)
	for range 6 {
		do(t, ctx, chromedp.Click("[data-zoom=in]"))
	}
	if all := evaluate[int](t, ctx, shown); all == 0 || all < few {
		t.Errorf("%d figures are shown, %d once zoomed in", few, all)
	}
}

// TestCrowdedWalls: of a round room's many walls only those are lettered whose
// letters have room, the two that are measured from always; no figure is wider
// than its tile.
func TestCrowdedWalls(t *testing.T) {
	p := samplePlan(plane.Millimetres, job.AsLaid, "Bath")
	r := p.Rooms[0].Job
	r.Outline, r.Walls = plane.Circle(plane.Pt(1200, 1200), 1900, 48), nil
	for i := range r.Outline {
		r.Walls = append(r.Walls, job.Wall{Letter: fmt.Sprintf("W%d", i), Segment: r.Outline.Edge(i)})
	}
	r.Openings, r.Fixtures[0].Back = nil, plane.Segment{}
	p.Rooms[0].Floor, p.Rooms[0].Tiled = plane.FromRing(r.Outline), plane.FromRing(r.Outline)
	ctx := browser(t, write(t, p))
	do(t, ctx, chromedp.EmulateViewport(390, 844))
	evaluate[bool](t, ctx, `(window.dispatchEvent(new Event("resize")), true)`)
	const visible = `[...document.querySelectorAll("svg.map text.wall")].filter((e) => e.getAttribute("visibility") ` +
		`!== "hidden")`
	shown := evaluate[[]string](t, ctx, visible+`.map((e) => e.textContent)`)
	datums := 0
	for _, w := range shown {
		if w[len(w)-1] == '*' {
			datums++
		}
	}
	if len(shown) < 8 || len(shown) > 47 || datums != 2 {
		t.Errorf("%d of 48 walls are lettered, %d of those measured from: %v", len(shown), datums, shown)
	}
	const over = `(() => { const b = ` + visible + `.map((e) => e.getBBox());
  return b.filter((a, i) => b.slice(i + 1).some((c) => a.x + 4 < c.x + c.width && c.x + 4 < a.x + a.width && a.y + 0.2 * a.height < c.y + 0.8 * c.height && c.y + 0.2 * c.height < a.y + 0.8 * a.height)).length; })()`
	if n := evaluate[int](t, ctx, over); n > 0 {
		t.Errorf("%d letters lie over others", n)
	}
	const wide = `[...document.querySelectorAll("svg.map text.number")].map((e) => e.getBBox().width).reduce((a, b) ` +
		`=> Math.max(a, b), 0)`
	if w := evaluate[float64](t, ctx, wide); w == 0 || w > 300 {
		t.Errorf("a figure is %.0f mm wide in tiles of 300 mm", w)
	}
}

// TestPageCanBeRead holds the page to what screen readers and weak eyes need:
// every control is named, text stands out 4.5 to 1 (WCAG 2.2, 1.4.3), and
// nothing was refused by the page's own policy.
func TestPageCanBeRead(t *testing.T) {
	ctx := browser(t, write(t, samplePlan(plane.Inches, job.AsLaid, "Bath")))
	touch(t, ctx, "svg.map")
	unnamed := evaluate[[]string](t, ctx, `[...document.querySelectorAll("button, input, select, svg.map")].filter((e) =>
		!(e.getAttribute("aria-label") || e.textContent.trim() && e.tagName === "BUTTON" || e.labels && e.labels.length > 0)).map((e) => e.outerHTML.slice(0, 80))`)
	if len(unnamed) > 0 {
		t.Errorf("controls without a name: %v", unnamed)
	}
	const contrast = `(() => {
  const channel = (v) => { v /= 255; return v <= 0.04045 ? v / 12.92 : ((v + 0.055) / 1.055) ** 2.4; };
  const light = (c) => { const [r, g, b] = c.match(/[\d.]+/g).map(Number); return 0.2126 * channel(r) + 0.7152 * channel(g) + 0.0722 * channel(b); };
  const back = (e) => { for (; e; e = e.parentElement) { const c = getComputedStyle(e).backgroundColor; if (!c.startsWith("rgba(0, 0, 0, 0")) return c; } return "rgb(255, 255, 255)"; };
  const weak = [], answer = document.querySelector(".answer");
  for (const verdict of ["CABLE HERE", "TOO CLOSE", "NO CABLE RECORDED", "NO VERDICT"]) {
    answer.dataset.verdict = verdict;
    for (const e of document.querySelectorAll("h1, h2, h3, p, li, th, td, label, legend, button, .error")) {
      if (!e.textContent.trim()) continue;
      const a = light(getComputedStyle(e).color), b = light(back(e)), ratio = (Math.max(a, b) + 0.05) / (Math.min(a, b) + 0.05);
      if (ratio < 4.5) weak.push(verdict + " " + e.tagName + " " + ratio.toFixed(1));
    }
  }
  return weak;
})()`
	for _, scheme := range []string{"light", "dark"} {
		do(t, ctx, headless.Preferring(scheme))
		if weak := evaluate[[]string](t, ctx, contrast); len(weak) > 0 {
			t.Errorf("%s: too little contrast: %v", scheme, weak)
		}
		const grounds = `[getComputedStyle(document.body), getComputedStyle(document.querySelector("svg.map"))]` +
			`.map((s) => s.backgroundColor)`
		body := map[string]string{"light": "rgb(255, 255, 255)", "dark": "rgb(23, 25, 27)"}[scheme]
		if got := evaluate[[]string](t, ctx, grounds); !slices.Equal(got, []string{body, "rgb(255, 255, 255)"}) {
			t.Errorf("%s: page and map on %v", scheme, got)
		}
	}
	if styled := evaluate[string](t, ctx,
		`getComputedStyle(document.querySelector("svg .cable")).stroke`); styled != "rgb(128, 0, 0)" {
		t.Errorf("the page's own style is not used: the cable is %s", styled)
	}
}

// TestOnAPhone: on a screen of 390 by 844 px the answer is seen at once with the
// spot, whether touched or measured; a name without a space widens nothing; a
// finger scrolls the page until the map is zoomed in.
func TestOnAPhone(t *testing.T) {
	p := samplePlan(plane.Millimetres, job.AsLaid, strings.Repeat("Bathroom", 20))
	ctx := browser(t, write(t, p))
	do(t, ctx, chromedp.EmulateViewport(390, 844))
	if w := evaluate[int](t, ctx, `document.documentElement.scrollWidth`); w > 390 {
		t.Errorf("the page is %d px wide", w)
	}
	seen := func(what string) {
		t.Helper()
		if !evaluate[bool](t, ctx, `(() => { const v = document.querySelector(".verdict").getBoundingClientRect(), s = document.querySelector(".spot .a").getBoundingClientRect();
  return v.top >= 0 && v.top + 20 <= innerHeight && s.top >= 0 && s.top <= innerHeight && !document.querySelector(".spot").hasAttribute("hidden") && (s.top < v.top - 15 || s.top > document.querySelector(".answer").getBoundingClientRect().bottom); })()`) {
			t.Errorf("%s: spot and answer are not seen at once", what)
		}
	}
	const gesture = `getComputedStyle(document.querySelector("svg.map")).touchAction`
	if got := evaluate[string](t, ctx, gesture); got != "pan-x pan-y" {
		t.Errorf("a finger on the whole map does %s", got)
	}
	touch(t, ctx, "svg.map")
	seen("touched")
	evaluate[bool](t, ctx, `(window.floorMap.views[0].showTouched([900, 1500], "touch"), true)`)
	seen("by a finger")
	off := 22 / evaluate[float64](t, ctx, `document.querySelector("svg.map").getScreenCTM().a`)
	if got, want := evaluate[string](t, ctx, `document.querySelector(".reasons").textContent`), fmt.Sprintf(
		"a fingertip may be %.0f mm off", off); !strings.Contains(got, want) {
		t.Errorf("no %q in %q", want, got)
	}
	do(t, ctx, chromedp.SetValue("form.measure [name=off1]", "68,5 cm"), chromedp.SetValue("form.measure [name=off2]",
		"1.2 m"), chromedp.Click("form.measure button"))
	seen("measured")
	do(t, ctx, chromedp.Click("[data-zoom=in]"))
	if got := evaluate[string](t, ctx, gesture); got != "none" {
		t.Errorf("a finger on the map zoomed in does %s", got)
	}
}

// TestTurning: however the map is turned, letters stand upright, a touch asks about
// the spot that is under it, arrows go as they point, and the wall chosen is at the
// top, on a phone and on a desk.
func TestTurning(t *testing.T) {
	p := samplePlan(plane.Millimetres, job.AsLaid, "Bath")
	m := probe.Of(p, &p.Rooms[0])
	ctx := browser(t, write(t, p))
	const upright = `[...document.querySelectorAll("svg.map text.wall, svg.map text.tag, svg.map ` +
		`text.number")].filter((e) => { const m = e.getScreenCTM(); return !(m.a > 0 && Math.abs(m.b) < 1e-3 * m.a); ` +
		`}).length`
	const readable = `[...document.querySelectorAll("svg.map text.name")].filter((e) => { const m = ` +
		`e.getScreenCTM(); return !(m.a > -1e-3 * Math.abs(m.b) && (m.a > 1e-3 || m.b < 0)); }).length`
	const topWall = `[...document.querySelectorAll("svg.map text.wall")].reduce((a, b) => ` +
		`a.getBoundingClientRect().y < b.getBoundingClientRect().y ? a : b).textContent[0]`
	const clipped = `(() => { const v = document.querySelector("svg.map").getBoundingClientRect(), r = ` +
		`document.querySelector("svg.map .room").getBoundingClientRect(); return r.left < v.left || r.right > ` +
		`v.right || r.top < v.top || r.bottom > v.bottom; })()`
	for _, size := range [][2]int64{{390, 844}, {1366, 800}} {
		do(t, ctx, chromedp.EmulateViewport(size[0], size[1]))
		for wall, w := range m.Walls {
			evaluate[bool](t, ctx, fmt.Sprintf(`(() => { const s = document.querySelector("[name=top]"); s.value = `+
				`"%d"; s.dispatchEvent(new Event("change")); return true; })()`, wall))
			// E lies behind them
			if got := evaluate[string](t, ctx, topWall); got != w.Letter && !strings.Contains("CD", w.Letter) {
				t.Errorf("%v: wall %s is to be at the top, and %s is", size, w.Letter, got)
			}
			if n := evaluate[int](t, ctx, upright); n > 0 {
				t.Errorf("wall %s at the top: %d letters are not upright", w.Letter, n)
			}
			if n := evaluate[int](t, ctx, readable); n > 0 {
				t.Errorf("wall %s at the top: %d names are read from above or the left", w.Letter, n)
			}
			if evaluate[bool](t, ctx, clipped) {
				t.Errorf("wall %s at the top: the room is not seen whole", w.Letter)
			}
			spot := plane.Pt(900, 700)
			at := evaluate[[]float64](t, ctx,
				fmt.Sprintf(`(() => { const g = document.querySelector("g.turned"); `+
					`document.querySelector("svg.map").scrollIntoView({ block: "center" }); const p = new `+
					`DOMPoint(%g, %g).matrixTransform(g.getScreenCTM()); return [p.x, p.y]; })()`, spot.X, -spot.Y))
			do(t, ctx, chromedp.MouseClickXY(at[0], at[1]))
			const middle = `(() => { const b = document.querySelector(".spot .a").getBoundingClientRect(), c = ` +
				`document.querySelector(".spot .b").getBoundingClientRect(); return [(b.x + b.right + c.x + c.right) ` +
				`/ 4 + scrollX, (b.y + b.bottom + c.y + c.bottom) / 4 + scrollY]; })()`
			if got := evaluate[string](t, ctx, `document.querySelector(".reasons").textContent`); !strings.Contains(got,
				strings.Split(m.Spot(m.At(spot)), " mm")[0]) {
				t.Errorf("wall %s at the top: a touch asks about %s, want %s", w.Letter, got, m.Spot(m.At(spot)))
			}
			before := evaluate[[]float64](t, ctx, middle)
			evaluate[bool](t, ctx, `(document.querySelector("svg.map").focus({ preventScroll: true }), true)`)
			do(t, ctx, chromedp.KeyEvent(kb.ArrowUp))
			if after := evaluate[[]float64](t, ctx, middle); !(after[1] < before[1]-0.3) ||
				math.Abs(after[0]-before[0]) > 0.5 {
				t.Errorf("wall %s at the top: arrow up moves the spot from %v to %v", w.Letter, before, after)
			}
		}
	}
	evaluate[bool](t, ctx, `(window.floorMap.views[0].turnTo(0), true)`)
	const ways = `document.querySelector(".ways").textContent`
	if got := evaluate[string](t, ctx,
		ways); got != "; as the map lies now, rows go up and tiles in a row to the right" {
		t.Errorf("as drawn: %q", got)
	}
	evaluate[bool](t, ctx, `(document.querySelector("svg.map").focus(), true)`)
	do(t, ctx, chromedp.KeyEvent("r"))
	if got := evaluate[string](t, ctx, ways); got != "; as the map lies now, rows go to the right and tiles in a "+
		"row down" {
		t.Errorf("a quarter turned: %q", got)
	}
	evaluate[bool](t, ctx, `(document.querySelector("[data-turn]").click(), true)`)
	if got := evaluate[string](t, ctx, ways); got != "; as the map lies now, rows go down and tiles in a row to "+
		"the left" {
		t.Errorf("half turned: %q", got)
	}
}

// TestRefusedInputTakesTheAnswerAway: a verdict does not stand beside input
// that it is not about.
func TestRefusedInputTakesTheAnswerAway(t *testing.T) {
	ctx := browser(t, write(t, samplePlan(plane.Millimetres, job.AsLaid, "Bath")))
	const answered = `document.querySelector(".answer").dataset.verdict !== undefined`
	fill := func(form string, values ...string) {
		for i := 0; i < len(values); i += 2 {
			evaluate[string](t, ctx, fmt.Sprintf(`document.querySelector(%q).value = %q`, form+" [name="+values[i]+"]",
				values[i+1]))
		}
		do(t, ctx, chromedp.Click(form+" button"))
	}
	for _, bad := range [][2]string{{"1,250", "300"}, {"five", "300"}, {"500", ""}} {
		fill("form.measure", "wall1", "0", "wall2", "5", "off1", "500", "off2", "205,5")
		if !evaluate[bool](t, ctx, answered) {
			t.Fatal("a spot that can be read is not answered")
		}
		fill("form.measure", "off1", bad[0], "off2", bad[1])
		if evaluate[bool](t, ctx, answered) || evaluate[bool](t, ctx,
			`!document.querySelector(".spot").hasAttribute("hidden")`) {
			t.Errorf("%v: the last answer stays", bad)
		}
		if evaluate[string](t, ctx, `document.querySelector("form.measure .error").textContent`) == "" {
			t.Errorf("%v: not refused", bad)
		}
	}
}

// TestTouchIsAsTrueAsTheFinger: nothing within less than a fingertip's own
// error is no answer.
func TestTouchIsAsTrueAsTheFinger(t *testing.T) {
	p := samplePlan(plane.Millimetres, job.AsLaid, "Bath")
	m := probe.Of(p, &p.Rooms[0])
	ctx := browser(t, write(t, p))
	do(t, ctx, chromedp.EmulateViewport(390, 844))
	off := 22 / evaluate[float64](t, ctx, `document.querySelector("svg.map").getScreenCTM().a`)
	tried := map[bool]bool{}
	for x := 600.0; x < 2400; x += 40 {
		at := plane.Pt(x, 1700)
		a := m.At(at)
		if a.Verdict != probe.NothingRecorded {
			continue
		}
		evaluate[bool](t, ctx, fmt.Sprintf(`(window.floorMap.views[0].showTouched([%g, %g], "touch"), true)`, at.X,
			at.Y))
		got := evaluate[string](t, ctx, `document.querySelector(".answer").dataset.verdict`)
		if blurred := a.Within <= off; blurred != (got == "NO VERDICT") {
			t.Errorf("%v: nothing within %.0f, touch off by %.0f: %s", at, a.Within, off, got)
		}
		tried[a.Within <= off] = true
	}
	if len(tried) != 2 {
		t.Errorf("only %v were tried", tried)
	}
}
