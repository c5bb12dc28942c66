package services

import (
	"fmt"
	"math"
)

// Fuel heats air or water.
type Fuel string

// The fuels.
const (
	Gas      Fuel = "gas"
	Electric Fuel = "electric"
	Oil      Fuel = "oil"
)

// Tank is a water heater by the published table.
type Tank struct {
	StorageL   float64
	RecoveryLH float64 // litres heated in an hour
	DrawL      float64 // litres drawn hot in the first hour: storage and recovery
	Result
}

const hotWaterCaution = "Sized for usual habits. A big bath or a shower that runs wide open takes more; a licensed plumber sizes and sets the heater, " +
	"its relief valve and its flue."

// TableTank is the least tank of the HUD-FHA table for bedrooms, bathrooms (a
// powder room counts one half) and fuel: the smallest row that covers both.
// Where no row does, ok is false. The row for three bedrooms, one bathroom and
// electricity is left out because two prints of it differ; the next larger serves.
func TableTank(bedrooms int, bathrooms float64, fuel Fuel) (tank Tank, ok bool) {
	var least *hudRow
	for i, row := range figures.HUD.Value {
		covers := row.Fuel == fuel && row.Bedrooms >= bedrooms && row.BathsTo >= bathrooms
		if covers && (least == nil || row.Storage < least.Storage || row.Storage == least.Storage && row.Recovery < least.Recovery) {
			least = &figures.HUD.Value[i]
		}
	}
	if least == nil {
		return Tank{}, false
	}
	source := figures.HUD.Source
	source.Status = least.Status
	tank = Tank{
		StorageL: least.Storage * litresPerGallon, RecoveryLH: least.Recovery * litresPerGallon, DrawL: least.Draw * litresPerGallon,
		Result: Result{Method: "HUD-FHA table of least water heaters", Value: least.Storage * litresPerGallon, Unit: "l", Caution: hotWaterCaution},
	}
	tank.add("storage", fmt.Sprintf("%d bedrooms, %g bathrooms, %s: %g gal", bedrooms, bathrooms, fuel, least.Storage), tank.StorageL, "l")
	tank.add("recovery in an hour", fmt.Sprintf("%g gal", least.Recovery), tank.RecoveryLH, "l")
	tank.add("draw in the first hour", fmt.Sprintf("%g gal", least.Draw), tank.DrawL, "l")
	tank.rest(source)
	return tank, true
}

// Use is one kind of use of hot water in the busiest hour.
type Use struct {
	What  string // a key of the worksheet: "shower", "shave", "dishes_by_hand" ...
	Times float64
}

// Worksheet is an edition of the first-hour worksheet.
type Worksheet int

// The editions.
const (
	CurrentWorksheet Worksheet = iota
	OlderWorksheet
)

// FirstHour is the first-hour rating that uses of the busiest hour ask for, in
// litres, by the US Department of Energy's worksheet. A use that the worksheet
// does not list is an error.
func FirstHour(uses []Use, by Worksheet) (Result, error) {
	sheet := figures.FirstHour
	if by == OlderWorksheet {
		sheet = figures.FirstHourOlder
	}
	all := Result{Method: "first-hour rating by worksheet", Unit: "l", Caution: hotWaterCaution}
	for _, use := range uses {
		gallons, known := sheet.Value[use.What]
		if !known || !notNegative(use.Times) {
			return Result{}, fmt.Errorf("services: first hour: %g times %q is not in the worksheet", use.Times, use.What)
		}
		all.Value += all.add(use.What, fmt.Sprintf("%g x %g gal", use.Times, gallons), use.Times*gallons*litresPerGallon, "l")
	}
	all.rest(sheet.Source)
	return all, nil
}

// BusiestHour are the uses that a dwelling is taken to have in its busiest hour:
// a shower for each bedroom, a shave, and dishes by hand. Common practice, no source.
func BusiestHour(bedrooms int) []Use {
	return []Use{{"shower", float64(max(bedrooms, 1))}, {"shave", 1}, {"dishes_by_hand", 1}}
}

// Household is what hot water is sized by.
type Household struct {
	Bedrooms  int
	Bathrooms float64 // a powder room counts one half
}

// SharedTank is the tank in litres, in a size that is sold, that serves all
// households together: the larger of the table's for all their bedrooms and
// bathrooms and of what their busiest hours at once ask for, with the table's
// recovery. Where the table ends or the largest tank is not enough, ok is false.
func SharedTank(households []Household, fuel Fuel) (tank Tank, ok bool) {
	bedrooms, bathrooms := 0, 0.0
	var uses []Use
	for _, h := range households {
		bedrooms += h.Bedrooms
		bathrooms += h.Bathrooms
		uses = append(uses, BusiestHour(h.Bedrooms)...)
	}
	tank, ok = TableTank(bedrooms, bathrooms, fuel)
	if !ok {
		return Tank{}, false
	}
	asked, err := FirstHour(uses, CurrentWorksheet)
	if err != nil {
		return Tank{}, false
	}
	tank.Method = "the larger of the HUD-FHA table and the first-hour rating"
	byHour := max(asked.Value-tank.RecoveryLH, 0) / figures.TankDraw.Value
	tank.add("first-hour rating asked for", fmt.Sprintf("%d households, %d bedrooms", len(households), bedrooms), asked.Value, "l")
	tank.add("storage for it", fmt.Sprintf("(%.0f - %.0f) / %.1f", asked.Value, tank.RecoveryLH, figures.TankDraw.Value), byHour, "l")
	tank.rest(asked.Sources...)
	tank.rest(figures.TankDraw.Source, figures.TankSizes.Source)
	sold, ok := soldTank(max(tank.StorageL, byHour))
	if !ok {
		return Tank{}, false
	}
	tank.StorageL, tank.Value = sold, sold
	tank.DrawL = sold*figures.TankDraw.Value + tank.RecoveryLH
	tank.add("the next size that is sold", "", sold, "l")
	return tank, true
}

// soldTank is the least size sold that holds the litres.
func soldTank(litres float64) (float64, bool) {
	// nearL forgives the rounding of a conversion from gallons.
	const nearL = 0.01
	for _, gallons := range figures.TankSizes.Value {
		if size := gallons * litresPerGallon; size >= litres-nearL {
			return math.Round(size*10) / 10, true
		}
	}
	return 0, false
}

// PracticeTanks are the litres of the tank that a house usually has and of the
// one that usually replaces it for two suites: common practice, no source.
func PracticeTanks() (houseL, twoSuitesL float64) {
	return figures.PracticeTank.Value.House, figures.PracticeTank.Value.TwoSuites
}
