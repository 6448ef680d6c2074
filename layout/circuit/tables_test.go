package circuit

import "oxturn/layout/internal/published"

var (
	table = published.Table
	near  = published.Near
)
