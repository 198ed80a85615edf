package home

import (
	"strings"

	"sparetone/drills/practice"
	"sparetone/drills/practice/setting"
	"sparetone/theory/say"
	"sparetone/tui/page"
)

// Settings shows the settings, a line each. What is set holds at once and is kept.
type Settings struct {
	mark  int
	asked *setting.Setting // the setting whose values were said last, for which a value alone is taken; nil for none
	back  func() page.Place
}

// Page implements Place.
func (s *Settings) Page(w *page.Walk) page.Page {
	list := page.Choice{Mark: &s.mark, Turn: func(n, by int) page.Next { return s.turn(w, n, by) }, About: setting.All[s.mark].Explained(&w.Settings)}
	list.Aloud = func(n int) say.Text {
		if k := setting.All[n]; !ofTheScreen[k.ID] {
			return saySetting(&w.Settings, k)
		}
		return say.Text{}
	}
	list.Pick = func(n int) page.Next { return list.Turn(n, 1) }
	for _, k := range setting.All {
		list.Lines = append(list.Lines, page.Line{Text: say.Of("{}", k.Title), Value: k.Short(k.Get(&w.Settings)).Screen()})
	}
	return page.Page{
		Blocks: []page.Block{page.Title(titleSettings), page.Gap{}, list},
		Acts: page.Only(
			page.OnScreen("turn"), page.OnScreen("mark"),
			page.Called("again", func(string) page.Next { return sample(w) }).As("hear it").If(w.MayHear()),
			tunes(w, func() page.Place { return s }),
			page.Called("back", func(string) page.Next { return s.leave(w) }),
			findsOut(w, s),
			page.Called("choose", func(string) page.Next { return list.Pick(s.mark) }).As("change"),
		),
		Take: func(typed string) page.Next { return s.take(w, typed) },
		Ask:  askSetting, HelpBegins: askSetting,
	}
}

// leave goes back. A session that has not begun is made anew, by the settings as they are now.
func (s *Settings) leave(w *page.Walk) page.Next {
	next := page.Next{To: s.back(), Silence: true}
	if w.Fresh() {
		if err := w.Begin(w.Called); err != nil {
			next.Said = practice.SentenceOf(err)
		}
	}
	return next
}

// turn steps a setting.
func (s *Settings) turn(w *page.Walk, n, by int) page.Next {
	k := &setting.All[n]
	w.OffList[k.ID] = k.OffList(&w.Settings, w.OffList[k.ID])
	if err := w.Set(k.ID, k.Step(&w.Settings, w.OffList[k.ID], by)); err != nil {
		return page.Refused(err)
	}
	return s.shown(w, k)
}

// shown plays the open strings after a setting that can be heard was changed.
func (s *Settings) shown(w *page.Walk, k *setting.Setting) page.Next {
	if !audible[k.ID] || !w.MayHear() {
		return page.Next{}
	}
	return sample(w)
}

// audible are the settings that can be heard.
var audible = map[string]bool{"volume": true, "voice": true, "a4": true, "tuning": true, "capo": true}

// ofTheScreen are settings that change nothing but what is drawn.
var ofTheScreen = map[string]bool{"movement": true, "colours": true}

// take sets what was typed: a setting's name and its value, or the value alone of the one whose values were said last.
func (s *Settings) take(w *page.Walk, typed string) page.Next {
	name, value := parted(typed)
	k := spoken(name)
	if k == nil && s.asked != nil {
		k, value = s.asked, typed
	}
	switch {
	case k == nil:
		return page.Next{Said: sayNoSetting(name)}
	case value == "":
		s.asked = k
		return page.Next{Said: sayMay(&w.Settings, k)}
	}
	if err := setTyped(w, k, value); err != nil {
		return page.Refused(err)
	}
	s.asked = nil
	next := s.shown(w, k)
	next.Said = sayNow(&w.Settings, k)
	return next
}

// spoken returns the setting that lines of text call by this id or title, nil if there is none.
func spoken(name string) *setting.Setting {
	for i, k := range setting.All {
		if !ofTheScreen[k.ID] && (strings.EqualFold(k.ID, name) || strings.EqualFold(string(k.Title), name)) {
			return &setting.All[i]
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
func setTyped(w *page.Walk, k *setting.Setting, typed string) error {
	err := w.Set(k.ID, typed)
	if id := k.Typed(typed); err != nil && id != "" {
		return w.Set(k.ID, id)
	}
	return err
}
