package route

import (
	"crypto/sha256"
	"encoding/binary"
	"errors"
	"fmt"
	"hash"
	"math"
	"reflect"
	"slices"
	"sync"
)

// A Memory holds the answers to the last problems that were solved with it (Problem.Known): a job
// is read again whenever a price or a reading of it changes, and its floor need not be laid anew.
// An answer that is remembered is the one that the search would give. Goroutines may share one.
type Memory struct {
	most int

	mutex   sync.Mutex
	answers []answer // the one asked for last at the end
}

// NewMemory returns a memory of so many answers; those asked for least lately go first.
func NewMemory(most int) *Memory { return &Memory{most: most} }

// A problemSum tells problems apart.
type problemSum [sha256.Size]byte

// An answer is what came of a problem, with the steps that it was given and took.
type answer struct {
	to          problemSum
	routes      []Route
	refused     *Refusal // nil: routes
	given, took int
	gaveUp      []string
}

// solve is what the memory has of a problem, else what the search finds.
func (m *Memory) solve(p Problem) ([]Route, error) {
	sum, purse := sumOf(p), p.steps()
	if a, ok := m.find(sum); ok && a.holds(purse.left) {
		return a.pay(purse)
	}
	a := answer{to: sum, given: purse.left}
	own := &Steps{left: purse.left}
	p.Steps = own
	routes, err := search(p)
	a.took, a.gaveUp = a.given-own.left, own.given
	if stopped := p.Stop != nil && p.Stop(); stopped || err != nil && !errors.As(err, &a.refused) {
		a.spendFrom(purse) // what a search came to that was ended may be worse than it could be
		return routes, err
	}
	a.routes = routes
	m.keep(a)
	return a.pay(purse)
}

// find returns the answer to a problem, if it is known.
func (m *Memory) find(sum problemSum) (answer, bool) {
	m.mutex.Lock()
	defer m.mutex.Unlock()
	i := m.index(sum)
	if i < 0 {
		return answer{}, false
	}
	a := m.answers[i]
	m.answers = append(slices.Delete(m.answers, i, i+1), a)
	return a, true
}

func (m *Memory) index(sum problemSum) int {
	return slices.IndexFunc(m.answers, func(a answer) bool { return a.to == sum })
}

// keep takes an answer in place of an older one to the same, or of that asked for least lately.
func (m *Memory) keep(a answer) {
	m.mutex.Lock()
	defer m.mutex.Unlock()
	if i := m.index(a.to); i >= 0 {
		m.answers = slices.Delete(m.answers, i, i+1)
	}
	m.answers = append(m.answers, a)
	m.answers = slices.Delete(m.answers, 0, max(0, len(m.answers)-m.most))
}

// holds reports whether the search would come to the same with so many steps: with as many, or
// with more where it gave nothing up and never came near their end.
func (a answer) holds(left int) bool {
	return left == a.given || left > a.given && len(a.gaveUp) == 0 && a.given-a.took > mostFine
}

// pay returns the answer as if it had been searched for.
func (a answer) pay(purse *Steps) ([]Route, error) {
	a.spendFrom(purse)
	if a = a.apart(); a.refused != nil {
		return nil, a.refused
	}
	return a.routes, nil
}

func (a answer) spendFrom(purse *Steps) {
	purse.left -= a.took
	for _, what := range a.gaveUp {
		purse.giveUp(what)
	}
}

// apart returns the answer on memory of its own: who gets one may change it.
func (a answer) apart() answer {
	a.routes = slices.Clone(a.routes)
	for i := range a.routes {
		r := &a.routes[i]
		r.Path, r.ColdLead, r.Return = slices.Clone(r.Path), slices.Clone(r.ColdLead), slices.Clone(r.Return)
		r.Share = r.Share.Clone()
	}
	if a.refused != nil {
		refused := *a.refused
		a.refused = &refused
	}
	a.gaveUp = slices.Clone(a.gaveUp)
	return a
}

// sumOf is a sum over all that a problem says. What the search may cost and who ends it are no part of it.
func sumOf(p Problem) (sum problemSum) {
	p.Steps, p.Stop, p.Known = nil, nil, nil
	h := sha256.New()
	digest(h, reflect.ValueOf(p))
	return problemSum(h.Sum(nil))
}

// digest adds a value to a sum, whatever fields it has: one that is forgotten would lay the floor of another problem.
func digest(h hash.Hash, v reflect.Value) {
	number := func(n uint64) { h.Write(binary.BigEndian.AppendUint64(nil, n)) }
	switch v.Kind() {
	case reflect.Float64:
		number(math.Float64bits(v.Float()))
	case reflect.Int:
		number(uint64(v.Int()))
	case reflect.Bool:
		number(uint64(map[bool]int{true: 1}[v.Bool()]))
	case reflect.String:
		number(uint64(v.Len()))
		h.Write([]byte(v.String()))
	case reflect.Struct:
		for i := range v.NumField() {
			digest(h, v.Field(i))
		}
	case reflect.Slice, reflect.Array:
		number(uint64(v.Len()))
		for i := range v.Len() {
			digest(h, v.Index(i))
		}
	case reflect.Pointer, reflect.Func:
		if v.IsNil() {
			number(0)
			return
		}
		number(1)
		digest(h, v.Elem())
	default:
		panic(fmt.Sprintf("route: a problem with a %s has no sum", v.Kind()))
	}
}
