package plan_test

import (
	"bytes"
	"context"
	"fmt"
	"os"
	"os/exec"
	"path/filepath"
	"regexp"
	"slices"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"moiety/plan"
	"moiety/plan/partition"
)

// generalSolvers are commands that solve an LP file and leave an answer:
// GLPK's glpsol and CBC, both to a gap of nothing.
var generalSolvers = []struct {
	program   string
	arguments func(model, answer string) []string
}{
	{"glpsol", func(model, answer string) []string {
		return []string{"--lp", model, "--cuts", "--tmlim", "120", "-o", answer}
	}},
	{"cbc", func(model, answer string) []string {
		return []string{model, "-sec", "120", "-ratio", "0", "-allow", "0.0001", "-solve", "-solu", answer}
	}},
}

func stated(t testing.TB, b *plan.Building, brief *plan.Brief, cuts bool) *plan.Statement {
	t.Helper()
	asked := *brief
	asked.Cuts = cuts
	s, err := plan.StatePartition(b, &asked, plan.DefaultPrices())
	require.NoError(t, err)
	return s
}

// General solvers, which share nothing with the search, find the same least
// price of houses, with spaces whole and divided. testdata/compare does it for
// all samples and for the instances.
func TestGeneralSolversAgreeOnHouses(t *testing.T) {
	samples := sampleHouses(t)
	houses := map[string]sample{
		"terrace": samples["terrace"], "long-bungalow": samples["long-bungalow"], "duplex": {duplex(t), twoBedroomsEach()},
	}
	for _, solver := range generalSolvers {
		if _, err := exec.LookPath(solver.program); err != nil {
			t.Run(solver.program, func(t *testing.T) {
				t.Skipf("%s is not installed (Debian: glpk-utils, coinor-cbc)", solver.program)
			})
			continue
		}
		for _, name := range []string{"terrace", "long-bungalow", "duplex"} {
			for _, cuts := range []bool{false, true} {
				if solver.program == "cbc" && (name == "duplex" || testing.Short()) {
					continue // takes seconds
				}
				t.Run(fmt.Sprintf("%s/%s, cuts %v", solver.program, name, cuts), func(t *testing.T) {
					s := stated(t, houses[name].building, houses[name].brief, cuts)
					assert.Equal(t, cuts, len(s.Cuts) > 0)
					dir := t.TempDir()
					model, answer := filepath.Join(dir, "model.lp"), filepath.Join(dir, "answer.txt")
					var text bytes.Buffer
					require.NoError(t, s.WriteLP(&text))
					require.NoError(t, os.WriteFile(model, text.Bytes(), 0o600))
					out, err := exec.Command(solver.program, solver.arguments(model, answer)...).CombinedOutput()
					require.NoError(t, err, "%s", out)
					f, err := os.Open(answer)
					require.NoError(t, err)
					defer f.Close()
					c, err := s.Compare(context.Background(), f, answer)
					require.NoError(t, err)
					assert.Equal(t, partition.ClaimsOptimal, c.Answer.Claim)
					require.Equal(t, plan.Agrees, c.Verdict, c.Why)
					assert.NoError(t, partition.Verify(s.Problem, c.Scheme))
				})
			}
		}
	}
}

// asCBC writes a solution as CBC would, by the names that the LP file gives.
func asCBC(t *testing.T, s *plan.Statement, solution partition.Solution, status string, objective float64) string {
	t.Helper()
	var lp, out bytes.Buffer
	require.NoError(t, s.WriteLP(&lp))
	var ways []string
	for _, m := range regexp.MustCompile(`(?m)^\\ link (\S+): `).FindAllSubmatch(lp.Bytes(), -1) {
		ways = append(ways, string(m[1]))
	}
	require.Len(t, ways, len(s.Problem.Links))
	fmt.Fprintf(&out, "%s - objective value %.8f\n", status, objective)
	n := 0
	add := func(name string) {
		require.Contains(t, lp.String(), " "+name)
		fmt.Fprintf(&out, "%7d %s 1 0\n", n, name)
		n++
	}
	legal := regexp.MustCompile(`[^A-Za-z0-9]`)
	cell := func(c int) string { return legal.ReplaceAllString(s.Problem.Cells[c].Name, "_") }
	for c, label := range solution.Labels {
		switch {
		case s.Problem.Cells[c].Public:
		case label == partition.Common:
			add("common." + cell(c))
		default:
			add("own." + label.String() + "." + cell(c))
		}
	}
	for _, i := range solution.Bought {
		add("door." + ways[i])
	}
	for u, unit := range []string{"A", "B"} {
		for f, cells := range solution.Hosts[u] {
			for _, c := range cells {
				add("host." + unit + "." + legal.ReplaceAllString(s.Problem.Functions[f].Name, "_") + "." + cell(c))
			}
		}
		add("in." + unit + "." + ways[solution.Entry[u]])
	}
	return out.String()
}

