package main

import (
	"fmt"
	"strings"
	"testing"
	"time"

	"github.com/chromedp/cdproto/input"
	"github.com/chromedp/chromedp"
	"github.com/chromedp/chromedp/kb"

	"oxturn/layout/skip"
)

// A drawnRoom is a room that is drawn by fingers alone: its walls, and what is put where, mm from
// its first corner.
type drawnRoom struct {
	name, units string
	walls       [][2]string
	put         []putThing
	has         []string // of the job's text in the end
}

type putThing struct {
	what string
	x, y float64
	way  string // how it is told to stand then; empty: as it came
}

// drawnRooms are rooms that are awkward to tell: a shower in a corner, a nook, a cut corner, a hall
// with a joint, an island between rows of cabinets, feet and inches.
var drawnRooms = []drawnRoom{
	{"shower in a corner", "mm", [][2]string{{"east", "2.6"}, {"north", "2.2"}, {"west", "2.6"}, {"south", "2.2"}},
		[]putThing{{"shower", 2600, 1900, "corner"}, {"toilet", 0, 1000, ""}, {"door", 1100, 0, ""}},
		[]string{"kind = \"shower\"\ncorner = \"C\"", "kind = \"toilet\"\nwall = \"D\""}},
	{"nook", "mm", [][2]string{{"east", "3"}, {"north", "1.5"}, {"west", "1.2"}, {"north", "1.4"}, {"west", "1.8"},
		{"south", "2.9"}},
		[]putThing{{"door", 1500, 0, ""}, {"toilet", 0, 2300, ""}, {"vanity", 1250, 2900, ""}},
		[]string{"kind = \"door\"\nwall = \"A\"\nfrom = 1120\nwidth = 760", "kind = \"toilet\"\nwall = \"F\"",
			"kind = \"vanity\"\nwall = \"E\""}},
	{"cut corner", "mm", [][2]string{{"east", "2.4"}, {"north", "1.6"}, {"north-west", "0.849"},
		{"west", "1.8"}, {"south", "2.2"}},
		[]putThing{{"door", 900, 0, ""}, {"cabinet", 600, 2200, ""}, {"column", 1700, 900, ""}},
		[]string{"north-west 0.849", "kind = \"cabinet\"\nwall = \"D\"", "kind = \"column\"\nat = ["}},
	{"hall", "mm", [][2]string{{"east", "4.9"}, {"north", "1.2"}, {"west", "4.9"}, {"south", "1.2"}},
		[]putThing{{"door", 0, 600, ""}, {"opening", 4900, 600, ""}, {"joint", 2400, 600, ""}},
		[]string{"[[room.joint]]\nfrom = [2400, 0]\nto = [2400, 1200]", "kind = \"opening\"\nwall = \"B\""}},
	{"island", "mm", [][2]string{{"east", "4"}, {"north", "3.6"}, {"west", "4"}, {"south", "3.6"}},
		[]putThing{{"cabinet", 700, 3600, ""}, {"appliance", 1600, 3600, ""}, {"island", 2300, 1400, ""},
			{"door", 3000, 0, ""}},
		[]string{"kind = \"cabinet\"\nwall = \"C\"", "kind = \"appliance\"\nwall = \"C\"",
			"kind = \"island\"\nat = ["}},
	{"feet and inches", "in", [][2]string{{"east", "9ft"}, {"north", "7ft 6-1/2in"}, {"west", "9ft"},
		{"south", "7ft 6-1/2in"}},
		[]putThing{{"tub", 1000, 2298, ""}, {"vanity", 2743, 900, ""}, {"door", 900, 0, ""}},
		[]string{"north 7ft 6-1/2in", "kind = \"tub\"\nwall = \"C\"", "kind = \"vanity\"\nwall = \"B\""}},
}

// TestRoomsByTouchAlone draws them on a phone: taps on buttons and fields, figures by the phone's
// pad, choices by its list, and taps on the plan.
func TestRoomsByTouchAlone(t *testing.T) {
	if !*everyCase {
		skip.Test(t, skip.NotAsked, "it draws six rooms; -page.all has it")
	}
	p := atTheOpenPage(t, photoSite(t).page)
	if err := chromedp.Do(p.ctx, chromedp.EmulateViewport(390, 844, chromedp.EmulateTouch)); err != nil {
		t.Fatal(err)
	}
	for _, r := range drawnRooms {
		t.Run(r.name, func(t *testing.T) {
			person{t: t, ctx: p.ctx}.draws(r)
		})
	}
}

