package main

import (
	"context"
	"errors"
	"flag"
)

// The exit codes, as the help says them.
const (
	exitDone        = 0
	exitCannot      = 1   // the house cannot be split as asked
	exitInput       = 2   // bad input, bad usage, or a file that cannot be read or written
	exitFault       = 3   // a fault of the program
	exitInterrupted = 130 // 128 + SIGINT, as shells have it
)

// codedError carries the exit code that an error leads to.
type codedError struct {
	code int
	err  error
}

func (e codedError) Error() string { return e.err.Error() }
func (e codedError) Unwrap() error { return e.err }

// cannot marks a question that has no answer.
func cannot(err error) error { return codedError{exitCannot, err} }

// badInput marks what the caller can put right.
func badInput(err error) error { return codedError{exitInput, err} }

// exitCode gives the code for what a command returned. An error that nobody
// marked is a fault of the program: whoever knew better would have said so.
func exitCode(err error) int {
	var coded codedError
	switch {
	case err == nil, errors.Is(err, flag.ErrHelp):
		return exitDone
	case errors.As(err, &coded):
		return coded.code
	case errors.Is(err, context.Canceled):
		return exitInterrupted
	}
	return exitFault
}
