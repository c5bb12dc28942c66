package plan

import "moiety/plan/services"

// ServicesBrief is what the survey cannot tell of heat, water and power. The
// zero value says nothing, and what then holds stands beside each field.
type ServicesBrief struct {
	Built    int              // year the house was built; 0: 1960
	U        services.UValues // W/m2K and air changes an hour; a 0 is that of the year built
	InsideC  *float64         // nil: 21
	OutsideC *float64         // the place's design temperature; nil: -18
	Heat     services.Fuel    // "": electric where the brief's fuel is none, oil where it is oil, else gas
	HotWater services.Fuel    // "": as heat
	TankL    float64          // the tank that is there, where the survey gives none; 0 not said
	ServiceA float64          // the electrical service that is there, in amperes; 0 not said
}

// What is taken where the brief does not say.
const (
	usualBuilt    = 1960
	usualInsideC  = 21.0  // about 70 degF, common practice, no source
	usualOutsideC = -18.0 // about 0 degF; every place has its own, common practice, no source
)

// Limits of the numbers of services: wide enough for any house, to find slips.
var (
	yearLimits    = limits{min: 1000, max: 2200, whole: true}
	uLimits       = limits{min: 0, above: true, max: 10}
	achLimits     = limits{min: 0, above: true, max: 20}
	insideLimits  = limits{min: 10, max: 30}
	outsideLimits = limits{min: -60, max: 15}
	tankLimits    = limits{min: 0, above: true, max: 5000}
	ampereLimits  = limits{min: 0, above: true, max: 1000}
)

// readServices reads the key services.
func (b *Brief) readServices(f fields) {
	s, ok := f.object(f.get("services"), "services", "built", "u_values", "air_changes", "inside", "outside", "heat", "hot_water", "tank_l", "service_a")
	if !ok {
		return
	}
	given := &b.Services
	if year, ok := s.number("built", yearLimits); ok {
		given.Built = int(year)
	}
	setNumber(s, "air_changes", achLimits, &given.U.ACH)
	if u, ok := s.object(s.get("u_values"), "u_values", "wall", "window", "door", "roof", "floor", "ground", "below_grade"); ok {
		setNumber(u, "wall", uLimits, &given.U.Wall)
		setNumber(u, "window", uLimits, &given.U.Window)
		setNumber(u, "door", uLimits, &given.U.Door)
		setNumber(u, "roof", uLimits, &given.U.Roof)
		setNumber(u, "floor", uLimits, &given.U.Floor)
		setNumber(u, "ground", uLimits, &given.U.Ground)
		setNumber(u, "below_grade", uLimits, &given.U.BelowGrade)
	}
	if c, ok := s.number("inside", insideLimits); ok {
		given.InsideC = &c
	}
	if c, ok := s.number("outside", outsideLimits); ok {
		given.OutsideC = &c
	}
	fuels := []string{string(services.Gas), string(services.Electric), string(services.Oil)}
	given.Heat = services.Fuel(s.word("heat", fuels))
	given.HotWater = services.Fuel(s.word("hot_water", fuels))
	setNumber(s, "tank_l", tankLimits, &given.TankL)
	setNumber(s, "service_a", ampereLimits, &given.ServiceA)
}

// completed is the brief's word on services with what is taken where it is silent.
func (b *Brief) completed() ServicesBrief {
	s := b.Services
	if s.Built == 0 {
		s.Built = usualBuilt
	}
	usual := services.Built(s.Built)
	for _, u := range []struct {
		given *float64
		usual float64
	}{
		{&s.U.Wall, usual.Wall}, {&s.U.Window, usual.Window}, {&s.U.Door, usual.Door}, {&s.U.Roof, usual.Roof},
		{&s.U.Floor, usual.Floor}, {&s.U.Ground, usual.Ground}, {&s.U.BelowGrade, usual.BelowGrade}, {&s.U.ACH, usual.ACH},
	} {
		if *u.given == 0 {
			*u.given = u.usual
		}
	}
	inside, outside := usualInsideC, usualOutsideC
	if s.InsideC == nil {
		s.InsideC = &inside
	}
	if s.OutsideC == nil {
		s.OutsideC = &outside
	}
	if s.Heat == "" {
		switch b.Conditions.Fuel {
		case NoFuel:
			s.Heat = services.Electric
		case Oil:
			s.Heat = services.Oil
		default:
			s.Heat = services.Gas
		}
	}
	if s.HotWater == "" {
		s.HotWater = s.Heat
	}
	return s
}
