package passport

import (
	"testing"

	"oxturn/layout/spend"
)

func TestMain(m *testing.M) {
	spend.Memory()
	m.Run()
}
