package sheets

import (
	"testing"

	"oxturn/drawing/setting"
)

// inAnL is a kitchen whose two cables have 66 runs.
const inAnL = `units = "in"
[sheet]
size = "letter"
[membrane]
pitch = "1.2in"
[spacing]
closest = 2
widest = 4
[[cable]]
id = "P120"
volts = 240
watts = 444
length = "120 ft"
lead = "12 ft"
[[cable]]
id = "P240"
volts = 240
watts = 888
length = "240 ft"
lead = "12 ft"
[[room]]
name = "Kitchen"
cables = ["P120", "P240"]
walls = ["east 14ft 2in", "north 6ft", "west 5ft", "north 7ft", "west 9ft 2in", "south 13ft"]
[[room.fixture]]
kind = "cabinet"
wall = "F"
from = 0
width = "13ft"
depth = "25in"
[room.thermostat]
wall = "D"
from = "30in"
height = "48in"
`

// TestPlanIsNotMadeSmallForItsLists: lists of runs that hold only in part beside the plan go on
// elsewhere; whoever lays by it has to count its runs.
func TestPlanIsNotMadeSmallForItsLists(t *testing.T) {
	p := planOf(t, inAnL)
	d, err := draw(p)
	if err != nil {
		t.Fatal(err)
	}
	d.checked(t)
	field := d.pages[0]
	if !kindNamed("field-sheet").Has(field.Sheet.ID) {
		t.Fatalf("the first sheet is %s", field.Sheet.ID)
	}
	const told = 1.8 // mm on paper: 1:48, where 1:64 holds more of the lists
	if setting.Narrow(&p.Rooms[0], field.Sheet.Ratio, told) {
		t.Errorf("runs %.0f mm apart are drawn 1:%.0f", p.Rooms[0].Cables[0].Spacing, field.Sheet.Ratio)
	}
}
