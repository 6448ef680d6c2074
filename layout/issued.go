package layout

import (
	"fmt"

	"oxturn/layout/job"
	"oxturn/layout/route"
)

// Issued lays a room's cables as a layout file has them, in place of looking for
// routes: the job has said that they fit its room.
func (r *Room) Issued(j *job.Job) ([]route.Route, []job.Cable, []job.Diagnostic) {
	is := r.issuedRoom(j)
	if is == nil || len(is.Cables) == 0 {
		return nil, nil, []job.Diagnostic{r.Problem("room %q has no cable in %s", r.Job.Name, j.LaidBy.File)}
	}
	var routes []route.Route
	var labels []job.Cable
	for i, c := range is.Cables {
		zone := max(0, min(c.Zone, len(r.Zones)-1))
		labels = append(labels, Named(j, []string{c.Label})...)
		routes = append(routes, route.Route{
			Cable: i, Zone: zone, Path: c.Path, ColdLead: c.ColdLead, Return: c.Return, Spacing: c.Spacing,
			Share: r.Zones[zone],
			Lattice: route.Lattice{Origin: is.Pegs.Origin, Angle: is.Pegs.Angle, Pitch: j.Membrane.Pitch,
				Across: j.Membrane.Across, Loose: j.Strips != nil},
			Score: route.Score{Covered: c.Score.Covered, Bare: c.Score.Bare, Evenness: c.Score.Evenness,
				Straight: c.Score.Straight, Turns: c.Score.Turns},
		})
	}
	return routes, labels, nil
}

// CalledAsIssued gives cable i the name that it has in the plan the job is laid by: of
// a label's code one room of several is known.
func (r *Room) CalledAsIssued(j *job.Job, i int) {
	if j.LaidBy == nil {
		return
	}
	c := &r.Cables[i]
	var n int
	if _, err := fmt.Sscanf(r.issuedRoom(j).Cables[i].ID, "H%d", &n); err == nil && n > 0 {
		c.ID, c.Number = fmt.Sprintf("H%d", n), n
	}
}

func (r *Room) issuedRoom(j *job.Job) *job.IssuedRoom {
	for i := range j.LaidBy.Rooms {
		if is := &j.LaidBy.Rooms[i]; is.Name == r.Job.Name {
			return is
		}
	}
	return nil
}

// IssuedSensors places the sensors as a layout file has them.
func (r *Room) IssuedSensors(j *job.Job) {
	for _, s := range r.issuedRoom(j).Sensors {
		r.Sensors = append(r.Sensors, Sensor{Name: s.Name, Spare: s.Spare, Tip: *s.Tip, Lead: s.Lead,
			Why: fmt.Sprintf("as in plan %s", j.LaidBy.Code)})
	}
}
