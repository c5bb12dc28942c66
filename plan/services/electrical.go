package services

import (
	"fmt"
	"math"
)

// Dwelling is what a dwelling's electrical load is worked out from, in VA, or
// in W where the method is Canadian. What is not there is 0.
type Dwelling struct {
	AreaM2 float64
	// BasementM2 of the area lies below grade: the Canadian method counts three quarters of it.
	BasementM2 float64
	// Ranges are household ranges, ovens or cooktops by nameplate.
	Ranges []float64
	Dryer  float64
	// Fixed are appliances fastened in place, by nameplate: water heater, dishwasher, disposal.
	Fixed []float64
	// StoredWater is the part of Fixed that heats a tank of water.
	StoredWater float64
	// Heat is electric space heating with its blower; HeatUnits are those separately controlled.
	Heat      float64
	HeatUnits int
	// HeatPump runs with Heat as its supplement.
	HeatPump float64
	Cool     float64
	// Charger is equipment that charges a vehicle.
	Charger float64
}

const electricalCaution = "A calculation for a first idea of the service. A licensed electrician and the utility decide; " +
	"two units need two panels, each within its own unit's reach, and a permit."

// voltage between the lines of a house's service in North America, V.
const voltage = 240

// Service is the least standard size in A of a service or feeder that carries
// the load in VA at 240 V, and no less than 100 A, which the code asks of a
// one-family dwelling; beyond the sizes here ok is false.
func Service(va float64) (amps float64, ok bool) {
	return Panel(max(Amps(va), figures.NEC.LeastService.Value))
}

// Panel is the least standard size in A that carries a current; beyond the sizes
// here ok is false. The Canadian code has its least in the load, by area.
func Panel(asked float64) (amps float64, ok bool) {
	for _, size := range figures.NEC.ServiceSizes.Value {
		if size >= asked {
			return size, true
		}
	}
	return 0, false
}

// Amps is the current in A of a load in VA at 240 V, to the nearest ampere.
func Amps(va float64) float64 { return math.Floor(va/voltage + 0.5) }

// general is the general lighting, small-appliance and laundry load, without demand.
func (d Dwelling) general() (va float64, from string) {
	by := figures.NEC.General.Value
	ft2 := d.AreaM2 / m2PerFt2
	return by.LightingVAFt2*ft2 + by.SmallVA*by.SmallCircuits + by.LaundryVA,
		fmt.Sprintf("%g VA x %.0f ft2 + %g x %g VA + %g VA", by.LightingVAFt2, ft2, by.SmallCircuits, by.SmallVA, by.LaundryVA)
}

// lightingCircuitA is the usual lighting circuit, in A at half the voltage.
const lightingCircuitA = 15

// LightingCircuits is how many circuits of 15 A the general lighting of an area
// in m2 takes at least by the NEC: Annex D, example D1(a), counts so.
func LightingCircuits(areaM2 float64) int {
	va := figures.NEC.General.Value.LightingVAFt2 * areaM2 / m2PerFt2
	return int(math.Ceil(va/(lightingCircuitA*voltage/2) - 1e-9))
}

// hvac is the larger of heating and cooling, each in full: they do not run together.
func (d Dwelling) hvac() float64 { return max(d.HeatPump+d.Heat, d.HeatPump, d.Cool) }

func sum(of []float64) float64 {
	total := 0.0
	for _, va := range of {
		total += va
	}
	return total
}

