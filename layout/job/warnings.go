package job

import (
	"fmt"
	"strings"
)

// An Explanation says at length what a warning means.
type Explanation struct {
	ID, Title string
	Text      string // a paragraph
	Bad, Good string // the same piece of a job file, with and without the warning
}

// Explanations returns the warnings that reading a job file may give, by ID.
// Those of later phases are explained where they are raised.
func Explanations() []Explanation {
	cable := func(ohms string) string {
		return "[[cable]]\nid = \"A240-60\"\nvolts = 240\nwatts = 600\nlength = \"60 m\"\nohms = " + ohms +
			"\nlead = \"4 m\"\n"
	}
	room := func(more string) string {
		return "[[room]]\nname = \"Bath\"\ncorners = [[0, 0], [2850, 0], [2850, 2400], [0, 2400]]\n" + more
	}
	keepOut := func(x int) string {
		return fmt.Sprintf("\n[[room.keep_out]]\nname = \"tub\"\noutline = [[%d, 0], [1500, 0], [1500, 750], [%[1]d, "+
			"750]]\n", x)
	}
	vanity := func(from string) string {
		return "\n[[room.fixture]]\nkind = \"vanity\"\nwall = \"A\"\nfrom = \"" + from + "\"\n"
	}
	photographed := func(day string) string {
		text := "[[as_laid]]\nroom = \"R\"\nevidence = \"photo with tape\"\n\n[[as_laid.photo]]\nfile = " +
			"\"every-key.jpg\"\ndate = " + day + "\n"
		for _, p := range []string{"[20, 280]\ncorner = \"A\"", "[380, 280]\ncorner = \"B\"",
			"[300, 40]\ncorner = \"C\"", "[100, 40]\ncorner = \"D\""} {
			text += "\n[[as_laid.photo.point]]\nimage = " + p + "\n"
		}
		return text
	}
	return []Explanation{
		{"W001", "ohms do not go with volts and watts",
			"A cable's ohms are its volts squared over its watts, to within the tolerance on its label. When the " +
				"three disagree one of them was copied wrongly, " +
				"or the label belongs to another cable; every limit on the test record would be wrong with it.",
			cable("69.0"), cable("96.0")},
		{"W002", "a diagonal does not fit the walls",
			"A diagonal taped across the room differs by more than 1/2 in from what its walls make it. The room is " +
				"out of square, or one of the lengths was misread. " +
				"Cable lengths depend on it: 1 in on two walls of a small bath is more than the slack in most cables.",
			room("diagonals = [\"A-C 3.60 m\"]\n"), room("diagonals = [\"A-C 3.726 m\"]\n")},
		{"W003", "measured to studs, lining not given",
			"The walls were measured to their studs, so the finished room will be smaller by the board and tile on " +
				"every wall. Say how thick they are and the room is drawn to its finished faces.",
			room("measured_to = \"stud\"\n"), room("measured_to = \"stud\"\nlining = \"19 mm\"\n")},
		{"W004", "a keep-out or low-value area reaches through a wall",
			"Part of the area lies beyond a wall. What is beyond is left out, but an outline that crosses a wall " +
				"often has one wrong corner.", room(keepOut(-300)), room(keepOut(0))},
		{"W005", "the leads come down behind a fixture",
			"The thermostat's leads reach the floor inside the outline of a fixture, where no cable may lie. Move " +
				"the box, or say how the leads get past.", room(vanity("1 m")), room(vanity("1.8 m"))},
		{"W006", "an allowed warning is never given",
			"The job accepts a warning that nothing in it calls for any more. Take the table out, so that the " +
				"warning is seen when it returns.",
			"[[allow]]\nid = \"W004\"\nreason = \"drawn so on purpose\"\n", ""},
		{"W007", "only TOML 1.1 allows this",
			"The file uses something that came with TOML 1.1 in December 2025, such as a line break inside { }. It " +
				"is read here, but many editors and other programs still know TOML 1.0 alone " +
				"and would mark or refuse the file.", "[spacing]\nclosest = 2\n[job]\ntitle = \"\\x42ath\"\n",
			"[spacing]\nclosest = 2\n[job]\ntitle = \"\\u0042ath\"\n"},
		{"W008", "a figure is unusual", "The figure is not impossible, but floors seldom have it, and where one does " +
			"not a unit was left out or a label misread. Look whether it was read as it was meant: the message says " +
			"as what. " +
			"`oxturn help job-file` has between what each key is taken; what lies beyond is refused. Floor cable " +
			"mostly gives 8 to 25 W/m (common practice).", strings.Replace(cable("96.0"), "60 m", "120 m", 1),
			cable("96.0")},
		{"W009", "a word is read as another", "A sink is let into a vanity, a fridge is an appliance, and center is " +
			"spelt centre here: such words of the trade are read as what they mean, and the first of each says as " +
			"what. Curly quotes, as phones set them, are read as straight ones. Editors that know the schema still " +
			"mark them.",
			room(strings.Replace(vanity("1.8 m"), "\"vanity\"", "\"sink\"", 1)), room(vanity("1.8 m"))},
		{"W010", "a photo is of another day than its camera says",
			"The job gives a photo another day than the camera wrote into it. Either the day was mistyped, the " +
				"clock of " +
				"the camera was wrong, or the photo is not the one that was meant: one taken on another day may show " +
				"another state of the floor.", photographed("2026-12-05"), photographed("2026-12-02")},
	}
}
