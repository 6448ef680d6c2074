package draft

import (
	"fmt"
	"math"
	"strconv"
	"strings"

	"oxturn/layout/job"
	"oxturn/layout/plane"
	"oxturn/layout/say"
)

// Text writes what was found as the rooms of a job file, in the units given. What a file
// from elsewhere cannot say, such as where the box is, is guessed and says so.
func (f *Found) Text(units plane.Units) string {
	w := &writer{units: units}
	for i := range f.Rooms {
		r := &f.Rooms[i]
		if r.Name == "" {
			r.Name = "Room"
			if len(f.Rooms) > 1 {
				r.Name = fmt.Sprintf("Room %d", i+1)
			}
		}
		w.room(r)
	}
	return w.b.String()
}

type writer struct {
	b     strings.Builder
	units plane.Units
}

func (w *writer) line(format string, args ...any) { fmt.Fprintf(&w.b, format+"\n", args...) }

// length writes a length as a bare number: whole millimetres, or sixteenths of an inch.
func (w *writer) length(v float64) string {
	if w.units == plane.Inches {
		return strconv.FormatFloat(math.Round(v/plane.Inch*plane.Sixteenths)/plane.Sixteenths, 'f', -1, 64)
	}
	return strconv.FormatFloat(math.Round(v), 'f', -1, 64)
}

func (w *writer) point(p plane.Point) string {
	return fmt.Sprintf("[%s, %s]", w.length(p.X), w.length(p.Y))
}

func (w *writer) ring(key string, ring plane.Ring) {
	var at []string
	for _, p := range ring {
		at = append(at, w.point(p))
	}
	w.line("%s = [%s]", key, strings.Join(at, ", "))
}

func (w *writer) room(r *Room) {
	w.line("\n[[room]]\nname = %s", job.Quoted(r.Name))
	if r.Walls != nil {
		w.walls(r.Walls)
	} else {
		w.corners(r.Outline)
	}
	for _, a := range r.Arcs {
		w.line("\n[[room.arc]]\nwall = %q\nrise = %s", job.WallLetter(a.Wall), w.length(a.Rise))
		if a.Into {
			w.line("into = true")
		}
	}
	for _, p := range r.Partitions {
		w.line("\n[[room.partition]]\nfrom = %s\nto = %s", w.point(p.A), w.point(p.B))
		for _, o := range p.Openings {
			w.line("\n[[room.partition.opening]]\nkind = %q\nfrom = %s\nwidth = %s", o.Kind, w.length(o.From),
				w.length(o.Width))
		}
	}
	for _, o := range r.Openings {
		w.line("\n[[room.opening]]\nkind = %q\nwall = %q\nfrom = %s\nwidth = %s", o.Kind, job.WallLetter(o.Wall),
			w.length(o.From), w.length(o.Width))
	}
	for _, x := range r.Fixtures {
		w.fixture(x)
	}
	for _, k := range r.KeepOuts {
		w.line("\n[[room.keep_out]]\nname = %s", job.Quoted(k.Name))
		if k.Diameter > 0 {
			w.line("at = %s\ndiameter = %s", w.point(k.At), w.length(k.Diameter))
			continue
		}
		w.ring("outline", k.Outline)
		if k.Rises != nil {
			var rises []string
			for _, v := range k.Rises {
				rises = append(rises, w.length(v))
			}
			w.line("rises = [%s]   # of its sides, one by one: how far each bulges out", strings.Join(rises, ", "))
		}
	}
	w.thermostat(r)
}

func (w *writer) walls(walls []Wall) {
	w.line("walls = [")
	for i, wall := range walls {
		w.line("  %-22s # %s", job.Quoted(wall.Typed(w.units))+",", job.WallLetter(i))
	}
	w.line("]")
}

func (w *writer) corners(ring plane.Ring) {
	w.line("corners = [   # each is where the wall beside it begins")
	for i := range ring {
		e := ring.Edge(i)
		w.line("  %-22s # %s, %s long", w.point(ring[i])+",", job.WallLetter(i), plane.FormatLength(e.Length(),
			w.units))
	}
	w.line("]")
}

func (w *writer) fixture(x Fixture) {
	w.line("\n[[room.fixture]]\nkind = %q", x.Kind)
	if x.Wall >= 0 {
		w.line("wall = %q\nfrom = %s", job.WallLetter(x.Wall), w.length(x.From))
	} else {
		w.line("at = %s\nangle = %s", w.point(x.At), say.Decimals(x.Angle, 1))
	}
	w.line("width = %s\ndepth = %s", w.length(x.Width), w.length(x.Depth))
}

// boxFromDoor is how far from a door's edge a box is guessed, mm: where a switch is.
const boxFromDoor = 200

// thermostat guesses where the box is: beside the first door, or in the middle of the
// longest wall.
func (w *writer) thermostat(r *Room) {
	ring := r.Outline
	if r.Walls != nil {
		ring = TapeOf(r.Walls).Points[:len(r.Walls)]
	}
	wall, from := placeForBox(r, ring)
	limit := "29 C"
	if w.units == plane.Inches {
		limit = "84 F"
	}
	w.line("\n[room.thermostat]          # guessed: say where the box is\nwall = %q\nfrom = %s", job.WallLetter(wall),
		w.length(from))
	w.line("floor_limit = %q       # to be set at hook-up: warmer is too warm to stand on for long", limit)
}

// placeForBox is a place for a box: on the wall of the first door beside it, where no
// fixture stands and there is room, else in the middle of the longest stretch of wall that
// nothing stands at.
func placeForBox(r *Room, ring plane.Ring) (wall int, from float64) {
	longest := 0.0
	for i := range ring {
		for _, s := range freeStretches(r, i, ring.Edge(i).Length()) {
			if s[1]-s[0] > longest {
				longest, wall, from = s[1]-s[0], i, (s[0]+s[1])/2
			}
		}
	}
	for _, o := range r.Openings {
		if o.Kind != "door" {
			continue
		}
		for _, at := range []float64{o.From + o.Width + boxFromDoor, o.From - boxFromDoor} {
			for _, s := range freeStretches(r, o.Wall, ring.Edge(o.Wall).Length()) {
				if s[0]+boxFromDoor/2 <= at && at <= s[1]-boxFromDoor/2 {
					return o.Wall, at
				}
			}
		}
	}
	return wall, from
}

// freeStretches are those of a wall with neither opening nor fixture.
func freeStretches(r *Room, wall int, length float64) [][2]float64 {
	var taken [][2]float64
	for _, o := range r.Openings {
		if o.Wall == wall {
			taken = append(taken, [2]float64{o.From, o.From + o.Width})
		}
	}
	for _, x := range r.Fixtures {
		if x.Wall == wall {
			taken = append(taken, [2]float64{x.From, x.From + x.Width})
		}
	}
	return plane.Free(length, taken)
}
