// Package job reads a job file: the one text file in which a room, its
// fixtures and its cable are described. What it returns is checked and
// resolved: every length in millimetres, everything placed on the floor, and
// every value still knowing where in the file it stands.
package job

import (
	"fmt"
	"strings"
	"time"

	"oxturn/layout/circuit"
	"oxturn/layout/language"
	"oxturn/layout/plane"
	"oxturn/layout/say"
)

// A Job is a whole job file.
type Job struct {
	File      string      // name of the job file, as given, for messages
	Catalogue string      // the file that has more cables, as the job names it; empty: none
	PriceFile string      // likewise the one with prices
	Units     plane.Units // how drawings read unless Sheet.Units says otherwise
	Info      Info
	Membrane  Membrane
	Strips    *Strips // in place of a membrane; nil: there is one
	Spacing   Spacing
	Clearance Clearance
	Supply    Supply
	Circuits  []Circuit
	Sensor    Sensor
	Tile      Tile
	BuildUp   []Layer
	Materials Materials
	Currency  string // of prices and costs, as printed
	Language  language.Language
	Also      []language.Language // the second of two; none of one
	Governs   language.Language   // whose text holds where two differ
	Warmth    Warmth
	Energy    Energy
	Labour    []Labour
	HandOver  HandOver
	Proposal  ProposalTerms
	Prices    []Price // of the price file, in its order
	Cables    []Cable // inline ones first, then the catalogue's, in file order
	Rooms     []Room
	Laid      []Laid      // what is known of cables that lie, in file order
	LaidBy    *IssuedPlan // by what plan the floor is laid; nil: it is worked out
	Sheet     Sheet
	Notes     []string
	Revisions []Revision
	Spans     Spans // by dotted path: "units", "membrane.pitch", "spacing.closest"
}

// Spans says where single values stand in a file, by key; the thing itself has
// the empty key.
type Spans map[string]Span

// At returns where a value stands; where the file leaves it out, where the
// table stands in which it would be.
func (s Spans) At(key string) Span {
	for {
		if v, ok := s[key]; ok || key == "" {
			return v
		}
		key = key[:max(0, strings.LastIndexByte(key, '.'))]
	}
}

// Source tells whether a value is in the file or a default.
func (s Spans) Source(key string) Source {
	if _, ok := s[key]; ok {
		return FromJob
	}
	return FromDefault
}

// Source says where a limit or quantity comes from, for printing beside it.
type Source int

// The origins a value may have.
const (
	FromDefault Source = iota
	FromJob
	FromLabel
	FromInstructions
)

// String returns the source in the words printed on a sheet.
func (s Source) String() string {
	return [...]string{"default", "job file", "label", "instructions"}[s]
}

// Membrane is the pegged sheet that holds the cable. Lengths in mm.
type Membrane struct {
	Pitch      float64 // peg to peg, along the roll; half of that where rows are staggered: from channel to channel
	Across     float64 // peg to peg across the roll, where that is another; 0: the same
	Staggered  bool    // every second row of pegs lies half a pitch on
	BendRadius float64 // centre line of the cable round a corner; default half the closest gap
	RollWidth  float64 // 0 when it comes in sheets
	RollLength float64
	SheetSize  [2]float64 // width and length of a single sheet, 0 when it comes in rolls
	Height     float64    // height of the pegs, filled with mortar
	VoidShare  float64    // share of that height that mortar fills

	HeightSource, VoidShareSource Source
	Waste                         float64 // share added when there is no cut plan
}

// Strips hold loose cable by clips, across its runs. Along the runs nothing does: what stands for the pitch of pegs
// there, in Membrane, is a step. Lengths in mm.
type Strips struct {
	Apart     float64 // from strip to strip at most
	FromTurns float64 // how far the first and the last lie from where the runs turn
}

// Spacing is the allowed gap between neighbouring runs, in pegs, or, where those lie otherwise one way than the
// other, as lengths.
type Spacing struct {
	Closest, Widest int     // 0 where the lengths hold
	Least, Most     float64 // mm; 0 where the pegs hold
	Search          float64 // how far routes are looked for, in times of the usual
}

// Uneven reports whether a number of pegs is no distance: they lie otherwise one way than the other.
func (j *Job) Uneven() bool { return j.Membrane.Across > 0 }

