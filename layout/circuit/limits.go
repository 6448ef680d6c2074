package circuit

// Limits are the ohms between which a reading must lie.
type Limits struct {
	Low, High           float64 // ohms, both still inside
	LowShare, HighShare float64 // -0.05, +0.10
	Source              string  // where the tolerance comes from
}

func (l Label) limits(nominal float64) Limits {
	out := Limits{LowShare: l.OhmsLow, HighShare: l.OhmsHigh, Source: l.Tolerance}
	if l.OhmsLow == 0 && l.OhmsHigh == 0 {
		out.LowShare, out.HighShare, out.Source = DefaultLow, DefaultHigh, "default"
	}
	if out.Source == "" {
		out.Source = "job file"
	}
	out.Low = nominal * (1 + out.LowShare)
	out.High = nominal * (1 + out.HighShare)
	return out
}

// limitRounding is the share by which a reading may miss a limit and still count as
// exactly on it: far below what any meter shows, far above float rounding.
const limitRounding = 1e-9

// Holds reports whether ohms lies within the limits. A reading exactly on a
// limit does.
func (l Limits) Holds(ohms float64) bool {
	return ohms >= l.Low*(1-limitRounding) && ohms <= l.High*(1+limitRounding)
}
