// Package route finds the path of heating cable over a peg lattice: one
// unbroken line of exactly the cable's length that never crosses itself,
// keeps its distance from itself and from every edge, and covers the region
// evenly. It knows nothing of jobs, rooms or drawings.
//
// A Problem states the floor, its zones for cable and the cables; Solve lays them and
// returns a Route for each, or a Refusal that says why there is none and which lengths
// would do. All lengths are in millimetres, all work is bounded by counted steps (Steps):
// the same problem gives the same routes on every machine.
//
// Pegs may lie otherwise one way than the other (Uneven), and cable may be held by nothing but
// strips across its runs (Uneven.Held): such strips are a lattice with the distance of their
// clips across the runs and any fine step along them.
//
// Score says how good a route is and EaseOf how easily it is laid; Sound holds a path
// made otherwise against the rules that the package's own keep.
//
// go test -run xxx -bench . in this package measures time, turns over the fewest that any
// path could have, and share of cable in long runs.
package route
