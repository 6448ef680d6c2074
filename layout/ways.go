package layout

import (
	"math"

	"oxturn/layout/job"
	"oxturn/layout/language"
	"oxturn/layout/plane"
)

// facingCosine is the cosine of the angle to a wall's normal up to which a way leads
// towards that wall: 55 degrees.
const facingCosine = 0.57

// Towards says where a way over a room's floor leads, for people who stand in
// it: to the wall that it meets first from p on, where it runs at that wall
// rather than along it; else to the side of the sheet, on which y is up
// whatever way north lies.
func Towards(r *job.Room, p, d plane.Point) language.Message {
	if letter := WallTowards(r, p, d); letter != "" {
		return language.Say("wall %[1]s", letter)
	}
	return language.Say(SideOfSheet(d.Unit()))
}

// WallTowards is the letter of the wall that a way over a room's floor leads to; empty where
// it leads to none.
func WallTowards(r *job.Room, p, d plane.Point) string {
	side := math.Copysign(1, r.Outline.SignedArea())
	u := d.Unit()
	best, least := -1, math.Inf(1)
	for i, w := range r.Walls {
		along := w.B.Sub(w.A)
		out := along.Unit().Left().Mul(-side)
		if u.Dot(out) < facingCosine {
			continue
		}
		x := u.Cross(along)
		t := w.A.Sub(p).Cross(along) / x
		s := w.A.Sub(p).Cross(u) / x
		if t > -SamePeg && s >= 0 && s <= 1 && t < least {
			best, least = i, t
		}
	}
	if best < 0 {
		return ""
	}
	return r.Walls[best].Letter
}

var sheetSides = [...]string{"right", "top right", "top", "top left", "left", "bottom left", "bottom", "bottom right"}

// SideOfSheet names the side of the sheet that a direction leads to, to the
// nearest eighth.
func SideOfSheet(d plane.Point) string {
	return sheetSides[eighth(d)] + " of the sheet"
}

// Along names the wall that a direction runs along: of those within a degree
// the longest, else the nearest, with how far it is off in degrees.
func Along(r *job.Room, d plane.Point) (letter string, off float64) {
	u := d.Unit()
	length := 0.0
	off = math.Inf(1)
	for _, w := range r.Walls {
		way := w.B.Sub(w.A)
		a := math.Asin(min(1, math.Abs(u.Cross(way.Unit())))) * 180 / math.Pi
		if a < off-1 || a < off+1 && way.Norm() > length+SamePeg {
			letter, off, length = w.Letter, a, way.Norm()
		}
	}
	return letter, off
}
