package partition

// completion finishes a labelling: with every owner known it finds the
// cheapest doors, entries and hosts, exactly. Indoors the through cells of a
// unit need a spanning tree (Kruskal), and each dead end its cheapest link
// from a through cell or from the dead end that it is ensuite to. Outdoors the
// rooms and the public way together are one end of a spanning tree over the
// unit's outdoor cells, and each detached cell takes its cheapest link. These
// parts share no link within a unit: an entry's outdoor end is reached over
// open links anyway, so nobody buys that link to reach it. What the hosts close
// is a dead end; where that makes a difference both is tried (finish.go).
type completion struct {
	m      *model
	hosts  *transport
	dom    []LabelSet // the labelling
	form   []form
	labels []Label

	price  []cost // per link, twice the door's price as the present question sees it
	forest []int
	grove  []int
	yards  []int
	mark   []bool
	taken  [2][]int // links of the last plan of each unit, open ones included
	gates  [2][]gate
	joint  []int // closed links that would serve both units
	state  []int8
	best   doors
	way    finished
}

// doors is what is bought for both units.
type doors struct {
	cost   cost
	bought []int
	entry  [2]int
}

func newCompletion(m *model) *completion {
	form := m.forms()
	return &completion{
		m: m, hosts: newTransport(m, form), form: form,
		dom: make([]LabelSet, m.n), labels: make([]Label, m.n),
		price: make([]cost, len(m.links)), forest: make([]int, m.n), mark: make([]bool, m.n),
	}
}

// load takes a labelling; it reports false where areas or shares rule it out.
func (l *completion) load(labels []Label) bool {
	copy(l.labels, labels)
	for c, label := range labels {
		l.dom[c] = 1 << label
	}
	area := l.areas()
	for u := range l.m.units {
		if area[u] < l.m.units[u].MinArea {
			return false
		}
	}
	if !l.amounts() {
		return false
	}
	both := area[A] + area[B]
	return 1000*area[A] >= l.m.share[0]*both && 1000*area[A] <= l.m.share[1]*both
}

// amounts tells whether both units have their least amounts.
func (l *completion) amounts() bool {
	var have [2][2]int64
	for c, label := range l.labels {
		if label != Common {
			for i, amount := range l.m.cells[c].Amount {
				have[label][i] += amount
			}
		}
	}
	for u, unit := range l.m.units {
		if have[u][0] < unit.MinAmount[0] || have[u][1] < unit.MinAmount[1] {
			return false
		}
	}
	return true
}

func (l *completion) areas() (area [2]int64) {
	for c, label := range l.labels {
		if label != Common {
			area[label] += l.m.cells[c].Area
		}
	}
	return area
}

// fixed is the cost of the labels themselves: common cells, wishes of
// ownership, links that part, imbalance.
func (l *completion) fixed() cost {
	var sum cost
	for c, label := range l.labels {
		sum += l.m.own[c][label]
	}
	for i := range l.m.links {
		sum += l.m.parting(i, l.labels)
	}
	area := l.areas()
	return sum + l.m.imbalance(area[A], area[B])
}

// parting is what link i costs under the labels.
func (m *model) parting(i int, labels []Label) cost {
	link := &m.links[i]
	u, v := labels[link.U], labels[link.V]
	switch {
	case u == v || m.kind[link.U] == publicCell || m.kind[link.V] == publicCell:
		return 0
	case u == Common || v == Common:
		return m.sepc[i]
	}
	return m.sep[i]
}

func (m *model) imbalance(a, b int64) cost {
	off := 1000*a - int64(m.balance.Share)*(a+b)
	return cost(max(off, -off)*int64(m.balance.PerArea)/1000) * m.money
}

// open prepares for questions about doors: which gates are alive, and which
// links would serve both units. It reports false if a unit cannot be entered.
func (l *completion) open() bool {
	for u := range l.m.units {
		l.gates[u] = l.gates[u][:0]
		if !l.m.units[u].NeedEntry {
			continue
		}
		l.walk(u)
		for _, g := range l.m.entry[u] {
			if l.mark[g.from] && mayBe(l.dom[g.to], u) {
				l.gates[u] = append(l.gates[u], g)
			}
		}
		if len(l.gates[u]) == 0 {
			return false
		}
	}
	l.joint = l.joint[:0]
	for i := range l.m.links {
		link := &l.m.links[i]
		l.price[i] = l.m.door[i]
		if l.price[i] != never {
			l.price[i] *= 2
		}
		if l.price[i] > 0 && l.price[i] != never && l.labels[link.U] == Common && l.labels[link.V] == Common {
			l.joint = append(l.joint, i)
		}
	}
	l.grove, l.yards = l.m.grove, l.m.yards
	return true
}

// walk marks the ground that unit u reaches from the public way over open links.
func (l *completion) walk(u int) {
	clear(l.mark)
	var queue []int
	for c, k := range l.m.kind {
		if k == publicCell {
			l.mark[c] = true
			queue = append(queue, c)
		}
	}
	for len(queue) > 0 {
		c := queue[len(queue)-1]
		queue = queue[:len(queue)-1]
		for _, h := range l.m.incid[c] {
			if !l.mark[h.to] && l.m.door[h.link] == 0 && l.m.links[h.link].Open && l.m.cells[h.to].ground() && mayBe(l.dom[h.to], u) {
				l.mark[h.to] = true
				queue = append(queue, h.to)
			}
		}
	}
}
