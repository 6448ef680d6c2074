package circuit

import (
	"fmt"
	"math"
	"sort"
)

// An RT is one point of a sensor's own table.
type RT struct{ Celsius, Ohms float64 }

// Table is a curve read from a table, coldest first. Between points ln R runs
// straight over 1/T, which is how a thermistor behaves: over 5 K steps it is
// ten times nearer than straight ohms. It does not reach beyond its ends.
type Table struct{ points []RT }

// NewTable makes a curve from at least two points in any order. Ohms must all
// rise or all fall with temperature.
func NewTable(points []RT) (Table, error) {
	if len(points) < 2 {
		return Table{}, fmt.Errorf("a sensor table needs at least two points, it has %d", len(points))
	}
	p := append([]RT(nil), points...)
	sort.SliceStable(p, func(i, j int) bool { return p[i].Celsius < p[j].Celsius })
	for i, q := range p {
		if !(q.Celsius > -kelvinAtZero && q.Celsius < 1000) || checkOhms(q.Ohms) != nil {
			return Table{}, fmt.Errorf("sensor table: %g Ω at %g °C is not a usable point", q.Ohms, q.Celsius)
		}
		if i > 0 && q.Celsius == p[i-1].Celsius {
			return Table{}, fmt.Errorf("sensor table: %g °C is given twice", q.Celsius)
		}
		if i > 0 && (q.Ohms > p[i-1].Ohms) != (p[1].Ohms > p[0].Ohms) || i > 0 && q.Ohms == p[i-1].Ohms {
			return Table{}, fmt.Errorf("sensor table: the ohms must all rise or all fall with temperature, but "+
				"between %g and %g °C they do not",
				p[i-1].Celsius, q.Celsius)
		}
	}
	return Table{p}, nil
}

// Range returns the lowest and highest temperature of the table.
func (t Table) Range() (low, high float64) {
	if len(t.points) == 0 {
		return 0, 0
	}
	return t.points[0].Celsius, t.points[len(t.points)-1].Celsius
}

// Ohms returns the resistance at a temperature within the table.
func (t Table) Ohms(celsius float64) (float64, error) {
	low, high := t.Range()
	if err := checkCelsius(celsius, low, high); err != nil {
		return 0, err
	}
	a, b, ok := t.pair(func(a, b RT) bool { return celsius <= b.Celsius })
	if !ok {
		return 0, fmt.Errorf("an empty sensor table")
	}
	share := (inverse(celsius) - inverse(a.Celsius)) / (inverse(b.Celsius) - inverse(a.Celsius))
	return math.Exp(math.Log(a.Ohms) + share*math.Log(b.Ohms/a.Ohms)), nil
}

// Celsius returns the temperature at ohms within the table.
func (t Table) Celsius(ohms float64) (float64, error) {
	if err := checkOhms(ohms); err != nil {
		return 0, err
	}
	a, b, ok := t.pair(func(a, b RT) bool { return (ohms-a.Ohms)*(ohms-b.Ohms) <= 0 })
	if !ok {
		low, high := t.Range()
		return checkReading(ohms, math.NaN(), low, high)
	}
	share := math.Log(ohms/a.Ohms) / math.Log(b.Ohms/a.Ohms)
	return 1/(inverse(a.Celsius)+share*(inverse(b.Celsius)-inverse(a.Celsius))) - kelvinAtZero, nil
}

// pair returns the first two neighbouring points for which holds is true.
func (t Table) pair(holds func(a, b RT) bool) (a, b RT, ok bool) {
	for i := 1; i < len(t.points); i++ {
		if holds(t.points[i-1], t.points[i]) {
			return t.points[i-1], t.points[i], true
		}
	}
	return RT{}, RT{}, false
}

func inverse(celsius float64) float64 { return 1 / (celsius + kelvinAtZero) }
