package main

import (
	"bytes"
	"context"
	"encoding/json"
	"fmt"
	"math"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"testing"
	"time"

	"github.com/chromedp/chromedp"
	"github.com/google/go-cmp/cmp"

	"oxturn/drawing/web/headless"
)

// faultJob is a floor with a twin cable and one with a single conductor, each of 60 m and
// 52.9 Ω, as the readings of record's TestPlacesWorkedByHand are for.
const faultJob = `units = "UNITS"
[job]
title = "Two floors"
status = "STATUS"
[membrane]
pitch = "30 mm"
[tile]
size = ["600 mm", "300 mm"]
joint = "3 mm"
thickness = "10 mm"
pattern = "straight"
[[cable]]
id = "T60"
volts = 230
watts = 1000
length = "60 m"
ohms = 52.9
lead = "4 m"
[[cable]]
id = "S60"
volts = 230
watts = 1000
length = "60 m"
ohms = 52.9
lead = "8 m"
ends = "both"
` + faultRoom + `name = "Twin"
cables = ["T60"]
` + faultBox + faultRoom + `name = "Single"
cables = ["S60"]
` + faultBox

const (
	faultRoom = "[[room]]\n"
	faultBox  = `corners = [["0 mm", "0 mm"], ["2600 mm", "0 mm"], ["2600 mm", "2200 mm"], ["0 mm", "2200 mm"]]
first_tile = [["0 mm", "0 mm"], ["600 mm", "0 mm"]]
[room.thermostat]
at = ["1300 mm", "0 mm"]
height = "1200 mm"
`
	faultRecord = `[[as_laid]]
room = "%s"
evidence = "photo with tape"
plan = "out/faults.layout.json"
as_planned = true
[[as_laid.reading]]
stage = "hook-up"
ohms = 52.9
capacitance = 9.0
`
)

// typedFault is one fault as it is typed into the map's form and given to the command.
type typedFault struct {
	name   string
	single bool
	flags  string // of the command
	form   string // way: figures; then, as key=figures, what is to be known: lead=3 m
	want   float64
}

