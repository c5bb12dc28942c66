package plan

import (
	"fmt"
	"slices"
	"sync"
)

// dividedHouses keeps the house as divided along sets of lines: what is asked
// of the units changes nothing about them. It may be used by several at once.
type dividedHouses struct {
	whole *Building
	cuts  func() []Cut // the lines of all spaces

	mu    sync.Mutex
	built map[string]func() (*Building, error)
}

func newDividedHouses(b *Building, prices *Prices) *dividedHouses {
	return &dividedHouses{
		whole: b, built: map[string]func() (*Building, error){},
		cuts: sync.OnceValue(func() []Cut { return b.Cuts(prices.SeparatingWall.Thickness) }),
	}
}

// along gives the building divided along lines.
func (d *dividedHouses) along(cuts []Cut) (*Building, error) {
	key := fmt.Sprint(cuts)
	d.mu.Lock()
	build := d.built[key]
	if build == nil {
		cuts = slices.Clone(cuts)
		build = sync.OnceValues(func() (*Building, error) {
			h, err := Divide(d.whole.House, cuts)
			if err != nil {
				return nil, err
			}
			b, err := Build(h)
			if err != nil {
				return nil, fmt.Errorf("plan: the house divided along its candidate lines: %w", err)
			}
			return b, nil
		})
		d.built[key] = build
	}
	d.mu.Unlock()
	return build()
}
