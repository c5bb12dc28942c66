// Moiety parts the survey of one house into two self-contained units and
// writes schemes, schedules and drawings. "moiety help" teaches its use.
package main

import (
	"context"
	"errors"
	"flag"
	"fmt"
	"io"
	"os"
	"os/signal"
	"runtime/debug"
	"strings"
	"sync"
	"syscall"

	"moiety/plan"
)

func main() { os.Exit(run()) }

// sparingly is how much, in percent of what is in use, may be allotted anew
// before memory is cleared: a run is short and its sheets are small, and
// clearing at the usual 100 takes a tenth of its time.
const sparingly = 300

func run() int {
	if os.Getenv("GOGC") == "" {
		debug.SetGCPercent(sparingly)
	}
	ctx, stop := signal.NotifyContext(context.Background(), os.Interrupt, syscall.SIGTERM, syscall.SIGHUP)
	defer stop()
	p := &program{ctx: ctx, stdin: os.Stdin, stdout: os.Stdout, stderr: os.Stderr}
	return p.run(os.Args[1:])
}

// program is one run: where it reads and writes, and what may end it early.
type program struct {
	ctx            context.Context
	stdin          io.Reader
	stdout, stderr io.Writer

	saving sync.Mutex // held while files are written
	saved  bool       // a result is in its place
}

// run carries out the command line and gives the exit code. When the context
// ends it waits for nothing but files that are being written.
func (p *program) run(args []string) int {
	done := make(chan error, 1)
	go func() { done <- p.guard(args) }()
	var err error
	select {
	case err = <-done:
	case <-p.ctx.Done():
		// A save under way stops at its next file and takes away what it wrote.
		p.saving.Lock()
		err = p.ctx.Err()
	}
	p.report(err)
	return exitCode(err)
}

// guard turns a panic into an error.
func (p *program) guard(args []string) (err error) {
	defer func() {
		if cause := recover(); cause != nil {
			err = fault{cause, debug.Stack()}
		}
	}()
	return p.dispatch(args)
}

// fault is a panic caught.
type fault struct {
	cause any
	stack []byte
}

func (f fault) Error() string { return fmt.Sprint(f.cause) }

// report says on stderr what went wrong.
func (p *program) report(err error) {
	var (
		caught   fault
		problems *plan.Problems
	)
	switch code := exitCode(err); {
	case code == exitDone:
	case errors.As(err, &caught):
		fmt.Fprintf(p.stderr, "moiety: a fault of the program, not of your files: %v\n", caught)
		fmt.Fprintf(p.stderr, "Please report it with this text, the command and, if you may share it, the survey.\n%s\n%s", version(), caught.stack)
	case code == exitInterrupted && p.saved:
		fmt.Fprintln(p.stderr, "moiety: interrupted; the result was already complete")
	case code == exitInterrupted:
		fmt.Fprintln(p.stderr, "moiety: interrupted; nothing was written")
	case code == exitFault:
		fmt.Fprintf(p.stderr, "moiety: a fault of the program, not of your files: %v\n", err)
		fmt.Fprintf(p.stderr, "Please report it with this text, the command and, if you may share it, the survey.\n%s\n", version())
	case errors.As(err, &problems):
		// One line each, as FILE:LINE:COLUMN: MESSAGE, for editors to jump to.
		fmt.Fprintln(p.stderr, err)
		fmt.Fprintf(p.stderr, "moiety: %d to put right; nothing was written\n", strings.Count(err.Error(), "\n")+1)
	default:
		fmt.Fprintf(p.stderr, "moiety: %v\n", err)
	}
}

// commands are the commands in the order of the help.
func (p *program) dispatch(args []string) error {
	if len(args) == 0 {
		return usage("no command", generalHelp)
	}
	switch args[0] {
	case "split":
		return p.split(args[1:])
	case "survey":
		return p.survey(args[1:])
	case "rules":
		return p.rules(args[1:])
	case "model":
		return p.model(args[1:])
	case "version", "-version", "--version":
		fmt.Fprintln(p.stdout, version())
		return nil
	case "help", "-h", "-help", "--help":
		return p.help(args[1:])
	}
	return usage(fmt.Sprintf("unknown command %q", args[0]), generalHelp)
}

// version names the build, for reports.
func version() string {
	build, ok := debug.ReadBuildInfo()
	if !ok {
		return "moiety, unknown version"
	}
	text := fmt.Sprintf("moiety %s, %s", build.Main.Version, build.GoVersion)
	for _, s := range build.Settings {
		if s.Key == "vcs.revision" {
			text += ", revision " + s.Value
		}
	}
	return text
}

// parse reads the flags of a command, which may stand before and after its
// one argument. What it returns is the argument.
func (p *program) parse(flags *flag.FlagSet, args []string, help string) (string, error) {
	operands, err := p.operands(flags, args, help)
	if err != nil {
		return "", err
	}
	switch len(operands) {
	case 0:
		return "", usage("no HOUSE: name a survey file, or - for standard input", help)
	case 1:
		return operands[0], nil
	}
	return "", usage(fmt.Sprintf("one HOUSE at a time: %q and %q were given", operands[0], operands[1]), help)
}

// operands reads the flags of a command and returns what is no flag.
func (p *program) operands(flags *flag.FlagSet, args []string, help string) ([]string, error) {
	flags.SetOutput(io.Discard)
	var operands []string
	for {
		err := flags.Parse(args)
		if errors.Is(err, flag.ErrHelp) {
			fmt.Fprint(p.stdout, help)
			return nil, err
		}
		if err != nil {
			return nil, usage(err.Error(), help)
		}
		rest := flags.Args()
		if len(rest) == 0 {
			return operands, nil
		}
		// After "--" everything is an operand.
		if ended := len(args) - len(rest); ended > 0 && args[ended-1] == "--" {
			return append(operands, rest...), nil
		}
		operands = append(operands, rest[0])
		args = rest[1:]
	}
}
