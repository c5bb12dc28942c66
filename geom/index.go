package geom

import (
	"slices"

	"github.com/tidwall/rtree"
)

// BoxIndex finds numbered boxes near a box: an R-tree. The zero value holds
// nothing and is ready.
type BoxIndex struct{ tree rtree.RTreeGN[int64, int] }

// newIndex indexes n boxes by their numbers.
func newIndex(n int, box func(i int) Box) *BoxIndex {
	x := new(BoxIndex)
	for i := range n {
		x.Insert(box(i), i)
	}
	return x
}

// Insert adds the box b under the number i; a box of nothing is left out.
func (x *BoxIndex) Insert(b Box, i int) {
	if !b.Empty() {
		x.tree.Insert([2]int64{b.Min.X, b.Min.Y}, [2]int64{b.Max.X, b.Max.Y}, i)
	}
}

// Near returns the numbers of the boxes that meet b, edges included, ascending.
func (x *BoxIndex) Near(b Box) []int { return x.near(b, nil) }

// near is Near in found's storage.
func (x *BoxIndex) near(b Box, found []int) []int {
	found = found[:0]
	x.tree.Search([2]int64{b.Min.X, b.Min.Y}, [2]int64{b.Max.X, b.Max.Y}, func(_, _ [2]int64, i int) bool {
		found = append(found, i)
		return true
	})
	slices.Sort(found)
	return found
}
