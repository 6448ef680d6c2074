package probe

import (
	"cmp"
	"fmt"
	"math"
	"slices"
	"strconv"
	"strings"

	"oxturn/layout/plane"
	"oxturn/layout/tiling"
)

// Verdict is what may be said of a spot.
type Verdict string

// The verdicts. There is none that calls a spot free of risk.
const (
	NoVerdict       Verdict = "NO VERDICT"
	CableHere       Verdict = "CABLE HERE"
	TooClose        Verdict = "TOO CLOSE"
	NothingRecorded Verdict = "NO CABLE RECORDED"
)

// A Near is one thing seen from a spot.
type Near struct {
	Thing
	Distance float64     // mm from the spot to its centre line
	Clear    float64     // Distance less half its width, its error and finger-room
	At       plane.Point // its nearest place
	Running  float64     // running length of cable there; negative: not counted
	Run      int         // number of the run; 0: not counted
}

// An Answer is what is known of a spot.
type Answer struct {
	Spot    plane.Point
	Inside  bool // the spot is in the room
	Verdict Verdict
	Reason  string  // why there is no verdict
	Within  float64 // mm round the spot in which nothing is recorded, for NothingRecorded
	Near    []Near  // the nearest thing of each kind, the least clear first
	Tile    *tiling.Place
	Whole   bool       // it is about the whole of that tile
	Stand   *StandNear // nil: nothing stands in the room
	Wall    *WallSpot  // where in a wall; nil: the spot is on the floor
}

// At answers for one spot.
func (m *Map) At(p plane.Point) Answer {
	return m.answer(p, func(t Thing) (plane.Point, float64, int, float64) { return plane.Nearest(t.Line, p) })
}

func (m *Map) answer(p plane.Point, far func(Thing) (plane.Point, float64, int, float64)) Answer {
	a := Answer{Spot: p, Inside: m.Outline.Contains(p), Stand: m.standNear(p)}
	best := map[Kind]int{}
	for _, t := range m.Things {
		at, off, leg, share := far(t)
		n := Near{Thing: t, Distance: off, Clear: off - t.Half - t.Error - t.Finger, At: at, Running: -1}
		if t.Along != nil {
			n.Running = t.Along[leg] + share*(t.Along[leg+1]-t.Along[leg])
			n.Run = runAt(t.RunEnds, n.Running)
		}
		if i, seen := best[t.Kind]; !seen {
			best[t.Kind] = len(a.Near)
			a.Near = append(a.Near, n)
		} else if n.Clear < a.Near[i].Clear {
			a.Near[i] = n
		}
	}
	slices.SortStableFunc(a.Near, func(x, y Near) int { return cmp.Compare(x.Clear, y.Clear) })
	if m.Tiling != nil {
		if t, ok := m.Tiling.At(p); ok {
			a.Tile = &t
		}
	}
	m.judge(&a)
	return a
}

// runAt is the number of the run that a running length falls on, or that it
// leads to.
func runAt(ends []float64, s float64) int {
	for i, e := range ends {
		if s <= e+1 {
			return i + 1
		}
	}
	return len(ends)
}

// judge settles the verdict: what was found within its error of the spot is
// there, what comes within finger-room beyond that is too close, and so is what
// was never recorded but planned near by.
func (m *Map) judge(a *Answer) {
	switch {
	case m.NoReason != "":
		a.Verdict, a.Reason = NoVerdict, m.NoReason
		return
	case !a.Inside:
		a.Verdict, a.Reason = NoVerdict, m.Textf("the spot is outside the walls of room %s, where nothing is recorded",
			strconv.Quote(m.Room))
		return
	}
	a.Verdict, a.Within, a.Reason = NothingRecorded, math.Inf(1), ""
	for _, n := range a.Near {
		switch {
		case n.Recorded && n.Distance-n.Half-n.Error <= 0:
			a.Verdict, a.Within = CableHere, 0
			return
		case n.Clear <= 0:
			a.Verdict, a.Within = TooClose, 0
		default:
			a.Within = math.Min(a.Within, n.Clear)
		}
	}
}

// OffWalls returns the spot that lies da and db mm from the faces of two walls
// named by their letters, square to each.
func (m *Map) OffWalls(a string, da float64, b string, db float64) (plane.Point, error) {
	i, err := m.wall(a)
	if err != nil {
		return plane.Point{}, err
	}
	k, err := m.wall(b)
	if err != nil {
		return plane.Point{}, err
	}
	p, ok := m.room.OffWalls(i, da, k, db)
	if !ok {
		return p, fmt.Errorf("walls %s and %s are parallel: measure from two walls that meet at about a right angle",
			m.Walls[i].Letter, m.Walls[k].Letter)
	}
	return p, nil
}

func (m *Map) wall(name string) (int, error) {
	for i, w := range m.Walls {
		if strings.EqualFold(w.Letter, name) {
			if w.Curved {
				return 0, fmt.Errorf("wall %s of room %q is curved: measure from straight walls", w.Letter, m.Room)
			}
			return i, nil
		}
	}
	return 0, fmt.Errorf("room %q has no wall %q; it has walls A to %s", m.Room, name, m.Walls[len(m.Walls)-1].Letter)
}
