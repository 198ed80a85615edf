// Package lines is practice as lines of text, for screen readers and pipes.
package lines

import (
	"bufio"
	"context"
	"errors"
	"fmt"
	"io"
	"os"
	"os/signal"
	"slices"
	"strconv"
	"strings"
	"time"

	"github.com/charmbracelet/x/ansi"

	"sparetone/drills"
	"sparetone/drills/practice"
	"sparetone/synth"
	"sparetone/theory"
	"sparetone/theory/fret"
	"sparetone/theory/say"
	"sparetone/tui/draw"
)

// Run runs the practice as lines of text: nothing is repainted, nothing drawn, everything is in words
// that a screen reader speaks well. It ends on "leave", when in does, or when the context or an interrupt says so; and,
// with an error, when out cannot be written to.
func Run(ctx context.Context, p practice.App, in io.Reader, out io.Writer) error {
	ctx, stop := signal.NotifyContext(ctx, os.Interrupt)
	defer stop()
	context.AfterFunc(ctx, stop) // whoever interrupts twice does not wait
	t := &plain{App: p, ctx: ctx, out: out, lines: make(chan string)}
	go t.read(in)
	t.settle()
	if p.Notice != "" {
		t.say(p.Notice)
	}
	err := t.run()
	t.Speaker.Stop()
	ended := t.Close()
	if errors.Is(err, errLeft) {
		err = ended
	}
	if t.failed != nil {
		return errors.Join(t.failed, ended)
	}
	return err
}

// Errors that end the program, or the practice, because the student said so, the one that puts a question aside because
// it can no longer be heard, and the one that ends waiting for sound.
var (
	errLeft    = errors.New("left")
	errStopped = errors.New("stopped")
	errUnheard = errors.New("unheard")
	errSound   = errors.New("sound")
)

// plain is a practice in lines.
type plain struct {
	practice.App
	ctx   context.Context
	out   io.Writer
	lines chan string
	ears  bool // what is asked now needs ears
	waits bool // nothing can be asked until there is sound

	failed    error // why out could not be written to; nil if it could. Nobody is then asked anything more
	cautioned bool  // how to begin was said
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
		if err != nil {
			return // a line that was not ended may not have been meant
		}
		select {
		case t.lines <- text:
		case <-t.ctx.Done():
			return
		}
	}
}

// tell prints sentences as they are said aloud, a line each.
func (t *plain) tell(texts ...say.Text) {
	for _, text := range texts {
		t.say(text.Aloud())
	}
}

// wrong says what is wrong.
func (t *plain) wrong(err error) { t.tell(practice.SentenceOf(err)) }

// say prints lines of our own words.
func (t *plain) say(lines ...string) {
	for _, l := range lines {
		if _, err := fmt.Fprintln(t.out, theory.Clean(ansi.Strip(l))); err != nil && t.failed == nil {
			t.failed = err
		}
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
			return
		}
		select {
		case <-t.Speaker.Changed():
		case <-wait:
			return
		case <-t.ctx.Done():
			return
		}
	}
}

// soundless asks by eye from now on, if anything can be, and says that there is no sound device, once until there is one
// again.
func (t *plain) soundless(reason string) {
	only := "only questions for the eye."
	if !t.Way.Silent && errors.Is(t.Session.SetSilent(true), drills.ErrNothing) {
		only = practice.NeedsSound
	}
	if !t.Deviceless {
		t.say(fmt.Sprintf("No sound (%s): %s", reason, only))
	}
	t.Deviceless = true
}

// awaitSound waits until a question can be heard. The clocks stand still meanwhile. Where there is no device, and others
// can be asked without, the error is errUnheard.
func (t *plain) awaitSound() error {
	t.Session.Pause()
	defer t.Session.Resume()
	t.say("Waiting for sound. " + helpWaiting)
	t.waits = true
	defer func() { t.waits = false }()
	for {
		if state, _ := t.Speaker.State(); state == synth.Ready {
			t.Deviceless = false
			t.say("There is sound.")
			return nil
		}
		line, err := t.next(helpWaiting)
		switch {
		case errors.Is(err, errSound), errors.Is(err, errUnheard) && !t.Session.Silent():
		case err != nil:
			return err
		default:
			t.say(nothingHere(line) + " Still waiting for sound.")
		}
	}
}

