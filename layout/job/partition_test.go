package job

import (
	"strings"
	"testing"

	"oxturn/layout/plane"
)

// Pieces of a wall from A at 1200 straight across, 100 mm thick, by hand: below and above
// a doorway of 700 mm that begins 300 mm up.
func TestPartitionPieces(t *testing.T) {
	r := roomOf(t, anticlockwise, "[[room.partition]]\nfrom = \"A 1200\"\nto = [1200, 9000]\nthickness = 100\n"+
		"[[room.partition.opening]]\nfrom = 300\nwidth = 700\n")
	if len(r.KeepOuts) != 2 || len(r.Partitions) != 1 {
		t.Fatalf("%d pieces of %d partitions", len(r.KeepOuts), len(r.Partitions))
	}
	for i, want := range []plane.Rect{{Min: plane.Pt(1150, 0), Max: plane.Pt(1250, 300)},
		{Min: plane.Pt(1150, 1000), Max: plane.Pt(1250, 2000)}} {
		b := r.KeepOuts[i].Outline.Bounds()
		samePoints(t, "piece", []plane.Point{b.Min, b.Max}, []plane.Point{want.Min, want.Max})
		if k := r.KeepOuts[i]; !k.Partition || k.Clear != 75 || k.Tiled {
			t.Errorf("piece %d: %+v", i, k)
		}
	}
	if o := r.Partitions[0].Openings[0]; o.Swing != "in" || o.Name != "door" {
		t.Errorf("the doorway: %+v", o)
	}
}

func TestPartitionsRefused(t *testing.T) {
	line := "from = \"A 1200\"\nto = \"A 1200, 900\"\n"
	door := "[[room.partition.opening]]\nwidth = 700\n"
	for _, c := range []struct{ text, want string }{
		{"from = \"Q 1200\"\nto = [1200, 900]\n", `stands on wall "Q"`},
		{"from = [1200, 300]\nto = [1200, 300]\n", "has no length"},
		{"from = [-500, -500]\nto = [-500, 900]\n", "misses room"},
		{line + "[[room.partition.opening]]\nfrom = 400\nwidth = 700\n",
			"would lie from 400 mm to 1100 mm; the partition is 900 mm long"},
		{line + door + "[[room.partition.opening]]\nfrom = 600\nwidth = 200\n", "overlaps door in partition 1"},
	} {
		if said := saidOf(t, anticlockwise, "[[room.partition]]\n"+c.text); !strings.Contains(said, c.want) {
			t.Errorf("%q: %s", c.text, said)
		}
	}
}

func TestZonesRefused(t *testing.T) {
	for _, c := range []struct{ text, want string }{
		{"at = [500, 500]\n", "nothing is said of zone"},
		{"at = [500, 500]\ncold = true\ncables = [\"X\"]\n", "is to stay cold and has cables"},
		{"at = [-500, 500]\ncold = true\n", "lies 500 mm outside the walls"},
	} {
		if said := saidOf(t, anticlockwise, "[[room.zone]]\n"+c.text); !strings.Contains(said, c.want) {
			t.Errorf("%q: %s", c.text, said)
		}
	}
}

// saidOf is what is said of a room with things in it.
func saidOf(t *testing.T, outline, things string) string {
	t.Helper()
	_, report := readText(head + "[[room]]\nname = \"R\"\n" + outline + things + tail)
	return spoken(report)
}
