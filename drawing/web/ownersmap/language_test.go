package ownersmap

import (
	"context"
	"fmt"
	"maps"
	"math/rand/v2"
	"regexp"
	"slices"
	"strconv"
	"strings"
	"testing"
	"time"

	"oxturn/layout"
	"oxturn/layout/job"
	"oxturn/layout/language"
	"oxturn/layout/plane"
)

// languages are those with a catalogue.
var languages = []language.Language{language.Spanish, language.French, language.German}

// inPage finds what the templates say.
var inPage = regexp.MustCompile(`\bsay ("(?:[^"\\]|\\.)*")`)

// messages are what template and script say, by the English.
func messages(t *testing.T) []string {
	t.Helper()
	out := map[string]bool{}
	for _, m := range append(inPage.FindAllStringSubmatch(pageText+faultFormText, -1),
		sayings().FindAllStringSubmatch(script(), -1)...) {
		message, err := strconv.Unquote(m[1])
		if err != nil {
			t.Fatalf("%s: %v", m[1], err)
		}
		out[message] = true
	}
	return slices.Sorted(maps.Keys(out))
}

// TestEveryMessageOfTheMapHasAnEntry: whatever page and script say is in every catalogue. (What
// the code says is held by TestEveryMessageHasAnEntry of the sheets.)
func TestEveryMessageOfTheMapHasAnEntry(t *testing.T) {
	said := messages(t)
	if len(said) < 200 {
		t.Fatalf("%d messages found", len(said))
	}
	for _, l := range languages {
		has := l.Entries()
		for _, m := range said {
			if _, ok := has[m]; !ok {
				t.Errorf("%s has no %q", l.Tag(), m)
			}
		}
	}
}

var (
	literal   = regexp.MustCompile("\"(?:[^\"\\\\\n]|\\\\.)*\"|`[^`]*`")
	inLiteral = regexp.MustCompile(`\$\{[^}]*\}`)
	sentence  = regexp.MustCompile(`[A-Za-z]{2,},? [A-Za-z]{2,}`)
	comment   = regexp.MustCompile(`(?m)(^|\s)//.*$`)
	inMarkup  = regexp.MustCompile(`\{\{[^}]*\}\}|<[^>]*>`)
)

// notSaid are texts of two words in the script that nobody reads: names of kinds and verdicts
// as probe has them, classes and attributes.
var notSaid = []string{"heating cable", "lead joint", "end cap", "cold lead", "sensor lead", "lead rise", "NO VERDICT",
	"CABLE HERE", "TOO CLOSE", "NO CABLE RECORDED", "by touch", "tag found", "cross", "use strict"}

// TestNothingIsSaidInEnglishAlone: no text of words stands in script or template but in what
// is said in the reader's language.
func TestNothingIsSaidInEnglishAlone(t *testing.T) {
	found := 0
	rest := comment.ReplaceAllString(sayings().ReplaceAllStringFunc(script(), func(string) string {
		found++
		return "say("
	}), "")
	if found < 200 {
		t.Fatalf("%d messages in the script", found)
	}
	for _, text := range literal.FindAllString(rest, -1) {
		words := sentence.FindString(inLiteral.ReplaceAllString(text, "0"))
		if words != "" && !slices.ContainsFunc(notSaid, func(s string) bool { return strings.Contains(text, s) }) &&
			!strings.ContainsAny(text, "[]") && text[1] != '.' {
			t.Errorf("the script has %s", text)
		}
	}
	for _, text := range word.FindAllString(inMarkup.ReplaceAllString(pageText+faultFormText, " "), -1) {
		t.Errorf("the page has %q", text)
	}
}

var (
	word  = regexp.MustCompile(`\p{L}{3,}`)
	verbs = regexp.MustCompile(`%(\[\d\])?[-+0-9.]*[a-z]`)
)

// foreignTo says which words of a text neither the language's catalogue nor a job has.
type foreignTo map[string]bool

func wordsOf(l language.Language, job string) foreignTo {
	known := foreignTo{}
	add := func(text string) {
		for _, w := range word.FindAllString(strings.ToLower(text), -1) {
			known[w] = true
		}
	}
	for _, said := range l.Entries() {
		add(verbs.ReplaceAllString(said, " "))
	}
	add(job)
	return known
}

func (f foreignTo) in(text string) (out []string) {
	for _, w := range word.FindAllString(strings.ToLower(text), -1) {
		if !f[w] {
			out = append(out, w)
		}
	}
	return out
}

