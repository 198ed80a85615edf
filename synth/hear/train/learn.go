package main

import (
	"math"
	"math/rand/v2"
	"sync"

	"gonum.org/v1/gonum/blas"
	"gonum.org/v1/gonum/blas/blas32"

	"sparetone/synth/hear/net"
)

// How a net learns: batches of notes, steps by Adam (Kingma and Ba, ICLR 2015, with its own figures), which shorten along a quarter of a
// cosine to nothing (Loshchilov and Hutter, ICLR 2017).
const (
	batch   = 512
	shards  = 2 // parts of a batch that are worked on at once; their sums are added in order
	step    = 2e-3
	decay   = 1e-5 // of weights, a step
	warming = 200  // steps that grow to the first whole one
	beta1   = 0.9
	beta2   = 0.999
	epsilon = 1e-8
)

// worker computes the slope of the loss for a part of a batch.
type worker struct {
	slope             *net.Net
	in, one, two, out blas32.General
	dOne, dTwo, dOut  blas32.General
	loss              float64
	plucked           []bool
}

func general(rows, cols int) blas32.General {
	return blas32.General{Rows: rows, Cols: cols, Stride: cols, Data: make([]float32, rows*cols)}
}

func newWorker(inputs, rows int) *worker {
	return &worker{
		slope: net.New(inputs),
		in:    general(rows, inputs), one: general(rows, net.First), two: general(rows, net.Second), out: general(rows, 1),
		dOne: general(rows, net.First), dTwo: general(rows, net.Second), dOut: general(rows, 1),
		plucked: make([]bool, rows),
	}
}

func of(rows, cols int, data []float32) blas32.General {
	return blas32.General{Rows: rows, Cols: cols, Stride: cols, Data: data}
}

// forward computes a layer of all rows.
func forward(out, in, w blas32.General, bias []float32, bent bool) {
	blas32.Gemm(blas.NoTrans, blas.Trans, 1, in, w, 0, out)
	for r := range out.Rows {
		row := out.Data[r*out.Stride:][:out.Cols]
		for i := range row {
			row[i] += bias[i]
			if bent && row[i] < 0 {
				row[i] *= net.Leak
			}
		}
	}
}

// backward computes the slopes of a layer's weights and, unless dIn has no rows, of what went into it.
func backward(dOut, in, w blas32.General, dW, dB []float32, dIn blas32.General) {
	blas32.Gemm(blas.Trans, blas.NoTrans, 1, dOut, in, 0, of(w.Rows, w.Cols, dW))
	clear(dB)
	for r := range dOut.Rows {
		for i, d := range dOut.Data[r*dOut.Stride:][:dOut.Cols] {
			dB[i] += d
		}
	}
	if dIn.Rows == 0 {
		return
	}
	blas32.Gemm(blas.NoTrans, blas.NoTrans, 1, dOut, w, 0, dIn)
	for i, x := range in.Data {
		if x < 0 {
			dIn.Data[i] *= net.Leak
		}
	}
}

// run computes loss and slopes of the worker's part.
func (k *worker) run(n *net.Net) {
	w1, w2, w3 := of(net.First, n.Inputs, n.W1), of(net.Second, net.First, n.W2), of(1, net.Second, n.W3)
	forward(k.one, k.in, w1, n.B1, true)
	forward(k.two, k.one, w2, n.B2, true)
	forward(k.out, k.two, w3, n.B3, false)
	k.loss = 0
	for i, x := range k.out.Data {
		p := 1 / (1 + math.Exp(-float64(x)))
		y := 0.0
		if k.plucked[i] {
			y = 1
		}
		k.loss -= y*math.Log(p+1e-12) + (1-y)*math.Log(1-p+1e-12)
		k.dOut.Data[i] = float32((p - y) / batch)
	}
	s := k.slope
	backward(k.dOut, k.two, w3, s.W3, s.B3, k.dTwo)
	backward(k.dTwo, k.one, w2, s.W2, s.B2, k.dOne)
	backward(k.dOne, k.in, w1, s.W1, s.B1, blas32.General{})
}

// learn returns a net that has gone through a lesson so many times. It tells of each time.
func learn(seed uint64, l lesson, times int, tell func(time int, loss float64)) *net.Net {
	r := rand.New(rand.NewPCG(seed, 1))
	n := net.New(l.inputs)
	for _, w := range []struct {
		weights []float32
		from    int
	}{{n.W1, l.inputs}, {n.W2, net.First}, {n.W3, net.Second}} { // He and others, ICCV 2015
		for i := range w.weights {
			w.weights[i] = float32(r.NormFloat64() * math.Sqrt(2/float64(w.from)))
		}
	}
	first, second := net.New(l.inputs), net.New(l.inputs)
	workers := make([]*worker, shards)
	for i := range workers {
		workers[i] = newWorker(l.inputs, batch/shards)
	}
	order := make([]int, len(l.plucked))
	for i := range order {
		order[i] = i
	}
	steps := times * (len(order) / batch)
	done := 0
	for time := range times {
		r.Shuffle(len(order), func(a, b int) { order[a], order[b] = order[b], order[a] })
		var loss float64
		for b := 0; b+batch <= len(order); b += batch {
			var wait sync.WaitGroup
			for s, k := range workers {
				rows := order[b+s*batch/shards : b+(s+1)*batch/shards]
				wait.Go(func() {
					for i, row := range rows {
						l.at(row, k.in.Data[i*l.inputs:][:l.inputs])
						k.plucked[i] = l.plucked[row]
					}
					k.run(n)
				})
			}
			wait.Wait()
			done++
			rate := step * 0.5 * (1 + math.Cos(math.Pi*float64(done)/float64(steps)))
			if first := min(warming, steps/10+1); done < first {
				rate *= float64(done) / float64(first)
			}
			adam(n, first, second, workers, rate, done)
			for _, k := range workers {
				loss += k.loss
			}
		}
		tell(time+1, loss/float64(len(order)/batch*batch))
	}
	return n
}

// adam moves the weights a step down the slopes.
func adam(n, first, second *net.Net, workers []*worker, rate float64, done int) {
	one, two := 1-math.Pow(beta1, float64(done)), 1-math.Pow(beta2, float64(done))
	size := float32(rate * math.Sqrt(two) / one)
	m, v := first.Weights(), second.Weights()
	for p, weights := range n.Weights() {
		slopes := make([][]float32, len(workers))
		for i, k := range workers {
			slopes[i] = k.slope.Weights()[p]
		}
		for i := range weights {
			var g float32
			for _, s := range slopes {
				g += s[i]
			}
			m[p][i] = beta1*m[p][i] + (1-beta1)*g
			v[p][i] = beta2*v[p][i] + (1-beta2)*g*g
			weights[i] -= size*m[p][i]/(float32(math.Sqrt(float64(v[p][i])))+epsilon) + float32(rate*decay)*weights[i]
		}
	}
}
