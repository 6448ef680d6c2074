package ownersmap

import (
	"html/template"

	"oxturn/layout/probe"
)

// A keyEntry is something the key to a picture explains.
type keyEntry int

// What a picture may show, in the order of its key.
const (
	keyCable keyEntry = iota
	keyJointMark
	keyEnd
	keyColdLead
	keySensor
	keySpare
	keySensorLead
	keyBox
	keyBand
	keyPlanned
	keyBare
	keyJoint
	keyFixing
	keyFixture
	keyOpening
	keyTile
	keyCount
)

// signed is one line of a key.
type signed struct {
	Sample template.HTML
	Words  string
}

// samples are drawn as in the picture, in a box of 120 by 60 mm of floor.
var samples = [keyCount]string{
	keyCable: `<polyline class="cable" points="5,30 115,30" stroke-width="9"/>`,
	keyJointMark: `<g class="marks"><polyline class="cable" points="60,30 115,30" stroke-width="9"/><rect x="42" ` +
		`y="12" width="36" height="36"/></g>`,
	keyEnd: `<g class="marks"><polyline class="cable" points="5,30 60,30" stroke-width="9"/><polyline ` +
		`class="cap" points="60,4 60,56"/></g>`,
	keyColdLead:   `<polyline class="cold" points="0,30 120,30" stroke-width="9"/>`,
	keySensor:     `<g class="marks"><circle class="tip" cx="60" cy="30" r="18"/></g>`,
	keySpare:      `<g class="marks"><circle class="tip spare" cx="60" cy="30" r="18"/></g>`,
	keySensorLead: `<polyline class="sensor" points="0,30 120,30" stroke-width="12"/>`,
	keyBox:        `<g class="walls"><circle class="box" cx="60" cy="30" r="24"/></g>`,
	keyBand:       `<g class="bands"><polyline points="30,30 90,30" stroke-width="50"/></g>`,
	keyPlanned:    `<polyline class="planned" points="0,30 120,30"/>`,
	keyBare: `<g class="bare"><circle cx="20" cy="18" r="7"/><circle cx="60" cy="18" r="7"/><circle cx="100" ` +
		`cy="18" r="7"/><circle cx="20" cy="46" r="7"/><circle cx="60" cy="46" r="7"/><circle cx="100" cy="46" ` +
		`r="7"/></g>`,
	keyJoint:   `<polyline class="joint" points="0,30 120,30"/>`,
	keyFixing:  `<path class="fixing" d="M30,30h60 m-30,-26v52"/>`,
	keyFixture: `<g class="fixtures"><polygon points="5,5 115,5 115,55 5,55"/></g>`,
	keyOpening: `<g class="walls"><polygon points="-50,30 170,30 170,200 -50,200"/><polyline class="opening" ` +
		`points="30,30 90,30"/></g>`,
	keyTile: `<g class="tiles"><polygon points="5,5 115,5 115,55 5,55"/></g><text class="number" x="60" y="32" ` +
		`font-size="36">2,3</text>`,
}

// key explains what the picture shows, and nothing else.
func (d *pen) key(m *probe.Map) []signed {
	words := [keyCount]string{
		keyCable:      m.Text("heating cable"),
		keyJointMark:  m.Text("START: lead joint, where the heat begins"),
		keyEnd:        m.Text("END: end cap"),
		keyColdLead:   m.Text("cold lead"),
		keySensor:     m.Text("floor sensor, wired"),
		keySpare:      m.Text("spare sensor, not wired"),
		keySensorLead: m.Text("sensor lead"),
		keyBox:        m.Text("thermostat: the leads rise to it in the wall"),
		keyBand:       m.Text("too close to cable, lead or sensor"),
		keyPlanned:    m.Text("where the plan had cable; it lies elsewhere"),
		keyBare:       bareWords(m),
		keyJoint:      m.Text("movement joint: no heating cable crosses it"),
		keyFixing:     m.Text("something is screwed down here"),
		keyFixture:    m.Text("stands on the floor"),
		keyOpening:    m.Text("door or window"),
		keyTile:       m.Text("tile: its row, column"),
	}
	var out []signed
	for k := range keyCount {
		if d.used[k] {
			out = append(out, signed{template.HTML(`<svg class="sample" viewBox="0 0 120 60" aria-hidden="true">` +
				samples[k] + `</svg>`), words[k]})
		}
	}
	return out
}

// bareWords says what the dots are worth.
func bareWords(m *probe.Map) string {
	if m.NoReason == "" {
		return m.Text("no heating cable recorded; have it checked before any hole")
	}
	return m.Text("no heating cable planned; have it checked before any hole")
}
