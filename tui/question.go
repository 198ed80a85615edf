package tui

import (
	"charm.land/bubbles/v2/key"
	tea "charm.land/bubbletea/v2"

	"sparetone/drills"
	"sparetone/drills/practice"
	"sparetone/synth"
	"sparetone/tui/draw"
)

// question is the screen on which something is asked.
type question struct {
	asked *practice.Asked
	entry entry
	aside entry  // what was left to type instead, as it was left; nil if nothing was
	noted string // a word that stays: why it is asked now, or why an answer made no sense
	held  bool   // it waits for the sound device, and the clocks stand still
}

// next goes on to the next question, or to the end if the time is up.
func next(a *app) (screen, tea.Cmd) {
	asked, err := a.Next()
	if err != nil {
		a.end()
		return newEnding(a, err), nil
	}
	if asked == nil {
		a.end()
		return newEnding(a, nil), nil
	}
	q := &question{asked: asked, entry: newEntry(a, asked)}
	if a.WaitsForSound(asked) {
		q.hold(a)
	}
	return q, a.play(asked.Voice, asked.Sounds...)
}

// hold stops the clocks until there is sound.
func (q *question) hold(a *app) {
	q.held = true
	a.Session.Pause()
}

func (q *question) typing() bool { return q.entry.typing() }

// untyped reports whether letters are to be typed and none was.
func (q *question) untyped() bool {
	t, ok := q.entry.(*typist)
	return ok && t.field.Value() == ""
}

func (q *question) keys(a *app) []key.Binding {
	out := q.entry.keys()
	if q.typing() {
		if q.untyped() && len(q.asked.Sounds) > 0 {
			out = append(out, keyHear)
		}
		return out
	}
	// The entry's first key is the one that answers; its others come after what every question has.
	first, rest := out[:1:1], out[1:]
	out = first
	if len(q.asked.Sounds) > 0 {
		out = append(out, keyHear, keyOpen)
	}
	if n := min(2, len(rest)); n > 0 && q.entry.pictures() {
		out, rest = append(out, rest[:n]...), rest[n:]
	}
	out = append(out, keyLeave, keyPass, keyWhy)
	if len(q.asked.Sounds) > 0 {
		out = append(out, keySlower)
	}
	if practice.Rooted(q.asked.Sounds) {
		out = append(out, keyRoot)
	}
	if _, typed := q.entry.(*typist); !typed {
		out = append(out, keyType)
	}
	return append(out, rest...)
}

func (q *question) update(a *app, msg tea.Msg) (screen, tea.Cmd) {
	switch msg := msg.(type) {
	case soundMsg:
		return q.soundChanged(a)
	case tea.KeyPressMsg:
		if q.typing() && q.aside != nil && key.Matches(msg, keyEscape) {
			q.entry, q.aside = q.aside, nil
			return q, nil
		}
		if !q.typing() && key.Matches(msg, keyPass) {
			return q.answer(a, drills.Unknown)
		}
		if cmd, left, done := q.press(a, msg); left {
			a.hush()
			a.end()
			return newEnding(a, nil), nil
		} else if done {
			return q, cmd
		}
	}
	text, given, cmd := q.entry.update(a, msg)
	if given {
		return q.answer(a, text)
	}
	return q, cmd
}

