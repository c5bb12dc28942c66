package plan

// CapacityOf tells how many counted functions a cell hosts at once.
func CapacityOf(b *Building, c int) int { return b.capacity(c) }
