package plan_test

import (
	"bytes"
	"encoding/csv"
	"fmt"
	"strconv"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"moiety/plan"
	"moiety/plan/internal/housetest"
)

// fronted splits a house and finds the front.
func fronted(t testing.TB, b *plan.Building, brief *plan.Brief) *plan.Answer {
	t.Helper()
	a, err := plan.Split(t.Context(), b, brief, plan.DefaultPrices(), plan.SplitOptions{Workers: 1, Front: true})
	require.NoError(t, err)
	return a
}

// checkFront holds a front against what it says of itself: nothing on it is
// dominated, and its schemes have what it says.
func checkFront(t testing.TB, a *plan.Answer) {
	t.Helper()
	points := a.Front.Points
	require.NotEmpty(t, points)
	for i, p := range points {
		s := p.Scheme
		require.Equal(t, unaccepted(s), p.Shared)
		require.GreaterOrEqual(t, p.Bedrooms, s.Units[0].Bedrooms+s.Units[1].Bedrooms)
		require.LessOrEqual(t, s.Bound, s.Cost.Total)
		share, all := 0.0, 0.0
		for c, o := range s.Owners {
			if cell := s.Building.Cells[c]; o <= plan.UnitB && !cell.Outdoor && cell.Heated && cell.Use != plan.Garage {
				all += cell.AreaM2
				if o == plan.UnitA {
					share += cell.AreaM2
				}
			}
		}
		require.InDelta(t, 1000*share/all, p.ShareA, 1)
		require.LessOrEqual(t, p.ShareA, a.Front.Wanted+p.Step)
		require.GreaterOrEqual(t, p.ShareA, a.Front.Wanted-p.Step)
		for j, q := range points {
			dominates := q.Scheme.Cost.Total <= s.Cost.Total && q.Shared <= p.Shared && q.Bedrooms >= p.Bedrooms && q.Step <= p.Step
			require.False(t, i != j && dominates, "%s dominates %s", q.Scheme.ID, s.ID)
		}
	}
	first, found := a.Schemes[0], false
	for _, p := range points {
		found = found || p.Shared == unaccepted(first) && p.Scheme.Cost.Total <= first.Cost.Total+0.011
	}
	require.True(t, found, "the best scheme is on the front, or one as good")
}

// bestWithin tries all owners of all cells and gives, for each of some steps of
// A's share about a half, the least price of what keeps to it.
func (r *reference) bestWithin(steps []int) []refPrice {
	best := make([]refPrice, len(steps))
	for k := range best {
		best[k] = never
	}
	var try func(i int, o refOwners, shared int)
	try = func(i int, o refOwners, shared int) {
		if shared > best[0].shared { // the tightest is the dearest
			return
		}
		if i < len(r.owned) {
			for owner, allowed := range r.may(r.owned[i]) {
				if !allowed {
					continue
				}
				p, more := o, shared
				p[owner] |= 1 << r.owned[i]
				if owner == 2 && !r.accepted(r.owned[i]) {
					more++
				}
				try(i+1, p, more)
			}
			return
		}
		var area [2]int64
		for u := range area {
			for _, c := range r.owned {
				if o[u]>>c&1 != 0 {
					area[u] += r.area[c]
				}
			}
		}
		for k, step := range steps {
			off := 1000*area[0] - 500*(area[0]+area[1])
			if off < 0 {
				off = -off
			}
			if off > int64(step)*(area[0]+area[1]) {
				continue
			}
			p := r.price(o, best[k])
			for ; k < len(steps); k++ {
				if p.less(best[k]) {
					best[k] = p
				}
			}
			return
		}
	}
	try(0, refOwners{}, 0)
	return best
}

