// Package plancode gives a plan its name: a short code, the same for the same
// cable on the same floor, that is read off a drawing and given back when work
// goes on by it. Another plan has another code, and a code that was misread is
// told from that of another plan by its last letter.
package plancode

import (
	"crypto/sha256"
	"fmt"
	"io"
	"math"
	"math/big"
	"strings"

	"oxturn/layout/plane"
)

// A Room is what of a room's plan counts for the code: what was routed, and by
// which pegs. Lengths in mm, x east and y north.
type Room struct {
	Name    string
	Origin  plane.Point // a crossing between the pegs
	Angle   float64     // of the rows, degrees counter-clockwise from east
	Pitch   float64
	Across  float64 // the pitch across the rows, where it is another; else 0
	Cables  []Cable
	Sensors []Sensor
}

// A Cable is one cable's way.
type Cable struct {
	ID, Label              string
	Length                 float64
	Path, ColdLead, Return []plane.Point
}

// A Sensor is a sensor's place and its lead's way.
type Sensor struct {
	Name string
	Tip  plane.Point
	Lead []plane.Point
}

// codeLetters are those of a code: no two look alike, none is a vowel. Their number
// is prime, so that the check of valid catches what it says.
const codeLetters = "234679CFHJKLMNPRTWX"

// codeLetterCount is how many letters a code has, the check letter being the last.
const codeLetterCount = 6

// Of returns the code of a plan, like "7KF-4RP". One code is for all rooms of a
// set, so that every sheet in a hand shows the same.
func Of(rooms []Room) string {
	h := sha256.New()
	for _, r := range rooms {
		fmt.Fprintf(h, "room %q %s %d %s\n", r.Name, place(r.Origin), steps(r.Angle, 1e-4), decimal(r.Pitch))
		if r.Across > 0 {
			fmt.Fprintf(h, "across %s\n", decimal(r.Across))
		}
		for _, c := range r.Cables {
			fmt.Fprintf(h, "cable %q %q %s\n", c.ID, c.Label, decimal(c.Length))
			line(h, c.Path)
			line(h, c.ColdLead)
			line(h, c.Return)
		}
		for _, s := range r.Sensors {
			fmt.Fprintf(h, "sensor %q %s\n", s.Name, place(s.Tip))
			line(h, s.Lead)
		}
	}
	return spell(h.Sum(nil))
}

func line(w io.Writer, pts []plane.Point) {
	fmt.Fprintf(w, "line %d", len(pts))
	for _, p := range pts {
		fmt.Fprint(w, " ", place(p))
	}
	fmt.Fprintln(w)
}

func place(p plane.Point) string { return decimal(p.X) + "," + decimal(p.Y) }

func decimal(mm float64) string { return fmt.Sprint(steps(mm, 0.1)) }

// steps rounds twice: what two machines work out differs far behind the comma,
// and must not fall to either side of a half.
func steps(v, step float64) int64 { return int64(math.Round(math.Round(v*1e6) / math.Round(step*1e6))) }

// spell writes a sum in letters with its check letter.
func spell(sum []byte) string {
	n, base, digit := new(big.Int).SetBytes(sum), big.NewInt(int64(len(codeLetters))), new(big.Int)
	digits := make([]int, codeLetterCount)
	check := 0
	for i := range codeLetterCount - 1 {
		n.DivMod(n, base, digit)
		digits[i] = int(digit.Int64())
		check += weight(i) * digits[i]
	}
	digits[codeLetterCount-1] = (len(codeLetters) - check%len(codeLetters)) % len(codeLetters)
	var b strings.Builder
	for i, d := range digits {
		if i == codeLetterCount/2 {
			b.WriteByte('-')
		}
		b.WriteByte(codeLetters[d])
	}
	return b.String()
}

// weight makes the check notice two letters that changed places: it differs from
// place to place, and is 1 at the check letter itself.
func weight(i int) int { return codeLetterCount - i }

// Parse reads a code as people write it: in small letters, with or without the
// dash, with spaces. The error says what is wrong with it as a code; a code of
// another plan is none.
func Parse(s string) (string, error) {
	plain := strings.ToUpper(strings.NewReplacer("-", "", " ", "", "\t", "").Replace(s))
	if len([]rune(plain)) != codeLetterCount {
		return "", fmt.Errorf("%q is no plan code: one has %d letters and figures, like %s", s, codeLetterCount,
			Example)
	}
	sum := 0
	for i, r := range plain {
		d := strings.IndexRune(codeLetters, r)
		if d < 0 {
			return "", fmt.Errorf("%q is no plan code: %q is never in one, which has only %s", s, string(r),
				codeLetters)
		}
		sum += weight(i) * d
	}
	if sum%len(codeLetters) != 0 {
		return "", fmt.Errorf("%q was misread or mistyped: its last letter does not fit the others", s)
	}
	return plain[:codeLetterCount/2] + "-" + plain[codeLetterCount/2:], nil
}

// Example is a code to show how one looks.
const Example = "7KF-4RP"
