package plan_test

import (
	"fmt"
	"math"
	"slices"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"moiety/geom"
	"moiety/plan"
	"moiety/plan/internal/housetest"
)

// pairWithFlight is the tall pair with flights of other steps: what lies north
// of their heads moves with these.
func pairWithFlight(rise float64, risers int, run, width float64) *plan.House {
	h := tallPair().House()
	for i := range h.Levels {
		if h.Levels[i].ID == "upper" {
			h.Levels[i].Floor = rise * float64(risers)
		}
	}
	for i := range h.Spaces {
		if h.Levels[h.Spaces[i].Level].ID == "upper" {
			h.Spaces[i].Floor = rise * float64(risers)
		} else {
			h.Spaces[i].Height = min(2.4, rise*float64(risers)-0.1)
		}
	}
	h.Levels[0].Height = min(2.4, rise*float64(risers)-0.1)
	head := 1.5 + run*float64(risers-1)
	// The hall's notch and the flight end where the flight does.
	stretched := housetest.Placed(h, func(p geom.Pt) geom.Pt {
		x, y := p.Metres()
		switch {
		case y > 4.739 && y < 4.741:
			y = head
		case y > 4.741:
			y += head - 4.74
		}
		return geom.FromMetres(x, y)
	})
	for i := range stretched.Stairs {
		stretched.Stairs[i].Risers, stretched.Stairs[i].Width = risers, width
	}
	return stretched
}

// ownScheme owns the tall pair by the letters of its cells, without a search:
// the flights' figures need none.
func ownScheme(t testing.TB, h *plan.House) *plan.Scheme {
	t.Helper()
	b := build(t, h)
	s := &plan.Scheme{Building: b, Whole: b, Brief: plan.DefaultBrief()}
	for i, c := range b.Cells {
		owner := plan.UnitA
		if c.ID[0] == 'b' {
			owner = plan.UnitB
		}
		s.Owners = append(s.Owners, owner)
		s.Uses, s.Also = append(s.Uses, c.Use), append(s.Also, c.Also)
		s.Units[owner].Cells = append(s.Units[owner].Cells, i)
	}
	s.Units[0].ID, s.Units[1].ID = "A", "B"
	s.Units[0].Entries, s.Units[1].Entries = []string{"a-front"}, []string{"b-front"}
	for _, l := range b.Links {
		if l.Kind == plan.LinkDoor {
			for i := range h.Doors {
				if h.Doors[i].ID == l.Of {
					p := plan.Passage{Of: l.Of, Between: [2]string{b.Cells[l.U].ID, "outside"}, Type: "door", State: plan.Kept, Level: l.Level, Line: l.Line, Door: &h.Doors[i]}
					if l.V != plan.Outside {
						p.Between[1] = b.Cells[l.V].ID
					}
					s.Passages = append(s.Passages, p)
				}
			}
		}
	}
	return s
}

