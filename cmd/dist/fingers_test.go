package main

import (
	"context"
	"fmt"
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
