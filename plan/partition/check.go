package partition

import (
	"errors"
	"fmt"
	"math/bits"
	"slices"
)

// ErrProblem is wrapped by every error about a malformed problem.
var ErrProblem = errors.New("partition: malformed problem")

// priceBits bounds the sum of all prices of a problem, scaled as the search
// scales them, so that no sum of a few such numbers overflows.
const priceBits = 56

// Check reports everything that makes the problem malformed, or nil. A
// problem without a solution is not malformed.
func (p *Problem) Check() error {
	c := checker{p: p}
	c.functions()
	c.cells()
	c.links()
	c.units()
	c.bounds()
	if len(c.errs) == 0 {
		c.size()
	}
	if len(c.errs) == 0 {
		return nil
	}
	return fmt.Errorf("%w: %w", ErrProblem, errors.Join(c.errs...))
}

type checker struct {
	p    *Problem
	errs []error
}

func (c *checker) add(format string, args ...any) {
	c.errs = append(c.errs, fmt.Errorf(format, args...))
}

func (c *checker) functions() {
	seen := map[string]bool{}
	for i, f := range c.p.Functions {
		if f.Name == "" {
			c.add("function %d has no name", i)
		} else if seen[f.Name] {
			c.add("function %q is named twice", f.Name)
		}
		seen[f.Name] = true
	}
}

func (c *checker) cells() {
	seen := map[string]bool{}
	for i, cell := range c.p.Cells {
		if cell.Name == "" {
			c.add("cell %d has no name", i)
		} else if seen[cell.Name] {
			c.add("cell %q is named twice", cell.Name)
		}
		seen[cell.Name] = true
		if cell.Area < 0 {
			c.add("cell %q: area %d is negative", cell.Name, cell.Area)
		}
		if cell.Amount[0] < 0 || cell.Amount[1] < 0 {
			c.add("cell %q: amounts %d are negative", cell.Name, cell.Amount)
		}
		if cell.Public {
			if cell.Detached {
				c.add("cell %q is both public and detached", cell.Name)
			}
			continue
		}
		if cell.Outdoor && cell.Detached {
			c.add("cell %q is both outdoor and detached", cell.Name)
		}
		if cell.Allowed&^Any != 0 {
			c.add("cell %q: labels %#x are unknown", cell.Name, uint8(cell.Allowed&^Any))
		}
		if cell.Allowed&Any == 0 {
			c.add("cell %q: no label is allowed", cell.Name)
		}
		if cell.Common.Shared < 0 || cell.Common.Money < 0 {
			c.add("cell %q: the price of leaving it common is negative", cell.Name)
		}
		for u := range cell.Own {
			if cell.Own[u] < 0 {
				c.add("cell %q: the price of giving it to unit %s is negative", cell.Name, Label(u))
			}
		}
		if cell.Capacity < 0 {
			c.add("cell %q: capacity %d is negative", cell.Name, cell.Capacity)
		}
		if len(cell.Host) != len(c.p.Functions) {
			c.add("cell %q: %d hosting prices for %d functions", cell.Name, len(cell.Host), len(c.p.Functions))
			continue
		}
		for f, h := range cell.Host {
			if h < Impossible {
				c.add("cell %q: the price of hosting %q is negative", cell.Name, c.p.Functions[f].Name)
			}
		}
		c.rooms(&cell)
	}
}

func (c *checker) links() {
	n := len(c.p.Cells)
	for i, l := range c.p.Links {
		name := fmt.Sprintf("link %d %q", i, l.Name)
		if l.U < 0 || l.U >= n || l.V < 0 || l.V >= n {
			c.add("%s joins cells %d and %d of %d", name, l.U, l.V, n)
			continue
		}
		if l.U == l.V {
			c.add("%s joins cell %q to itself", name, c.p.Cells[l.U].Name)
		}
		if l.Door < Impossible {
			c.add("%s: the price of a door is negative", name)
		}
		if l.SharedEdge < 0 {
			c.add("%s: the number of shared elements is negative", name)
		}
		if l.Sep < Impossible || l.SepCommon < Impossible {
			c.add("%s: a price of parting is negative", name)
		}
		u, v := c.p.Cells[l.U], c.p.Cells[l.V]
		if l.Ensuite && (!u.indoor() || !v.indoor()) {
			c.add("%s: an ensuite link joins two indoor cells", name)
		} else if l.Ensuite && (u.DeadEnd || u.closable()) && !v.DeadEnd {
			c.add("%s leads from the dead end %q on to %q, which is none", name, u.Name, v.Name)
		}
		if (l.Entry[A] || l.Entry[B]) &&
			!(u.ground() && v.indoor()) && !(v.ground() && u.indoor()) {
			c.add("%s: an entry joins an outdoor or public cell and an indoor one", name)
		}
	}
	c.ensuiteCycle()
}

// rooms reports what clashes and closes of a cell are malformed.
func (c *checker) rooms(cell *Cell) {
	n := len(c.p.Functions)
	for _, clash := range cell.Clashes {
		if len(clash) < 2 {
			c.add("cell %q: a clash of %d functions", cell.Name, len(clash))
		}
		for i, f := range clash {
			if f < 0 || f >= n {
				c.add("cell %q: function %d clashes, of %d", cell.Name, f, n)
			} else if slices.Contains(clash[:i], f) {
				c.add("cell %q: %q clashes with itself", cell.Name, c.p.Functions[f].Name)
			}
		}
	}
	if cell.Closes != nil && len(cell.Closes) != n {
		c.add("cell %q: %d functions may close it, of %d", cell.Name, len(cell.Closes), n)
	}
}

