package partition

import "slices"

// descent improves labellings step by step: it gives a cell another label,
// and with it the cells that this cuts off from the rest of their unit, as
// long as that makes the labelling cheaper. What is missing for a scheme
// (rooms that do not hang together, hosts, area) has a price, which rises
// until nothing is missing. It serves to have good schemes early; the search
// proves what it proves without it.
type descent struct {
	m      *model
	hosts  *transport
	first  cost  // of one thing missing, at first
	fine   cost  // at present
	least  cost  // of all hosts, whatever the labels
	able   []int // cells that could host what a unit needs
	known  map[string]*hosting
	key    []byte
	areaBy cost // area that counts as one thing
	labels []Label
	trial  []Label
	dom    []LabelSet
	form   []form // closed where the hosts close a cell
	forest []int
	size   []int64
	mark   []bool
	tried  map[string]bool
}

func newDescent(m *model) *descent {
	d := &descent{m: m, hosts: newTransport(m, m.forms()), known: map[string]*hosting{}, labels: make([]Label, m.n), trial: make([]Label, m.n),
		dom: make([]LabelSet, m.n), form: m.forms(), forest: make([]int, m.n+1), size: make([]int64, m.n), mark: make([]bool, m.n),
		tried: map[string]bool{}}
	var area int64
	dearest := m.money
	for c := range m.cells {
		area += m.cells[c].Area
		for f := range m.host {
			if h := m.host[f][c]; h != never {
				dearest = max(dearest, h)
			}
		}
	}
	for i := range m.links {
		if m.sep[i] <= m.limit {
			dearest = max(dearest, m.sep[i])
		}
	}
	d.first = dearest
	for c := range m.cells {
		if slices.ContainsFunc(d.hosts.demands, func(dem demand) bool { return m.host[dem.function][c] != never }) {
			d.able = append(d.able, c)
		}
	}
	d.areaBy = max(1, area/int64(max(1, m.n)))
	return d
}

// raises bounds how often the price of what is missing is doubled.
const raises = 5

// run improves the labels, offering the schemes that it meets.
func (d *descent) run(from []Label, offer func([]Label)) {
	copy(d.labels, from)
	for c, l := range d.labels {
		if d.m.kind[c] != publicCell && d.m.cells[c].Allowed>>l&1 == 0 {
			for l = A; d.m.cells[c].Allowed>>l&1 == 0; l++ {
			}
			d.labels[c] = l
		}
	}
	key := string(labelBytes(d.labels))
	if d.tried[key] {
		return
	}
	d.tried[key] = true
	for fine, i := d.first, 0; i < raises; fine, i = fine*2, i+1 {
		if d.fine != fine {
			d.setFine(fine)
		}
		if d.down() == 0 {
			offer(d.labels)
			return
		}
	}
}

func labelBytes(labels []Label) []byte {
	b := make([]byte, len(labels))
	for i, l := range labels {
		b[i] = byte(l)
	}
	return b
}

// down takes improving steps until there is none; it returns how much is
// missing then.
func (d *descent) down() int {
	now, missing := d.price(d.labels, never)
	for again := true; again; {
		again = false
		for c := range d.labels {
			if d.m.kind[c] == publicCell || !d.edge(c) {
				continue
			}
			for l := A; l <= Common; l++ {
				if l == d.labels[c] || d.m.cells[c].Allowed>>l&1 == 0 {
					continue
				}
				copy(d.trial, d.labels)
				d.trial[c] = l
				alone, gone := d.price(d.trial, now)
				if alone >= now && d.follow(c, d.labels[c], l) {
					alone, gone = d.price(d.trial, now)
				}
				if alone < now {
					now, missing, again = alone, gone, true
					copy(d.labels, d.trial)
				}
			}
		}
	}
	return missing
}

// edge reports whether a cell has a neighbour with another label.
func (d *descent) edge(c int) bool {
	for _, h := range d.m.incid[c] {
		if d.labels[h.to] != d.labels[c] {
			return true
		}
	}
	return false
}

// follow gives label l also to the indoor cells that cell c, with label was,
// held together with the rest of their unit. It reports whether there are any.
func (d *descent) follow(c int, was, l Label) bool {
	if was == Common || d.m.kind[c] > deadCell {
		return false
	}
	for x := range d.forest {
		d.forest[x] = x
	}
	inside := func(x int) bool { return d.m.kind[x] <= deadCell && mayBe(1<<d.trial[x], int(was)) }
	for _, link := range d.m.links {
		if inside(link.U) && inside(link.V) && (link.Open || link.Door != Impossible) {
			d.forest[d.root(link.U)] = d.root(link.V)
		}
	}
	clear(d.size)
	best := -1
	for x := range d.trial {
		if inside(x) {
			r := d.root(x)
			d.size[r] += 1 + d.m.cells[x].Area
			if best < 0 || d.size[r] > d.size[best] {
				best = r
			}
		}
	}
	any := false
	for x := range d.trial {
		if inside(x) && d.root(x) != best && d.trial[x] == was && d.m.cells[x].Allowed>>l&1 != 0 {
			d.trial[x] = l
			any = true
		}
	}
	return any
}

func (d *descent) root(c int) int {
	for d.forest[c] != c {
		d.forest[c] = d.forest[d.forest[c]]
		c = d.forest[c]
	}
	return c
}

