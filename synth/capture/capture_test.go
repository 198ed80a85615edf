package capture

import (
	"bytes"
	"context"
	"io"
	"testing"
	"testing/synctest"
	"time"
)

func TestRawSamplesAreASource(t *testing.T) {
	s, err := OfReader(bytes.NewReader([]byte{0, 0x40, 0, 0xC0}), 48000)
	if err != nil {
		t.Fatal(err)
	}
	var into [8]float64
	n, err := s.Read(context.Background(), into[:])
	if n != 2 || into[0] != 0.5 || into[1] != -0.5 || err != nil {
		t.Errorf("%v of %d, %v", into, n, err)
	}
	if _, err := s.Read(context.Background(), into[:]); err != io.EOF {
		t.Errorf("behind the end: %v", err)
	}
	if rate := Of(8000, nil).Rate(); rate != 8000 || s.Rate() != 48000 {
		t.Errorf("they come %v and %v times a second", rate, s.Rate())
	}
	broken := NewLine(8000)
	broken.Fail(io.ErrClosedPipe)
	if s, err := broken.Open(context.Background()); s != nil || err != io.ErrClosedPipe {
		t.Errorf("a broken line opens: %v, %v", s, err)
	}
	ended, end := context.WithCancel(context.Background())
	end()
	if n, err := Of(8000, []float64{0.5}).Read(ended, into[:]); n != 0 || err != context.Canceled {
		t.Errorf("for whom nobody waits any more: %d, %v", n, err)
	}
	if _, err := OfReader(nil, 1); err == nil {
		t.Error("a rate of 1 a second is taken")
	}
}

// stands tells how a microphone stands.
func stands(t *testing.T, m *Microphone, want State, kind FaultKind) {
	t.Helper()
	synctest.Wait()
	s, f := m.State()
	if s != want || (f == nil) != (kind == 0) || f != nil && f.Kind != kind {
		t.Errorf("it stands at %d with %v; want %d with %d", s, f, want, kind)
	}
}

// hum puts some sound into a line for a while.
func hum(l *Line, length time.Duration) {
	block := make([]float64, int(l.rate/50))
	for i := range block {
		block[i] = 0.01
	}
	for range length / (20 * time.Millisecond) {
		l.Put(block)
		time.Sleep(20 * time.Millisecond)
	}
}

func TestAMicrophoneIsOffUntilItIsSwitchedOn(t *testing.T) {
	synctest.Test(t, func(t *testing.T) {
		l := NewLine(8000)
		m := NewMicrophone(l)
		hum(l, time.Second)
		stands(t, m, Off, 0)
		if s := m.Take(); len(s.Samples) != 0 {
			t.Errorf("%d samples were heard while it was off", len(s.Samples))
		}
		m.On()
		stands(t, m, Opening, 0)
		hum(l, time.Second)
		stands(t, m, Listening, 0)
		if s := m.Take(); len(s.Samples) != 8000 || s.Rate != 8000 || s.Run != 1 {
			t.Errorf("%d samples at %v, run %d; want a second of them", len(s.Samples), s.Rate, s.Run)
		}
		hum(l, time.Second)
		m.Off()
		stands(t, m, Off, 0)
		if s := m.Take(); len(s.Samples) != 0 {
			t.Errorf("%d samples were kept after it was switched off", len(s.Samples))
		}
	})
}

func TestFaultsAreSaidWithinTwoSeconds(t *testing.T) {
	for name, c := range map[string]struct {
		fails func(l *Line)
		want  FaultKind
	}{
		"none":    {func(l *Line) { l.Fail(&Fault{Kind: NoServer}) }, NoServer},
		"gone":    {func(l *Line) { l.Fail(io.ErrUnexpectedEOF) }, Gone},
		"ended":   {func(l *Line) { l.Fail(io.EOF) }, Ended},
		"hung":    {func(l *Line) {}, Hung},
		"refused": {func(l *Line) { l.Put(make([]float64, 8000)) }, Refused},
	} {
		t.Run(name, func(t *testing.T) {
			synctest.Test(t, func(t *testing.T) {
				l := NewLine(8000)
				m := NewMicrophone(l)
				m.On()
				hum(l, time.Second)
				stands(t, m, Listening, 0)
				m.Take()
				c.fails(l)
				said := time.Now()
				for s, _ := m.State(); s != Deaf && time.Since(said) < 2*time.Second; s, _ = m.State() {
					time.Sleep(10 * time.Millisecond)
				}
				stands(t, m, Deaf, c.want)
				if was := m.Take(); c.want != Refused && len(was.Samples) != 0 {
					t.Errorf("%d samples came", len(was.Samples))
				}
				l.Fail(nil)
				hum(l, 3*time.Second)
				stands(t, m, Listening, 0)
				if name == "hung" || name == "refused" {
					m.Off()
					return // the source is the same
				}
				if s := m.Take(); s.Run != 2 || len(s.Samples) < 8000 {
					t.Errorf("after it came back: run %d, %d samples", s.Run, len(s.Samples))
				}
				m.Off()
			})
		})
	}
}
