package job

import (
	"cmp"
	"fmt"
	"math"
	"slices"
	"strings"

	"oxturn/layout/heat"
	"oxturn/layout/language"
	"oxturn/layout/plane"
)

// readSettings reads all that holds for the whole job.
func (j *Job) readSettings(top table) {
	j.Notes, j.Currency = top.texts("notes"), top.text("currency")
	j.readLanguages(top)
	j.readInfo(top.sub("job"))
	j.readLayers(top)
	if top.has("strips") {
		j.readStrips(top, top.sub("strips"), top.sub("spacing"))
	} else {
		j.readMembrane(top.sub("membrane"), top.sub("spacing"))
	}
	j.readClearance(top.sub("clearance"))
	j.readSupply(top.sub("supply"))
	j.readCircuits(top)
	j.readSensor(top.sub("sensor"))
	j.readTile(top.sub("tile"))
	j.readMaterials(top.sub("materials"))
	j.readWarmth(top.sub("warmth"), top.sub("energy"))
	j.readLabour(top)
	j.readHandOver(top.sub("handover"))
	j.readProposal(top.sub("proposal"))
	j.Units = top.rd.drawingUnits()
	j.readSheet(top.sub("sheet"))
	for _, t := range top.each("revision") {
		j.Revisions = append(j.Revisions, Revision{Letter: t.text("letter"), Text: t.text("text"), By: t.text("by"),
			Date: t.date("date")})
	}
}

// readLanguages reads in which languages the job's sheets are, and which of two governs. Tags that
// there are none of have been refused.
func (j *Job) readLanguages(top table) {
	for i, tag := range top.texts("language") {
		l, _ := language.Named(tag)
		if i == 0 {
			j.Language = l
			continue
		}
		j.Also = append(j.Also, l)
	}
	j.Governs = j.Language
	if slices.Contains(j.Also, language.English) {
		j.Governs = language.English
	}
	if n := top.n.Get("language"); !top.has("governs") || n != nil && top.rd.values[n] == nil {
		return // what was refused is said already
	}
	j.Governs, _ = language.Named(top.text("governs"))
	if j.Governs != j.Language && !slices.Contains(j.Also, j.Governs) {
		top.errorf("governs", "name it in language as well, or leave governs out",
			"governs is %q, but the sheets are not in that language", j.Governs.Tag())
	}
}

// drawingUnits are the file's; where it names none, the system in which more
// of its lengths are written.
func (rd *reader) drawingUnits() plane.Units {
	switch {
	case rd.units != plane.NoUnits:
		return rd.units
	case rd.imperial > rd.metric:
		return plane.Inches
	}
	return plane.Millimetres
}

// usualHeight is that of the pegs where nothing tells, mm.
const usualHeight = 5.0

// readMembrane reads the membrane and the spacing, which must fit each other.
func (j *Job) readMembrane(m, s table) {
	j.Spacing = Spacing{Closest: s.whole("closest"), Widest: s.whole("widest"), Search: s.num("search")}
	j.Membrane = Membrane{
		Pitch: m.num("pitch"), Across: m.num("pitch_across"), BendRadius: m.num("bend_radius"),
		RollWidth: m.num("roll_width"), RollLength: m.num("roll_length"),
		SheetSize: m.pair("sheet"), Height: m.numOr("height", usualHeight), VoidShare: m.num("void_share"),
		Waste:        m.num("waste"),
		HeightSource: m.source("height"), VoidShareSource: m.source("void_share"),
	}
	if l, ok := j.layer("membrane"); ok && !m.has("height") {
		j.Membrane.Height, j.Membrane.HeightSource = l.Thickness, FromJob
	}
	if m.has("sheet") {
		j.Membrane.RollWidth, j.Membrane.RollLength = 0, 0
	}
	switch mem := &j.Membrane; {
	case m.text("rows") == "staggered":
		mem.Staggered, mem.Across = true, cmp.Or(mem.Across, mem.Pitch)
		mem.Pitch /= 2
	case mem.Across == mem.Pitch:
		mem.Across = 0 // alike after all
	}
	if j.Uneven() {
		j.readGaps(s)
	}
	closest := j.Near()
	if !m.has("bend_radius") {
		j.Membrane.BendRadius = closest / 2
	}
	if m.broken() || s.broken() {
		return
	}
	if j.Uneven() {
		j.checkGaps(m, s)
		return
	}
	for _, key := range []string{"closest_gap", "widest_gap"} {
		if s.has(key) && j.Membrane.Pitch > 0 {
			pegs := max(1, int(math.Round(s.num(key)/j.Membrane.Pitch)))
			s.errorf(key, fmt.Sprintf("write %s = %d instead", strings.TrimSuffix(key, "_gap"), pegs),
				"%s is for pegs that lie otherwise one way than the other; these all lie %s apart, and gaps are "+
					"counted in them", key, m.length(j.Membrane.Pitch))
			s.spoil()
		}
	}
	if s.broken() {
		return
	}
	if j.gapsCannotBe(s) {
		s.spoil()
		return
	}
	if j.Spacing.Closest > j.Spacing.Widest {
		s.errorf("closest", "swap them, or leave one out", "closest = %d is more than widest = %d", j.Spacing.Closest,
			j.Spacing.Widest)
		s.spoil()
	}
	j.checkBend(m, s, closest)
}