// shown collects what the page shows and tells readers aloud: texts, labels, titles, choices.
const shown = `(() => { const out = [document.title], texts = (root) => { const walk = document.createTreeWalker(root, NodeFilter.SHOW_TEXT);
	for (let n = walk.nextNode(); n; n = walk.nextNode()) if (!n.parentElement || !n.parentElement.closest("script, style, pre")) out.push(n.data.replace(/<[^>]*>/g, "")); };
	texts(document.body);
	for (const t of document.querySelectorAll("template")) texts(t.content);
	for (const e of document.querySelectorAll("*")) for (const a of ["aria-label", "title", "placeholder", "alt"]) if (e.hasAttribute(a)) out.push(e.getAttribute(a));
	return out.map((s) => s.trim()).filter((s) => s !== ""); })()`

// nothingForeign holds all that the page shows now to its language.
func nothingForeign(t *testing.T, ctx context.Context, known foreignTo, after string) {
	t.Helper()
	for _, text := range evaluate[[]string](t, ctx, shown) {
		if words := known.in(text); len(words) > 0 {
			t.Fatalf("after %s: %q in %q", after, words, text)
		}
	}
}

// toldPlan is a faulty plan of which all is told that a map can tell.
func toldPlan(status job.Status, in language.Language) *layout.Plan {
	p := faultyPlan(plane.Millimetres, 2)
	p.Job.Language, p.Job.Info.Status = in, status
	p.Job.Info.Date = time.Date(2026, 12, 9, 0, 0, 0, 0, time.UTC)
	r := &p.Rooms[0]
	r.Job.Joints = []job.Joint{{Segment: plane.Segment{A: plane.Pt(1200, 100), B: plane.Pt(1200, 2400)}}}
	r.Job.Fixtures[0].Undecided = true
	a := r.Cables[0].Laid.Job
	a.Lot, a.Volts, a.Amps, a.Lead = "4711", 239, 2.5, 2400
	a.Readings = []job.Reading{{Stage: "hook-up", Date: p.Job.Info.Date, By: "E. L.",
		Ohms: job.Figure{Value: 96.4, Taken: true}, Insulation: job.Figure{Value: 2000, Taken: true, Over: true},
		Volts: 500, Capacitance: job.Figure{Value: 9.1, Taken: true}}}
	p.Circuits = []layout.Circuit{{Rooms: []string{"Bath"}, Job: &job.Circuit{Name: "L3", Breaker: 16, GroundFault: 30,
		GroundFaultsAt: "breaker"}}}
	return p
}

// TestTheMapInEachLanguage: the page says what language it is in, and has no word left of another,
// whatever is asked of it: spots on the floor and in walls, tiles, what was typed wrong.
func TestTheMapInEachLanguage(t *testing.T) {
	for _, l := range languages {
		for _, status := range []job.Status{job.AsLaid, job.Proposal} {
			if status == job.Proposal && l != language.Spanish {
				continue // what a plan says beyond is a few entries, which every catalogue has
			}
			p := toldPlan(status, l)
			ctx, known := browser(t, write(t, p)), wordsOf(l, "Bath SHA ETFE PTFE FEP XLPE PVC")
			if got := evaluate[string](t, ctx, `document.documentElement.lang`); got != l.Tag() {
				t.Errorf("%s: the page says that it is in %q", l.Tag(), got)
			}
			nothingForeign(t, ctx, known, l.Tag()+" opened")
			text := evaluate[[]string](t, ctx, `(() => { const m = window.floorMap, out = [], note = () => { for (const e of document.querySelectorAll(".verdict, .reasons p")) out.push(e.textContent); };
	for (let x = -60; x < 2700; x += 460) for (let y = -60; y < 2600; y += 310) {
	  m.views[0].show([x, -y]); m.views[0].show([x, y]); note();
	  m.views[0].showTouched([x, y], x % 920 ? "touch" : "mouse"); note();
	}
	out.push(document.querySelector("svg.elevation").getAttribute("aria-label") || "");
	return out; })()`)
			for _, s := range text {
				if words := known.in(s); len(words) > 0 {
					t.Fatalf("%s, %s: %q in %q", l.Tag(), status, words, s)
				}
			}
			for _, form := range [][3]string{{"form.measure", "off1", "off2"}, {"form.wall", "along", "up"},
				{"form.tile", "row", "column"}} {
				for _, typed := range [][2]string{{"x", "y"}, {"900", "900"}, {"99999", "1"}, {"2", "2"},
					{"99", "1"}, {"1", "99"}} {
					evaluate[bool](t, ctx, fmt.Sprintf(`(() => { const f = document.querySelector(%q); f.elements[%q].value = %q;
	f.elements[%q].value = %q; f.requestSubmit(); return true; })()`, form[0], form[1], typed[0], form[2], typed[1]))
					nothingForeign(t, ctx, known, strings.Join(append(form[:], typed[:]...), " "))
				}
			}
		}
	}
}

