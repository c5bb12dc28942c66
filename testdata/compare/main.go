// Compare runs general solvers on the LP files of partition problems beside
// moiety's own search and prints a table: see run.sh.
package main

import (
	"context"
	"flag"
	"fmt"
	"os"
	"path/filepath"
	"regexp"
	"runtime"
	"slices"
	"strings"
	"syscall"
	"time"

	"moiety/plan"
	"moiety/plan/partition"
)

// problem is one line of the table.
type problem struct {
	name    string
	problem *partition.Problem
	perUnit partition.Money // of the LP file
}

func main() {
	limit := flag.Duration("limit", time.Minute, "of processor time for each run of a solver")
	wanted := flag.String("solvers", "HiGHS,CBC,GLPK", "which solvers to run")
	only := flag.String("only", "", "run the problems alone whose name matches this regular expression")
	scratch := flag.String("scratch", os.TempDir(), "a directory for files that are left behind")
	flag.Parse()
	instances := filepath.Join("testdata", "instances")
	if flag.NArg() > 0 {
		instances = flag.Arg(0)
	}
	problems, err := everything(instances)
	if err != nil {
		fmt.Fprintln(os.Stderr, err)
		os.Exit(2)
	}
	wantedNames, err := regexp.Compile(*only)
	if err != nil {
		fmt.Fprintln(os.Stderr, err)
		os.Exit(2)
	}
	problems = slices.DeleteFunc(problems, func(p problem) bool { return !wantedNames.MatchString(p.name) })
	run := &comparison{limit: *limit, scratch: *scratch, slow: map[string]int{}}
	for _, name := range strings.Split(*wanted, ",") {
		s, ok := solvers[name]
		if !ok {
			fmt.Fprintf(os.Stderr, "no solver %q\n", name)
			os.Exit(2)
		}
		if why := s.missing(*scratch); why != "" {
			fmt.Fprintf(os.Stderr, "%s is left out: %s\n", name, why)
			continue
		}
		run.solvers = append(run.solvers, s)
	}
	fmt.Printf("%s, processor time, limit %v for each run, one core for moiety and for each solver, load %s\n\n",
		time.Now().Format("2006-01-02 15:04"), *limit, load())
	run.head()
	for _, p := range problems {
		if err := run.compare(p); err != nil {
			fmt.Fprintf(os.Stderr, "%s: %v\n", p.name, err)
			os.Exit(3)
		}
	}
	run.summary()
	fmt.Printf("\nEnded %s, load %s\n", time.Now().Format("15:04"), load())
	if run.disagreements > 0 {
		os.Exit(1)
	}
}

// load is what the system says of its load over the last minutes, if it does.
func load() string {
	text, err := os.ReadFile("/proc/loadavg")
	words := strings.Fields(string(text))
	if err != nil || len(words) < 3 {
		return "not known"
	}
	return strings.Join(words[:3], " ") + fmt.Sprintf(" on %d cores", runtime.NumCPU())
}

// everything lists the problems: the instances by rising size, then the houses,
// whole and divided.
func everything(instances string) ([]problem, error) {
	files, err := filepath.Glob(filepath.Join(instances, "*.json"))
	if err != nil {
		return nil, err
	}
	var list []problem
	for _, file := range files {
		f, err := os.Open(file)
		if err != nil {
			return nil, err
		}
		p, err := partition.ReadInstance(f)
		f.Close()
		if err != nil {
			return nil, fmt.Errorf("%s: %w", file, err)
		}
		list = append(list, problem{name: strings.TrimSuffix(filepath.Base(file), ".json"), problem: p, perUnit: 1})
	}
	slices.SortStableFunc(list, func(a, b problem) int { return len(a.problem.Cells) - len(b.problem.Cells) })
	houses, err := filepath.Glob(filepath.Join("samples", "*", "*.house.json"))
	if err != nil {
		return nil, err
	}
	for _, file := range append(houses, filepath.Join("testdata", "houses", "duplex.house.json")) {
		of, err := house(file)
		if err != nil {
			return nil, fmt.Errorf("%s: %w", file, err)
		}
		list = append(list, of...)
	}
	return list, nil
}

// house states the problems of a house, whole and divided, under the brief that
// lies beside it, and under none.
func house(file string) ([]problem, error) {
	f, err := os.Open(file)
	if err != nil {
		return nil, err
	}
	defer f.Close()
	h, err := plan.Read(f, file)
	if err != nil {
		return nil, err
	}
	b, err := plan.Build(h)
	if err != nil {
		return nil, err
	}
	name := strings.TrimSuffix(filepath.Base(file), ".house.json")
	var list []problem
	add := func(title string, brief *plan.Brief) error {
		for _, cuts := range []bool{false, true} {
			brief.Cuts = cuts
			s, err := plan.StatePartition(b, brief, plan.DefaultPrices())
			if err != nil {
				return err
			}
			switch {
			case !cuts:
				list = append(list, problem{name: title + ", whole", problem: s.Problem, perUnit: plan.MoneyPerUnit})
			case len(s.Cuts) > 0:
				list = append(list, problem{name: title + ", divided", problem: s.Problem, perUnit: plan.MoneyPerUnit})
			}
		}
		return nil
	}
	path := strings.TrimSuffix(file, ".house.json") + ".brief.yaml"
	if text, err := os.Open(path); err == nil {
		defer text.Close()
		brief, err := plan.ReadBrief(text, path)
		if err != nil {
			return nil, err
		}
		if err := add(name, brief); err != nil {
			return nil, err
		}
	}
	return list, add(name+", no brief", plan.DefaultBrief())
}

// processorTime is what this program has used of the processor.
func processorTime() time.Duration {
	var used syscall.Rusage
	if err := syscall.Getrusage(syscall.RUSAGE_SELF, &used); err != nil {
		return 0
	}
	return time.Duration(used.Utime.Nano() + used.Stime.Nano())
}

// ours solves a problem on one core. A short search is repeated, and the median
// time is taken.
func ours(p *partition.Problem, limit time.Duration) (partition.Result, time.Duration, error) {
	var times []time.Duration
	for total := time.Duration(0); ; {
		ctx, stop := context.WithTimeout(context.Background(), elapsed*limit)
		start := processorTime()
		r, err := partition.Solve(ctx, p, partition.Options{Workers: 1})
		took := processorTime() - start
		stop()
		if err != nil {
			return r, 0, err
		}
		times = append(times, took)
		if total += took; len(times) == 5 || total > time.Second {
			slices.Sort(times)
			return r, times[len(times)/2], nil
		}
	}
}
