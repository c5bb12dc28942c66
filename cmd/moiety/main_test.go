package main

import (
	"bytes"
	"context"
	"errors"
	"flag"
	"io"
	"os"
	"os/exec"
	"path/filepath"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// ran runs the program with the arguments and gives its exit code and what it wrote.
func ran(ctx context.Context, stdin io.Reader, args ...string) (code int, stdout, stderr string) {
	var out, errs bytes.Buffer
	p := &program{ctx: ctx, stdin: stdin, stdout: &out, stderr: &errs}
	code = p.run(args)
	return code, out.String(), errs.String()
}

// silent is a standard input on which nothing comes. It tells when it is read.
type silent struct{ read chan struct{} }

func (s silent) Read([]byte) (int, error) {
	close(s.read)
	select {}
}

func TestAnInterruptEndsTheRunAndLeavesNothing(t *testing.T) {
	dir := t.TempDir()
	ctx, interrupt := context.WithCancel(context.Background())
	stdin := silent{make(chan struct{})}
	go func() {
		<-stdin.read
		interrupt()
	}()
	code, stdout, stderr := ran(ctx, stdin, "split", "-", "-o", filepath.Join(dir, "out"))
	assert.Equal(t, exitInterrupted, code)
	assert.Empty(t, stdout)
	assert.Equal(t, "moiety: interrupted; nothing was written\n", stderr)
	assert.Empty(t, tree(t, dir))
}

func TestASignalEndsTheRun(t *testing.T) {
	dir := t.TempDir()
	command := exec.Command("moiety", "split", "-", "-o", filepath.Join(dir, "out"))
	var stderr bytes.Buffer
	command.Stderr = &stderr
	stdin, err := command.StdinPipe()
	require.NoError(t, err)
	require.NoError(t, command.Start())
	// More than a pipe holds: written only when the program reads.
	_, err = stdin.Write([]byte(strings.Repeat(" ", 4<<20)))
	require.NoError(t, err)
	require.NoError(t, command.Process.Signal(os.Interrupt))
	var exit *exec.ExitError
	require.ErrorAs(t, command.Wait(), &exit)
	assert.Equal(t, exitInterrupted, exit.ExitCode())
	assert.Equal(t, "moiety: interrupted; nothing was written\n", stderr.String())
	assert.Empty(t, tree(t, dir))
}

// broken panics when it is read, as a fault anywhere in the program would.
type broken struct{}

func (broken) Read([]byte) (int, error) { panic("the roof came down") }

func TestAPanicIsAFaultOfTheProgram(t *testing.T) {
	code, stdout, stderr := ran(context.Background(), broken{}, "survey", "-")
	assert.Equal(t, exitFault, code)
	assert.Empty(t, stdout)
	assert.Contains(t, stderr, "moiety: a fault of the program, not of your files: the roof came down")
	assert.Contains(t, stderr, "Please report it with this text")
	assert.Contains(t, stderr, "main_test.go", "the stack is part of the report")
}

func TestExitCodes(t *testing.T) {
	fails := errors.New("fails")
	for _, test := range []struct {
		err  error
		code int
	}{
		{nil, exitDone},
		{flag.ErrHelp, exitDone},
		{cannot(fails), exitCannot},
		{badInput(fails), exitInput},
		{errors.Join(nil, badInput(fails)), exitInput},
		{fails, exitFault},
		{fault{"panic", nil}, exitFault},
		{context.Canceled, exitInterrupted},
	} {
		assert.Equal(t, test.code, exitCode(test.err), "%v", test.err)
	}
}
