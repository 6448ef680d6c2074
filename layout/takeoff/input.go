package takeoff

import (
	"math"

	"oxturn/layout/job"
	"oxturn/layout/language"
	"oxturn/layout/plane"
	"oxturn/layout/tiling"
)

// Input is everything a take-off is made from. Areas are in mm², lengths in
// mm; nothing here is changed.
type Input struct {
	Status    job.Status
	Units     plane.Units // which system a basis names first
	Rooms     []Room
	Membrane  job.Membrane
	Tile      job.Tile
	Materials job.Materials
	Boards    []string  // layers of insulation board in the section, by name
	Bed       float64   // mm of bed under the tile in the section, 0: it shows none
	Cut       *CutPlan  // of the membrane; nil: strips are counted here
	Strips    []float64 // mm, those that loose cable is clipped to in place of a membrane; none: there is one
	Labour    []Labour  // no labour is taken off when empty
	// price of one pack by Line.Code, of one unit where it is not sold by the pack; wins over a product's own
	Prices map[string]float64
}

// A Room is one floor to take off. Floor, tiled and heated area are three
// figures and never stand for each other.
type Room struct {
	Name       string
	Floor      float64      // mm² inside the finished walls
	Heated     float64      // mm² that the cable serves
	Tiled      plane.Region // floor that gets membrane and tile
	Tiles      *tiling.Layout
	Uncounted  error   // why there is no layout; nil with none: the pattern is not known
	Perimeter  float64 // mm of tile edge to be sealed; 0: the whole edge of Tiled
	Joints     []Joint
	Doorways   []float64 // mm wide, of those without a threshold
	Cables     []Cable
	Thermostat *Thermostat        // nil when the room has none of its own
	Undecided  []string           // fixtures that are not chosen yet
	Questions  []language.Message // whatever else is open in this room
}

// A Joint is a movement joint to be filled. Width 0: the sealant's own width.
type Joint struct {
	Name          string
	Length, Width float64 // mm
	WidthSource   job.Source
}

// A Cable is one cable of the plan.
type Cable struct {
	Name  string // H1, H2... on the drawings
	Label job.Cable
}

// A Thermostat is a box on the wall with what rises to it.
type Thermostat struct {
	Rise        float64          // mm from the floor to the box
	Limits      bool             // it is to keep the floor below a limit
	Relay       bool             // the load is more than its contacts carry
	ColdLeads   int              // coming up to the box
	Sensors     int              // wired ones, normally 1
	Spares      int              // spare sensors, never wired
	SensorTube  float64          // mm of tube over the floor, all sensors
	LeadOnFloor float64          // mm of cold lead over the floor, all cables
	Kind        language.Message // what it must be, in words; empty: not known
}

// A CutPlan is a membrane cut on purpose; it replaces the count of strips.
type CutPlan struct {
	Packs int     // whole rolls or sheets
	Taken float64 // mm² of membrane cut from them
	Seams float64 // mm
	Note  language.Message
}

// A Labour is one phase of work at the job file's own rates.
type Labour struct {
	Phase     string
	Heated    bool    // counted on the heated area, else on the tiled one
	PerHour   float64 // m² an hour, 0: Fixed alone
	Fixed     float64 // hours, whatever the area
	HourCost  float64
	Crew      int // who are at it together; 0: one
	Visits    int // ways to the site for it
	VisitCost float64
}

// tiled returns the tiled area of all rooms in mm².
func (in Input) tiled() float64 { return in.sum(func(r Room) float64 { return r.Tiled.Area() }) }

// heated returns the heated area of all rooms in mm².
func (in Input) heated() float64 { return in.sum(func(r Room) float64 { return r.Heated }) }

// edge returns the length of tile edge of all rooms in mm.
func (in Input) edge() float64 {
	return in.sum(func(r Room) float64 {
		if r.Perimeter > 0 {
			return r.Perimeter
		}
		return edgeOf(r.Tiled)
	})
}

// crackWidth is the width in mm of tiled floor that is no floor but what a fixture
// measured a little off its wall leaves behind it.
const crackWidth = 5.0

// edgeOf returns the length of a tiled floor's edge, without the two sides of
// each crack.
func edgeOf(tiled plane.Region) float64 {
	whole := tiled.Perimeter()
	inner, err := tiled.Grow(-crackWidth / 2)
	if err != nil {
		return whole
	}
	opened, err := inner.Grow(crackWidth / 2)
	if err != nil {
		return whole
	}
	corners := 0
	for _, ring := range tiled.Rings() {
		corners += len(ring)
	}
	rounded := float64(corners) * (2 - math.Pi/2) * crackWidth / 2 // what growing takes off square corners
	if whole-opened.Perimeter() <= 2*rounded {
		return whole
	}
	return opened.Perimeter()
}

func (in Input) sum(of func(Room) float64) float64 {
	total := 0.0
	for _, r := range in.Rooms {
		total += of(r)
	}
	return total
}
