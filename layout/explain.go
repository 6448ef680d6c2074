package layout

import "oxturn/layout/job"

// Explanations returns the warnings that laying the cable may give, by ID.
func Explanations() []job.Explanation {
	box := func(at string) string {
		return "[[room]]\nname = \"Landing\"\ncorners = [[0, 0], [900, 0], [900, 700], [0, 700]]\n\n[room.thermostat]\nat = " + at + "\n"
	}
	return []job.Explanation{
		{ID: "W101", Title: "a floor sensor finds no place", Text: "A sensor lies midway between two runs, well inside the heated floor and away from other heat, and its tube reaches the box without crossing cable. " +
			"No gap of this room allows that for the sensor or for its spare. Without a spare, a sensor that fails means lifting tile; the cable plan shows what could be placed.",
			Bad: box("[450, 0]"), Good: ""},
		{ID: "W110", Title: "a cable as laid is not as long as its label says", Text: "A cable cannot be cut or stretched, so the corners or legs measured on the floor should add up to the length on its label, give or take what a tape can tell. " +
			"These differ by more than 4 %: a run has probably been left out or counted twice, and the map drawn from them would show cable where there is none.",
			Bad: "[[as_laid]]\nroom = \"Landing\"\nevidence = \"measured by hand\"\nstart = [90, 90]\nlegs = [\"north 17\", \"east 3\"]\n", Good: ""},
	}
}
