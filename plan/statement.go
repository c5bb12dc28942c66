package plan

import (
	"fmt"
	"io"
	"slices"

	"moiety/plan/partition"
)

// Statement is the partition problem of a building under a brief, as one
// problem that any solver can be given. Where the brief lets spaces be divided,
// it is that of the house divided along all its candidate lines, in which the
// largest piece of a space may still take on what only the whole can and lines
// have no thickness: Split also looks at fewer lines, and reckons again with the
// walls' thickness what it finds.
type Statement struct {
	Problem *partition.Problem
	Cuts    []Cut // the lines along which spaces are divided
	// Contradiction holds the two demands that leave a space to neither unit,
	// if there are such; the problem then cannot be written.
	Contradiction []string
	model         *model
}

// StatePartition states the partition problem of a building. The error is for a brief
// that does not fit the house, or a fault.
func StatePartition(b *Building, brief *Brief, prices *Prices) (*Statement, error) {
	if err := brief.Check(b.House); err != nil {
		return nil, err
	}
	set, err := brief.ruleSet()
	if err != nil {
		return nil, err
	}
	if b, err = OpenWalls(b, brief, prices, set); err != nil {
		return nil, err
	}
	m := newModel(b, brief, prices)
	s := &Statement{Problem: m.problem, Contradiction: m.contradiction(), model: m}
	if !brief.Cuts || s.Contradiction != nil {
		return s, nil
	}
	s.Cuts = slices.DeleteFunc(b.Cuts(prices.SeparatingWall.Thickness), func(c Cut) bool { return m.left(c.Space) })
	if len(s.Cuts) == 0 {
		return s, nil
	}
	divided, err := m.dividedAlong(s.Cuts, nil)
	if err != nil {
		return nil, err
	}
	s.Problem, s.model = divided.problem, divided
	return s, nil
}

// dividedAlong states the problem of the house divided along lines.
func (m *model) dividedAlong(cuts []Cut, strict []string) (*model, error) {
	h, err := Divide(m.b.House, cuts)
	if err != nil {
		return nil, err
	}
	b, err := Build(h)
	if err != nil {
		return nil, fmt.Errorf("plan: the house divided along its candidate lines: %w", err)
	}
	return m.dividedIn(b, strict), nil
}

// dividedIn states the problem of the house already divided.
func (m *model) dividedIn(b *Building, strict []string) *model {
	divided := newModel(b, m.brief, m.prices)
	divided.divides(m, strict)
	return divided
}

// WriteLP writes the problem in the LP text format, with prices in whole money:
// see partition.WriteLP.
func (s *Statement) WriteLP(w io.Writer) error {
	return partition.WriteLP(w, s.Problem, s.lpOptions())
}

func (s *Statement) lpOptions() partition.LPOptions {
	notes := []string{
		"The partition of the house into two units, A and B, at the least price.",
		"Areas are in hundredths of a square metre, prices in whole money as in the price file;",
		"decimals below a cent only settle what comes first among schemes at one price.",
	}
	for i, u := range s.model.brief.Units {
		if name := u.Name; name != "Unit "+u.ID {
			notes = append(notes, fmt.Sprintf("%s is %s.", partition.Label(i), name))
		}
	}
	for _, c := range s.Cuts {
		notes = append(notes, fmt.Sprintf("%s is divided: %s.", c.Space, c.Why))
	}
	if s.model.whole != nil {
		notes = append(notes, "Pieces of one space that are common together count as one shared element, by halves:",
			"two units of weight make one.")
	}
	return partition.LPOptions{PerUnit: MoneyPerUnit, Notes: notes}
}

// MoneyPerUnit is how many of the problem's money units make one unit of the
// price file's currency.
const MoneyPerUnit = moneyPerUnit
