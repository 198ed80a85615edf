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
	state playback.State
}

func (c *changing) State() (playback.State, string) { return c.state, "" }

// While a device is opened once more, nothing can be heard yet: what was known of it before stands.
func TestNoDeviceUntilOneIsReady(t *testing.T) {
	app := player.Practising(t, "shape-name", "ukulele", 1, time.Now)
	speaker := &changing{app.Speaker, playback.Opening}
	app.Speaker = speaker
	if err := app.Plan(false); err != nil {
		t.Fatal(err)
	}
	w := page.NewWalk(app, page.Places{})
	for n, step := range []struct {
		state      playback.State
		deviceless bool
	}{{playback.Opening, false}, {playback.NoDevice, true}, {playback.Opening, true}, {playback.NoDevice, true}, {playback.Ready, false}, {playback.Opening, false}} {
		speaker.state = step.state
		w.SoundChanged(nil)
		if w.Deviceless != step.deviceless {
			t.Errorf("step %d, %v: without a device: %v", n, step.state, w.Deviceless)
		}
	}
}
