package build

import (
	"fmt"
	"slices"

	"oxturn/layout"
	"oxturn/layout/job"
	"oxturn/layout/plane"
	"oxturn/layout/route"
	"oxturn/layout/say"
)

// nearZone is how far a place that names a zone may lie from the floor for cable, mm: in
// the strip along a wall or a thing.
const nearZone = 300

// askZones finds the zones that the job speaks of, leaves out those that stay cold, and
// says which cannot be told apart; nil where all is well.
func askZones(r *layout.Room, j *job.Job) *job.Diagnostic {
	spoken := map[int]*job.Zone{}
	for i := range r.Job.Zones {
		z := &r.Job.Zones[i]
		at := zoneAt(r, z)
		if at < 0 {
			d := r.Problem("zone %q of room %q: there is no floor for cable within %s of its place", z.Name, r.Job.Name,
				plane.FormatLength(nearZone, j.Units))
			d.Span, d.Hint = z.Spans.At("at"), "give any place in it that is clear of walls and of what stands about"
			return &d
		}
		if other := spoken[at]; other != nil {
			d := r.Problem("zones %q and %q of room %q are one piece of floor", other.Name, z.Name, r.Job.Name)
			d.Span = z.Spans.At("at")
			d.Hint = "part them by a movement joint ([[room.joint]]) or a partition, or leave a piece cold by its " +
				"outline " +
				"([[room.cold]])"
			return &d
		}
		spoken[at] = z
	}
	keepWarm(r, spoken)
	return oneLattice(r)
}

// oneLattice refuses runs asked for in directions that no one set of pegs has.
func oneLattice(r *layout.Room) *job.Diagnostic {
	first, said := (*float64)(nil), ""
	for i := range r.Zones {
		rows, of := r.AskOf(i).Rows, zoneWords(r, i)
		if rows == nil {
			continue
		}
		if first == nil {
			first, said = rows, of
			continue
		}
		if skew := route.Skew(*first, *rows); skew > route.OffAxis {
			d := r.Problem("room %q: the runs of %s and of %s are asked for %s apart, and the pegs of a room lie "+
				"in one direction", r.Job.Name, said, of, say.Angle(plane.Degrees(skew)))
			d.Span = r.Job.Spans.At("along")
			if z := r.Spoken(i); z != nil && z.Along != nil {
				d.Span = z.Spans.At("along")
			}
			d.Hint = "let them run the same way or square to one another, or draw the floor as two rooms"
			return &d
		}
	}
	return nil
}

// keepWarm takes what stays cold out of a room's zones.
func keepWarm(r *layout.Room, spoken map[int]*job.Zone) {
	zones := r.Zones
	r.Zones, r.Heated, r.Named = nil, nil, nil
	for i, zone := range zones {
		if z := spoken[i]; z != nil && z.Cold {
			r.Cold = append(r.Cold, zone...)
			continue
		}
		r.Zones, r.Named = append(r.Zones, zone), append(r.Named, spoken[i])
		r.Heated = append(r.Heated, zone...)
	}
}

// zoneAt is the zone in which a place lies, or the nearest one; -1: none is near.
func zoneAt(r *layout.Room, z *job.Zone) int {
	best, near := -1, float64(nearZone)
	for i, zone := range r.Zones {
		d := zone.Distance(z.At)
		if zone.Contains(z.At) {
			d = 0
		}
		if d < near {
			best, near = i, d
		}
	}
	return best
}

// orCold adds what else may leave no floor for cable.
func orCold(r *layout.Room) string {
	if !r.Cold.Empty() || slices.ContainsFunc(r.Job.KeepOuts, func(k job.KeepOut) bool { return k.Cold }) {
		return " or left cold"
	}
	return ""
}

// zoneWords names zone i of a room in messages.
func zoneWords(r *layout.Room, i int) string {
	if z := r.Spoken(i); z != nil {
		return fmt.Sprintf("zone %q", z.Name)
	}
	if len(r.Zones) == 1 {
		return "the room"
	}
	return "the rest of the room"
}
