package lines

import (
	"errors"
	"fmt"
	"slices"
	"strings"

	"sparetone/drills/practice"
	"sparetone/theory"
	"sparetone/theory/say"
)

// ofTheScreen are settings that change nothing but what is drawn.
var ofTheScreen = []string{"movement", "colours"}

// plainSetting finds a setting by its name or its title, nil if lines of text have none that is called so.
func plainSetting(name string) *practice.Setting {
	i := slices.IndexFunc(practice.AllSettings, func(k practice.Setting) bool {
		return !slices.Contains(ofTheScreen, k.ID) && (strings.EqualFold(k.ID, name) || strings.EqualFold(string(k.Title), name))
	})
	if i < 0 {
		return nil
	}
	return &practice.AllSettings[i]
}

// change says the settings and changes them. Practice is then of the settings as they are.
func (t *plain) change() error {
	for _, k := range practice.AllSettings {
		if slices.Contains(ofTheScreen, k.ID) {
			continue
		}
		t.tell(say.Of("{}: {}. {}", k.Title, k.Long(k.Get(&t.Settings)), k.Explained(&t.Settings)))
	}
	t.say(helpSettings)
	if err := t.changes(); !errors.Is(err, errStopped) && err != nil {
		return err
	}
	if err := t.Begin(t.Called); err != nil {
		t.wrong(err)
	}
	return nil
}

// changes changes settings until an empty line.
func (t *plain) changes() error {
	var open *practice.Setting // what it may be was said last: a value alone is for it
	for {
		line, err := t.next(helpSettings)
		if line == "" || err != nil {
			return err
		}
		name, value := parted(line)
		k := plainSetting(name)
		if k == nil && open != nil {
			k, value = open, line
		}
		switch {
		case k == nil:
			t.say(fmt.Sprintf("%q is no setting here.", theory.Clip(name)))
		case value == "":
			t.tell(say.Of("{} is {}. It may be: {}.", k.Title, k.Long(k.Get(&t.Settings)), k.May()))
			open = k
		default:
			if err := t.setTyped(k, value); err != nil {
				t.wrong(err)
				continue
			}
			t.tell(say.Of("{} is now {}.", k.Title, k.Long(k.Get(&t.Settings))))
			open = nil
		}
	}
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
func (t *plain) setTyped(k *practice.Setting, typed string) error {
	err := t.Set(k.ID, typed)
	if id := k.Typed(typed); err != nil && id != "" {
		return t.Set(k.ID, id)
	}
	return err
}
