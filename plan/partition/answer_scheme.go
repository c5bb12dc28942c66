package partition

import (
	"errors"
	"fmt"
	"math"
)

// wholeTolerance is how far from a whole number a value may be that must be
// one: above the tolerances to which general solvers work (1e-5 at most) and
// far below what could be mistaken.
const wholeTolerance = 1e-4

// Scheme gives the scheme that an answer's values stand for: labels, hosts,
// doors and entries, with the price reckoned anew from the definition. A door
// that is bought although no unit has both its ends is left out. The error
// lists everything that makes the values no scheme of the problem.
func (a *Answer) Scheme(p *Problem) (Solution, error) {
	l, err := newLinear(p, LPOptions{})
	if err != nil {
		return Solution{}, err
	}
	if len(a.Values) != len(l.columns()) {
		return Solution{}, fmt.Errorf("partition: an answer without values (%s)", a.Status)
	}
	v := &valueReader{linear: l, answer: a}
	s := v.scheme()
	if len(v.faults) > 0 {
		return s, errors.Join(v.faults...)
	}
	return s, Reckon(p, &s)
}

// valueReader turns an answer's values back.
type valueReader struct {
	*linear
	answer *Answer
	faults []error
}

// chosen tells whether a variable is 1. One that the file has no use for is 0.
func (v *valueReader) chosen(name string) bool {
	at, there := v.answer.places[name]
	if !there {
		return false
	}
	x := v.answer.Values[at]
	whole := math.Round(x)
	if math.Abs(x-whole) > wholeTolerance || whole < 0 || whole > 1 {
		v.faults = append(v.faults, fmt.Errorf("partition: %s is %g, neither 0 nor 1", name, x))
	}
	return whole == 1
}

func (v *valueReader) scheme() Solution {
	p := v.p
	s := Solution{Labels: make([]Label, len(p.Cells)), Entry: [2]int{-1, -1}}
	for c, cell := range p.Cells {
		s.Labels[c] = Common
		if cell.Public {
			continue
		}
		owners := 0
		for label, name := range [...]string{v.own(0, c), v.own(1, c), v.common(c)} {
			if v.chosen(name) {
				s.Labels[c] = Label(label)
				owners++
			}
		}
		if owners != 1 {
			v.faults = append(v.faults, fmt.Errorf("partition: cell %q has %d owners", cell.Name, owners))
		}
	}
	for u, unit := range p.Units {
		s.Hosts[u] = make([][]int, len(p.Functions))
		for f := range unit.Need {
			for c := range p.Cells {
				if name, ok := v.host(u, f, c); ok && v.chosen(name) {
					s.Hosts[u][f] = append(s.Hosts[u][f], c)
				}
			}
		}
	}
	for i, link := range p.Links {
		if link.Open || link.Door == Impossible || !v.chosen(v.doorOf(i)) {
			continue
		}
		if s.together(p, link.U, link.V) {
			s.Bought = append(s.Bought, i)
		}
	}
	for u := range p.Units {
		for i := range p.Links {
			if !v.chosen(v.enter(u, i)) {
				continue
			}
			if s.Entry[u] >= 0 {
				v.faults = append(v.faults, fmt.Errorf("partition: unit %s has two entries", Label(u)))
			}
			s.Entry[u] = i
		}
	}
	return s
}

// together tells whether some unit has both cells.
func (s *Solution) together(p *Problem, a, b int) bool {
	for u := range p.Units {
		has := func(c int) bool { return p.Cells[c].Public || s.Labels[c] == Common || s.Labels[c] == Label(u) }
		if has(a) && has(b) {
			return true
		}
	}
	return false
}

// Objective is the price as the LP file weighs it, with so many money units to
// one of the file's (see LPOptions.PerUnit).
func Objective(p *Problem, price Price, perUnit Money) float64 {
	return (float64(price.Money) + float64(price.Shared)*float64(SharedWeight(p))) / float64(max(perUnit, 1))
}
