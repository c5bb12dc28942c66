package partition_test

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"moiety/plan/partition"
)

// twoRooms is a sound problem: two rooms, each with a bed, open to each other,
// and a street.
//
//	street =door= [east]--[west] =door= street
func twoRooms() *partition.Problem {
	room := func(name string) partition.Cell {
		return partition.Cell{Name: name, Area: 10, Allowed: 1<<partition.A | 1<<partition.B, Capacity: 1,
			Host: []partition.Money{0}, Distinct: true}
	}
	unit := partition.Unit{Need: []int{1}, Lack: []partition.Price{{Money: partition.Impossible}}, NeedEntry: true}
	entry := func(to int, open bool) partition.Link {
		return partition.Link{Name: "front", U: 0, V: to, Open: open, Door: 300, Entry: [2]bool{true, true}}
	}
	return &partition.Problem{
		Cells:     []partition.Cell{{Name: "street", Public: true}, room("east"), room("west")},
		Links:     []partition.Link{entry(1, true), entry(2, false), {Name: "opening", U: 1, V: 2, Open: true, Sep: 100}},
		Functions: []partition.Function{{Name: "bed"}},
		Units:     [2]partition.Unit{unit, unit},
		ShareMax:  1000,
	}
}

func TestMalformedProblemsAreRefusedWithEveryReason(t *testing.T) {
	require.NoError(t, twoRooms().Check())
	for _, c := range []struct {
		name  string
		spoil func(p *partition.Problem)
		want  string
	}{
		{"cell without a name", func(p *partition.Problem) { p.Cells[1].Name = "" }, "cell 1 has no name"},
		{"cells of one name", func(p *partition.Problem) { p.Cells[2].Name = "east" }, `cell "east" is named twice`},
		{"functions of one name", func(p *partition.Problem) {
			p.Functions = append(p.Functions, p.Functions[0])
		}, `function "bed" is named twice`},
		{"function without a name", func(p *partition.Problem) { p.Functions[0].Name = "" }, "function 0 has no name"},
		{"negative area", func(p *partition.Problem) { p.Cells[1].Area = -1 }, `cell "east": area -1 is negative`},
		{"negative amount", func(p *partition.Problem) { p.Cells[1].Amount[1] = -1 }, `cell "east": amounts [0 -1] are negative`},
		{"no label", func(p *partition.Problem) { p.Cells[1].Allowed = 0 }, `cell "east": no label is allowed`},
		{"unknown label", func(p *partition.Problem) { p.Cells[1].Allowed = 9 }, `cell "east": labels 0x8 are unknown`},
		{"public garage", func(p *partition.Problem) { p.Cells[0].Detached = true }, `cell "street" is both public and detached`},
		{"outdoor garage", func(p *partition.Problem) {
			p.Cells[1].Outdoor, p.Cells[1].Detached = true, true
		}, `cell "east" is both outdoor and detached`},
		{"paid for sharing", func(p *partition.Problem) { p.Cells[1].Common.Money = -5 }, `cell "east": the price of leaving it common is negative`},
		{"paid for owning", func(p *partition.Problem) { p.Cells[1].Own[1] = -5 }, `cell "east": the price of giving it to unit B is negative`},
		{"negative capacity", func(p *partition.Problem) { p.Cells[1].Capacity = -1 }, `cell "east": capacity -1 is negative`},
		{"too few hosting prices", func(p *partition.Problem) { p.Cells[1].Host = nil }, `cell "east": 0 hosting prices for 1 functions`},
		{"paid for hosting", func(p *partition.Problem) { p.Cells[1].Host[0] = -2 }, `cell "east": the price of hosting "bed" is negative`},
		{"clash of one", func(p *partition.Problem) { p.Cells[1].Clashes = [][]int{{0}} }, `cell "east": a clash of 1 functions`},
		{"clash with itself", func(p *partition.Problem) { p.Cells[1].Clashes = [][]int{{0, 0}} }, `cell "east": "bed" clashes with itself`},
		{"clash with nothing", func(p *partition.Problem) { p.Cells[1].Clashes = [][]int{{0, 1}} }, `cell "east": function 1 clashes, of 1`},
		{"closed by too many", func(p *partition.Problem) { p.Cells[1].Closes = []bool{true, true} }, `cell "east": 2 functions may close it, of 1`},
		{"suite of a bedroom to be", func(p *partition.Problem) {
			p.Links[2].Ensuite, p.Cells[1].Closes = true, []bool{true}
		}, `link 2 "opening" leads from the dead end "east" on to "west", which is none`},
		{"link to nowhere", func(p *partition.Problem) { p.Links[2].V = 3 }, `link 2 "opening" joins cells 1 and 3 of 3`},
		{"link to itself", func(p *partition.Problem) { p.Links[2].V = 1 }, `link 2 "opening" joins cell "east" to itself`},
		{"paid for a door", func(p *partition.Problem) { p.Links[1].Door = -2 }, `link 1 "front": the price of a door is negative`},
		{"paid for parting", func(p *partition.Problem) { p.Links[2].Sep = -2 }, `link 2 "opening": a price of parting is negative`},
		{"suite in the street", func(p *partition.Problem) { p.Links[0].Ensuite = true }, `link 0 "front": an ensuite link joins two indoor cells`},
		{"suite that goes on", func(p *partition.Problem) {
			p.Links[2].Ensuite, p.Cells[1].DeadEnd = true, true
		}, `link 2 "opening" leads from the dead end "east" on to "west", which is none`},
		{"suites in a circle", func(p *partition.Problem) {
			p.Cells[1].DeadEnd, p.Cells[2].DeadEnd = true, true
			p.Links[2].Ensuite = true
			p.Links = append(p.Links, partition.Link{U: 2, V: 1, Ensuite: true, Open: true})
		}, `ensuite links lead in a circle to cell "west"`},
		{"entry between rooms", func(p *partition.Problem) { p.Links[2].Entry[0] = true }, `link 2 "opening": an entry joins an outdoor or public cell and an indoor one`},
		{"too few needs", func(p *partition.Problem) { p.Units[1].Need = nil }, "unit B: 0 needs for 1 functions"},
		{"too few lacks", func(p *partition.Problem) { p.Units[0].Lack = nil }, "unit A: 0 prices of lacking for 1 functions"},
		{"negative need", func(p *partition.Problem) { p.Units[0].Need[0] = -1 }, `unit A needs -1 of "bed"`},
		{"paid for lacking", func(p *partition.Problem) {
			p.Units[0].Lack = []partition.Price{{Money: -2}}
		}, `unit A: the price of lacking "bed" is negative`},
		{"negative least area", func(p *partition.Problem) { p.Units[0].MinArea = -1 }, "unit A: least area -1 is negative"},
		{"negative least amount", func(p *partition.Problem) { p.Units[0].MinAmount[0] = -1 }, "unit A: least amounts [-1 0] are negative"},
		{"share beyond all", func(p *partition.Problem) { p.ShareMax = 1001 }, "A's share from 0 to 1001 is no range within 0 to 1000"},
		{"share upside down", func(p *partition.Problem) { p.ShareMin, p.ShareMax = 600, 400 }, "A's share from 600 to 400 is no range"},
		{"paid for imbalance", func(p *partition.Problem) { p.Balance.PerArea = -1 }, "the price of imbalance is negative"},
		{"wanted share beyond all", func(p *partition.Problem) {
			p.Balance = partition.Balance{Share: 1200, PerArea: 1}
		}, "the wanted share 1200 is not within 0 to 1000"},
		{"prices too large", func(p *partition.Problem) { p.Links[2].Sep = 1 << 50 }, "too much to reckon with"},
		{"areas too large", func(p *partition.Problem) { p.Cells[1].Area = 1 << 41 }, "areas sum up to"},
	} {
		t.Run(c.name, func(t *testing.T) {
			p := twoRooms()
			c.spoil(p)
			_, err := partition.Solve(t.Context(), p, partition.Options{})
			require.ErrorIs(t, err, partition.ErrProblem)
			assert.ErrorContains(t, err, c.want)
		})
	}
	p := twoRooms()
	p.Cells[1].Area, p.Units[0].MinArea, p.ShareMax = -1, -1, 2000
	err := p.Check()
	for _, want := range []string{"area -1", "least area -1", "2000"} {
		assert.ErrorContains(t, err, want, "all reasons together")
	}
}
