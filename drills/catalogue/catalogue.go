// Package catalogue lists the thirteen drills, and answers what is asked of all of them: by id, in which forms a target is asked,
// whether it can be asked, and what an answer that has been begun may become.
package catalogue

import (
	"slices"

	"sparetone/drills"
	"sparetone/drills/ear"
	"sparetone/drills/harmony"
	"sparetone/drills/shapes"
)

// All returns the drills, in the order in which they are listed.
func All() []drills.Drill { return all }

var all = []drills.Drill{
	ear.Interval{}, ear.Chord{}, ear.AddedNote{}, ear.SameOrNot{}, shapes.Name{}, shapes.Tones{}, shapes.Doubled{}, shapes.Build{}, shapes.Swap{}, harmony.Spell{}, harmony.Resolve{}, harmony.ProgressionEar{}, harmony.KeyAdd{},
}

// ByID finds a drill by its fixed id.
func ByID(id string) (drills.Drill, bool) {
	i := slices.IndexFunc(all, func(d drills.Drill) bool { return d.About().ID == id })
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
