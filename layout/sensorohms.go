package layout

import (
	"fmt"

	"oxturn/layout/circuit"
	"oxturn/layout/job"
	"oxturn/layout/plane"
	"oxturn/layout/record"
	"oxturn/layout/say"
)

// SensorOhms is what the job's kind of sensor reads at a floor temperature, in
// ohms: at the temperature itself, and at either end of what a reading may
// miss it by.
type SensorOhms struct {
	Celsius         float64
	Ohms            float64
	Lowest, Highest float64
}

// sensorAt are the floor temperatures, in °C, that readings are prepared for.
var sensorAt = []float64{10, 15, 20, 25, 30}

// ExpectedSensor returns what the sensor should read at usual floor
// temperatures; nothing where the job does not say what kind it is.
func ExpectedSensor(s job.Sensor) []SensorOhms {
	var out []SensorOhms
	for _, c := range sensorAt {
		if o, err := expected(s, c); err == nil {
			out = append(out, o)
		}
	}
	return out
}

func expected(s job.Sensor, celsius float64) (SensorOhms, error) {
	o := SensorOhms{Celsius: celsius}
	if s.Family.Curve == nil {
		return o, fmt.Errorf("the job does not say what kind of sensor it is")
	}
	var err error
	if o.Ohms, err = s.Family.Ohms(celsius); err != nil {
		return o, err
	}
	o.Lowest, o.Highest = o.Ohms, o.Ohms
	for _, t := range []float64{celsius - s.Tolerance, celsius + s.Tolerance} {
		if r, err := s.Family.Ohms(t); err == nil { // a curve that ends before is held to its end
			o.Lowest, o.Highest = min(o.Lowest, r), max(o.Highest, r)
		}
	}
	return o, nil
}

// band gives a reading of the test record what its sensors are held against.
func band(r *record.Reading, s job.Sensor) {
	if !r.Floor.Taken {
		return
	}
	if o, err := expected(s, r.Floor.Value); err == nil {
		r.SensorBand = [2]float64{o.Lowest, o.Highest}
		r.SensorKind = s.Family.Name
	}
	r.SensorOther, r.SpareOther = otherKind(s, r.Sensor, r.Floor), otherKind(s, r.Spare, r.Floor)
}

// otherKind names the family that a reading fits when it does not fit the
// job's; empty where there is none.
func otherKind(s job.Sensor, ohms, floor record.Figure) string {
	if s.Family.Curve == nil || !ohms.Taken || ohms.Over {
		return ""
	}
	other, ok, err := circuit.BetterFamily(s.Family, ohms.Value, floor.Value, s.Tolerance)
	if err != nil || !ok {
		return ""
	}
	return fmt.Sprintf("a %s would read that at %s", other.Family.Name, say.Degrees(other.Celsius, plane.Millimetres))
}
