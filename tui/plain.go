package tui

import (
	"bufio"
	"context"
	"errors"
	"fmt"
	"io"
	"strings"
	"time"
	"unicode"
	"unicode/utf8"

	"github.com/charmbracelet/x/ansi"

	"sparetone/drills"
	"sparetone/synth"
)

// Plain runs the practice as lines of text: nothing is repainted, nothing drawn, every question and
// explanation is in words. It ends when the time is up, on "leave", or when in does.
func Plain(ctx context.Context, p Practice, in io.Reader, out io.Writer) error {
	t := &plain{Practice: p, ctx: ctx, out: out, lines: make(chan string)}
	go t.read(in)
	t.settle()
	if p.Notice != "" {
		t.say(p.Notice)
	}
	t.say(outlook(p)...)
	t.say(cautions, plainHelp, "")
	err := t.practise()
	if errors.Is(err, errLeft) {
		err = nil
	}
	p.Speaker.Stop()
	if ended := p.Session.End(); err == nil {
		err = ended
	}
	for _, l := range summary(p.Session) {
		t.say(spoken(l))
	}
	return err
}

// plainHelp is what can be typed at any time.
const plainHelp = "Answer with a number or in words. Or type: again, to hear it again; open, to hear it string by string; " +
	"why, for why it is asked now; help; leave. After an answer, both plays what was asked and what you answered; an empty line goes on."

// errLeft ends the practice because the student left.
var errLeft = errors.New("left")

// plain is a practice in lines.
type plain struct {
	Practice
	ctx   context.Context
	out   io.Writer
	lines chan string
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

// say prints sentences, a line each.
func (t *plain) say(lines ...string) {
	for _, l := range lines {
		fmt.Fprintln(t.out, ansi.Strip(l))
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
			t.say(fmt.Sprintf("No sound (%s): only questions for the eye.", reason))
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

// practise asks until the time is up.
func (t *plain) practise() error {
	for {
		if state, _ := t.Speaker.State(); state == synth.NoDevice {
			if err := t.Session.SetSilent(true); err != nil {
				return err
			}
		}
		asked, err := t.Session.Next()
		if asked == nil || err != nil {
			return err
		}
		if err := t.ask(asked); err != nil {
			return err
		}
	}
}

// ask puts a question until it is answered, and explains the answer.
func (t *plain) ask(asked *drills.Asked) error {
	t.say(fmt.Sprintf("Question %d. %s", asked.Number, asked.Prompt))
	if asked.Shown != nil {
		t.say(Neck{Voicing: *asked.Shown}.Words()...)
	}
	for i, c := range asked.Choices {
		t.say(fmt.Sprintf("%d: %s", i+1, c.Spoken))
	}
	if len(asked.Sounds) > 0 {
		t.play(asked.Voice, asked.Sounds)
	}
	for {
		line, err := t.next()
		if err != nil {
			return err
		}
		switch strings.ToLower(line) {
		case "":
		case "again":
			if len(asked.Sounds) > 0 {
				t.Session.Heard()
			}
			t.play(asked.Voice, asked.Sounds)
		case "open":
			if len(asked.Sounds) > 0 {
				t.Session.Hinted()
			}
			t.play(asked.Voice, opened(asked.Sounds))
		case "why":
			t.say("Why now: " + asked.Why + ".")
		default:
			v, err := t.Session.Answer(line)
			if err != nil && v.Result == 0 {
				t.say(sentence(err.Error()))
				continue
			}
			if err != nil {
				t.say(sentence(err.Error()))
			}
			return t.explain(asked, v)
		}
	}
}

// explain says what came of an answer and waits until the student goes on.
func (t *plain) explain(asked *drills.Asked, v drills.Verdict) error {
	_, outcome, _ := strings.Cut(outcome(v), " ")
	t.say(spoken(outcome))
	for i, s := range v.Shapes {
		if i > 0 && !v.Marked() {
			break
		}
		t.say(spoken(s.Caption) + ":")
		t.say(Neck{Voicing: s.Voicing, Named: true}.Words()...)
	}
	for _, l := range v.Lines {
		t.say(spoken(l))
	}
	if back := comesBack(v.BackIn); back != "" {
		t.say(back)
	}
	for {
		line, err := t.next()
		if err != nil {
			return err
		}
		switch strings.ToLower(line) {
		case "":
			t.Speaker.Stop()
			return nil
		case "again":
			t.play(asked.Voice, v.Asked)
		case "open":
			t.play(asked.Voice, opened(v.Asked))
		case "both":
			t.play(asked.Voice, append(append([]drills.Sound{}, v.Asked...), v.Other...))
		case "why":
			t.say("Why now: " + asked.Why + ".")
		default:
			t.say("An empty line goes on to the next question; again, open, both and why work here too.")
		}
	}
}

// next waits for a line; help and leave work everywhere.
func (t *plain) next() (string, error) {
	for {
		select {
		case <-t.ctx.Done():
			return "", t.ctx.Err()
		case line, ok := <-t.lines:
			switch {
			case !ok, strings.EqualFold(line, "leave"):
				return "", errLeft
			case strings.EqualFold(line, "help"):
				t.say(plainHelp)
			default:
				return line, nil
			}
		}
	}
}

// play plays sounds in turn, or says that there is none.
func (t *plain) play(v *synth.Voice, sounds []drills.Sound) {
	if len(sounds) == 0 {
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

// spoken writes signs of music as words, so that a screen reader says them: F♯m7 becomes F sharp m7.
func spoken(s string) string {
	for _, sign := range []struct{ sign, word string }{{"♭", "flat"}, {"♯", "sharp"}, {"°", "diminished"}} {
		for {
			before, after, found := strings.Cut(s, sign.sign)
			if !found {
				break
			}
			word := sign.word
			if last, _ := utf8.DecodeLastRuneInString(before); unicode.IsLetter(last) {
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
