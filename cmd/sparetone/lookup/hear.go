package lookup

import (
	"errors"
	"fmt"
	"io"
	"slices"
	"strconv"
	"strings"
	"time"

	"github.com/spf13/cobra"

	"sparetone/cmd/sparetone/command"
	"sparetone/drills/played"
	"sparetone/synth"
	"sparetone/synth/capture"
	"sparetone/synth/hear"
	"sparetone/theory"
	"sparetone/theory/fret"
)

// HeardRow is a stroke, or a time through the strings, as --json prints it.
type HeardRow struct {
	At      float64          `json:"at"`       // seconds from the beginning
	Cents   float64          `json:"cents"`    // how far the whole instrument is above its pitches
	NoiseDB float64          `json:"noise_db"` // how far the noise lies below what was played
	Shape   []*int           `json:"shape"`    // null for a string that is silent
	Names   []string         `json:"names"`    // of the shape, the plainest first
	Strings []heardStringRow `json:"strings"`
	Verdict hear.Verdict     `json:"verdict"`
}

// heardStringRow is what one string sounded.
type heardStringRow struct {
	String   int      `json:"string"`
	Expected *string  `json:"expected"` // null if nothing is expected of it
	Heard    *string  `json:"heard"`    // null if it is silent
	Cents    *float64 `json:"cents"`    // how far it is above that pitch; null if it is silent
	Sure     float64  `json:"sure"`     // 0 to 1
}

func NewHear() *cobra.Command {
	var expect, order string
	var a4, rate, seconds float64
	var folder string
	cmd := &cobra.Command{
		Use:   "hear [FILE.wav|-]",
		Short: "Say which strings sound what, in a recording or before the microphone",
		Long: "Say what is played in a recording: each stroke over the strings, or with --order the strings plucked one after another.\n" +
			"With - raw samples are read from standard input: 16 bits, signed, little-endian, one channel.\n" +
			"Without either the microphone is listened to, until Ctrl-C or for so many seconds; nothing of it is kept.\n" +
			"With --learn shapes are asked for and recorded to a folder of your choosing, and a table says how they are heard.\n" +
			"What is recorded there already is not asked for again.",
		Example: "  sparetone hear --expect 0003\n  sparetone hear --learn my-ukulele --tuning ukulele\n  sparetone hear take.wav --expect 0003\n  sparetone hear take.wav --expect 0232 --order 4321\n" +
			"  arecord -q -f S16_LE -r 48000 -c 1 -t raw | sparetone hear - --rate 48000",
		RunE: func(cmd *cobra.Command, args []string) error {
			if len(args) > 1 {
				return command.Wrong("%s hears one recording at a time: the name of a WAV file, or - for raw samples from standard input", cmd.CommandPath())
			}
			if err := checkHearing(cmd, args, seconds); err != nil {
				return err
			}
			t, err := command.TuningOf(cmd)
			if err != nil {
				return err
			}
			if !(a4 >= synth.LowestA4 && a4 <= synth.HighestA4) {
				return command.Wrong("--a4: %v Hz; it must be %v to %v", a4, synth.LowestA4, synth.HighestA4)
			}
			task, err := taskOf(t, expect, order, a4)
			if err != nil {
				return err
			}
			rep := reporter{out: command.NewOutput(cmd), tuning: t}
			if task.Expect != nil {
				rep.expected, _ = spelled(t, played.Shape(t, task.Expect))
			}
			if cmd.Flags().Changed("learn") {
				shapes := played.Book(t)
				shapes = shapes[:min(len(shapes), shapesLearnt)]
				if task.Expect != nil {
					shapes = []fret.Shape{played.Shape(t, task.Expect)}
				}
				return learner{t, shapes, a4, folder, rep.out, cmd.ErrOrStderr()}.learn(cmd.Context())
			}
			if len(args) == 0 {
				return hearMicrophone(cmd, task, rep, time.Duration(seconds*float64(time.Second)))
			}
			samples, closed, err := openRecording(cmd, args[0], rate)
			if err != nil {
				return err
			}
			defer closed()
			listener, err := hear.Listen(samples.Rate, task)
			if err != nil {
				return command.Wrong("%w", err)
			}
			block := make([]float64, 4096)
			for {
				n, err := samples.Read(block)
				if n > 0 {
					if err := rep.tells(listener.Feed(block[:n])); err != nil {
						return err
					}
				}
				if errors.Is(err, io.EOF) {
					return rep.tells(listener.End())
				}
				if err != nil {
					return command.Fault(fmt.Errorf("%s: %w", theory.Clean(args[0]), err))
				}
			}
		},
	}
	command.AddJSON(cmd)
	command.AddTuning(cmd)
	f := cmd.Flags()
	f.StringVar(&expect, "expect", "", "the shape that should be played, such as 0003")
	f.StringVar(&order, "order", "", "the strings in the order in which they are plucked, by number, such as 4321")
	f.Float64Var(&a4, "a4", theory.StandardA4, "frequency of A4 in Hz, 415 to 466")
	f.Float64Var(&seconds, "for", 0, "listen to the microphone for so many seconds; 0 is until Ctrl-C")
	f.StringVar(&folder, "learn", "", "a folder to record shapes to, to measure how your instrument is heard")
	f.Float64Var(&rate, "rate", float64(synth.SampleRate), "of raw samples, how many a second")
	return cmd
}

