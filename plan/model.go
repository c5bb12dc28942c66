package plan

import (
	"math"
	"slices"

	"moiety/plan/partition"
)

// moneyPerUnit is how many of the partition's money units make one unit of
// currency. Prices are whole cents; the units below a cent only break ties
// (an accepted shared element yields to one that is not shared).
const moneyPerUnit = 10_000

// wholeFirst makes a scheme that divides a space yield to one as cheap that
// does not: a few units below a cent.
const wholeFirst partition.Money = 5

// areaPerM2 is how many of the partition's area units make a square metre.
const areaPerM2 = 100

// The two amounts that the partition reckons with beside areas: ground in its
// area units, and stalls. One stall may be in what both share; more must be
// the unit's own.
const (
	groundAmount = iota
	stallAmount
)

// model is the partition problem of a building under a brief, with the way back.
type model struct {
	pricing
	brief   *Brief
	problem *partition.Problem
	cells   []int // of the problem's cells: the building's, Outside for the outside world
	links   []int // of the problem's links: the building's, -1 for the outside world's own
	place   []int // of the building's cells: the problem's, -1 where the cell is nobody's
	// notSurveyed lists the functions that are asked of nobody, since the
	// survey shows none of them anywhere.
	notSurveyed []Function
	// whole is the undivided problem where this one divides spaces, and strict
	// lists those whose pieces take on no more than each can alone.
	whole  *model
	strict []string
	// lent lists, of the largest pieces of divided spaces, the functions that
	// only the whole space could take on.
	lent map[int][]Function
	// waived lists those that the brief accepts as shared.
	waived []Function
}

func money(v float64) partition.Money {
	return partition.Money(math.Round(v*100)) * (moneyPerUnit / 100)
}

func currency(m partition.Money) float64 {
	return math.Round(float64(m)/moneyPerUnit*100) / 100
}

// newModel states the partition problem.
func newModel(b *Building, brief *Brief, prices *Prices) *model {
	m := &model{pricing: pricing{b: b, prices: prices, leave: brief.Leave, bedrooms: newBedroomJudge(b, brief, prices)}, brief: brief}
	if m.bedrooms != nil {
		m.set = m.bedrooms.set
	}
	m.problem = &partition.Problem{Name: b.House.Name, ShareMin: 0, ShareMax: 1000}
	for f := range functionCount {
		t := functions[f]
		m.problem.Functions = append(m.problem.Functions, partition.Function{Name: t.name, Uncounted: t.uncounted})
	}
	m.addCells()
	m.addLinks()
	m.addUnits()
	m.bound()
	return m
}

func (m *model) addCells() {
	reached := m.b.Reached()
	m.place = make([]int, len(m.b.Cells))
	for c := range m.b.Cells {
		m.place[c] = -1
		if !reached[c] {
			continue
		}
		m.place[c] = len(m.problem.Cells)
		m.cells = append(m.cells, c)
		m.problem.Cells = append(m.problem.Cells, m.cell(c))
	}
	m.cells = append(m.cells, Outside)
	m.problem.Cells = append(m.problem.Cells, partition.Cell{
		Name: "outside", Public: true, Outdoor: true, Host: m.hostsNothing(),
	})
}

func (m *model) hostsNothing() []partition.Money {
	host := make([]partition.Money, functionCount)
	for f := range host {
		host[f] = partition.Impossible
	}
	return host
}

func (m *model) cell(c int) partition.Cell {
	cell := &m.b.Cells[c]
	out := partition.Cell{
		Name: cell.ID, Public: cell.Public, Outdoor: cell.Outdoor,
		Detached: cell.Use == Garage, DeadEnd: cell.deadEnd() && cell.Use != Garage,
		Host: m.hostsNothing(), Distinct: m.b.lead(c) && !slices.Contains([]Use{Closet, Storage, Pantry}, cell.Use),
	}
	if cell.Public {
		return out
	}
	if m.countsArea(c) {
		out.Area = int64(math.Round(cell.AreaM2 * areaPerM2))
	}
	if m.b.has(c, HasOutdoor) {
		out.Amount[groundAmount] = int64(math.Round(cell.AreaM2 * areaPerM2))
	}
	out.Amount[stallAmount] = int64(m.b.stalls(c))
	out.Allowed, out.Common = m.allowed(c)
	offer := m.b.offerOf(c)
	out.Capacity = offer.capacity
	for _, clash := range offer.clashes {
		out.Clashes = append(out.Clashes, clash.indices())
	}
	out.Closes = make([]bool, functionCount)
	for f := range functionCount {
		if works, ok := m.hosting(c, f); ok {
			out.Host[f] = money(total(works))
			out.Closes[f] = m.b.closedBy(c, f)
			if !m.b.has(c, f) {
				out.Host[f]++ // what is there is kept before anything is changed
			}
		}
	}
	return out
}

