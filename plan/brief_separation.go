package plan

import (
	"slices"

	"moiety/plan/assembly"
)

// Limits of what a separation may be asked to reach: beyond them no build-up
// of a house goes.
var (
	fireLimits  = limits{min: 0, max: 240, whole: true}
	soundLimits = limits{min: 0, max: 80, whole: true}
	saleLimits  = limits{min: 0, max: 1_000_000_000}
)

// defaultRunning is the share of the rent that running a house takes where the
// brief does not say: taxes, insurance, upkeep, empty months. Illustrative.
const defaultRunning = 0.35

// readSeparation reads what the separation is to reach: whole minutes, STC and IIC.
func (b *Brief) readSeparation(f fields) {
	b.BuildUps = f.text("build_ups")
	s, ok := f.object(f.get("separation"), "separation", "fire_minutes", "stc", "iic", "wall", "floor")
	if !ok {
		return
	}
	for _, key := range []struct {
		name   string
		limits limits
		into   *int
	}{
		{"fire_minutes", fireLimits, &b.Separation.FireMinutes},
		{"stc", soundLimits, &b.Separation.STC},
		{"iic", soundLimits, &b.Separation.IIC},
	} {
		if v, ok := s.number(key.name, key.limits); ok {
			*key.into = int(v)
		}
	}
	for _, key := range []struct {
		name string
		into *string
	}{{"wall", &b.Separation.Wall}, {"floor", &b.Separation.Floor}} {
		if *key.into = s.text(key.name); *key.into != "" {
			b.source.words[briefWord{"", "separation", *key.into}] = s.get(key.name)
		}
	}
}

// buildUpsOf lists the build-ups that a separation may get: the published rows,
// at the close spacing where how framing stands is not known; the generic ones;
// the brief's own.
func (b *Brief) buildUpsOf(kind assembly.Kind) []assembly.Assembly {
	var out []assembly.Assembly
	for _, a := range slices.Concat(assembly.ForAnySpacing(), assembly.Generic(), b.OwnBuildUp) {
		if a.Kind == kind {
			out = append(out, a)
		}
	}
	return out
}

// wantedBuildUp is the id of the build-up that the brief wants of a kind.
func (s SeparationBrief) wantedBuildUp(kind assembly.Kind) string {
	if kind == assembly.Wall {
		return s.Wall
	}
	return s.Floor
}

// separation checks that wanted build-ups are there.
func (c briefCheck) separation() {
	for _, kind := range []assembly.Kind{assembly.Wall, assembly.Floor} {
		wanted := c.brief.Separation.wantedBuildUp(kind)
		var known []string
		for _, a := range c.brief.buildUpsOf(kind) {
			known = append(known, a.ID)
		}
		if wanted != "" && !slices.Contains(known, wanted) {
			c.bad("", "separation", wanted, "no build-up of a %s is called %s%s", kind, quote(wanted), didYouMean(wanted, known))
		}
	}
}

// readReturn reads what cost and return are reckoned with.
func (b *Brief) readReturn(f fields) {
	r, ok := f.object(f.get("return"), "return", "as_it_is", "running")
	if !ok {
		return
	}
	if r.get("running") != nil {
		b.Return.Running = r.part("running")
	}
	if asItIs, ok := r.object(r.get("as_it_is"), "as_it_is", "rent", "sale"); ok {
		setNumber(asItIs, "rent", moneyLimits, &b.Return.AsItIsRent)
		setNumber(asItIs, "sale", saleLimits, &b.Return.AsItIsSale)
	}
}

// worth reads a sum, or an object of a sum and of what comes by area and bedroom.
func (f fields) worth(key string, w Worth) Worth {
	g := f.minimum(key, saleLimits, &w.Fixed, "fixed", "per_m2", "per_bedroom")
	setNumber(g, "per_m2", saleLimits, &w.PerM2)
	setNumber(g, "per_bedroom", saleLimits, &w.PerBedroom)
	return w
}
