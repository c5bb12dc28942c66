package partition

// probes remembers, down one way of the search tree, how much the bound rises
// by each label that the cut would not choose. What an earlier probe found
// stays exact while the cells that it touched and the cut's own labels are
// left alone.
type probes struct {
	left *residual
	// floor is a value that the cut reaches at least with the label.
	floor [][3]cost
	// exact tells floors that are the value for the present labels.
	exact   [][3]bool
	touched [][3][]uint64
	moved   []int // cells narrowed since the last run, not against the cut's label
	anew    bool  // the cut's labels have changed
	wary    bool  // try only what is new or came near
}

func (p *probes) init(d *dive) {
	n := d.s.m.n
	p.left = newResidual(d.cut)
	p.floor = make([][3]cost, n)
	p.exact = make([][3]bool, n)
	p.touched = make([][3][]uint64, n)
	words := (n + 63) / 64
	store := make([]uint64, 3*n*words)
	for c := range p.touched {
		for l := range p.touched[c] {
			p.touched[c][l] = store[:words:words]
			store = store[words:]
		}
	}
	p.anew = true
}

// reset forgets everything: another part of the tree comes.
func (p *probes) reset() {
	clear(p.floor)
	p.anew = true
}

// note is told of a cell narrowed to dom while the cut's label for it was label.
func (p *probes) note(c int, dom LabelSet, label Label) {
	if dom&(1<<label) == 0 {
		p.anew = true
	}
	p.moved = append(p.moved, c)
}

// forget marks as not exact whatever the narrowed cells may have changed.
func (p *probes) forget() {
	if p.anew {
		clear(p.exact)
	} else {
		for c := range p.exact {
			for l := range p.exact[c] {
				if !p.exact[c][l] {
					continue
				}
				for _, x := range p.moved {
					if p.touched[c][l][x>>6]>>(x&63)&1 != 0 {
						p.exact[c][l] = false
						break
					}
				}
			}
		}
	}
	p.moved, p.anew = p.moved[:0], false
}

// near: a rise of less than the near-th part of the gap is not tried again.
const near = 3

// run tries the labels that the cut would not choose and that may raise the
// bound too far; if they do, they are taken away. It reports false if no label
// is left.
func (p *probes) run(d *dive) bool {
	gap := d.gap()
	p.forget()
	p.left.load()
	for c, dom := range d.state.dom {
		if single(dom) {
			continue
		}
		for l := A; l <= Common; l++ {
			if dom&(1<<l) == 0 || l == d.labels[c] {
				continue
			}
			rise := p.floor[c][l] - d.core()
			if p.wary && p.floor[c][l] != 0 && rise < gap/near {
				continue
			}
			if !p.exact[c][l] && rise <= gap && p.left.offers(c, l) > gap {
				rise = p.try(d, c, l, gap)
			}
			if rise > gap && !d.state.keep(c, Any&^(1<<l)) {
				return false
			}
		}
	}
	return true
}

// try finds the rise by one label, exactly up to gap.
func (p *probes) try(d *dive, c int, l Label, gap cost) cost {
	clear(p.touched[c][l])
	rise := p.left.rise(c, l, gap, p.touched[c][l])
	p.floor[c][l] = max(p.floor[c][l], d.core()+rise)
	p.exact[c][l] = rise <= gap
	return p.floor[c][l] - d.core()
}

// rise is how much the bound rises at least if cell c gets label l.
func (p *probes) rise(d *dive, c int, l Label) cost {
	if l == d.labels[c] {
		return 0
	}
	if !p.exact[c][l] {
		return p.try(d, c, l, d.gap())
	}
	return p.known(d, c, l)
}

// known is what earlier probes have shown of the rise.
func (p *probes) known(d *dive, c int, l Label) cost {
	if l == d.labels[c] {
		return 0
	}
	return max(0, p.floor[c][l]-d.core())
}
