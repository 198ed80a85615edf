package lookup

import (
	"context"
	"errors"
	"fmt"
	"io"
	"time"

	"sparetone/cmd/sparetone/command"
	"sparetone/drills/practice"
	"sparetone/synth/capture"
)

// Microphone is where the microphone is: the machine's, or a test's.
var Microphone = capture.Device

// listenTo switches the microphone on and hands on what it hears, until a context ends, some time has passed, 0 for none, or whoever takes it
// has enough. How the microphone stands is told on a stream. The error says that there is none.
func listenTo(ctx context.Context, length time.Duration, told io.Writer, take func(capture.Sound) (enough bool, err error)) error {
	app := practice.App{Microphone: capture.NewMicrophone(Microphone())}
	app.Listen(true)
	defer app.Listen(false)
	var end <-chan time.Time
	if length > 0 {
		end = time.After(length)
	}
	heard := false
	for {
		select {
		case <-ctx.Done():
			return nil
		case <-end:
			return nil
		case <-app.HearingChanged():
			state, wrong := app.Microphone.State()
			if state == capture.Deaf && wrong.Kind == capture.NoServer && !heard {
				return command.Fault(errors.New(wrong.Error()))
			}
			if words := app.ListeningWords(); !words.IsZero() {
				fmt.Fprintln(told, words.Screen())
			}
		case <-app.Came():
			sound := app.Microphone.Take()
			heard = heard || len(sound.Samples) > 0
			if enough, err := take(sound); enough || err != nil {
				return err
			}
		}
	}
}
