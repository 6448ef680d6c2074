package route

import (
	"errors"
	"fmt"
	"reflect"
	"sync"
	"testing"

	"github.com/google/go-cmp/cmp"

	"oxturn/layout/circuit"
	"oxturn/layout/plane"
)

// TestRemembersWhatTheSearchFinds: routes, refusals, and what they leave of the steps are those of
// a search, the first time and again.
func TestRemembersWhatTheSearchFinds(t *testing.T) {
	tooLong := twoCables(t)
	tooLong.Cables[1].Length *= 3
	for name, p := range map[string]Problem{"plain": plainRoom(t, 1), "two": twoCables(t), "too long": tooLong} {
		t.Run(name, func(t *testing.T) {
			searched := p
			searched.Steps = StepsFor(p.Zones, p.Pitch, len(p.Cables), 1)
			want, refused := Solve(searched)
			p.Known = NewMemory(3)
			for time := range 2 {
				p.Steps = StepsFor(p.Zones, p.Pitch, len(p.Cables), 1)
				got, err := Solve(p)
				if d := cmp.Diff(want, got); d != "" {
					t.Errorf("time %d: %s", time+1, d)
				}
				if d := cmp.Diff(fmt.Sprint(refused), fmt.Sprint(err)); d != "" {
					t.Errorf("time %d: %s", time+1, d)
				}
				if d := cmp.Diff(searched.Steps, p.Steps, cmp.AllowUnexported(Steps{})); d != "" {
					t.Errorf("time %d: %s", time+1, d)
				}
			}
			if n := len(p.Known.answers); n != 1 {
				t.Errorf("%d answers are known of one problem", n)
			}
		})
	}
}

// TestWhatIsRememberedIsApart: who turns a route round does not turn it for the next.
func TestWhatIsRememberedIsApart(t *testing.T) {
	p := plainRoom(t, 0)
	p.Cables[0].Ends = circuit.BothEnds
	p.Known = NewMemory(1)
	first, err := Solve(p)
	if err != nil || len(first[0].Return) == 0 {
		t.Fatalf("%v, return %v", err, first)
	}
	second, _ := Solve(p)
	spots := map[uintptr]bool{}
	storage(reflect.ValueOf(first), func(at uintptr) { spots[at] = true })
	if len(spots) < 6 {
		t.Fatalf("only %d pieces of memory are compared", len(spots))
	}
	storage(reflect.ValueOf(second), func(at uintptr) {
		if spots[at] {
			t.Error("two answers share memory")
		}
	})
}

// storage calls f with every piece of memory that a value refers to.
func storage(v reflect.Value, f func(uintptr)) {
	switch v.Kind() {
	case reflect.Struct:
		for i := range v.NumField() {
			storage(v.Field(i), f)
		}
	case reflect.Slice:
		if v.Len() > 0 {
			f(v.Pointer())
		}
		for i := range v.Len() {
			storage(v.Index(i), f)
		}
	case reflect.Pointer:
		if !v.IsNil() {
			f(v.Pointer())
			storage(v.Elem(), f)
		}
	}
}

// TestNoProblemIsTakenForAnother changes every figure of a problem by itself: none may be left
// out of its sum, also those that a later version adds.
func TestNoProblemIsTakenForAnother(t *testing.T) {
	full := func() *Problem {
		p := &Problem{}
		fill(reflect.ValueOf(p).Elem())
		p.Steps, p.Stop, p.Known = nil, nil, nil
		return p
	}
	var leaves []reflect.Value
	collect(reflect.ValueOf(full()).Elem(), &leaves)
	sums := map[problemSum]bool{sumOf(*full()): true}
	for i := range leaves {
		p, own := full(), []reflect.Value(nil)
		collect(reflect.ValueOf(p).Elem(), &own)
		change(own[i])
		sum := sumOf(*p)
		if sums[sum] {
			t.Errorf("figure %d of %d makes no difference", i+1, len(leaves))
		}
		sums[sum] = true
	}
	if len(leaves) < 60 {
		t.Errorf("only %d figures were changed", len(leaves))
	}
	none := Problem{Uneven: nil, Zones: []plane.Region{nil, {}}}
	some := Problem{Uneven: &Uneven{}, Zones: []plane.Region{{}}}
	if sumOf(none) == sumOf(some) {
		t.Error("what is not there is as good as what is")
	}
}

