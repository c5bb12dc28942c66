package partition

import "slices"

// leaveOut makes the search pass over labellings that agree with one of these
// lists.
func (m *model) leaveOut(except [][]Ownership) {
	for _, list := range except {
		var own, mirrored []Ownership
		for _, o := range list {
			c := slices.Index(m.cellAt, o.Cell)
			own = append(own, Ownership{c, o.Label})
			if o.Label != Common {
				o.Label = 1 - o.Label
			}
			mirrored = append(mirrored, Ownership{c, o.Label})
		}
		m.except = append(m.except, own)
		if m.symmetric {
			m.except = append(m.except, mirrored)
		}
	}
}

// leftOut reports whether the labels agree with a list of those left out.
func (m *model) leftOut(labels []Label) bool {
	return slices.ContainsFunc(m.except, func(list []Ownership) bool {
		return !slices.ContainsFunc(list, func(o Ownership) bool { return labels[o.Cell] != o.Label })
	})
}

// excepted keeps the labels from agreeing with a list of those left out.
func (s *state) excepted() bool {
	for _, list := range s.m.except {
		free, open := -1, 0
		var label Label
		for _, o := range list {
			if dom := s.dom[o.Cell]; dom&(1<<o.Label) == 0 {
				open = 2 // it differs
				break
			} else if !single(dom) {
				free, label = o.Cell, o.Label
				open++
			}
		}
		if open > 1 {
			continue
		}
		if open == 0 || !s.keep(free, Any&^(1<<label)) {
			return false
		}
	}
	return true
}
