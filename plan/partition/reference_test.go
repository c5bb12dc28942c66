package partition_test

import (
	"sort"

	"moiety/plan/partition"
)

// reference lists the price of every class of schemes that do not differ, in
// rising order. It tries every labelling with every set of doors, straight
// from the definition in the package comment, and shares no code with the
// search.
func reference(p *partition.Problem) []partition.Price {
	e := exhaustive{p: p, labels: make([]partition.Label, len(p.Cells)), best: map[string]partition.Price{}}
	for i, l := range p.Links {
		if !l.Open && l.Door != partition.Impossible {
			e.closed = append(e.closed, i)
		}
	}
	e.symmetric = alike(p)
	e.label(0)
	var prices []partition.Price
	for _, price := range e.best {
		prices = append(prices, price)
	}
	sort.Slice(prices, func(i, j int) bool { return prices[i].Less(prices[j]) })
	return prices
}

type exhaustive struct {
	p         *partition.Problem
	labels    []partition.Label
	closed    []int
	symmetric bool
	best      map[string]partition.Price
	// hosted is the least price of hosting everything by which cells are dead
	// ends then ('x'); shut is one of these.
	hosted map[string]partition.Price
	shut   string
	// told is told of every price met, if set: then of the least for every
	// number of shared elements that hosting can leave.
	told func(partition.Price)
}

func (e *exhaustive) label(c int) {
	if c == len(e.labels) {
		e.complete()
		return
	}
	if e.p.Cells[c].Public {
		e.labels[c] = partition.Common
		e.label(c + 1)
		return
	}
	for l := partition.A; l <= partition.Common; l++ {
		if e.p.Cells[c].Allowed&(1<<l) != 0 {
			e.labels[c] = l
			e.label(c + 1)
		}
	}
}

func (e *exhaustive) owns(u, c int) bool {
	return e.labels[c] == partition.Common || e.labels[c] == partition.Label(u)
}

func plus(a, b partition.Price) partition.Price {
	return partition.Price{Shared: a.Shared + b.Shared, Money: a.Money + b.Money}
}

func (e *exhaustive) complete() {
	p := e.p
	var sum partition.Price
	var area [2]int64
	for c, cell := range p.Cells {
		switch {
		case cell.Public:
		case e.labels[c] == partition.Common:
			sum = plus(sum, cell.Common)
		default:
			sum.Money += cell.Own[e.labels[c]]
			area[e.labels[c]] += cell.Area
		}
	}
	if area[0] < p.Units[0].MinArea || area[1] < p.Units[1].MinArea {
		return
	}
	for u, unit := range p.Units {
		for i := range unit.MinAmount {
			have := int64(0)
			for c, cell := range p.Cells {
				if !cell.Public && e.labels[c] == partition.Label(u) {
					have += cell.Amount[i]
				}
			}
			if have < unit.MinAmount[i] {
				return
			}
		}
	}
	total := area[0] + area[1]
	if area[0]*1000 < int64(p.ShareMin)*total || area[0]*1000 > int64(p.ShareMax)*total {
		return
	}
	off := 1000*area[0] - int64(p.Balance.Share)*total
	if off < 0 {
		off = -off
	}
	sum.Money += partition.Money(off * int64(p.Balance.PerArea) / 1000)
	for _, l := range p.Links {
		if p.Cells[l.U].Public || p.Cells[l.V].Public {
			continue
		}
		parting := partition.Money(0)
		switch a, b := e.labels[l.U], e.labels[l.V]; {
		case a == b:
		case a == partition.Common || b == partition.Common:
			parting = l.SepCommon
			sum.Shared += l.SharedEdge
		default:
			parting = l.Sep
		}
		if parting == partition.Impossible {
			return
		}
		sum.Money += parting
	}
	room := make([]int, len(p.Cells))
	for c := range room {
		room[c] = p.Cells[c].Capacity
	}
	e.hosted = map[string]partition.Price{}
	used := make([][]int, len(p.Cells))
	for c := range used {
		used[c] = make([]int, len(p.Functions))
	}
	e.host(0, 0, 0, 0, room, used, partition.Price{})
	if len(e.hosted) == 0 {
		return
	}
	way := make([]bool, len(p.Links))
	var closed []int // doors inside a unit; others cannot be bought
	for _, i := range e.closed {
		l := p.Links[i]
		if e.owns(0, l.U) && e.owns(0, l.V) || e.owns(1, l.U) && e.owns(1, l.V) {
			closed = append(closed, i)
		}
	}
	for set := range 1 << len(closed) {
		price := sum
		for i, l := range p.Links {
			way[i] = l.Open
		}
		for k, i := range closed {
			if set>>k&1 != 0 {
				way[i] = true
				price.Money += p.Links[i].Door
			}
		}
		for shut, hosting := range e.hosted {
			e.shut = shut
			if len(e.entries(0, way)) > 0 && len(e.entries(1, way)) > 0 {
				e.meet(plus(price, hosting))
			}
		}
	}
}

