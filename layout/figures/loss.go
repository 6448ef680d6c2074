package figures

import (
	"oxturn/layout"
	"oxturn/layout/language"
	"oxturn/layout/plane"
	"oxturn/layout/say"
)

// A HeatLoss holds what a floor gives against what its room loses, simplified.
type HeatLoss struct {
	Room    string     `json:"room"`
	Outside float64    `json:"outside_c" round:"2"`
	Inside  float64    `json:"inside_c" round:"2"`
	Lost    [2]float64 `json:"lost_w" round:"1"`
	Gives   [2]float64 `json:"floor_gives_w" round:"1"` // without layers: 0 to its power
	Percent [2]float64 `json:"covers_percent" round:"1"`
	Basis   []string   `json:"assumptions"`

	words string
	basis []language.Message
}

func losses(p *layout.Plan) []HeatLoss {
	out := []HeatLoss{}
	for _, l := range p.Losses {
		basis := l.Loss.Words(p.Job.Units == plane.Inches)
		out = append(out, HeatLoss{
			Room: l.Room, Outside: l.Loss.Outside, Inside: l.Loss.Inside, Lost: [2]float64{l.Lost.Low, l.Lost.High},
			Gives:   [2]float64{l.Gives.Low, l.Gives.High},
			Percent: [2]float64{100 * l.Covers.Low, 100 * l.Covers.High},
			Basis:   language.In(language.English, basis), basis: basis,
			words: l.Words(say.Figures{Units: p.Job.Units}),
		})
	}
	return out
}

func (p *page) losses(all []HeatLoss) {
	for _, l := range all {
		p.head("Heat loss, %s (simplified; no room temperature is promised)", l.Room)
		p.sentence("result", l.words)
		for i, a := range language.In(p.told.Language, l.basis) {
			p.sentence(first(i, "counted"), a)
		}
	}
}
