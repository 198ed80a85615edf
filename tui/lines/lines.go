// Package lines is practice as lines of text, for screen readers and pipes: it prints the pages of tui/page and finds
// their acts by what is typed.
package lines

import (
	"context"
	"errors"
	"fmt"
	"io"
	"os"
	"os/signal"
	"slices"
	"strings"
	"time"

	"sparetone/drills/inturn"
	"sparetone/drills/practice"
	"sparetone/synth/playback"
	"sparetone/tui/page"
	"sparetone/tui/page/asking"
	"sparetone/tui/page/home"
)

// Run runs the practice as lines of text: nothing is repainted, nothing drawn, everything is in words
// that a screen reader speaks well. It ends on "leave", when in does, or when the context or an interrupt says so; and,
// with an error, when out cannot be written to.
func Run(ctx context.Context, p practice.App, in io.Reader, out io.Writer) error {
	ctx, stop := signal.NotifyContext(ctx, os.Interrupt)
	defer stop()
	context.AfterFunc(ctx, stop) // whoever interrupts twice does not wait
	t := &reader{Walk: home.NewWalk(p), ctx: ctx, out: out, lines: make(chan string)}
	t.BeginAtOnce, t.Spoken = p.Named, true
	go t.read(in)
	t.settle()
	if p.Notice != "" {
		t.say(p.Notice)
	}
	for next := home.Start(t.Walk); t.apply(next); {
		next = t.next()
	}
	t.Speaker.Stop()
	ended := t.Close()
	if t.failed != nil {
		return errors.Join(t.failed, ended)
	}
	return ended
}

