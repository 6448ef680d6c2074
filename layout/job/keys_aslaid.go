package job

import "slices"

// asLaidKeys: what is known of a cable once it lies on the floor.
func asLaidKeys() []Key {
	out := under(Key{Path: "as_laid", Type: TypeTables, Doc: "What is known of one cable as it really lies",
		Example: "[[as_laid]]\nroom = \"Bath\"\nevidence = \"measured by hand\""},
		Key{Path: "room", Type: TypeText, Required: true, Doc: "The room, by its name", Example: `room = "Bath"`},
		Key{Path: "cable", Type: TypeText, Otherwise: "the room's only cable",
			Doc: "The cable, by its name on the drawings", Example: `cable = "H1"`},
		Key{Path: "evidence", Type: TypeChoice, Values: evidenceNames(), Required: true,
			Doc: "How it was found out where the cable lies", Example: `evidence = "photo with tape"`},
		Key{Path: "date", Type: TypeDate, Doc: "When it was measured", Example: "date = 2026-12-02"},
		Key{Path: "by", Type: TypeText, Doc: "Who measured it", Example: `by = "A. B."`},
		Key{Path: "lot", Type: TypeText, Doc: "Lot or serial number on the cable's label, with the label's date",
			Example: `lot = "4711-08, 2026-05"`},
		Key{Path: "tester", Type: TypeText, Doc: "The insulation tester, and when it was last calibrated",
			Example: `tester = "IT-5, calibrated 2026-03"`},
		Key{Path: "hook_up_volts", Type: TypeNumber, Limits: Limits{Above: true, Max: 1000},
			Doc: "Volts read at hook-up with the floor on", Example: "hook_up_volts = 238.5"},
		Key{Path: "hook_up_amps", Type: TypeNumber, Limits: Limits{Above: true, Max: 1000},
			Doc: "Amps read at hook-up with the floor on", Example: "hook_up_amps = 2.46"},
		Key{Path: "trip_test", Type: TypeText, Doc: "What the trip test of the protective device gave",
			Example: `trip_test = "tripped, by its button and by the tester"`},
		Key{Path: "trimmed_lead", Type: TypeLength, Limits: overZero, Otherwise: "by the label",
			Doc:     "One cold lead from its joint, as cut at the box: a later fault is found by it",
			Example: `trimmed_lead = "2.4 m"`},
		Key{Path: "error", Type: TypeLength, Limits: Limits{Above: true, Max: 1000},
			Otherwise: "by the evidence: 1 in by hand, 1/2 in by photo",
			Doc:       "By how much a place may be off, either way", Example: `error = "20 mm"`},
		Key{Path: "finger_room", Type: TypeLength, Limits: Limits{Max: 1000},
			Otherwise: "by the evidence: 3 in by hand, 1-1/2 in by photo",
			Doc:       "Floor kept free beyond that, for the drill in a hand", Example: `finger_room = "60 mm"`},
	)
	out = append(out, under(asLaidTable, asLaidPathKeys()...)[1:]...)
	out = append(out, under(Key{Path: "as_laid.mark", Type: TypeTables,
		Doc:     "Where a length printed on the cable, or its half-way mark, was found",
		Example: "[[as_laid.mark]]\nrun = 12\npegs = 15"},
		Key{Path: "length", Type: TypeLength, Limits: overZero, Otherwise: "half of the cable: its half-way mark",
			Doc: "The running length read off the cable there, from the start of heat", Example: `length = "30 m"`},
		Key{Path: "run", Type: TypeWhole, Required: true, Limits: Limits{Min: 1, Max: 10000},
			Doc: "The run it lies on, by its number on the drawings", Example: "run = 12"},
		Key{Path: "pegs", Type: TypeNumber, Limits: Limits{Max: 10000}, Doc: "Pegs from where that run begins",
			Default: "0", Example: "pegs = 15"},
	)...)
	return slices.Concat(out, readingKeys(), photoKeys())
}

var asLaidTable = Key{Path: "as_laid"}

