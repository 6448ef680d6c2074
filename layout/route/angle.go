package route

import "oxturn/layout/plane"

// Angle returns the direction of the peg rows that Solve chooses where a
// Problem gives no lattice: that of most wall, modulo a quarter turn.
func Angle(walls []plane.Segment, zones []plane.Region) float64 { return mainAngle(walls, zones) }
