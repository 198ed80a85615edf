package command

import (
	"context"
	"fmt"
	"os"
	"strings"
	"sync"
	"time"

	"github.com/spf13/cobra"

	"sparetone/drills/neck"
	"sparetone/synth"
	"sparetone/synth/playback"
	"sparetone/theory/fret"
)

// OpenSpeaker opens the machine's sound device. The library that speaks to PulseAudio prints what it does not
// understand to standard output, across what the program writes there: for it that one leads nowhere from now on.
func OpenSpeaker(volume float64) playback.Speaker {
	hideOutput()
	return playback.Open(volume)
}

// openSteadySpeaker opens it for what is only listened to.
func openSteadySpeaker(volume float64, ahead time.Duration) playback.Speaker {
	hideOutput()
	return playback.OpenSteady(volume, ahead)
}

// hideOutput takes standard output away from libraries. The program's own commands have theirs already.
var hideOutput = sync.OnceFunc(func() {
	if null, err := os.OpenFile(os.DevNull, os.O_WRONLY, 0); err == nil {
		os.Stdout = null
	}
})

// AddVoice adds the option of a voice.
func AddVoice(cmd *cobra.Command, into *string) {
	cmd.Flags().StringVar(into, "voice", "", "what it sounds like: "+voiceNames()+" (default: what is like the instrument)")
}

// VoiceOf is the voice of that name, or if none is named the instrument's own; the error is of the option.
func VoiceOf(named string, t *fret.Tuning) (synth.Voice, error) {
	if named == "" {
		return neck.OwnVoice(t), nil
	}
	v, err := synth.VoiceByName(named)
	if err != nil {
		return nil, Wrong("--voice: %w", err)
	}
	return v, nil
}

// voiceNames lists the voices that strings may have, for the help of an option.
func voiceNames() string {
	var names []string
	for _, v := range synth.Voices() {
		names = append(names, v.Name())
	}
	return strings.Join(names, ", ")
}

// PlayNow plays a sound on the machine's device, of which so much lies with it, and waits until it has ended.
func PlayNow(cmd *cobra.Command, sound *synth.Sound, ahead time.Duration) error {
	s := openSteadySpeaker(playback.StartVolume, ahead)
	defer s.Close()
	s.Play(sound)
	tick := time.NewTicker(20 * time.Millisecond)
	defer tick.Stop()
	for {
		if state, reason := s.State(); state == playback.NoDevice {
			return fmt.Errorf("no sound: %s; --out writes a WAV file instead", reason)
		}
		if !s.Playing() {
			return nil
		}
		select {
		case <-cmd.Context().Done():
			return context.Cause(cmd.Context())
		case <-tick.C:
		}
	}
}
