package figures

import (
	"fmt"
	"strconv"
	"strings"
	"text/tabwriter"

	"oxturn/layout"
	"oxturn/layout/job"
	"oxturn/layout/plane"
	"oxturn/layout/tiling"
)

// A TileLayout is one way to set out a room's tile: the one that is taken, and those it
// was compared with.
type TileLayout struct {
	Taken     bool    `json:"taken"`
	Recorded  bool    `json:"recorded"`                // as the tiler set it out; else proposed
	Along     string  `json:"along_rows"`              // how it begins along the rows; empty: as recorded
	Across    string  `json:"across_rows"`             // and across them
	X         float64 `json:"start_x_mm" round:"1"`    // a corner of a whole tile, which a row begins from
	Y         float64 `json:"start_y_mm" round:"1"`    //
	Angle     float64 `json:"row_angle_deg" round:"2"` // counter-clockwise from east
	Whole     int     `json:"whole_tiles"`
	Cut       int     `json:"cut_tiles"`
	UnderHalf int     `json:"under_half_tiles"`
	Slivers   int     `json:"sliver_tiles"`
	AtJoints  int     `json:"at_movement_joint_tiles"`
	Narrowest float64 `json:"narrowest_mm" round:"1"`
	Tiles     int     `json:"tiles"`        // off-cuts reused
	Bought    int     `json:"bought_tiles"` //
	Boxes     int     `json:"room_boxes"`   // 0: what a box holds is not given
}

// tileLayouts are those of a room.
func tileLayouts(r *layout.Room, t job.Tile) []TileLayout {
	out := []TileLayout{}
	for i, l := range r.Tiles {
		out = append(out, tileLayout(l, i == 0, t))
	}
	return out
}

func tileLayout(l tiling.Layout, taken bool, t job.Tile) TileLayout {
	bought, boxes := l.Bought(t)
	return TileLayout{Taken: taken, Recorded: l.Recorded, Along: l.Along.String(), Across: l.Across.String(),
		X: l.Origin.X,
		Y: l.Origin.Y, Angle: plane.Degrees(l.Angle), Whole: l.Whole, Cut: l.Cut,
		UnderHalf: l.UnderHalf, Slivers: l.Slivers, AtJoints: l.AtJoints, Narrowest: l.Narrowest, Tiles: l.Tiles(),
		Bought: bought, Boxes: boxes}
}

// tiles puts the layouts of a room as a short table.
func (p *page) tiles(all []TileLayout) {
	switch {
	case len(all) == 0:
		return
	case all[0].Recorded:
		p.put("tile", "as the tiler set it out: "+strings.Join(p.tileCounts(all[0]), ", "))
		return
	}
	var b strings.Builder
	t := tabwriter.NewWriter(&b, 0, 0, 2, ' ', 0)
	head := []string{"tile layouts", "cut", "under half", "slivers", "narrowest", "tiles", "boxes",
		"along the rows; across them"}
	for i := range head {
		head[i] = p.told.Retold(head[i])
	}
	fmt.Fprintln(t, "  "+strings.Join(head, "\t"))
	for _, l := range all {
		mark := "compared"
		if l.Taken {
			mark = "* proposed"
		}
		boxes := "-"
		if l.Boxes > 0 {
			boxes = strconv.Itoa(l.Boxes)
		}
		along := l.Along + "; " + l.Across
		if l.AtJoints > 0 {
			along += fmt.Sprintf("; %d cut by a movement joint", l.AtJoints)
		}
		fmt.Fprintf(t, "    %s\t%d\t%d\t%d\t%s\t%d\t%s\t%s\n", p.told.Retold(mark), l.Cut, l.UnderHalf, l.Slivers,
			p.told.Retold(p.narrowest(l)), l.Bought, boxes, p.told.Retold(along))
	}
	_ = t.Flush() // a builder takes all
	p.b.WriteString(b.String())
}

func (p *page) tileCounts(l TileLayout) []string {
	return []string{fmt.Sprintf("%d whole", l.Whole), fmt.Sprintf("%d cut", l.Cut), "narrowest " + p.narrowest(l),
		fmt.Sprintf("%d tiles with breakage", l.Bought)}
}

func (p *page) narrowest(l TileLayout) string {
	if l.Narrowest == 0 {
		return "-"
	}
	return p.length(l.Narrowest)
}
