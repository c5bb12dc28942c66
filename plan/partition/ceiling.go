package partition

// ceiling is the most that a scheme of price p can cost as the search reckons,
// tie weights and all; never where no scheme of the problem costs so much.
func (m *model) ceiling(p Price) cost {
	if p.Shared < 0 || p.Money < 0 {
		return -1
	}
	if cost(p.Shared) >= never/m.shared-1 {
		return never
	}
	// Money beyond the sum of all prices must not count as a shared element.
	money := min(cost(p.Money), m.shared/m.money-1)
	return cost(p.Shared)*m.shared + money*m.money + m.money - 1
}