func (p person) draws(r drawnRoom) {
	p.t.Helper()
	p.tapAt(`#mode-Files`)
	p.pick(`[aria-label="Room to start from"]`, "entry")
	p.pick(`[aria-label="Units"]`, r.units)
	p.tapAt(`#start`)
	p.until(`mode === "Room" && document.querySelector(".wall")`)
	p.cleared()
	for p.value(`document.querySelectorAll(".wall").length`) != fmt.Sprint(len(r.walls)) {
		n := p.value(`document.querySelectorAll(".wall").length`)
		if fmt.Sprint(len(r.walls)) < n {
			p.tapAt(`.wall:last-of-type button, .wall:nth-of-type(` + n + `) button`)
		} else {
			p.tapWords("One more wall")
		}
		p.until(`document.querySelectorAll(".wall").length !== ` + n)
	}
	for i, w := range r.walls {
		letter := string(rune('A' + i))
		p.pick(`[aria-label="Wall `+letter+` goes"]`, w[0])
		unit := " m"
		if r.units == "in" {
			unit = ""
		}
		p.types(`[aria-label="Length of wall `+letter+`"]`, w[1]+unit)
	}
	p.until(`document.querySelector(".wall ~ p[role=status]").textContent === "The walls close."`)
	p.tapAt("[data-arrange]")
	p.until(`placing.room && view.svg && placing.marks?.childElementCount > 1`)
	for _, put := range r.put {
		was := p.value("job.text")
		p.pick("#plan-add", put.what)
		x, y := p.where(put.x, -put.y)
		p.touch(input.DispatchTouchEventTypeTouchStart, [2]float64{x, y})
		p.touch(input.DispatchTouchEventTypeTouchEnd)
		p.until(`job.text !== ` + quoted(was))
		p.until(`document.querySelector("#thing-form")`)
		if put.way != "" {
			was = p.value("job.text")
			p.pick("#thing-way", put.way)
			p.until(`job.text !== ` + quoted(was))
		}
		p.tapAt("#thing-done")
	}
	p.tapAt("#plan-back")
	p.until(`!view.hand`)
	p.until(`document.querySelector("#status").textContent.startsWith("up to date")`)
	for _, words := range r.has {
		if got := p.value("job.text"); !strings.Contains(got, words) {
			p.t.Errorf("the job has no %q:\n%s", words, got)
		}
	}
	p.picture("touch-" + r.name)
}

// cleared takes out what the room came with, but for the box.
func (p person) cleared() {
	p.t.Helper()
	const first = `[data-table^="room/0/"]:not([data-table$="thermostat"])`
	for {
		left := p.value(`document.querySelectorAll('` + first + `').length`)
		if left == "0" {
			return
		}
		was := p.value("job.text")
		p.tapAt(first + " summary")
		p.until(`document.querySelector('` + first + `').open`)
		p.tapWords("Take out")
		p.until(`job.text !== ` + quoted(was))
		p.until(`document.querySelectorAll('` + first + `').length !== ` + left) // the forms follow
	}
}

// tapAt touches the middle of the first thing that a selector finds.
func (p person) tapAt(selector string) {
	p.t.Helper()
	p.tapOn(`document.querySelector(` + quoted(selector) + `)`)
}

// tapWords touches the first button with these words that can be seen.
func (p person) tapWords(words string) {
	p.t.Helper()
	p.tapOn(`[...document.querySelectorAll("button")].find((b) => b.offsetParent && b.textContent.startsWith(` +
		quoted(words) + `))`)
}

func (p person) tapOn(element string) {
	p.t.Helper()
	p.until(element)
	var x, y float64
	fmt.Sscan(p.value(`((e) => { e.scrollIntoView({ block: "center" }); const b = e.getBoundingClientRect();
		return [b.x + b.width / 2, b.y + b.height / 2].join(" "); })(`+element+`)`), &x, &y)
	p.touch(input.DispatchTouchEventTypeTouchStart, [2]float64{x, y})
	p.touch(input.DispatchTouchEventTypeTouchEnd)
	time.Sleep(50 * time.Millisecond)
}

// pick chooses of a list, which a phone shows in a way of its own that a test cannot touch.
func (p person) pick(selector, choice string) {
	p.t.Helper()
	p.enter(selector, choice)
}

// doubleTap is the time within which a browser takes two taps at one place for a double one, which sets no caret.
const doubleTap = 350 * time.Millisecond

// types touches a field, takes out what it has and types into it.
func (p person) types(selector, text string) {
	p.t.Helper()
	time.Sleep(doubleTap) // two fields are scrolled to one place: sooner it would be one tap on both
	p.tapAt(selector)
	p.until(`document.activeElement === document.querySelector(` + quoted(selector) + `)`)
	p.keys(kb.End + strings.Repeat(kb.Backspace, len(p.value("document.activeElement.value"))) + text)
	p.value("document.activeElement.blur()") // as the pad's own button does
	p.until(`document.querySelector(` + quoted(selector) + `).value === ` + quoted(text))
}
