package plan_test

import (
	"bytes"
	"encoding/csv"
	"encoding/json"
	"math"
	"os"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"moiety/plan"
	"moiety/plan/internal/housetest"
	"moiety/plan/services"
)

// flatsUnder splits the house of two flats and gives the best scheme.
func flatsUnder(t *testing.T, brief string) *plan.Scheme {
	t.Helper()
	return bestScheme(t, twoFlats(t), readBrief(t, brief))
}

func twoFlats(t *testing.T) *plan.House {
	t.Helper()
	f, err := os.Open("../testdata/two-flats.house.json")
	require.NoError(t, err)
	defer f.Close()
	h, err := plan.Read(f, "two-flats")
	require.NoError(t, err)
	return h
}

func bestScheme(t *testing.T, h *plan.House, brief *plan.Brief) *plan.Scheme {
	t.Helper()
	one := *brief
	one.Schemes, one.Cuts = 1, false
	a := split(t, build(t, h), &one)
	require.NotEmpty(t, a.Schemes, "%v", a.WhyNot)
	return a.Schemes[0]
}

// service finds what a unit gets of a kind; unit "" is both.
func service(t *testing.T, s *plan.Scheme, unit, kind string) plan.Service {
	t.Helper()
	for _, of := range s.Services {
		if of.Unit == unit && of.Kind == kind {
			return of
		}
	}
	require.Fail(t, "no service", "%s of %q", kind, unit)
	return plan.Service{}
}

// The flats are mirror images, by hand: inside 5 x 4, 2.9 x 3.1 and 2 x 3.1 m,
// 2.44 m high; 5 + 4 + 3.1 + 2.9 + 2 m of wall to the outdoors with windows of
// 1.4 x 1.25 and 1.2 x 1.25 m and a door of 0.95 x 2.05 m.
func TestTheHeatOfAFlatIsThatOfItsWallsRoofAndFloor(t *testing.T) {
	s := flatsUnder(t, `services: {inside: 20, outside: -20, air_changes: 0.5,
		u_values: {wall: 0.5, window: 2, door: 1.5, roof: 0.25, ground: 0.4}}`)
	const floorM2 = 20 + 2.9*3.1 + 2*3.1
	want := map[string]float64{
		"walls to the outdoors": 0.5 * (17*2.44 - 1.75 - 1.5 - 0.95*2.05) * 40,
		"windows":               2 * (1.75 + 1.5) * 40,
		"doors to the outdoors": 1.5 * 0.95 * 2.05 * 40,
		"roof":                  0.25 * floorM2 * 40,
		"floors on the earth":   0.4 * floorM2 * 20,
		"air":                   0.33 * 0.5 * floorM2 * 2.44 * 40,
	}
	for _, unit := range []string{"A", "B"} {
		heat := service(t, s, unit, "heating")
		assert.Len(t, heat.Lines, len(want))
		total := 0.0
		for _, line := range heat.Lines {
			assert.InEpsilon(t, want[line.What], line.Value, 0.01, line.What)
			total += line.Value
		}
		assert.InDelta(t, total, heat.Value, 1e-6)
		assert.Contains(t, heat.Caution, "licensed")
	}
}

func TestAColderPlaceOrAnOlderHouseTakesMoreHeat(t *testing.T) {
	load := func(brief string) float64 { return service(t, flatsUnder(t, brief), "A", "heating").Value }
	usual := load("")
	assert.InDelta(t, usual, load("services: {built: 1960, inside: 21, outside: -18}"), 1e-9, "the defaults")
	assert.Greater(t, load("services: {outside: -30}"), usual)
	assert.Greater(t, load("services: {built: 1900}"), usual)
	assert.Less(t, load("services: {built: 2015}"), usual)
}

func TestTwoFlatsAreSuppliedByTheirCodesMethods(t *testing.T) {
	us := flatsUnder(t, "rules: us-irc-2021\nservices: {tank_l: 150, service_a: 60}")
	water := service(t, us, "", "hot_water")
	assert.Contains(t, water.Answer, "one tank for both")
	assert.Contains(t, strings.Join(water.Notes, "; "), "common practice, no source")
	assert.Contains(t, water.Answer, "tank of 150 l that is there is")
	assert.GreaterOrEqual(t, water.Value, service(t, us, "A", "hot_water").Value)
	both := service(t, us, "", "electrical")
	assert.Contains(t, both.Method, "220.85")
	assert.Contains(t, both.Answer, "60 A that is there is too small")
	// 3 x 35.19 m2 in ft2 + 4500 + 12000 + 5000 + 1200 VA, the first 10 kVA in full, 40 % of the rest, and 65 % of the blower.
	general := 3*35.19/0.09290304 + 4500 + 12000 + 5000 + 1200
	assert.InDelta(t, 10000+0.4*(general-10000)+0.65*500, service(t, us, "A", "electrical").Value, 10)
	// ASHRAE 62.2: 0.03 x 378.8 ft2 + 15 cfm.
	assert.InDelta(t, (0.03*35.19/0.09290304+15)*0.4719474, service(t, us, "B", "ventilation").Value, 0.01)
	// No fixture was drawn: wc, basin, bath, washer and sink.
	drains := service(t, us, "A", "drainage")
	assert.Equal(t, 10.0, drains.Value)
	assert.Contains(t, strings.Join(drains.Notes, "; "), "not drawn")

	ca := flatsUnder(t, "rules: ca-nbc-2020\nfuel: none")
	assert.Contains(t, service(t, ca, "", "electrical").Method, "8-200(2)")
	assert.Contains(t, service(t, ca, "A", "ventilation").Method, "NBC")
	// Below 80 m2 the Canadian least is 14400 W, 60 A, whatever a US service has at least (CEC 8-200(1)(b)).
	small := service(t, flatsUnder(t, "rules: ca-nbc-2020\nfuel: gas"), "A", "electrical")
	assert.Equal(t, 14400.0, small.Value)
	assert.Contains(t, small.Answer, "of 60 A")
	assert.Contains(t, service(t, ca, "A", "hot_water").Lines[0].From, "electric")
	assert.Contains(t, strings.Join(service(t, ca, "A", "hot_water").Notes, "; "), "the US one stands in")
	for _, of := range ca.Services {
		assert.NotContains(t, of.Method, "NEC", of.Kind)
		assert.NotContains(t, of.Method, "ASHRAE", of.Kind)
	}
}

