// Package layout holds a Plan: everything about the floor that is worked out of a
// job, as plain data with the questions that are asked of it. Package build and those
// below it fill it; it knows nothing of paper.
package layout

import (
	"fmt"
	"strconv"
	"strings"

	"oxturn/layout/language"

	"oxturn/layout/circuit"
	"oxturn/layout/job"
	"oxturn/layout/membrane"
	"oxturn/layout/plane"
	"oxturn/layout/record"
	"oxturn/layout/route"
	"oxturn/layout/takeoff"
	"oxturn/layout/tiling"
)

// A Plan is a whole job, worked out.
type Plan struct {
	Job      *job.Job
	Code     string // the plan's name: see package plancode
	Rooms    []Room
	TakeOff  takeoff.List
	Load     []Load            // one a thermostat, in room order
	Circuits []Circuit         // what feeds them
	ToLookUp []circuit.Warning // what the region's rules remind of
	Shifts   []Shift           // what rooms an inch off would change, by area; none where a room has no cable
	FullUse  *FullUse          // nil: nothing of the job is known to cure

	Membrane *membrane.Plan // nil when it cannot be planned
	Warmth   *Warmth        // nil when the job gives no layers
	Losses   []RoomLoss     // of the rooms that the job gives a loss for
	Offer    *Offer         // nil: the job is no proposal
}

// A Room is one floor, worked out. Areas are regions so that they can be drawn
// as well as measured; the three are never mixed up.
type Room struct {
	Job     *job.Room
	Floor   plane.Region   // inside the finished walls
	Tiled   plane.Region   // floor less what stands on the subfloor
	Heated  plane.Region   // where the centre lines of the room's cables may be: all zones that a cable serves
	Zones   []plane.Region // floor for cable, cut by movement joints and by what the cable keeps off
	Named   []*job.Zone    // what the job says of each of them; nil: nothing
	Bare    plane.Region   // zones with room for a cable and none in them
	Cold    plane.Region   // zones that stay without cable on purpose
	NoCut   []NoCut
	Cables  []Cable
	Sensors []Sensor
	Chosen  *Choice    // set when the job left the choice of cable open
	Warm    *WarmFloor // nil: its warmth is not known

	Tiles   []tiling.Layout // how the tile is laid and, where that is proposed, what it was weighed against
	NoTiles error           // why there is none; nil with none: no cable, or a pattern that is not known
}

// Reason is why a piece of floor or wall must not be drilled or cut.
type Reason int

// The reasons a no-cut zone may have, cable first.
const (
	HasCable     Reason = iota // heated floor: cable below
	ForFixture                 // floor kept free of cable under and round a fixture
	ForFixing                  // floor kept free of cable so that something may be fixed there
	LeadRise                   // wall and floor where the leads rise to the box
	ForJoint                   // strip along a movement joint
	ForPartition               // floor under and along a wall that stands in the room
	LeftCold                   // floor that stays without cable on purpose
)

// A NoCut is a zone of one reason.
type NoCut struct {
	Reason Reason
	Name   string
	Region plane.Region
}

// JointName letters movement joint i of so many.
func JointName(i, of int) string {
	if of == 1 {
		return "MJ"
	}
	return fmt.Sprintf("MJ%d", i+1)
}

// A Cable is one cable as it is to be laid.
type Cable struct {
	ID         string // H1, H2... on the drawings
	Number     int    // of the ID
	Several    bool   // its room has other cables, so that a run's number alone names none
	Label      job.Cable
	Zone       int           // index into Room.Zones
	Path       []plane.Point // corner points, start of heat first
	BendRadius float64
	Routed     float64       // mm along Path with its bends
	Spacing    float64       // mean gap between neighbouring runs, mm
	Share      plane.Region  // the floor this cable serves
	Density    float64       // W/m² at even spacing: over AtEven
	ColdLead   []plane.Point // from the thermostat's foot to the start of heat
	Return     []plane.Point // second cold lead of a single-conductor cable, from the end to the foot
	LeadReach  float64       // mm of lead there is for the floor: lead less rise, tail and slack
	Runs       []Run
	Marks      []Mark // quarter, half, three-quarter
	Lattice    route.Lattice
	Score      route.Score
	Reserves   []Reserve     // the drift it takes, at the half-way mark and at 3/4; nil: not known, or it is recorded
	Laid       *Laid         // what is known of it as it lies; nil: nothing
	Circuit    circuit.Cable // ohms with their limits, amps, heat per length
	Gaps       Gaps          // to neighbouring runs, and how dense it gets there

	Tested   []record.Reading
	Verdicts []record.Verdict
	Unjudged error // why readings could not be held against the limits
}

