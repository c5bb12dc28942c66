package plan

import "moiety/geom"

// indexSolids makes the index that finds solids by where they are.
func (b *builder) indexSolids() error {
	b.index = new(geom.BoxIndex)
	for i := range b.solids {
		b.index.Insert(b.solids[i].Base.Bounds(), i)
	}
	return nil
}
