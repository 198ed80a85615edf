//go:build unix && !darwin

package tui

import (
	"bytes"
	"encoding/binary"
	"slices"
	"strings"
	"testing"
	"time"

	"sparetone/drills/catalogue"
	"sparetone/drills/course"
	"sparetone/drills/neck"
	"sparetone/drills/played/student"
	"sparetone/progress"
	"sparetone/synth/capture"
	"sparetone/synth/measure"
	"sparetone/theory/fret"
	"sparetone/theory/say"
	"sparetone/tui/page/asking"
	"sparetone/tui/page/songs"
)

// A session is answered by a student who plays into a null sink, of which the program hears the monitor: the tuner first, string by string,
// then ten questions, all recorded as they were played, and a song, chord by chord.
func TestASessionIsPlayedThroughADevice(t *testing.T) {
	measure.StartNullSink(t)
	t.Setenv("PULSE_SOURCE", "cap.monitor") // what is played is what the microphone hears
	t.Setenv("XDG_CONFIG_HOME", "")
	p, _ := practiceOf(t, true)
	step := []course.Step{{ID: "swap", Drill: "swap"}, {ID: "tones", Drill: "shape-tones"}, {ID: "build", Drill: "build"}}
	for n := range step {
		d, _ := catalogue.ByID(step[n].Drill)
		for _, target := range d.Targets(p.Session.On())[:6] {
			step[n].Asks = append(step[n].Asks, target.ID)
		}
	}
	if err := p.Begin(p.Called); err != nil {
		t.Fatal(err)
	}
	p.Called.Course = course.Course(step)
	if err := p.Begin(p.Called); err != nil {
		t.Fatal(err)
	}
	p.Microphone = capture.NewMicrophone(capture.Device())
	t.Cleanup(p.Microphone.Off)
	a := keyed(newApp(p), "u") // the tuner switches the microphone on
	on := a.Session.On()
	s := student.New(on.Tuning, on.Voices[0], 1)
	roomNoise(t, s.Silence(30))
	waits := func(most time.Duration, until func() bool) bool {
		for began := time.Now(); !until() && time.Since(began) < most; time.Sleep(10 * time.Millisecond) {
			for range 5 { // what is asked is looked at every so often
				a.Update(heardMsg{})
				time.Sleep(10 * time.Millisecond)
			}
		}
		return until()
	}
	if !waits(5*time.Second, func() bool { state, _ := a.Microphone.State(); return state != capture.Opening }) {
		t.Fatal("the microphone does not open")
	}
	for i := range on.Tuning.Strings {
		number := on.Tuning.StringNumber(i)
		open := slices.Repeat(fret.Shape{0}, len(on.Tuning.Strings))
		want := say.Sentence("{} is in tune.", say.TheStrings(on.Tuning, number)).Screen()
		told := func() bool { return strings.Contains(plainText(drawn(a)), want) }
		for try := 0; try < 3 && !told(); try++ { // on a busy machine sound breaks off
			ended := make(chan struct{})
			go func() { playInto(t, s.Turn(open, []int{number})); close(ended) }()
			waits(4*time.Second, told)
			<-ended
		}
		if !told() {
			t.Errorf("the tuner does not say %q:\n%s", want, plainText(drawn(a)))
		}
	}
	if text := plainText(drawn(a)); !strings.Contains(text, "All strings are in tune.") {
		t.Errorf("it is not in tune as a whole:\n%s", text)
	}
	keyed(a, "q", "enter", "ctrl+l")
	if !a.Listens() {
		t.Fatal("the microphone is off at the first question")
	}
	plays := func(answer student.Answer, until func() bool) bool {
		for range 5 {
			sound := answer.Plays(asksInTurn(a, on))
			ended := make(chan struct{})
			go func() { playInto(t, sound); close(ended) }()
			if waits(time.Duration(float64(len(sound))/student.Rate*float64(time.Second))+4*time.Second, until) {
				<-ended
				return true
			}
			<-ended
		}
		return false
	}
	var want []bool
	for n := range 10 {
		q, is := a.place.(*asking.Question)
		if !is {
			t.Fatalf("question %d: %T shows", n+1, a.place)
		}
		answer := s.Answers(q.Asked.Question, n%3 == 2)
		if !plays(answer, func() bool { _, heard := a.place.(*asking.Played); return heard }) {
			t.Fatalf("question %d, %s, is not heard:\n%s", n+1, q.Asked.Prompt.Screen(), plainText(drawn(a)))
		}
		want = append(want, answer.Right)
		keyed(a, "enter", "enter")
	}
	var got []bool
	for _, done := range a.Session.Done() {
		got = append(got, done.Result == progress.Right)
	}
	t.Logf("played right: %v; recorded as right: %v", want, got)
	_, kept := keptIn(t, a.File())
	for _, k := range kept {
		if k.Played != 1 {
			t.Errorf("%s is kept as typed", k.Given)
		}
	}
	if !slices.Equal(got, want) || len(kept) != len(want) {
		t.Errorf("recorded as right: %v; played right: %v", got, want)
	}

	keyed(a, "q", "enter")
	b := written(t, evergreen)
	b.Microphone = a.Microphone
	a = b
	keyed(a, "tab", "g")
	work := a.place.(*songs.Song).Work()
	for n := range work.Places {
		if work.Places[n].Written != work.Places[n].Bar {
			break // a repeat
		}
		shape := work.Heard(n).Shape
		answer := student.Answer{Plays: func(order []int) []float64 {
			if order == nil {
				return s.Strum(shape)
			}
			return s.Turn(shape, order)
		}}
		lit := func() bool { return strings.Count(plainText(drawn(a)), chordIsHeard) > n }
		if n > 5 {
			break // the rest is out of sight on a small screen
		}
		if !plays(answer, lit) {
			t.Fatalf("chord %d of the song, %s, is not lit:\n%s", n+1, shape, plainText(drawn(a)))
		}
	}
}

