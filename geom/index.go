package geom

import (
	"slices"

	"github.com/tidwall/rtree"
)

// index finds boxes near a box: an R-tree over numbered boxes.
type index struct{ tree rtree.RTreeGN[int64, int] }

// newIndex indexes n boxes; those of nothing are left out.
func newIndex(n int, box func(i int) Box) *index {
	x := new(index)
	for i := range n {
		if b := box(i); !b.Empty() {
			x.tree.Insert([2]int64{b.Min.X, b.Min.Y}, [2]int64{b.Max.X, b.Max.Y}, i)
		}
	}
	return x
}

// near returns the numbers of the boxes that meet b, ascending, in found's
// storage.
func (x *index) near(b Box, found []int) []int {
	found = found[:0]
	x.tree.Search([2]int64{b.Min.X, b.Min.Y}, [2]int64{b.Max.X, b.Max.Y}, func(_, _ [2]int64, i int) bool {
		found = append(found, i)
		return true
	})
	slices.Sort(found)
	return found
}