// StandardLoad is the load in VA of dwellings on one service by the NEC's
// standard method. It covers ranges of at most 12 kW, one in each of one or two
// dwellings; several cooking appliances of one dwelling count in full.
func StandardLoad(dwellings ...Dwelling) Result {
	nec := figures.NEC
	load := Result{Method: "NEC standard calculation, part III", Unit: "VA", Caution: electricalCaution}
	lighting, ranges, cooking, dryers, hvac := 0.0, 0, 0.0, 0.0, 0.0
	var fixed []float64
	for _, d := range dwellings {
		va, _ := d.general()
		lighting += va
		if len(d.Ranges) == 1 {
			ranges++
		} else {
			cooking += sum(d.Ranges)
		}
		if d.Dryer > 0 {
			dryers += max(d.Dryer, nec.DryerLeast.Value)
		}
		fixed = append(fixed, d.Fixed...)
		hvac += d.hvac()
	}
	load.Value += load.add("lighting, small appliances and laundry", fmt.Sprintf("%.0f VA, the first %.0f in full and %.0f %% of the rest",
		lighting, nec.LightingDemand.Value.FirstVA, 100*nec.LightingDemand.Value.Rest), nec.LightingDemand.Value.of(lighting), "VA")
	load.rest(nec.General.Source, nec.LightingDemand.Source)
	switch ranges {
	case 0:
	case 1:
		load.Value += load.add("range", "column C", nec.RangeOne.Value, "VA")
		load.rest(nec.RangeOne.Source)
	default:
		load.Value += load.add("ranges", fmt.Sprintf("column C, %d", ranges), nec.RangeTwo.Value*math.Ceil(float64(ranges)/2), "VA")
		load.rest(nec.RangeTwo.Source)
	}
	if cooking > 0 {
		load.Value += load.add("cooking appliances", "in full", cooking, "VA")
	}
	if dryers > 0 {
		load.Value += load.add("dryers", "", dryers, "VA")
		load.rest(nec.DryerLeast.Source)
	}
	if len(fixed) > 0 {
		share, from := 1.0, "in full"
		if len(fixed) >= 4 {
			share, from = nec.FourFixed.Value, fmt.Sprintf("%d of them, %.0f %%", len(fixed), 100*nec.FourFixed.Value)
			load.rest(nec.FourFixed.Source)
		}
		load.Value += load.add("fixed appliances", from, share*sum(fixed), "VA")
	}
	if hvac > 0 {
		load.Value += load.add("heating or cooling", "the larger of each dwelling", hvac, "VA")
	}
	for _, d := range dwellings {
		if d.Charger > 0 {
			load.Value += load.add("vehicle charger", "in full", d.Charger, "VA")
		}
	}
	return load
}

// StandardNeutral is the load in VA of one dwelling's neutral by the standard
// method: heating and whatever runs between the lines alone put none on it.
// Fixed are only the appliances between a line and the neutral.
func StandardNeutral(d Dwelling) float64 {
	nec := figures.NEC
	va, _ := d.general()
	neutral := nec.LightingDemand.Value.of(va) + sum(d.Fixed)
	if len(d.Ranges) == 1 {
		neutral += nec.NeutralShare.Value * nec.RangeOne.Value
	} else {
		neutral += nec.NeutralShare.Value * sum(d.Ranges)
	}
	if d.Dryer > 0 {
		neutral += nec.NeutralShare.Value * max(d.Dryer, nec.DryerLeast.Value)
	}
	return neutral
}

// OptionalLoad is the load in VA of one dwelling by the NEC's optional method,
// which is for services of 100 A and more.
func OptionalLoad(d Dwelling) Result {
	nec := figures.NEC
	load := Result{Method: "NEC optional calculation for a dwelling, 220.82", Unit: "VA", Caution: electricalCaution}
	general := load.general(d)
	by := nec.Optional.Value
	load.Value += load.add("demand", fmt.Sprintf("the first %.0f VA in full and %.0f %% of the rest", by.FirstVA, 100*by.Rest), by.of(general), "VA")
	share := nec.OptionalHeat.Value.Fewer
	switch {
	case d.HeatPump > 0:
		share = nec.OptionalHeat.Value.Supplementary
	case d.HeatUnits >= 4:
		share = nec.OptionalHeat.Value.FourOrMore
	}
	if hvac := max(d.Cool, d.HeatPump+share*d.Heat); hvac > 0 {
		load.Value += load.add("heating or cooling", fmt.Sprintf("the larger of %.0f VA and %.0f + %.0f %% of %.0f VA", d.Cool, d.HeatPump, 100*share, d.Heat), hvac, "VA")
		load.rest(nec.OptionalHeat.Source)
	}
	load.rest(nec.General.Source, nec.Optional.Source)
	return load
}

