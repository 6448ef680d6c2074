package main

import (
	"bytes"
	"encoding/base64"
	"encoding/json"
	"flag"
	"fmt"
	"image"
	"image/jpeg"
	"math/rand/v2"
	"os"
	"os/exec"
	"path/filepath"
	"strings"
	"testing"
	"time"

	"github.com/chromedp/chromedp"
	"github.com/chromedp/chromedp/kb"

	"oxturn/drawing/web/headless"
)

var pictures = flag.String("pictures", "", "a folder for pictures of the page with photos, to be looked at")

// A site is a folder with the example that has photos, and the page and the command to try on it.
type site struct{ page, command, dir string }

// photoSite is the hall without its photos in the job: they lie beside it.
func photoSite(t *testing.T) site {
	t.Helper()
	made := builtFor(t, "it builds the page and takes photos into it")
	s := site{made.page, made.command, t.TempDir()}
	for _, name := range []string{"hall-1.jpg", "hall-2.jpg", "hall.layout.json", "hall.toml"} {
		data, err := os.ReadFile(filepath.Join("testdata/photos", name))
		if err != nil {
			t.Fatal(err)
		}
		if name == "hall.toml" {
			data, _, _ = bytes.Cut(data, []byte("\n[[as_laid.photo]]"))
		}
		s.write(t, name, data)
	}
	return s
}

func (s site) at(name string) string { return filepath.Join(s.dir, name) }

func (s site) write(t *testing.T, name string, data []byte) {
	t.Helper()
	if err := os.WriteFile(s.at(name), data, 0o666); err != nil {
		t.Fatal(err)
	}
}

func (s site) read(t *testing.T, name string) string {
	t.Helper()
	data, err := os.ReadFile(s.at(name))
	if err != nil {
		t.Fatal(err)
	}
	return string(data)
}

// before has a script run in every page that is opened from then on.
func (p person) before(script string) {
	p.t.Helper()
	if err := chromedp.Do(p.ctx, runsBefore(script)); err != nil {
		p.t.Fatal(err)
	}
}

func (p person) goTo(file string) {
	p.t.Helper()
	if err := chromedp.Do(p.ctx, chromedp.Navigate("file://"+file)); err != nil {
		p.t.Fatal(err)
	}
	p.until(`document.body.dataset.ready === "yes"`)
	p.value("window.confirm = () => true")
}

// choose gives files to an input.
func (p person) choose(input string, files ...string) {
	p.t.Helper()
	p.until(`document.querySelector("` + input + `")`)
	if err := chromedp.Do(p.ctx, chromedp.SetUploadFiles(chromedp.CSS(input), files)); err != nil {
		p.t.Fatalf("%s: %v", input, err)
	}
}

// open opens the hall, and where its photos are taken.
func (p person) open(s site, files ...string) {
	p.t.Helper()
	p.press("Files")
	p.drawn(func() { p.choose("#open", append(files, s.at("hall.layout.json"))...) })
	p.asLaid()
}

func (p person) asLaid() {
	p.t.Helper()
	p.press("Site")
	p.value(`asked = "", sitePanel(document.getElementById("panel"))`)
	p.press("As laid")
	p.until(`document.getElementById("photo-pick")`)
}

// where returns where in the window a place of the photo is.
func (p person) where(x, y float64) (wx, wy float64) {
	p.t.Helper()
	fmt.Sscan(p.value(fmt.Sprintf(`((q) => q.x + " " + q.y)(new DOMPoint(%g, %g).matrixTransform(`+
		`view.svg.getScreenCTM()))`, x, y)), &wx, &wy)
	return wx, wy
}

// tap taps a place of the photo with the mouse's button for a finger.
func (p person) tap(x, y float64) {
	p.t.Helper()
	wx, wy := p.where(x, y)
	if err := chromedp.Do(p.ctx, chromedp.MouseClickXY(wx, wy)); err != nil {
		p.t.Fatal(err)
	}
	p.until(`document.getElementById("spot") || document.getElementById("run-form")`)
}

