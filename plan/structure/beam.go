package structure

import (
	"errors"
	"fmt"
	"math"

	"moiety/plan/published"
)

// Carried is one thing that a beam carries along its whole length.
type Carried struct {
	// What it is: "floor of bed-1".
	What string
	// WidthM is the tributary width of a floor, ceiling or roof, or the height of a wall, in metres.
	WidthM float64
	// DeadKPa and LiveKPa are per square metre of it.
	DeadKPa, LiveKPa float64
	Sources          []published.Source
}

// Opening is what a beam has to do.
type Opening struct {
	// ClearM is the clear span in metres, between the faces of the posts.
	ClearM float64
	// Carries is all that comes down on it, uniformly.
	Carries []Carried
	// Kind is lumber or LVL.
	Kind Kind
	// MaxDepthMM is the most depth that the headroom leaves; 0: any.
	MaxDepthMM float64
}

// Check is one condition of a beam: what is asked and what it can.
type Check struct {
	Name             string
	Method           string // the formula with its numbers
	Demand, Capacity float64
	Unit             string
	Source           published.Source
}

// OK tells whether the beam can do what is asked.
func (c Check) OK() bool { return c.Demand <= c.Capacity }

// Beam is a preliminary beam.
type Beam struct {
	Section
	Opening Opening
	// SpanM is the design span: the clear span and the least bearing.
	SpanM float64
	// DeadKNPerM includes the beam's own weight.
	DeadKNPerM, LiveKNPerM float64
	// Checks are moment, shear, live and total deflection, in that order.
	Checks []Check
	// ReactionKN is at each end.
	ReactionKN float64
	// BearingMM is the length on each post, and PostStuds the studs side by side that give it.
	BearingMM float64
	PostStuds int
	Bearing   Check
	Caution   string
}

// ErrNoBeam is what Size wraps where no section it knows is enough.
var ErrNoBeam = errors.New("structure: no section here is enough")

// Size finds the section of the least area, and among equals of the least
// depth, that passes every check. All faults of an opening are reported
// together. Where no section is enough, the error wraps ErrNoBeam.
func Size(o Opening) (Beam, error) {
	if err := o.check(); err != nil {
		return Beam{}, err
	}
	for _, section := range Sections(o.Kind) {
		if o.MaxDepthMM > 0 && section.DepthMM > o.MaxDepthMM {
			continue
		}
		if beam := Try(o, section); beam.OK() {
			return beam, nil
		}
	}
	return Beam{}, fmt.Errorf("%w for a clear span of %.2f m under %s of %s: ask an engineer for steel or a post between",
		ErrNoBeam, o.ClearM, o.describeLoad(), o.Kind)
}

// Try is what a section would do in an opening, whether or not it is enough.
func Try(o Opening, section Section) Beam {
	limits := figures.Limits
	bearing := limits.LeastBearing.Value
	beam := Beam{Section: section, Opening: o, SpanM: o.ClearM + bearing/1e3, Caution: Caution, DeadKNPerM: section.SelfWeightKNPerM()}
	for _, carried := range o.Carries {
		beam.DeadKNPerM += carried.WidthM * carried.DeadKPa
		beam.LiveKNPerM += carried.WidthM * carried.LiveKPa
	}
	w, span, ei := beam.DeadKNPerM+beam.LiveKNPerM, beam.SpanM, section.StiffnessKNm2()
	da6 := published.Source{Standard: "AWC DA-6", Clause: "figure 1", Status: published.Memory}
	beam.ReactionKN = UniformShear(w, span)
	ratio := func(name string, load float64, of published.Figure[float64]) Check {
		return Check{
			Name:   name,
			Method: fmt.Sprintf("5 w L^4 / (384 E I), w = %.2f kN/m, L = %.2f m, E I = %.0f kNm2; at most L/%.0f", load, span, ei, of.Value),
			Demand: UniformDeflectionMM(load, span, ei), Capacity: span * 1e3 / of.Value, Unit: "mm", Source: of.Source,
		}
	}
	beam.Checks = []Check{
		{
			Name:   "moment",
			Method: fmt.Sprintf("w L^2 / 8, w = %.2f kN/m, L = %.2f m; at most Fb b d^2 / 6, Fb = %.1f MPa", w, span, section.BendingMPa),
			Demand: UniformMoment(w, span), Capacity: section.MomentKNm(), Unit: "kNm", Source: section.Sources[0],
		}, {
			Name:   "shear",
			Method: fmt.Sprintf("w L / 2, w = %.2f kN/m, L = %.2f m; at most %.2f MPa on b d", w, span, section.ShearOnAreaMPa),
			Demand: UniformShear(w, span), Capacity: section.ShearKN(), Unit: "kN", Source: section.Sources[1],
		},
		ratio("deflection under live load", beam.LiveKNPerM, limits.LiveDeflection),
		ratio("deflection under all load", w, limits.TotalDeflection),
	}
	for i := range beam.Checks {
		beam.Checks[i].Method += " (" + da6.String() + ")"
	}
	beam.BearingMM = max(bearing, math.Ceil(beam.ReactionKN*1e3/(section.WidthMM*section.CrushingMPa)))
	beam.PostStuds = int(math.Ceil(beam.BearingMM / limits.Stud.Value))
	beam.Bearing = Check{
		Name:   "bearing",
		Method: fmt.Sprintf("R / (b Fc), R = %.1f kN, b = %.0f mm, Fc = %.2f MPa; never less than %.0f mm", beam.ReactionKN, section.WidthMM, section.CrushingMPa, bearing),
		Demand: beam.BearingMM, Capacity: float64(beam.PostStuds) * limits.Stud.Value, Unit: "mm", Source: section.Sources[3],
	}
	return beam
}

// OK tells whether the beam passes every check.
func (b Beam) OK() bool {
	for _, check := range b.Checks {
		if !check.OK() {
			return false
		}
	}
	return true
}

func (o Opening) describeLoad() string {
	load := 0.0
	for _, carried := range o.Carries {
		load += carried.WidthM * (carried.DeadKPa + carried.LiveKPa)
	}
	return fmt.Sprintf("%.1f kN/m", load)
}

// check reports all faults of an opening together.
func (o Opening) check() error {
	var errs []error
	positive := func(x float64) bool { return x > 0 && !math.IsInf(x, 1) }
	notNegative := func(x float64) bool { return x >= 0 && !math.IsInf(x, 1) }
	if !positive(o.ClearM) {
		errs = append(errs, fmt.Errorf("structure: a clear span of %g m", o.ClearM))
	}
	if len(Sections(o.Kind)) == 0 {
		errs = append(errs, fmt.Errorf("structure: no kind of beam %q: %q or %q", o.Kind, Sawn, LVL))
	}
	if !notNegative(o.MaxDepthMM) {
		errs = append(errs, fmt.Errorf("structure: a depth of at most %g mm", o.MaxDepthMM))
	}
	if len(o.Carries) == 0 {
		errs = append(errs, errors.New("structure: the beam carries nothing: say what bears on it"))
	}
	for _, carried := range o.Carries {
		if !notNegative(carried.WidthM) || !notNegative(carried.DeadKPa) || !notNegative(carried.LiveKPa) {
			errs = append(errs, fmt.Errorf("structure: %s: width %g m, dead %g kPa, live %g kPa", carried.What, carried.WidthM, carried.DeadKPa, carried.LiveKPa))
		}
	}
	return errors.Join(errs...)
}