// ensuiteCycle looks for ensuite links that lead back to where they started.
func (c *checker) ensuiteCycle() {
	n := len(c.p.Cells)
	in := make([]int, n)
	next := make([][]int, n)
	for _, l := range c.p.Links {
		if l.Ensuite && l.U >= 0 && l.U < n && l.V >= 0 && l.V < n {
			next[l.U] = append(next[l.U], l.V)
			in[l.V]++
		}
	}
	var ready []int
	for i := range in {
		if in[i] == 0 {
			ready = append(ready, i)
		}
	}
	done := 0
	for len(ready) > 0 {
		x := ready[len(ready)-1]
		ready = ready[:len(ready)-1]
		done++
		for _, y := range next[x] {
			if in[y]--; in[y] == 0 {
				ready = append(ready, y)
			}
		}
	}
	if done < n {
		for i := range in {
			if in[i] > 0 {
				c.add("ensuite links lead in a circle to cell %q", c.p.Cells[i].Name)
			}
		}
	}
}

func (c *checker) units() {
	for u, unit := range c.p.Units {
		name := "unit " + Label(u).String()
		if len(unit.Need) != len(c.p.Functions) {
			c.add("%s: %d needs for %d functions", name, len(unit.Need), len(c.p.Functions))
			continue
		}
		if len(unit.Lack) != len(c.p.Functions) {
			c.add("%s: %d prices of lacking for %d functions", name, len(unit.Lack), len(c.p.Functions))
			continue
		}
		for f := range unit.Need {
			if unit.Need[f] < 0 {
				c.add("%s needs %d of %q", name, unit.Need[f], c.p.Functions[f].Name)
			}
			if unit.Lack[f].Shared < 0 || unit.Lack[f].Money < Impossible {
				c.add("%s: the price of lacking %q is negative", name, c.p.Functions[f].Name)
			}
		}
		if unit.MinArea < 0 {
			c.add("%s: least area %d is negative", name, unit.MinArea)
		}
		if unit.MinAmount[0] < 0 || unit.MinAmount[1] < 0 {
			c.add("%s: least amounts %d are negative", name, unit.MinAmount)
		}
	}
}

func (c *checker) bounds() {
	p := c.p
	if p.ShareMin < 0 || p.ShareMax > 1000 || p.ShareMin > p.ShareMax {
		c.add("A's share from %d to %d is no range within 0 to 1000", p.ShareMin, p.ShareMax)
	}
	if p.Balance.PerArea < 0 {
		c.add("the price of imbalance is negative")
	}
	if p.Balance.PerArea > 0 && (p.Balance.Share < 0 || p.Balance.Share > 1000) {
		c.add("the wanted share %d is not within 0 to 1000", p.Balance.Share)
	}
}

// size makes sure that the sums of prices and areas fit the numbers used.
func (c *checker) size() {
	money, shared, area := c.p.totals()
	if bits.Len64(area) > 40 || area > 0 && bits.Len64(area)+bits.Len64(uint64(c.p.Balance.PerArea)) > 50 {
		c.add("areas sum up to %d, too much to reckon with", area)
	}
	need := bits.Len64(money) + bits.Len64(shared) + bits.Len(uint(len(c.p.Cells))) + tieBits + bits.Len(uint(c.p.forbidden()))
	if need > priceBits {
		c.add("prices sum up to %d with %d shared elements, too much to reckon with exactly", money, shared)
	}
}

// forbidden counts the ways in which ends may not part.
func (p *Problem) forbidden() int {
	n := 0
	for _, l := range p.Links {
		if l.Sep == Impossible {
			n++
		}
		if l.SepCommon == Impossible {
			n++
		}
	}
	return n
}

// totals returns sums that no scheme exceeds.
func (p *Problem) totals() (money, shared, area uint64) {
	for _, cell := range p.Cells {
		area = add(area, uint64(cell.Area))
		if cell.Public {
			continue
		}
		money = add(money, uint64(max(cell.Common.Money, cell.Own[A], cell.Own[B])))
		shared = add(shared, uint64(cell.Common.Shared))
	}
	for _, l := range p.Links {
		money = add(money, uint64(max(l.Sep, l.SepCommon, 0))) // a link to a common cell may
		money = add(money, uint64(max(l.Door, 0)))             // part and yet get a door
		shared = add(shared, uint64(max(l.SharedEdge, 0)))
	}
	for _, unit := range p.Units {
		for f, k := range unit.Need {
			dearest := max(unit.Lack[f].Money, 0)
			for _, cell := range p.Cells {
				if !cell.Public {
					dearest = max(dearest, cell.Host[f])
				}
			}
			money = add(money, times(uint64(k), uint64(dearest)))
			shared = add(shared, times(uint64(k), uint64(unit.Lack[f].Shared)))
		}
	}
	money = add(money, times(area, uint64(p.Balance.PerArea)))
	return money, shared, area
}

// add and times stop at the largest number rather than wrap.
func add(a, b uint64) uint64 {
	s, carry := bits.Add64(a, b, 0)
	if carry != 0 {
		return ^uint64(0)
	}
	return s
}

func times(a, b uint64) uint64 {
	hi, lo := bits.Mul64(a, b)
	if hi != 0 {
		return ^uint64(0)
	}
	return lo
}

// indoor tells the cells that must hang together.
func (c *Cell) indoor() bool { return !c.Public && !c.Outdoor && !c.Detached }

// closable tells the cells that what they host may make a dead end.
func (c *Cell) closable() bool { return !c.DeadEnd && slices.Contains(c.Closes, true) }

// ground tells the cells that one walks over outdoors.
func (c *Cell) ground() bool { return c.Public || c.Outdoor }

// String returns "A", "B" or "common".
func (l Label) String() string {
	switch l {
	case A:
		return "A"
	case B:
		return "B"
	}
	return "common"
}
