package partition

// mayBe reports whether a cell with these labels left can belong to unit u.
func mayBe(dom LabelSet, u int) bool { return dom&(1<<u|1<<Common) != 0 }

// mustBe reports whether it belongs to unit u in any case.
func mustBe(dom LabelSet, u int) bool { return dom&(1<<(1-u)) == 0 }

// single reports whether just one label is left.
func single(dom LabelSet) bool { return dom&(dom-1) == 0 }

// labelOf is the label of a cell with just that one left.
func labelOf(dom LabelSet) Label {
	switch dom {
	case 1 << A:
		return A
	case 1 << B:
		return B
	}
	return Common
}

// form says what is left of whether a through cell may become a dead end by
// what it hosts.
type form uint8

const (
	passable form = 1 << iota // people may pass; it hosts nothing that closes it
	closed                    // a dead end, whatever it hosts
	unformed = passable | closed
)

// state is a part of the search tree: the labels left to each cell. A public
// cell has the one label Common.
type state struct {
	m       *model
	dom     []LabelSet
	form    []form // unformed where nothing may close the cell
	trail   []undo
	changed []int // cells narrowed since the cut was last brought up to date
	// limit: what costs more is of no interest.
	limit cost

	base    cost    // lower bound without doors and entries
	doors   [2]cost // lower bounds of each unit's doors indoors
	entries cost    // lower bound of both entries' doors

	reach reach
}

type undo struct {
	cell int
	was  LabelSet
	form form
}

func newState(m *model) *state {
	s := &state{m: m, dom: m.start(), form: m.forms(), limit: never}
	s.reach.init(m)
	return s
}

// start returns the labels left to each cell at first.
func (m *model) start() []LabelSet {
	dom := make([]LabelSet, m.n)
	for c := range dom {
		dom[c] = m.cells[c].Allowed
		if m.cells[c].Public {
			dom[c] = 1 << Common
		}
	}
	return dom
}

// keep leaves cell c only the labels in set; it reports false if none is left.
func (s *state) keep(c int, set LabelSet) bool {
	left := s.dom[c] & set
	if left == s.dom[c] {
		return true
	}
	if left == 0 {
		return false
	}
	s.trail = append(s.trail, undo{c, s.dom[c], s.form[c]})
	s.changed = append(s.changed, c)
	s.dom[c] = left
	return true
}

// exclude keeps cell c out of unit u.
func (s *state) exclude(c, u int) bool { return s.keep(c, 1<<(1-u)) }

// include gives cell c to unit u, alone or in common.
func (s *state) include(c, u int) bool { return s.keep(c, 1<<u|1<<Common) }

// keepForm leaves cell c only the forms in set; it reports false if none is left.
func (s *state) keepForm(c int, set form) bool {
	left := s.form[c] & set
	if !s.m.shuts[c] || left == s.form[c] {
		return true
	}
	if left == 0 {
		return false
	}
	s.trail = append(s.trail, undo{c, s.dom[c], s.form[c]})
	s.form[c] = left
	return true
}

// passed gives cell c to unit u as one that it passes through.
func (s *state) passed(c, u int) bool { return s.include(c, u) && s.keepForm(c, passable) }

// dead tells the cells that are dead ends for certain; through those that
// may still be passed.
func (s *state) dead(c int) bool    { return s.m.isDead(c, s.form) }
func (s *state) through(c int) bool { return s.m.kind[c] == throughCell && s.form[c] != closed }

func (m *model) isDead(c int, form []form) bool {
	return m.kind[c] == deadCell || m.kind[c] == throughCell && form[c] == closed
}

// leads tells whether one gets over h, of those into a dead end, from the cell
// that it comes from.
func (m *model) leads(h half, form []form) bool { return h.ensuite || !m.isDead(h.to, form) }

// forms returns the forms left to each cell at first.
func (m *model) forms() []form {
	out := make([]form, m.n)
	for c := range out {
		out[c] = unformed
	}
	return out
}

// back undoes everything since the trail had the given length.
func (s *state) back(mark int) {
	for i := len(s.trail) - 1; i >= mark; i-- {
		s.dom[s.trail[i].cell] = s.trail[i].was
		s.form[s.trail[i].cell] = s.trail[i].form
	}
	s.trail = s.trail[:mark]
	s.changed = s.changed[:0]
}
