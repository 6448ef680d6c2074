package takeoff

import (
	"fmt"
	"io"

	"oxturn/layout/asjson"
	"oxturn/layout/language"
)

// Schema is the version of the JSON form. Keys may be added; these keep their
// meaning.
const Schema = 1

type listJSON struct {
	Schema      int                `json:"schema"`
	Status      string             `json:"status"`
	Lines       []lineJSON         `json:"lines"`
	Inclusions  []language.Message `json:"inclusions"`
	Exclusions  []language.Message `json:"exclusions"`
	Assumptions []language.Message `json:"assumptions"`
	Questions   []language.Message `json:"questions"`
}

type lineJSON struct {
	Code     string   `json:"code"`
	Item     string   `json:"item"`
	Basis    string   `json:"basis"`
	Metric   figures  `json:"metric"`
	US       figures  `json:"us"`
	Waste    float64  `json:"waste"` // share
	PackName string   `json:"pack_name,omitempty"`
	Packs    int      `json:"packs"`
	Price    *float64 `json:"price,omitempty"`
	Note     string   `json:"note,omitempty"`
}

type figures struct {
	Unit  string  `json:"unit"`
	Net   float64 `json:"net"`
	Gross float64 `json:"gross"`
	Pack  float64 `json:"pack,omitempty"`
	Spare float64 `json:"spare"`
}

// WriteJSON writes a take-off as indented JSON, every figure in both unit
// systems beside its unit.
func WriteJSON(w io.Writer, l List) error {
	out := listJSON{Schema: Schema, Status: l.Status, Lines: []lineJSON{},
		Inclusions: nonNil(l.Inclusions), Exclusions: nonNil(l.Exclusions),
		Assumptions: nonNil(l.Assumptions), Questions: nonNil(l.Questions)}
	for _, line := range l.Lines {
		out.Lines = append(out.Lines, toJSON(line))
	}
	if err := asjson.Write(w, out); err != nil {
		return fmt.Errorf("take-off as JSON: %w", err)
	}
	return nil
}

func toJSON(l Line) lineJSON {
	us := func(v float64) float64 { v, _ = US(v, l.Unit); return snap(v) }
	_, unit := US(0, l.Unit)
	out := lineJSON{Code: l.Code, Item: l.Item.String(), Basis: l.Basis.String(), Waste: snap(l.Waste),
		PackName: l.PackName,
		Packs:    l.Packs, Note: l.Note.String(),
		Metric: figures{l.Unit, l.Net, l.Gross, l.Pack, l.Spare},
		US:     figures{unit, us(l.Net), us(l.Gross), us(l.Pack), us(l.Spare)}}
	if l.Price != 0 {
		out.Price = &l.Price
	}
	return out
}

func nonNil(s []language.Message) []language.Message {
	if s == nil {
		return []language.Message{}
	}
	return s
}
