package route

// assign decides which cable serves which floor.
func (r *room) assign() ([]share, error) {
	p := r.p
	if len(p.Zones) == len(p.Cables) && len(p.Zones) == 1 {
		return []share{{0, 0, p.Zones[0]}}, nil
	}
	return nil, &Refusal{Cable: -1, Zone: -1, Reason: "several cables or zones are not done yet"}
}