// Near is the closest gap allowed, mm.
func (j *Job) Near() float64 {
	if j.Uneven() {
		return j.Spacing.Least
	}
	return float64(j.Spacing.Closest) * j.Membrane.Pitch
}

// Far is the widest gap allowed, mm.
func (j *Job) Far() float64 {
	if j.Uneven() {
		return j.Spacing.Most
	}
	return float64(j.Spacing.Widest) * j.Membrane.Pitch
}

// Gaps are the gaps allowed, in words: in pegs, or as lengths where those are no distance.
func (j *Job) Gaps() string {
	if j.Uneven() {
		return fmt.Sprintf("gaps of %s to %s", say.Apart(j.Near(), j.Units), say.Apart(j.Far(), j.Units))
	}
	return fmt.Sprintf("%d to %d pegs", j.Spacing.Closest, j.Spacing.Widest)
}

// NearGap is the closest gap allowed in words, FarGap the widest.
func (j *Job) NearGap() string { return j.gap(j.Spacing.Closest, j.Near()) }

// FarGap is the widest gap allowed, in words.
func (j *Job) FarGap() string { return j.gap(j.Spacing.Widest, j.Far()) }

func (j *Job) gap(pegs int, mm float64) string {
	if j.Uneven() {
		return say.Apart(mm, j.Units)
	}
	return say.Counted(pegs, "peg")
}

// PegPitch is peg to peg along the roll, mm.
func (m Membrane) PegPitch() float64 {
	if m.Staggered {
		return 2 * m.Pitch
	}
	return m.Pitch
}

// Peg is how far from one another pegs are at most, mm: a measure for what is looked at peg by peg.
func (j *Job) Peg() float64 { return max(j.Membrane.Pitch, j.Membrane.Across) }

// Clearance is how far the cable's centre line stays from things of a kind,
// in mm. A thing's own clear wins.
type Clearance struct {
	Wall, Fixture, Joint    float64
	Flange, Drain           float64 // from the ring's edge
	Register, Hearth        float64 // other heat sources
	Fixing                  float64 // round something to be screwed down later
	Column, Island, KeepOut float64
}

// What a limit of power per area may be over.
const (
	OverHeated = "heated floor" // within the clearances
	OverEven   = "even spacing" // cable length times even spacing
)

// Supply is what the electrician brings.
type Supply struct {
	Volts            float64 // 0: not given, the cables' own voltage is assumed and said so
	ThermostatAmps   float64 // rating of the thermostat's contacts
	MaxDensity       float64 // W/m², allowed locally and overall; 0: none given
	MaxDensitySource Source
	MaxDensityOver   string // OverHeated or OverEven; empty: whichever is stricter
	Region           string // as the job names it; Job.Region says which holds
}

// Tile is the finished floor.
type Tile struct {
	Width, Length, Joint, Thickness float64
	Pattern                         string  // "straight", "offset", "diagonal", "herringbone"
	Offset                          float64 // of every second row of "offset", share of a tile; 0: half
	Start                           string  // "balanced", "tile", "joint", "door"; empty: balanced
	Waste                           float64 // for cuts and breakage, by area
	Breakage                        float64 // alone, where the cuts are counted
	PerBox                          int
	GroutCure                       int       // days, 0: not stated
	Grouted                         time.Time // zero: not yet, or not written down
}

// A Layer is one layer of the build-up, top to bottom. Conductivity 0: unknown.
type Layer struct {
	Name         string
	Kind         string    // "tile", "mortar", "membrane", "board", "wood", "concrete", "screed", "other"
	Thickness    float64   // mm
	Conductivity float64   // W/(m K)
	Density      float64   // kg/m³
	HeatCapacity float64   // J/(kg K)
	Own          bool      // the file gives its conductivity
	Source       string    // of conductivity, density and heat capacity, in words
	CureDays     int       // before the floor is warmed, 0: not stated
	Placed       time.Time // zero: not yet, or not written down
}

// A Product is something bought by the pack.
type Product struct {
	Name     string
	Pack     float64 // size of a pack in Unit
	Unit     string  // "kg", "L", "m", "m²"
	Coverage float64 // m² a pack, 0: not given
	Yield    float64 // litres wet a pack, 0: not given
	Density  float64 // dry kg/L (grout)
	Waste    float64
	Price    float64
	Source   Source // default unless the job file speaks of it
}

