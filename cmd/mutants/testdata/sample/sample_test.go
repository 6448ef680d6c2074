package sample

import "testing"

func TestSample(t *testing.T) {
	if Sums(5, 3) != 3 || Half(4) != 2 {
		t.Error("sums")
	}
	if Count([]int{0, 2, 3, 4, 5}, 2, 5) != 3 {
		t.Error("count")
	}
	if Down(3) != 5 {
		t.Error("down")
	}
	if Most(-3, -1, -2) != -1 {
		t.Error("most")
	}
}