// lengthRounding is how far apart two lengths in mm may be and still be the same.
const lengthRounding = 1e-6

// checkBend refuses a bend that a turn between the closest runs cannot hold.
func (j *Job) checkBend(m, s table, closest float64) {
	if 2*j.Membrane.BendRadius <= closest+lengthRounding {
		return
	}
	var notes []Note
	if s.has("closest") {
		notes = []Note{{s.at("closest"), "the closest gap is set here"}}
	}
	m.with("bend_radius", "make the bend radius "+m.length(closest/2)+" or less, or closest a peg more", notes,
		"two bends of radius %s need a gap of %s, but the closest gap is %d pegs of %s = %s",
		m.length(j.Membrane.BendRadius), m.length(2*j.Membrane.BendRadius), j.Spacing.Closest,
		m.length(j.Membrane.Pitch), m.length(closest))
}

func (j *Job) readClearance(t table) {
	fixture := t.num("fixture")
	j.Clearance = Clearance{
		Wall: t.num("wall"), Fixture: fixture, Joint: t.num("joint"), Flange: t.num("flange"), Drain: t.num("drain"),
		Register: t.num("register"), Hearth: t.num("hearth"), Fixing: t.num("fixing"),
		Column: t.numOr("column", fixture), Island: t.numOr("island", fixture), KeepOut: t.numOr("keep_out", fixture),
	}
}

func (j *Job) readSupply(t table) {
	j.Supply = Supply{Volts: t.num("volts"), MaxDensity: t.num("max_density"), Region: t.text("region")}
	j.Supply.ThermostatAmps = t.numOr("thermostat_amps", j.Region().Contacts.Value)
	if t.has("max_density") {
		j.Supply.MaxDensitySource = sourceNamed(t.text("max_density_from"))
		j.Supply.MaxDensityOver = t.text("max_density_over")
	}
}

// sourceNamed returns the source a job file names.
func sourceNamed(s string) Source {
	for _, v := range []Source{FromJob, FromLabel, FromInstructions} {
		if v.String() == s {
			return v
		}
	}
	return FromDefault
}

// patternWaste is the share of tile lost by pattern, as trade guides give it:
// 10 % straight, 10 to 12 offset, 15 diagonal, 15 to 20 herringbone.
func patternWaste(pattern string) float64 {
	return map[string]float64{"straight": 0.10, "offset": 0.12, "diagonal": 0.15, "herringbone": 0.18}[pattern]
}

func (j *Job) readTile(t table) {
	size := t.pair("size")
	j.Tile = Tile{Width: size[0], Length: size[1], Joint: t.num("joint"), Thickness: t.num("thickness"),
		Pattern: t.text("pattern"), Offset: t.num("offset"), Start: t.text("start"), PerBox: t.whole("per_box"),
		GroutCure: t.whole("grout_cure"), Grouted: t.date("grouted")}
	j.Tile.Waste, j.Tile.Breakage = t.numOr("waste", patternWaste(j.Tile.Pattern)), t.num("breakage")
	j.Tile.checkBox(t)
}

// layerKinds are what a layer may be made of.
func layerKinds() []string {
	return []string{"tile", "mortar", "membrane", "board", "wood", "concrete", "screed", "other"}
}

// layer returns the topmost layer of a kind.
func (j *Job) layer(kind string) (Layer, bool) {
	i := slices.IndexFunc(j.BuildUp, func(l Layer) bool { return l.Kind == kind })
	if i < 0 {
		return Layer{}, false
	}
	return j.BuildUp[i], true
}

// Bed returns the layer of the section that the tile is bedded in: the mortar
// next under it.
func (j *Job) Bed() (Layer, bool) {
	for i, l := range j.BuildUp {
		if l.Kind == "mortar" && i > 0 && j.BuildUp[i-1].Kind == "tile" {
			return l, true
		}
	}
	return Layer{}, false
}

func (j *Job) readLayers(top table) {
	for _, t := range top.each("layer") {
		l := Layer{Kind: t.text("kind"), Name: t.text("name"), Thickness: t.num("thickness"),
			Own:      t.has("conductivity"),
			CureDays: t.whole("cure_days"), Placed: t.date("placed")}
		if l.Name == "" {
			l.Name = l.Kind
		}
		l.readMaterial(t)
		j.BuildUp = append(j.BuildUp, l)
	}
}

// readMaterial reads a layer's figures, with the usual ones of its kind where
// they are left out.
func (l *Layer) readMaterial(t table) {
	usual, known := heat.DefaultMaterial(l.Kind)
	l.Conductivity = t.numOr("conductivity", usual.Conductivity)
	l.Density = t.numOr("density", usual.Density)
	l.HeatCapacity = t.numOr("heat_capacity", usual.HeatCapacity)
	switch own := given(t, "conductivity", "density", "heat_capacity"); {
	case len(own) == 0:
		l.Source = usual.Source
	case len(own) == 3 || !known:
		l.Source = FromJob.String()
	default:
		l.Source = strings.ReplaceAll(strings.Join(own, " and "), "_", " ") + ": job file; else " + usual.Source
	}
}