func TestAnswersAreJudgedByTheirSchemes(t *testing.T) {
	terrace := sampleHouses(t)["terrace"]
	s := stated(t, terrace.building, terrace.brief, false)
	r, err := partition.Solve(context.Background(), s.Problem, partition.Options{})
	require.NoError(t, err)
	best := r.Solutions[0]
	dearer := best // by a door that nobody needs
	for i, l := range s.Problem.Links {
		if l.Door > 0 && best.Labels[l.U] == best.Labels[l.V] && !slices.Contains(best.Bought, i) {
			dearer.Bought = append(slices.Clone(best.Bought), i)
			break
		}
	}
	require.NoError(t, partition.Reckon(s.Problem, &dearer))
	require.Greater(t, dearer.Price.Money, best.Price.Money)
	price := func(x partition.Solution) float64 { return partition.Objective(s.Problem, x.Price, plan.MoneyPerUnit) }
	broken := best
	broken.Labels = slices.Clone(best.Labels)
	kitchen := slices.IndexFunc(s.Problem.Cells, func(c partition.Cell) bool { return c.Name == "kitchen" })
	require.GreaterOrEqual(t, kitchen, 0)
	broken.Labels[kitchen] = 1 - broken.Labels[kitchen]
	for _, c := range []struct {
		name, answer string
		want         plan.Verdict
		why          string
	}{
		{"ours", asCBC(t, s, best, "Optimal", price(best)), plan.Agrees, "CBC and moiety agree on the least price"},
		{"ours, not proved", asCBC(t, s, best, "Stopped on time", price(best)), plan.Agrees, "CBC has not proved it"},
		{"a door too many", asCBC(t, s, dearer, "Optimal", price(dearer)), plan.Worse, "costs more than moiety's"},
		{"another price", asCBC(t, s, best, "Optimal", price(best)*1.00001), plan.Misstated, "states an objective of"},
		{"the kitchen given to the neighbour", asCBC(t, s, broken, "Optimal", price(best)), plan.Infeasible, "is no scheme of this house"},
		{"none", "Infeasible - objective value 1\n", plan.Worse, "says that there is no scheme; moiety has one"},
	} {
		t.Run(c.name, func(t *testing.T) {
			got, err := s.Compare(context.Background(), strings.NewReader(c.answer), "answer")
			require.NoError(t, err)
			assert.Equal(t, c.want, got.Verdict, got.Why)
			assert.Contains(t, got.Why, c.why)
			var text bytes.Buffer
			require.NoError(t, got.WriteText(&text))
			assert.Contains(t, text.String(), got.Why+".\n")
			if c.want == plan.Infeasible {
				assert.Contains(t, text.String(), "fault: ")
			}
		})
	}
	_, err = s.Compare(context.Background(), strings.NewReader("Unbounded - objective value 0\n"), "answer")
	assert.ErrorContains(t, err, `answer: CBC says "Unbounded" and gives no scheme`)
}

// A house that cannot be split as asked: a solver that says so agrees.
func TestNoSchemeIsAnAnswerToo(t *testing.T) {
	brief := twoBedroomsEach()
	brief.Units[0].Bedrooms.Min = 20
	s := stated(t, duplex(t), brief, false)
	c, err := s.Compare(context.Background(), strings.NewReader("Infeasible - objective value 0\n"), "answer")
	require.NoError(t, err)
	assert.Equal(t, plan.Agrees, c.Verdict)
	assert.Contains(t, c.Why, "agree that the house cannot be split")
}
