package tui

import (
	"bufio"
	"context"
	"errors"
	"fmt"
	"io"
	"slices"
	"strconv"
	"strings"
	"time"
	"unicode"
	"unicode/utf8"

	"github.com/charmbracelet/x/ansi"

	"sparetone/drills"
	"sparetone/synth"
)

// Plain runs the practice as lines of text: nothing is repainted, nothing drawn, everything is in words
// that a screen reader speaks well. It ends on "leave", or when in does.
func Plain(ctx context.Context, p Practice, in io.Reader, out io.Writer) error {
	t := &plain{Practice: p, ctx: ctx, out: out, lines: make(chan string)}
	go t.read(in)
	t.settle()
	if p.Notice != "" {
		t.say(p.Notice)
	}
	err := t.run()
	t.Speaker.Stop()
	ended := t.close()
	if errors.Is(err, errLeft) {
		err = ended
	}
	return err
}

// plainHelp is what can be typed at any time.
const plainHelp = "Answer with a number or in words. Or type: again, to hear it again; slower; open, to hear it string by string; open root, to hear the root first; " +
	"hear and a fret for each string, to hear a shape; why, for why it is asked now; louder; softer; stop, to end this practice; save, to keep in a new file what could not be kept; leave, to end the program; help. " +
	"After an answer, both plays what was asked and what you answered, and an empty line goes on."

// Errors that end the program, or the practice, because the student said so, and the one that puts a
// question aside because it can no longer be heard.
var (
	errLeft    = errors.New("left")
	errStopped = errors.New("stopped")
	errUnheard = errors.New("unheard")
)

// plain is a practice in lines.
type plain struct {
	Practice
	ctx   context.Context
	out   io.Writer
	lines chan string
	ears  bool // what is asked now needs ears
}

// longestTyped is how much of a line is read, in bytes.
const longestTyped = 4096

// read hands on the lines that are typed, and closes the channel at their end.
func (t *plain) read(in io.Reader) {
	defer close(t.lines)
	r := bufio.NewReaderSize(in, longestTyped)
	for {
		line, err := r.ReadSlice('\n')
		text := strings.TrimSpace(strings.ToValidUTF8(string(line), ""))
		for errors.Is(err, bufio.ErrBufferFull) {
			_, err = r.ReadSlice('\n')
		}
		if err == nil || text != "" {
			select {
			case t.lines <- text:
			case <-t.ctx.Done():
				return
			}
		}
		if err != nil {
			return
		}
	}
}

// say prints sentences, a line each, in words.
func (t *plain) say(lines ...string) {
	for _, l := range lines {
		fmt.Fprintln(t.out, spoken(ansi.Strip(l)))
	}
}

// settle waits a moment for the sound device, so that the first question is heard or not asked.
func (t *plain) settle() {
	if t.Setup.Silent {
		return
	}
	wait := time.After(5 * time.Second)
	for {
		switch state, reason := t.Speaker.State(); state {
		case synth.Ready:
			return
		case synth.NoDevice:
			t.soundless(reason)
			if err := t.Session.SetSilent(true); err != nil {
				t.say(err.Error())
			}
			return
		}
		select {
		case <-t.Speaker.Changed():
		case <-wait:
			return
		}
	}
}

// soundless says that there is no sound device, once until there is one again.
func (t *plain) soundless(reason string) {
	if !t.deviceless {
		t.say(fmt.Sprintf("No sound (%s): only questions for the eye.", reason))
	}
	t.deviceless = true
}

// practise runs one session to its end and sums it up.
func (t *plain) practise() error {
	err := t.questions()
	t.Speaker.Stop()
	if ended := t.Session.End(); ended != nil {
		t.say(sentence(ended.Error()))
	}
	t.say(sumUp(&t.Practice).lines()...)
	if lost := t.unkept(); lost != "" {
		t.say(lost, "Type save to keep them in "+t.proposed()+", or save and another file.")
		if errors.Is(err, errLeft) {
			t.say("Then, or without it, leave once more.")
			_, err = t.next()
		}
	}
	if errors.Is(err, errStopped) {
		return nil
	}
	return err
}

