package partition

import (
	"errors"
	"fmt"
	"slices"
)

// Verify checks a solution against the definition of the problem alone: that
// it is feasible, and that its price is what its parts cost. It shares nothing
// with the search. It says nothing about whether the solution is the best.
func Verify(p *Problem, s *Solution) error {
	v := verifier{p: p, s: s}
	if v.parts() {
		v.price()
	}
	return errors.Join(v.errs...)
}

// Reckon works out the Terms and the Price of a solution's labels, hosts, doors
// and entries from the definition alone, and reports what makes them no scheme
// of the problem, like Verify.
func Reckon(p *Problem, s *Solution) error {
	v := verifier{p: p, s: s}
	if v.parts() {
		s.Terms, s.Price = v.terms, v.terms.Sum()
	}
	return errors.Join(v.errs...)
}

// parts checks everything but the price, and adds up what it must be. It
// reports false where the solution is not even of the problem's shape.
func (v *verifier) parts() bool {
	if !v.shape() {
		return false
	}
	v.labels()
	v.doors()
	for u := range v.p.Units {
		v.hosts(u)
		v.entry(u)
		v.indoors(u)
		v.outdoors(u)
	}
	v.capacity()
	v.clashes()
	v.areas()
	return true
}

type verifier struct {
	p      *Problem
	s      *Solution
	bought []bool
	terms  Terms
	errs   []error
}

func (v *verifier) fail(format string, args ...any) {
	v.errs = append(v.errs, fmt.Errorf("partition: "+format, args...))
}

// shape makes sure that everything can be indexed.
func (v *verifier) shape() bool {
	if len(v.s.Labels) != len(v.p.Cells) {
		v.fail("%d labels for %d cells", len(v.s.Labels), len(v.p.Cells))
		return false
	}
	v.bought = make([]bool, len(v.p.Links))
	for _, i := range v.s.Bought {
		if i < 0 || i >= len(v.p.Links) {
			v.fail("link %d is bought, of %d", i, len(v.p.Links))
			return false
		}
		if v.bought[i] {
			v.fail("link %d is bought twice", i)
		}
		v.bought[i] = true
	}
	for u := range v.s.Hosts {
		if len(v.s.Hosts[u]) != len(v.p.Functions) {
			v.fail("unit %s: hosts of %d functions, of %d", Label(u), len(v.s.Hosts[u]), len(v.p.Functions))
			return false
		}
		for f := range v.s.Hosts[u] {
			for _, c := range v.s.Hosts[u][f] {
				if c < 0 || c >= len(v.p.Cells) {
					v.fail("unit %s: cell %d hosts, of %d", Label(u), c, len(v.p.Cells))
					return false
				}
			}
		}
		if e := v.s.Entry[u]; e < -1 || e >= len(v.p.Links) {
			v.fail("unit %s: entry by link %d, of %d", Label(u), e, len(v.p.Links))
			return false
		}
	}
	return true
}

// has reports whether a cell is the unit's, alone, in common or as public ground.
func (v *verifier) has(u, c int) bool {
	return v.p.Cells[c].Public || v.s.Labels[c] == Common || v.s.Labels[c] == Label(u)
}

// way reports whether one passes along a link today or by a bought door.
func (v *verifier) way(i int) bool { return v.p.Links[i].Open || v.bought[i] }

func (v *verifier) labels() {
	for c, cell := range v.p.Cells {
		l := v.s.Labels[c]
		if cell.Public {
			if l != Common {
				v.fail("public cell %q has an owner", cell.Name)
			}
			continue
		}
		if l > Common || cell.Allowed>>l&1 == 0 {
			v.fail("cell %q may not be %s", cell.Name, l)
		}
		if l == Common {
			v.terms.Common.Shared += cell.Common.Shared
			v.terms.Common.Money += cell.Common.Money
		} else {
			v.terms.Own += cell.Own[l%2]
		}
	}
	for _, link := range v.p.Links {
		a, b := v.s.Labels[link.U], v.s.Labels[link.V]
		if v.p.Cells[link.U].Public || v.p.Cells[link.V].Public || a == b {
			continue
		}
		parting := link.Sep
		if a == Common || b == Common {
			parting = link.SepCommon
			v.terms.Common.Shared += link.SharedEdge
		}
		if parting == Impossible {
			v.fail("link %q parts, which is impossible", link.Name)
			continue
		}
		v.terms.Separation += parting
	}
}