// asLaidPathKeys say where the cable lies. Points are from the room's origin,
// or from two walls where datums names them.
func asLaidPathKeys() []Key {
	return []Key{
		{Path: "datums", Type: TypeTexts, Least: 2, Otherwise: "points are in the coordinates of the room's corners",
			Doc:     "Two walls from whose faces every point of this table was taped, square to each",
			Example: `datums = ["D", "A"]`},
		{Path: "plan", Type: TypeText, Otherwise: "the plan of this job, as it is worked out now",
			Doc: "The plan that was laid from: its plan code, as in every title block, or its layout file, named " +
				"from where the job file lies", Example: `plan = "issued/bath.layout.json"`},
		{Path: "as_planned", Type: TypeFlag, Default: "false",
			Doc:     "Every run, lead and sensor was held against that plan and lies as drawn",
			Example: "as_planned = true"},
		{Path: "corners", Type: TypePoints, Least: 2, Doc: "The cable's corners as laid, start of heat first",
			Example: "corners = [[75, 75], [75, 2325], [165, 2325], [165, 75]]"},
		{Path: "start", Type: TypePoint, Doc: "The start of heat, where legs are given", Example: "start = [75, 75]"},
		{Path: "legs", Type: TypeTexts, Least: 1,
			Doc:     "The cable's straight legs from the start of heat on: a compass word and pegs counted",
			Example: `legs = ["north 75", "east 3", "south 75"]`},
		{Path: "runs", Type: TypeWhole, Limits: Limits{Min: 1, Max: 10000},
			Doc: "How many runs are laid so far, as the plan has them", Example: "runs = 9"},
		{Path: "first_peg", Type: TypePoint,
			Doc:     "A crossing of the channels between the pegs, as the first strip of membrane really came to lie",
			Example: "first_peg = [90, 82]"},
		{Path: "joint", Type: TypePoint, Otherwise: "where the cable starts", Doc: "The lead joint",
			Example: "joint = [75, 75]"},
		{Path: "end_cap", Type: TypePoint, Otherwise: "where the cable ends", Doc: "The end cap",
			Example: "end_cap = [2700, 2300]"},
		{Path: "cold_lead", Type: TypePoints, Least: 2,
			Doc:     "The cold lead over the floor, from the foot of the box to the lead joint",
			Example: "cold_lead = [[1400, 0], [1400, 75]]"},
		{Path: "return_lead", Type: TypePoints, Least: 2,
			Doc:     "The second cold lead of a single-conductor cable, from its end to the foot of the box",
			Example: "return_lead = [[1500, 75], [1400, 0]]"},
		{Path: "sensor", Type: TypePoint, Doc: "Tip of the sensor that is wired", Example: "sensor = [900, 800]"},
		{Path: "sensor_lead", Type: TypePoints, Least: 2, Doc: "Its lead, from the foot of the box to the tip",
			Example: "sensor_lead = [[1400, 0], [1400, 800], [900, 800]]"},
		{Path: "spare", Type: TypePoint, Doc: "Tip of the spare sensor", Example: "spare = [2000, 1200]"},
		{Path: "spare_lead", Type: TypePoints, Least: 2, Doc: "Its lead, from the foot of the box to the tip",
			Example: "spare_lead = [[1400, 0], [1400, 1200], [2000, 1200]]"},
		{Path: "first_tile", Type: TypePoints, Least: 2, Otherwise: "the room's own",
			Doc: "As the tiler set out, found on the floor: a corner of one whole tile, and a second point along the " +
				"same edge, as in the room's first_tile, which it takes the place of",
			Example: "first_tile = [[148, 92], [2248, 92]]"},
	}
}