// spot says where the point at hand is: by a key and its value as the list has them.
func (p person) spot(key, value string) {
	p.t.Helper()
	p.until(`document.getElementById("spot")`)
	p.value(fmt.Sprintf(`((s) => { s.value = String(pointing.room.spots.findIndex((q) => `+
		`q.key === %q && q.value === %q)); s.dispatchEvent(new Event("change")); })(document.getElementById("spot"))`,
		key, value))
	p.value(`document.getElementById("spot-set").click()`)
	p.until(`!document.getElementById("spot")`)
}

// taped says the same by two distances.
func (p person) taped(wall1, off1, wall2, off2 string) {
	p.t.Helper()
	p.enter("#spot", "taped")
	p.enter("#off-wall-0", wall1)
	p.enter("#off-0", off1)
	p.enter("#off-wall-1", wall2)
	p.enter("#off-1", off2)
	p.value(`document.getElementById("spot-set").click()`)
	p.until(`!document.getElementById("spot")`)
}

// points waits until the photo that is shown has so many in the job.
func (p person) points(n int) {
	p.t.Helper()
	p.until(fmt.Sprintf(`(inJob(pointing.file)?.points.length || 0) === %d && inJob(pointing.file).words.length`, n))
}

// The corners of the hall in its first photo (testdata/photos/hall.toml).
var hallCorners = map[string][2]float64{"A": {720, 808}, "B": {535, 239}, "C": {205, 246}, "D": {44, 823}}

// corners taps the hall's corners.
func (p person) corners() {
	p.t.Helper()
	for _, letter := range []string{"A", "B", "C", "D"} {
		c := hallCorners[letter]
		p.tap(c[0], c[1])
		p.spot("corner", `"`+letter+`"`)
	}
	p.points(4)
}

// ran is what a command line on the page's job made.
func (p person) ran(words ...string) map[string][]byte {
	p.t.Helper()
	args, _ := json.Marshal(words)
	p.value(`void (window.ran = null, run(...` + string(args) + `).then((r) => { window.ran = r; }))`)
	p.until("window.ran")
	var coded map[string]string
	if err := json.Unmarshal([]byte(p.value(`JSON.stringify(Object.fromEntries(ran.made.map((f) => [f.name, `+
		`btoa([...f.bytes].map((b) => String.fromCharCode(b)).join(""))])))`)), &coded); err != nil {
		p.t.Fatal(err)
	}
	made := map[string][]byte{}
	for name, code := range coded {
		made[name], _ = base64.StdEncoding.DecodeString(code)
	}
	if len(made) == 0 {
		p.t.Fatalf("%v made nothing: %s", words, p.value("ran.err"))
	}
	return made
}

// asTheCommand holds what the page makes of its job to what the command does of the same file
// with the photos as they came.
func (p person) asTheCommand(s site, more ...string) map[string][]byte {
	p.t.Helper()
	made := p.ran(append([]string{"draw", "hall.toml", "-o", "OUT"}, more...)...)
	s.write(p.t, "hall.toml", []byte(p.value("job.text")))
	to := filepath.Join(p.t.TempDir(), "out")
	args := append([]string{"draw", s.at("hall.toml"), "-o", to}, more...)
	out, err := exec.Command(s.command, args...).CombinedOutput()
	if err != nil {
		p.t.Fatalf("%v\n%s", err, out)
	}
	entries, err := os.ReadDir(to)
	if err != nil || len(entries) != len(made) {
		p.t.Fatalf("the page made %d files, the command %d (%v)", len(made), len(entries), err)
	}
	for _, e := range entries {
		want, err := os.ReadFile(filepath.Join(to, e.Name()))
		if got := made[e.Name()]; err != nil || string(got) != string(want) {
			p.t.Errorf("%s differs from the command's: %d and %d bytes (%v)", e.Name(), len(got), len(want), err)
		}
	}
	return made
}

// pictured takes pictures of the page as it stands, on each screen.
func (p person) pictured(name string) {
	p.t.Helper()
	if *pictures != "" {
		p.onScreens(screens, func(screen string) { p.picture(name + "-" + screen) })
	}
}

