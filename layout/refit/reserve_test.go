package refit_test

import (
	"fmt"
	"math/rand/v2"
	"testing"

	"oxturn/layout"
	"oxturn/layout/language"
	"oxturn/layout/refit"
)

// Whatever a reserve is said to take, a refit takes: nothing laid is lifted and no
// more floor stays cold. Tried at the half-way mark and at 3/4, at both ends of the
// reserve and at random between; among the rooms a cable with two cold ends, two
// cables, and a power limit.
func TestARefitTakesWhatTheReserveSays(t *testing.T) {
	r := rand.New(rand.NewPCG(3, 1))
	tried := 0
	for _, n := range someRooms(3, 4, 5) {
		text := roughRoom(n).text
		_, c := recorded(t, text, 0, "")
		for i, rs := range c.Reserves {
			for _, drift := range []float64{-rs.Less, -rs.Less * r.Float64(), rs.More * r.Float64(), rs.More} {
				tried++
				takes(t, n, c, drift, c.Marks[i+1])
			}
		}
	}
	if tried < 24 {
		t.Errorf("only %d drifts were tried", tried)
	}
}

// takes finds a mark of a random room's planned cable as far off as a drift, and wants a rest.
func takes(t *testing.T, room int, planned *layout.Cable, drift float64, m layout.Mark) {
	t.Helper()
	run := planned.Runs[m.Run-1]
	mark := fmt.Sprintf("[[as_laid.mark]]\nlength = \"%.2f mm\"\nrun = %d\npegs = %d\n", (1+drift)*run.RunningEnd,
		m.Run, run.Pegs)
	p, c := recorded(t, roughRoom(room).text, m.Run, mark)
	f, err := refit.New(p, &p.Rooms[0], c, refit.Way{})
	if err != nil || f.New == nil {
		t.Errorf("room %d, %+.2f %% at %s: %v, %+v", room, 100*drift, m.Name, err, f)
		return
	}
	checkRefit(t, p, f)
	if cold := f.Change.Cold / c.Share.Area(); cold > refit.ReserveCold+0.005 {
		t.Errorf("room %d, %+.2f %% at %s: %.1f %% of its floor stays cold", room, 100*drift, m.Name, 100*cold)
	}
}

// With one run beside the next at the closest gap of 2 pegs, 60 mm, a limit that those
// two gaps meet to within 3 % is what more drift runs into, not the floor.
func TestAReserveEndsAtThePowerLimit(t *testing.T) {
	_, c := recorded(t, plainRoom(2400, 2100, 40), 0, "")
	free := c.Reserves[0].More
	beside := 0.0 // the least of two gaps beside a run, mm
	for i, r := range c.Runs[1 : len(c.Runs)-1] {
		if sum := 30 * float64(c.Runs[i].GapToNext+r.GapToNext); r.GapToNext > 0 && c.Runs[i].GapToNext > 0 &&
			(beside == 0 || sum < beside) {
			beside = sum
		}
	}
	limit := 1.03 * 2 * 10 / beside * 1000 // 10 W/m over half the two gaps, and 3 %
	_, c = recorded(t, fmt.Sprintf("supply.max_density = \"%.2f W/m2\"\n", limit)+plainRoom(2400, 2100, 40), 0, "")
	// half a millimetre of the two gaps is forgiven
	if got := c.Reserves[0].More; free < 0.04 || got < 0.025 || got > 1.03*(beside+0.5)/beside-1 {
		t.Errorf("takes +%.2f %% with a limit 3 %% above, +%.2f %% without", 100*got, 100*free)
	}
}

// What has a record has none: how it stands, a refit says.
func TestNoReserveIsSaidOfWhatIsRecorded(t *testing.T) {
	if _, c := recorded(t, roughRoom(0).text, 3, ""); c.Reserves != nil {
		t.Errorf("partly laid: %+v", c.Reserves)
	}
}

// A reserve is rounded to the safe side, and said where there is none.
func TestAReserveInWords(t *testing.T) {
	for want, r := range map[string]layout.Reserve{
		"-1.8 % / +2.4 %":   {Less: 0.0189, More: 0.024},
		"nothing / +10.0 %": {Less: 0.0009, More: 0.1},
	} {
		if got := refit.Takes(r, language.English); got != want {
			t.Errorf("%+v takes %q, want %q", r, got, want)
		}
	}
}