// TestFiguresInEachLanguage: a map in German has decimal commas, and none of its figures has a point.
func TestFiguresInEachLanguage(t *testing.T) {
	point := regexp.MustCompile(`\d\.\d`)
	ctx := opened(t, toldPlan(job.AsLaid, language.German))
	readShort(t, ctx, "48,2") // half of those at hook-up
	for _, text := range evaluate[[]string](t, ctx, shown) {
		if point.MatchString(text) {
			t.Errorf("%q has a decimal point", text)
		}
	}
	if got := evaluate[string](t, ctx, verdictSaid); !strings.Contains(got, "am ehesten bei 4,6") {
		t.Errorf("half of the ohms: %q", got)
	}
}

// TestFaultFormInEachLanguage: the form finds the places that record finds, and what it says of
// them, of errors and of what was typed wrong has no English word.
func TestFaultFormInEachLanguage(t *testing.T) {
	for _, l := range languages {
		ctx, known := opened(t, toldPlan(job.AsLaid, l)), wordsOf(l, "Bath ETFE PTFE FEP XLPE PVC")
		c := chancer{rand.New(rand.NewPCG(20, 4))}
		all := make([]faultAsked, 80)
		for i := range all {
			all[i] = c.asked()
		}
		for i, got := range findAll(t, ctx, all) {
			want := all[i].byRecord()
			got.FaultOhms, want.FaultOhms = measured{}, measured{} // held in English already
			if (got.Error == "") != (want.Error == "") || max(got.From-want.From, want.From-got.From,
				got.To-want.To, want.To-got.To) > nearMM || len(got.Cautions) != len(want.Cautions) {
				t.Fatalf("%s: %+v:\nthe page finds %+v\nrecord %+v", l.Tag(), all[i], got, want)
			}
			text := strings.Join(slices.Concat([]string{got.Error, got.Method, got.Formula, got.Core},
				got.Assumptions, got.Cautions), "\n")
			if words := known.in(text); len(words) > 0 {
				t.Fatalf("%s: %q in %q", l.Tag(), words, text)
			}
		}
		for _, cable := range []string{"0", "1"} {
			evaluate[bool](t, ctx, fmt.Sprintf(`(() => { const s = document.querySelector("form.fault [name=cable]"); s.value = %q;
	s.dispatchEvent(new Event("change")); return true; })()`, cable))
			for way := range figuresOf {
				walkFaultForm(t, ctx, known, l, way)
			}
		}
	}
}

// walked is what the fault form and the page around it showed on one walk.
type walked struct {
	Offered bool
	Errors  []string            // each once
	Shown   map[string][]string // after what was typed, what was not shown before
}

// walkingFaultForm chooses a way of reading, types what cannot be used and what can, and notes
// what is shown, in one go: asked for step by step the browser draws each of some hundred screens.
const walkingFaultForm = `(() => {
	const way = document.querySelector("form.fault [value=%s]"), errors = new Set(), seen = new Set(), shown = {};
	if (way.closest("label").hidden) return { Offered: false };
	way.click();
	const f = document.querySelector("form.fault"), note = (after) => {
		shown[after] = (%s).filter((s) => !seen.has(s));
		for (const s of shown[after]) seen.add(s);
	};
	for (const typed of ["", "x", "1,250", "19+-x", "0", "5", "46,5", "5000"]) {
		for (const e of f.querySelectorAll(".reading [name=value]")) e.value = typed;
		f.requestSubmit();
		note(typed);
		errors.add(f.querySelector(".error").textContent);
	}
	for (const [key, typed] of [["meter", "60"], ["warmer", "10"], ["coreShare", "120"], ["lead", "x"]]) {
		const e = f.querySelector("[data-key=" + key + "] [name=value]");
		if (!e) continue;
		e.value = typed;
		f.requestSubmit();
		note(key);
		e.value = "";
	}
	return { Offered: true, Errors: [...errors], Shown: shown };
})()`

// walkFaultForm holds what is shown on a walk to its language.
func walkFaultForm(t *testing.T, ctx context.Context, known foreignTo, l language.Language, way string) {
	t.Helper()
	w := evaluate[walked](t, ctx, fmt.Sprintf(walkingFaultForm, way, shown))
	if !w.Offered {
		return
	}
	if len(w.Errors) < 4 {
		t.Errorf("%s %s: only %d errors were shown: %v", l.Tag(), way, len(w.Errors), w.Errors)
	}
	for after, texts := range w.Shown {
		for _, text := range texts {
			if words := known.in(text); len(words) > 0 {
				t.Fatalf("%s, after %s %s: %q in %q", l.Tag(), way, after, words, text)
			}
		}
	}
}
