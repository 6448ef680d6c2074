package main

import (
	"context"
	"fmt"
	"math"
	"time"

	"github.com/chromedp/cdproto/cdp"
	"github.com/chromedp/cdproto/input"
	"github.com/chromedp/chromedp"
)

// touch has fingers do one thing at places of the window.
func (p person) touch(what input.DispatchTouchEventType, places ...[2]float64) {
	p.t.Helper()
	points := []*input.TouchPoint{}
	for i, at := range places {
		id := float64(i)
		points = append(points, &input.TouchPoint{X: at[0], Y: at[1], ID: &id})
	}
	if err := chromedp.Do(p.ctx, chromedp.Func(func(ctx context.Context, t *chromedp.Target) error {
		_, err := cdp.Call(ctx, t, input.DispatchTouchEvent, input.DispatchTouchEventParams{Type: what,
			TouchPoints: points})
		return err
	})); err != nil {
		p.t.Fatal(err)
	}
}

// byMouse zooms a sheet by the wheel, with what lies under the pointer held where it is, up to a
// bound, and moves it by the mouse.
func (p person) byMouse() {
	p.t.Helper()
	mouse := func(what input.DispatchMouseEventParams) {
		p.t.Helper()
		if err := chromedp.Do(p.ctx, chromedp.Func(func(ctx context.Context, t *chromedp.Target) error {
			_, err := cdp.Call(ctx, t, input.DispatchMouseEvent, what)
			return err
		})); err != nil {
			p.t.Fatal(err)
		}
	}
	look := func() (out [4]float64) {
		fmt.Sscan(p.value(`((q) => [q.x, q.y, view.box()[2] / view.paper[2], view.svg.getScreenCTM().a].join(" "))`+
			`(view.at(150, 200))`), &out[0], &out[1], &out[2], &out[3])
		return out
	}
	wheel := input.DispatchMouseEventParams{Type: input.DispatchMouseEventTypeMouseWheel, X: 150, Y: 200,
		DeltaX: 0.01, DeltaY: -200} // both must be there, and none is left out
	was := look()
	mouse(wheel)
	if now := look(); now[2] > 0.9*was[2] || math.Hypot(now[0]-was[0], now[1]-was[1]) > 0.01 {
		p.t.Errorf("a turn of the wheel shows %v, before %v", now, was)
	}
	for range 60 {
		mouse(wheel)
	}
	if now := look(); now[2] < 1.0/201 || now[2] > 1.0/190 {
		p.t.Errorf("the wheel zooms in until 1/%g of the paper is seen", 1/now[2])
	}
	wheel.DeltaY = 200
	for range 30 {
		mouse(wheel)
	}
	was = look()
	for _, at := range []struct {
		what    input.DispatchMouseEventType
		x, y    float64
		buttons int64
	}{{input.DispatchMouseEventTypeMousePressed, 150, 200, 1},
		{input.DispatchMouseEventTypeMouseMoved, 165, 190, 1}, {input.DispatchMouseEventTypeMouseMoved, 180, 180, 1},
		{input.DispatchMouseEventTypeMouseReleased, 180, 180, 0}} {
		mouse(input.DispatchMouseEventParams{Type: at.what, X: at.x, Y: at.y, Button: input.MouseButtonLeft,
			Buttons: at.buttons, ClickCount: 1})
	}
	if now := look(); math.Abs((was[0]-now[0])*now[3]-30) > 0.1 || math.Abs((was[1]-now[1])*now[3]+20) > 0.1 {
		p.t.Errorf("the mouse goes 30 px right and 20 up: at its first place is %v, before %v", now, was)
	}
}

// fingers zooms a photo with two, moves it with one, and holds one still to see what it hides.
func (p person) fingers(s site) {
	p.t.Helper()
	const start, move, end = input.DispatchTouchEventTypeTouchStart, input.DispatchTouchEventTypeTouchMove,
		input.DispatchTouchEventTypeTouchEnd
	if err := chromedp.Do(p.ctx, chromedp.EmulateViewport(390, 844, chromedp.EmulateTouch)); err != nil {
		p.t.Fatal(err)
	}
	p.open(s, s.at("hall.toml"))
	p.choose("#photo-pick", s.at("hall-1.jpg"))
	p.until(`document.querySelector("[data-photo]")`)
	p.value(`document.querySelector("[data-photo]").click()`)
	p.until("view.photo && view.svg")
	var was, now [4]float64
	box := func(to *[4]float64) {
		fmt.Sscan(p.value(`view.box().join(" ")`), &to[0], &to[1], &to[2], &to[3])
	}
	box(&was)
	p.touch(start, [2]float64{150, 250}, [2]float64{240, 250})
	p.touch(move, [2]float64{120, 250}, [2]float64{270, 250})
	p.touch(move, [2]float64{90, 250}, [2]float64{300, 250})
	p.touch(end)
	if box(&now); now[2] > 0.6*was[2] || now[2] < 0.3*was[2] {
		p.t.Errorf("two fingers that go from 90 px to 210 apart show %g px of the photo, before %g", now[2], was[2])
	}
	was = now
	p.touch(start, [2]float64{200, 250})
	p.touch(move, [2]float64{180, 240})
	p.touch(move, [2]float64{150, 230})
	p.touch(end)
	if box(&now); now[0] <= was[0] || now[2] != was[2] || p.value("pointing.pending") != "null" {
		p.t.Errorf("one finger that goes left shows %v, before %v; a point: %s", now, was, p.value("pointing.pending"))
	}
	p.touch(start, [2]float64{200, 250})
	time.Sleep(50 * time.Millisecond)
	p.until(`pointing.pending && !document.getElementById("loupe").hidden`)
	held := p.value("pointing.pending[0]")
	p.pictured("11-held")
	p.touch(move, [2]float64{215, 250})
	p.touch(move, [2]float64{230, 250})
	p.touch(end)
	p.until("pointing.pending[0] > " + held)
	after := now
	if box(&now); now != after {
		p.t.Errorf("the photo moved under a finger that moves a point: %v, before %v", now, after)
	}
}
