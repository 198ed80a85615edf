package practice

import (
	"strings"

	"sparetone/drills/practice/session"
	"sparetone/drills/practice/setting"
	"sparetone/progress"
	"sparetone/progress/store"
)

// carriedSettings are the settings that go from one machine of a student to the others: what somebody plays, knows and prefers.
// What fits a room, a screen or a sound device stays where it is: voice, volume, part, movement, colours.
var carriedSettings = map[string]progress.Carry{
	"tuning": progress.Newest, "capo": progress.Newest, "hand": progress.Newest, "a4": progress.Newest, "minutes": progress.Newest, "answer": progress.Newest,
	"meet": progress.Newest, "onward": progress.Newest, "key": progress.Newest, "level": progress.Newest,
	setting.Welcomed: progress.Once,
}

// Carried reports whether a setting goes from one machine of a student to the others.
func Carried(key string) progress.Carry {
	for _, done := range []string{session.MetKey(""), openedKey("")} {
		if strings.HasPrefix(key, done) {
			return progress.Once
		}
	}
	if strings.HasPrefix(key, store.TakenBackKey) {
		return progress.Newest // each session is of one machine, which counts on
	}
	return carriedSettings[key]
}
