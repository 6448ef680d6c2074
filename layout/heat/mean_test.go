package heat

import "testing"

// Downward loss by EN 1264-2: q_U = (R_O q + room above - room below)/R_U with
// R_O = 1/10.8 + 0.01 + 0.03/1.2 and R_U = 0.75 + 0.18/2.1 + 0.015/0.7 + 0.17;
// worked by hand for q = 100 W/m² upward: 22.158 with 10 K between the rooms,
// 12.422 W/m² with none.
func TestDownwardLoss(t *testing.T) {
	for _, c := range []struct{ below, down float64 }{{-10, 22.158}, {0, 12.422}} {
		s := Section{
			Layers: []Layer{
				layer("covering", 10, 1), layer("screed above", 30, 1.2),
				layer("board", 30, 0.04), layer("concrete", 180, 2.1), layer("plaster", 15, 0.7),
			},
			Depth: 40, Spacing: 100, WattsPerMetre: (100 + c.down) / 10,
			Top: Film{10.8}, Below: Below{Kind: FilmBelow, Coefficient: 1 / 0.17, Rise: c.below},
		}
		b := s.balanced(s.Flux())
		near(t, "down", b.down, c.down, 1e-3)
		near(t, "up", b.up, 100, 1e-3)
	}
}
