package partition

import "fmt"

// areas bounds areas and amounts, and prices the balance, rounded down.
func (l *linear) areas() {
	sum := func(u int, k int64, measure func(c *Cell) int64) (terms []string) {
		for c := range l.p.Cells {
			if x := measure(&l.p.Cells[c]); x*k != 0 && !l.p.Cells[c].Public {
				terms = append(terms, term(k*x, l.own(u, c)))
			}
		}
		return terms
	}
	area := func(c *Cell) int64 { return c.Area }
	least := func(u int, what string, need int64, measure func(c *Cell) int64) {
		if need == 0 {
			return
		}
		l.block("Unit %s has at least %d of %s alone.", Label(u), need, what)
		terms := sum(u, 1, measure)
		if len(terms) == 0 {
			terms = []string{term(0, l.own(u, l.anyCell()))}
		}
		l.row(terms, ">=", need)
	}
	for u, unit := range l.p.Units {
		least(u, "area", unit.MinArea, area)
		for i, need := range unit.MinAmount {
			least(u, fmt.Sprintf("amount %d", i+1), need, func(c *Cell) int64 { return c.Amount[i] })
		}
	}
	lo, hi := int64(l.p.ShareMin), int64(l.p.ShareMax)
	if lo > 0 {
		l.block("A's share of the area that is A's or B's alone is at least %d thousandths.", lo)
		l.row(append(sum(0, 1000-lo, area), sum(1, -lo, area)...), ">=", 0)
	}
	if hi < 1000 {
		l.block("A's share is at most %d thousandths.", hi)
		l.row(append(sum(0, 1000-hi, area), sum(1, -hi, area)...), "<=", 0)
	}
	if l.p.Balance.PerArea > 0 && len(sum(0, 1, area)) > 0 {
		l.balance(sum)
	}
}

// balance prices the distance from the wanted share: what comes out in whole
// money as it is, else rounded down.
func (l *linear) balance(sum func(u int, k int64, measure func(c *Cell) int64) []string) {
	perArea, share := int64(l.p.Balance.PerArea), int64(l.p.Balance.Share)
	divisor := int64(0) // of the distance, in thousandths
	for c := range l.p.Cells {
		if cell := &l.p.Cells[c]; !cell.Public {
			divisor = gcd(gcd(divisor, (1000-share)*cell.Area), share*cell.Area)
		}
	}
	price, scale, slack := divisor*perArea/1000, int64(1), int64(0)
	whole := divisor*perArea%1000 == 0
	if !whole {
		price, scale, slack, divisor = 1, 1000, 999, 1
		l.integers = append(l.integers, "imbalance")
	}
	l.block("How far A's area is from %d thousandths of the area that is A's or B's alone.", share)
	for _, sign := range []int64{1, -1} {
		weigh := func(k int64) func(c *Cell) int64 {
			return func(c *Cell) int64 {
				if whole {
					return sign * k * c.Area / divisor
				}
				return sign * k * c.Area * perArea
			}
		}
		off := append(sum(0, 1, weigh(1000-share)), sum(1, 1, weigh(-share))...)
		l.row(append(off, term(-scale, "imbalance")), "<=", slack)
	}
	l.pay(Price{Money: Money(price)}, "imbalance")
}

func gcd(a, b int64) int64 {
	for b != 0 {
		a, b = b, a%b
	}
	return a
}

// anyCell is a cell that has a label.
func (l *linear) anyCell() int {
	for c := range l.p.Cells {
		if !l.p.Cells[c].Public {
			return c
		}
	}
	return 0
}
