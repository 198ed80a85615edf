package page_test

import (
	"testing"
	"time"

	"sparetone/synth/playback"
	"sparetone/tui/page"
	"sparetone/tui/page/player"
)

// changing is a speaker whose device comes and goes.
type changing struct {
	playback.Speaker
	state  playback.State
	reason string
}

func (c *changing) State() (playback.State, string) { return c.state, c.reason }

// While a device is opened once more, nothing can be heard yet: what was known of it before stands, and what was said.
func TestNoDeviceUntilOneIsReady(t *testing.T) {
	app := player.Practising(t, "shape-name", "ukulele", 1, time.Now)
	speaker := &changing{app.Speaker, playback.Opening, ""}
	app.Speaker = speaker
	if err := app.Plan(false); err != nil {
		t.Fatal(err)
	}
	w := page.NewWalk(app, page.Places{})
	for n, step := range []struct {
		state      playback.State
		reason     string
		deviceless bool
		said       string
	}{
		{playback.Opening, "", false, ""},
		{playback.NoDevice, "it is gone", true, "No sound (it is gone): only questions for the eye."},
		{playback.Opening, "", true, "No sound (it is gone): only questions for the eye."},
		{playback.NoDevice, "none opens", true, "No sound (none opens): only questions for the eye."},
		{playback.Ready, "", false, ""},
		{playback.Opening, "", false, ""},
	} {
		speaker.state, speaker.reason = step.state, step.reason
		w.SoundChanged(nil)
		if w.Deviceless != step.deviceless {
			t.Errorf("step %d, %v: without a device: %v", n, step.state, w.Deviceless)
		}
		if got := w.Trouble.Screen(); got != step.said {
			t.Errorf("step %d, %v: %q is said", n, step.state, got)
		}
	}
}