// At each limit, just under it and just over it.
func TestFlightsAgainstTheirLimits(t *testing.T) {
	const little = 0.0005 // half a millimetre a step
	for _, test := range []struct {
		set, rule        string
		rise, run, width float64
		risers           int
		want             plan.Result
	}{
		// NBC Table 9.8.4.1., private stair: rise 125 to 200 mm.
		{"ca-nbc-2020", "stair-rise-most", 0.200, 0.27, 0.9, 13, plan.OK},
		{"ca-nbc-2020", "stair-rise-most", 0.200 + little, 0.27, 0.9, 13, plan.NotOK},
		{"ca-nbc-2020", "stair-rise-least", 0.125, 0.27, 0.9, 20, plan.OK},
		{"ca-nbc-2020", "stair-rise-least", 0.125 - little, 0.27, 0.9, 20, plan.NotOK},
		// NBC Table 9.8.4.2., private stair: run 255 to 355 mm.
		{"ca-nbc-2020", "stair-run-least", 0.2, 0.255, 0.9, 13, plan.OK},
		{"ca-nbc-2020", "stair-run-least", 0.2, 0.255 - little, 0.9, 13, plan.NotOK},
		{"ca-nbc-2020", "stair-run-most", 0.2, 0.355, 0.9, 13, plan.OK},
		{"ca-nbc-2020", "stair-run-most", 0.2, 0.355 + little, 0.9, 13, plan.NotOK},
		// NBC 9.8.2.1.: 860 mm wide.
		{"ca-nbc-2020", "stair-width", 0.2, 0.27, 0.860, 13, plan.OK},
		{"ca-nbc-2020", "stair-width", 0.2, 0.27, 0.8595, 13, plan.NotOK},
		// IRC R311.7.5.1: 7-3/4 in = 196.85 mm; R311.7.5.2: 10 in = 254 mm; R311.7.1: 36 in = 914.4 mm.
		{"us-irc-2021", "stair-rise-most", 0.19685, 0.27, 0.9, 13, plan.OK},
		{"us-irc-2021", "stair-rise-most", 0.19685 + little, 0.27, 0.9, 13, plan.NotOK},
		{"us-irc-2021", "stair-run-least", 0.19, 0.254, 0.9, 13, plan.OK},
		{"us-irc-2021", "stair-run-least", 0.19, 0.254 - little, 0.9, 13, plan.NotOK},
		{"us-irc-2021", "stair-width", 0.19, 0.27, 0.9, 13, plan.NotOK},
		// AD K Table 1.1, private stair: rise 150 to 220 mm, going 220 to 300 mm,
		// pitch at most 42 degrees, twice the rise and the going 550 to 700 mm.
		{"uk-england", "stair-rise-most", 0.220, 0.25, 0.9, 12, plan.OK},
		{"uk-england", "stair-rise-most", 0.220 + little, 0.25, 0.9, 12, plan.NotOK},
		{"uk-england", "stair-rise-least", 0.150, 0.25, 0.9, 17, plan.OK},
		{"uk-england", "stair-rise-least", 0.150 - little, 0.25, 0.9, 17, plan.NotOK},
		{"uk-england", "stair-run-least", 0.19, 0.220, 0.9, 13, plan.OK},
		{"uk-england", "stair-run-least", 0.19, 0.220 - little, 0.9, 13, plan.NotOK},
		{"uk-england", "stair-run-most", 0.19, 0.300, 0.9, 13, plan.OK},
		{"uk-england", "stair-run-most", 0.19, 0.300 + little, 0.9, 13, plan.NotOK},
		{"uk-england", "stair-sum-most", 0.2, 0.300, 0.9, 13, plan.OK},
		{"uk-england", "stair-sum-most", 0.2, 0.300 + little, 0.9, 13, plan.NotOK},
		{"uk-england", "stair-sum-least", 0.165, 0.220, 0.9, 15, plan.OK},
		{"uk-england", "stair-sum-least", 0.165 - little, 0.220, 0.9, 15, plan.NotOK},
		{"uk-england", "stair-pitch", 0.22, 0.22 / math.Tan(42*math.Pi/180), 0.9, 12, plan.OK},
		{"uk-england", "stair-pitch", 0.22, 0.22/math.Tan(42*math.Pi/180) - little, 0.9, 12, plan.NotOK},
	} {
		t.Run(fmt.Sprintf("%s %s %.4f %.4f %.4f", test.set, test.rule, test.rise, test.run, test.width), func(t *testing.T) {
			s := ownScheme(t, pairWithFlight(test.rise, test.risers, test.run, test.width))
			f := only(t, plan.Check(s, ruleSet(t, test.set), plan.Conditions{}), test.rule, "a-stair")
			assert.Equal(t, test.want, f.Result, "%s, %s", f.Required, f.Provided)
		})
	}
}

