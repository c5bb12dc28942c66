package partition

import "fmt"

// flow adds the variable for what goes from x to y over link i in unit u, at
// most size, and only where both are the unit's and the link is a way.
func (l *linear) flow(kind string, u, i, x, y int, size int64) string {
	name := fmt.Sprintf("%s.%s.%s.%s", kind, Label(u), l.ways[i], l.cells[y])
	link := &l.p.Links[i]
	if !link.Open {
		l.row([]string{term(1, name), term(-size, l.doorOf(i))}, "<=", 0)
	}
	for _, end := range [2]int{x, y} {
		has, always := l.has(-size, u, end)
		if !always {
			l.row(append([]string{term(1, name)}, has...), "<=", 0)
		}
	}
	return name
}

// usable tells whether a link is a way or may become one.
func usable(link *Link) bool { return link.Open || link.Door != Impossible }

// balance is what comes into and leaves each cell.
type balance [][]string

func (b balance) move(name string, x, y int) {
	b[x] = append(b[x], term(-1, name))
	b[y] = append(b[y], term(1, name))
}

// indoors lets each indoor cell of the unit draw one unit of flow.
func (l *linear) indoors(u int) {
	p := l.p
	l.block("Unit %s indoors: each of its cells draws 1 of what flows (go) from its entry over\n"+
		"its own ways; nothing flows out of a dead end but into its own bathroom or closet.", Label(u))
	size := int64(len(p.Cells))
	at := make(balance, len(p.Cells))
	for i := range p.Links {
		link := &p.Links[i]
		if !usable(link) || !p.Cells[link.U].indoor() || !p.Cells[link.V].indoor() {
			continue
		}
		for _, e := range [2][2]int{{link.U, link.V}, {link.V, link.U}} {
			leadsOn := link.Ensuite && link.U == e[0]
			if !p.Cells[e[0]].DeadEnd || leadsOn {
				name := l.flow("go", u, i, e[0], e[1], size)
				at.move(name, e[0], e[1])
				if !leadsOn {
					l.barred(e[0], size, name)
				}
			}
		}
	}
	if p.Units[u].NeedEntry {
		for i := range p.Links {
			if _, in, ok := l.gate(u, i); ok {
				name := fmt.Sprintf("go.%s.%s", Label(u), l.ways[i])
				l.row([]string{term(1, name), term(-size, l.enter(u, i))}, "<=", 0)
				l.barred(in, size, name)
				at[in] = append(at[in], term(1, name))
			}
		}
	} else {
		var starts []string
		for c := range p.Cells {
			if p.Cells[c].indoor() {
				start := l.binary(fmt.Sprintf("start.%s.%s", Label(u), l.cells[c]))
				name := fmt.Sprintf("go.%s.%s", Label(u), l.cells[c])
				l.row([]string{term(1, name), term(-size, start)}, "<=", 0)
				has, _ := l.has(-1, u, c)
				l.row(append([]string{term(1, start)}, has...), "<=", 0)
				starts = append(starts, term(1, start))
				at[c] = append(at[c], term(1, name))
			}
		}
		l.row(starts, "<=", 1)
	}
	for c := range p.Cells {
		if p.Cells[c].indoor() {
			has, _ := l.has(-1, u, c)
			l.row(append(at[c], has...), "=", 0)
		}
	}
}

// gate tells whether link i may be the unit's entry, and its ends.
func (l *linear) gate(u, i int) (out, in int, ok bool) {
	link := &l.p.Links[i]
	out, in = link.U, link.V
	if !l.p.Cells[out].ground() {
		out, in = in, out
	}
	ok = link.Entry[u] && usable(link) && l.p.Cells[out].ground() && l.p.Cells[in].indoor() && !l.p.Cells[in].DeadEnd
	return out, in, ok
}

// outdoors lets each outdoor and detached cell of the unit draw one unit of
// flow from the public way or the unit's rooms.
func (l *linear) outdoors(u int) {
	p := l.p
	public := false
	for c := range p.Cells {
		public = public || p.Cells[c].Public
	}
	if !public {
		return
	}
	l.block("Unit %s outdoors: each of its cells draws 1 of what flows (out) from the public way\n"+
		"or the unit's rooms.", Label(u))
	size := int64(len(p.Cells))
	at := make(balance, len(p.Cells))
	for i := range p.Links {
		link := &p.Links[i]
		if !usable(link) {
			continue
		}
		for _, e := range [2][2]int{{link.U, link.V}, {link.V, link.U}} {
			to := &p.Cells[e[1]]
			if !p.Cells[e[0]].Detached && !to.Public && (to.Outdoor || to.Detached) {
				at.move(l.flow("out", u, i, e[0], e[1], size), e[0], e[1])
			}
		}
	}
	for c := range p.Cells {
		if cell := &p.Cells[c]; !cell.Public && (cell.Outdoor || cell.Detached) {
			has, _ := l.has(-1, u, c)
			l.row(append(at[c], has...), "=", 0)
		}
	}
}

// entry chooses one entry link and lets its outdoor end draw one unit of flow
// from the public way over open links.
func (l *linear) entry(u int) {
	p := l.p
	if !p.Units[u].NeedEntry {
		return
	}
	l.block("Unit %s has one entry; who comes to it (to) walks over its own, common and public\n"+
		"ground alone.", Label(u))
	var choice []string
	at := make(balance, len(p.Cells))
	for i := range p.Links {
		out, in, ok := l.gate(u, i)
		if !ok {
			continue
		}
		name := l.binary(l.enter(u, i))
		choice = append(choice, term(1, name))
		if !p.Links[i].Open {
			l.row([]string{term(1, name), term(-1, l.doorOf(i))}, "<=", 0)
		}
		has, _ := l.has(-1, u, in)
		l.row(append([]string{term(1, name)}, has...), "<=", 0)
		at[out] = append(at[out], term(-1, name))
	}
	if len(choice) == 0 {
		choice = []string{term(0, l.own(u, l.anyCell()))}
	}
	l.row(choice, "=", 1)
	for i := range p.Links {
		link := &p.Links[i]
		if !link.Open || !p.Cells[link.U].ground() || !p.Cells[link.V].ground() {
			continue
		}
		for _, e := range [2][2]int{{link.U, link.V}, {link.V, link.U}} {
			if !p.Cells[e[1]].Public {
				at.move(l.flow("to", u, i, e[0], e[1], 1), e[0], e[1])
			}
		}
	}
	for c := range p.Cells {
		if p.Cells[c].Outdoor && !p.Cells[c].Public && len(at[c]) > 0 {
			l.row(at[c], "=", 0)
		}
	}
}