// A screen is what a page is seen on.
type screen struct {
	wide, high int64
	scheme     string
}

// screens are a phone's, a tablet's and a laptop's, light and dark; fewScreens have each size
// and both schemes.
var (
	screens = []screen{{390, 844, "light"}, {390, 844, "dark"}, {768, 1024, "light"}, {768, 1024, "dark"},
		{1440, 900, "light"}, {1440, 900, "dark"}}
	fewScreens = []screen{screens[0], screens[3], screens[4]}
)

// onScreens does something on each of them, and goes back to the phone's.
func (p person) onScreens(on []screen, do func(name string)) {
	p.t.Helper()
	for _, s := range on {
		set := chromedp.EmulateViewport(s.wide, s.high)
		if err := chromedp.Do(p.ctx, set, headless.Preferring(s.scheme)); err != nil {
			p.t.Fatal(err)
		}
		p.value(`void (window.laidOut = false, requestAnimationFrame(() => ` +
			`requestAnimationFrame(() => { laidOut = true; })))`)
		p.until("laidOut")
		do(fmt.Sprintf("%d-%s", s.wide, s.scheme))
	}
	if err := chromedp.Do(p.ctx, chromedp.EmulateViewport(390, 844)); err != nil {
		p.t.Fatal(err)
	}
}

// picture takes one into the folder that was asked for; without one it takes none.
func (p person) picture(name string) {
	p.t.Helper()
	if *pictures == "" {
		return
	}
	data, err := chromedp.Run(p.ctx, chromedp.CaptureScreenshot())
	if err == nil {
		err = os.WriteFile(filepath.Join(*pictures, name+".png"), data, 0o666)
	}
	if err != nil {
		p.t.Fatal(err)
	}
}

// everyCase asks for all that a person may do with photos, and for the rules of
// access on every screen: some four minutes more. Without it the first usualCases are tried, and
// fewScreens.
var everyCase = flag.Bool("page.all", false, "try all that is done with photos on the page, and all screens")

const usualCases = 3

// TestPhotosOnThePage takes photos into a job on a phone, taps what is known in them, and holds
// all that comes of it to what the command makes of the same files.
func TestPhotosOnThePage(t *testing.T) {
	s, tried := photoSite(t), 0
	for _, c := range []struct {
		name string
		live func(person, site)
		at   func(*testing.T, string) person
	}{{"walk", person.walk, atTheOpenPage}, {"refused", person.refused, atTheOpenPage},
		{"hostile", person.hostileText, atTheOpenPage}, {"keys", person.keysAlone, atTheOpenPage},
		{"large", person.large, atTheOpenPage}, {"names", person.sameNames, atTheOpenPage},
		{"fingers", person.fingers, atTheOpenPage}, {"many", person.manyFixtures, atThePage},
		{"tabs", person.twoTabs, atThePage}, {"full", person.full, atThePage}, {"unkept", person.unkept, atThePage}} {
		if tried == usualCases && !*everyCase {
			break
		}
		tried++
		t.Run(c.name, func(t *testing.T) {
			own := site{s.page, s.command, t.TempDir()}
			if err := os.CopyFS(own.dir, os.DirFS(s.dir)); err != nil {
				t.Fatal(err)
			}
			p := c.at(t, s.page)
			p.value("window.confirm = () => true")
			c.live(p, own)
		})
	}
}

