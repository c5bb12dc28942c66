package render

// Scale is a ratio of paper to house.
type Scale struct {
	Ratio float64 // house lengths to one length on paper
	Text  string  // as written in the title block
}

// MMPerMetre is how long a metre of the house is on paper.
func (s Scale) MMPerMetre() float64 { return 1000 / s.Ratio }

// Scales of plans, largest first: ISO 5455, 5.1, and the architect's scales
// of North American practice (common practice, no source).
var (
	metricScales = []Scale{
		{20, "1:20"}, {50, "1:50"}, {100, "1:100"}, {200, "1:200"}, {500, "1:500"},
		{1000, "1:1000"}, {2000, "1:2000"}, {5000, "1:5000"}, {10000, "1:10000"}, {20000, "1:20000"}, {50000, "1:50000"},
	}
	imperialScales = []Scale{
		{24, `1/2" = 1'-0"`}, {48, `1/4" = 1'-0"`}, {64, `3/16" = 1'-0"`}, {96, `1/8" = 1'-0"`},
		{128, `3/32" = 1'-0"`}, {192, `1/16" = 1'-0"`}, {384, `1/32" = 1'-0"`},
		{600, `1" = 50'-0"`}, {1200, `1" = 100'-0"`}, {2400, `1" = 200'-0"`}, {6000, `1" = 500'-0"`},
		{12000, `1" = 1000'-0"`}, {24000, `1" = 2000'-0"`}, {60000, `1" = 5000'-0"`},
	}
	imperialSiteScales = []Scale{
		{96, `1/8" = 1'-0"`}, {120, `1" = 10'-0"`}, {240, `1" = 20'-0"`}, {360, `1" = 30'-0"`}, {480, `1" = 40'-0"`},
		{600, `1" = 50'-0"`}, {1200, `1" = 100'-0"`}, {2400, `1" = 200'-0"`}, {6000, `1" = 500'-0"`},
		{12000, `1" = 1000'-0"`}, {24000, `1" = 2000'-0"`}, {60000, `1" = 5000'-0"`},
	}
)

// planScales and siteScales list what a drawing may be scaled to.
func planScales(imperial bool) []Scale {
	if imperial {
		return imperialScales
	}
	return metricScales
}

func siteScales(imperial bool) []Scale {
	if imperial {
		return imperialSiteScales
	}
	return metricScales[1:]
}