// mostSeconds is how long the microphone may be listened to: a day.
const mostSeconds = 24 * 60 * 60

// checkHearing refuses options that do not go together.
func checkHearing(cmd *cobra.Command, args []string, seconds float64) error {
	given := cmd.Flags().Changed
	switch {
	case !(seconds >= 0 && seconds <= mostSeconds):
		return command.Wrong("--for: %v seconds; it must be 0 to %d", seconds, mostSeconds)
	case len(args) > 0 && given("for"):
		return command.Wrong("--for: it is for the microphone; a recording is heard to its end")
	case len(args) > 0 && given("learn"):
		return command.Wrong("--learn: it records what the microphone hears, and takes no recording")
	case given("learn") && (given("for") || given("order")):
		return command.Wrong("--learn: it asks for each shape by itself; leave out --for and --order")
	case given("learn") && cmd.Flag("learn").Value.String() == "":
		return command.Wrong("--learn: name a folder to record to")
	case len(args) == 0 && given("rate"):
		return command.Wrong("--rate: it is for raw samples from -; the microphone says itself how many it has a second")
	}
	return nil
}

// hearMicrophone tells what the microphone hears.
func hearMicrophone(cmd *cobra.Command, task hear.Task, rep reporter, length time.Duration) error {
	var listener *hear.Listener
	var run int
	var rate, before float64 // seconds that were heard before the present run
	fed := 0
	tells := func(readings []hear.Reading) error {
		for i := range readings {
			readings[i].At += before
		}
		return rep.tells(readings)
	}
	err := listenTo(cmd.Context(), length, cmd.ErrOrStderr(), func(s capture.Sound) (bool, error) {
		if listener == nil || s.Run != run {
			if listener != nil {
				if err := tells(listener.End()); err != nil {
					return false, err
				}
				before += float64(fed) / rate
			}
			var err error
			if listener, err = hear.Listen(s.Rate, task); err != nil {
				return false, command.Fault(err)
			}
			run, rate, fed = s.Run, s.Rate, 0
		}
		fed += len(s.Samples)
		return false, tells(listener.Feed(s.Samples))
	})
	if err != nil || listener == nil {
		return err
	}
	return tells(listener.End())
}

// openRecording opens a recording, and returns what closes it.
func openRecording(cmd *cobra.Command, name string, rate float64) (*capture.Samples, func(), error) {
	if name == "-" {
		s, err := capture.ReadRaw(command.Stdin(cmd), rate)
		if err != nil {
			return nil, nil, command.Wrong("--rate: %w", err)
		}
		if s.Begins("RIFF") {
			return nil, nil, command.BadInput(errors.New("standard input: this is a WAV file: name it, or send its raw samples"))
		}
		return s, func() {}, nil
	}
	if cmd.Flags().Changed("rate") {
		return nil, nil, command.Wrong("--rate: it is for raw samples from -; a WAV file says itself how many it has a second")
	}
	file, err := command.OpenInput(cmd.Context(), name)
	if err != nil {
		return nil, nil, command.Fault(err)
	}
	s, err := capture.ReadWAV(command.Interruptible(cmd.Context(), file))
	if err != nil {
		file.Close()
		return nil, nil, command.BadInput(fmt.Errorf("%s: %w", theory.Clean(name), err))
	}
	return s, func() { file.Close() }, nil
}