// host goes through all ways of hosting everything from function f of unit u
// on, with need k of it met and cells from c on left to look at.
func (e *exhaustive) host(u, f, k, c int, room []int, used [][]int, price partition.Price) {
	if f == len(e.p.Functions) {
		u, f, k, c = u+1, 0, 0, 0
	}
	if u == 2 || len(e.p.Functions) == 0 {
		e.keep(used, price)
		return
	}
	need, lack := e.p.Units[u].Need[f], e.p.Units[u].Lack[f]
	if k == need {
		e.host(u, f+1, 0, 0, room, used, price)
		return
	}
	if c == len(e.p.Cells) {
		if lack.Money != partition.Impossible {
			for range need - k {
				price = plus(price, lack)
			}
			e.host(u, f+1, 0, 0, room, used, price)
		}
		return
	}
	e.host(u, f, k, c+1, room, used, price)
	cell := e.p.Cells[c]
	counted := 1
	if e.p.Functions[f].Uncounted {
		counted = 0
	}
	if !cell.Public && e.owns(u, c) && cell.Host[f] != partition.Impossible && room[c] >= counted {
		room[c] -= counted
		used[c][f]++
		price.Money += cell.Host[f]
		e.host(u, f, k+1, c+1, room, used, price)
		used[c][f]--
		room[c] += counted
	}
}

// keep keeps the cheapest hosts for each set of dead ends, unless they clash.
func (e *exhaustive) keep(used [][]int, price partition.Price) {
	shut := make([]byte, len(used))
	for c, cell := range e.p.Cells {
		shut[c] = '.'
		if cell.DeadEnd {
			shut[c] = 'x'
		}
		for f, closes := range cell.Closes {
			if closes && used[c][f] > 0 {
				shut[c] = 'x'
			}
		}
	clashes:
		for _, clash := range cell.Clashes {
			for _, f := range clash {
				if used[c][f] == 0 {
					continue clashes
				}
			}
			return
		}
	}
	key := string(shut)
	if e.told != nil {
		key += string(rune('0' + price.Shared))
	}
	if old, ok := e.hosted[key]; !ok || price.Less(old) {
		e.hosted[key] = price
	}
}

