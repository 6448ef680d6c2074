package takeoff

import (
	"errors"
	"fmt"
	"math"
	"slices"
	"testing"

	"oxturn/layout/internal/published"
	"oxturn/layout/job"
	"oxturn/layout/plane"
)

var (
	near = published.Near
	off  = published.Off
)

// The figures of testdata/tables, each noticed when it is moved by 2 %.
func TestPublishedTables(t *testing.T) {
	published.Holds(t, "grout.csv", groutRow, published.Unnoticed{Column: "example", All: true,
		Why: "it names the row"})
	published.Holds(t, "mortar-notch.csv", notchRow)
}

// groutRow: example, length, width, joint, depth, density, kg/m²; the first is
// cut off at three places.
func groutRow(row []float64) error {
	tile := job.Tile{Length: row[1], Width: row[2], Joint: row[3], Thickness: row[4]}
	return off("kg/m²", GroutDepthShort(tile)*row[5], row[6], 0.002*row[6])
}

// notchRow: depth of notch in inches, least and most ft² of a 50 lb bag, mean
// bed in inches at 45 degrees to three places.
func notchRow(row []float64) error {
	k := slices.IndexFunc(trowelled, func(c trowelCoverage) bool { return math.Abs(c.notch-row[0]*plane.Inch) < 1e-9 })
	if k < 0 {
		return fmt.Errorf("no coverage is on file for a notch of %g in", row[0])
	}
	return errors.Join(off("least ft²", trowelled[k].least, row[1], 1e-9), off("most ft²", trowelled[k].most, row[2],
		1e-9),
		off("mean bed, in", MeanBed(row[0], math.Pi/4), row[3], 5e-4))
}

// rect is a floor of w x h mm with a corner at the origin.
func rect(w, h float64) plane.Region {
	return plane.FromRing(plane.Rectangle(plane.Pt(0, 0), plane.Pt(w, h)))
}