func (v *verifier) doors() {
	for i, link := range v.p.Links {
		if !v.bought[i] {
			continue
		}
		if link.Open {
			v.fail("link %d %q is bought but open today", i, link.Name)
			continue
		}
		if link.Door == Impossible {
			v.fail("link %d %q is bought, which is impossible", i, link.Name)
			continue
		}
		if !(v.has(0, link.U) && v.has(0, link.V)) && !(v.has(1, link.U) && v.has(1, link.V)) {
			v.fail("link %d %q is bought between the units", i, link.Name)
		}
		v.terms.Doors += link.Door
	}
}

func (v *verifier) hosts(u int) {
	for f, function := range v.p.Functions {
		seen := map[int]bool{}
		for _, c := range v.s.Hosts[u][f] {
			cell := v.p.Cells[c]
			if seen[c] {
				v.fail("unit %s: cell %q hosts %q twice", Label(u), cell.Name, function.Name)
			}
			seen[c] = true
			if cell.Public || !v.has(u, c) {
				v.fail("unit %s: %q is hosted by cell %q, which is not the unit's", Label(u), function.Name, cell.Name)
				continue
			}
			if cell.Host[f] == Impossible {
				v.fail("unit %s: cell %q cannot host %q", Label(u), cell.Name, function.Name)
				continue
			}
			v.terms.Hosting += cell.Host[f]
		}
		need, lack := v.p.Units[u].Need[f], v.p.Units[u].Lack[f]
		missing := need - len(v.s.Hosts[u][f])
		if missing < 0 && function.Exactly {
			v.fail("unit %s hosts %d of %q, not %d", Label(u), len(v.s.Hosts[u][f]), function.Name, need)
		}
		if missing <= 0 {
			continue
		}
		if lack.Money == Impossible {
			v.fail("unit %s lacks %d of %q", Label(u), missing, function.Name)
			continue
		}
		v.terms.Lack.Shared += missing * lack.Shared
		v.terms.Lack.Money += Money(missing) * lack.Money
	}
}

func (v *verifier) capacity() {
	load := make([]int, len(v.p.Cells))
	for u := range v.s.Hosts {
		for f, cells := range v.s.Hosts[u] {
			if v.p.Functions[f].Uncounted {
				continue
			}
			for _, c := range cells {
				load[c]++
			}
		}
	}
	for c, cell := range v.p.Cells {
		if load[c] > cell.Capacity {
			v.fail("cell %q hosts %d functions, has room for %d", cell.Name, load[c], cell.Capacity)
		}
	}
}

// hosting tells whether a cell hosts a function for either unit.
func (v *verifier) hosting(c, f int) bool {
	return slices.Contains(v.s.Hosts[A][f], c) || slices.Contains(v.s.Hosts[B][f], c)
}

func (v *verifier) clashes() {
	for c, cell := range v.p.Cells {
		for _, clash := range cell.Clashes {
			all := true
			for _, f := range clash {
				all = all && v.hosting(c, f)
			}
			if all && !cell.Public {
				v.fail("cell %q hosts %d, which clash", cell.Name, clash)
			}
		}
	}
}

// deadEnd tells the dead ends, today or by what they host.
func (v *verifier) deadEnd(c int) bool {
	cell := &v.p.Cells[c]
	for f, closes := range cell.Closes {
		if closes && v.hosting(c, f) {
			return true
		}
	}
	return cell.DeadEnd
}

// spread marks what is reached from the cells marked in from, along the ways
// that the step allows.
func (v *verifier) spread(from []bool, step func(i, a, b int) bool) []bool {
	reached := append([]bool(nil), from...)
	for again := true; again; {
		again = false
		for i, link := range v.p.Links {
			for _, e := range [2][2]int{{link.U, link.V}, {link.V, link.U}} {
				if reached[e[0]] && !reached[e[1]] && step(i, e[0], e[1]) {
					reached[e[1]], again = true, true
				}
			}
		}
	}
	return reached
}

func (v *verifier) isGround(c int) bool { return v.p.Cells[c].Public || v.p.Cells[c].Outdoor }

func (v *verifier) isRoom(c int) bool {
	return !v.p.Cells[c].Public && !v.p.Cells[c].Outdoor && !v.p.Cells[c].Detached
}

func (v *verifier) publicWay() []bool {
	marks := make([]bool, len(v.p.Cells))
	for c, cell := range v.p.Cells {
		marks[c] = cell.Public
	}
	return marks
}

