package main

import (
	"bytes"
	"context"
	"errors"
	"fmt"
	"os"
	"os/exec"
	"path/filepath"
	"strconv"
	"strings"
	"time"

	"moiety/plan/partition"
)

// solver is a general solver as a command.
type solver struct {
	name    string
	program string
	// arguments of the command for an LP file, its answer and a limit in seconds.
	arguments func(model, answer, seconds string) []string
	// told: the command prints the seconds that it took, without its start.
	told bool
}

// elapsed is how many times its limit of processor time a solver may run: what
// it loses to others on a busy machine.
const elapsed = 10

var solvers = map[string]*solver{
	"HiGHS": {"HiGHS", "node", func(model, answer, _ string) []string {
		// All of it compiled beforehand, so that its time is that of solving.
		return []string{"--no-liftoff", "--no-wasm-lazy-compilation", filepath.Join("testdata", "compare", "highs.cjs"), model, answer}
	}, true},
	"CBC": {"CBC", "cbc", func(model, answer, seconds string) []string {
		return []string{model, "-sec", seconds, "-ratio", "0", "-allow", "0.0001", "-threads", "1", "-solve", "-solu", answer}
	}, false},
	"GLPK": {"GLPK", "glpsol", func(model, answer, _ string) []string {
		return []string{"--lp", model, "--cuts", "-w", answer}
	}, false},
}

// missing tells why a solver cannot be run here; "" if it can.
func (s *solver) missing(scratch string) string {
	if _, err := exec.LookPath(s.program); err != nil {
		return s.program + " is not installed"
	}
	if s.program == "node" {
		if _, err := os.Stat(filepath.Join(os.Getenv("NODE_PATH"), "highs", "package.json")); err != nil {
			return "the npm package highs is not installed; run.sh does it"
		}
	}
	return ""
}

// outcome is what one run of a solver gave.
type outcome struct {
	took   time.Duration
	ended  bool              // before the limit
	answer *partition.Answer // nil if there is none
	scheme *partition.Solution
	faults error // what makes the answer no scheme
}

// run solves an LP file. Times, and the limit, are of the processor, so that
// they do not hang on what else the machine is doing. The error is of a solver
// that failed.
func (s *solver) run(p *partition.Problem, model, scratch string, limit time.Duration) (outcome, error) {
	file := filepath.Join(scratch, s.name+".answer")
	if err := os.Remove(file); err != nil && !errors.Is(err, os.ErrNotExist) {
		return outcome{}, err
	}
	ctx, stop := context.WithTimeout(context.Background(), elapsed*limit)
	defer stop()
	seconds := strconv.Itoa(int(limit.Seconds()))
	// More than the limit, for what is not the solving.
	arguments := append([]string{"-c", `ulimit -t $(($0 + 5)); exec "$@"`, seconds, s.program}, s.arguments(model, file, seconds)...)
	command := exec.CommandContext(ctx, "sh", arguments...)
	var text bytes.Buffer
	command.Stdout, command.Stderr = &text, &text
	err := command.Run()
	o := outcome{took: command.ProcessState.UserTime() + command.ProcessState.SystemTime()}
	if err != nil && (ctx.Err() != nil || o.took >= limit) {
		return o, nil
	}
	if err != nil {
		return o, fmt.Errorf("%s: %w\n%s", s.name, err, text.Bytes())
	}
	if s.told {
		lines := strings.Fields(text.String())
		seconds, err := strconv.ParseFloat(lines[len(lines)-1], 64)
		if err != nil {
			return o, fmt.Errorf("%s: %q where its time should be", s.name, text.Bytes())
		}
		o.took = time.Duration(seconds * float64(time.Second))
	}
	f, err := os.Open(file)
	if err != nil {
		return o, fmt.Errorf("%s has left no answer: %w\n%s", s.name, err, text.Bytes())
	}
	defer f.Close()
	if o.answer, err = partition.ReadAnswer(f, p); err != nil {
		return o, fmt.Errorf("%s: %w", s.name, err)
	}
	switch o.answer.Claim {
	case partition.ClaimsOptimal, partition.ClaimsNone:
		o.ended = true
	}
	if o.answer.Values != nil {
		scheme, err := o.answer.Scheme(p)
		o.scheme, o.faults = &scheme, err
	}
	return o, nil
}
