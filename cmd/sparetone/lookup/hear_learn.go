package lookup

import (
	"context"
	"encoding/binary"
	"errors"
	"fmt"
	"io"
	"math"
	"os"
	"path/filepath"
	"time"

	"sparetone/cmd/sparetone/command"
	"sparetone/drills/played"
	"sparetone/progress/whole"
	"sparetone/synth/capture"
	"sparetone/synth/hear"
	"sparetone/theory"
	"sparetone/theory/fret"
)

// How somebody's own instrument is measured.
const (
	shapesLearnt = 8                // the first of those that are played as a rule
	playWithin   = 20 * time.Second // of its being asked for; else the next is asked for
	beforeStroke = 0.5              // seconds that are kept of what was before it
	restBetween  = time.Second      // in which the last one dies away
)

// learner records shapes as they are asked for, and says how they are heard.
type learner struct {
	tuning *fret.Tuning
	shapes []fret.Shape
	a4     float64
	folder string
	out    *command.Output
	told   io.Writer
}

// LearntRow is a recording, as --json prints it.
type LearntRow struct {
	Frets   string       `json:"frets"`
	Name    string       `json:"name"`
	How     string       `json:"how"` // struck or plucked
	WAV     string       `json:"wav"`
	Verdict hear.Verdict `json:"verdict"` // unsure, where nothing was heard
	Right   int          `json:"right"`   // strings that were surely heard as they should sound
	Unsure  int          `json:"unsure"`
	Wrong   int          `json:"wrong"` // strings that were surely heard otherwise
	Cents   *float64     `json:"cents"` // how far the whole instrument is above its pitches; null if nothing was heard
	NoiseDB *float64     `json:"noise_db"`
}

// learn records what is not recorded yet, and prints the table of all recordings.
func (l learner) learn(ctx context.Context) error {
	if err := whole.MakeFolder(l.folder); err != nil {
		return command.Fault(err)
	}
	var rows []LearntRow
	for n, s := range l.shapes {
		for _, how := range []string{"struck", "plucked"} {
			task := hear.Task{A4: l.a4, Strings: played.Strings(l.tuning), Expect: played.Pitches(l.tuning, s)}
			asks := "strike all strings once"
			if how == "plucked" {
				task.Order, asks = downNumbers(l.tuning), "pluck the strings one after another, from string "+fmt.Sprint(len(l.tuning.Strings))
			}
			row := LearntRow{Frets: s.String(), Name: "no chord we know", How: how, Verdict: hear.Unsure, WAV: fmt.Sprintf("%v-%s.wav", s, how)}
			if _, names := spelled(l.tuning, s); len(names) > 0 {
				row.Name = names[0].Chord.Symbol()
			}
			path := filepath.Join(l.folder, row.WAV)
			if _, err := os.Stat(path); whole.NotThere(path) || errors.Is(err, os.ErrNotExist) {
				fmt.Fprintf(l.told, "%d of %d: %s, %v. Now %s, and let them ring.\n", n+1, len(l.shapes), row.Name, s, asks)
				if err := l.record(ctx, task, path); err != nil {
					return err
				}
			}
			if ctx.Err() != nil {
				return l.table(rows)
			}
			heard, err := l.measure(&row, path, task)
			if err != nil {
				return err
			}
			if heard {
				rows = append(rows, row)
			}
		}
	}
	return l.table(rows)
}

// record waits until something that a task listens for is played, and writes it. Nothing is written where nothing is.
func (l learner) record(ctx context.Context, task hear.Task, path string) error {
	var listener *hear.Listener
	var kept []float64
	var run int
	var rate float64
	written := false
	err := listenTo(ctx, playWithin, l.told, func(s capture.Sound) (enough bool, err error) {
		if listener == nil || s.Run != run {
			if listener, err = hear.Listen(s.Rate, task); err != nil {
				return false, command.Fault(err)
			}
			run, rate, kept = s.Run, s.Rate, nil
		}
		kept = append(kept, s.Samples...)
		for _, r := range listener.Feed(s.Samples) {
			written = true
			from := max(0, int((r.At-beforeStroke)*rate))
			return true, command.Fault(whole.New(path, 0o600, func(f *os.File) error {
				_, err := f.Write(wavOf(kept[from:], rate))
				return err
			}))
		}
		return false, nil
	})
	if err == nil && !written && ctx.Err() == nil {
		fmt.Fprintln(l.told, "Nothing was heard; on with the next.")
	}
	if written {
		select {
		case <-ctx.Done():
		case <-time.After(restBetween):
		}
	}
	return err
}

