package takeoff

import (
	"math"

	"oxturn/layout/job"
)

// GroutDepth returns the grout in a tiled floor as a mean depth in mm, that is
// litres per m², by exact joint geometry: [1 - LW/((L+J)(W+J))] D, the share
// of a tile with its joint that is not tile, times the depth. Joints are
// filled to the tile's full thickness.
func GroutDepth(t job.Tile) float64 {
	return (1 - t.Length*t.Width/((t.Length+t.Joint)*(t.Width+t.Joint))) * t.Thickness
}

// GroutDepthShort returns the same by the short formula in print,
// (L+W)/(LW) J D. It counts crossings twice and leaves the joint out of the
// floor area, so it is higher: 2 % for a large tile, 9 % for a 48 mm mosaic.
func GroutDepthShort(t job.Tile) float64 {
	return (t.Length + t.Width) / (t.Length * t.Width) * t.Joint * t.Thickness
}

// MeanBed returns the mean bed in mm that a square-notch trowel of a depth in
// mm leaves when it is held at an angle to the floor, in radians: half of the
// ridge, whose height is depth sin(angle), ridge and furrow being alike in
// width.
func MeanBed(depth, angle float64) float64 { return depth * math.Sin(angle) / 2 }
