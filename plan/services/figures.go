package services

import (
	_ "embed"

	"moiety/plan/published"
)

//go:embed data/figures.json
var figuresFile []byte

// Conversions from the units of the published tables.
const (
	litresPerGallon  = 3.785411784
	m2PerFt2         = 0.09290304
	litresPerSPerCFM = 0.4719474432
)

// steps is a demand: so much in full, the rest in part.
type steps struct {
	FirstVA float64 `json:"first_va"`
	FirstW  float64 `json:"first_w"`
	Rest    float64 `json:"rest"`
}

// of is the demand of a load in VA or W.
func (s steps) of(load float64) float64 {
	first := s.FirstVA + s.FirstW
	return min(load, first) + s.Rest*max(load-first, 0)
}

type hudRow struct {
	BathsTo  float64          `json:"baths_to"`
	Bedrooms int              `json:"bedrooms"`
	Fuel     Fuel             `json:"fuel"`
	Storage  float64          `json:"storage_gal"`
	Input    float64          `json:"input"`
	Draw     float64          `json:"draw_gal"`
	Recovery float64          `json:"recovery_gph"`
	Status   published.Status `json:"status"`
}

// UValues are thermal transmittances in W/m2K of a house's elements and the
// changes of its air per hour.
type UValues struct {
	Wall       float64 `json:"wall"`
	Window     float64 `json:"window"`
	Door       float64 `json:"door"`
	Roof       float64 `json:"roof"`
	Floor      float64 `json:"floor"`       // a floor over the open or over an unheated space
	Ground     float64 `json:"ground"`      // a floor on the earth
	BelowGrade float64 `json:"below_grade"` // a wall against the earth
	ACH        float64 `json:"ach"`
}

type era struct {
	Until int `json:"until"`
	UValues
}

type pipe struct {
	Inches float64 `json:"in"`
	To     float64 `json:"to"`
}

var figures = published.MustDecode[struct {
	HUD            published.Figure[[]hudRow]           `json:"hud"`
	FirstHour      published.Figure[map[string]float64] `json:"first_hour"`
	FirstHourOlder published.Figure[map[string]float64] `json:"first_hour_older"`
	TankDraw       published.Figure[float64]            `json:"tank_draw"`
	TankSizes      published.Figure[[]float64]          `json:"tank_sizes_gal"`
	PracticeTank   published.Figure[struct {
		House     float64 `json:"house_l"`
		TwoSuites float64 `json:"two_suites_l"`
	}] `json:"practice_tank"`
	AirHeat published.Figure[float64] `json:"air_heat"`
	Eras    published.Figure[[]era]   `json:"eras"`
	Shares  published.Figure[struct {
		Ground   float64 `json:"ground"`
		Unheated float64 `json:"unheated"`
	}] `json:"shares"`
	Oversize published.Figure[struct {
		Most float64 `json:"most"`
	}] `json:"oversize"`
	NEC struct {
		General published.Figure[struct {
			LightingVAFt2 float64 `json:"lighting_va_ft2"`
			SmallVA       float64 `json:"small_appliance_va"`
			SmallCircuits float64 `json:"small_appliance_circuits"`
			LaundryVA     float64 `json:"laundry_va"`
		}] `json:"general"`
		LightingDemand published.Figure[steps]   `json:"lighting_demand"`
		RangeOne       published.Figure[float64] `json:"range_one_va"`
		RangeTwo       published.Figure[float64] `json:"range_two_va"`
		DryerLeast     published.Figure[float64] `json:"dryer_least_va"`
		FourFixed      published.Figure[float64] `json:"four_fixed"`
		NeutralShare   published.Figure[float64] `json:"neutral_cooking_dryer"`
		Optional       published.Figure[steps]   `json:"optional"`
		OptionalHeat   published.Figure[struct {
			FourOrMore    float64 `json:"four_or_more"`
			Fewer         float64 `json:"fewer"`
			Supplementary float64 `json:"supplementary"`
		}] `json:"optional_heat"`
		Existing     published.Figure[steps]     `json:"existing"`
		ThreeUnits   published.Figure[float64]   `json:"three_units"`
		LeastService published.Figure[float64]   `json:"least_service_a"`
		ServiceSizes published.Figure[[]float64] `json:"service_sizes_a"`
	} `json:"nec"`
	CEC struct {
		Basic published.Figure[struct {
			FirstM2  float64 `json:"first_m2"`
			FirstW   float64 `json:"first_w"`
			EachM2   float64 `json:"each_m2"`
			EachW    float64 `json:"each_w"`
			Basement float64 `json:"basement"`
		}] `json:"basic"`
		Heat  published.Figure[steps] `json:"heat"`
		Range published.Figure[struct {
			To   float64 `json:"to_w"`
			W    float64 `json:"w"`
			Rest float64 `json:"rest"`
		}] `json:"range"`
		Other published.Figure[struct {
			From      float64 `json:"from_w"`
			WithRange float64 `json:"with_range"`
			Free      float64 `json:"free_w"`
		}] `json:"other"`
		Least published.Figure[struct {
			FromM2 float64 `json:"from_m2"`
			W      float64 `json:"w"`
			Below  float64 `json:"below_w"`
		}] `json:"least"`
		Demand published.Figure[[]float64] `json:"demand"`
	} `json:"cec"`
	Appliances published.Figure[struct {
		Range       float64 `json:"range_va"`
		Dryer       float64 `json:"dryer_va"`
		Dishwasher  float64 `json:"dishwasher_va"`
		WaterHeater float64 `json:"water_heater_va"`
		Blower      float64 `json:"blower_va"`
	}] `json:"appliances"`
	ASHRAE622 published.Figure[struct {
		CFMFt2    float64 `json:"cfm_ft2"`
		CFMPerson float64 `json:"cfm_person"`
	}] `json:"ashrae622"`
	NBCVentilation published.Figure[[][2]float64]       `json:"nbc_ventilation"`
	IRC            published.Figure[map[string]float64] `json:"irc_dfu"`
	NPC            published.Figure[map[string]float64] `json:"npc_fu"`
	Branches       published.Figure[[]pipe]             `json:"branches"`
	BuildingDrain  published.Figure[[]pipe]             `json:"building_drain"`
	England        struct {
		Diversity published.Figure[struct {
			Lighting      float64 `json:"lighting"`
			SocketsOthers float64 `json:"sockets_others"`
			CookerFirstA  float64 `json:"cooker_first_a"`
			CookerRest    float64 `json:"cooker_rest"`
			HeatFirstA    float64 `json:"heat_first_a"`
			HeatRest      float64 `json:"heat_rest"`
		}] `json:"diversity"`
		Circuits published.Figure[struct {
			SocketsA  float64 `json:"sockets_a"`
			LightingA float64 `json:"lighting_a"`
			EachM2    float64 `json:"each_m2"`
		}] `json:"circuits"`
		CutOuts     published.Figure[[]float64] `json:"cut_outs_a"`
		Ventilation published.Figure[struct {
			ByBedrooms []float64 `json:"by_bedrooms"`
			EachMore   float64   `json:"each_more"`
			PerM2      float64   `json:"per_m2"`
		}] `json:"ventilation"`
		Cylinders      published.Figure[[]float64]          `json:"cylinders_l"`
		DischargeUnits published.Figure[map[string]float64] `json:"discharge_units"`
	} `json:"england"`
}](figuresFile)