// press does what a key does on every question. Where letters are typed only what is in no answer is a
// key: a question mark, and a space before anything else.
func (q *question) press(a *app, msg tea.KeyPressMsg) (cmd tea.Cmd, left, done bool) {
	if q.typing() {
		if key.Matches(msg, keyHelp) {
			a.help = true
			return nil, false, true
		}
		if !q.untyped() || !key.Matches(msg, keyHear) {
			return nil, false, false
		}
	}
	sounds := q.asked.Sounds
	switch {
	case q.held && len(sounds) > 0 && key.Matches(msg, keyHear, keySlower, keyOpen, keyRoot):
		return a.play(q.asked.Voice, sounds...), false, true // it is looked for a device; what is not heard is not counted
	case key.Matches(msg, keyHear) && len(sounds) > 0:
		a.Session.Heard()
		return a.play(q.asked.Voice, sounds...), false, true
	case key.Matches(msg, keySlower) && len(sounds) > 0:
		a.Session.Heard()
		return a.play(q.asked.Voice, practice.Slower(sounds)...), false, true
	case key.Matches(msg, keyOpen) && len(sounds) > 0:
		a.Session.Hinted()
		return a.play(q.asked.Voice, practice.Each(sounds, drills.Sound.Opened)...), false, true
	case key.Matches(msg, keyRoot) && practice.Rooted(sounds):
		a.Session.Hinted()
		return a.play(q.asked.Voice, practice.Each(sounds, drills.Sound.OpenedFromRoot)...), false, true
	case key.Matches(msg, keyWhy):
		q.note(a, practice.WhyNow(q.asked).Screen())
		return nil, false, true
	case key.Matches(msg, keyLeave):
		return nil, true, true
	case key.Matches(msg, keyType):
		if _, typed := q.entry.(*typist); !typed {
			q.entry, q.aside = newTypist(q.asked), q.entry
			return nil, false, true
		}
	}
	return nil, false, false
}

// soundChanged lets the clocks run when the device has opened at last. Where there is none, the
// question is put aside unrecorded if there are others that need no ears, and else waits: what was not
// heard is not missed.
func (q *question) soundChanged(a *app) (screen, tea.Cmd) {
	switch state, _ := a.Speaker.State(); {
	case len(q.asked.Sounds) == 0:
	case state == synth.NoDevice && a.Session.Silent():
		return next(a)
	case state == synth.NoDevice:
		q.hold(a)
	case state == synth.Ready && q.held:
		q.held = false
		a.Session.Resume()
		if !a.Speaker.Playing() {
			return q, a.play(q.asked.Voice, q.asked.Sounds...)
		}
	}
	return q, nil
}

func (q *question) answer(a *app, text string) (screen, tea.Cmd) {
	if q.held {
		a.said = "It was not heard yet: space tries the sound again."
		return q, nil
	}
	v, err := a.Answer(q.asked, text)
	if err != nil && v.Result == 0 {
		q.note(a, practice.Sentence(err.Error()))
		return q, nil
	}
	r := &reveal{asked: q.asked, verdict: v}
	if err != nil {
		r.noted = practice.Sentence(err.Error())
	}
	// What still sounds may ring on: it is the question's own sound.
	return r, a.move()
}

// note says a word below all else.
func (q *question) note(a *app, word string) {
	q.noted = word
	a.bottom()
}

func (q *question) view(a *app, b *body) {
	b.say(a.theme.Strong, q.asked.Prompt.Screen())
	b.gap()
	switch {
	case q.entry.pictures():
	case q.asked.Shown != nil:
		neck := draw.Neck{Voicing: *q.asked.Shown, Small: b.small, Left: a.Settings.Left, Named: q.asked.Named}
		b.add(middle(b.col, neck.Render(a.theme)))
		b.gap()
	case len(q.asked.Sounds) > 0:
		b.add(middle(b.col, q.strings(a, b.small).Render(a.theme)))
		b.gap()
	}
	q.entry.view(a, b)
	noted := q.noted
	if q.held {
		noted = "Waiting for the sound device; space tries again."
	}
	if noted != "" {
		b.gap()
		b.say(a.theme.Quiet, noted)
	}
}

// strings is the picture of what sounds: a line for each note in the order plucked.
func (q *question) strings(a *app, small bool) draw.Strings {
	s := draw.Strings{Count: len(a.Session.On().Tuning.Strings), Phase: a.phase, Small: small, Still: a.Settings.Still}
	levels := a.levels()
	if len(levels) == 0 {
		return s
	}
	for _, n := range q.asked.Sounds[0].Score.Strings() {
		s.Levels = append(s.Levels, levels[n])
	}
	return s
}
