package say

// What is written here alike in all languages but for its decimal point or a word, as
// the reader's language has it; what each writes is said at the function of its name.

// Volts is Volts in the reader's language.
func (f Figures) Volts(v float64) string { return f.Figure(Volts(v)) }

// VoltageDrop is VoltageDrop in the reader's language.
func (f Figures) VoltageDrop(volts, share float64) string { return f.Figure(VoltageDrop(volts, share)) }

// Amps is Amps in the reader's language.
func (f Figures) Amps(a float64) string { return f.Figure(Amps(a)) }

// AmpsFigure is AmpsFigure in the reader's language.
func (f Figures) AmpsFigure(a float64) string { return f.Figure(AmpsFigure(a)) }

// AmpsGiven is AmpsGiven in the reader's language.
func (f Figures) AmpsGiven(a float64) string { return f.Figure(AmpsGiven(a)) }

// Milliamps is Milliamps in the reader's language.
func (f Figures) Milliamps(ma float64) string { return f.Figure(Milliamps(ma)) }

// Watts is Watts in the reader's language.
func (f Figures) Watts(w float64) string { return f.Figure(Watts(w)) }

// Ohms is Ohms in the reader's language.
func (f Figures) Ohms(ohms float64) string { return f.Figure(Ohms(ohms)) }

// OhmsFigure is OhmsFigure in the reader's language.
func (f Figures) OhmsFigure(ohms float64) string { return f.Figure(OhmsFigure(ohms)) }

// OhmsRange is OhmsRange in the reader's language.
func (f Figures) OhmsRange(low, high float64) string { return f.FromTo(OhmsFigure(low), Ohms(high)) }

// OhmsFigures is OhmsFigures in the reader's language.
func (f Figures) OhmsFigures(low, high float64) string {
	return f.FromTo(OhmsFigure(low), OhmsFigure(high))
}

// FromTo writes the least and the most of something: 5 to 7 A.
func (f Figures) FromTo(least, most string) string {
	return f.Textf("%s to %s", f.Figure(least), f.Figure(most))
}

// Tolerance is Tolerance in the reader's language.
func (f Figures) Tolerance(under, over float64) string { return f.Figure(Tolerance(under, over)) }

// SensorOhms is SensorOhms in the reader's language.
func (f Figures) SensorOhms(ohms float64) string { return f.Figure(SensorOhms(ohms)) }

// Kilohms is Kilohms in the reader's language.
func (f Figures) Kilohms(ohms float64) string { return f.Figure(Kilohms(ohms)) }

// Nanofarads is Nanofarads in the reader's language.
func (f Figures) Nanofarads(nf float64) string { return f.Figure(Nanofarads(nf)) }

// KilowattHours is KilowattHours in the reader's language.
func (f Figures) KilowattHours(kwh float64) string { return f.Figure(KilowattHours(kwh)) }

// Plain is Plain in the reader's language.
func (f Figures) Plain(v float64) string { return f.Figure(Plain(v)) }

// Decimals is Decimals in the reader's language.
func (f Figures) Decimals(v float64, most int) string { return f.Figure(Decimals(v, most)) }

// Percent is Percent in the reader's language.
func (f Figures) Percent(share float64) string { return f.Figure(Percent(share)) }

// PercentMore is PercentMore in the reader's language.
func (f Figures) PercentMore(share float64) string { return f.Figure(PercentMore(share)) }

// AngleFine is AngleFine in the reader's language.
func (f Figures) AngleFine(degrees float64) string { return f.Figure(AngleFine(degrees)) }

// Tenths is Tenths in the reader's language.
func (f Figures) Tenths(v float64) string { return f.Figure(Tenths(v)) }

// TrimFigure is TrimFigure in the reader's language.
func (f Figures) TrimFigure(v float64) string { return f.Figure(TrimFigure(v)) }

// Price is Price in the reader's language.
func (f Figures) Price(v float64) string { return f.Figure(Price(v)) }
