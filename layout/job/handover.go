package job

// A HandOver is what the job asks of the papers that go with the floor.
type HandOver struct {
	Required []string // in the order of the file
}

// requiredPapers is what the papers of a floor are to have where the job does not say.
var requiredPapers = []string{"as laid", "readings", "lot", "tester", "hook-up", "trip test", "cure", "photographs",
	"thermostat's instructions"}

func handOverKeys() []Key {
	return under(Key{Path: "handover", Type: TypeTable, Doc: "The papers that go with the floor",
		Example: "[handover]\nrequired = [\"as laid\", \"readings\", \"permit\"]"},
		Key{Path: "required", Type: TypeTexts,
			Otherwise: "as laid, readings, lot, tester, hook-up, trip test, cure, photographs and the thermostat's " +
				"instructions",
			Doc: "What they are to have: of these, and of permit, the job knows whether it is there; anything " +
				"else is " +
				"ticked by hand",
			Example: `required = ["as laid", "readings", "permit", "warranty card"]`},
	)
}

func (j *Job) readHandOver(t table) {
	if j.HandOver.Required = t.texts("required"); !t.has("required") {
		j.HandOver.Required = requiredPapers
	}
}
