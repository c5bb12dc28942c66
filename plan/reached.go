package plan

// Reached tells for each cell whether people get to it today: along passages
// from the outside, from the public way, and from every door between indoors
// and outdoors. In a house without any such door, from the largest part that
// hangs together.
func (b *Building) Reached() []bool {
	near := make([][]int, len(b.Cells))
	var starts []int
	for c := range b.Cells {
		if b.Cells[c].Public {
			starts = append(starts, c)
		}
	}
	entered := false
	for _, l := range b.Links {
		if !l.Passage() {
			continue
		}
		out := l.V == Outside || b.Cells[l.U].Outdoor != b.Cells[l.V].Outdoor
		if out {
			entered = true
			starts = append(starts, l.U)
			if l.V != Outside {
				starts = append(starts, l.V)
			}
		}
		if l.V != Outside {
			near[l.U] = append(near[l.U], l.V)
			near[l.V] = append(near[l.V], l.U)
		}
	}
	reached := make([]bool, len(b.Cells))
	for _, c := range starts {
		spread(near, reached, c)
	}
	if entered {
		return reached
	}
	best, size := -1, 0
	for c := range b.Cells {
		part := make([]bool, len(b.Cells))
		if n := spread(near, part, c); !b.Cells[c].Outdoor && n > size {
			best, size = c, n
		}
	}
	if best >= 0 {
		spread(near, reached, best)
	}
	return reached
}

// spread marks what is reached from c and tells how many cells are new.
func spread(near [][]int, reached []bool, c int) int {
	if reached[c] {
		return 0
	}
	reached[c] = true
	n, queue := 1, []int{c}
	for len(queue) > 0 {
		c, queue = queue[0], queue[1:]
		for _, d := range near[c] {
			if !reached[d] {
				reached[d] = true
				n++
				queue = append(queue, d)
			}
		}
	}
	return n
}

// reportUnreached warns of the cells that no passage reaches.
func (b *builder) reportUnreached() error {
	for c, reached := range b.Reached() {
		if !reached {
			b.warn(b.Cells[c].Of, "no passage reaches %s: it belongs to nobody", b.Cells[c].ID)
		}
	}
	return nil
}
