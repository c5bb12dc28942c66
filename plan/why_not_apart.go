package plan

import (
	"slices"

	"moiety/plan/partition"
)

// anywhere changes a problem so that it does not matter where rooms lie: every
// room of a unit is as good as reached. What conflicts then conflicts by
// number and size alone.
func anywhere(p *partition.Problem) {
	for i := range p.Units {
		p.Units[i].NeedEntry = false
	}
	public := make([]bool, len(p.Cells))
	for i := range p.Cells {
		// Where there is no public way, outdoor cells need not be reached.
		c := &p.Cells[i]
		public[i] = c.Public
		if c.Public {
			c.Public, c.Allowed = false, 1<<partition.Common
		}
		c.Outdoor, c.DeadEnd, c.Detached = true, false, false
	}
	for i := range p.Links {
		l := &p.Links[i]
		l.Ensuite, l.Entry = false, [2]bool{}
		if public[l.U] || public[l.V] {
			l.Sep, l.SepCommon = 0, 0
		}
	}
}

// forFree lets everything that is possible cost nothing: to find out whether
// there is a scheme, none has to be the cheapest.
func forFree(p *partition.Problem) {
	free := func(m *partition.Money) {
		if *m != partition.Impossible {
			*m = 0
		}
	}
	for i := range p.Cells {
		c := &p.Cells[i]
		c.Common, c.Own = partition.Price{}, [2]partition.Money{}
		c.Host = slices.Clone(c.Host)
		for f := range c.Host {
			free(&c.Host[f])
		}
	}
	for i := range p.Links {
		l := &p.Links[i]
		free(&l.Sep)
		free(&l.SepCommon)
		free(&l.Door)
	}
	for i := range p.Units {
		u := &p.Units[i]
		for f := range u.Lack {
			u.Lack[f].Shared = 0
			free(&u.Lack[f].Money)
		}
	}
	p.Balance = partition.Balance{}
}

// asPriced leaves a problem as it is: prices guide a search, if not always to
// where it is shortest.
func asPriced(*partition.Problem) {}
