package partition

import "slices"

// anyEntry leaves the choice of the entry open.
var anyEntry = [2]int{-1, -1}

// doorway finds the cheapest doors and entries for the labelling, with the
// given entry links or any. The cost is never if there are none.
func (l *completion) doorway(entry [2]int) doors {
	l.best = doors{cost: never}
	l.state = append(l.state[:0], make([]int8, len(l.joint))...)
	l.choose(entry, 0)
	if l.best.cost != never {
		l.best.cost /= 2
		slices.Sort(l.best.bought)
		l.best.bought = slices.Compact(l.best.bought)
	}
	return l.best
}

// choose decides which joint links are bought, by branch and bound: an
// undecided one costs each unit half its price, so that both units' plans
// together cost no more than the truth, and just the truth once they agree.
func (l *completion) choose(entry [2]int, paid cost) {
	for j, i := range l.joint {
		switch l.state[j] {
		case 0:
			l.price[i] = l.m.door[i]
		case 1:
			l.price[i] = 0
		case 2:
			l.price[i] = never
		}
	}
	if len(l.joint) > 0 {
		byPrice := func(a, b int) int { return compareCosts(l.price[a], l.price[b]) }
		l.grove = slices.Clone(l.m.grove)
		l.yards = slices.Clone(l.m.yards)
		slices.SortStableFunc(l.grove, byPrice)
		slices.SortStableFunc(l.yards, byPrice)
	}
	bound := paid
	var chosen doors
	for u := range l.m.units {
		part, gate := l.plan(u, entry[u])
		if part >= never {
			return
		}
		bound += part
		chosen.entry[u] = gate
	}
	if bound >= l.best.cost {
		return
	}
	branch := -1
	for j, i := range l.joint {
		if l.state[j] == 0 && slices.Contains(l.taken[A], i) != slices.Contains(l.taken[B], i) {
			branch = j
			break
		}
	}
	if branch < 0 {
		chosen.cost = bound
		for u := range l.taken {
			for _, i := range l.taken[u] {
				if !l.m.links[i].Open {
					chosen.bought = append(chosen.bought, i)
				}
			}
		}
		for j, i := range l.joint {
			if l.state[j] == 1 {
				chosen.bought = append(chosen.bought, i)
			}
		}
		l.best = chosen
		return
	}
	l.state[branch] = 1
	l.choose(entry, paid+2*l.m.door[l.joint[branch]])
	l.state[branch] = 2
	l.choose(entry, paid)
	l.state[branch] = 0
}

// plan is the cheapest way to join up unit u at the present prices, and its
// entry link; taken[u] receives the links used.
func (l *completion) plan(u, entry int) (cost, int) {
	l.taken[u] = l.taken[u][:0]
	sum, gate := l.enter(u, entry)
	if sum >= never {
		return never, -1
	}
	if sum += l.indoors(u); sum >= never {
		return never, -1
	}
	if l.m.public {
		sum += l.outdoors(u)
	}
	return min(sum, never), gate
}

func (l *completion) enter(u, entry int) (cost, int) {
	if !l.m.units[u].NeedEntry {
		return 0, -1
	}
	best, gate := never, -1
	for _, g := range l.gates[u] {
		if (entry < 0 || g.link == entry) && !l.dead(g.to) && l.price[g.link] < best {
			best, gate = l.price[g.link], g.link
		}
	}
	if gate >= 0 {
		l.taken[u] = append(l.taken[u], gate)
	}
	return best, gate
}

func (l *completion) indoors(u int) cost {
	trees := -1
	for c, k := range l.m.kind {
		l.forest[c] = c
		if k == throughCell && mayBe(l.dom[c], u) && !l.dead(c) {
			trees++
		}
	}
	var sum cost
	for _, i := range l.grove {
		if trees <= 0 {
			break
		}
		link := &l.m.links[i]
		if l.price[i] == never {
			break
		}
		if !mayBe(l.dom[link.U], u) || !mayBe(l.dom[link.V], u) || l.dead(link.U) || l.dead(link.V) {
			continue
		}
		if l.join(link.U, link.V) {
			trees--
			sum += l.price[i]
			l.taken[u] = append(l.taken[u], i)
		}
	}
	if trees > 0 {
		return never
	}
	// A unit of dead ends alone starts in the one that nothing leads into.
	spare := 0
	if trees < 0 {
		if l.m.units[u].NeedEntry {
			return never
		}
		spare = 1
	}
	for _, c := range l.m.deads {
		if !mayBe(l.dom[c], u) || !l.dead(c) {
			continue
		}
		part, link := l.cheapest(u, c, l.m.into[c])
		if part == never {
			if spare--; spare < 0 {
				return never
			}
			continue
		}
		sum += part
		l.taken[u] = append(l.taken[u], link)
	}
	return sum
}

func (l *completion) outdoors(u int) cost {
	outside := l.m.n // the rooms and the public way
	if len(l.forest) == l.m.n {
		l.forest = append(l.forest, 0)
	}
	l.forest[outside] = outside
	trees := 0
	for c, k := range l.m.kind {
		l.forest[c] = outside
		if k == outdoorCell && mayBe(l.dom[c], u) {
			l.forest[c] = c
			trees++
		}
	}
	var sum cost
	for _, i := range l.yards {
		if trees == 0 {
			break
		}
		link := &l.m.links[i]
		if l.price[i] == never {
			break
		}
		if mayBe(l.dom[link.U], u) && mayBe(l.dom[link.V], u) && l.join(link.U, link.V) {
			trees--
			sum += l.price[i]
			l.taken[u] = append(l.taken[u], i)
		}
	}
	if trees > 0 {
		return never
	}
	for c, k := range l.m.kind {
		if k != detachedCell || !mayBe(l.dom[c], u) {
			continue
		}
		part, link := l.cheapest(u, c, l.m.ground[c])
		if part == never {
			return never
		}
		sum += part
		l.taken[u] = append(l.taken[u], link)
	}
	return sum
}

// cheapest is the cheapest of the links to cell c that come from cells of the unit.
func (l *completion) cheapest(u, c int, links []half) (cost, int) {
	best, link := never, -1
	for _, h := range links {
		if mayBe(l.dom[h.to], u) && l.price[h.link] < best && (l.m.kind[c] > deadCell || l.m.leads(h, l.form)) {
			best, link = l.price[h.link], h.link
		}
	}
	return best, link
}

func (l *completion) dead(c int) bool { return l.m.isDead(c, l.form) }

func (l *completion) root(c int) int {
	for l.forest[c] != c {
		l.forest[c] = l.forest[l.forest[c]]
		c = l.forest[c]
	}
	return c
}

func (l *completion) join(a, b int) bool {
	a, b = l.root(a), l.root(b)
	l.forest[a] = b
	return a != b
}
