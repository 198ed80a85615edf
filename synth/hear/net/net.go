// Package net judges one note at a time: from the levels of a sound at the note's partials, between and beside them, a small net says
// how sure it is that the note was plucked. Package hear makes readings of all strings of these.
//
// A net is made by the program in synth/hear/train, of sounds that are invented. It has two layers between its levels and its one
// answer:
//
//	levels ──▶ 96 ──▶ 48 ──▶ 1   the logarithm of the odds that the note was plucked
//	       w1      w2     w3
//
// The first two layers pass on what is above zero and a hundredth of what is below.
package net

import (
	"encoding/binary"
	"errors"
	"fmt"
	"math"
)

// The sizes of the layers between.
const (
	First  = 96
	Second = 48
)

// Leak is what a layer passes on of what is below zero.
const Leak = 0.01

// Net is the weights of a net. It may be used by many goroutines at once.
type Net struct {
	Inputs int
	W1, B1 []float32 // First rows of Inputs; First
	W2, B2 []float32 // Second rows of First; Second
	W3, B3 []float32 // Second; 1
}

// New returns a net of zeros.
func New(inputs int) *Net {
	return &Net{
		Inputs: inputs,
		W1:     make([]float32, First*inputs), B1: make([]float32, First),
		W2: make([]float32, Second*First), B2: make([]float32, Second),
		W3: make([]float32, Second), B3: make([]float32, 1),
	}
}

// Weights returns the parts of the net in the order in which they are written.
func (n *Net) Weights() [][]float32 { return [][]float32{n.W1, n.B1, n.W2, n.B2, n.W3, n.B3} }

// Odds returns the natural logarithm of the odds that a note of these levels was plucked.
func (n *Net) Odds(levels []float32) float64 {
	var one [First]float32
	var two [Second]float32
	layer(one[:], n.W1, n.B1, levels)
	layer(two[:], n.W2, n.B2, one[:])
	return float64(n.B3[0] + dot(n.W3, two[:]))
}

// layer computes one layer from another.
func layer(out, w, b, in []float32) {
	for i := range out {
		x := b[i] + dot(w[i*len(in):(i+1)*len(in)], in)
		if x < 0 {
			x *= Leak
		}
		out[i] = x
	}
}

// dot returns the sum of products, in four sums that a processor can work on at once.
func dot(a, b []float32) float32 {
	var s0, s1, s2, s3 float32
	b = b[:len(a)]
	i := 0
	for ; i+4 <= len(a); i += 4 {
		s0 += a[i] * b[i]
		s1 += a[i+1] * b[i+1]
		s2 += a[i+2] * b[i+2]
		s3 += a[i+3] * b[i+3]
	}
	for ; i < len(a); i++ {
		s0 += a[i] * b[i]
	}
	return (s0 + s1) + (s2 + s3)
}

// mark begins a file of weights; the number of inputs and the weights follow, little-endian.
const mark = "hear net 1\n"

// Marshal returns the net as bytes.
func (n *Net) Marshal() []byte {
	out := binary.LittleEndian.AppendUint32([]byte(mark), uint32(n.Inputs))
	for _, part := range n.Weights() {
		for _, w := range part {
			out = binary.LittleEndian.AppendUint32(out, math.Float32bits(w))
		}
	}
	return out
}

// Parse reads what Marshal returned. The error says what is wrong with it.
func Parse(b []byte) (*Net, error) {
	if len(b) < len(mark)+4 || string(b[:len(mark)]) != mark {
		return nil, errors.New("no weights of a net: they begin with " + mark[:len(mark)-1])
	}
	b = b[len(mark):]
	inputs := int(binary.LittleEndian.Uint32(b))
	if inputs < 1 || inputs > 10*PerSpectrum {
		return nil, fmt.Errorf("a net of %d levels: it is 1 to %d", inputs, 10*PerSpectrum)
	}
	n, b := New(inputs), b[4:]
	for _, part := range n.Weights() {
		if len(b) < 4*len(part) {
			return nil, fmt.Errorf("the weights of a net of %d levels are cut short", inputs)
		}
		for i := range part {
			part[i] = math.Float32frombits(binary.LittleEndian.Uint32(b[4*i:]))
		}
		b = b[4*len(part):]
	}
	if len(b) > 0 {
		return nil, fmt.Errorf("%d bytes behind the weights of a net", len(b))
	}
	return n, nil
}