// typedFaults are the figures of record's TestPlacesWorkedByHand, on cables of 60 m: the places
// of what is given there for other lengths are the same shares of it. The others are worked by hand likewise.
var typedFaults = []typedFault{
	{"short", false, "--short 19.0+-0 --whole-ohms 52.9+-0", "short: 19.0±0; ohms=52.9±0", 21550.09},
	{"short, lead", false, "--short 19.12+-0 --whole-ohms 53.02+-0 --lead-ohms 0.12+-0",
		"short: 19,12±0; ohms=53,02±0; leadOhms=0,12±0", 21550.09},
	{"earth", false, "--earth 52.9+-0,1221+-0,1231.9+-0", "earth: 52.9±0 1221±0 1231.9±0", 47637.05},
	{"earth, single", true, "--earth 52.9+-0,1221+-0,1231.9+-0", "earth: 52.9±0 1221±0 1231.9±0", 23818.53},
	{"Murray, 600 and 400", false, "--murray 600+-0,400+-0", "murray: 600±0 400±0", 48_000},
	{"Murray, 332 of 1000", true, "--murray 668+-0,332+-0", "murray: 668±0 332±0", 19_920},
	{"Murray, 2 and 1", false, "--murray 2+-0,1+-0", "murray: 2±0 1±0", 40_000},
	{"Murray, single, leads", true, "--murray 32.0+-0,21.1+-0 --whole-ohms 53.1+-0 --lead-ohms 0.2+-0",
		"murray: 32.0±0 21.1±0; ohms=53.1±0; leadOhms=0.2±0", 23_818.53},
	{"Murray, twin, leads", false, "--murray 32.0+-0,21.1+-0 --whole-ohms 53.1+-0 --lead-ohms 0.2+-0",
		"murray: 32.0±0 21.1±0; ohms=53.1±0; leadOhms=0.2±0", 47_637.05},
	{"Varley, like arms", true, "--varley 100+-0,100+-0,7.2+-0,12+-0", "varley: 100±0 100±0 7.2±0 12±0", 12_000},
	{"Varley, 100 and 200", true, "--varley 100+-0,200+-0,15+-0,30+-0", "varley: 100±0 200±0 15±0 30±0", 30_000},
	{"break, single", true, "--capacitance 3.15+-0 --whole-capacitance 9.0+-0 --lead 0",
		"break: 3.15±0; farads=9.0±0; lead=0", 21_000},
	{"break, twin tied", false, "--capacitance 3.15+-0 --whole-capacitance 9.0+-0 --lead 0",
		"break: 3.15±0; farads=9.0±0; lead=0", 21_000},
	{"break, lead as trimmed", true, "--capacitance 3.3+-0 --whole-capacitance 9.0+-0 --lead 3m",
		"break: 3.3±0; farads=9.0±0; lead=3 m", 21_200},
	{"break, both ends", true, "--capacitance-ends 3.15+-0,5.85+-0 --lead 0", "ends: 3.15±0 5.85±0; lead=0", 21_000},
	{"break, both ends, leads", true, "--capacitance-ends 3.15+-0,5.85+-0 --lead 3m",
		"ends: 3.15±0 5.85±0; lead=3 m", 20_100},
	{"break, both cores", false, "--capacitance-ends 3.15+-0,5.85+-0 --lead 3m",
		"ends: 3.15±0 5.85±0; lead=3 m", 41_100},
	{"echo, its time", false, "--echo-time 200+-0 --velocity 0.66+-0 --lead 0",
		"time: 200±0 f0.66±0; lead=0", 19786.30},
	{"echo, distance shown", false, "--echo-distance 20m --set 0.66 --velocity 0.62+-0 --lead 0 --meter-error 0",
		"distance: 20_m s0.66 f0.62±0; lead=0; meter=0", 18787.88},
	// as above with what a meter may be off, of its own, in its share and by its last place
	{"short, own error", false, "--short 19.0+-0.2", "short: 19.0±0.2", 21550.09},
	{"short, own share", false, "--short 19.0+-0.5%", "short: 19.0±0.5%", 21550.09},
	{"earth, one meter", false, "--earth 52.9,1221.0,1231.9 --meter-error 0.5%",
		"earth: 52.9 1221.0 1231.9; meter=0.5", 47637.05},
	{"earth, unlike cores", false, "--earth 50+-0,20+-0,30+-0 --core-share 0.98",
		"earth: 50±0 20±0 30±0; coreShare=98", 60e3 * 20 / 49},
	{"break by the record", false, "--capacitance 3.15 --lead 0", "break: 3.15; lead=0", 21_000},
	{"echo by the insulation", false, "--echo-time 200 --velocity XLPE --lead 2m", "time: 200 cXLPE; lead=2 m",
		0.659380*299.792458*100 - 2000},
	{"echo by a factor alone", true, "--echo-distance 20m --set 0.66 --velocity 0.62 --lead 2m",
		"distance: 20_m s0.66 f0.62; lead=2 m", 18787.88 - 2000},
	// 15 K warmer at 0.0039 per kelvin: 20 of 52.9 Ω cold read 21.17 Ω
	{"warmed", false, "--short 21.17+-0 --whole-ohms 52.9+-0 --warmer 15 --per-kelvin 0.0039",
		"short: 21.17±0; ohms=52.9±0; warmer=15 °C; perKelvin=0,0039", 60e3 * 20 / 52.9},
	{"colder, in °F", false, "--short 18.83+-0 --whole-ohms 52.9+-0 --warmer -15 --per-kelvin 0.0039",
		"short: 18.83±0; ohms=52.9±0; warmer=-27 °F; perKelvin=0.0039", 60e3 * 20 / 52.9},
	{"two that meet", false, "--short 19.0 --echo-time 200+-4 --velocity 0.66+-0.03 --lead 0",
		"short: 19.0; time: 200±4 f0.66±0.03; lead=0", 0},
	{"three that meet", false,
		"--short 19.0 --capacitance 3.15+-0.05 --echo-time 220+-4 --velocity 0.66+-0.03 --lead 0",
		"short: 19.0; break: 3.15±0.05; time: 220±4 f0.66±0.03; lead=0", 0},
}

