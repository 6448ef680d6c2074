package draft

import (
	"encoding/json"
	"math"

	"oxturn/layout/plane"
	"oxturn/layout/say"
)

// A geoObject is what GeoJSON (RFC 7946) may have at its top or in a list.
type geoObject struct {
	Type        string
	Features    []geoObject
	Geometries  []geoObject
	Geometry    *geoObject
	Properties  map[string]any
	Coordinates json.RawMessage
}

// readGeo makes a room of every polygon; its holes are keep-outs. Positions are longitude
// and latitude, as the standard has it, unless a unit is given: then they are x and y.
func readGeo(data []byte, o Options) (*Found, *Error) {
	var top geoObject
	if err := parseJSON(data, &top); err != nil {
		return nil, err
	}
	g := geo{found: &Found{}, scale: unitMM[o.Unit]}
	if err := g.object(top, "", 0); err != nil {
		return nil, err
	}
	return g.found, nil
}

type geo struct {
	found *Found
	scale float64 // mm of one unit; 0: degrees
}

// mostNesting is how deep lists of lists of things are followed.
const mostNesting = 8

func (g *geo) object(v geoObject, name string, depth int) *Error {
	if depth > mostNesting {
		return at(0, "its lists lie %d deep in one another", depth)
	}
	for _, list := range [][]geoObject{v.Features, v.Geometries} {
		for _, each := range list {
			if err := g.object(each, name, depth+1); err != nil {
				return err
			}
		}
	}
	switch v.Type {
	case "Feature":
		if v.Geometry == nil {
			return nil
		}
		return g.object(*v.Geometry, nameIn(v.Properties), depth+1)
	case "Polygon":
		var rings [][][]float64
		if err := parseJSON(v.Coordinates, &rings); err != nil {
			return at(0, "the coordinates of a polygon are no lists of positions")
		}
		return g.polygon(rings, name)
	case "MultiPolygon":
		var all [][][][]float64
		if err := parseJSON(v.Coordinates, &all); err != nil {
			return at(0, "the coordinates of a multipolygon are no lists of polygons")
		}
		for _, rings := range all {
			if err := g.polygon(rings, name); err != nil {
				return err
			}
		}
	case "FeatureCollection", "GeometryCollection":
	default:
		g.found.dropped("a %s, which is no outline", v.Type)
	}
	return nil
}

// nameIn is what properties call a thing.
func nameIn(properties map[string]any) string {
	for _, key := range []string{"name", "Name", "room", "title", "ref"} {
		if s, ok := properties[key].(string); ok && s != "" {
			return s
		}
	}
	return ""
}

func (g *geo) polygon(rings [][][]float64, name string) *Error {
	if len(rings) == 0 {
		return nil
	}
	if len(g.found.Rooms) == mostRooms {
		return at(0, "it has more than %d polygons, which are a room each", mostRooms)
	}
	var flat []plane.Ring
	var origin *plane.Point
	for _, r := range rings {
		ring, err := g.flat(r, &origin)
		if err != nil {
			return err
		}
		flat = append(flat, ring)
	}
	outline, left := cleaned(flat[0])
	if err := check(outline, 0); err != nil {
		return err
	}
	if left > 1 {
		g.found.dropped("%s%s that were none", say.Counted(left-1, "corner"), of(name))
	}
	own := standing(outline, 0)
	r := Room{Name: name, Outline: own.ring(outline)}
	for _, hole := range flat[1:] {
		ring, _ := cleaned(hole)
		if len(ring) >= 3 {
			r.KeepOuts = append(r.KeepOuts, KeepOut{Name: "hole", Outline: own.ring(ring)})
		}
	}
	g.found.Rooms = append(g.found.Rooms, r)
	g.found.took("a polygon%s of %s, with %s", of(name), say.Area(outline.Area(), plane.Millimetres),
		say.Counted(len(r.KeepOuts), "hole"))
	return nil
}

// The ellipsoid of the world geodetic system 1984: half its greater axis in mm, and the
// square of its eccentricity.
const (
	halfAxis            = 6378137e3
	eccentricitySquared = 6.69437999014e-3
)

// farthestNorth degrees: nearer to a pole no room is measured by longitude.
const farthestNorth = 89.0

// flat takes a ring of positions to the floor. Degrees become lengths by the radii of
// curvature at the first position, along the meridian and across it, as is right to 1 mm
// within a house.
func (g *geo) flat(positions [][]float64, origin **plane.Point) (out plane.Ring, _ *Error) {
	for _, p := range positions {
		if len(p) < 2 {
			return nil, at(0, "a position has %d figures; it takes two", len(p))
		}
		if g.scale > 0 {
			out = append(out, plane.Pt(p[0], p[1]).Mul(g.scale))
			continue
		}
		if math.Abs(p[0]) > 180 || math.Abs(p[1]) > farthestNorth {
			return nil, at(0, "the position %g, %g is no longitude and latitude", p[0], p[1]).
				hint("if it is x and y, say in what: --file-units mm, cm, m, in or ft")
		}
		if *origin == nil {
			first := plane.Pt(p[0], p[1])
			*origin = &first
		}
		out = append(out, onFloor(plane.Pt(p[0], p[1]), **origin))
	}
	return out, nil
}

// onFloor is where a longitude and latitude lie from another, in mm east and north.
func onFloor(p, origin plane.Point) plane.Point {
	latitude := plane.Radians((p.Y + origin.Y) / 2)
	sin, cos := plane.Sincos(latitude)
	w := math.Sqrt(1 - eccentricitySquared*sin*sin)
	along, across := halfAxis*(1-eccentricitySquared)/(w*w*w), halfAxis/w
	d := p.Sub(origin).Mul(math.Pi / 180)
	return plane.Pt(d.X*across*cos, d.Y*along)
}
