package plan

import (
	"fmt"

	"moiety/plan/services"
)

// englishElectrical are the demands of both units by the guide to the wiring
// regulations of England. It knows no diversity between dwellings: each has a
// supply of its own.
func (y *supply) englishElectrical() []Service {
	var all []Service
	together := Service{Kind: "electrical", Result: services.Result{Method: "both demands added: the guide gives no diversity between dwellings", Unit: "A"}}
	for u := range y.s.Units {
		d := y.dwelling(u)
		if y.given.Heat != services.Electric {
			d.Heat = 0 // a boiler's pump is on the socket circuits
		}
		out := Service{Unit: Owner(u).String(), Kind: "electrical", Result: services.EnglishDemand(d), Notes: []string{"taken to be there: a 12 kW cooker; a tank where hot water is electric"}}
		out.Answer = "a consumer unit of its own, " + englishSupply(out.Value)
		all = append(all, out)
		together.Value += out.Value
		together.Lines = append(together.Lines, services.Line{What: "unit " + out.Unit, Value: out.Value, Unit: "A"})
		together.Sources, together.Caution = out.Sources, out.Caution
	}
	together.Answer = fmt.Sprintf("a supply and a meter for each unit; both together %.0f A at 230 V", together.Value) + y.enoughService(together.Value)
	return append(all, together)
}

// englishSupply gives a demand and the cut-out that carries it.
func englishSupply(amps float64) string {
	if rating, ok := services.EnglishSupply(amps); ok {
		return fmt.Sprintf("a supply of %.0f A (%.0f A at 230 V after diversity)", rating, amps)
	}
	return fmt.Sprintf("beyond a single-phase supply of 100 A (%.0f A at 230 V after diversity): the network operator says what it gives", amps)
}

// englishHotWater are cylinders by a trade's guide of England.
func (y *supply) englishHotWater() []Service {
	var all []Service
	homes := []services.Household{y.household(0), y.household(1)}
	for u, home := range homes {
		out := Service{Unit: Owner(u).String(), Kind: "hot_water"}
		var ok bool
		if out.Result, ok = services.EnglishCylinder([]services.Household{home}); !ok {
			continue
		}
		out.Answer = fmt.Sprintf("a cylinder of its own of %.0f l", out.Value)
		if there := y.tank(out.Unit); there > 0 {
			out.Answer += "; " + enough(there, out.Value)
		}
		all = append(all, out)
	}
	house, two := services.PracticeTanks()
	shared := Service{Kind: "hot_water", Notes: []string{fmt.Sprintf("a house tank of about %.0f l typically becomes about %.0f l for two suites: common practice, no source", house, two)}}
	var ok bool
	if shared.Result, ok = services.EnglishCylinder(homes); !ok {
		return all
	}
	shared.Answer = fmt.Sprintf("one cylinder for both, where it is shared: %.0f l", shared.Value)
	if there := y.tank(""); there > 0 {
		shared.Answer += "; " + enough(there, shared.Value)
	}
	return append(all, shared)
}