// The points with the fewest shared elements of small houses, at every distance
// from halves, by trying everything.
func TestTheFrontOfSmallHousesByTryingEverything(t *testing.T) {
	houses := 0
	for seed := range seeds(t, 20, 60) {
		h := housetest.Small(seed)
		b, brief := build(t, h), housetest.Demands(h, seed, true)
		brief.Cuts, brief.Schemes = false, 1
		brief.Units[0].AreaShare, brief.Units[1].AreaShare = 0, 0
		brief.Priorities.Balance = 0
		a := fronted(t, b, brief)
		if len(a.Schemes) == 0 {
			require.Nil(t, a.Front)
			continue
		}
		checkFront(t, a)
		require.True(t, a.Front.Complete, "%v", a.Front.Open)
		// More bedrooms than the brief asks for: what a split finds that asks for them.
		asked := brief.Units[0].Bedrooms.Min + brief.Units[1].Bedrooms.Min
		for n := asked; n <= a.Front.Bedrooms[1]; n++ {
			want := never
			for at := brief.Units[0].Bedrooms.Min; at <= n-brief.Units[1].Bedrooms.Min; at++ {
				more := *brief
				more.Units[0].Bedrooms.Min, more.Units[1].Bedrooms.Min = at, n-at
				if other := split(t, b, &more); len(other.Schemes) > 0 {
					s := other.Schemes[0]
					if p := (refPrice{unaccepted(s), s.Cost.Total}); p.less(want) {
						want = p
					}
				}
			}
			got := never
			for _, p := range a.Front.Points {
				if q := (refPrice{p.Shared, p.Scheme.Cost.Total}); p.Bedrooms >= n && q.less(got) {
					got = q
				}
			}
			require.Equal(t, want.shared, got.shared, "house %d, %d bedrooms", seed, n)
			require.InDelta(t, want.cost, got.cost, 0.02, "house %d, %d bedrooms", seed, n)
		}
		if houses++; houses > 3 {
			continue
		}
		for k, want := range newReference(b, brief, plan.DefaultPrices()).bestWithin(a.Front.Steps) {
			got := never
			for _, p := range a.Front.Points {
				if q := (refPrice{p.Shared, p.Scheme.Cost.Total}); p.Step <= a.Front.Steps[k] && q.less(got) {
					got = q
				}
			}
			require.Equal(t, want.shared, got.shared, "house %d, step %d", seed, a.Front.Steps[k])
			require.InDelta(t, want.cost, got.cost, 0.02, "house %d, step %d", seed, a.Front.Steps[k])
		}
	}
	require.Positive(t, houses)
}

// In samples, where spaces are divided too, the front is what it says it is,
// and nothing is missing.
func TestTheFrontOfSamples(t *testing.T) {
	names := []string{"storey-and-a-half"}
	if !testing.Short() {
		names = append(names, "long-bungalow", "split-level", "turned-bay")
	}
	samples := sampleHouses(t)
	for _, name := range names {
		s := samples[name]
		brief := *s.brief
		brief.Schemes = 2
		a := fronted(t, s.building, &brief)
		checkFront(t, a)
		require.True(t, a.Front.Complete, "%s: %v", name, a.Front.Open)
	}
}

func TestTheFrontAsItIsTold(t *testing.T) {
	a := fronted(t, surveyed(t, "testdata/two-flats.house.json"), nothingAsked())
	var b bytes.Buffer
	require.NoError(t, plan.WriteText(&b, a))
	_, told, found := bytes.Cut(b.Bytes(), []byte("\nWhat there is to choose between"))
	require.True(t, found)
	told, _, _ = bytes.Cut(told, []byte("\nNotes\n"))
	golden(t, "front/two-flats.txt", told)

	b.Reset()
	require.NoError(t, plan.WriteFront(&b, a.Front))
	rows, err := csv.NewReader(&b).ReadAll()
	require.NoError(t, err)
	require.Len(t, rows, len(a.Front.Points)+1)
	for i, p := range a.Front.Points {
		cost, err := strconv.ParseFloat(rows[i+1][1], 64)
		require.NoError(t, err)
		assert.InDelta(t, p.Scheme.Cost.Total, cost, 0.005)
		assert.Equal(t, fmt.Sprint(p.Shared), rows[i+1][4])
	}
	assert.Contains(t, string(summaryOf(t, a)), `"bedrooms_asked": [`)
}

func TestTheFrontIsTheSameForAnyNumberOfWorkers(t *testing.T) {
	b, brief := build(t, pair().House()), nothingAsked()
	two, err := plan.Split(t.Context(), b, brief, plan.DefaultPrices(), plan.SplitOptions{Workers: 2, Front: true})
	require.NoError(t, err)
	assert.Equal(t, string(summaryOf(t, fronted(t, b, brief))), string(summaryOf(t, two)))
}

func TestAFrontThatNobodyAskedForIsNotInTheSummary(t *testing.T) {
	assert.NotContains(t, string(summaryOf(t, cottageAnswer())), `"front"`)
}
