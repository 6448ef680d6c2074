package drawing

// Layers returns all layers in drawing order, the undermost first.
func Layers() []Layer {
	return []Layer{
		LayerPhoto, LayerFloor, LayerHatch, LayerMembrane, LayerWalls, LayerFixtures, LayerCable,
		LayerLeads, LayerSensors, LayerMarks, LayerDims, LayerText, LayerFrame,
	}
}

// A Group is the items of one layer, in the order in which the sheet has them.
type Group struct {
	Layer Layer
	Items []Item
}

// Groups returns the sheet's items by layer, in drawing order, layers without
// items left out. An item of an unknown layer comes last, above all others.
func (s *Sheet) Groups() []Group {
	by := map[Layer][]Item{}
	var unknown []Layer
	for _, l := range Layers() {
		by[l] = nil
	}
	for _, it := range s.Items {
		l := it.layer()
		if _, ok := by[l]; !ok {
			unknown = append(unknown, l)
		}
		by[l] = append(by[l], it)
	}
	var out []Group
	for _, l := range append(Layers(), unknown...) {
		if len(by[l]) > 0 {
			out = append(out, Group{l, by[l]})
		}
	}
	return out
}
