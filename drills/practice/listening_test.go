package practice_test

import (
	"testing"
	"testing/synctest"
	"time"

	"sparetone/drills/practice"
	"sparetone/synth/capture"
)

func TestListening(t *testing.T) {
	synctest.Test(t, func(t *testing.T) {
		line := capture.NewLine(8000)
		app := practice.App{Microphone: capture.NewMicrophone(line)}
		says := func(on bool, want string) {
			t.Helper()
			synctest.Wait()
			if got := app.ListeningWords().Screen(); got != want || app.Listens() != on {
				t.Errorf("it says %q, listens: %v; want %q, %v", got, app.Listens(), want, on)
			}
		}
		says(false, "")
		app.Listen(true)
		says(true, "The microphone opens.")
		line.Put([]float64{0.1})
		says(true, "Listening.")
		line.Fail(&capture.Fault{Kind: capture.Gone})
		says(true, "Not listening: the microphone is gone. It tries again.")
		app.Listen(false)
		says(false, "")
		time.Sleep(time.Minute) // and stays so
		says(false, "")
	})
	var none practice.App
	none.Listen(true)
	if none.Listens() || !none.ListeningWords().IsZero() {
		t.Error("where there is no microphone it listens")
	}
}
