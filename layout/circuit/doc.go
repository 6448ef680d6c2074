// Package circuit works out what an electrician asks of a heating cable and a
// floor sensor: ohms with their limits, amps, load per thermostat, heat per
// area, reach of the leads, voltage drop of the feed, sensor ohms.
//
// It reports figures and what they were measured against. It never chooses a
// breaker, a conductor or a ground-fault device, never infers a voltage from
// the colour of a lead, and never says that something meets a code.
//
// Lengths are in mm, areas in mm², temperatures in °C.
package circuit
