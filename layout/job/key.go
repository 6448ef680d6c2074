package job

import (
	"math"
	"slices"
	"strings"
	"sync"
)

// Type is what a key's value must be.
type Type string

// The types a key may have. A length, point or size takes text with a unit or
// a bare number in the file's units.
const (
	TypeText    Type = "text"
	TypeChoice  Type = "choice"  // one of Values
	TypeChoices Type = "choices" // one of Values, or a list of two of them
	TypeWhole   Type = "whole"   // a whole number
	TypeNumber  Type = "number"  // without a unit
	TypeFlag    Type = "flag"    // true or false
	TypeDate    Type = "date"    // 2026-11-24
	TypeLength  Type = "length"  // mm inside
	TypeAngle   Type = "angle"   // degrees: a number, "30deg" or "30°"
	TypeShare   Type = "share"   // 0.1 or "10 %"
	TypeArea    Type = "area"    // "6.5 m2" or "70 ft2"; m² inside
	TypeVolume  Type = "volume"  // "14.5 L"; litres inside
	TypeDensity Type = "density" // "150 W/m2", "14 W/ft2" or a number in W/m²; W/m² inside
	// "0.3 W/m2K", "0.05 Btu/h ft2 F", or a number in W/(m² K) in a job in mm; W/(m² K) inside
	TypeTransmittance Type = "transmittance"
	TypePack          Type = "pack"        // "22.7 kg", "50 lb", "0.3 L", "10 m" or "5 m2"
	TypePoint         Type = "point"       // [x, y]
	TypePlace         Type = "place"       // [x, y], or "B 4ft": on wall B, 4 ft from its start
	TypePoints        Type = "points"      // [[x, y], …]
	TypeSize          Type = "size"        // two lengths
	TypeLengths       Type = "lengths"     // an array of them
	TypeShares        Type = "shares"      // two shares, such as [-0.05, 0.10]
	TypePixel         Type = "pixel"       // [x, y] in a picture, px from its upper left corner
	TypePixels        Type = "pixels"      // a list of them
	TypeTexts         Type = "texts"       // an array of text
	TypeReading       Type = "reading"     // off an instrument: a number, or ">2000" beyond its range
	TypeTemperature   Type = "temperature" // "68 F", "20 C" or a number in °C; °C inside
	TypeTable         Type = "table"       // [name]
	TypeTables        Type = "tables"      // [[name]], any number of them
	typeTopLevel      Type = "document"    // the file itself
)

// Limits bound a number. The zero value is from 0 up.
type Limits struct {
	Min, Max float64 // Max 0: no bound but the type's own
	Above    bool    // Min itself is not allowed
}

var (
	overZero = Limits{Above: true}
	anySign  = Limits{Min: math.Inf(-1)}
)

// A Key describes one key of the job file. Reading, checking, suggesting,
// schema and help all use the same list.
type Key struct {
	Path      string // dotted, without indexes: "room.keep_out.clear"
	Type      Type
	Doc       string   // one sentence without its full stop
	Values    []string // of a choice
	Default   string   // as it would be typed; empty when there is none
	DefaultIn string   // instead of Default in a job in inches; empty: the same
	Otherwise string   // what holds when the key is left out and there is no Default
	Example   string   // as it would be typed, key and all
	Required  bool
	Unless    string // a required key that stands in its place
	Limits    Limits
	Least     int // fewest items of points or texts
}

// Name returns the last part of the path.
func (k Key) Name() string { return k.Path[strings.LastIndexByte(k.Path, '.')+1:] }

// Parent returns the path of the table the key stands in, empty at the top.
func (k Key) Parent() string { return k.Path[:max(0, strings.LastIndexByte(k.Path, '.'))] }

// Header returns a table's header as it is typed: [membrane], [[room.joint]].
func (k Key) Header() string {
	if k.Type == TypeTables {
		return "[[" + k.Path + "]]"
	}
	return "[" + k.Path + "]"
}

// DefaultWords writes the default, both of them where a job in inches has its
// own.
func (k Key) DefaultWords() string {
	if k.DefaultIn == "" {
		return k.Default
	}
	return k.Default + "; in a job in inches " + k.DefaultIn
}

// Keys returns every key of the job file, tables before what they hold.
func Keys() []Key {
	return slices.Concat(topKeys(), infoKeys(), membraneKeys(), clearanceKeys(), supplyKeys(), circuitKeys(),
		sensorKeys(), tileKeys(), layerKeys(), materialKeys(), cableKeys(), roomKeys(), openingKeys(), fixtureKeys(),
		keepOutKeys(), fixingKeys(), revisedKeys(), jointKeys(), arcKeys(), nicheKeys(), partitionKeys(), zoneKeys(),
		thermostatKeys(), lossKeys(), asLaidKeys(), warmthKeys(), labourKeys(), proposalKeys(), handOverKeys(),
		sheetKeys(), allowKeys())
}

// under puts keys written by their bare names into a table.
func under(table Key, keys ...Key) []Key {
	out := append(make([]Key, 0, len(keys)+1), table)
	for _, k := range keys {
		k.Path = table.Path + "." + k.Path
		out = append(out, k)
	}
	return out
}

// A schema is the list of keys made ready for looking up. It never changes
// once made.
type schema struct {
	byPath   map[string]Key
	children map[string][]Key // by the path of the table they stand in
	byName   map[string][]Key // by the last part of their path
	presets  map[string]any   // defaults as values, by path
	inInches map[string]any   // those of a job in inches that has its own
}

func newSchema(keys []Key) schema {
	s := schema{make(map[string]Key, len(keys)), map[string][]Key{}, make(map[string][]Key, len(keys)),
		parsePresets(keys, func(k Key) string { return k.Default }),
		parsePresets(keys, func(k Key) string { return k.DefaultIn })}
	for _, k := range keys {
		s.byPath[k.Path] = k
		s.children[k.Parent()] = append(s.children[k.Parent()], k)
		s.byName[k.Name()] = append(s.byName[k.Name()], k)
	}
	return s
}

// The two kinds of file there are. Making them ready takes longer than reading
// a job.
var (
	jobSchema       = sync.OnceValue(func() schema { return newSchema(Keys()) })
	catalogueSchema = sync.OnceValue(func() schema { return newSchema(catalogueKeys()) })
)

func join(path, name string) string {
	if path == "" {
		return name
	}
	return path + "." + name
}