// fill gives every slice two values and every pointer one.
func fill(v reflect.Value) {
	switch v.Kind() {
	case reflect.Struct:
		for i := range v.NumField() {
			if f := v.Field(i); f.CanSet() {
				fill(f)
			}
		}
	case reflect.Slice:
		v.Set(reflect.MakeSlice(v.Type(), 2, 2))
		fill(v.Index(0))
		fill(v.Index(1))
	case reflect.Pointer:
		v.Set(reflect.New(v.Type().Elem()))
		fill(v.Elem())
	}
}

// collect lists all figures of a value that can be set.
func collect(v reflect.Value, leaves *[]reflect.Value) {
	switch v.Kind() {
	case reflect.Struct:
		for i := range v.NumField() {
			collect(v.Field(i), leaves)
		}
	case reflect.Slice:
		for i := range v.Len() {
			collect(v.Index(i), leaves)
		}
	case reflect.Pointer:
		if !v.IsNil() {
			collect(v.Elem(), leaves)
		}
	case reflect.Func:
	default:
		*leaves = append(*leaves, v)
	}
}

func change(v reflect.Value) {
	switch v.Kind() {
	case reflect.Float64:
		v.SetFloat(v.Float() + 0.001)
	case reflect.Int:
		v.SetInt(v.Int() + 1)
	case reflect.Bool:
		v.SetBool(!v.Bool())
	case reflect.String:
		v.SetString(v.String() + "x")
	}
}

// TestStepsOfAnotherSearch: an answer holds for as many steps as it was found with, and for more
// where it was in no want of any.
func TestStepsOfAnotherSearch(t *testing.T) {
	rich := answer{given: 5 * mostFine, took: mostFine}
	poor := answer{given: 5 * mostFine, took: 4*mostFine + 1}
	gaveUp := answer{given: 5 * mostFine, took: 6 * mostFine, gaveUp: []string{"a wider search"}}
	for _, c := range []struct {
		a    answer
		left int
		want bool
	}{{rich, 5 * mostFine, true}, {rich, 5*mostFine + 1, true}, {rich, 5*mostFine - 1, false},
		{poor, 5 * mostFine, true}, {poor, 6 * mostFine, false},
		{gaveUp, 5 * mostFine, true}, {gaveUp, 6 * mostFine, false}} {
		if got := c.a.holds(c.left); got != c.want {
			t.Errorf("%+v with %d steps: %v", c.a, c.left, got)
		}
	}
}

// TestEndedSearchIsForgotten: what it came to may be worse than what there is.
func TestEndedSearchIsForgotten(t *testing.T) {
	p := plainRoom(t, 0)
	p.Known, p.Stop = NewMemory(1), func() bool { return true }
	if _, err := Solve(p); !errors.Is(err, ErrStopped) || len(p.Known.answers) > 0 {
		t.Fatalf("%v, %d answers", err, len(p.Known.answers))
	}
	asked := 0
	p.Stop = func() bool { asked++; return false }
	if _, err := Solve(p); err != nil || asked == 0 || len(p.Known.answers) != 1 {
		t.Errorf("%v, asked %d times, %d answers", err, asked, len(p.Known.answers))
	}
}

// TestLeastLatelyAskedForGoesFirst: what is asked for again stays.
func TestLeastLatelyAskedForGoesFirst(t *testing.T) {
	m := NewMemory(2)
	m.keep(answer{to: problemSum{1}, took: 1})
	m.keep(answer{to: problemSum{2}})
	if a, ok := m.find(problemSum{1}); !ok || a.took != 1 {
		t.Errorf("%+v, known %v", a, ok)
	}
	m.keep(answer{to: problemSum{3}})
	m.keep(answer{to: problemSum{1}, took: 5}) // with other steps
	for n, want := range map[byte]bool{1: true, 2: false, 3: true} {
		if _, ok := m.find(problemSum{n}); ok != want {
			t.Errorf("problem %d: known %v", n, ok)
		}
	}
	if a, _ := m.find(problemSum{1}); a.took != 5 {
		t.Errorf("took %d, the newest was 5", a.took)
	}
}

// TestMemoryIsShared by the jobs of a folder.
func TestMemoryIsShared(t *testing.T) {
	known := NewMemory(2)
	var all sync.WaitGroup
	for i := range 6 {
		all.Go(func() {
			p := plainRoom(t, i%3)
			p.Known = known
			if routes, err := Solve(p); err != nil || broken(p, routes) != nil {
				t.Errorf("%v, %v", err, broken(p, routes))
			}
		})
	}
	all.Wait()
	if len(known.answers) != 2 {
		t.Errorf("%d answers", len(known.answers))
	}
}
