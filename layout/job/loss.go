package job

import (
	"oxturn/layout/heat"
	"oxturn/layout/plane"
)

// A Loss is what a room is enclosed by, for a simplified heat loss. Areas in
// m², U-values in W/(m² K), temperatures in °C.
type Loss struct {
	Outside, Inside   float64
	Walls, WallsU     float64 // outside walls without their windows
	Windows, WindowsU float64
	CeilingU, Above   float64
	FloorU, Below     float64 // of the floor that is not warmed
	Changes           heat.Range
	Height            float64 // mm to the ceiling
}

// lossKeys: 0.5 air changes an hour for a room lived in, 1.5 for a bath or
// kitchen are the least of EN 12831; 2.4 m to the ceiling is common practice.
func lossKeys() []Key {
	u := func(name, what, example string) Key {
		return Key{Path: name, Type: TypeTransmittance, Limits: Limits{Above: true, Max: 7}, Doc: "U-value of " + what,
			Example: name + " = " + example}
	}
	return under(Key{Path: "room.loss", Type: TypeTable, Otherwise: "no heat loss is worked out",
		Doc:     "What the room loses heat through, simplified, to hold the floor's output against",
		Example: "[room.loss]\noutside = \"-5 C\"\nwalls = \"7 m2\"\nwalls_u = \"0.3 W/m2K\""},
		Key{Path: "outside", Type: TypeTemperature, Limits: Limits{Min: -60, Max: 30}, Required: true,
			Doc: "Outside air on the day looked at", Example: `outside = "-5 C"`},
		Key{Path: "inside", Type: TypeTemperature, Limits: Limits{Min: 5, Max: 35}, Otherwise: "[warmth] room",
			Doc: "Temperature the room is to be kept at", Example: `inside = "68 F"`},
		Key{Path: "walls", Type: TypeArea, Limits: overZero, Doc: "Area of the outside walls without their windows",
			Example: `walls = "75 ft2"`},
		u("walls_u", "the outside walls", `"0.3 W/m2K"`),
		Key{Path: "windows", Type: TypeArea, Limits: overZero, Doc: "Area of windows and outside doors",
			Example: `windows = "1.2 m2"`},
		u("windows_u", "the windows", `"0.30 Btu/h ft2 F"`),
		u("ceiling_u", "the ceiling, which counts as large as the floor", `"0.15 W/m2K"`),
		Key{Path: "above", Type: TypeTemperature, Limits: Limits{Min: -60, Max: 40}, Otherwise: "as outside",
			Doc: "Temperature above the ceiling", Example: `above = "5 C"`},
		u("floor_u", "the floor that is not warmed; what the warmed floor loses below is taken off its output already",
			`"0.4 W/m2K"`),
		Key{Path: "below", Type: TypeTemperature, Limits: Limits{Min: -60, Max: 40}, Otherwise: "as outside",
			Doc: "Temperature below that floor", Example: `below = "10 C"`},
		Key{Path: "air_changes", Type: TypeNumber, Limits: Limits{Max: 10}, Default: "0.5",
			Doc: "How often an hour the air is changed, at least", Example: "air_changes = 0.5"},
		Key{Path: "most_air_changes", Type: TypeNumber, Limits: Limits{Max: 10},
			Otherwise: "1.5, or air_changes where that is more", Doc: "How often it is at most",
			Example: "most_air_changes = 1.5"},
		Key{Path: "ceiling_height", Type: TypeLength, Limits: Limits{Above: true, Max: 20000}, Default: `"2400 mm"`,
			Doc: "From the floor to the ceiling", Example: `ceiling_height = "8ft"`},
	)
}

// readLoss reads what the room is enclosed by; nothing where the file has no
// such table.
func (r *Room) readLoss(room table, inside float64) {
	t := room.sub("loss")
	if t.n == nil {
		return
	}
	outside := t.num("outside")
	least := t.num("air_changes")
	l := Loss{
		Outside: outside, Inside: t.numOr("inside", inside), Walls: t.num("walls"), WallsU: t.num("walls_u"),
		Windows: t.num("windows"), WindowsU: t.num("windows_u"),
		CeilingU: t.num("ceiling_u"), Above: t.numOr("above", outside), FloorU: t.num("floor_u"),
		Below: t.numOr("below", outside), Height: t.num("ceiling_height"),
		Changes: heat.Range{Low: least, High: t.numOr("most_air_changes", max(least, 1.5))},
	}
	if !t.broken() && r.checkLoss(t, l) {
		r.Loss = &l
	}
}

// wallsOver is by what walls and windows may pass the walls that the room has: they were rounded.
const wallsOver = 1.02

// checkLoss refuses what no room is.
func (r *Room) checkLoss(t table, l Loss) bool {
	ok := true
	refuse := func(key, hint, format string, args ...any) {
		t.errorf(key, hint, format, args...)
		ok = false
	}
	for _, pair := range [][2]string{{"walls", "walls_u"}, {"windows", "windows_u"}} {
		if t.has(pair[0]) != t.has(pair[1]) {
			refuse(pair[0], "give both, or neither", "the loss of room %q has one of %s and %s without the other",
				r.Name, pair[0], pair[1])
		}
	}
	if l.Outside >= l.Inside {
		refuse("outside", "give the coldest day that the room is to be warm on",
			"outside = %s is not colder than the room at %s °C", t.read("outside"), figure(l.Inside))
	}
	if l.Changes.High < l.Changes.Low {
		refuse("most_air_changes", "swap them, or leave one out", "most_air_changes = %s is less than "+
			"air_changes = %s",
			figure(l.Changes.High), figure(l.Changes.Low))
	}
	all := r.Outline.Perimeter() * l.Height / plane.SquareMetre
	if r.usable() && (l.Walls+l.Windows)*plane.SquareMetre > wallsOver*all*plane.SquareMetre {
		refuse("walls", "count only what has the outside behind it",
			"outside walls and windows of room %q come to %s m², but all its walls are %s m²", r.Name, figure(l.Walls+
				l.Windows), figure(all))
	}
	return ok
}
