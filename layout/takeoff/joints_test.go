package takeoff

import (
	"math"
	"strings"
	"testing"

	"oxturn/layout/job"
	"oxturn/layout/plane"
)

// 15 m² of 300x300, joint 3, depth 10, 1.7 kg/L and 10 %: 5.1 and 5.6 kg
// (superglobalcalculator.com/calculators/construction/grout).
func TestGroutPublishedSum(t *testing.T) {
	net := GroutDepthShort(job.Tile{Length: 300, Width: 300, Joint: 3, Thickness: 10}) * 1.7 * 15
	near(t, "kg", net, 5.1, 1e-9)
	near(t, "kg with waste", net*1.1, 5.6, 0.05)
}

// Exact geometry: 0.41828 kg/m² for 300x300, J4, D10, 1.6 kg/L; 1.0962 for a
// 48 mm mosaic, J3, D6, 1.6 (plain arithmetic on the module).
func TestGroutExactGeometry(t *testing.T) {
	near(t, "300x300", GroutDepth(job.Tile{Length: 300, Width: 300, Joint: 4, Thickness: 10})*1.6, 0.41828, 5e-6)
	near(t, "48x48", GroutDepth(job.Tile{Length: 48, Width: 48, Joint: 3, Thickness: 6})*1.6, 1.0962, 5e-5)
}

// Charts that print no density: what they imply must be one that dry grout has,
// 1.4 to 1.75 kg/L by the figures in print (1.5 unsanded, 1.7 sanded; the
// forum named in grout.csv). This checks the formula no closer than that, yet
// it tells the two formulas apart: for a mosaic the short one is out.
func TestDensityThatGroutChartsImply(t *testing.T) {
	in, ft2 := plane.Inch, 0.09290304
	square := func(side, joint, depth float64) job.Tile {
		return job.Tile{Length: side, Width: side, Joint: joint, Thickness: depth}
	}
	mosaic := square(0.375*in, in/16, 0.375*in)
	for what, implied := range map[string]float64{
		// sweatlodgeradio.com/how-do-you-calculate-epoxy-grout: 5 kg do 23 to 24 m²,
		// and 25 lb do about 200 ft² of 4-1/4 in tile
		"5 kg on 23 m²":      5.0 / 23 / GroutDepthShort(square(300, 2, 10)),
		"5 kg on 24 m²":      5.0 / 24 / GroutDepthShort(square(300, 2, 10)),
		"25 lb on 200 ft²":   25 / poundsPerKilo / (200 * ft2) / GroutDepthShort(square(4.25*in, in/8, in/4)),
		"0.94 lb/ft² + 10 %": 0.94 / 1.1 / poundsPerKilo / ft2 / GroutDepth(mosaic), // householdfaq.com, its chart
	} {
		if implied < 1.4 || implied > 1.75 {
			t.Errorf("%s: %.3f kg/L", what, implied)
		}
	}
	if short := 0.94 / 1.1 / poundsPerKilo / ft2 / GroutDepthShort(mosaic); short > 1.4 {
		t.Errorf("the short formula would do for a mosaic too: %.3f kg/L", short)
	}
}

// US form, 12x12 in, J 1/8, D 3/8, 1.6 kg/L: 0.06503 lb/ft² (plain arithmetic).
func TestGroutInPounds(t *testing.T) {
	in := plane.Inch
	kg := GroutDepthShort(job.Tile{Length: 12 * in, Width: 12 * in, Joint: in / 8, Thickness: 3 * in / 8}) * 1.6
	near(t, "lb/ft²", kg*poundsPerKilo*0.09290304, 0.06503, 1e-5)
}

// What tables in print give for a bag lies between their rows in between: 60
// and 80 ft² at a bed of 3.37 mm, 50 and 65 midway to the next (3.93 mm). Beds
// that no trowel of theirs leaves have no coverage.
func TestCoverageInPrint(t *testing.T) {
	ft2 := 0.09290304
	for _, c := range []struct{ bed, kilos, least, most float64 }{
		{MeanBed(9.525, math.Pi/4), 22.6796, 60, 80}, {MeanBed(11.1125, math.Pi/4), 22.6796, 50, 65},
		{MeanBed(6.35, math.Pi/4), 11.3398, 40, 50},
	} {
		least, most, ok := inPrint(c.bed, c.kilos)
		if !ok {
			t.Fatalf("nothing for %g mm", c.bed)
		}
		near(t, "least", least, c.least*ft2, 1e-4)
		near(t, "most", most, c.most*ft2, 1e-4)
	}
	for _, bed := range []float64{0, 1.5, 6, 30, math.NaN()} {
		if _, _, ok := inPrint(bed, 22.68); ok {
			t.Errorf("a bed of %g mm has a coverage", bed)
		}
	}
}

// 14.5 L on a bed of a 3/8 in notch, 3.368 mm, is 4.306 m² or 46.3 ft² a bag,
// less than the 60 ft² in print: said. 22 L are 6.53 m², 70.3 ft²: nothing to say.
func TestBedSaysWhatTablesGive(t *testing.T) {
	for yield, said := range map[float64]bool{14.5: true, 22: false} {
		in := Input{Units: plane.Inches, Rooms: []Room{{Name: "Bath", Tiled: rect(3000, 2000)}}}
		in.Materials.BedNotch = 9.525
		in.Materials.BedMortar = job.Product{Pack: 22.68, Unit: "kg", Yield: yield}
		note := line(t, counted(in), "bed-mortar").Note
		want := "46.3 ft² (4.31 m²) a bag, trowel tables in print 60 ft² (5.57 m²) to 80 ft² (7.43 m²) at best"
		if strings.Contains(note.String(), want) != said || strings.Contains(note.String(), "at best") != said {
			t.Errorf("%g L: %q", yield, note)
		}
	}
}