// practise runs one session to its end and sums it up.
func (t *plain) practise() error {
	err := t.questions()
	t.Speaker.Stop()
	if ended := t.Session.End(); ended != nil {
		t.wrong(ended)
	}
	t.tell(practice.SumUp(&t.App).Lines()...)
	if lost := t.Unkept(); lost != "" {
		t.say(lost, "Type save to keep them in "+t.Proposed()+", or save and another file.")
		if errors.Is(err, errLeft) && t.ctx.Err() == nil {
			t.say("Then, or without it, leave once more.")
			_, err = t.next(helpUnkept)
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
			t.Deviceless = false
		}
		if state != synth.Opening && !t.Way.Silent && !t.Setup.Silent {
			err := t.Session.SetSilent(state == synth.NoDevice)
			if err != nil && !errors.Is(err, drills.ErrNothing) { // then the question waits
				t.wrong(err)
				return errStopped
			}
		}
		asked, err := t.Next()
		if err != nil {
			t.wrong(err)
			return errStopped
		}
		if asked == nil {
			t.say("The time is up.")
			return nil
		}
		if err := t.put(asked); err != nil {
			return err
		}
	}
}

// put puts a question as soon as it can be heard, until it is answered. Where the sound goes before that it waits and
// is put again, or, if others can be asked without, is put aside unrecorded: what was not heard is not missed.
func (t *plain) put(asked *practice.Asked) error {
	t.ears = len(asked.Sounds) > 0
	defer func() { t.ears = false }()
	for {
		var err error
		if t.WaitsForSound(asked) {
			err = t.awaitSound()
		}
		if err == nil {
			err = t.ask(asked)
		}
		switch {
		case !errors.Is(err, errUnheard):
			return err
		case t.Session.Silent():
			return nil
		}
	}
}

// ask puts a question until it is answered, and explains the answer.
func (t *plain) ask(asked *practice.Asked) error {
	t.tell(say.Of("Question {}. {}", say.Number(asked.Number), asked.Prompt))
	if asked.Shown != nil {
		t.tell(draw.Neck{Voicing: *asked.Shown, Named: asked.Named}.Words()...)
	}
	if t.Settings.Typing {
		t.say("Type your answer.")
	} else if asked.Form == drills.Choose {
		for i, c := range asked.Choices {
			t.tell(numbered(i, c.Said))
		}
		if asked.Number == 1 {
			t.say("Type a number. help says what else can be typed.")
		}
	} else {
		t.tell(say.Of("Type {}.", asked.Typing()))
	}
	if len(asked.Sounds) > 0 {
		t.play(asked.Voice, asked.Sounds)
	}
	for {
		line, err := t.next(t.helpQuestion(asked))
		if err != nil {
			return err
		}
		word, rest, _ := strings.Cut(strings.ToLower(line), " ")
		switch {
		case line == "":
			t.say("Type an answer, or help.")
		case word == "hear" && rest != "":
			t.hear(asked.Voice, rest)
		case strings.EqualFold(line, "why"):
			t.tell(practice.WhyNow(asked))
		case t.replay(asked, asked.Sounds, line):
			if len(asked.Sounds) > 0 && word == "open" {
				t.Session.Hinted()
			} else if len(asked.Sounds) > 0 {
				t.Session.Heard()
			}
		default:
			v, err := t.Answer(asked, line)
			switch {
			case err != nil && v.Result == 0 && plainWay(line) != nil:
				t.say(fmt.Sprintf("This is a question. Type stop first, and then %s.", word))
			case err != nil:
				t.refuse(line, err)
			}
			if v.Result == 0 {
				continue
			}
			t.ears = false
			return t.explain(asked, v)
		}
	}
}

// replay does what a line asks for that works before and after an answer. It reports whether it is one.
func (t *plain) replay(asked *practice.Asked, sounds []drills.Sound, line string) bool {
	switch strings.ToLower(line) {
	case "again":
		t.play(asked.Voice, sounds)
	case "slower":
		t.play(asked.Voice, practice.Slower(sounds))
	case "open":
		t.play(asked.Voice, practice.Each(sounds, drills.Sound.Opened))
	case "open root":
		if !practice.Rooted(sounds) {
			return false
		}
		t.play(asked.Voice, practice.Each(sounds, drills.Sound.OpenedFromRoot))
	case "why":
		t.tell(practice.WhyText(asked))
	default:
		return false
	}
	return true
}