// questions asks until the time is up.
func (t *plain) questions() error {
	for {
		state, reason := t.Speaker.State()
		if state == synth.NoDevice && !t.Setup.Silent {
			t.soundless(reason)
		} else if state == synth.Ready {
			t.deviceless = false
		}
		if state != synth.Opening && !t.way.silent && !t.Setup.Silent {
			if err := t.Session.SetSilent(state == synth.NoDevice); err != nil {
				t.say(sentence(err.Error()))
				return errStopped
			}
		}
		t.begun = t.Session
		t.look()
		asked, err := t.Session.Next()
		if err != nil {
			t.say(sentence(err.Error()))
			return errStopped
		}
		if asked == nil {
			return nil
		}
		t.ears = len(asked.Sounds) > 0
		err = t.ask(asked)
		t.ears = false
		// What was not heard is not missed: it is put aside unrecorded.
		if err != nil && !errors.Is(err, errUnheard) {
			return err
		}
	}
}

// ask puts a question until it is answered, and explains the answer.
func (t *plain) ask(asked *drills.Asked) error {
	t.say(fmt.Sprintf("Question %d. %s", asked.Number, asked.Prompt))
	if asked.Shown != nil {
		t.say(Neck{Voicing: *asked.Shown, Named: asked.Named}.Words()...)
	}
	if t.Settings.Typing {
		t.say("Type your answer.")
	} else if asked.Form == drills.Choose {
		for i, c := range asked.Choices {
			t.say(fmt.Sprintf("%d: %s", i+1, c.Spoken))
		}
	} else {
		t.say("Type " + asked.Typing() + ".")
	}
	if len(asked.Sounds) > 0 {
		t.play(asked.Voice, asked.Sounds)
	}
	for {
		line, err := t.next()
		if err != nil {
			return err
		}
		word, rest, _ := strings.Cut(strings.ToLower(line), " ")
		switch {
		case line == "":
		case word == "hear" && rest != "":
			t.hear(asked.Voice, rest)
		case t.replay(asked, asked.Sounds, word, rest):
			if len(asked.Sounds) > 0 && word == "open" {
				t.Session.Hinted()
			} else if len(asked.Sounds) > 0 && word != "why" {
				t.Session.Heard()
			}
		default:
			v, err := t.answer(asked, line)
			switch {
			case err != nil && v.Result == 0 && plainWay(line) != nil:
				t.say(fmt.Sprintf("This is a question. Type stop first, and then %s.", word))
			case err != nil:
				t.say(sentence(err.Error()))
			}
			if v.Result == 0 {
				continue
			}
			t.ears = false
			return t.explain(asked, v)
		}
	}
}

// replay does what a word asks for that works before and after an answer. It reports whether it is one.
func (t *plain) replay(asked *drills.Asked, sounds []drills.Sound, word, rest string) bool {
	switch word {
	case "again":
		t.play(asked.Voice, sounds)
	case "slower":
		t.play(asked.Voice, slower(sounds))
	case "open":
		way := drills.Sound.Opened
		if rest == "root" {
			way = drills.Sound.OpenedFromRoot
		}
		t.play(asked.Voice, each(sounds, way))
	case "why":
		t.say("Why now: " + asked.Why + ".")
	default:
		return false
	}
	return true
}

// hear plays a shape that was typed, or says what is wrong with it.
func (t *plain) hear(v *synth.Voice, frets string) {
	s, err := t.Session.On().ReadShape(frets)
	if err != nil {
		t.say(sentence(err.Error()))
		return
	}
	f := newFingerboard(t.Session.On().Tuning, s)
	t.play(v, drills.Once(synth.Strum, f.notes()))
}