// TestMapFindsWhatFaultFinds types readings into the form of the map that draw wrote, in both
// units, of a recorded floor, and holds the stretch and every word to what the verb fault gives
// for the same cable.
func TestMapFindsWhatFaultFinds(t *testing.T) {
	r := reader{t, headless.For(t, 4*time.Minute, chromedp.WindowSize(1280, 900))}
	for _, units := range []string{"mm", "in"} {
		dir := faultFolder(t, units)
		r.run(chromedp.Navigate("file://" + filepath.Join(dir, "out", "laid-map.html")))
		for _, f := range typedFaults {
			t.Run(units+", "+f.name, func(t *testing.T) {
				r := reader{t, r.ctx}
				f.check(r, dir)
			})
		}
	}
}

// faultFolder has the job as drawn and as laid, with its map.
func faultFolder(t *testing.T, units string) string {
	dir := t.TempDir()
	text := strings.Replace(faultJob, "UNITS", units, 1)
	laid := strings.Replace(text, "STATUS", "as laid", 1) + fmt.Sprintf(faultRecord, "Twin") +
		fmt.Sprintf(faultRecord, "Single")
	for name, text := range map[string]string{"faults.toml": strings.Replace(text, "STATUS", "for installation", 1),
		"laid.toml": laid} {
		if err := os.WriteFile(filepath.Join(dir, name), []byte(text), 0o644); err != nil {
			t.Fatal(err)
		}
	}
	oxturn(t, "draw", filepath.Join(dir, "faults.toml"), "-o", filepath.Join(dir, "out"), "--only", "layout")
	oxturn(t, "draw", filepath.Join(dir, "laid.toml"), "-o", filepath.Join(dir, "out"), "--only", "map")
	return dir
}

// oxturn runs a verb in this process and returns what it prints.
func oxturn(t *testing.T, args ...string) string {
	t.Helper()
	var out, messages bytes.Buffer
	if code := Run(context.Background(), args, strings.NewReader(""), &out, &messages); code != exitOK {
		t.Fatalf("%v: exit code %d: %s", args, code, messages.String())
	}
	return out.String()
}

func (f typedFault) check(r reader, dir string) {
	args := append([]string{"fault", filepath.Join(dir, "laid.toml"), "--cable", "H1"}, strings.Fields(f.flags)...)
	if f.single {
		args[3] = "H2"
	}
	var want struct {
		Best float64      `json:"likeliest_mm"`
		Line [][2]float64 `json:"line"`
	}
	if err := json.Unmarshal([]byte(oxturn(r.t, append(args, "--format", "json")...)), &want); err != nil {
		r.t.Fatal(err)
	}
	if f.want > 0 && math.Abs(want.Best-f.want) > 1e-4*f.want+1 {
		r.t.Errorf("the command finds it at %.1f mm, by hand it is at %.1f", want.Best, f.want)
	}
	f.typeIn(r)
	var got struct {
		Said []string
		Line [][2]float64
	}
	if err := json.Unmarshal([]byte(r.value(faultShown)), &got); err != nil {
		r.t.Fatal(err)
	}
	said := faultSaid(oxturn(r.t, args...))
	slices.Sort(got.Said)
	slices.Sort(said)
	if d := cmp.Diff(said, got.Said); d != "" {
		r.t.Errorf("the command says (-) and the map (+)\n%s", d)
	}
	if len(got.Line) != len(want.Line) {
		r.t.Fatalf("the map draws %d points, the command has %d", len(got.Line), len(want.Line))
	}
	for i, p := range want.Line {
		if math.Hypot(p[0]-got.Line[i][0], p[1]-got.Line[i][1]) > 0.5 {
			r.t.Errorf("point %d is drawn at %v, and lies at %v", i, got.Line[i], p)
		}
	}
}

// faultShown is what the map says and draws of a fault.
const faultShown = `(() => { const s = [...document.querySelectorAll("section.room")].find((s) => !s.hidden);
	return JSON.stringify({ Said: [s.querySelector(".verdict"), ...s.querySelectorAll(".reasons p, .reasons .cautions li")].map((e) => e.textContent),
		Line: [...s.querySelector(".stretch .band").getAttribute("points").split(" ")].map((p) => p.split(",").map(Number)).map(([x, y]) => [x, -y]) }); })()`

