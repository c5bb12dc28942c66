package partition_test

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"moiety/plan/partition"
)

// threeRooms is a house for one unit, B, with a bed to be made, beside a shed
// that is A's. Money is what each way costs.
//
//	street ------- [hall]---[middle]---[back]
//	   |             |                   |
//	 [shed]        (100)               (100)    doors to be bought
//	                 +---- [corner] -----+
func threeRooms() *partition.Problem {
	cell := func(name string, owner partition.Label, bed partition.Money) partition.Cell {
		return partition.Cell{Name: name, Allowed: 1 << owner, Capacity: 2, Distinct: true,
			Host: []partition.Money{bed, partition.Impossible}}
	}
	street := partition.Cell{Name: "street", Public: true}
	p := &partition.Problem{
		Cells: []partition.Cell{street, cell("hall", partition.B, partition.Impossible), cell("middle", partition.B, 10),
			cell("back", partition.B, partition.Impossible), cell("corner", partition.B, partition.Impossible),
			cell("shed", partition.A, partition.Impossible)},
		Links: []partition.Link{
			{Name: "front", U: 0, V: 1, Open: true, Entry: [2]bool{false, true}},
			{Name: "hall|middle", U: 1, V: 2, Open: true}, {Name: "middle|back", U: 2, V: 3, Open: true},
			{Name: "hall|corner", U: 1, V: 4, Door: 100}, {Name: "corner|back", U: 4, V: 3, Door: 100},
			{Name: "shed door", U: 0, V: 5, Open: true, Entry: [2]bool{true, false}},
		},
		Functions: []partition.Function{{Name: "bed"}, {Name: "bath"}},
		ShareMax:  1000,
	}
	never := partition.Price{Money: partition.Impossible}
	p.Units[0] = partition.Unit{Need: []int{0, 0}, Lack: []partition.Price{never, never}, NeedEntry: true}
	p.Units[1] = partition.Unit{Need: []int{1, 0}, Lack: []partition.Price{never, never}, NeedEntry: true}
	return p
}

// cost is the price of the best scheme, -1 if there is none, verified.
func cost(t *testing.T, p *partition.Problem) partition.Money {
	t.Helper()
	r := solve(t, p, partition.Options{})
	if r.Status == partition.Infeasible {
		return -1
	}
	require.Equal(t, partition.Proved, r.Status)
	require.NoError(t, partition.Verify(p, &r.Solutions[0]))
	return r.Solutions[0].Price.Money
}

func TestRoomMadeABedroomIsPassedNoMore(t *testing.T) {
	p := threeRooms()
	assert.EqualValues(t, 10+100, cost(t, p), "the corner needs a door, the back is reached through the bedroom")
	p.Cells[2].Closes = []bool{true, false}
	assert.EqualValues(t, 10+100+100, cost(t, p), "the back is reached by the corner")
	p.Cells[4].Host[0] = 150
	p.Cells[4].Closes = []bool{true, false}
	assert.EqualValues(t, 10+200, cost(t, p), "the bedroom in the corner would be 150 + 100")
	p.Cells[4].Host[0] = 60
	assert.EqualValues(t, 60+100, cost(t, p), "with the bedroom in the corner the middle stays a way")
	p.Links[4].Door = partition.Impossible
	p.Cells[4].Host[0] = partition.Impossible
	assert.EqualValues(t, -1, cost(t, p), "no other way to the back")
	p.Cells[3].DeadEnd, p.Links[2].Ensuite = true, true
	assert.EqualValues(t, 10+100, cost(t, p), "the back is the bedroom's own closet")
}

func TestRoomMadeABedroomIsNoWayIn(t *testing.T) {
	p := threeRooms()
	p.Cells[1].Host[0], p.Cells[2].Host[0] = 10, 500
	p.Cells[1].Closes = []bool{true, false}
	assert.EqualValues(t, 500+100, cost(t, p), "the bed goes to the middle, since the hall is the way in")
	p.Links = append(p.Links, partition.Link{Name: "side", U: 0, V: 2, Door: 70, Entry: [2]bool{false, true}})
	assert.EqualValues(t, 10+70+100, cost(t, p), "a new front door to the middle, the corner from the back")
}

func TestRoomHostsNotAllThatClashesInIt(t *testing.T) {
	p := threeRooms()
	p.Units[1].Need = []int{1, 1}
	p.Cells[2].Host[1] = 20
	p.Cells[3].Host = []partition.Money{40, 35}
	assert.EqualValues(t, 10+20+100, cost(t, p))
	p.Cells[2].Clashes = [][]int{{0, 1}}
	assert.EqualValues(t, 10+35+100, cost(t, p), "the bath in the back, 25 for both would do the other way round: 40 + 20")
	p.Cells[2].Host[0] = 30
	assert.EqualValues(t, 40+20+100, cost(t, p), "now the bed in the back: 60, not 65")
	p.Cells[3].Host = []partition.Money{partition.Impossible, partition.Impossible}
	assert.EqualValues(t, -1, cost(t, p))
}

// A common room hosts for both units; what clashes does so even then.
func TestClashCountsOverBothUnits(t *testing.T) {
	p := threeRooms()
	p.Cells[1].Allowed = 1 << partition.Common
	p.Cells[5].Detached, p.Links[5].Entry = true, [2]bool{}
	p.Links[0].Entry[0] = true
	p.Units[0].Need = []int{0, 1}
	p.Cells[1].Host = []partition.Money{1, 2}
	assert.EqualValues(t, 1+2+100, cost(t, p))
	p.Cells[1].Clashes = [][]int{{1, 0}}
	assert.EqualValues(t, 10+2+100, cost(t, p))
}

func TestVerifierSeesClashesAndClosedWays(t *testing.T) {
	p := threeRooms()
	p.Units[1].Need = []int{1, 1}
	p.Cells[2].Host[1] = 20
	s := solve(t, p, partition.Options{}).Solutions[0]
	require.NoError(t, partition.Verify(p, &s))
	p.Cells[2].Clashes = [][]int{{0, 1}}
	assert.ErrorContains(t, partition.Verify(p, &s), `cell "middle" hosts [0 1], which clash`)
	p.Cells[2].Clashes, p.Cells[2].Closes = nil, []bool{true, false}
	assert.ErrorContains(t, partition.Verify(p, &s), `unit B: cell "back" is not reached indoors`)
	p.Cells[2].Closes, p.Cells[1].Closes = nil, []bool{true, false}
	require.NoError(t, partition.Verify(p, &s), "the hall hosts nothing")
	p.Cells[1].Closes, p.Cells[1].Host[0], p.Cells[2].Host[0] = []bool{true, false}, 10, 500
	s.Hosts[1][0] = []int{1}
	assert.ErrorContains(t, partition.Verify(p, &s), `entry "front" does not lead into one of its rooms`)
}