// Materials are the yields of what is bought by area or volume.
type Materials struct {
	BondMortar, FillMortar, BedMortar Product
	BedThickness                      float64 // mean bed under the tile, mm
	BedNotch                          float64 // depth in mm of the trowel's notch that lays it; 0: BedThickness holds
	Grout                             Product
	Sealant                           Product
	SealantWidth, SealantDepth        float64
	BedSource                         Source // of the bed's thickness or notch
	SealantWidthSource                Source
	SealantDepthSource                Source // default: the tile's thickness
	Primer                            Product
	Board                             Product // insulation board; not taken off when Pack is 0
	Band                              Product // seam and corner band
	Waterproofing                     Product // of the floor; not taken off without a coverage
}

// A Cable is one catalogue cable, by its label.
type Cable struct {
	ID        string
	Volts     float64
	Watts     float64
	Length    float64 // mm of heating cable
	Ohms      float64 // 0: not on the label
	OhmsLow   float64 // tolerance as shares: -0.05
	OhmsHigh  float64 // +0.10
	Tolerance Source
	Lead      float64 // mm of cold lead
	Count     int     // how many there are, of a list of stock; 0: as many as are wanted
	Ends      circuit.Ends
	Diameter  float64 // mm, 0 when not given
	MinBend   float64
	Price     float64
	Span      Span
	Spans     Spans
}

// A Wall is one side of the room, lettered A, B, C... in the order written.
type Wall struct {
	Letter string
	plane.Segment
	Arc *Arc // of a side of a curved wall; nil: it is straight
}

// A Room is one tiled floor.
type Room struct {
	Name         string
	Outline      plane.Ring // finished wall faces, in the order written
	Walls        []Wall
	Closure      Closure
	Taped        []float64 // mm, of each wall as it was typed, before all were adjusted to close; nil: not taped
	MeasuredTo   string    // "finish", "stud": to what the tape was held
	Openings     []Opening
	Fixtures     []Fixture
	KeepOuts     []KeepOut
	Partitions   []Partition // their solid pieces are among the keep-outs
	Fixings      []Fixing
	Joints       []Joint
	Low          []plane.Ring // floor where warmth matters least: the cable may end there
	Thermostat   Thermostat
	Cables       []string                 // catalogue ids, those asked for in zones last; empty: choose
	Zones        []Zone                   // parts of the floor that are spoken of
	Revised      []Revised                // places that revisions changed
	FirstPeg     *plane.Point             // a crossing of the peg channels, nil: chosen
	FirstTile    plane.Segment            // from a corner of a whole tile as set out, along its row; zero: not recorded
	whole        map[string]plane.Segment // walls that niches part, by letter
	tileFound    Span                     // where a record as laid says so; no file: none does
	Density      float64                  // W/m² asked for when choosing, 0: default
	Start        *plane.Point             // the corner in which the heat is to start; nil: anywhere
	Along        *float64                 // direction of its runs, radians counter-clockwise from east; nil: either
	Rolled       *float64                 // the same of the membrane's roll, where that matters; nil: the longer way
	Exposed      float64                  // mm of its edge along outside walls, where ExposedGiven
	Loss         *Loss                    // nil: no heat loss is worked out
	ExposedGiven bool
	Span         Span
	Spans        Spans
}

// Closure is how far taped walls missed their start before they were adjusted.
type Closure struct {
	Gap     float64 // mm, 0 when given by corners or closing exactly
	Bearing float64 // degrees clockwise from north
	Share   float64 // gap over perimeter
}

// An Opening is a doorway or cased opening in a wall.
type Opening struct {
	Name      string
	Kind      string  // "door", "opening", "window"
	Wall      int     // index into Walls
	From, To  float64 // mm from the wall's start
	Swing     string  // "in", "out", "slide", "none"
	Hinge     string  // "start" or "end" of the opening along the wall
	Threshold bool    // one will be screwed down: it stands in the room's Fixings too
	Span      Span
	Spans     Spans
}

// FixtureKind is what stands on the floor.
type FixtureKind string

// The kinds of fixture a job file may name.
const (
	Toilet    FixtureKind = "toilet"
	Vanity    FixtureKind = "vanity"
	Tub       FixtureKind = "tub"
	Shower    FixtureKind = "shower"
	Cabinet   FixtureKind = "cabinet"
	Appliance FixtureKind = "appliance"
	Island    FixtureKind = "island"
	Column    FixtureKind = "column"
	Hearth    FixtureKind = "hearth"
	Drain     FixtureKind = "drain"
	Register  FixtureKind = "register"
)

