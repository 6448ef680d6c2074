package heat_test

import (
	"fmt"
	"strings"

	"oxturn/layout/heat"
)

// A thin tiled floor on plywood over a heated room.
func ExampleSection_Solve() {
	var layers []heat.Layer
	for _, p := range []struct {
		kind string
		mm   float64
	}{{"tile", 9}, {"mortar", 3}, {"membrane", 5}, {"wood", 19}} {
		m, _ := heat.DefaultMaterial(p.kind)
		layers = append(layers, m.Layer(p.mm))
	}
	floor := heat.Section{
		Layers: layers, Depth: 14, Spacing: 90, WattsPerMetre: 12,
		Below: heat.Below{Kind: heat.FilmBelow, Coefficient: heat.FilmDown},
	}
	st, err := floor.Solve()
	if err != nil {
		fmt.Println(err)
		return
	}
	fmt.Printf("mean +%.1f K, over a cable +%.1f K, midway +%.1f K\n", st.Mean, st.OverCable, st.Midway)
	fmt.Printf("%.0f %% of the heat goes up\n", st.UpShare*100)
	fmt.Println(strings.ReplaceAll(st.Against(20, heat.OccupiedLimit)[0].Words(false).String(), " above ", " above\n"))

	curve, _ := floor.WarmUp(12)
	seconds, _ := curve.TimeTo(6)
	fmt.Println("6 K after", heat.FormatTime(seconds))
	// Output:
	// mean +9.1 K, over a cable +11.3 K, midway +7.5 K
	// 76 % of the heat goes up
	// left on without a thermostat, the surface over a cable would reach 31.3 °C, 11.3 °C over the air, 2.3 °C above
	// the limit of occupied floor, 29 °C, 9 °C over air at 20 °C (EN 1264-2): the floor thermostat must hold it down
	// 6 K after 52 min
}
