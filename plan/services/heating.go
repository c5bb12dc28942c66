package services

import (
	"errors"
	"fmt"
	"math"
)

// Element is a piece of the envelope that heat passes through.
type Element struct {
	Name   string
	AreaM2 float64
	U      float64 // W/m2K
	InC    float64 // on the warm side
	OutC   float64 // on the other
}

// LossW is U A dT: negative where the other side is warmer.
func (e Element) LossW() float64 { return e.U * e.AreaM2 * (e.InC - e.OutC) }

// Air is the air that is changed with outdoors.
type Air struct {
	VolumeM3 float64
	ACH      float64 // changes per hour
	InC      float64
	OutC     float64
}

// LossW is 0.33 ACH V dT.
func (a Air) LossW() float64 {
	return figures.AirHeat.Value * a.ACH * a.VolumeM3 * (a.InC - a.OutC)
}

const heatingCaution = "A load by typical U-values is for a first price. Before equipment is ordered a licensed trade works out the load " +
	"room by room from what the walls really are; gas and its flue need a permit and a licensed fitter."

// HeatLoad adds up the losses of elements and air in W. All faults of the
// inputs are reported together.
func HeatLoad(elements []Element, air Air) (Result, error) {
	load := Result{Method: "heating load by element, U A dT and 0.33 ACH V dT", Unit: "W", Caution: heatingCaution}
	var errs []error
	for _, e := range elements {
		if !notNegative(e.AreaM2) || !notNegative(e.U) || !finite(e.InC-e.OutC) {
			errs = append(errs, fmt.Errorf("services: %s: area %g m2, U %g W/m2K, %g to %g degC", e.Name, e.AreaM2, e.U, e.InC, e.OutC))
			continue
		}
		from := fmt.Sprintf("%.2f W/m2K x %.1f m2 x %.1f K", e.U, e.AreaM2, e.InC-e.OutC)
		load.Value += load.add(e.Name, from, e.LossW(), "W")
	}
	if !notNegative(air.VolumeM3) || !notNegative(air.ACH) || !finite(air.InC-air.OutC) {
		errs = append(errs, fmt.Errorf("services: air: %g m3 changed %g times an hour, %g to %g degC", air.VolumeM3, air.ACH, air.InC, air.OutC))
	}
	if len(errs) > 0 {
		return Result{}, errors.Join(errs...)
	}
	from := fmt.Sprintf("%.2f x %.2f /h x %.1f m3 x %.1f K", figures.AirHeat.Value, air.ACH, air.VolumeM3, air.InC-air.OutC)
	load.Value += load.add("air", from, air.LossW(), "W")
	load.rest(figures.Eras.Source, figures.Shares.Source, figures.AirHeat.Source)
	return load, nil
}

// Built are typical U-values and air changes of a house built in a year.
func Built(year int) UValues {
	for _, era := range figures.Eras.Value {
		if year <= era.Until {
			return era.UValues
		}
	}
	return figures.Eras.Value[len(figures.Eras.Value)-1].UValues
}

// Against is the temperature on the other side of what lies against the earth
// or an unheated space, in degC: a share of the way from outdoors to indoors.
func Against(other Side, inC, outC float64) float64 {
	switch other {
	case Earth:
		return inC - figures.Shares.Value.Ground*(inC-outC)
	case Unheated:
		return inC - figures.Shares.Value.Unheated*(inC-outC)
	case Heated:
		return inC
	}
	return outC
}

// Side is what lies on the other side of an element.
type Side int

// The sides.
const (
	Outdoors Side = iota
	Earth
	Unheated
	Heated // another unit: no loss, as long as it is heated too
)

// furnaceStepW is the step of furnace outputs, in W: common practice, no source.
const furnaceStepW = 500

// Furnace is the range of outputs in W for a load: no less than the load, and
// no more than what lets it run steadily, both to half a kilowatt.
func Furnace(loadW float64) (leastW, mostW float64) {
	leastW = math.Ceil(max(loadW, 0)/furnaceStepW) * furnaceStepW
	mostW = max(leastW, math.Floor(max(loadW, 0)*figures.Oversize.Value.Most/furnaceStepW)*furnaceStepW)
	return leastW, mostW
}

func notNegative(x float64) bool { return x >= 0 && !math.IsInf(x, 1) }

func finite(x float64) bool { return !math.IsNaN(x) && !math.IsInf(x, 0) }