func (p person) walk(s site) {
	p.open(s, s.at("hall.toml"))
	p.pictured("1-empty")
	p.choose("#photo-pick", s.at("hall-1.jpg"), s.at("hall-2.jpg"))
	p.until(`document.querySelectorAll("[data-photo]").length === 2`)
	p.sees(`[data-photo='hall-1.jpg']`, "0 of at least 4 points")
	p.pictured("2-picked")
	before := p.value("job.text")
	p.value(`document.querySelector("[data-photo='hall-1.jpg']").click()`)
	p.until("view.photo && view.svg")
	p.tap(720, 808)
	p.pictured("3-tapped")
	p.spot("corner", `"A"`)
	if p.value("job.text") != before {
		p.t.Error("a photo whose points do not settle it yet has changed the job")
	}
	p.sees("#photo-words", "1 of at least 4 points")
	p.press("← Back")
	p.asLaid()
	p.sees(`[data-photo='hall-1.jpg']`, "1 of at least 4 points")
	p.value(`document.querySelector("[data-photo='hall-1.jpg']").click()`)
	p.until("view.photo && view.svg")
	for _, letter := range []string{"B", "C", "D"} {
		p.tap(hallCorners[letter][0], hallCorners[letter][1])
		p.spot("corner", `"`+letter+`"`)
	}
	p.points(4)
	for _, want := range []string{"\n[[as_laid.photo]]\nfile = \"hall-1.jpg\"\ndate = 2026-12-02\nsha256 = ",
		"\n[[as_laid.photo.point]]\nimage = [", "as_planned = true                  # but for"} {
		if !strings.Contains(p.value("job.text"), want) {
			p.t.Errorf("the job lacks %q:\n%s", want, p.value("job.text"))
		}
	}
	p.sees("#photo-words", "none is left to check them by")
	p.asTheCommand(s)

	// two crosses more, one of them misread: it is named, then moved where it belongs
	p.tap(576, 417)
	p.taped("D", "1245", "A", "60")
	p.points(5)
	p.tap(171+40, 426)
	p.taped("C", "60", "B", "1155")
	p.until(`inJob(pointing.file)?.problems.length`)
	p.sees("#photo-words", "Point 6 (C 1155 mm, 60 mm) is ")
	p.sees("[data-point='5']", "the worst")
	p.pictured("4-misread")
	p.drag(171+40, 426, 171, 426)
	p.points(6)
	p.sees("#photo-words", "The 6 points are ")
	p.sees("#photo-words", "95 in 100 of them")
	p.pictured("5-fitted")
	if !strings.Contains(p.value("job.text"), "image = [171, 426]\nat = \"C 1155 mm, 60 mm\"") {
		p.t.Errorf("the point was not moved:\n%s", p.value("job.text"))
	}
	p.asTheCommand(s)
	p.moveRun()
	p.asTheCommand(s, "--for", "handover") // which has neither prices nor comments
	p.backFromPDF(s, p.asTheCommand(s)["hall.pdf"])
}

// drag moves a point of the photo.
func (p person) drag(x0, y0, x1, y1 float64) {
	p.t.Helper()
	ax, ay := p.where(x0, y0)
	bx, by := p.where(x1, y1)
	if err := chromedp.Do(p.ctx, chromedp.MouseEvent(chromedp.MousePressed, ax, ay, chromedp.ButtonLeft,
		chromedp.ClickCount(1)), chromedp.MouseEvent(chromedp.MouseMoved, (ax+bx)/2, (ay+by)/2, chromedp.ButtonLeft),
		chromedp.MouseEvent(chromedp.MouseMoved, bx, by, chromedp.ButtonLeft)); err != nil {
		p.t.Fatal(err)
	}
	p.until(`!document.getElementById("loupe").hidden`)
	if err := chromedp.Do(p.ctx, chromedp.MouseEvent(chromedp.MouseReleased, bx, by, chromedp.ButtonLeft,
		chromedp.ClickCount(1))); err != nil {
		p.t.Fatal(err)
	}
}

// moveRun follows the run that was laid beside its plan, puts it on the record, and takes it back.
func (p person) moveRun() {
	p.t.Helper()
	p.value(`document.getElementById("run-moved").click()`)
	p.until(`document.getElementById("run")`)
	p.value(`((s) => { s.value = String(inJob(pointing.file).numbers.findIndex((n) => n.run === 8)); ` +
		`s.dispatchEvent(new Event("change")); })(document.getElementById("run"))`)
	p.tap(346, 259)
	p.tap(335, 769)
	p.until(`document.getElementById("run-set") && !document.getElementById("run-set").disabled`)
	p.pictured("6-run")
	p.drawn(func() { p.value(`document.getElementById("run-set").click()`) })
	if got := p.value("job.text"); !strings.Contains(got, "[[as_laid.photo.run]]\nrun = 8\nimage = [[") {
		p.t.Errorf("no run in the job:\n%s", got)
	}
	p.sees("#status", "up to date")
	p.pictured("7-moved")
	p.drawn(func() { p.press("← Back") })
	p.value(`void sheets.show("photos")`)
	p.until(`view.svg?.querySelector("image")`)
	p.pictured("8-sheet")
}

