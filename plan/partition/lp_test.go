package partition_test

import (
	"bytes"
	"fmt"
	"os"
	"os/exec"
	"path/filepath"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"moiety/plan/partition"
)

// general solves the problem as an LP file by a general solver and reads its
// answers back, all of them the same.
func general(t *testing.T, p *partition.Problem, program string) *partition.Answer {
	t.Helper()
	dir := t.TempDir()
	file, one, two := filepath.Join(dir, "model.lp"), filepath.Join(dir, "one.txt"), filepath.Join(dir, "two.txt")
	var text bytes.Buffer
	require.NoError(t, partition.WriteLP(&text, p, partition.LPOptions{}))
	require.NoError(t, os.WriteFile(file, text.Bytes(), 0o600))
	arguments := map[string][]string{
		"glpsol": {"--cuts", "--tmlim", "60", "--lp", file, "-o", one, "-w", two},
		"cbc":    {file, "-sec", "60", "-ratio", "0", "-allow", "0", "-solve", "-solu", one},
	}
	out, err := exec.Command(program, arguments[program]...).CombinedOutput()
	require.NoError(t, err, "%s", out)
	read := func(path string) *partition.Answer {
		f, err := os.Open(path)
		require.NoError(t, err, "%s", out)
		defer f.Close()
		a, err := partition.ReadAnswer(f, p)
		require.NoError(t, err, "%s", out)
		return a
	}
	a := read(one)
	if program == "glpsol" {
		plain := read(two)
		assert.Equal(t, a.Claim, plain.Claim)
		assert.InDeltaSlice(t, a.Values, plain.Values, 1e-4)
	}
	return a
}

// General solvers (GLPK and CBC, where they are installed) find the same prices
// in the LP file, and what they find is a scheme by the verifier.
func TestGeneralSolversAgreeOnTheLPFile(t *testing.T) {
	seeds := uint64(60)
	if testing.Short() {
		seeds = 15
	}
	for _, program := range []string{"glpsol", "cbc"} {
		t.Run(program, func(t *testing.T) {
			if _, err := exec.LookPath(program); err != nil {
				t.Skipf("%s is not installed (Debian: glpk-utils, coinor-cbc)", program)
			}
			solved := 0
			check := func(t *testing.T, p *partition.Problem) {
				r := solve(t, p, partition.Options{})
				a := general(t, p, program)
				if r.Status == partition.Infeasible {
					require.Equal(t, partition.ClaimsNone, a.Claim)
					return
				}
				require.Equal(t, partition.ClaimsOptimal, a.Claim)
				tolerance := 0.5
				if p.Balance.PerArea > 0 { // rounded down, within the solver's own tolerance
					tolerance = 1.5
				}
				want := r.Solutions[0].Price
				assert.InDelta(t, partition.Objective(p, want, 1), a.Price, tolerance)
				s, err := a.Scheme(p)
				require.NoError(t, err)
				assert.Equal(t, want.Shared, s.Price.Shared)
				assert.InDelta(t, float64(want.Money), float64(s.Price.Money), tolerance)
				solved++
			}
			for seed := uint64(1); seed <= seeds; seed++ {
				t.Run(fmt.Sprint(seed), func(t *testing.T) { check(t, randomProblem(seed)) })
				if program == "glpsol" { // the other takes seconds
					t.Run(fmt.Sprint("house ", seed), func(t *testing.T) { check(t, houseLike(seed, 8+int(seed%3))) })
				}
			}
			assert.Greater(t, solved, int(seeds)/4)
		})
	}
}

// The whole file for a problem small enough to read.
func TestLPFileReadsLikeTheProblem(t *testing.T) {
	var text bytes.Buffer
	require.NoError(t, partition.WriteLP(&text, twoRooms(), partition.LPOptions{}))
	golden(t, "two_rooms.lp", text.Bytes())
}

func TestMalformedProblemHasNoLPFile(t *testing.T) {
	p := twoRooms()
	p.Cells[1].Area = -1
	assert.ErrorIs(t, partition.WriteLP(&bytes.Buffer{}, p, partition.LPOptions{}), partition.ErrProblem)
}
