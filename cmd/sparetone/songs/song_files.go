package songs

import (
	"fmt"
	"os"
	"slices"

	"github.com/spf13/cobra"

	"sparetone/cmd/sparetone/command"
	"sparetone/drills/perform"
	"sparetone/synth"
	"sparetone/synth/playback"
	"sparetone/theory"
	"sparetone/theory/fret"
	"sparetone/theory/song"
	"sparetone/theory/song/arrange"
	"sparetone/theory/song/musicxml"
)

// songOut is where a song goes beside the screen, and how it is played.
type songOut struct {
	play                bool
	wav, midi, musicxml string
	sounds, voice       string
	tempo, a4           float64
	click, countIn      bool
}

// addSongOut adds the options of songOut.
func addSongOut(cmd *cobra.Command) *songOut {
	f, out := cmd.Flags(), &songOut{}
	f.BoolVar(&out.play, "play", false, "play the song, round and round, until it is stopped")
	f.StringVar(&out.wav, "wav", "", "write what is played as a WAV file")
	f.StringVar(&out.midi, "midi", "", "write what is played as a Standard MIDI File")
	f.StringVar(&out.musicxml, "musicxml", "", "write the chords, their shapes and their notes as MusicXML")
	f.StringVar(&out.sounds, "sounds", string(perform.Path), "what is played: path, plain, by-turns or by-bars")
	command.AddVoice(cmd, &out.voice)
	f.Float64Var(&out.tempo, "tempo", 0, fmt.Sprintf("beats a minute, %d to %d (default: what the chart says)", song.LowestTempo, song.HighestTempo))
	f.Float64Var(&out.a4, "a4", theory.StandardA4, "frequency of A4 in Hz, 415 to 466")
	f.BoolVar(&out.click, "click", false, "a click on each beat")
	f.BoolVar(&out.countIn, "count-in", false, "a bar of clicks before")
	command.AddForce(cmd, "write in the place of files that are there")
	return out
}

// check says what in the options is wrong.
func (out *songOut) check() error {
	if _, err := command.VoiceOf(out.voice, fret.Tunings()[0]); err != nil {
		return err
	}
	if !slices.Contains(perform.All(), perform.Sounds(out.sounds)) {
		return command.Wrong("--sounds: %q; it is path, plain, by-turns or by-bars", theory.Clip(out.sounds))
	}
	if !(out.tempo == 0 || out.tempo >= song.LowestTempo && out.tempo <= song.HighestTempo) {
		return command.Wrong("--tempo: %v beats a minute; it must be %d to %d", out.tempo, song.LowestTempo, song.HighestTempo)
	}
	if !(out.a4 >= synth.LowestA4 && out.a4 <= synth.HighestA4) {
		return command.Wrong("--a4: %v Hz; it must be %v to %v", out.a4, synth.LowestA4, synth.HighestA4)
	}
	return nil
}

// files makes what is to be written, before anything is: so nothing is if something cannot be.
func (out *songOut) files(a arrange.Arrangement) ([]command.NamedFile, error) {
	var files []command.NamedFile
	if out.musicxml != "" {
		text := musicxml.Write(a, perform.Sounds(out.sounds) == perform.Plain)
		files = append(files, command.NamedFile{Option: "--musicxml", Path: out.musicxml, Write: func(f *os.File) error {
			_, err := f.WriteString(text)
			return err
		}})
	}
	if out.wav == "" && out.midi == "" {
		return files, nil
	}
	p, err := perform.Play(a, out.wishes(1))
	if err != nil {
		return nil, err
	}
	if out.midi != "" {
		files = append(files, command.NamedFile{Option: "--midi", Path: out.midi, Write: func(f *os.File) error { return synth.WriteMIDI(f, p.Score, p.MIDI(a)) }})
	}
	if out.wav != "" {
		sound, err := out.render(p.Score, a.Tuning)
		if err != nil {
			return nil, err
		}
		files = append(files, command.NamedFile{Option: "--wav", Path: out.wav, Write: func(f *os.File) error { return synth.WriteWAV(f, sound, 16) }})
	}
	return files, nil
}

func (out *songOut) wishes(rounds int) perform.Wishes {
	return perform.Wishes{Sounds: perform.Sounds(out.sounds), Tempo: out.tempo, Rounds: rounds, Click: out.click, CountIn: out.countIn}
}

func (out *songOut) render(s synth.Score, on *fret.Tuning) (*synth.Sound, error) {
	v, err := command.VoiceOf(out.voice, on)
	if err != nil {
		return nil, err
	}
	return synth.Render(s, v, synth.Options{A4: out.a4})
}

// playOn plays a song round and round until the command is stopped.
func (out *songOut) playOn(cmd *cobra.Command, a arrange.Arrangement) error {
	once, round, err := perform.Loop(a, out.wishes(1))
	if err != nil {
		return command.Fault(err)
	}
	v, err := command.VoiceOf(out.voice, a.Tuning)
	if err != nil {
		return err
	}
	sound, err := synth.RenderLoop(once, round, v, synth.Options{A4: out.a4})
	if err != nil {
		return command.Fault(err)
	}
	return command.Fault(command.PlayNow(cmd, sound, playback.AheadOfSong))
}
