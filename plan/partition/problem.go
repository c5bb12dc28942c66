package partition

// Label says whose a cell is.
type Label uint8

// The labels.
const (
	A Label = iota
	B
	Common
)

// LabelSet is a set of labels, bit 1<<Label each.
type LabelSet uint8

// Any allows every label.
const Any LabelSet = 1<<A | 1<<B | 1<<Common

// Money is a whole number of the caller's smallest unit (cents).
type Money int64

// Impossible marks a price at which nothing is offered.
const Impossible Money = -1

// Price is ordered by Shared first, then by Money.
type Price struct {
	Shared int // shared elements that were not accepted
	Money  Money
}

// Problem is one partition problem. Slices are indexed as their comments say.
type Problem struct {
	Name      string
	Cells     []Cell
	Links     []Link
	Functions []Function
	Units     [2]Unit
	// ShareMin and ShareMax bound A's part of the area that is A's or B's
	// alone, in thousandths; 0 and 1000 leave it free.
	ShareMin, ShareMax int
	Balance            Balance
}

// Balance prices the distance of A's area from its wanted share:
// |1000 areaA - Share (areaA + areaB)| / 1000 x PerArea, rounded down.
// PerArea 0 switches it off.
type Balance struct {
	Share   int // thousandths
	PerArea Money
}

// Cell is the smallest thing that has one owner.
type Cell struct {
	Name string
	Area int64 // counts towards area bounds, share and balance
	// Amount are two further measures of the caller's (ground, stalls), which
	// count towards least amounts only.
	Amount  [2]int64
	Allowed LabelSet
	// Public cells are nobody's and everybody's (a street): they have no
	// label, belong to both units' ground, cost nothing and host nothing.
	Public bool
	// Outdoor cells are exempt from indoor connectivity. They, and Detached
	// ones, must be reached from the public way or from the unit's rooms.
	Outdoor bool
	// Detached marks an enclosed cell (a garage) that is reached like an
	// outdoor cell and through which nobody passes.
	Detached bool
	// DeadEnd cells may be reached but not passed through, except along a
	// link that is marked Ensuite with this cell as its U. What a cell hosts
	// may make it one, see Closes.
	DeadEnd bool
	Common  Price    // of leaving it common
	Own     [2]Money // of giving it to A, to B (priorities; not negative)
	// Capacity is how many counted functions the cell can host over both units.
	Capacity int
	Host     []Money // per function: price of hosting it, 0 has it, Impossible
	// Clashes are sets of two or more functions that the cell does not host
	// all at once, whichever units they are for.
	Clashes [][]int
	// Closes tells, per function, whether hosting it makes an indoor cell a
	// dead end (a room made a bedroom); nil: none does. Of other cells it says
	// nothing.
	Closes []bool
	// Distinct cells tell two schemes apart.
	Distinct bool
}

// Link joins two cells.
type Link struct {
	Name string
	U, V int
	// Open is a passage today. Otherwise Door is the price of a new one, or Impossible.
	Open bool
	Door Money
	// Sep is paid where one end is A's alone and the other B's alone;
	// SepCommon where one end is common and the other is not. Impossible: the
	// ends may not part so.
	Sep, SepCommon Money
	// SharedEdge is the number of shared elements that count beside SepCommon.
	// With it and the cells' Common a string of cells can be made to count as
	// many elements as it has stretches that are common: 2 of each cell, less
	// 1 for each link to a neighbour in the string, and 1 of each such link
	// make 2 a stretch.
	SharedEdge int
	// Ensuite lets the dead end U lead on to V, its own bathroom or closet.
	// Ensuite links form no cycle.
	Ensuite bool
	// Entry marks a link between an outdoor or public cell and an indoor one
	// that may serve as a unit's entry, per unit.
	Entry [2]bool
}

// Function is something a unit must have.
type Function struct {
	Name string
	// Uncounted functions take no capacity.
	Uncounted bool
	// Exactly: a unit hosts as many as it needs and no more.
	Exactly bool
}

// Unit is what one unit must have.
type Unit struct {
	Need    []int   // per function
	Lack    []Price // per function: price of each one missing; Money Impossible: may not lack
	MinArea int64   // of cells that are the unit's alone
	// MinAmount are the least amounts of cells that are the unit's alone.
	MinAmount [2]int64
	// NeedEntry: an Entry link, open or bought, from an outdoor cell that is
	// the unit's (or common, or public) and reached from a public cell over
	// open links between such cells, to an indoor cell of the unit that is
	// no dead end and from which every indoor cell of the unit is reached.
	// Without it the indoor cells need only hang together.
	NeedEntry bool
}