// asksInTurn is which strings the screen asks to be plucked in turn, by number; nil if it asks for a stroke.
func asksInTurn(a *app, on *neck.Instrument) (order []int) {
	text := strings.Join(strings.Fields(plainText(drawn(a))), " ")
	from, _, alike := strings.Cut(text, " strings cannot be told apart")
	begins := "The "
	if !alike { // it was asked for before, and was not heard
		from, _, alike = strings.Cut(text, " strings in turn")
		begins = "Pluck the "
	}
	switch {
	case alike:
		names := strings.FieldsFunc(from[strings.LastIndex(from, begins)+len(begins):], func(r rune) bool { return r == ' ' || r == ',' })
		for i := range on.Tuning.Strings {
			if n := on.Tuning.StringNumber(i); slices.Contains(names, on.Tuning.StringCalled(n)) {
				order = append(order, n)
			}
		}
	case strings.Contains(text, "Pluck the strings one after another") || strings.Contains(text, "Pluck them once more"):
		for i := range on.Tuning.Strings {
			order = append(order, on.Tuning.StringNumber(i))
		}
	}
	return order
}

// playInto plays sound into the null sink, and waits until it was played.
func playInto(t *testing.T, sound []float64) {
	c := measure.First("pacat", "--raw", "-d", "cap", "--format=s16le", "--rate=16000", "--channels=1", "--latency-msec=200")
	c.Stdin = bytes.NewReader(rawOf(sound))
	if err := c.Run(); err != nil {
		t.Errorf("pacat: %v", err)
	}
}

// roomNoise plays the noise of a room into the null sink, round and round until the test ends: a monitor without any sound is all zeros, as
// a microphone that is refused.
func roomNoise(t *testing.T, noise []float64) {
	raw := rawOf(noise)
	c := measure.First("pacat", "--raw", "-d", "cap", "--format=s16le", "--rate=16000", "--channels=1", "--latency-msec=200")
	into, err := c.StdinPipe()
	if err == nil {
		err = c.Start()
	}
	if err != nil {
		t.Fatalf("pacat: %v", err)
	}
	go func() {
		for err := error(nil); err == nil; {
			_, err = into.Write(raw)
		}
	}()
	t.Cleanup(func() {
		c.Process.Kill()
		c.Wait()
	})
}

// rawOf writes samples as numbers of 16 bits.
func rawOf(sound []float64) (raw []byte) {
	for _, x := range sound {
		raw = binary.LittleEndian.AppendUint16(raw, uint16(int16(max(-1, min(1, x))*32000)))
	}
	return raw
}
