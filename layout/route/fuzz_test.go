package route

import (
	"errors"
	"testing"
	"time"
)

// FuzzSolve lays small lattices with pegs left out at random: never a panic,
// never a hang, never a broken rule.
func FuzzSolve(f *testing.F) {
	f.Add(uint8(5), uint8(4), uint16(900), []byte{7, 13})
	f.Add(uint8(12), uint8(9), uint16(3000), []byte{})
	f.Add(uint8(12), uint8(9), uint16(3000), []byte("\x1f\x8e\xccv\x97\x16"))
	f.Add(uint8(9), uint8(11), uint16(60000), []byte{1, 2, 3, 40, 41, 42})
	f.Fuzz(func(t *testing.T, nx, ny uint8, length uint16, holes []byte) {
		w, h := 3+int(nx)%14, 3+int(ny)%14
		out := map[[2]int]bool{}
		for _, b := range holes[:min(len(holes), 12)] {
			out[[2]int{int(b) % w, int(b) / 14 % h}] = true
		}
		p := tiny(w, h, out)
		if len(p.Zones[0]) == 0 {
			return
		}
		p.Cables = []Cable{{ID: "H1", Length: 100 + float64(length)}}
		begin := time.Now()
		routes, err := Solve(p)
		if d := time.Since(begin); d > 20*time.Second {
			t.Errorf("%v for %d x %d pegs", d, w, h)
		}
		var r *Refusal
		if errors.As(err, &r) {
			return
		}
		if err != nil {
			t.Fatal(err)
		}
		if bad := broken(p, routes); bad != nil {
			t.Error(bad)
		}
	})
}
