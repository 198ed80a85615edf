package tui

import (
	"errors"
	"fmt"
	"slices"
	"strconv"
	"strings"

	"sparetone/drills"
	"sparetone/theory"
)

// ofTheScreen are settings that change nothing but what is drawn.
var ofTheScreen = []string{"movement", "colours"}

// plainSetting finds a setting by its name or its title, nil if lines of text have none that is called so.
func plainSetting(name string) *kept {
	i := slices.IndexFunc(settings, func(k kept) bool {
		return !slices.Contains(ofTheScreen, k.id) && (strings.EqualFold(k.id, name) || strings.EqualFold(k.title, name))
	})
	if i < 0 {
		return nil
	}
	return &settings[i]
}

// change says the settings and changes them. Practice is then of the settings as they are.
func (t *plain) change() error {
	for _, k := range settings {
		if slices.Contains(ofTheScreen, k.id) {
			continue
		}
		about := sentence(k.about)
		if k.id == "level" {
			about += placeTold(t.Settings.Level)
		}
		t.say(fmt.Sprintf("%s: %s. %s", k.id, k.inWords(k.get(&t.Settings)), about))
	}
	t.say(helpSettings)
	if err := t.changes(); !errors.Is(err, errStopped) && err != nil {
		return err
	}
	if err := t.begin(t.called); err != nil {
		t.say(sentence(err.Error()))
	}
	return nil
}

// changes changes settings until an empty line.
func (t *plain) changes() error {
	var open *kept // what it may be was said last: a value alone is for it
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
			t.say(fmt.Sprintf("%s is %s. It may be: %s.", k.id, k.inWords(k.get(&t.Settings)), k.may()))
			open = k
		default:
			if err := t.setTyped(k, value); err != nil {
				t.say(sentence(err.Error()))
				continue
			}
			t.say(fmt.Sprintf("%s is now %s.", k.id, k.inWords(k.get(&t.Settings))))
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
func (t *plain) setTyped(k *kept, typed string) error {
	err := t.set(k.id, typed)
	if meant := k.meant(typed); err != nil && meant != "" {
		return t.set(k.id, meant)
	}
	return err
}

// meant is the one of the choices that begins with what was typed, in itself or in words; empty if there is none, or
// more than one.
func (k *kept) meant(typed string) string {
	if typed == "" || typed[0] >= '0' && typed[0] <= '9' {
		return "" // 4 is no beginning of 45
	}
	begins := func(s string) bool { return strings.HasPrefix(strings.ToLower(s), strings.ToLower(typed)) }
	var found []string
	for _, v := range k.choices() {
		if begins(v) || begins(k.inWords(v)) {
			found = append(found, v)
		}
	}
	if len(found) != 1 {
		return ""
	}
	return found[0]
}

// inWords says a value of a setting: of a tuning what it is, and not only its name.
func (k *kept) inWords(value string) string {
	switch k.id {
	case "tuning":
		if on, err := drills.NewInstrument(value, 0, ""); err == nil {
			return on.Tuning.Title
		}
	case "level":
		if at, err := levelNamed(value); err == nil && placeTold(at) != "" {
			return "the place that was found"
		}
	}
	return value
}

// may says what a setting may be.
func (k *kept) may() string {
	all := k.choices()
	last := all[len(all)-1]
	low, err1 := strconv.Atoi(all[0])
	high, err2 := strconv.Atoi(last)
	if err1 == nil && err2 == nil && high-low == len(all)-1 {
		return all[0] + " to " + last
	}
	return strings.Join(all, "; ")
}
