package main

import (
	"fmt"
	"io"
	"os"
	"sync"
	"time"

	"golang.org/x/term"
)

// quiet is how long a command runs before it says what it is doing.
const quiet = time.Second

// progress says on a terminal what a long run is doing, on one line that is
// taken away at the end. Elsewhere, and in the first second, it says nothing.
type progress struct {
	w     io.Writer
	mu    sync.Mutex
	stage string
	shown bool
	once  sync.Once
	stop  chan struct{}
	ended chan struct{}
}

// startProgress writes to w if w is a terminal. The caller ends it with clear.
func startProgress(w io.Writer) *progress {
	p := &progress{w: w, stop: make(chan struct{}), ended: make(chan struct{})}
	f, ok := w.(*os.File)
	if !ok || !term.IsTerminal(int(f.Fd())) {
		close(p.ended)
		return p
	}
	go p.run(quiet, time.Second)
	return p
}

// say names the stage that begins.
func (p *progress) say(stage string) {
	p.mu.Lock()
	p.stage = stage
	p.mu.Unlock()
}

func (p *progress) run(first, every time.Duration) {
	defer close(p.ended)
	start := time.Now()
	timer := time.NewTimer(first)
	defer timer.Stop()
	for {
		select {
		case <-timer.C:
			p.mu.Lock()
			// Back to the start of the line, and clear it: ECMA-48.
			fmt.Fprintf(p.w, "\r\x1b[K%s … %d s", p.stage, int(time.Since(start).Seconds()))
			p.shown = true
			p.mu.Unlock()
			timer.Reset(every)
		case <-p.stop:
			return
		}
	}
}

// clear takes the line away, before anything else is written.
func (p *progress) clear() {
	p.once.Do(func() { close(p.stop) })
	<-p.ended
	p.mu.Lock()
	defer p.mu.Unlock()
	if p.shown {
		fmt.Fprint(p.w, "\r\x1b[K")
		p.shown = false
	}
}