// ExistingLoad is the load in VA of an existing dwelling that gets new loads,
// by the NEC's method for such. With new heating or cooling, which Heat and Cool
// then are, it counts in full; otherwise it goes with the rest.
func ExistingLoad(d Dwelling, newHVAC bool) Result {
	by := figures.NEC.Existing
	load := Result{Method: "NEC optional calculation for an existing dwelling, 220.83", Unit: "VA", Caution: electricalCaution}
	all := load.general(d)
	if !newHVAC && d.hvac() > 0 {
		all += load.add("heating or cooling, existing", "", d.hvac(), "VA")
	}
	load.Value += load.add("demand", fmt.Sprintf("the first %.0f VA in full and %.0f %% of the rest", by.Value.FirstVA, 100*by.Value.Rest), by.Value.of(all), "VA")
	if newHVAC && d.hvac() > 0 {
		load.Value += load.add("heating or cooling, new", "in full", d.hvac(), "VA")
	}
	load.rest(figures.NEC.General.Source, by.Source)
	return load
}

// general adds the steps of all that the optional methods put together, by
// nameplate, and returns it.
func (r *Result) general(d Dwelling) float64 {
	va, from := d.general()
	all := r.add("lighting, small appliances and laundry", from, va, "VA")
	for _, of := range []struct {
		what string
		va   float64
	}{
		{"cooking", sum(d.Ranges)}, {"dryer", d.Dryer}, {"fixed appliances", sum(d.Fixed)}, {"vehicle charger", d.Charger},
	} {
		if of.va > 0 {
			all += r.add(of.what, "by nameplate", of.va, "VA")
		}
	}
	return all
}

// TwoDwellings is the load in VA of two dwellings on one service: the lesser of
// the standard method for both and of three identical dwellings, each like the
// larger of the two, by the optional method for three.
func TwoDwellings(a, b Dwelling) Result {
	standard := StandardLoad(a, b)
	three := ThreeDwellings(a)
	if other := ThreeDwellings(b); other.Value > three.Value {
		three = other
	}
	least := standard
	if three.Value < standard.Value {
		least = three
	}
	both := Result{Method: "NEC 220.85, two dwellings: the lesser of the standard method for two and the optional one for three", Unit: "VA", Value: least.Value, Caution: electricalCaution}
	both.add("standard method, both", "", standard.Value, "VA")
	both.add("optional method, three like the larger", "", three.Value, "VA")
	both.rest(standard.Sources...)
	both.rest(three.Sources...)
	return both
}

// ThreeDwellings is the load in VA of three dwellings like d by the NEC's
// optional method for several dwellings.
func ThreeDwellings(d Dwelling) Result {
	share := figures.NEC.ThreeUnits
	load := Result{Method: "NEC optional calculation, three dwellings", Unit: "VA", Caution: electricalCaution}
	connected := 3 * (load.general(d) + d.hvac())
	load.Value = load.add("demand", fmt.Sprintf("%.0f %% of %.0f VA", 100*share.Value, connected), share.Value*connected, "VA")
	load.rest(figures.NEC.General.Source, share.Source)
	return load
}

// Lines are the currents in A of a service's two lines and its neutral.
type Lines struct{ A, Neutral, B float64 }

// Add is the currents with another load's.
func (l Lines) Add(other Lines) Lines {
	return Lines{A: l.A + other.A, Neutral: l.Neutral + other.Neutral, B: l.B + other.B}
}

// Taken is the load of appliances that a unit is taken to have where nothing
// says otherwise: a range, a dryer, a dishwasher, a water heater that is electric
// where hot water is, and a blower where heat is not electric.
func Taken(areaM2, basementM2, heatW float64, heat, hotWater Fuel) Dwelling {
	by := figures.Appliances.Value
	d := Dwelling{AreaM2: areaM2, BasementM2: basementM2, Ranges: []float64{by.Range}, Dryer: by.Dryer, Fixed: []float64{by.Dishwasher}}
	if hotWater == Electric {
		d.Fixed, d.StoredWater = append(d.Fixed, by.WaterHeater), by.WaterHeater
	}
	d.Heat, d.HeatUnits = by.Blower, 1
	if heat == Electric {
		d.Heat = heatW
	}
	return d
}