// price is what the labels cost, with a price for what is missing, and how
// many things are missing. It stops where that is no less than most.
func (d *descent) price(labels []Label, most cost) (sum cost, missing int) {
	m := d.m
	var area [2]int64
	var amount [2][2]int64
	for c, l := range labels {
		d.dom[c] = 1 << l
		sum += m.own[c][l]
		if l != Common {
			area[l] += m.cells[c].Area
			for i, x := range m.cells[c].Amount {
				amount[l][i] += x
			}
		}
	}
	for i := range m.links {
		sum += m.parting(i, labels)
	}
	sum += m.imbalance(area[A], area[B])
	for b := range areaBounds {
		x, y, one := m.slope(b)
		if short := -(x*area[A] + y*area[B] + one); short > 0 {
			short = short/max(x, y) + 1
			sum += d.fine/d.areaBy*short + d.fine
			missing++
		}
	}
	for u := range m.units {
		for i, need := range m.units[u].MinAmount {
			if amount[u][i] < need {
				missing++
			}
		}
	}
	if sum+d.least+cost(missing)*d.fine >= most {
		return never, missing
	}
	h := d.hosted(labels, most-sum-cost(missing)*d.fine)
	if h == nil {
		return never, missing
	}
	sum += h.cost
	gone := missing + h.missing
	for c := range d.form {
		d.form[c] = passable
	}
	for _, c := range h.shut {
		d.form[c] = closed
	}
	for u := range m.units {
		more, without := d.joined(u)
		sum += more
		missing += without
		gone += without
	}
	return sum + cost(missing)*d.fine, gone
}

// hosting is what the hosts come to where each unit has certain cells.
type hosting struct {
	least   cost // whatever clashes
	settled bool // the rest is known
	cost    cost
	missing int
	shut    []int // cells that the hosts close
}

// mostHostings bounds the hostings that are remembered.
const mostHostings = 1 << 13

// setFine sets the price of what is missing.
func (d *descent) setFine(fine cost) {
	d.fine = fine
	clear(d.known)
	for u := range d.hosts.lack {
		d.hosts.lack[u] = slices.Clone(d.m.lack[u])
		for f, price := range d.hosts.lack[u] {
			if price == never {
				d.hosts.lack[u][f] = fine * 2
			}
		}
	}
	d.least = d.hosts.ignoring(d.m.start())
}

// hosted gives what the hosts come to under the labels, nil if that is no less
// than most; a missing one that may not lack costs a fine. Clashes are avoided,
// not always in the cheapest way.
func (d *descent) hosted(labels []Label, most cost) *hosting {
	d.key = d.key[:0]
	for _, c := range d.able {
		d.key = append(d.key, byte(labels[c]))
	}
	h, fresh := d.known[string(d.key)], false
	if h == nil {
		if len(d.known) >= mostHostings {
			clear(d.known)
		}
		h, fresh = &hosting{least: d.hosts.ignoring(d.dom)}, true
		d.known[string(d.key)] = h
	}
	if h.least >= most {
		return nil
	}
	if !h.settled {
		if !fresh {
			d.hosts.ignoring(d.dom)
		}
		h.settle(d)
	}
	if h.cost >= most {
		return nil
	}
	return h
}

// settle works out the rest, the cheapest hosts being those of d.
func (h *hosting) settle(d *descent) {
	h.settled, h.cost = true, d.hosts.roughly(d.dom, h.least)
	for i, dem := range d.hosts.demands {
		if d.m.lack[dem.unit][dem.function] == never {
			h.missing += d.hosts.lacks[i]
		}
	}
	for c, shuts := range d.m.shuts {
		if shuts && d.hosts.shut(c) {
			h.shut = append(h.shut, c)
		}
	}
}

// joined is the cost of doors that join up unit u, each unit for itself, and
// how many joints are missing.
func (d *descent) joined(u int) (sum cost, missing int) {
	m := d.m
	dead := func(c int) bool { return m.isDead(c, d.form) }
	trees := -1
	for c, k := range m.kind {
		d.forest[c] = c
		if k == throughCell && mayBe(d.dom[c], u) && !dead(c) {
			trees++
		}
	}
	for _, i := range m.grove {
		link := &m.links[i]
		if !mayBe(d.dom[link.U], u) || !mayBe(d.dom[link.V], u) || dead(link.U) || dead(link.V) {
			continue
		}
		if a, b := d.root(link.U), d.root(link.V); a != b {
			d.forest[a] = b
			sum += m.door[i]
			trees--
		}
	}
	missing = max(trees, 0)
	if trees < 0 && m.units[u].NeedEntry {
		missing++
	}
	lead := func(c int, links []half) {
		for _, h := range links {
			if mayBe(d.dom[h.to], u) && (m.kind[c] > deadCell || m.leads(h, d.form)) {
				sum += m.door[h.link]
				return
			}
		}
		missing++
	}
	for _, c := range m.deads {
		if mayBe(d.dom[c], u) && dead(c) {
			lead(c, m.into[c])
		}
	}
	if trees < 0 && missing > 0 && !m.units[u].NeedEntry {
		missing-- // a unit of dead ends alone starts in one of them
	}
	if m.public {
		for c, k := range m.kind {
			if (k == outdoorCell || k == detachedCell) && mayBe(d.dom[c], u) {
				lead(c, m.ground[c])
			}
		}
	}
	if m.units[u].NeedEntry {
		best := never
		for _, g := range m.entry[u] {
			if mayBe(d.dom[g.from], u) && mayBe(d.dom[g.to], u) && !dead(g.to) {
				best = min(best, m.door[g.link])
			}
		}
		if best == never {
			missing++
		} else {
			sum += best
		}
	}
	return sum, missing
}
