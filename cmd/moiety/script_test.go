package main

import (
	"errors"
	"os/exec"
	"path/filepath"
	"strconv"
	"testing"

	"github.com/rogpeppe/go-internal/testscript"
)

func TestMain(m *testing.M) {
	testscript.Main(m, map[string]func(){"moiety": main})
}

// The scripts use the program as people do, from the command line. $SAMPLES
// and $TESTDATA are the directories of the repository.
func TestScripts(t *testing.T) {
	root, err := filepath.Abs(filepath.Join("..", ".."))
	if err != nil {
		t.Fatal(err)
	}
	testscript.Run(t, testscript.Params{
		Dir:  filepath.Join(root, "testdata", "script"),
		Cmds: map[string]func(ts *testscript.TestScript, neg bool, args []string){"exits": exits},
		Setup: func(env *testscript.Env) error {
			env.Setenv("SAMPLES", filepath.Join(root, "samples"))
			env.Setenv("TESTDATA", filepath.Join(root, "testdata"))
			return nil
		},
	})
}

// exits is a command of the scripts: "exits CODE PROGRAM [ARGUMENT...]" runs
// the program, which must end with that code.
func exits(ts *testscript.TestScript, neg bool, args []string) {
	if neg || len(args) < 2 {
		ts.Fatalf("usage: exits CODE PROGRAM [ARGUMENT...]")
	}
	want, err := strconv.Atoi(args[0])
	ts.Check(err)
	code := 0
	if err := ts.Exec(args[1], args[2:]...); err != nil {
		var exit *exec.ExitError
		if !errors.As(err, &exit) {
			ts.Fatalf("%s: %v", args[1], err)
		}
		code = exit.ExitCode()
	}
	if code != want {
		ts.Fatalf("%s ended with code %d, not %d", args[1], code, want)
	}
}
