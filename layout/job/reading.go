package job

import (
	"strconv"
	"strings"
	"time"

	"oxturn/layout/job/tree"
	"oxturn/layout/say"
)

// A Figure is a number read off an instrument. The zero value: not taken.
type Figure struct {
	Value float64
	Taken bool
	Over  bool // the instrument's range ended: the true figure is Value or more
}

// A Reading is one row of a cable's test record as the job file gives it.
type Reading struct {
	Stage       string // as the test record prints it
	Date        time.Time
	By          string
	Ohms        Figure
	Insulation  Figure // MΩ
	Volts       float64
	Hand        string // "open", "connected" or ""
	Capacitance Figure // nF
	Sensor      Figure // Ω
	Spare       Figure // Ω
	Floor       Figure // °C
	Span        Span
	Spans       Spans
}

// InService is the stage of a floor in use: what is read then may be of a fault.
const InService = "service"

// stageNames are the stages of the test record, in the order of a cable's
// life.
func stageNames() []string {
	return []string{"on spool", "laid, before cover", "covered", "tiled", "grouted", "hook-up", InService}
}

func readReadings(t table) []Reading {
	var out []Reading
	for _, rt := range limited(t, "reading") {
		if rt.broken() {
			continue
		}
		r := Reading{Stage: rt.text("stage"), Date: rt.date("date"), By: rt.text("by"), Volts: rt.num("volts"),
			Hand: rt.text("hand"), Span: rt.span(), Spans: rt.spans(),
			Ohms: rt.figure("ohms"), Insulation: rt.figure("insulation"), Capacitance: rt.figure("capacitance"),
			Sensor: rt.figure("sensor"), Spare: rt.figure("spare")}
		if rt.has("floor") {
			r.Floor = Figure{Value: rt.num("floor"), Taken: true}
		}
		if r.Insulation.Taken && r.Volts == 0 {
			rt.errorf("insulation", "add volts = 500, the voltage the tester was set to",
				"an insulation reading without its test voltage says nothing")
		}
		out = append(out, r)
	}
	return out
}

func (t table) figure(name string) Figure { return value[Figure](t, name) }

// reading reads a figure off an instrument: a number, or ">2000" where its
// range ended.
func (rd *reader) reading(n *tree.Node, k Key) (any, *valueError) {
	s, ok := n.Value.(string)
	if !ok {
		k.Type = TypeNumber
		v, err := rd.number(n, k)
		return Figure{Value: v, Taken: true}, err
	}
	figure, over := overRange(s)
	v, err := strconv.ParseFloat(figure, 64)
	if err != nil || !over {
		return nil, wrong("%s is a number, or text such as \">2000\" where the instrument's range ended, not %q",
			k.Name(), s)
	}
	k.Type = TypeNumber
	return Figure{Value: v, Taken: true, Over: true}, rd.within(n, k, v)
}

// overRange returns the figure of ">500", and of what people write for it.
func overRange(s string) (figure string, over bool) {
	s = strings.ToLower(strings.TrimSpace(s))
	for _, word := range []string{">", "over ", "above ", "more than "} {
		if figure, over = strings.CutPrefix(s, word); over {
			break
		}
	}
	return strings.TrimSpace(figure), over
}

// temperature reads "68 F" or "20 C" into °C.
func temperature(s string, k Key) (float64, *valueError) {
	s = strings.TrimSpace(s)
	for _, u := range []string{"°F", "F", "°C", "C"} {
		figure, ok := strings.CutSuffix(s, u)
		if !ok {
			continue
		}
		v, err := strconv.ParseFloat(strings.TrimSpace(figure), 64)
		if err != nil {
			break
		}
		if strings.HasSuffix(u, "F") {
			v = say.Celsius(v)
		}
		return v, nil
	}
	return 0, wrong("%s is a temperature such as \"68 F\" or \"20 C\", not %q", k.Name(), s)
}
