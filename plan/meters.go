package plan

import "fmt"

// meterWords are the meters of which each unit has one of its own.
var meterWords = []struct{ use, name string }{{"electric_meter", "electric meter"}, {"gas_meter", "gas meter"}}

// meterWorks are the meters that a second unit still needs: where the survey
// shows one, and the brief does not accept it as shared. Of a meter that was
// not surveyed nothing is said, nor of gas where nothing burns it.
func (m *model) meterWorks() []Work {
	var works []Work
	for _, w := range meterWords {
		var there []string
		for _, f := range m.b.House.Fixtures {
			if f.Use == w.use {
				there = append(there, f.ID)
			}
		}
		if len(there) != 1 || m.sharesFixture(w.use) || w.use == "gas_meter" && m.brief.Conditions.Fuel == NoFuel {
			continue
		}
		works = append(works, Work{
			Kind: "new_meter", Of: there[0], Count: 1, Cost: cents(m.prices.cost("new_meter", 0, 0, 1)),
			Note: fmt.Sprintf("a second %s, so that each unit pays for its own: the utility says where and how", w.name),
		})
	}
	return works
}

// addSharedMeters lists the meters that the brief accepts as shared.
func (m *model) addSharedMeters(out *Scheme) {
	for _, w := range meterWords {
		for _, f := range m.b.House.Fixtures {
			if f.Use == w.use && m.sharesFixture(w.use) {
				out.Shared = append(out.Shared, Shared{
					ID: f.ID, Use: f.Use, Accepted: true, Why: "the brief accepts one " + w.name + " for both units",
				})
			}
		}
	}
}