// explain says what came of an answer and waits until the student goes on.
func (t *plain) explain(asked *drills.Asked, v drills.Verdict) error {
	_, outcome, _ := strings.Cut(outcome(v), " ")
	t.say(outcome)
	for i, s := range v.Shapes {
		if i > 0 && !v.Marked() {
			break
		}
		t.say(s.Caption + ":")
		t.say(Neck{Voicing: s.Voicing, Named: true}.Words()...)
	}
	t.say(v.Lines...)
	if back := comesBack(v.BackIn); back != "" {
		t.say(back)
	}
	for {
		line, err := t.next()
		if err != nil {
			return err
		}
		word, rest, _ := strings.Cut(strings.ToLower(line), " ")
		switch {
		case word == "":
			t.Speaker.Stop()
			return nil
		case word == "both":
			t.play(asked.Voice, slices.Concat(v.Asked, v.Other))
		case t.replay(asked, v.Asked, word, rest):
		default:
			t.say("An empty line goes on to the next question; again, slower, open, both and why work here too.")
		}
	}
}

// next waits for a line. What works everywhere is done here.
func (t *plain) next() (string, error) {
	for {
		select {
		case <-t.ctx.Done():
			return "", t.ctx.Err()
		case <-t.Speaker.Changed():
			if state, reason := t.Speaker.State(); state == synth.NoDevice && !t.Setup.Silent {
				t.soundless(reason)
				if t.ears {
					return "", errUnheard
				}
			}
		case line, ok := <-t.lines:
			if !ok {
				return "", errLeft
			}
			word, rest, _ := strings.Cut(line, " ")
			if strings.EqualFold(word, "save") {
				t.saveAs(rest)
				continue
			}
			switch strings.ToLower(line) {
			case "leave":
				return "", errLeft
			case "stop":
				return "", errStopped
			case "help":
				t.say(plainHelp)
			case "louder":
				t.louder(1)
			case "softer":
				t.louder(-1)
			default:
				return line, nil
			}
		}
	}
}

// saveAs saves practice in a new file, if it is not kept in one.
func (t *plain) saveAs(path string) {
	if at := t.file().Path(); at != "" && t.unkept() == "" {
		t.say("All is kept already, in " + at + ".")
		return
	}
	said, err := t.save(path)
	if err != nil {
		said = sentence(err.Error())
	}
	t.say(said)
}

// louder sets the volume some tenths up or down, and keeps it.
func (t *plain) louder(tenths int) {
	v := min(10, max(0, int(10*t.Settings.Volume+0.5)+tenths))
	if err := t.set("volume", strconv.Itoa(v)); err != nil {
		t.say(sentence(err.Error()))
	}
	t.say(fmt.Sprintf("Volume %d of 10.", v))
}

// play plays sounds in turn, or says that there is none.
func (t *plain) play(v *synth.Voice, sounds []drills.Sound) {
	if len(sounds) == 0 || t.Setup.Silent {
		t.say("There is nothing to hear here.")
		return
	}
	sound, err := render(t.Practice, v, sounds)
	if err != nil {
		t.say(err.Error())
		return
	}
	t.Speaker.Play(sound)
}

// spoken writes signs of music as words, so that a screen reader says them: F♯m7 becomes F sharp minor seventh.
func spoken(s string) string {
	s = drills.Aloud(s)
	for _, sign := range []struct{ sign, word string }{{"♭", "flat"}, {"♯", "sharp"}, {"°", "diminished"}} {
		for {
			before, after, found := strings.Cut(s, sign.sign)
			if !found {
				break
			}
			word := sign.word
			if last, _ := utf8.DecodeLastRuneInString(before); unicode.IsLetter(last) || unicode.IsDigit(last) {
				word = " " + word
			}
			if next, _ := utf8.DecodeRuneInString(after); unicode.IsLetter(next) || unicode.IsDigit(next) || strings.ContainsRune("♭♯°(+", next) {
				word += " "
			}
			s = before + word + after
		}
	}
	return s
}