// measure hears a recording, and reports whether there is one.
func (l learner) measure(row *LearntRow, path string, task hear.Task) (bool, error) {
	file, err := os.Open(path)
	if errors.Is(err, os.ErrNotExist) {
		return false, nil
	}
	if err != nil {
		return false, command.Fault(err)
	}
	defer file.Close()
	wrong := func(err error) error {
		return command.BadInput(fmt.Errorf("%s: %w", theory.Clean(path), err))
	}
	samples, err := capture.ReadWAV(file)
	if err != nil {
		return false, wrong(err)
	}
	listener, err := hear.Listen(samples.Rate, task)
	if err != nil {
		return false, wrong(err)
	}
	var readings []hear.Reading
	block := make([]float64, 4096)
	for {
		n, err := samples.Read(block)
		readings = append(readings, listener.Feed(block[:n])...)
		if err == io.EOF {
			break
		}
		if err != nil {
			return false, wrong(err)
		}
	}
	if readings = append(readings, listener.End()...); len(readings) == 0 {
		row.Unsure = len(task.Strings)
		return true, nil
	}
	r := readings[0]
	cents, noise := inParts(r.Cents, 10), inParts(r.AboveNoise, 10)
	row.Verdict, row.Cents, row.NoiseDB = r.Verdict, &cents, &noise
	for _, h := range r.Strings {
		switch {
		case !h.Certain():
			row.Unsure++
		case h.Pitch == h.Expected:
			row.Right++
		default:
			row.Wrong++
		}
	}
	return true, nil
}

// table prints how recordings are heard, and the sum.
func (l learner) table(rows []LearntRow) error {
	var right, unsure, wrong int
	if !l.out.AsJSON && len(rows) > 0 {
		l.out.Printf("%-12s %-8s %-8s %-8s %5s %6s %5s %6s %9s\n", "frets", "name", "how", "verdict", "right", "unsure", "wrong", "cents", "noise dB")
	}
	for _, r := range rows {
		right, unsure, wrong = right+r.Right, unsure+r.Unsure, wrong+r.Wrong
		if l.out.AsJSON {
			l.out.Object(r)
			continue
		}
		cents, noise := "-", "-"
		if r.Cents != nil {
			cents, noise = fmt.Sprintf("%+.0f", *r.Cents), fmt.Sprintf("%.0f", *r.NoiseDB)
		}
		l.out.Printf("%-12s %-8s %-8s %-8s %5d %6d %5d %6s %9s\n", r.Frets, r.Name, r.How, r.Verdict, r.Right, r.Unsure, r.Wrong, cents, noise)
	}
	if !l.out.AsJSON {
		l.out.Printf("%d strings: %d right, %d unsure, %d wrong. The recordings lie in %s.\n", right+unsure+wrong, right, unsure, wrong, theory.Clean(l.folder))
	}
	return l.out.Done()
}

// downNumbers are the strings from the one with the highest number.
func downNumbers(t *fret.Tuning) (out []int) {
	for n := len(t.Strings); n > 0; n-- {
		out = append(out, n)
	}
	return out
}

// wavOf is samples as a WAV file of 16 bits, one channel.
func wavOf(samples []float64, rate float64) []byte {
	const headBytes = 44
	size, hz := uint32(2*len(samples)), uint32(math.Round(rate))
	le := binary.LittleEndian
	out := le.AppendUint32([]byte("RIFF"), headBytes-8+size)
	out = le.AppendUint32(append(out, "WAVEfmt "...), 16)
	out = le.AppendUint16(le.AppendUint16(out, 1), 1)
	out = le.AppendUint32(le.AppendUint32(out, hz), 2*hz)
	out = le.AppendUint16(le.AppendUint16(out, 2), 16)
	out = le.AppendUint32(append(out, "data"...), size)
	for _, x := range samples {
		out = le.AppendUint16(out, uint16(int16(math.Round(math.MaxInt16*max(-1, min(1, x))))))
	}
	return out
}
