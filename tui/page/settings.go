package page

import (
	"strings"

	"sparetone/drills/practice"
	"sparetone/theory/say"
)

// Settings shows the settings, a line each. What is set holds at once and is kept.
type Settings struct {
	mark  int
	asked *practice.Setting // what it may be was said last: a value alone is for it
	back  func() Place
}

// Page implements Place.
func (s *Settings) Page(w *Walk) Page {
	list := Choice{Mark: &s.mark, Turn: func(n, by int) Next { return s.turn(w, n, by) }, About: practice.AllSettings[s.mark].Explained(&w.Settings)}
	list.Aloud = func(n int) say.Text {
		if k := practice.AllSettings[n]; !ofTheScreen[k.ID] {
			return saySetting(&w.Settings, k)
		}
		return say.Text{}
	}
	list.Pick = func(n int) Next { return list.Turn(n, 1) }
	for _, k := range practice.AllSettings {
		list.Lines = append(list.Lines, Line{Text: say.Of("{}", k.Title), Value: k.Short(k.Get(&w.Settings)).Screen()})
	}
	return Page{
		Blocks: []Block{title("Settings"), Gap{}, list},
		Acts: only(
			eye("turn"), eye("mark"),
			called("again", func(string) Next { return w.sample() }).As("hear it").where(w.hears()),
			w.tunes(func() Place { return s }),
			called("back", func(string) Next { return s.leave(w) }),
			w.findsOut(s),
			called("choose", func(string) Next { return list.Pick(s.mark) }).As("change"),
		),
		Take: func(typed string) Next { return s.take(w, typed) },
		Ask:  askSetting, Lead: askSetting,
	}
}

// leave makes the session anew if it has not begun, so that it is of the settings as they are now.
func (s *Settings) leave(w *Walk) Next {
	next := Next{To: s.back(), Hush: true}
	if w.Fresh() {
		if err := w.Begin(w.Called); err != nil {
			next.Said = practice.SentenceOf(err)
		}
	}
	return next
}

// turn steps a setting.
func (s *Settings) turn(w *Walk, n, by int) Next {
	k := &practice.AllSettings[n]
	w.own[k.ID] = k.OffList(&w.Settings, w.own[k.ID])
	if err := w.Set(k.ID, k.Step(&w.Settings, w.own[k.ID], by)); err != nil {
		return refused(err)
	}
	return s.shown(w, k)
}

// shown lets a setting be heard that sounds.
func (s *Settings) shown(w *Walk, k *practice.Setting) Next {
	if !audible[k.ID] || !w.hears() {
		return Next{}
	}
	return w.sample()
}

// audible are the settings that can be heard.
var audible = map[string]bool{"volume": true, "voice": true, "a4": true, "tuning": true, "capo": true}

// ofTheScreen are settings that change nothing but what is drawn.
var ofTheScreen = map[string]bool{"movement": true, "colours": true}

// take sets what was typed: a setting's name and its value, or the value alone of the one whose values were said last.
func (s *Settings) take(w *Walk, typed string) Next {
	name, value := parted(typed)
	k := spoken(name)
	if k == nil && s.asked != nil {
		k, value = s.asked, typed
	}
	switch {
	case k == nil:
		return Next{Said: sayNoSetting(name)}
	case value == "":
		s.asked = k
		return Next{Said: sayMay(&w.Settings, k)}
	}
	if err := setTyped(w, k, value); err != nil {
		return refused(err)
	}
	s.asked = nil
	next := s.shown(w, k)
	next.Said = sayNow(&w.Settings, k)
	return next
}

// spoken finds a setting by its name or its title, nil if lines of text have none that is called so.
func spoken(name string) *practice.Setting {
	for i, k := range practice.AllSettings {
		if !ofTheScreen[k.ID] && (strings.EqualFold(k.ID, name) || strings.EqualFold(string(k.Title), name)) {
			return &practice.AllSettings[i]
		}
	}
	return nil
}

// parted parts the name of a setting from its value, whatever stands between them.
func parted(line string) (name, value string) {
	const between = " :="
	i := strings.IndexAny(line, between)
	if i < 0 {
		return line, ""
	}
	return line[:i], strings.Trim(line[i:], between)
}

// setTyped sets a setting to what was typed: a value of it, or what one of its choices begins with.
func setTyped(w *Walk, k *practice.Setting, typed string) error {
	err := w.Set(k.ID, typed)
	if id := k.Typed(typed); err != nil && id != "" {
		return w.Set(k.ID, id)
	}
	return err
}
