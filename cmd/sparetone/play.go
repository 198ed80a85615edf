package main

import (
	"fmt"
	"os"

	"github.com/spf13/cobra"

	"sparetone/cmd/sparetone/command"
	"sparetone/cmd/sparetone/lookup"
	"sparetone/drills"
	"sparetone/drills/inturn"
	"sparetone/synth"
	"sparetone/synth/playback"
	"sparetone/theory"
	"sparetone/theory/fret"
	"sparetone/theory/song"
)

func newPlay() *cobra.Command {
	var how, voice, out, order string
	var a4, tempo float64
	var bits int
	cmd := &cobra.Command{
		Use:     "play SYMBOL|FRETS…",
		Short:   "Play chords or shapes, or write them to a WAV file",
		Example: "  sparetone play Cadd9\n  sparetone play 0003 0203 --how pick\n  sparetone play Am7 --out am7.wav\n  sparetone play C Am F G --tempo 100 --order '4 2 3 1'",
		RunE: func(cmd *cobra.Command, args []string) error {
			t, err := command.TuningOf(cmd)
			if err != nil {
				return err
			}
			v, err := command.VoiceOf(voice, t)
			if err != nil {
				return err
			}
			way, err := synth.ParseHow(how)
			if err != nil {
				return command.Wrong("--how: %w", err)
			}
			if !(tempo == 0 || tempo >= 20 && tempo <= 600) {
				return command.Wrong("--tempo: %v plucks a minute; it must be 20 to 600", tempo)
			}
			if bits != 16 && bits != 24 {
				return command.Wrong("--bits: %d bits a sample; it must be 16 or 24", bits)
			}
			var picking synth.Pattern
			if order != "" {
				if picking, err = orderOf(order, len(t.Strings)); err != nil {
					return command.Wrong("--order: %w", err)
				}
				if cmd.Flags().Changed("how") && way != synth.Pick {
					return command.Wrong("--order: it is for --how pick, and --how is %s", way)
				}
			}
			force := command.Forced(cmd)
			hand := synth.Hand{Tempo: tempo}
			var all []fret.Voicing
			err = command.Each(cmd, args, func(o *command.Output, input string) error {
				voicing, how, err := voiceInput(t, input)
				if err != nil {
					return err
				}
				if text := how.String(); text != "" {
					o.Printf("%s\n", text)
				}
				o.Printf("%s\n", playedText(voicing))
				all = append(all, voicing)
				return nil
			})
			if len(all) == 0 || err != nil && (out != "" || err != command.ErrReported) {
				return err // a file would not hold what was asked for
			}
			sound, failed := synth.Render(scoreOf(hand, way, picking, all), v, synth.Options{A4: a4})
			if failed != nil {
				return command.Wrong("%w", failed)
			}
			if out == "" {
				failed = command.PlayNow(cmd, sound, playback.AheadOfSound)
			} else {
				failed = command.WriteFiles([]command.NamedFile{{Option: "--out", Path: out, Write: func(f *os.File) error { return synth.WriteWAV(f, sound, bits) }}}, force)
			}
			if failed != nil {
				return command.Fault(failed)
			}
			return err
		},
	}
	f := cmd.Flags()
	command.AddTuning(cmd)
	f.StringVar(&how, "how", "strum", "block, strum, up, pick or apart")
	command.AddVoice(cmd, &voice)
	f.Float64Var(&a4, "a4", theory.StandardA4, "frequency of A4 in Hz, 415 to 466")
	f.Float64Var(&tempo, "tempo", 0, "plucks a minute, 20 to 600, and strokes: chords then come in time (default 120 plucks, chords one by one)")
	f.StringVar(&order, "order", "", "the strings in the order in which they are picked, by number, such as '4 2 3 1'; . rests, - rings on, (41) is two together")
	f.StringVar(&out, "out", "", "write a WAV file and play nothing")
	command.AddForce(cmd, "write in the place of a file that is there")
	f.IntVar(&bits, "bits", 16, "bits a sample in the WAV file: 16 or 24")
	return cmd
}

// orderOf reads an order of strings as a pattern of a pluck a beat.
func orderOf(typed string, strings int) (synth.Pattern, error) {
	p, err := song.ParsePick(typed, strings)
	out := synth.Pattern{PerBeat: 1}
	for _, s := range p.Steps {
		if s.Hammer {
			return out, fmt.Errorf("%q: a hammer goes from a plain chord to a coloured one, in a song", theory.Clip(typed))
		}
		out.Steps = append(out.Steps, synth.Step{Strings: s.Pluck, Still: s.Still})
	}
	return out, err
}

// scoreOf sets voicings one after another: in time, if an order of strings is given, or a tempo for strokes; else
// each by itself.
func scoreOf(hand synth.Hand, way synth.How, order synth.Pattern, all []fret.Voicing) synth.Score {
	stroke := way == synth.Block || way == synth.Strum || way == synth.Up
	beats := float64(len(order.Steps))
	if beats == 0 && stroke && hand.Tempo > 0 {
		order, beats = synth.Pattern{Steps: []synth.Step{{Stroke: way}}, PerBeat: 1}, 1
	}
	if beats > 0 {
		var held []synth.Held
		for _, v := range all {
			held = append(held, synth.Held{Notes: drills.Soundings(v), Beats: beats})
		}
		return hand.Along(order, held...)
	}
	var scores []synth.Score
	for _, v := range all {
		scores = append(scores, hand.Play(way, drills.Soundings(v)))
	}
	return synth.Then(inturn.Gap, scores...)
}

// playedText says what is played: C: 0003.
func playedText(v fret.Voicing) string {
	if v.Chord.Kind == nil {
		return v.Shape.String()
	}
	return fmt.Sprintf("%s: %s", v.Chord, v.Shape)
}

// voiceInput understands a shape or a chord symbol, and returns what should be known of how that was read; a symbol is heard in
// its easiest shape.
func voiceInput(t *fret.Tuning, input string) (v fret.Voicing, how command.Remark, err error) {
	if lookup.IsFrets(input) {
		s, err := fret.ParseShape(input)
		if err != nil {
			return v, how, err
		}
		v, _, err = fret.Hear(t, s, theory.Context{})
		return v, how, err
	}
	c, how, err := command.ReadChord(input)
	if err != nil {
		return v, how, err
	}
	found := fret.Search(t, c, fret.DefaultHand)
	if len(found) == 0 {
		return v, how, how.After(fmt.Errorf("%s has no shape on %s that a hand can hold", c, t.Name))
	}
	v, err = fret.Voice(t, found[0].Shape, c)
	return v, how, err
}
