package plan_test

import (
	"maps"
	"slices"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"moiety/plan"
	"moiety/plan/internal/housetest"
	"moiety/plan/partition"
)

// hallHouse is a house for two households with one front door, and the flight
// beside it:
//
//	ground                     upper, alike
//	+--back--+---------+       +--------+---------+
//	| hall   D living  |       | landing D living |
//	|  +----+| kitchen |       |  +----+ kitchen  |
//	|  | ^  |+--+--D---+       |  | v  |+--+--D---+
//	|  +foot+D  |      |       |  +----+D  |      |
//	| front  |ba| bed  |       |        |ba| bed  |
//	+--D-----+--+------+       +--------+--+------+
func hallHouse() *housetest.Draft {
	d := housetest.New("Stair beside the door").Level("ground", 0, 2.5).Level("upper", 2.8, 2.5)
	around := []float64{0, 0, 2.4, 0, 2.4, 7, 0, 7, 0, 5.2, 1, 5.2, 1, 1.6, 0, 1.6}
	d.Room("hall", plan.Hall, "ground", around...).Divisible()
	d.Room("landing", plan.Hall, "upper", around...)
	d.Flight("flight", "ground", "upper", "n", 0, 1.6, 1, 5.2)
	for _, level := range []string{"ground", "upper"} {
		id := func(room string) string { return room + "-" + level }
		d.Room(id("living"), plan.Living, level, 2.5, 3.1, 7.5, 7).Also(plan.Kitchen, plan.Laundry)
		d.Room(id("bed"), plan.Bedroom, level, 4.6, 0, 7.5, 3)
		d.Room(id("bath"), plan.Bathroom, level, 2.5, 0, 4.5, 3)
		d.Door(id("door-living"), level, 2.45, 5.6, 2.45, 6.4)
		d.Door(id("door-bath"), level, 2.45, 2.1, 2.45, 2.9)
		d.Door(id("door-bed"), level, 5.2, 3.05, 6, 3.05)
		d.Window(id("win-bed"), level, 0.9, 1.2, 5.2, -0.1, 6.4, -0.1)
	}
	d.Door("front", "ground", 0.9, -0.1, 1.8, -0.1).Door("back", "ground", 0.9, 7.1, 1.8, 7.1)
	return d
}

// A hall with one front door and the flight beside it is divided across its
// passage, in line with the foot of the flight: the front door goes with the
// flight, and the rest of the hall with the rooms below.
func TestAHallThatMustBeDivided(t *testing.T) {
	d := hallHouse()
	brief := plan.DefaultBrief()
	brief.Schemes = 1
	brief.Units[0].Keep = []string{"living-ground"}
	brief.Units[1].Keep = []string{"living-upper"}
	a := split(t, build(t, d.House()), brief)
	require.NotEmpty(t, a.Schemes)
	s := a.Schemes[0]
	assert.Zero(t, unaccepted(s))
	owner := owners(s)
	assert.Equal(t, "A", owner["hall/1"])
	assert.Equal(t, "B", owner["hall/2"])
	assert.Equal(t, "B", owner["flight"])
	assert.NotContains(t, owner, "landing/1", "no need to divide the landing")

	// From the side of the flight to the wall, its face in line with the foot.
	var walls []plan.WallRun
	for _, w := range s.Walls {
		if w.State == plan.New && w.Between == [2]string{"hall/1", "hall/2"} {
			walls = append(walls, w)
		}
	}
	require.Len(t, walls, 1)
	assert.InDelta(t, 0.20, walls[0].Thickness, 1e-6)
	assert.InDelta(t, 1.40, walls[0].Line.Length(), 0.001)
	_, y := walls[0].Line.Mid().Metres()
	assert.InDelta(t, 1.70, y, 0.001)
	assert.Equal(t, []string{"back"}, s.Units[0].Entries)
	assert.Equal(t, []string{"front"}, s.Units[1].Entries)

	// The wall takes its thickness from both pieces, and nothing else is lost.
	hall := build(t, d.House()).Cells[find(s.Whole, "hall")].AreaM2
	pieces := 0.0
	for _, c := range s.Building.Cells {
		if c.Of == "hall" {
			pieces += c.AreaM2
		}
	}
	assert.InDelta(t, hall-1.40*0.20, pieces, 0.002)

	brief.Cuts = false
	whole := split(t, build(t, d.House()), brief).Schemes[0]
	assert.Greater(t, whole.Cost.Total, s.Cost.Total+2000, "undivided, one unit needs a new entry and doors")
}

