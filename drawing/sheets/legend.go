package sheets

import (
	"slices"

	"oxturn/drawing/floorplan"
	"oxturn/drawing/lettering"
	"oxturn/drawing/setting"
	"oxturn/drawing/signs"
)

// legendOf explains the signs of a view that have to be told.
func legendOf(v *floorplan.View) setting.Legend { return setting.LegendOf(told(v), v.Fig.Language) }

// told are the signs of a view but for the evident ones. Nothing of the cable is ever left out.
func told(v *floorplan.View) []signs.Sign { return lettering.Without(v.Used, evident) }

// evident reports whether a sign needs no words: anyone knows it, or has its name beside it.
func evident(s signs.Sign) bool { return known(s) || named(s) }

// known reports whether anyone knows a sign without being told.
func known(s signs.Sign) bool {
	return slices.Contains([]signs.Sign{signs.Wall, signs.Door, signs.Sliding, signs.Cased, signs.Threshold,
		signs.Window}, s)
}

// named reports whether a sign has its name beside it, in full or as tables have it: a run's number,
// the share of the cable at a mark, P1 and P2, a start line's T1 and T2.
func named(s signs.Sign) bool {
	return slices.Contains([]signs.Sign{signs.Stand, signs.ToFix, signs.Run, signs.Half, signs.Quarter, signs.Crossing,
		signs.StartLine}, s)
}