// entries lists the links by which unit u can be entered such that everything
// is reached; -1 where it needs none; nothing where it does not hang together.
func (e *exhaustive) entries(u int, way []bool) (found []int) {
	p := e.p
	room := func(c int) bool {
		cell := p.Cells[c]
		return !cell.Public && !cell.Outdoor && !cell.Detached && e.owns(u, c)
	}
	ground := func(c int) bool {
		cell := p.Cells[c]
		return cell.Public || cell.Outdoor && e.owns(u, c)
	}
	hasPublic := false
	for _, cell := range p.Cells {
		hasPublic = hasPublic || cell.Public
	}
	if hasPublic {
		reached := e.spread(func(c int) bool { return p.Cells[c].Public || room(c) }, func(i, a, b int) bool {
			return way[i] && e.owns(u, b) && !p.Cells[a].Detached && !p.Cells[b].Public
		})
		for c, cell := range p.Cells {
			if !cell.Public && (cell.Outdoor || cell.Detached) && e.owns(u, c) && !reached[c] {
				return nil
			}
		}
	}
	together := func(start int) bool {
		reached := e.spread(func(c int) bool { return c == start }, func(i, a, b int) bool {
			passes := e.shut[a] != 'x' || p.Links[i].Ensuite && a == p.Links[i].U
			return way[i] && room(a) && room(b) && passes
		})
		for c := range p.Cells {
			if room(c) && !reached[c] {
				return false
			}
		}
		return true
	}
	if !p.Units[u].NeedEntry {
		any := false
		for c := range p.Cells {
			if room(c) {
				any = true
				if together(c) {
					return []int{-1}
				}
			}
		}
		if any {
			return nil
		}
		return []int{-1}
	}
	walked := e.spread(func(c int) bool { return p.Cells[c].Public }, func(i, a, b int) bool {
		return p.Links[i].Open && ground(b)
	})
	for i, l := range p.Links {
		for _, end := range [2][2]int{{l.U, l.V}, {l.V, l.U}} {
			if l.Entry[u] && way[i] && walked[end[0]] && ground(end[0]) && room(end[1]) &&
				e.shut[end[1]] != 'x' && together(end[1]) {
				found = append(found, i)
			}
		}
	}
	return found
}

func (e *exhaustive) spread(from func(c int) bool, step func(i, a, b int) bool) []bool {
	reached := make([]bool, len(e.p.Cells))
	var queue []int
	for c := range reached {
		if from(c) {
			reached[c] = true
			queue = append(queue, c)
		}
	}
	for len(queue) > 0 {
		c := queue[0]
		queue = queue[1:]
		for i, l := range e.p.Links {
			o := -1
			if l.U == c {
				o = l.V
			} else if l.V == c {
				o = l.U
			}
			if o >= 0 && !reached[o] && step(i, c, o) {
				reached[o] = true
				queue = append(queue, o)
			}
		}
	}
	return reached
}

// meet keeps the cheapest scheme of each class.
func (e *exhaustive) meet(price partition.Price) {
	if e.told != nil {
		e.told(price)
	}
	key := class(e.p, e.labels, e.symmetric)
	if old, ok := e.best[key]; !ok || price.Less(old) {
		e.best[key] = price
	}
}

// class spells what tells schemes apart.
func class(p *partition.Problem, labels []partition.Label, symmetric bool) string {
	spell := func(mirrored bool) string {
		var b []byte
		for c, cell := range p.Cells {
			if cell.Public || !cell.Distinct {
				continue
			}
			l := labels[c]
			if mirrored && l != partition.Common {
				l = 1 - l
			}
			b = append(b, "ABc"[l])
		}
		return string(b)
	}
	if symmetric {
		return min(spell(false), spell(true))
	}
	return spell(false)
}

func alike(p *partition.Problem) bool {
	a, b := p.Units[0], p.Units[1]
	if a.MinArea != b.MinArea || a.MinAmount != b.MinAmount || a.NeedEntry != b.NeedEntry || p.ShareMin != 1000-p.ShareMax ||
		p.Balance.PerArea > 0 && p.Balance.Share != 500 {
		return false
	}
	for f := range p.Functions {
		if a.Need[f] != b.Need[f] || a.Lack[f] != b.Lack[f] {
			return false
		}
	}
	for _, c := range p.Cells {
		if !c.Public && (c.Own[0] != c.Own[1] || c.Allowed&1 != c.Allowed>>1&1) {
			return false
		}
	}
	for _, l := range p.Links {
		if l.Entry[0] != l.Entry[1] {
			return false
		}
	}
	return true
}
