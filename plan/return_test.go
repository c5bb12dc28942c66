package plan_test

import (
	"bytes"
	"encoding/csv"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"moiety/plan"
)

// returnBrief asks 1,000 a month for A and 5 a m2 and 200 a bedroom for B, of a
// house that brings 900 as it stands; 30 % go on running it.
const returnBrief = `
units:
  - {id: A, rent: 1000, sale: 200000}
  - {id: B, rent: {per_m2: 5, per_bedroom: 200}, sale: {fixed: 50000, per_m2: 2000}}
return:
  as_it_is: {rent: 900, sale: 240000}
  running: 30%
`

func returnAnswer(t *testing.T, brief string) *plan.Answer {
	b, err := plan.ReadBrief(strings.NewReader(brief), "b")
	require.NoError(t, err)
	s := &plan.Scheme{ID: "1", Brief: b, Cost: plan.Cost{Total: 41000, Works: 40000, Priorities: 1000}, Works: []plan.Work{
		{ID: "W1", Kind: "upgrade_wall", Cost: 30000}, {ID: "W2", Kind: "new_kitchen", Cost: 10000},
	}}
	s.Units = [2]plan.Unit{{ID: "A", NetM2: 60, Bedrooms: 2}, {ID: "B", NetM2: 40, Bedrooms: 1}}
	prices, err := plan.ReadPrices(strings.NewReader("spread: {low: 0.9, high: 1.5, new_kitchen: {high: 2}}\n"), "p")
	require.NoError(t, err)
	return &plan.Answer{Brief: b, Prices: prices, Schemes: []*plan.Scheme{s}}
}

// By hand: works 30,000 + 10,000; low 0.9 of them 36,000, high 1.5 x 30,000 +
// 2 x 10,000 = 65,000. Rent of B 40 m2 x 5 + 1 x 200 = 400: 1,400 together, of
// which 70 % stay: 11,760 a year; as it is 900 x 12 x 0.7 = 7,560; 4,200 more.
// 40,000 / 4,200 = 9.52 years, 10.5 %. Sale: 200,000 + 50,000 + 40 x 2,000 =
// 330,000; less 40,000 and 240,000 leaves 50,000.
func TestCostAndReturnByHand(t *testing.T) {
	rows := plan.Returns(returnAnswer(t, returnBrief))
	require.Len(t, rows, 2)
	asItIs, r := rows[0], rows[1]
	assert.Equal(t, []float64{0, 7560, 240000}, []float64{asItIs.Works, asItIs.Income, asItIs.Sale})
	assert.Equal(t, []float64{36000, 40000, 65000, 40000}, []float64{r.Low, r.Works, r.High, r.PerAddedUnit})
	assert.Equal(t, []float64{1000, 400}, r.Rents)
	assert.Equal(t, []float64{11760, 4200, 330000}, []float64{r.Income, r.More, r.Sale})
	assert.InDelta(t, 9.524, r.Payback[1], 0.001)
	assert.InDelta(t, 36.0/4.2, r.Payback[0], 0.001)
	assert.InDelta(t, 65.0/4.2, r.Payback[2], 0.001)
	assert.InDelta(t, 0.105, r.Yield[1], 1e-9)
	assert.Equal(t, [3]float64{54000, 50000, 25000}, r.SaleGain)
}

func TestWithoutRentsOnlyCostsAreReckoned(t *testing.T) {
	a := returnAnswer(t, "")
	r := plan.Returns(a)[1]
	assert.False(t, r.Pays || r.RentSaid || r.SaleSaid)
	var b bytes.Buffer
	require.NoError(t, plan.WriteReturn(&b, a))
	rows, err := csv.NewReader(&b).ReadAll()
	require.NoError(t, err)
	assert.Equal(t, []string{"1", "40000.00", "36000.00", "65000.00", "40000.00", "", ""}, rows[2][:7])
}

// A unit for which no rent is named leaves the whole open, rather than being
// taken to bring nothing.
func TestARentThatIsNotNamedIsNotNothing(t *testing.T) {
	r := plan.Returns(returnAnswer(t, "units: {A: {rent: 1000}}\n"))[1]
	assert.False(t, r.RentSaid || r.Pays)
}

func TestRentsBelowThoseOfTheHouseAsItIsPayNothingBack(t *testing.T) {
	r := plan.Returns(returnAnswer(t, "units: {A: {rent: 300}, B: {rent: 300}}\nreturn: {as_it_is: {rent: 900}}\n"))[1]
	assert.True(t, r.RentSaid)
	assert.False(t, r.Pays)
	assert.Negative(t, r.More)
}

func TestTheSpreadOfPrices(t *testing.T) {
	_, err := plan.ReadPrices(strings.NewReader("spread: {low: 1.2, high: 0.9, new_kitchn: 1}\n"), "p")
	require.Error(t, err)
	for _, want := range []string{"low is 1.2", "high is 0.9", `no key "new_kitchn"; did you mean new_kitchen`} {
		assert.ErrorContains(t, err, want)
	}
	low, high := plan.DefaultPrices().Range(plan.Work{Kind: "new_kitchen", Cost: 1000})
	assert.Less(t, low, 1000.0)
	assert.Greater(t, high, 1000.0)
}
