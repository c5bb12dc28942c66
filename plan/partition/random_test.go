package partition_test

import (
	"math/rand/v2"

	"moiety/plan/partition"
)

// randomProblem makes up a small problem; each feature is there or not.
func randomProblem(seed uint64) *partition.Problem {
	r := rand.New(rand.NewPCG(seed, 0))
	coin := func() bool { return r.IntN(2) == 0 }
	chance := func(percent int) bool { return r.IntN(100) < percent }
	public, detached, dead, entry := coin(), coin(), coin(), coin()
	common, shared, uncounted, lacking := coin(), coin(), coin(), coin()
	sepCommon, own, alikeUnits, allDistinct := coin(), coin(), chance(30), coin()
	forbidden, amounts := chance(30), chance(30)
	scale := []int64{1, 7, 100, 1000}[r.IntN(4)]
	money := func(most int) partition.Money { return partition.Money(int64(r.IntN(most+1)) * scale) }
	p := &partition.Problem{ShareMax: 1000}
	n := 3 + r.IntN(5)
	for f := range r.IntN(4) {
		p.Functions = append(p.Functions, partition.Function{
			Name: string(rune('f' + f)), Uncounted: uncounted && coin(), Exactly: coin()})
	}
	names := r.Perm(n)
	for c := range n {
		cell := partition.Cell{Name: "c" + string(rune('0'+names[c])), Area: int64(r.IntN(6)), Amount: [2]int64{int64(r.IntN(3)), int64(r.IntN(2))},
			Allowed: 1<<partition.A | 1<<partition.B, Capacity: r.IntN(3), Distinct: allDistinct || coin()}
		switch {
		case public && (c == 0 || c == 1 && chance(10)):
			cell.Public = true
		case public && c <= 2 && coin() || chance(10):
			cell.Outdoor = true
		case detached && chance(20):
			cell.Detached = true
		case dead && chance(40):
			cell.DeadEnd = true
		}
		if common && chance(50) {
			cell.Allowed = partition.Any
			cell.Common.Money = money(20)
			if shared && coin() {
				cell.Common.Shared = 1
			}
		}
		if chance(15) && !alikeUnits {
			cell.Allowed = partition.LabelSet(1 + r.IntN(7))
		}
		if own {
			cell.Own = [2]partition.Money{money(5), money(5)}
			if alikeUnits {
				cell.Own[1] = cell.Own[0]
			}
		}
		if !cell.Public {
			for range p.Functions {
				h := partition.Impossible
				if chance(60) {
					h = money(9)
				}
				cell.Host = append(cell.Host, h)
			}
		}
		p.Cells = append(p.Cells, cell)
	}
	closed := 0
	for range n + 2 + r.IntN(n+2) {
		u, v := r.IntN(n), r.IntN(n)
		if u == v {
			continue
		}
		l := partition.Link{U: u, V: v, Sep: money(9), Door: partition.Impossible, Open: chance(65)}
		if sepCommon {
			l.SepCommon = money(9)
		}
		if shared && common && chance(25) {
			l.SharedEdge = 1
		}
		if forbidden && chance(15) {
			l.Sep = partition.Impossible
			if coin() {
				l.SepCommon = partition.Impossible
			}
		}
		if !l.Open && closed < 4 && chance(75) {
			l.Door = money(9)
			closed++
		}
		a, b := p.Cells[u], p.Cells[v]
		inside := func(c partition.Cell) bool { return !c.Public && !c.Outdoor && !c.Detached }
		l.Ensuite = inside(a) && inside(b) && a.DeadEnd && b.DeadEnd && u < v && chance(70)
		if inside(a) != inside(b) && !a.Detached && !b.Detached {
			l.Entry = [2]bool{chance(80), chance(80)}
			if alikeUnits {
				l.Entry[1] = l.Entry[0]
			}
		}
		p.Links = append(p.Links, l)
	}
	for u := range p.Units {
		unit := partition.Unit{NeedEntry: entry && public && chance(80)}
		for range p.Functions {
			unit.Need = append(unit.Need, max(0, r.IntN(4)-1))
			lack := partition.Price{Money: partition.Impossible}
			if lacking && coin() {
				lack.Money = money(15)
				if shared && coin() {
					lack.Shared = 1
				}
			}
			unit.Lack = append(unit.Lack, lack)
		}
		if coin() {
			unit.MinArea = int64(r.IntN(5))
		}
		if amounts {
			unit.MinAmount = [2]int64{int64(r.IntN(4)), int64(r.IntN(3))}
		}
		p.Units[u] = unit
	}
	if chance(30) {
		p.ShareMin, p.ShareMax = r.IntN(500), 500+r.IntN(501)
	}
	if chance(30) {
		p.Balance = partition.Balance{Share: 300 + r.IntN(400), PerArea: money(4)}
	}
	addRoomRules(p, rand.New(rand.NewPCG(seed, 7)))
	if alikeUnits {
		p.Units[1] = p.Units[0]
		p.ShareMin = 1000 - p.ShareMax
		p.Balance.Share = 500
	}
	return p
}

// addRoomRules lets functions clash in cells, and close them, or not.
func addRoomRules(p *partition.Problem, r *rand.Rand) {
	clashes, closes := r.IntN(2) == 0, r.IntN(2) == 0
	n := len(p.Functions)
	for c := range p.Cells {
		cell := &p.Cells[c]
		for range 2 {
			if clashes && n >= 2 && r.IntN(2) == 0 {
				cell.Clashes = append(cell.Clashes, r.Perm(n)[:2+r.IntN(n-1)])
			}
		}
		if closes && indoor(cell) && r.IntN(2) == 0 {
			for range n {
				cell.Closes = append(cell.Closes, r.IntN(2) == 0)
			}
		}
	}
	for i := range p.Links {
		l := &p.Links[i]
		if closes && len(p.Cells[l.U].Closes) > 0 && p.Cells[l.V].DeadEnd && indoor(&p.Cells[l.V]) && !p.Cells[l.U].DeadEnd {
			l.Ensuite = l.Ensuite || r.IntN(2) == 0
		}
	}
}

func indoor(c *partition.Cell) bool { return !c.Public && !c.Outdoor && !c.Detached }
