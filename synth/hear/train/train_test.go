package main

import (
	"bytes"
	"testing"
)

// The same seed makes the same weights however many workers there are, and another seed others; what was learned shows.
func TestSameSeedSameWeights(t *testing.T) {
	for _, k := range kinds[1:] { // the first is the second without what only that has
		make := func(seed uint64, workers int) []byte {
			return teach(seed, 40, 2, workers, k, func(string, ...any) {}).Marshal()
		}
		one := make(5, 1)
		if !bytes.Equal(one, make(5, 3)) {
			t.Error("the same seed makes other weights with three workers")
		}
		if bytes.Equal(one, make(6, 1)) {
			t.Error("another seed makes the same weights")
		}
	}
}

// A net that goes through a few sounds again and again learns them.
func TestLearns(t *testing.T) {
	l := newLesson(1, 80, 2, kind{inTurn: true})
	first, last := 0.0, 0.0
	learn(1, l, 30, func(time int, loss float64) {
		if time == 1 {
			first = loss
		}
		last = loss
	})
	if last > first/3 {
		t.Errorf("the loss goes from %.3f to %.3f", first, last)
	}
}

// What is asked of a sound holds all that was plucked, and nothing twice.
func TestAsked(t *testing.T) {
	l := newLesson(3, 50, 2, kind{})
	yes := 0
	for _, p := range l.plucked {
		if p {
			yes++
		}
	}
	if len(l.levels) != len(l.plucked)*l.inputs || len(l.plucked) < 50*askedOf*9/10 || yes < 100 || yes > 250 {
		t.Errorf("%d levels of %d notes, %d of them plucked", len(l.levels), len(l.plucked), yes)
	}
}
