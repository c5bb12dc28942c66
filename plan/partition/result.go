package partition

// Options steer a search; the zero value asks for the one best scheme.
type Options struct {
	// Schemes is how many different schemes are asked for; 0 means 1.
	Schemes int
	// Workers is how many subtrees are searched at once; 0 means one per
	// core. The answer does not depend on it.
	Workers int
	// AtMost, if set, leaves out schemes that are dearer: a price that is known
	// to be had. Infeasible then means that none costs so little.
	AtMost *Price
	// Except leaves out schemes: those in which all cells of one of these lists
	// have the labels that it gives them. Where exchanging the units changes
	// nothing, mirror images are left out, too.
	Except [][]Ownership
	// Nodes, if not 0, stops the search after so many parts of the search tree,
	// as the end of ctx does. With one worker the answer is then the same each time.
	Nodes int64
	// Trace, if set, is told of progress. It is called from one goroutine at
	// a time, and must not call back into the search.
	Trace Tracer
}

// Ownership is a cell's label.
type Ownership struct {
	Cell  int
	Label Label
}

// Status says what a search has shown.
type Status uint8

// The statuses. A search that was stopped is Bounded or Unknown, never Infeasible.
const (
	// Unknown: stopped before any scheme was found.
	Unknown Status = iota
	// Proved: every scheme listed is proved to be the best, second best, ...
	Proved
	// Bounded: stopped with a scheme in hand; see the schemes' Bound.
	Bounded
	// Infeasible: proved that no scheme exists.
	Infeasible
)

// String returns the status in lower case.
func (s Status) String() string {
	switch s {
	case Proved:
		return "proved"
	case Bounded:
		return "bounded"
	case Infeasible:
		return "infeasible"
	}
	return "unknown"
}

// Result is what a search found and what it proved.
type Result struct {
	Status Status
	// Solutions are the different schemes, best first.
	Solutions []Solution
	// Complete is true where it is proved that no scheme exists which differs
	// from all those listed; fewer than Schemes are then listed.
	Complete bool
	// Bound is proved: no scheme is cheaper. Where there is none, none costs as
	// little as Options.AtMost.
	Bound Price
	// Nodes counts the parts of the search tree looked at. It alone may vary
	// from run to run when there are several workers.
	Nodes int64
}

// Solution is one scheme.
type Solution struct {
	Labels []Label // per cell; Common for public cells, which have none
	// Hosts are, per unit and function, the cells that host it, in rising order.
	Hosts [2][][]int
	// Bought are the links whose door is bought, in rising order.
	Bought []int
	// Entry is each unit's entry link, or -1 where none is needed.
	Entry [2]int
	Price Price
	Terms Terms // sum up to Price
	// Bound is proved: no scheme that would take this one's place in the list
	// is cheaper.
	Bound  Price
	Proved bool // Price equals Bound
}

// Terms is a price split by its causes.
type Terms struct {
	Common     Price // cells left common
	Lack       Price // functions that a unit goes without
	Own        Money // cells given to a unit that would rather not have them
	Separation Money // links that part
	Hosting    Money // functions hosted
	Doors      Money // doors bought
	Balance    Money // distance from the wanted share
}

// Sum returns the price that the terms make.
func (t Terms) Sum() Price {
	return Price{
		Shared: t.Common.Shared + t.Lack.Shared,
		Money: t.Common.Money + t.Lack.Money + t.Own + t.Separation +
			t.Hosting + t.Doors + t.Balance,
	}
}

// Less reports whether p is the lower price: fewer shared elements first,
// then less money.
func (p Price) Less(q Price) bool {
	if p.Shared != q.Shared {
		return p.Shared < q.Shared
	}
	return p.Money < q.Money
}

// Tracer is told how a search goes on.
type Tracer interface {
	Progress(Progress)
}

// Progress is a moment of a search.
type Progress struct {
	Nodes int64
	// Found is how many different schemes are in hand, at most Schemes.
	Found int
	Best  Price // of the best one in hand; meaningless while Found is 0
	// Bound: no scheme is cheaper.
	Bound Price
}
