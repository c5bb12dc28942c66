package plan

// ReturnCaution goes with every reckoning of cost and return.
const ReturnCaution = "Rough figures for comparing schemes with each other and with leaving the house as it is, from the prices and rents given: " +
	"not a valuation, not a forecast and not financial advice. Financing, taxes on a sale, permits, design fees, time without rent while it is built " +
	"and surprises in the walls are not in them."

// Return is what one way to leave the house costs and is hoped to bring, in the
// price file's currency. Scheme is "" for the house as it is.
type Return struct {
	Scheme string
	// The works: as the price file has them, and spread to a low and a high cost.
	Works, Low, High float64
	// PerAddedUnit is what the second unit costs: the house is one unit today.
	PerAddedUnit float64
	// Rents per month by unit, of the house as it is the first; RentSaid: all
	// that are needed were said.
	Rents    []float64
	RentSaid bool
	Income   float64 // per year, after the running share
	// More is the income beyond that of the house as it is. Yield is More by the
	// works' cost, Payback the years in which More adds up to it; both are said
	// with the low and the high cost, and only where More is more than nothing.
	More     float64
	Yield    [3]float64 // at the low cost, the price file's, the high
	Payback  [3]float64
	Pays     bool
	Sale     float64 // of both units, or of the house as it is
	SaleSaid bool
	SaleGain [3]float64 // sale less the works less the house as it is
}

// Returns reckons the house as it is and every scheme of an answer. The works
// are reckoned without the brief's priorities, which are no money. A share of
// the rent goes on running the house (the brief's return.running); yield and
// payback compare a year's further income with the works' cost and take no
// interest, so that they serve to compare, not to plan by.
func Returns(a *Answer) []Return {
	brief := a.Brief
	keep := 1 - brief.Return.Running
	asItIs := Return{
		Rents: []float64{brief.Return.AsItIsRent}, RentSaid: brief.Return.AsItIsRent > 0, Income: cents(12 * brief.Return.AsItIsRent * keep),
		Sale: brief.Return.AsItIsSale, SaleSaid: brief.Return.AsItIsSale > 0,
	}
	out := []Return{asItIs}
	for _, s := range a.Schemes {
		r := Return{Scheme: s.ID, Works: s.Cost.Works, RentSaid: true, SaleSaid: asItIs.SaleSaid}
		for _, w := range s.Works {
			low, high := a.Prices.Range(w)
			r.Low, r.High = cents(r.Low+low), cents(r.High+high)
		}
		r.PerAddedUnit = r.Works
		for i, u := range s.Units {
			rent, said := brief.Units[i].Rent.Of(u)
			r.Rents, r.RentSaid = append(r.Rents, cents(rent)), r.RentSaid && said
			r.Income += 12 * rent * keep
			sale, said := brief.Units[i].Sale.Of(u)
			r.Sale, r.SaleSaid = r.Sale+sale, r.SaleSaid && said
		}
		r.Income, r.Sale = cents(r.Income), cents(r.Sale)
		// A house that its owner lives in brings no rent: nothing said is nothing.
		r.More = cents(r.Income - asItIs.Income)
		for i, cost := range [3]float64{r.Low, r.Works, r.High} {
			if r.RentSaid && r.More > 0 && cost > 0 {
				r.Pays = true
				r.Yield[i], r.Payback[i] = r.More/cost, cost/r.More
			}
			if r.SaleSaid {
				r.SaleGain[i] = cents(r.Sale - cost - asItIs.Sale)
			}
		}
		out = append(out, r)
	}
	return out
}