// backFromPDF opens the PDF in a page that has no photos any more, and has it drawn again alike.
func (p person) backFromPDF(s site, drawn []byte) {
	p.t.Helper()
	text := p.value("job.text")
	s.write(p.t, "handed.pdf", drawn)
	p.press("Files")
	p.drawn(func() { p.choose("#open", s.at("handed.pdf")) })
	if got := p.value("job.text"); got != text {
		p.t.Errorf("the PDF gives another job back:\n%s", got)
	}
	p.asLaid()
	p.sees(`[data-photo='hall-1.jpg']`, "6 points")
	p.asTheCommand(s, "--for", "handover")
}

// keys presses keys, as they come from a keyboard.
func (p person) keys(all string, more ...chromedp.KeyOption) {
	p.t.Helper()
	if err := chromedp.Do(p.ctx, chromedp.KeyEvent(all, more...)); err != nil {
		p.t.Fatal(err)
	}
}

// tabTo goes from control to control until one that a selector names has the focus.
func (p person) tabTo(selector string) {
	p.t.Helper()
	for range 80 {
		if p.value("document.activeElement.matches(`"+selector+"`)") == "true" {
			return
		}
		p.keys(kb.Tab)
	}
	p.t.Fatalf("no tab leads to %s", selector)
}

// walked moves the point at hand to a place of the photo by arrows.
func (p person) walked(x, y int) {
	p.t.Helper()
	for _, by := range []struct {
		far  int
		more []chromedp.KeyOption
	}{{10, []chromedp.KeyOption{chromedp.KeyModifiers(chromedp.ModifierShift)}}, {1, nil}} {
		var dx, dy int
		fmt.Sscan(p.value(fmt.Sprintf(`((q, s) => [(%d - q[0]) / s, (%d - q[1]) / s].map(Math.trunc).join(" "))`+
			`(pointing.pending, Math.max(1, Math.round(1 / pointing.scale)) * %d)`, x, y, by.far)), &dx, &dy)
		for _, way := range []struct {
			n   int
			key string
		}{{-dx, kb.ArrowLeft}, {dx, kb.ArrowRight}, {-dy, kb.ArrowUp}, {dy, kb.ArrowDown}} {
			for range way.n {
				p.keys(way.key, by.more...)
			}
		}
	}
}

// keysAlone places four corners without a finger, moves one and takes a fifth point out.
func (p person) keysAlone(s site) {
	p.t.Helper()
	p.open(s, s.at("hall.toml"))
	p.choose("#photo-pick", s.at("hall-1.jpg"))
	p.until(`document.querySelector("[data-photo='hall-1.jpg']")`)
	p.tabTo("[data-photo='hall-1.jpg']")
	p.keys(kb.Enter)
	p.until(`view.photo && document.activeElement === document.getElementById("paper")`)
	place := func(x, y int, where string) {
		p.t.Helper()
		p.keys(kb.Enter)
		p.until("pointing.pending")
		p.walked(x, y)
		p.keys(kb.Enter)
		p.until(`document.activeElement.id === "spot"`)
		p.keys(where)
		p.tabTo("#spot-set")
		p.keys(kb.Enter)
		p.until(`document.activeElement === document.getElementById("paper")`)
	}
	for _, letter := range []string{"A", "B", "C", "D"} {
		place(int(hallCorners[letter][0]), int(hallCorners[letter][1]), "corner "+letter)
	}
	p.points(4)
	if got := p.value(`inJob(pointing.file).points.map((q) => q.value).join()`); got != `"A","B","C","D"` {
		p.t.Errorf("the points are %s", got)
	}
	was := p.value("job.text")
	p.tabTo("[data-point='0']")
	p.keys(kb.Enter)
	p.tabTo("#nudge-left")
	p.keys(kb.Enter)
	p.until("job.text !== " + quoted(was))
	p.points(4)
	p.tabTo("#photo-back")
	p.drawn(func() { p.keys(kb.Enter) })
	p.until(`document.activeElement.dataset.photo === "hall-1.jpg"`)
}

