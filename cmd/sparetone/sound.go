package main

import (
	"os"
	"sync"
	"time"

	"sparetone/synth/playback"
)

// openSpeaker opens the machine's sound device. The library that speaks to PulseAudio prints what it does not
// understand to standard output, across what the program writes there: for it that one leads nowhere from now on.
func openSpeaker(volume float64) playback.Speaker {
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