// hear plays a shape that was typed, or says what is wrong with it.
func (t *plain) hear(v synth.Voice, frets string) {
	s, err := t.Session.On().ReadShape(frets)
	if err != nil {
		t.refuse(frets, err)
		return
	}
	t.play(v, drills.Once(synth.Strum, drills.SoundingsOf(t.Session.On().Tuning, s)))
}

// refuse says what is wrong with what was typed. Frets that do not fit are named as they were typed.
func (t *plain) refuse(typed string, err error) {
	if misfit := (*fret.MisfitError)(nil); errors.As(err, &misfit) {
		t.tell(say.Of("{}{}.", say.Typed(typed), say.Words(misfit.Why)))
		return
	}
	t.wrong(err)
}

// explain says what came of an answer and waits until the student goes on.
func (t *plain) explain(asked *practice.Asked, v drills.Verdict) error {
	_, came := practice.Outcome(v)
	t.tell(came)
	for _, s := range v.AskedShapes() {
		t.tell(say.Of("{}:", s.Caption))
		t.tell(draw.Neck{Voicing: s.Voicing, Named: true}.Words()...)
	}
	t.tell(v.Lines...)
	if back := practice.ComesBack(v.BackIn); !back.IsZero() {
		t.tell(back)
	}
	for {
		line, err := t.next(t.helpAnswered(v))
		if err != nil {
			return err
		}
		switch {
		case line == "":
			t.Speaker.Stop()
			return nil
		case strings.EqualFold(line, "both"):
			t.play(asked.Voice, slices.Concat(v.Asked, v.Other))
		case t.replay(asked, v.Asked, line):
		default:
			t.say(nothingHere(line) + " An empty line goes on to the next question; help says what else there is.")
		}
	}
}

// next waits for a line. What works everywhere is done here; help says what works at this place, and that.
func (t *plain) next(works string) (string, error) {
	for {
		if t.failed != nil {
			return "", errLeft // what was to be answered was not seen
		}
		select {
		case <-t.ctx.Done():
			t.say("") // a line may have been begun
			return "", errLeft
		case <-t.Speaker.Changed():
			switch state, reason := t.Speaker.State(); {
			case state == synth.Ready && t.waits:
				return "", errSound
			case state == synth.NoDevice && !t.Setup.Silent:
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
			if strings.EqualFold(unstopped(word), "save") {
				t.saveAs(rest)
				continue
			}
			line = unstopped(line)
			switch strings.ToLower(line) {
			case "leave", "quit", "exit":
				return "", errLeft
			case "stop":
				return "", errStopped
			case "help":
				t.say(works, t.helpEverywhere())
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

// unstopped is a line without the full stop at its end, which dictation puts there.
func unstopped(line string) string {
	if before := strings.TrimRight(line, ". "); before != "" {
		return before
	}
	return line
}

// isKept reports whether all of practice is kept in a file.
func (t *plain) isKept() bool { return t.File().Path() != "" && t.Unkept() == "" }

// saveAs saves practice in a new file, if it is not kept in one.
func (t *plain) saveAs(path string) {
	if t.isKept() {
		t.say("All is kept already, in " + t.File().Path() + ".")
		return
	}
	said, err := t.Save(path)
	if err != nil {
		said = practice.Sentence(err.Error())
	}
	t.say(said)
}

// louder sets the volume some tenths up or down, and keeps it.
func (t *plain) louder(tenths int) {
	v := min(10, max(0, int(10*t.Settings.Volume+0.5)+tenths))
	if err := t.Set("volume", strconv.Itoa(v)); err != nil {
		t.wrong(err)
	}
	t.say(fmt.Sprintf("Volume %d of 10.", v))
}

// playAlong plays sounds that were not asked for, if anything can be heard.
func (t *plain) playAlong(v synth.Voice, sounds []drills.Sound) {
	if len(sounds) > 0 && t.sounds() {
		t.play(v, sounds)
	}
}

// play plays sounds in turn, or says that there is none.
func (t *plain) play(v synth.Voice, sounds []drills.Sound) {
	if len(sounds) == 0 || t.Setup.Silent {
		t.say("There is nothing to hear here.")
		return
	}
	sound, err := practice.Render(v, sounds, t.Settings.A4)
	if err != nil {
		t.say(err.Error())
		return
	}
	t.Speaker.Play(sound)
}