// countsArea tells whether the cell counts towards a unit's area: indoors,
// heated, no garage.
func (m *model) countsArea(c int) bool {
	cell := &m.b.Cells[c]
	return !cell.Outdoor && cell.Heated && cell.Use != Garage
}

// allowed gives the labels that the brief leaves to a cell, and the price of
// leaving it common.
func (m *model) allowed(c int) (partition.LabelSet, partition.Price) {
	cell := &m.b.Cells[c]
	set := partition.Any
	price := partition.Price{Shared: 1, Money: 1}
	switch {
	case m.accepted(c):
		price.Shared = 0
	case !shareable(cell):
		set &^= 1 << partition.Common
	}
	for u, unit := range m.brief.Units {
		mine, other := partition.LabelSet(1)<<partition.Label(u), partition.LabelSet(1)<<partition.Label(1-u)
		means := func(word string) bool { return m.b.means(word, c) }
		if slices.ContainsFunc(unit.Keep, means) {
			set &= mine
		}
		if slices.ContainsFunc(unit.Avoid, means) {
			set &= other
		}
	}
	return set, price
}

// accepted tells whether the brief accepts the cell as shared.
func (m *model) accepted(c int) bool {
	return slices.ContainsFunc(m.brief.Share, m.b.Cells[c].named)
}

// shareable tells whether a cell can be common at all, if only as a flagged
// shared element: ways, ground and rooms for plant, never rooms to live in.
func shareable(c *Cell) bool {
	if c.Flight || c.Outdoor {
		return true
	}
	return slices.Contains([]Use{Entry, Hall, Laundry, Mechanical, Garage, Storage, Unfinished}, c.Use)
}

func (m *model) addLinks() {
	outside := len(m.problem.Cells) - 1
	end := func(c int) int {
		if c == Outside {
			return outside
		}
		return m.place[c]
	}
	for i, l := range m.b.Links {
		u, v := end(l.U), end(l.V)
		if u < 0 || v < 0 {
			continue
		}
		if link, ok := m.link(l, u, v); ok {
			m.links = append(m.links, i)
			m.problem.Links = append(m.problem.Links, link)
			if hinged, ok := m.hingedLink(l, link); ok {
				m.links = append(m.links, i)
				m.problem.Links = append(m.problem.Links, hinged)
			}
		}
	}
	for _, c := range m.b.publicGround() {
		if m.place[c] < 0 {
			continue
		}
		m.links = append(m.links, -1)
		m.problem.Links = append(m.problem.Links, partition.Link{
			Name: "public|" + m.b.Cells[c].ID, U: m.place[c], V: outside, Open: true, Door: partition.Impossible,
		})
	}
}

// link states one link; ok is false where it neither joins nor parts anything.
func (m *model) link(l Link, u, v int) (partition.Link, bool) {
	out := partition.Link{Name: l.ID, U: u, V: v, Open: l.Passage(), Door: partition.Impossible}
	out.Sep = money(total(m.separation(l, false)) + m.noise(l))
	out.SepCommon = money(total(m.separation(l, true)))
	if l.V != Outside && m.b.Cells[l.U].Of == m.b.Cells[l.V].Of {
		out.Sep += wholeFirst
		out.SepCommon += wholeFirst
	}
	if !m.mayPart(l, false) {
		out.Sep = partition.Impossible
	}
	if !m.mayPart(l, true) {
		out.SepCommon = partition.Impossible
	}
	if !out.Open {
		if work, ok := m.doorway(l); ok {
			out.Door = money(work.Cost)
		}
	}
	if l.V != Outside && out.Open {
		if from, ok := m.b.leadsOn(l); ok {
			out.Ensuite = true
			if from == l.V {
				out.U, out.V = v, u
			}
		}
	}
	if m.entryLink(l) && (out.Open || out.Door != partition.Impossible) && !m.mustHinge(l) {
		for i, unit := range m.brief.Units {
			out.Entry[i] = m.b.opensTo(l.V, unit.EntryFrom)
		}
	}
	useful := out.Open || out.Door != partition.Impossible || out.Sep != 0 || out.SepCommon != 0
	return out, useful
}

