// Command train makes the weights of the three nets that hear strings, from sounds that it invents.
//
//	go run ./synth/hear/train
//
// writes synth/hear/net/strum.net, masked.net and pluck.net. The same seed makes the same weights, byte for byte, on one
// architecture.
package main

import (
	"flag"
	"fmt"
	"os"
	"path/filepath"
	"time"

	"sparetone/progress/whole"
	"sparetone/synth/hear/net"
)

func main() {
	sounds := flag.Int("sounds", 0, "how many sounds each net learns from; 0: as many as the nets in the repository")
	times := flag.Int("times", 0, "how often it goes through them; 0: as often as the nets in the repository")
	seed := flag.Uint64("seed", 19, "what the sounds are drawn by")
	workers := flag.Int("workers", 2, "how many processors invent sounds")
	only := flag.String("only", "", "strum, masked or pluck: make that one alone")
	out := flag.String("out", filepath.Join("synth", "hear", "net"), "the folder to write to")
	flag.Parse()
	for _, kind := range kinds {
		if *only != "" && *only != kind.name {
			continue
		}
		if *sounds > 0 {
			kind.sounds = *sounds
		}
		if *times > 0 {
			kind.times = *times
		}
		began := time.Now()
		n := teach(*seed, kind.sounds, kind.times, *workers, kind, func(format string, a ...any) {
			fmt.Printf("%s, %4.0f s: "+format+"\n", append([]any{kind.name, time.Since(began).Seconds()}, a...)...)
		})
		err := whole.Replace(filepath.Join(*out, kind.name+".net"), 0o644, func(f *os.File) error {
			_, err := f.Write(n.Marshal())
			return err
		})
		if err != nil {
			fmt.Fprintln(os.Stderr, err)
			os.Exit(1)
		}
	}
}

// teach makes a net, and tells how it fares on sounds that it does not learn from.
func teach(seed uint64, sounds, times, workers int, k kind, say func(format string, a ...any)) *net.Net {
	l := newLesson(seed, sounds, workers, k)
	say("%d notes of %d sounds", len(l.plucked), sounds)
	n := learn(seed, l, times, func(time int, loss float64) { say("time %d, loss %.4f", time, loss) })
	other := newLesson(seed+1, max(1, sounds/20), workers, k)
	var wrong int
	in := make([]float32, other.inputs)
	for i, plucked := range other.plucked {
		other.at(i, in)
		if (n.Odds(in) > 0) != plucked {
			wrong++
		}
	}
	say("of notes of other sounds %.2f %% misjudged", 100*float64(wrong)/float64(len(other.plucked)))
	return n
}
