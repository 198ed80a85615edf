package setting

import (
	"sparetone/progress/store"
)

// Read returns the settings that a progress file keeps. What is not there, or makes no sense, is
// as it is from the beginning.
func Read(f *store.File) Values {
	s := Standard
	for _, k := range All {
		if v, ok, err := f.Setting(k.ID); ok && err == nil {
			_ = k.Set(&s, v) // it then stays as it was
		}
	}
	return s
}

// Keep writes one setting to a progress file.
func (s Values) Keep(f *store.File, id string) error {
	k := ByID(id)
	if k == nil {
		return noSetting(id)
	}
	return f.SetSetting(id, k.Get(&s))
}

// Welcomed is the setting that says that somebody has begun here.
const Welcomed = "welcomed"

// IsNew reports whether nobody has begun with a progress file yet.
func IsNew(f *store.File) bool {
	_, set, err := f.Setting(Welcomed)
	if set || err != nil {
		return false
	}
	sessions, err := f.Sessions()
	return err == nil && len(sessions) == 0
}
