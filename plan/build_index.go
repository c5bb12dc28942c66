package plan

import (
	"slices"

	"github.com/tidwall/rtree"

	"moiety/geom"
)

// solidIndex finds solids by where they are.
type solidIndex struct {
	tree rtree.RTreeGN[int64, int]
}

func (b *builder) indexSolids() error {
	b.index = new(solidIndex)
	for i := range b.solids {
		box := b.solids[i].Base.Bounds()
		b.index.tree.Insert([2]int64{box.Min.X, box.Min.Y}, [2]int64{box.Max.X, box.Max.Y}, i)
	}
	return nil
}

// near gives the solids whose boxes meet the box, in order.
func (x *solidIndex) near(box geom.Box) []int {
	var out []int
	x.tree.Search([2]int64{box.Min.X, box.Min.Y}, [2]int64{box.Max.X, box.Max.Y}, func(_, _ [2]int64, i int) bool {
		out = append(out, i)
		return true
	})
	slices.Sort(out)
	return out
}
