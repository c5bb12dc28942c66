package main

import (
	"bytes"
	"sync"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
)

// screen is a terminal that says when it was written to.
type screen struct {
	mu      sync.Mutex
	b       bytes.Buffer
	written chan struct{}
}

func (s *screen) Write(data []byte) (int, error) {
	s.mu.Lock()
	defer s.mu.Unlock()
	defer func() {
		select {
		case s.written <- struct{}{}:
		default:
		}
	}()
	return s.b.Write(data)
}

func (s *screen) String() string {
	s.mu.Lock()
	defer s.mu.Unlock()
	return s.b.String()
}

func TestProgressNamesTheStageAndGoesAway(t *testing.T) {
	s := &screen{written: make(chan struct{}, 1)}
	p := &progress{w: s, stop: make(chan struct{}), ended: make(chan struct{})}
	p.say("parting the house")
	go p.run(0, time.Hour)
	<-s.written
	p.clear()
	p.clear()
	assert.Equal(t, "\r\x1b[Kparting the house … 0 s\r\x1b[K", s.String())
}

func TestAShortRunSaysNothing(t *testing.T) {
	s := &screen{written: make(chan struct{}, 1)}
	p := &progress{w: s, stop: make(chan struct{}), ended: make(chan struct{})}
	p.say("parting the house")
	go p.run(time.Hour, time.Hour)
	p.clear()
	assert.Empty(t, s.String())
}

func TestProgressIsForTerminals(t *testing.T) {
	var b bytes.Buffer
	p := startProgress(&b)
	p.say("parting the house")
	p.clear()
	assert.Empty(t, b.String())
}