// With spaces that may be divided no house is dearer to part than without, nor
// is more of it shared; what could be parted still can.
func TestDividingNeverMakesAHouseDearer(t *testing.T) {
	cheaper := 0
	check := func(t *testing.T, b *plan.Building, brief *plan.Brief) {
		t.Helper()
		brief.Schemes, brief.Cuts = 1, false
		whole := split(t, b, brief)
		brief.Cuts = true
		divided := split(t, b, brief)
		if len(whole.Schemes) == 0 {
			return
		}
		require.NotEmpty(t, divided.Schemes)
		w, d := whole.Schemes[0], divided.Schemes[0]
		require.LessOrEqual(t, unaccepted(d), unaccepted(w))
		if unaccepted(d) == unaccepted(w) {
			require.LessOrEqual(t, d.Cost.Total, w.Cost.Total)
		}
		if unaccepted(d) < unaccepted(w) || d.Cost.Total < w.Cost.Total-1 {
			cheaper++
		}
		holds(t, d, brief)
	}
	samples := sampleHouses(t)
	for _, name := range slices.Sorted(maps.Keys(samples)) {
		t.Run(name, func(t *testing.T) { check(t, samples[name].building, samples[name].brief) })
	}
	for seed := range seeds(t, 15, 40) {
		h := housetest.Divisible(housetest.Small(seed))
		check(t, build(t, h), housetest.Demands(h, seed, false))
	}
	assert.Positive(t, cheaper)
	t.Logf("%d houses are better parted with a space divided", cheaper)
}

// holds prices a scheme on its own, divided house by the reference.
func holds(t *testing.T, s *plan.Scheme, brief *plan.Brief) {
	t.Helper()
	brief, ok := byPieces(brief, s.Building)
	if !ok || len(s.Building.Cells) > 62 {
		return // more than the reference knows
	}
	want := newReference(s.Building, brief, plan.DefaultPrices()).price(ownersOf(s), never)
	require.NotEqual(t, never, want, "the scheme holds")
	assert.Equal(t, want.shared, unaccepted(s))
	assert.InDelta(t, want.cost, s.Cost.Total, 0.011)
}

// byPieces gives a brief that names the pieces of divided spaces: the reference
// takes a word for the id of a cell. An entry can be asked from one space only.
func byPieces(brief *plan.Brief, b *plan.Building) (*plan.Brief, bool) {
	out, ok := *brief, true
	named := func(words []string) []string {
		var all []string
		for _, word := range words {
			n := len(all)
			for _, c := range b.Cells {
				if c.Of == word {
					all = append(all, c.ID)
				}
			}
			if len(all) == n {
				all = append(all, word) // a use
			}
		}
		return all
	}
	out.Share = named(brief.Share)
	for i := range out.Units {
		u := &out.Units[i]
		u.Keep, u.Avoid = named(u.Keep), named(u.Avoid)
		ok = ok && (u.EntryFrom == "" || slices.Equal(named([]string{u.EntryFrom}), []string{u.EntryFrom}))
	}
	return &out, ok
}

// Trying every owner of every piece of a small house that has been divided
// finds nothing better than the search, but for what the new walls' thickness
// makes: pieces are tried without it.
func TestNoWayToPartADividedHouseIsBetterThanTheOneFound(t *testing.T) {
	tried := 0
	for seed := uint64(0); tried < int(seeds(t, 4, 25)) && seed < 400; seed++ {
		h := housetest.Divisible(housetest.Small(seed))
		for i := range h.Spaces { // the reference takes any piece of a living room for one
			s := &h.Spaces[i]
			s.Divisible = s.Divisible && s.Use != plan.Living && s.Use != plan.Family
		}
		b := build(t, h)
		cuts := b.Cuts(newWall)
		if len(cuts) == 0 || len(b.Cells)+len(cuts) > 13 {
			continue
		}
		divided, err := plan.Divide(h, cuts)
		require.NoError(t, err)
		d := build(t, divided)
		brief := housetest.Demands(h, seed, false)
		brief.Schemes = 1
		pieces, ok := byPieces(brief, d)
		if !ok {
			continue
		}
		tried++
		a := split(t, b, brief)
		best, at := newReference(d, pieces, plan.DefaultPrices()).best()
		if len(a.Schemes) == 0 {
			require.Equal(t, never, best, "seed %d: %s", seed, sayOwners(d, at))
			require.Equal(t, partition.Infeasible, a.Status)
			continue
		}
		s := a.Schemes[0]
		// A wall of 0.2 m less at either end of a dozen walls and floors.
		const thicknessMakes = 400
		better := best.shared < unaccepted(s) || best.shared == unaccepted(s) && best.cost < s.Cost.Total-thicknessMakes
		require.False(t, better, "seed %d: %+v by %s against %d shared at %.2f", seed, best, sayOwners(d, at), unaccepted(s), s.Cost.Total)
	}
	require.Positive(t, tried)
}

// The units of the real duplex come out with nothing to seal, though its rooms
// may be divided.
func TestTheDuplexComesApartWithoutDividingAnything(t *testing.T) {
	b := duplex(t)
	require.NotEmpty(t, b.Cuts(newWall))
	a := split(t, b, twoBedroomsEach())
	require.NotEmpty(t, a.Schemes)
	s := a.Schemes[0]
	for _, w := range s.Works {
		assert.NotContains(t, []string{"seal_door", "seal_opening", "close_stair", "separating_wall", "fence"}, w.Kind)
	}
	for c, cell := range s.Building.Cells {
		assert.Equal(t, cell.ID, cell.Of)
		_ = c
	}
}