// taskOf returns what is listened for on a tuning.
func taskOf(t *fret.Tuning, expect, order string, a4 float64) (hear.Task, error) {
	task := hear.Task{A4: a4, Strings: played.Strings(t)}
	for _, s := range played.Book(t) {
		task.Among = append(task.Among, played.Pitches(t, s))
	}
	if expect != "" {
		s, err := fret.ParseShape(expect)
		if err == nil {
			err = t.Check(s)
		}
		if err != nil {
			return task, command.Wrong("--expect: %w", err)
		}
		task.Expect = played.Pitches(t, s)
	}
	if order == "" {
		return task, nil
	}
	words := strings.FieldsFunc(order, func(r rune) bool { return r == ' ' || r == ',' })
	if len(words) == 1 {
		words = strings.Split(words[0], "")
	}
	for _, w := range words {
		n, err := strconv.Atoi(w)
		if err != nil || n < 1 || n > len(t.Strings) || slices.Contains(task.Order, n) {
			return task, command.Wrong("--order: %q in %q: it must be each string once, by its number, 1 to %d, such as %s", theory.Clip(w), theory.Clip(order), len(t.Strings), downOrder(t))
		}
		task.Order = append(task.Order, n)
	}
	if len(task.Order) != len(t.Strings) {
		return task, command.Wrong("--order: %q has %d strings: it must be all %d, each once, such as %s", theory.Clip(order), len(task.Order), len(t.Strings), downOrder(t))
	}
	return task, nil
}

// downOrder is the order of the strings from the one with the highest number, as it is typed.
func downOrder(t *fret.Tuning) (out string) {
	for n := len(t.Strings); n > 0; n-- {
		out += strconv.Itoa(n)
	}
	return out
}

// writtenPitch writes a pitch as --json has it, nil for none.
func writtenPitch(p *theory.Pitch) *string {
	if p == nil {
		return nil
	}
	text := p.Note.ASCII() + strconv.Itoa(p.Octave)
	return &text
}

// reporter tells what is heard on a tuning.
type reporter struct {
	out      *command.Output
	tuning   *fret.Tuning
	expected []*theory.Pitch // of each string; nil if nothing is expected
}

// tells writes readings, and has them seen.
func (rep reporter) tells(readings []hear.Reading) error {
	for _, r := range readings {
		if err := rep.tell(r); err != nil {
			return err
		}
	}
	return rep.out.Done()
}

// tell writes one reading.
func (rep reporter) tell(r hear.Reading) error {
	pitches := make([]int, len(r.Strings))
	for i, h := range r.Strings {
		pitches[i] = h.Pitch
	}
	shape := played.Shape(rep.tuning, pitches)
	sounds, names := spelled(rep.tuning, shape)
	row := HeardRow{
		At: inParts(r.At, 1000), Cents: inParts(r.Cents, 10), NoiseDB: inParts(r.AboveNoise, 10),
		Shape: command.FretsAsJSON(shape), Names: []string{}, Verdict: r.Verdict,
	}
	for _, n := range names[:min(len(names), namesShown)] {
		row.Names = append(row.Names, n.Chord.Symbol())
	}
	var amiss []string
	for i, h := range r.Strings {
		s := heardStringRow{String: h.Number, Heard: writtenPitch(sounds[i]), Sure: inParts(h.Sure, 1000)}
		if h.Pitch != hear.Silent {
			cents := inParts(h.Cents, 10)
			s.Cents = &cents
		}
		if rep.expected != nil {
			s.Expected = writtenPitch(rep.expected[i])
			if h.Pitch != h.Expected && h.Certain() {
				amiss = append(amiss, stringAmiss(h.Number, sounds[i], rep.expected[i]))
			}
		}
		row.Strings = append(row.Strings, s)
	}
	if rep.out.AsJSON {
		return rep.out.Object(row)
	}
	named := "no chord we know"
	if len(names) > 0 {
		named = names[0].Chord.String()
	}
	says := map[hear.Verdict]string{hear.Right: "that is it", hear.Other: strings.Join(amiss, "; "), hear.Unsure: "not sure"}[r.Verdict]
	if rep.expected == nil && r.Verdict == hear.Right {
		says = "sure"
	}
	rep.out.Printf("%.2f s: %v, %s: %s (%+.0f cents, noise %.0f dB below)\n", r.At, shape, named, says, r.Cents, r.AboveNoise)
	return nil
}

// stringAmiss says how a string sounds other than it should.
func stringAmiss(number int, sounds, expected *theory.Pitch) string {
	switch {
	case sounds == nil:
		return fmt.Sprintf("string %d is silent", number)
	case expected == nil:
		return fmt.Sprintf("string %d sounds %v and should be silent", number, sounds.Note)
	case sounds.Note != expected.Note:
		return fmt.Sprintf("string %d sounds %v, not %v", number, sounds.Note, expected.Note)
	}
	return fmt.Sprintf("string %d sounds %v, not %v", number, sounds, expected)
}