// The pair's flight under a closet that lies over its first metres: the line
// of the nosings is 0.2 m high at y = 1.5 and 2.6 m at y = 4.74, 0.74074 m a
// metre; the closet's floor has its underside at the hall's ceiling, 2.4 m. So
// the headroom at its edge is 2.2 m less 0.74074 times its depth.
func TestHeadroomUnderAFloorOverTheFlight(t *testing.T) {
	for _, test := range []struct {
		set   string
		limit float64 // clause beside it
	}{
		{"ca-nbc-2020", 1.950}, // 9.8.2.2.(3)
		{"us-irc-2021", 2.032}, // R311.7.2: 80 in
		{"uk-england", 2.000},  // AD K 1.11
	} {
		for _, over := range []float64{-0.002, 0, 0.002} {
			deep := (2.2-test.limit)/(2.4/3.24) + over
			d := tallPair()
			d.Room("a-closet", plan.Closet, "upper", 1.2, 1.5, 2.1, math.Round((1.5+deep)*1e5)/1e5)
			h := d.House()
			for i := range h.Stairs {
				h.Stairs[i].Risers = 13
			}
			f := only(t, plan.Check(ownScheme(t, h), ruleSet(t, test.set), plan.Conditions{}), "stair-headroom", "a-stair")
			assert.Equal(t, over <= 0, f.Result == plan.OK, "%s, %+g m: %s", test.set, over, f.Provided)
			assert.InDelta(t, test.limit-over*2.4/3.24, f.Value, 0.00003)
			assert.Contains(t, f.Note, "a-closet")
		}
	}
}

// Without anything over the flight the upper ceiling is the lowest, 2.4 m
// above the last nosing.
func TestHeadroomOfAnOpenFlightIsTheUpperCeiling(t *testing.T) {
	f := only(t, plan.Check(ownScheme(t, tallPairWith(nil)), ruleSet(t, "us-irc-2021"), plan.Conditions{}), "stair-headroom", "a-stair")
	assert.InDelta(t, 2.4, f.Value, 1e-9)
}

// The rooms' own ceilings count, not the level's: where the landing's ceiling is
// 2.0 m high, so is the headroom at the last nosing, 2.6 m above the hall.
func TestHeadroomUnderTheLandingsOwnCeiling(t *testing.T) {
	for _, test := range []struct {
		set   string
		limit float64 // clause as above
	}{{"ca-nbc-2020", 1.950}, {"us-irc-2021", 2.032}, {"uk-england", 2.000}} {
		for _, over := range []float64{-0.001, 0, 0.001} {
			h := tallPairWith(nil)
			for i := range h.Spaces {
				if h.Spaces[i].ID == "a-landing" {
					h.Spaces[i].Height = test.limit + over
				}
			}
			f := only(t, plan.Check(ownScheme(t, h), ruleSet(t, test.set), plan.Conditions{}), "stair-headroom", "a-stair")
			assert.InDelta(t, test.limit+over, f.Value, 1e-6)
			assert.Equal(t, over >= 0, f.Result == plan.OK, "%s: %s", test.set, f.Provided)
			assert.Contains(t, f.Note, "a-landing")
		}
	}
}

// A floor over the flight lies above the ceiling of the hall at its foot: where
// that hangs at 2.2 m instead of 2.4 m, the closet's edge is 0.2 m lower too.
func TestHeadroomUnderALowHallCeiling(t *testing.T) {
	height := func(hall float64) float64 {
		d := tallPair()
		d.Room("a-closet", plan.Closet, "upper", 1.2, 1.5, 2.1, 1.8)
		h := d.House()
		for i := range h.Stairs {
			h.Stairs[i].Risers = 13
		}
		for i := range h.Spaces {
			if h.Spaces[i].ID == "a-hall" {
				h.Spaces[i].Height = hall
			}
		}
		return only(t, plan.Check(ownScheme(t, h), ruleSet(t, "uk-england"), plan.Conditions{}), "stair-headroom", "a-stair").Value
	}
	// The nosings are 0.2 m high at the foot and 0.74074 m a metre after it.
	assert.InDelta(t, 2.4-0.2-0.3*2.4/3.24, height(2.4), 1e-4)
	assert.InDelta(t, 2.2-0.2-0.3*2.4/3.24, height(2.2), 1e-4)
}

