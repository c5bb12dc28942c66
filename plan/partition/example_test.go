package partition_test

import (
	"context"
	"fmt"

	"moiety/plan/partition"
)

// Two rooms, each with a bed, open to each other; only one has a front door.
//
//	street == [east]--[west] == street (a door can be broken through for 300)
func ExampleSolve() {
	const both = 1<<partition.A | 1<<partition.B
	unit := partition.Unit{
		Need:      []int{1},
		Lack:      []partition.Price{{Money: partition.Impossible}},
		NeedEntry: true,
	}
	anyone := [2]bool{true, true}
	p := &partition.Problem{
		Functions: []partition.Function{{Name: "bed"}},
		Cells: []partition.Cell{
			{Name: "street", Public: true},
			{Name: "east", Allowed: both, Capacity: 1, Host: []partition.Money{0}, Distinct: true},
			{Name: "west", Allowed: both, Capacity: 1, Host: []partition.Money{0}, Distinct: true},
		},
		Links: []partition.Link{
			{Name: "front door", U: 0, V: 1, Open: true, Entry: anyone},
			{Name: "window", U: 0, V: 2, Door: 300, Entry: anyone},
			{Name: "opening", U: 1, V: 2, Open: true, Sep: 100},
		},
		Units:    [2]partition.Unit{unit, unit},
		ShareMax: 1000,
	}
	r, err := partition.Solve(context.Background(), p, partition.Options{Schemes: 2})
	if err != nil {
		fmt.Println(err)
		return
	}
	for _, s := range r.Solutions {
		for c, l := range s.Labels[1:] {
			fmt.Printf("%s is %s's\n", p.Cells[c+1].Name, l)
		}
		fmt.Printf("%d: parting %d, doors %d\n", s.Price.Money, s.Terms.Separation, s.Terms.Doors)
	}
	fmt.Println(r.Status, r.Complete)
	// Output:
	// east is A's
	// west is B's
	// 400: parting 100, doors 300
	// proved true
}