func (v *verifier) entry(u int) {
	e := v.s.Entry[u]
	if !v.p.Units[u].NeedEntry {
		if e >= 0 {
			v.fail("unit %s has an entry and needs none", Label(u))
		}
		return
	}
	if e < 0 {
		v.fail("unit %s has no entry", Label(u))
		return
	}
	link := v.p.Links[e]
	if !link.Entry[u] || !v.way(e) {
		v.fail("unit %s: link %d %q cannot be its entry", Label(u), e, link.Name)
	}
	out, in := link.U, link.V
	if !v.isGround(out) {
		out, in = in, out
	}
	if !v.isGround(out) || !v.isRoom(in) || v.deadEnd(in) || !v.has(u, in) {
		v.fail("unit %s: entry %q does not lead into one of its rooms", Label(u), link.Name)
	}
	walked := v.spread(v.publicWay(), func(i, a, b int) bool {
		return v.p.Links[i].Open && v.isGround(b) && v.has(u, b)
	})
	if !walked[out] {
		v.fail("unit %s: entry %q is not reached from the public way", Label(u), link.Name)
	}
}

// indoors tries every room as the one to start from, if the entry does not say which.
func (v *verifier) indoors(u int) {
	var rooms []int
	for c := range v.p.Cells {
		if v.isRoom(c) && v.has(u, c) {
			rooms = append(rooms, c)
		}
	}
	starts := rooms
	if e := v.s.Entry[u]; v.p.Units[u].NeedEntry && e >= 0 {
		starts = []int{v.p.Links[e].U}
		if v.isGround(starts[0]) {
			starts[0] = v.p.Links[e].V
		}
	}
	if len(rooms) == 0 {
		return
	}
	unreached := -1
	for _, start := range starts {
		from := make([]bool, len(v.p.Cells))
		from[start] = true
		reached := v.spread(from, func(i, a, b int) bool {
			if !v.way(i) || !v.isRoom(a) || !v.isRoom(b) || !v.has(u, a) || !v.has(u, b) {
				return false
			}
			return !v.deadEnd(a) || v.p.Links[i].Ensuite && v.p.Links[i].U == a
		})
		unreached = -1
		for _, c := range rooms {
			if !reached[c] {
				unreached = c
				break
			}
		}
		if unreached < 0 {
			return
		}
	}
	v.fail("unit %s: cell %q is not reached indoors", Label(u), v.p.Cells[unreached].Name)
}

func (v *verifier) outdoors(u int) {
	from := v.publicWay()
	public := false
	for c := range from {
		public = public || from[c]
		from[c] = from[c] || v.isRoom(c) && v.has(u, c)
	}
	if !public {
		return
	}
	reached := v.spread(from, func(i, a, b int) bool {
		return v.way(i) && v.has(u, b) && !v.p.Cells[a].Detached
	})
	for c, cell := range v.p.Cells {
		if (cell.Outdoor || cell.Detached) && !cell.Public && v.has(u, c) && !reached[c] {
			v.fail("unit %s: cell %q is not reached from outdoors or from its rooms", Label(u), cell.Name)
		}
	}
}

func (v *verifier) amounts() {
	for u, unit := range v.p.Units {
		for i, need := range unit.MinAmount {
			have := int64(0)
			for c, cell := range v.p.Cells {
				if !cell.Public && v.s.Labels[c] == Label(u) {
					have += cell.Amount[i]
				}
			}
			if have < need {
				v.fail("unit %s has %d of amount %d, needs %d", Label(u), have, i, need)
			}
		}
	}
}

func (v *verifier) areas() {
	var area [2]int64
	for c, cell := range v.p.Cells {
		if !cell.Public && v.s.Labels[c] < Common {
			area[v.s.Labels[c]] += cell.Area
		}
	}
	for u := range area {
		if area[u] < v.p.Units[u].MinArea {
			v.fail("unit %s has area %d, needs %d", Label(u), area[u], v.p.Units[u].MinArea)
		}
	}
	v.amounts()
	both := area[A] + area[B]
	if 1000*area[A] < int64(v.p.ShareMin)*both || 1000*area[A] > int64(v.p.ShareMax)*both {
		v.fail("A has %d of %d, not from %d to %d thousandths", area[A], both, v.p.ShareMin, v.p.ShareMax)
	}
	off := 1000*area[A] - int64(v.p.Balance.Share)*both
	if off < 0 {
		off = -off
	}
	v.terms.Balance = Money(off * int64(v.p.Balance.PerArea) / 1000)
}

func (v *verifier) price() {
	if v.terms != v.s.Terms {
		v.fail("the parts cost %+v, not %+v", v.terms, v.s.Terms)
	}
	price := Price{v.terms.Common.Shared + v.terms.Lack.Shared,
		v.terms.Common.Money + v.terms.Lack.Money + v.terms.Own + v.terms.Separation +
			v.terms.Hosting + v.terms.Doors + v.terms.Balance}
	if price != v.s.Price {
		v.fail("the price is %+v, not %+v", price, v.s.Price)
	}
	if v.s.Price.Less(v.s.Bound) {
		v.fail("the price %+v is below its bound %+v", v.s.Price, v.s.Bound)
	}
}
