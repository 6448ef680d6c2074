package layout

import "oxturn/layout/job"

// Explanations returns the warnings that laying the cable may give, by ID.
func Explanations() []job.Explanation {
	landing := func(corners, cable string) string {
		return "[[room]]\nname = \"Landing\"\ncorners = " + corners + "\ncables = [\"C\"]\n\n" +
			"[room.thermostat]\nwall = \"A\"\nfrom = \"600 mm\"\n\n" +
			"[[cable]]\nid = \"C\"\nvolts = 120\nlead = \"3 m\"\n" + cable + "\n"
	}
	return []job.Explanation{
		{ID: "W101", Title: "a floor sensor finds no place", Text: "A sensor lies midway between two runs, well inside the heated floor and away from other heat, and its tube reaches the box without crossing cable. " +
			"No gap of this room allows that for the sensor or for its spare. Without a spare, a sensor that fails means lifting tile; the cable plan shows what could be placed.",
			Bad:  landing("[[0, 0], [1200, 0], [1200, 600], [0, 600]]", "length = \"4 m\"\nwatts = 40"),
			Good: landing("[[0, 0], [1200, 0], [1200, 1000], [0, 1000]]", "length = \"10 m\"\nwatts = 100")},
	}
}
