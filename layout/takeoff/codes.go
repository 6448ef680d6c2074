package takeoff

import (
	"slices"
	"strings"
)

// lineCodes are those of the lines that a take-off may have, cables and labour
// apart, which are called by their own names.
var lineCodes = []string{
	"membrane", "strips", "strip-fixings", "bond-mortar", "fill-mortar", "bed-mortar", "tile", "grout", "edge-sealant",
	"joint-sealant",
	"backer-rod", "profile", "spacers", "waterproofing", "tape", "visits", "tester-hire", "primer", "board", "band",
	"thermostat", "relay", "sensor", "spare-sensor", "box", "conduit", "sensor-tube", "nail-plate",
}

// Known reports whether a take-off may have a line of a code. A price list for
// many jobs has more codes than one job needs.
func Known(code string) bool {
	return slices.Contains(lineCodes, code) || strings.HasPrefix(code, "cable ") || strings.HasPrefix(code, "labour ")
}

// OfHeating reports whether a line is of the cable, its controls or what they run in.
func OfHeating(code string) bool {
	return strings.HasPrefix(code, "cable ") || slices.Contains([]string{"thermostat", "relay", "sensor",
		"spare-sensor", "box", "conduit", "sensor-tube", "tape", "nail-plate"}, code)
}
