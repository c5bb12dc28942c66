package partition

// finished is the cheapest way to finish a labelling: hosts, doors, entries.
type finished struct {
	doors        // with the cost of the hosts, too
	form  []form // which cells the hosts close
	limit cost   // dearer ones are of no interest
	ask   [2]int // the entries asked for
}

// finish finds the cheapest hosts, doors and entries, with the given entry
// links or any; its cost is never if there are none at the limit or below.
//
// A cell that hosts may close is taken as one that people pass through, which
// never makes doors dearer, and as one that may host anything. Where the
// cheapest hosts close it, it is tried as a dead end, and without what closes
// it. Among what costs the same the first entry links are preferred.
func (l *completion) finish(entry [2]int, limit cost) doors {
	for c := range l.form {
		l.form[c] = unformed
	}
	l.way.doors, l.way.limit, l.way.ask = doors{cost: never}, limit, entry
	l.settle()
	if l.way.cost < never && len(l.way.form) > 0 {
		copy(l.form, l.way.form)
		l.hosts.solve(l.dom) // those that belong to it
	}
	return l.way.doors
}

// settle goes through what is left open by the forms.
func (l *completion) settle() {
	w := &l.way
	most := min(w.limit, w.cost)
	hosted := l.hosts.solve(l.dom)
	if hosted > most || hosted >= never {
		return
	}
	at := -1
	for c, shuts := range l.m.shuts {
		if shuts && l.form[c] == unformed && l.hosts.shut(c) {
			at = c
			break
		}
	}
	way := l.doorway(w.ask)
	if way.cost >= never {
		return
	}
	if way.cost += hosted; way.cost > most {
		return
	}
	if at < 0 {
		if way.cost < w.cost || before(way.entry, w.entry) {
			w.doors = way
			w.form = append(w.form[:0], l.form...)
		}
		return
	}
	for _, f := range [...]form{closed, passable} {
		l.form[at] = f
		l.settle()
	}
	l.form[at] = unformed
}

func before(a, b [2]int) bool { return a[A] < b[A] || a[A] == b[A] && a[B] < b[B] }