func quoted(s string) string {
	out, _ := json.Marshal(s)
	return string(out)
}

// refused has files taken that are no photos, or too large ones: each is told why, and the
// job stays as it is.
func (p person) refused(s site) {
	p.t.Helper()
	p.open(s, s.at("hall.toml"))
	s.write(p.t, "phone.heic", append([]byte("\x00\x00\x00\x18ftypheic"), make([]byte, 64)...))
	s.write(p.t, "letter.jpg", []byte("Dear Sir"))
	s.write(p.t, "half.jpg", []byte("\xff\xd8\xff\xe0\x00\x10JFIF"))
	s.write(p.t, "huge.jpg", make([]byte, 17<<20))
	p.choose("#photo-pick", s.at("phone.heic"), s.at("letter.jpg"), s.at("half.jpg"), s.at("huge.jpg"))
	p.until(`document.querySelectorAll("#photo-told .slip").length === 4`)
	for _, want := range []string{"phone.heic: it is a HEIC picture", "save the picture as JPEG",
		"letter.jpg: it is neither a JPEG nor a PNG picture", "half.jpg: it cannot be read as a picture",
		"huge.jpg: it has 17 MB, and 16 are taken at most"} {
		p.sees("#photo-told", want)
	}
	p.pictured("9-refused")
	if n := p.value(`document.querySelectorAll("[data-photo]").length + Object.keys(job.photos).length`); n != "0" {
		p.t.Errorf("%s of them were taken", n)
	}
}

// large takes a photo of twelve million pixels while the page goes on.
func (p person) large(s site) {
	p.t.Helper()
	p.open(s, s.at("hall.toml"))
	s.write(p.t, "large.jpg", largePhoto(p.t))
	p.value(`void (window.gap = 0, window.last = performance.now(), window.clock = setInterval(() => { ` +
		`const now = performance.now(); gap = Math.max(gap, now - last); last = now; ` +
		`if (document.querySelector("#photo-told progress")) window.progressed = true; }, 20))`)
	from := time.Now()
	p.choose("#photo-pick", s.at("large.jpg"))
	p.until(`document.querySelector("[data-photo='large.jpg']")`)
	took := time.Since(from)
	p.t.Logf("12 million pixels took %v, the page waited %s ms at most", took, p.value("Math.round(gap)"))
	if p.value(fmt.Sprintf("gap > %d", took.Milliseconds()/2)) == "true" { // on the page's thread it would be all
		p.t.Errorf("the page stood still for %s ms of %v", p.value("Math.round(gap)"), took)
	}
	if p.value("window.progressed") != "true" {
		p.t.Error("no progress was shown")
	}
	if got := p.value(`((q) => q.wide + " x " + q.high)(job.photos["large.jpg"])`); got != "4000 x 3000" {
		p.t.Errorf("it is taken for %s pixels", got)
	}
}

// largePhoto is one as a phone takes it: twelve million pixels, none like its neighbour.
func largePhoto(t *testing.T) []byte {
	t.Helper()
	m := image.NewYCbCr(image.Rect(0, 0, 4000, 3000), image.YCbCrSubsampleRatio420)
	r := rand.New(rand.NewPCG(1, 2))
	for i := range m.Y {
		m.Y[i] = byte(100 + i%4000/50 + r.IntN(30))
	}
	for i := range m.Cb {
		m.Cb[i], m.Cr[i] = 128, 140
	}
	var b bytes.Buffer
	if err := jpeg.Encode(&b, m, &jpeg.Options{Quality: 85}); err != nil {
		t.Fatal(err)
	}
	return b.Bytes()
}