// A Fixture stands on the floor: its outline is floor without heat.
type Fixture struct {
	Kind         FixtureKind
	Name         string
	Outline      plane.Ring
	Back         plane.Segment // its back edge, A to B with the fixture on the left
	Width, Depth float64
	Clear        float64
	ClearSource  Source
	Tiled        bool    // tile runs under it (vanity on legs, toilet); false: it stands on the subfloor
	Undecided    bool    // reserved, not chosen yet
	Flange       *Flange // toilets only
	Heat         bool    // gives off heat: sensors stay away
	Heated       bool    // the floor below is warmed: a shower's own, or under what stands on legs
	on           *base   // what it stands against, nil: nothing it was told to
	Span         Span
	Spans        Spans
}

// A Flange is the ring a toilet is bolted to.
type Flange struct {
	Centre plane.Point
	Radius float64
	Clear  float64 // from the ring's edge
}

// A Stand is a fixture or a keep-out: what stands on the floor, or is to.
type Stand struct {
	Name    string
	Outline plane.Ring
	Open    bool // the floor below it is warmed and gives off its heat: what stands on legs, a heated shower
}

// Stands returns a room's fixtures, then its keep-outs.
func (r *Room) Stands() (out []Stand) {
	for _, f := range r.Fixtures {
		out = append(out, Stand{f.Name, f.Outline, f.Heated})
	}
	for _, k := range r.KeepOuts {
		if !k.Cold {
			out = append(out, Stand{k.Name, k.Outline, false})
		}
	}
	return out
}

// A KeepOut is a free-form area without cable.
type KeepOut struct {
	Name      string
	Outline   plane.Ring
	Clear     float64
	Tiled     bool
	Partition bool // a solid piece of one
	Cold      bool // floor like any other, which stays cold on purpose
	Span      Span
	Spans     Spans
}

// A Fixing is something to be screwed or drilled into the floor later.
type Fixing struct {
	Kind  string // "door stop", "threshold", "shower glass", "anti-tip bracket", ...
	Name  string
	Of    string        // the opening that a threshold is of, by its name; empty of others
	Line  []plane.Point // one point, or a line
	Clear float64
	Span  Span
	Spans Spans
}

// A Joint is a movement joint: no heating cable crosses it.
type Joint struct {
	Name string
	plane.Segment
	Clear float64
	Width float64
	Span  Span
	Spans Spans
}

// A Thermostat is the box the leads rise to.
type Thermostat struct {
	At      plane.Point // where its wall meets the floor
	Wall    int         // index into Walls; -1 on a partition
	Along   float64     // mm from the wall's start
	Face    *Face       // of the partition that it hangs on, nil: it hangs on a wall
	Height  float64     // of the box above the floor
	Tail    float64     // lead wanted inside the box
	Slack   float64     // lead kept as slack on the floor
	Circuit string      // name of the circuit that feeds it; see Job.Circuit
	Limit   float64     // °C that its floor sensor is set to keep the floor below; 0: not given
	Span    Span
	Spans   Spans
}

// A Face is the left or the right one of a partition, as one goes from its start to its end.
type Face struct {
	Partition int // index into Partitions
	Right     bool
}

// Sheet is how the drawings are to look.
type Sheet struct {
	Size        string  // "A4" to "A0", "letter", "tabloid", "ANSI C" to "E", "arch C" to "E"; empty: chosen
	Orientation string  // "portrait", "landscape" or empty: whichever is larger
	Scale       string  // "1:20", `1/2in = 1ft` or empty: the largest standard one that fits
	Ratio       float64 // what Scale means: 20, 24; 0 when empty
	Units       plane.Units
	FieldSheet  *bool   // one field sheet in place of cable plan and setting out; nil: by the paper
	Both        bool    // print the other units in brackets
	North       float64 // degrees clockwise from the sheet's up
	Letterhead  []string
	TitleArea   float64 // mm² kept for a title block that is not compact; 0, as in every file: what it takes
}

// A Revised is a place of a floor that a revision changed.
type Revised struct {
	Letter string // of the revision
	At     plane.Point
}

// A Revision is one row of the revision table.
type Revision struct {
	Letter, Text, By string
	Date             time.Time
}