// In England nothing is worked out by an American or Canadian method.
func TestTwoFlatsInEnglandAreSuppliedByEnglishMethods(t *testing.T) {
	uk := flatsUnder(t, "rules: uk-england\nservices: {tank_l: 150, service_a: 100}")
	for _, of := range uk.Services {
		for _, foreign := range []string{"NEC", "CEC", "HUD", "ASHRAE", "IRC", "NPC", "gal", " VA"} {
			assert.NotContains(t, of.Method+of.Answer, foreign, of.Kind)
		}
		assert.NotEmpty(t, of.Caution, of.Kind)
		assert.NotEmpty(t, of.Sources, of.Kind)
	}
	// Two rings of 32 A, the second at 40 %; 66 % of 6 A; a cooker of 52.2 A: 10 and 30 % of 42.2 A.
	electrical := service(t, uk, "A", "electrical")
	assert.InDelta(t, 32*1.4+0.66*6+10+0.3*(12000.0/230-10), electrical.Value, 1e-9)
	assert.Contains(t, electrical.Answer, "a supply of 80 A")
	assert.Contains(t, service(t, uk, "", "electrical").Answer, "100 A that is there is too small")
	// One bedroom: 19 l/s, more than 0.3 l/s x 35.19 m2. A bath of 1.3, basin 0.3, sink 1.3, washer 0.6 and WC 1.8: 0.5 x root of 5.3.
	assert.Equal(t, 19.0, service(t, uk, "B", "ventilation").Value)
	assert.InDelta(t, 0.5*math.Sqrt(5.3), service(t, uk, "A", "drainage").Value, 1e-9)
	assert.Contains(t, service(t, uk, "A", "hot_water").Answer, "a cylinder of its own of 120 l")
	assert.Contains(t, service(t, uk, "", "hot_water").Answer, "150 l; the tank of 150 l that is there is enough")
}

// Turning, mirroring or moving a house changes nothing that its units need.
func TestServicesTurnWithTheHouse(t *testing.T) {
	h := twoFlats(t)
	plain := bestScheme(t, h, plan.DefaultBrief())
	for name, other := range map[string]*plan.House{
		"turned": housetest.Turned(h, 33), "mirrored": housetest.Mirrored(h), "moved": housetest.Moved(h, 40, -7), "in feet": housetest.InFeet(h),
	} {
		changed := bestScheme(t, other, plan.DefaultBrief())
		require.Len(t, changed.Services, len(plain.Services), name)
		for i, of := range plain.Services {
			assert.InEpsilon(t, of.Value, changed.Services[i].Value, 0.001, "%s: %s", name, of.Kind)
		}
	}
}

// Every service of every scheme of the samples says its method, its sources and
// its caution, and its steps are in the schedule.
func TestEveryServiceSaysHowItWasWorkedOut(t *testing.T) {
	s := flatsUnder(t, "")
	for _, of := range s.Services {
		assert.NotEmpty(t, of.Method)
		assert.NotEmpty(t, of.Answer)
		assert.NotEmpty(t, of.Lines)
		assert.NotEmpty(t, of.Sources)
		assert.NotEmpty(t, of.Caution)
	}
	var table bytes.Buffer
	require.NoError(t, plan.WriteServices(&table, s))
	rows, err := csv.NewReader(&table).ReadAll()
	require.NoError(t, err)
	want := 1
	for _, of := range s.Services {
		want += len(of.Lines) + 1
	}
	assert.Len(t, rows, want)
	var summary bytes.Buffer
	require.NoError(t, plan.WriteSummary(&summary, split(t, build(t, twoFlats(t)), readBrief(t, "schemes: 1\ncuts: false"))))
	var read struct {
		Schemes []struct {
			Services []struct {
				Unit, Kind, Answer, Method, Status, Caution string
				Value                                       float64
				Lines                                       []services.Line
			}
		}
	}
	require.NoError(t, json.Unmarshal(summary.Bytes(), &read))
	require.Len(t, read.Schemes[0].Services, len(s.Services))
	for i, of := range read.Schemes[0].Services {
		assert.Equal(t, s.Services[i].Answer, of.Answer)
		assert.InDelta(t, s.Services[i].Value, of.Value, 0.051)
		assert.Equal(t, string(s.Services[i].Status()), of.Status)
	}
}

func TestFaultyServicesAreNamed(t *testing.T) {
	_, err := plan.ReadBrief(strings.NewReader(`services:
  built: 19600
  outside: 40
  heat: coal
  u_values: {wal: 0.3, window: -1}
  tank: 150
`), "brief.yaml")
	for _, part := range []string{"built", "outside", "coal", "wal", "window", "tank"} {
		assert.ErrorContains(t, err, part)
	}
}
