package drills

import "slices"

// All returns the drills, in the order in which they are listed.
func All() []Drill { return all }

var all = []Drill{
	intervalEar{}, chordEar{}, addedEar{}, sameOrNot{}, shapeName{}, shapeTones{}, doubled{}, build{}, swap{}, spell{}, resolve{}, progressionEar{}, keyAdd{},
}

// ByID finds a drill by its fixed id.
func ByID(id string) (Drill, bool) {
	i := slices.IndexFunc(all, func(d Drill) bool { return d.About().ID == id })
	if i < 0 {
		return nil, false
	}
	return all[i], true
}

// IDs lists the drills' ids.
func IDs() []string {
	var ids []string
	for _, d := range all {
		ids = append(ids, d.About().ID)
	}
	return ids
}
