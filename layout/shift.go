package layout

import "oxturn/layout/takeoff"

// A Shift is what becomes of an order when a room is a little longer or shorter
// than the job says.
type Shift struct {
	Room    string
	East    bool    // longer from west to east; false: from south to north
	By      float64 // mm, negative: shorter
	Laid    bool    // the cables were laid in the changed room; false: judged by the area they would serve
	Keeps   bool    // the cables of the plan still go in, at Spacing
	Spacing float64 // mean gap between runs that they would have, mm; 0: they were laid and do not go in
	Instead string  // what would: other cables of the catalogue, or that none does
	Counted bool    // quantities were taken off anew; not so in a job of many rooms
	Changes []takeoff.Change
	Problem string // why the changed room cannot be looked at
}
