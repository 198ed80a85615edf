package tui

import (
	"testing"
	"time"
)

// How many times real time a song is rendered while the screen is drawn anew at every frame, as it is while it plays.
func BenchmarkASongWhileTheScreenRedraws(b *testing.B) {
	a := sized(playing(b, evergreen, 1), 200, 50)
	speaker := a.Speaker.(songSpeaker)
	sound := speaker.sounds[len(speaker.sounds)-1]
	done, drawn := make(chan bool), make(chan int)
	go func() {
		n := 0
		for {
			select {
			case <-done:
				drawn <- n
				return
			case <-time.After(frame):
				a.made = nil
				a.draw()
				n++
			}
		}
	}()
	var buf [480][2]float64
	b.ResetTimer()
	for range b.N {
		for range 100 { // a second
			sound.Stream(buf[:])
		}
	}
	b.ReportMetric(float64(b.N)/b.Elapsed().Seconds(), "times-real-time")
	close(done)
	b.ReportMetric(float64(<-drawn), "frames")
}