// photoKeys: what a photo taken before covering shows, and what is known in it.
func photoKeys() []Key {
	out := under(Key{Path: "as_laid.photo", Type: TypeTables,
		Doc: "A photo of this floor before it was covered, with four or more points in it that are known on the " +
			"floor; seven tell the lens too",
		Example: "[[as_laid.photo]]\nfile = \"bath-1.jpg\""},
		Key{Path: "file", Type: TypeText, Required: true,
			Doc:     "The picture, JPEG or PNG, named from where the job file lies",
			Example: `file = "photos/bath-1.jpg"`},
		Key{Path: "date", Type: TypeDate, Otherwise: "the day that the camera wrote into it",
			Doc: "The day on which it was taken", Example: "date = 2026-12-02"},
		Key{Path: "sha256", Type: TypeText, Otherwise: "it is not held against one",
			Doc: "The sum of the file, or eight or more of its first digits: the drawings print them, and another " +
				"file is refused",
			Example: `sha256 = "3f2a90b14c77"`},
		Key{Path: "keep_location", Type: TypeFlag, Default: "false",
			Doc: "Whether copies of it keep where on earth it was taken; all else that the camera wrote is " +
				"left out",
			Example: "keep_location = true"},
	)
	out = append(out, under(Key{Path: "as_laid.photo.point", Type: TypeTables,
		Doc: "A point known both in the picture and on the floor, at the height of the cable; its place is given " +
			"by corner, at or mark",
		Example: "[[as_laid.photo.point]]\nimage = [412, 3310]\ncorner = \"A\""},
		Key{Path: "image", Type: TypePixel, Required: true,
			Doc:     "Where the picture has it, seen upright: pixels to the right and down from its upper left corner",
			Example: "image = [412, 3310]"},
		Key{Path: "corner", Type: TypeText, Doc: "The corner of the room where this wall begins",
			Example: `corner = "A"`},
		Key{Path: "at", Type: TypePlace,
			Doc: "The point as it was taped: from a wall's start along and out, or [x, y], off the walls that " +
				"datums names where the record has them",
			Example: `at = "B 4ft, 2ft"`},
		Key{Path: "mark", Type: TypeChoice, Values: markNames(),
			Doc: "A thing that this record has measured: START by joint or start, END by end_cap, the sensors; or " +
				"the foot of the box",
			Example: `mark = "END"`},
	)...)
	return append(out, under(Key{Path: "as_laid.photo.run", Type: TypeTables,
		Doc:     "A run that lies elsewhere than planned, as the photo shows it",
		Example: "[[as_laid.photo.run]]\nrun = 7\nimage = [[980, 2950], [1010, 1220]]"},
		Key{Path: "run", Type: TypeWhole, Required: true, Limits: Limits{Min: 1, Max: 10000},
			Doc: "The run, by its number on the drawings", Example: "run = 7"},
		Key{Path: "image", Type: TypePixels, Required: true, Least: 2,
			Doc:     "Pixels that it follows, from where it begins to where it ends",
			Example: "image = [[980, 2950], [1010, 1220]]"},
	)...)
}

// meterFigure is what a hand-held instrument may show, in Ω, MΩ or nF.
var meterFigure = Limits{Above: true, Max: 1e9}

func readingKeys() []Key {
	return under(Key{Path: "as_laid.reading", Type: TypeTables,
		Doc:     "A row of the test record, as read off the instruments",
		Example: "[[as_laid.reading]]\nstage = \"laid, before cover\""},
		Key{Path: "stage", Type: TypeChoice, Values: stageNames(), Required: true, Doc: "When in the cable's life",
			Example: `stage = "hook-up"`},
		Key{Path: "date", Type: TypeDate, Doc: "When", Example: "date = 2026-12-02"},
		Key{Path: "by", Type: TypeText, Doc: "Who read it", Example: `by = "A. B."`},
		Key{Path: "ohms", Type: TypeReading, Limits: meterFigure, Doc: "Conductor resistance at the lead's ends",
			Example: "ohms = 96.1"},
		Key{Path: "insulation", Type: TypeReading, Limits: Limits{Max: meterFigure.Max},
			Doc: "Conductors to braid, in MΩ; above the instrument's range as text", Example: `insulation = ">2000"`},
		Key{Path: "volts", Type: TypeNumber, Limits: Limits{Above: true, Max: 10000},
			Doc: "Test voltage it was read at", Example: "volts = 500"},
		Key{Path: "hand", Type: TypeChoice, Values: []string{"open", "connected"},
			Doc:     "What a hand meter showed between conductors and braid; it never stands for insulation",
			Example: `hand = "open"`},
		Key{Path: "capacitance", Type: TypeReading, Limits: meterFigure,
			Doc:     "Conductors to braid, in nF; read at hand-over it lets a later break be found",
			Example: "capacitance = 9.0"},
		Key{Path: "sensor", Type: TypeReading, Limits: Limits{Max: meterFigure.Max}, Doc: "The wired sensor, in Ω",
			Example: "sensor = 12500"},
		Key{Path: "spare", Type: TypeReading, Limits: Limits{Max: meterFigure.Max}, Doc: "The spare sensor, in Ω",
			Example: "spare = 12480"},
		Key{Path: "floor", Type: TypeTemperature, Limits: Limits{Min: -50, Max: 100}, Doc: "Temperature of the floor",
			Example: `floor = "68 F"`},
	)
}
