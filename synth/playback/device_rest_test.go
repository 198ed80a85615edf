//go:build unix && !darwin

package playback

import (
	"testing"
	"time"
)

// A device that rests makes nothing until it is woken, and is then heard at once.
func TestARestingDeviceIsWoken(t *testing.T) {
	d := &pulseDevice{mix: &mixer{}}
	d.awake.L = &d.mu
	d.rest()
	made := make(chan int)
	go func() {
		n, _ := d.read(make([]float32, 64))
		made <- n
	}()
	select {
	case n := <-made:
		t.Fatalf("at rest it makes %d samples", n)
	case <-time.After(20 * time.Millisecond):
	}
	d.wake()
	select {
	case n := <-made:
		if n != 64 {
			t.Errorf("it makes %d samples of 64", n)
		}
	case <-time.After(5 * time.Second):
		t.Fatal("it is not woken")
	}
}
