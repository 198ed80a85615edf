package memory

import (
	"bufio"
	"compress/gzip"
	"fmt"
	"math"
	"os"
	"strconv"
	"strings"
	"testing"
)

// The vectors come from npm ts-fsrs 5.4.2 (MIT); testdata/gen/memory-fsrs6.mjs says how they were made.
func TestFSRS6AgreesWithAnotherImplementation(t *testing.T) {
	file, err := os.Open("../../testdata/memory-fsrs6.tsv.gz")
	if err != nil {
		t.Fatal(err)
	}
	defer file.Close()
	lines, err := gzip.NewReader(file)
	if err != nil {
		t.Fatal(err)
	}
	var weights []Weights
	var histories int
	var worst float64
	differ := func(what string, history string, got, want float64) {
		off := math.Abs(got-want) / max(1, math.Abs(want))
		worst = max(worst, off)
		if off > 1e-6 {
			t.Errorf("%s: %s %.9g, want %.9g", history, what, got, want)
		}
	}
	for scan := bufio.NewScanner(lines); scan.Scan(); {
		part := strings.Split(scan.Text(), "\t")
		if part[0] == "w" {
			weights = append(weights, Weights(floats(t, part[1:])))
			continue
		}
		w := weights[int(floats(t, part[1:2])[0])]
		want := floats(t, part[3:])
		var trace Trace
		answers := strings.Split(part[2], ",")
		for i, answer := range answers {
			var g Grade
			var days float64
			if _, err := fmt.Sscanf(answer, "%d@%g", &g, &days); err != nil {
				t.Fatal(err)
			}
			if i == 0 {
				trace = w.First(g)
			} else {
				trace = w.Next(trace, days, g)
			}
		}
		differ("stability", part[2], trace.Stability, want[0])
		differ("difficulty", part[2], trace.Difficulty, want[1])
		differ("retrievability", part[2], w.Retrievability(trace, float64(len(answers))), want[2])
		differ("interval", part[2], max(1, math.Round(w.Interval(trace, 0.85))), want[3])
		histories++
	}
	if histories != 10_000 {
		t.Errorf("%d histories, want 10,000", histories)
	}
	if weights[0] != DefaultWeights {
		t.Errorf("default weights %v, want %v", DefaultWeights, weights[0])
	}
	t.Logf("%d histories, %d sets of weights, worst difference %.2g", histories, len(weights), worst)
}

func floats(t *testing.T, texts []string) []float64 {
	t.Helper()
	var all []float64
	for _, s := range texts {
		x, err := strconv.ParseFloat(s, 64)
		if err != nil {
			t.Fatal(err)
		}
		all = append(all, x)
	}
	return all
}

// A student's w8 of 1.08 and less says that what is recalled lasts little longer each time, 1.12 and more that it lasts many times as long. Nobody
// begins with the second.
func TestHowFarWhatIsRecalledGrows(t *testing.T) {
	for growth, want := range map[float64]float64{0: 0, 1.08: 0, 1.09: 0.25, 1.11: 0.75, 1.12: 1, 4.5: 1} {
		w := StartWeights
		w[8] = growth
		if got := w.Growing(); math.Abs(got-want) > 1e-9 {
			t.Errorf("w8 %v: %v, want %v", growth, got, want)
		}
	}
	if w := StartWeights; w.Growing() != 0 {
		t.Errorf("a student begins with %v", w.Growing())
	}
}