// faultSaid are the command's lines as the map words them, without those that stand beside it.
func faultSaid(text string) (out []string) {
	capital := func(s string) string { return strings.ToUpper(s[:1]) + s[1:] }
	about := "FAULT"
	for i, line := range strings.Split(strings.TrimSpace(text), "\n") {
		if number, words, ok := strings.Cut(line, ". "); ok && len(number) == 1 {
			out = append(out, capital(words)+".")
			continue
		}
		name, words := strings.TrimSpace(line[:9]), strings.TrimSpace(line[9:])
		if i > 0 {
			about = name
		}
		if name != "record" && name != "" {
			out = append(out, capital(about)+": "+words)
		}
	}
	return out
}

// typeIn fills in the form by keys and asks for the stretch.
func (f typedFault) typeIn(r reader) {
	r.t.Helper()
	room := "0"
	if f.single {
		room = "1"
	}
	r.value(`(() => { const p = document.getElementById("room"); p.value = ` + room + `; p.dispatchEvent(new Event("change"));
		window.form = document.querySelectorAll("section.room")[` + room + `].querySelector("form.fault");
		form.closest("details").open = true; form.querySelector("details.figures").open = true; form.reset();
		for (const b of [...form.querySelectorAll("[data-less]")].slice(1)) b.click(); return 1; })()`)
	readings := 0
	for _, part := range strings.Split(f.form, "; ") {
		if key, value, ok := strings.Cut(part, "="); ok {
			r.typeFigure(`form.querySelector(".figures [data-key=`+key+`]")`, value)
			continue
		}
		if readings++; readings > 1 {
			r.value(`form.querySelector("[data-more]").click()`)
		}
		way, values, _ := strings.Cut(part, ": ")
		reading := fmt.Sprintf(`form.querySelectorAll(".reading")[%d]`, readings-1)
		r.value(reading + `.querySelector("[value=` + way + `]").click()`)
		n := 0
		for _, v := range strings.Fields(values) {
			switch v[0] {
			case 's':
				r.typeFigure(reading+`.querySelector("[data-key=set]")`, v[1:])
			case 'f':
				r.typeFigure(reading+`.querySelector("[data-key=factor]")`, v[1:])
			case 'c':
				r.value(`(() => { const s = ` + reading + `.querySelector("[name=core]"); s.value = ` +
					`[...s.options].find((o) => o.text.startsWith("` + v[1:] + `")).value; return 1; })()`)
			default:
				r.typeFigure(fmt.Sprintf(`%s.querySelector("[data-key=v%d]")`, reading, n),
					strings.ReplaceAll(v, "_", " "))
				n++
			}
		}
	}
	r.value(`form.querySelector("[type=submit]").click()`)
	r.until(`form.querySelector(".error").textContent === "" && form.closest("section").querySelector(".stretch")`)
}

// typeFigure types a figure, with its unit after a blank and what it may be off after ±, where
// those have their own fields.
func (r reader) typeFigure(row, text string) {
	r.t.Helper()
	key := func(name, text string) {
		r.value(`(() => { const e = ` + row + `.querySelector("[name=` + name + `]"); e.value = ""; e.focus(); ` +
			`return 1; })()`)
		r.run(chromedp.KeyEvent(text))
	}
	choose := func(name, value string) {
		r.value(`(() => { ` + row + `.querySelector("[name=` + name + `]").value = "` + value + `"; return 1; })()`)
	}
	value, off, own := strings.Cut(text, "±")
	value, unit, _ := strings.Cut(value, " ")
	if unit != "" {
		choose("unit", unit)
	}
	if value, ok := strings.CutPrefix(value, "-"); ok {
		choose("sign", "colder")
		key("value", value)
		return
	}
	key("value", value)
	if own {
		share, ok := strings.CutSuffix(off, "%")
		key("off", share)
		if ok {
			choose("offUnit", "%")
		}
	}
}
