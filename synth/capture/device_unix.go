//go:build unix && !darwin

package capture

import (
	"context"

	"sparetone/synth"
)

// openDevice opens the machine's microphone.
func openDevice(ctx context.Context) (Source, error) {
	server, err := synth.PulseServer()
	if err != nil {
		return nil, &Fault{NoServer, err.Error()}
	}
	return openPulse(ctx, server)
}
