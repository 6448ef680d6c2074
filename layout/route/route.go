package route

import (
	"oxturn/layout/circuit"
	"oxturn/layout/plane"
)

// A Problem is one room: its zones share the entry and the floor the cold
// leads cross. All lengths in mm.
type Problem struct {
	Floor plane.Region // where cold leads may run: the floor less what stands on it
	// where the cable's centre line may be, clearances already taken off; one a zone, never joined
	Zones   []plane.Region
	Walls   []plane.Segment // the room's walls, for the lattice's direction
	Entry   plane.Point     // where the cold leads come down
	Cables  []Cable
	Pitch   float64         // peg to peg
	Closest int             // smallest gap between runs, in pegs
	Widest  int             // largest gap between runs that a plan may use, in pegs
	Uneven  *Uneven         // set: the pegs lie otherwise one way than the other; nil: all Pitch apart
	Bend    float64         // radius of the centre line round a corner
	Low     []plane.Region  // floor where an end may lie best
	Avoid   []plane.Region  // floor where an end should not lie: doorways, door swings, flanges
	Lattice *Lattice        // set: the pegs are as given (already laid); nil: chosen
	Frozen  [][]plane.Point // per cable, the part already laid, start of heat first; nil: nothing laid
	Asks    []Ask           // what is asked of each zone's cables, by zone; those beyond its end: nothing
	Brief   bool            // set: only the first looks are taken, and a refusal gives no lengths
	Steps   *Steps          // what the search may cost, and is taken off it; nil: what StepsFor gives the problem
	// asked now and then, from several goroutines; once true, the search ends with ErrStopped. nil: never
	Stop func() bool
	// the answers to problems solved before: what is among them is not searched for; nil: none
	Known *Memory
}

// A Cable is one cable to be laid. WattsPerMetre and MaxDensity give the local
// power cap; a zero MaxDensity means none.
type Cable struct {
	ID            string
	Length        float64      // mm, used up exactly
	Within        *plane.Point // a place in the zone that it must serve, or the nearest; nil: any zone
	Ends          circuit.Ends
	LeadReach     float64 // mm of cold lead there is for the floor; 0: no limit
	WattsPerMetre float64
	MaxDensity    float64 // W/m²
}

// An Ask is what the cables of a zone are asked for.
type Ask struct {
	// runs lie along the lattice's axis nearest to this direction, radians; nil: along either. The first that is along
	// neither axis of the walls turns the pegs
	Rows *float64
	// the heat starts as near to this place as the cable's share of the floor comes; nil: anywhere
	Start *plane.Point
}

// An Uneven is a lattice whose pegs are Problem.Pitch apart along its angle, and otherwise across it. A number of
// pegs is no distance there, so that the gaps are given in mm, in place of Closest and Widest: a gap is as many whole
// pegs, counted across its runs, as lie between the two.
type Uneven struct {
	Across          float64 // peg to peg, across the lattice's angle
	Closest, Widest float64 // the gaps
	// the angle is that of the walls nearest to this direction, radians; nil: that of the longer way of the floor, or
	// across it where routes are clearly better there
	Along *float64
	// over 0: the cable is held by nothing but strips across its runs, so far apart. Runs lie along the angle only,
	// none but the last is shorter, and each link goes from one run to the next
	Held float64
}

// ask is what is asked of a zone's cables.
func (p Problem) ask(zone int) Ask {
	if zone >= len(p.Asks) {
		return Ask{}
	}
	return p.Asks[zone]
}

// A Lattice is the grid of pegs: the channel positions where cable may run.
type Lattice struct {
	Origin plane.Point // one lattice point
	Angle  float64     // of the rows, radians counter-clockwise from east: in [0, pi/2), where Across is set in [0, pi)
	Pitch  float64
	Across float64 // peg to peg across the angle; 0: Pitch, as along it
	Loose  bool    // strips across the angle hold the cable, their clips Across apart; Pitch is a step
}

// A Route is one cable as laid out.
type Route struct {
	Cable    int           // index into Problem.Cables
	Zone     int           // index into Problem.Zones
	Path     []plane.Point // corner points, start of heat first, end cap last; every corner rounded with Problem.Bend
	ColdLead []plane.Point // over the floor, from the entry to the start of heat
	Return   []plane.Point // the second cold lead of a cable with both ends cold, from the end to the entry; nil else
	Lattice  Lattice
	Rows     float64      // direction of the runs, radians counter-clockwise from east
	Share    plane.Region // the part of the zone this cable serves
	Spacing  float64      // mean distance between neighbouring runs, mm
	Score    Score
}

// A Score holds the terms a route is judged by; see score.go for each.
type Score struct {
	Covered  float64 // share of the region within reach of a cable
	Bare     float64 // farthest point from any cable over half the ideal spacing
	Evenness float64 // coefficient of variation of cable per area
	Straight float64 // share of cable in legs of 500 mm and more
	Turns    int     // corners
	Total    float64 // the weighted sum, smaller is better
}

// A Refusal is why no route was found. It is an error for the user to act on,
// never a half-good route.
type Refusal struct {
	Cable    int     // index into Problem.Cables, -1 when it is not about one cable
	Zone     int     // index into Problem.Zones, -1 when it is not about one zone
	Reason   string  // in plain words
	Shortest float64 // feasible range of lengths for the zone as it stands, mm; 0 when unknown
	Longest  float64
	Cold     float64 // share of the floor that the best route leaves cold, where that is too much; else 0
	// mm of cold lead to the nearest place where heat may start, where the lead is at fault: infinite where no way
	// leads there; else 0
	Lead  float64
	Early bool // the search was ended before it was through: there may be a route
	Start bool // it is about the place where the heat was to start: without that there may be a route
}

// Error returns the reason.
func (r *Refusal) Error() string { return r.Reason }