// Halfway returns the half-way mark.
func (c *Cable) Halfway() Mark {
	return c.Marks[1]
}

// RunName names run n of the cable as the drawings number it: 3, or 2.3 for the
// third run of H2 in a room with several cables.
func (c *Cable) RunName(n int) string {
	if !c.Several {
		return strconv.Itoa(n)
	}
	return fmt.Sprintf("%d.%d", c.Number, n)
}

// A Reserve is how much drift the plan of a cable takes, by what a mark tells,
// before anything laid must be lifted or more than ReserveCold of its floor stays
// cold. It is a bound: turns still to be laid are pushed outwards or drawn in, or
// the end comes sooner. Where the router lays the rest anew, more may go.
type Reserve struct {
	Mark string  // "1/2" or "3/4"
	At   float64 // mm of cable at that mark
	Less float64 // share by which less cable may be used than drawn
	More float64 // share by which more may be used
}

// A Run is one straight pass of cable as an installer counts it.
type Run struct {
	Number     int
	From, To   plane.Point
	Direction  string // "east", "north-west"...
	Pegs       int
	GapToNext  int     // pegs to the next run, 0 for the last
	RunningEnd float64 // mm of cable used at its end, bends counted

	Leg int // the leg of the path it is: from corner leg-1 to corner leg
}

// A Mark is a place known by its running length.
type Mark struct {
	Name  string  // "1/4", "1/2", "3/4"
	Along float64 // mm from the start of heat
	At    plane.Point
	Run   int     // number of the run it lies on or just left
	Into  float64 // mm from that run's start
}

// A Sensor is a floor sensor's place. Spare is the second one, never wired.
type Sensor struct {
	Name  string // S1, S2
	Spare bool
	Tip   plane.Point
	Lead  []plane.Point // from the thermostat's foot to the tip
	Why   string
	Found *plane.Point // where the tip really lies; nil: not recorded
	// FoundLead: the lead's way was recorded too
	FoundLead bool
}

// A Load is what one thermostat feeds.
type Load struct {
	Room string
	circuit.Load
}

// A Circuit is what one branch circuit feeds. Job is nil for a thermostat of
// which the job names no circuit: it then stands for itself alone.
type Circuit struct {
	Job     *job.Circuit
	Rooms   []string
	Total   circuit.Load      // contacts only where it feeds a single thermostat
	Ratings []circuit.Binding // the breaker's where the job gives it, else the region's usual ones
	Drop    *circuit.Drop     // nil: length or conductor is not given
}

// Name is what messages call the circuit.
func (c Circuit) Name() string {
	if c.Job == nil {
		return "the circuit of " + strings.Join(c.Rooms, ", ")
	}
	return "circuit " + c.Job.Name
}

// A Choice says why a cable was taken and what else was looked at.
type Choice struct {
	Taken     []string
	Why       language.Message
	RunnersUp []Candidate
}

// A Candidate is a cable or a pair that was tried.
type Candidate struct {
	IDs     []string
	Fits    bool   // it was laid, within the limits
	Unlaid  bool   // it may fit, by its length, and was not tried
	Why     string // why not, when it does not fit or was not tried
	Spare   int    // cables more than the floor's parts need
	Spacing float64
	Density float64
	Covered float64 // share of all the floor that could be heated

	Off    float64 // from the density asked for, a share of it, by estimate
	Within bool    // by estimate, it is within the limits

	OverHeated float64 // W/m² over the heated floor it is for, by estimate
}