// settle waits a moment for the sound device, so that the first question is heard or not asked.
func (t *reader) settle() {
	if t.Setup.Silent {
		return
	}
	wait := time.After(5 * time.Second)
	for {
		if state, _ := t.Speaker.State(); state != playback.Opening {
			t.SoundChanged(nil)
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

// apply says and plays what comes of an act. It reports whether the program goes on.
func (t *reader) apply(next page.Next) bool {
	if next.Silence {
		t.Speaker.Stop()
	}
	if !t.Trouble.Equal(t.trouble) {
		t.trouble = t.Trouble
		t.tell(t.trouble)
	}
	t.tell(next.Said)
	t.tell(next.ToldInLines...)
	if next.Ends {
		return false
	}
	moved := next.To != nil && next.To != t.place
	if moved {
		t.place, t.waited = next.To, false
	}
	p := t.PageOf(t.place)
	if moved || next.NewPage {
		t.page(p)
	}
	if !p.Waits {
		t.play(next)
		t.playSong(next)
	}
	if moved {
		t.goes(p, next)
	}
	switch onward := p.EmptyLine(); {
	case !moved:
	case p.Last && t.leaving && (t.gone || t.Unkept() == ""):
		return false
	case p.Last && t.leaving:
		t.say("Then, or without it, leave once more.")
	case p.OnlySaid:
		return t.apply(onward.Do(""))
	}
	return t.failed == nil // what was to be answered was not seen
}

// play plays sounds in turn.
func (t *reader) play(next page.Next) {
	if len(next.Sounds) == 0 || t.Setup.Silent {
		return
	}
	sound, err := inturn.Render(next.Voice, next.Sounds, t.Settings.A4)
	if err != nil {
		t.tell(practice.SentenceOf(err))
		return
	}
	t.Speaker.Play(sound)
}

// playSong plays a song.
func (t *reader) playSong(next page.Next) {
	if next.Song == nil || t.Setup.Silent {
		return
	}
	sound, err := next.Song()
	if err != nil {
		t.tell(practice.SentenceOf(err))
		return
	}
	t.Speaker.Play(sound)
}

// next waits for a line or for the sound device, and returns what comes of it.
func (t *reader) next() page.Next {
	select {
	case <-t.ctx.Done():
		t.say("") // a line may have been begun
		t.gone = true
		return t.leave()
	case <-t.Speaker.Changed():
		return t.SoundChanged(t.place)
	case <-t.HearingChanged():
		t.hearingChanged()
		return page.Next{}
	case <-t.Came():
		next, _ := t.Heard(t.place)
		return next
	case <-t.onward:
		t.onward = nil
		return t.place.Page(t.Walk).EmptyLine().Do("")
	case line, ok := <-t.lines:
		t.stays(strings.TrimSpace(line))
		if !ok {
			t.gone = true
			return t.leave()
		}
		return t.take(line)
	}
}

// hearingChanged says how the microphone stands now, and, once it listens, what is to be played: the question was said before.
func (t *reader) hearingChanged() {
	t.tell(t.ListeningWords(), t.ToPlay(t.place))
}

// stays has a place wait that was to go on by itself, unless an empty line goes on at once.
func (t *reader) stays(line string) {
	t.onward = nil
	if goes := t.PageOf(t.place).GoesOn; goes != nil && line != "" {
		goes.Stay()
	}
}

// goes sets the time at which a place goes on by itself: when its sounds have ended, and no sooner than its words were spoken.
func (t *reader) goes(p page.Page, next page.Next) {
	t.onward = nil
	if p.GoesOn == nil {
		return
	}
	wait := p.GoesOn.Aloud
	if !t.Setup.Silent {
		wait = max(wait, inturn.Lasts(next.Sounds)+inturn.Rest)
	}
	t.onward = time.After(wait)
}

// leave ends the program, in the middle of practice after the sum of it.
func (t *reader) leave() page.Next {
	acts := t.PageOf(t.place).Acts
	i := slices.IndexFunc(acts, func(a page.Act) bool { return a.ID == "stop" })
	if i < 0 {
		return t.Leave()
	}
	t.leaving = true
	return acts[i].Do("")
}

// take does what was typed.
func (t *reader) take(line string) page.Next {
	p := t.PageOf(t.place)
	if p.Verbatim {
		if next, taken := t.verbatim(p, line); taken {
			return next
		}
	}
	line = strings.TrimSpace(line)
	if act, more, ok := t.Find(t.place, line); ok {
		switch {
		case !act.Off.IsZero():
			return page.Next{Said: act.Off}
		case act.ID == "help":
			t.say(t.Help(t.place)...)
			return page.Next{}
		case act.ID == "leave":
			return t.leave()
		}
		next := act.Do(more)
		if prompt, asks := next.To.(*page.Prompt); asks && prompt.Field.Text != "" {
			return prompt.Take(prompt.Field.Text) // what is proposed
		}
		return next
	}
	typed := page.Unstopped(line)
	switch all := choice(p); {
	case p.Waits:
		t.say(page.NothingHere(typed) + " Still waiting for sound.")
		return page.Next{}
	case strings.EqualFold(typed, "more") && t.listed < len(all.Lines):
		t.list(all, len(all.Lines))
		t.say(t.ask(p))
		return page.Next{}
	case typed == "" && p.Take != nil:
		if _, asked := t.place.(*asking.Question); asked {
			t.say("Type an answer, “I don't know” or help.")
		} else {
			t.say(t.ask(p))
		}
		return page.Next{}
	}
	next := page.Next{Unknown: true}
	if p.Take != nil {
		next = p.Take(typed)
	}
	word, _, _ := strings.Cut(strings.ToLower(typed), " ")
	if _, asked := t.place.(*asking.Question); asked && next.Wrong && t.leads(typed) {
		t.say(fmt.Sprintf("This is a question. Type stop first, and then %s.", word))
		return page.Next{}
	}
	if next.Unknown {
		t.say(page.NothingHere(typed) + " " + t.ask(p))
	}
	return next
}

// verbatim takes a line as it stands, unless it is a word of one of the page's own acts, or asks for help or leaves.
func (t *reader) verbatim(p page.Page, line string) (next page.Next, taken bool) {
	typed := strings.TrimSpace(line)
	if slices.ContainsFunc(p.Acts, func(act page.Act) bool { _, is := act.Match(typed); return is }) || strings.EqualFold(typed, "help") || strings.EqualFold(typed, "leave") {
		return next, false
	}
	return p.Take(line), true
}

// leads reports whether a word leads somewhere from today's page.
func (t *reader) leads(word string) bool {
	return slices.ContainsFunc((&home.Today{}).Page(t.Walk).Acts, func(a page.Act) bool { _, ok := a.Match(word); return ok })
}
