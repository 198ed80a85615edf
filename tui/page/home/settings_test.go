package home

import (
	"testing"

	"sparetone/tui/page"
)

// A setting is changed by its name and value, by its title, or by a value alone after its values were said.
func TestSettingsAreTyped(t *testing.T) {
	p := atHome(t)
	s := &Settings{back: func() page.Place { return &Today{} }}
	for _, row := range []struct {
		typed  string
		sounds bool
		is     func() bool
	}{
		{"capo 2", true, func() bool { return p.Settings.Capo == 2 }},
		{"Capo: 3", true, func() bool { return p.Settings.Capo == 3 }},
		{"minutes", false, func() bool { return s.asked != nil && s.asked.ID == "minutes" }},
		{"15", false, func() bool { return p.Settings.Minutes == 15 && s.asked == nil }},
		{"20", false, func() bool { return p.Settings.Minutes == 15 }}, // none was asked for any more
		{"capo 99", false, func() bool { return p.Settings.Capo == 3 }},
		{"voice ste", true, func() bool { return p.Settings.Voice == "steel" }}, // one choice begins so
		{"part by", false, func() bool { return p.Settings.Part == "all" }},     // three do
		{"movement off", false, func() bool { return !p.Settings.Still }},       // only the screen has it
	} {
		next := s.take(p.Walk, row.typed)
		if !row.is() || next.Said.IsZero() || row.sounds != (len(next.Sounds) > 0) {
			t.Errorf("%q: %q, %d sounds, %+v", row.typed, next.Said.Screen(), len(next.Sounds), p.Settings)
		}
	}
}

// Today's page leads to each place, and each leads back there.
func TestTodayLeadsToPlacesAndBack(t *testing.T) {
	for _, id := range []string{"weak", "drills", "known", "course", "songs", "lessons", "settings"} {
		p := atHome(t)
		p.Does(t, id)
		if _, still := p.At.(*Today); still {
			t.Errorf("%s leads nowhere", id)
			continue
		}
		to := p.At
		p.Does(t, "back")
		if _, back := p.At.(*Today); !back {
			t.Errorf("from %T it goes back to %T", to, p.At)
		}
	}
}
