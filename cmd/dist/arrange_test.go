package main

import (
	"fmt"
	"math"
	"strings"
	"testing"

	"github.com/chromedp/cdproto/input"
	"github.com/chromedp/chromedp"
	"github.com/chromedp/chromedp/kb"
)

// TestArranging moves what stands in a room by finger and by keys; each act is an edit of the job's text.
func TestArranging(t *testing.T) {
	s := photoSite(t)
	p := atTheOpenPage(t, s.page)
	if err := chromedp.Do(p.ctx, chromedp.EmulateViewport(390, 844, chromedp.EmulateTouch)); err != nil {
		t.Fatal(err)
	}
	s.write(t, "store.toml", []byte(store))
	p.choose("#open", s.at("store.toml"))
	p.until(`job.name === "store.toml" && document.querySelector("[data-arrange]")`)
	p.value(`document.querySelector("[data-arrange]").click()`)
	p.until(`placing.room && view.svg && placing.marks.childElementCount > 5`)
	p.byFinger()
	p.byKeys()
	p.pictured("12-arranged")
	p.value(`document.getElementById("plan-back").click()`)
	p.until(`!view.hand && document.querySelector("[data-arrange]")`)
}

// store is a room without a cable, so that nothing is routed while things are moved in it.
const store = `units = "mm"

[membrane]
pitch = 30

[[room]]
name = "Store" # below the stair
corners = [[0, 0], [3000, 0], [3000, 2000], [0, 2000]]

[[room.opening]]
wall = "B"
from = 600 # from the corner
width = 760

[[room.fixture]]
kind = "vanity"
wall = "C"
to_end = "20cm" # to the wall

[[room.keep_out]]
name = "post"
outline = [
  [1800, 1000], # nearest the door
  ["2 m", 1000],
  [2000, 1200],
]

[[room.joint]]
from = "A 1.5 m"
to = "C 1.5 m" # over the slab's

[room.thermostat]
wall = "A"
from = 2700
`

// becomes waits for the job to be what it was with one piece of it changed.
func (p person) becomes(what, was, old, now string) string {
	p.t.Helper()
	want := strings.Replace(was, old, now, 1)
	if want == was {
		p.t.Fatalf("%s: the job has no %q", what, old)
	}
	p.until(`job.text !== ` + quoted(was) + ` && !placing.pose`)
	if got := p.value("job.text"); got != want {
		p.t.Errorf("%s: the job is not as it should be:\n%s", what, got)
	}
	return p.value("job.text")
}

// pull takes a finger from one place of the floor to another.
func (p person) pull(x1, y1, x2, y2 float64) {
	p.t.Helper()
	ax, ay := p.where(x1, -y1)
	bx, by := p.where(x2, -y2)
	p.touch(input.DispatchTouchEventTypeTouchStart, [2]float64{ax, ay})
	for i := 1.0; i <= 4; i++ {
		p.touch(input.DispatchTouchEventTypeTouchMove, [2]float64{ax + (bx-ax)*i/4, ay + (by-ay)*i/4})
	}
	p.touch(input.DispatchTouchEventTypeTouchEnd)
}

func (p person) byFinger() {
	p.t.Helper()
	was := p.value("job.text")
	p.pull(2990, 980, 40, 1000)
	was = p.becomes("a door on the opposite wall", was, "wall = \"B\"\nfrom = 600 #", "wall = \"D\"\nfrom = 620 #")
	p.sees("#tip", "wall D, 620 mm from its start, 620 mm to its end")
	p.pull(600, 1750, 420, 1700)
	was = p.becomes("a vanity pushed into its corner", was, `to_end = "20cm" #`, `to_end = "0 cm" #`)
	p.pull(1500, 1500, 1250, 1500)
	was = p.becomes("a joint on walls", was, "from = \"A 1.5 m\"\nto = \"C 1.5 m\" #",
		"from = \"A 1.25 m\"\nto = \"C 1.75 m\" #")
	before := was
	p.pull(1930, 1060, 1600, 700)
	p.until(`job.text !== ` + quoted(was) + ` && !placing.pose`)
	var x, y float64 // where it snaps to hangs on how large the window is
	fmt.Sscan(p.value(`placing.room.things.find((t) => t.kind === "keep_out").shape[0].join(" ")`), &x, &y)
	if math.Hypot(x-1470, y-640) > 150 {
		p.t.Errorf("the outline begins at %g, %g", x, y)
	}
	was = p.becomes("an outline", was, "[1800, 1000], # nearest the door\n  [\"2 m\", 1000],\n  [2000, 1200]",
		fmt.Sprintf("[%g, %g], # nearest the door\n  [\"%g m\", %g],\n  [%g, %g]", x, y, (x+200)/1000, y, x+200, y+200))
	p.value(`document.getElementById("undo").click()`)
	p.becomes("taken back", was, was, before)
	p.value(`document.getElementById("redo").click()`)
	p.becomes("and done again", before, before, was)
	p.enter("#plan-add", "column")
	x, y = p.where(2500, -500)
	p.touch(input.DispatchTouchEventTypeTouchStart, [2]float64{x, y})
	p.touch(input.DispatchTouchEventTypeTouchEnd)
	p.until(`document.querySelector("#thing-form h3")?.textContent.startsWith("column")`)
	if got := p.value("job.text"); !strings.Contains(got, "kind = \"column\"\nat = [2500, 500]\nwidth = 300\n") {
		p.t.Errorf("the column stands elsewhere:\n%s", got)
	}
}

// byKeys moves the box without a finger, gives it an exact place, and takes the column out.
func (p person) byKeys() {
	p.t.Helper()
	p.tabTo("[data-thing='room/0/thermostat']")
	p.keys(kb.Enter)
	p.until(`document.activeElement === document.getElementById("paper")`)
	was := p.value("job.text")
	p.keys(kb.ArrowLeft)
	p.keys(kb.ArrowLeft)
	was = p.becomes("two steps to the left", was, "from = 2700", "from = 2680")
	p.keys(kb.Enter)
	p.until(`document.activeElement.dataset.key === "room/0/thermostat/wall"`)
	p.enter(`[data-key="room/0/thermostat/from"]`, "2635")
	p.becomes("an exact figure", was, "from = 2680", "from = 2635")
	p.value(`document.getElementById("paper").focus()`)
	p.keys(kb.ArrowUp)
	p.until(`placing.room.sides[placing.thing.side].name === "C"`) // pushed off wall A
	p.value(`placing.choose("room/0/fixture/1")`)
	p.value(`document.getElementById("paper").focus()`)
	p.keys(kb.Delete)
	p.until(`!job.text.includes("column")`)
	if comments := strings.Count(p.value("job.text"), "#"); comments != strings.Count(store, "#") {
		p.t.Errorf("%d comments are left", comments)
	}
}
