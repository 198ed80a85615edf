//go:build unix && !darwin

package capture

import (
	"context"

	"sparetone/synth/playback"
)

// openDevice opens the machine's microphone: that of a PulseAudio server, which may come and go, else what ALSA has.
func openDevice(ctx context.Context) (Source, error) {
	server, err := playback.PulseServer()
	if err == nil {
		var f *feed
		if f, err = openPulse(ctx, server); err == nil {
			return f, nil
		}
	}
	wrong := faultOf(err, NoServer)
	if wrong.Kind != NoServer || !alsaMayHear() {
		return nil, wrong
	}
	return openArecord(ctx)
}