// unkept works on where the browser keeps no photos, and says so.
func (p person) unkept(s site) {
	p.t.Helper()
	p.before(`Object.defineProperty(window, "indexedDB", { get() { throw new DOMException("no", "SecurityError"); } })`)
	p.goTo(s.page)
	p.open(s, s.at("hall.toml"))
	p.choose("#photo-pick", s.at("hall-1.jpg"))
	p.until(`document.querySelector("[data-photo='hall-1.jpg']")`)
	p.sees("#laid", "This browser keeps no photos")
	p.value(`document.querySelector("[data-photo='hall-1.jpg']").click()`)
	p.until("view.photo && view.svg")
	p.corners()
	p.asTheCommand(s)
}

// full keeps the small copy where there is no room for the picture as it came, or nothing where there is
// none for that; what was kept is there when the page is opened again.
func (p person) full(s site) {
	p.t.Helper()
	p.before(`((put) => { IDBObjectStore.prototype.put = function (held, key) { ` +
		`if (held.original || localStorage.full) throw new DOMException("full", "QuotaExceededError"); ` +
		`return put.call(this, held, key); }; })(IDBObjectStore.prototype.put)`)
	p.goTo(s.page)
	p.open(s, s.at("hall.toml"))
	p.choose("#photo-pick", s.at("hall-1.jpg"))
	p.until(`document.querySelector("[data-photo='hall-1.jpg']")`)
	p.sees("#photo-told", "it keeps a small copy of this photo")
	p.value(`document.querySelector("[data-photo='hall-1.jpg']").click()`)
	p.until("view.photo && view.svg")
	p.corners()
	p.drawn(func() { p.press("← Back") })
	p.value(`localStorage.full = "yes"`)
	p.asLaid()
	p.choose("#photo-pick", s.at("hall-2.jpg"))
	p.until(`document.querySelector("[data-photo='hall-2.jpg']")`)
	p.sees("#photo-told", "this photo is gone when the page is closed")
	p.goTo(s.page)
	p.until("document.body.dataset.drawn")
	p.asLaid()
	p.until(`document.querySelector("[data-photo='hall-1.jpg']")`)
	p.sees(`[data-photo='hall-1.jpg']`, "4 points")
	p.asTheCommand(s)
}

// sameNames takes pictures that a phone calls by one name, and gives the job with its photos back.
func (p person) sameNames(s site) {
	p.t.Helper()
	p.open(s, s.at("hall.toml"))
	for i, name := range []string{"hall-1.jpg", "hall-2.jpg"} {
		data, err := os.ReadFile(s.at(name))
		if err != nil {
			p.t.Fatal(err)
		}
		s.write(p.t, "image.jpg", data)
		p.choose("#photo-pick", s.at("image.jpg"))
		p.until(fmt.Sprintf(`document.querySelectorAll("[data-photo]").length === %d`, i+1))
	}
	p.sees(`[data-photo='image-2.jpg']`, "0 of at least 4 points")
	p.choose("#photo-pick", s.at("hall-2.jpg"))
	p.until(`document.querySelector("#photo-told .slip")`)
	p.sees("#photo-told", "this photo is here already")
	p.value(`document.querySelector("[data-photo='image.jpg']").click()`)
	p.until("view.photo && view.svg")
	p.corners()
	p.press("← Back")
	p.value(`void (window.copied = null, copies()).then(async (all) => { ` +
		`window.copied = await Promise.all(all.map(async (f) => ` +
		`[f.name, new TextDecoder("latin1").decode(await f.arrayBuffer())])); })`)
	p.until("window.copied")
	if got := p.value(`copied.map(([name, text]) => name + " " + text.includes("Exif") + " " + ` +
		`/ at -?\d/.test(text.slice(0, 300))).join()`); got != "image.jpg false false,image-2.jpg false false" {
		p.t.Errorf("the copies are %s", got)
	}
}