// Two flights over each other, as in a stairwell: the upper one's underside
// lies 2.6 m above the lower one's nosings less 0.30 m for its own depth.
func TestHeadroomUnderAnotherFlight(t *testing.T) {
	d := tallPair().Level("attic", 5.2, 2.4)
	hall := []float64{0, 0, 2.1, 0, 2.1, 1.5, 1.2, 1.5, 1.2, 4.74, 2.1, 4.74, 2.1, 7, 0, 7}
	d.Room("a-attic", plan.Hall, "attic", hall...)
	d.Flight("a-stair-2", "upper", "attic", "n", 1.2, 1.5, 2.1, 4.74)
	h := d.House()
	for i := range h.Stairs {
		h.Stairs[i].Risers = 13
	}
	f := only(t, plan.Check(ownScheme(t, h), ruleSet(t, "us-irc-2021"), plan.Conditions{}), "stair-headroom", "a-stair")
	assert.InDelta(t, 2.3, f.Value, 1e-4)
	assert.Contains(t, f.Note, "a-stair-2")
}

// The floor before the foot reaches 1.5 m to the front wall, that beyond the
// head to something that stands there. NBC 9.8.6.3.: as long as the flight is wide is enough; IRC
// R311.7.6: 36 in.
func TestLandingsAtFootAndHead(t *testing.T) {
	for _, test := range []struct {
		set  string
		deep float64
		want plan.Result
	}{
		{"us-irc-2021", 0.9144, plan.OK}, {"us-irc-2021", 0.9134, plan.NotOK},
		{"ca-nbc-2020", 0.9, plan.OK}, {"ca-nbc-2020", 0.899, plan.NotOK},
	} {
		h := tallPairWith(nil)
		h.Fixtures = append(slices.Clone(h.Fixtures), plan.Fixture{ID: "bench", Use: "water_heater", Level: 1, At: geom.FromMetres(1.5, 6.5), Footprint: &geom.Region{
			Outer: geom.Ring{geom.FromMetres(1.3, 4.74+test.deep), geom.FromMetres(2, 4.74+test.deep), geom.FromMetres(2, 6.9), geom.FromMetres(1.3, 6.9)}}})
		s := ownScheme(t, h)
		for _, f := range h.Fixtures {
			s.Fixtures = append(s.Fixtures, plan.PlacedFixture{Fixture: f, State: plan.Kept})
		}
		landings := found(plan.Check(s, ruleSet(t, test.set), plan.Conditions{}), "stair-landing", "a-stair")
		require.Len(t, landings, 2)
		assert.InDelta(t, 1.5, landings[0].Value, 1e-4)
		assert.Equal(t, plan.OK, landings[0].Result)
		assert.Equal(t, test.want, landings[1].Result, "%s: %s", test.set, landings[1].Provided)
	}
}

func TestStepsNotCountedAreNotSurveyed(t *testing.T) {
	h := tallPairWith(func(s *plan.Stair) { s.Risers, s.Width = 0, 0 })
	findings := plan.Check(ownScheme(t, h), ruleSet(t, "uk-england"), plan.Conditions{})
	for _, rule := range []string{"stair-rise-most", "stair-run-least", "stair-pitch"} {
		assert.Equal(t, plan.NotSurveyed, only(t, findings, rule, "a-stair").Result, rule)
	}
	// The width comes from the footprint, 0.9 m between its sides.
	us := plan.Check(ownScheme(t, h), ruleSet(t, "ca-nbc-2020"), plan.Conditions{})
	assert.InDelta(t, 0.9, only(t, us, "stair-width", "a-stair").Value, 1e-4)
}
