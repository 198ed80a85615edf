package capture

import (
	"context"
	"testing"
	"testing/synctest"
	"time"
)

// silence puts nothing but zeros into a line for a while.
func silence(l *Line, length time.Duration) {
	block := make([]float64, int(l.rate/50))
	for range length / (20 * time.Millisecond) {
		l.Put(block)
		time.Sleep(20 * time.Millisecond)
	}
}

// opens counts how often a line is opened.
type opens struct {
	*Line
	times int
}

func (o *opens) Open(ctx context.Context) (Source, error) {
	o.times++
	return o.Line.Open(ctx)
}

// However long there was nothing but zeros, a sound right behind them is heard whole, and joins on: the ear is not restarted. The word of it
// is said once.
func TestASoundBehindZerosIsNotLost(t *testing.T) {
	for _, first := range []time.Duration{0, 500 * time.Millisecond} { // of sound before the zeros
		for _, zeros := range []time.Duration{1200 * time.Millisecond, 3980 * time.Millisecond, 4 * time.Second, 4100 * time.Millisecond, 6 * time.Second, 30 * time.Second} {
			synctest.Test(t, func(t *testing.T) {
				l := NewLine(8000)
				o := &opens{Line: l}
				m := NewMicrophone(o)
				m.On()
				synctest.Wait()
				hum(l, first)
				silence(l, zeros/2)
				for len(m.changed) > 0 {
					<-m.changed
				}
				silence(l, zeros-zeros/2)
				stands(t, m, Deaf, Refused)
				if said := len(m.changed); said > 0 && zeros > 3*zerosFor {
					t.Errorf("in %v of zeros the word is said more than once", zeros)
				}
				run := m.Take().Run
				hum(l, time.Second)
				stands(t, m, Listening, 0)
				if s := m.Take(); s.Run != run || len(s.Samples) < 8000-80 {
					t.Errorf("behind %v of zeros: %d samples of 8000, run %d after %d", zeros, len(s.Samples), s.Run, run)
				}
				if most := 2 + int(zeros/anewAfter); o.times > most {
					t.Errorf("behind %v of zeros: opened %d times", zeros, o.times)
				}
				m.Off()
				synctest.Wait()
				if len(l.now) != 0 {
					t.Errorf("behind %v of zeros %d sources are left open", zeros, len(l.now))
				}
			})
		}
	}
}

// revived is a device whose sources give zeros for ever once it was suspended; one that is opened afterwards gives sound.
type revived struct {
	was, is *Line
	opened  int
}

func (r *revived) Name() string { return theMicrophone }

func (r *revived) Open(ctx context.Context) (Source, error) {
	if r.opened++; r.opened == 1 {
		return r.was.Open(ctx)
	}
	return r.is.Open(ctx)
}

// A source that stays silent gives way to another that is opened beside it, from the first sound on that comes there.
func TestASourceThatStaysSilentIsOpenedAnew(t *testing.T) {
	synctest.Test(t, func(t *testing.T) {
		r := &revived{was: NewLine(8000), is: NewLine(8000)}
		m := NewMicrophone(r)
		m.On()
		hum(r.was, time.Second)
		go silence(r.was, 20*time.Second)
		time.Sleep(5 * time.Second)
		stands(t, m, Deaf, Refused)
		m.Take()
		hum(r.is, 2*time.Second)
		stands(t, m, Listening, 0)
		if s := m.Take(); s.Run != 2 || len(s.Samples) < 16000-160 {
			t.Errorf("run %d, %d samples of 16000", s.Run, len(s.Samples))
		}
		if len(r.was.now) != 0 {
			t.Error("the silent source is left open")
		}
		m.Off()
		time.Sleep(20 * time.Second)
	})
}