// entryLink tells whether a link can be a unit's way in: a door, there or new,
// between the outdoors and a room that people pass through.
func (m *model) entryLink(l Link) bool {
	if l.Kind != LinkDoor && l.Kind != LinkExterior {
		return false
	}
	outdoors := l.V == Outside || m.b.Cells[l.V].Outdoor
	return outdoors && m.b.entryRoom(l.U) && !m.b.overhead(l.Of)
}

// entryRoom tells whether people may come in through the cell.
func (b *Building) entryRoom(c int) bool {
	cell := &b.Cells[c]
	return !cell.Outdoor && !cell.deadEnd()
}

func (b *Building) overhead(door string) bool {
	for _, d := range b.House.Doors {
		if d.ID == door {
			return d.Leaf == Overhead
		}
	}
	return false
}

func (m *model) addUnits() {
	for f := range functionCount {
		if functions[f].service && !m.b.surveyed(f) {
			m.notSurveyed = append(m.notSurveyed, f)
		} else if slices.ContainsFunc(functions[f].fixtures, func(use string) bool { return m.sharesFixture(use) }) && m.b.surveyed(f) {
			m.waived = append(m.waived, f)
		}
	}
	for i, u := range m.brief.Units {
		unit := &m.problem.Units[i]
		unit.NeedEntry = true
		unit.MinArea = int64(math.Round(u.AreaMin * areaPerM2))
		if m.b.outdoorsSurveyed() {
			unit.MinAmount[groundAmount] = int64(math.Round(u.OutdoorMin * areaPerM2))
			if u.Parking.Min > 1 {
				unit.MinAmount[stallAmount] = int64(u.Parking.Min)
			}
		}
		for f := range functionCount {
			unit.Need = append(unit.Need, m.need(u, f))
			unit.Lack = append(unit.Lack, m.lack(f))
		}
	}
	if a, b := m.brief.Units[0].AreaShare, m.brief.Units[1].AreaShare; a > 0 || b > 0 {
		if a == 0 {
			a = 1 - b
		}
		m.problem.Balance = partition.Balance{
			Share:   int(math.Round(a * 1000)),
			PerArea: money(m.prices.Priorities.Balance*m.brief.Priorities.Balance) / areaPerM2,
		}
	}
}

// sharesFixture tells whether the brief accepts a fixture as shared, by its
// use or by its id.
func (m *model) sharesFixture(use string) bool {
	return slices.ContainsFunc(m.brief.Share, func(word string) bool {
		return word == use || slices.ContainsFunc(m.b.House.Fixtures, func(f Fixture) bool { return f.ID == word && f.Use == use })
	})
}

// need is how many of a function a unit must have.
func (m *model) need(u UnitBrief, f Function) int {
	if slices.Contains(m.notSurveyed, f) || slices.Contains(m.waived, f) {
		return 0
	}
	switch f {
	case HasBedroom:
		return u.Bedrooms.Min
	case HasOutdoor:
		return 0 // asked by its area: see groundAmount
	case HasParking:
		if !m.b.outdoorsSurveyed() || u.Parking.Min > 1 {
			return 0 // several stalls are asked by number: see stallAmount
		}
		return u.Parking.Min
	}
	return 1
}

// lack is the price of going without a function. A service that no room can
// take stays shared; going without storage has a price; the rest is a must.
func (m *model) lack(f Function) partition.Price {
	switch f {
	case HasHeat, HasHotWater, HasPanel, HasLaundry:
		return partition.Price{Shared: 1}
	case HasStorage:
		return partition.Price{Money: money(m.prices.Priorities.NoStorage)}
	}
	return partition.Price{Money: partition.Impossible}
}

// noise prices a noisy room against a quiet one across a separation, by the
// area that they share.
func (m *model) noise(l Link) float64 { return noisePrice(m.b, l, m.prices, m.brief) }

func noisePrice(b *Building, l Link, prices *Prices, brief *Brief) float64 {
	if l.Kind != LinkWall && l.Kind != LinkFloor {
		return 0
	}
	u, v := &b.Cells[l.U], &b.Cells[l.V]
	if !(noisy(u) && quiet(v)) && !(noisy(v) && quiet(u)) {
		return 0
	}
	return cents(hundredth(l.AreaM2) * prices.Priorities.Noise * brief.Priorities.Noise)
}

func quiet(c *Cell) bool { return c.is(Bedroom) && !c.Through }

func noisy(c *Cell) bool {
	return c.Flight || slices.ContainsFunc([]Use{Kitchen, Living, Family, Laundry, Mechanical, Garage, Bathroom}, c.is)
}
