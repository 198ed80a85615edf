package store

import (
	"cmp"
	"os"
	"path/filepath"
	"regexp"
	"slices"
	"strconv"
	"strings"
	"time"
)

// Copies of a progress file lie in the folder backups beside it, and are named after it:
//
//	progress-2026-03-04.db                        made by itself, the first time of a practice day
//	progress-2026-03-04-183000-before-import.db   made by itself, before something that changes much
//	by-hand/progress-2026-03-04-183000.db         made by hand; the program never takes one away
//
// A second one of the same second ends in .2, and so on.
//
// Copies of a version that did not yet keep these apart have a date and a time and no more; they count as
// made by hand.
const (
	copyFolder = "backups"
	handFolder = "by-hand"
	momentForm = "2006-01-02-150405"
	before     = "-before-"
)

// How many copies made by itself stay.
const (
	daysKept   = 7  // one for each of the latest days that have a copy
	weeksKept  = 4  // the last of each of the latest weeks, from Monday, that have one
	monthsKept = 12 // the last of each of the latest months that have one
	beforeKept = 10 // the latest of those made before something
)

// Copy is a copy of a progress file.
type Copy struct {
	Path   string
	At     time.Time // by its name; midnight UTC of the practice day for a day's copy
	ByHand bool
	Before string // what it was made before; "" if it was not
}

// daily reports whether a copy is the one of a practice day.
func (c Copy) daily() bool { return !c.ByHand && c.Before == "" }

// copyName takes the name of a copy apart, between what is before and after the date.
var copyName = regexp.MustCompile(`^-(\d{4}-\d\d-\d\d)(-\d{6})?(?:(?:-before)?-(.+?))?(?:\.(\d+))?$`)

// CopiesOf returns the copies that there are of the progress file at a path, latest first.
func CopiesOf(path string) []Copy {
	folder := filepath.Join(filepath.Dir(path), copyFolder)
	all := append(copiesIn(folder, path, false), copiesIn(filepath.Join(folder, handFolder), path, true)...)
	slices.SortStableFunc(all, func(a, b Copy) int { return cmp.Or(b.At.Compare(a.At), strings.Compare(b.Path, a.Path)) })
	return all
}

func copiesIn(folder, path string, byHand bool) (all []Copy) {
	after := filepath.Ext(path)
	name := strings.TrimSuffix(filepath.Base(path), after)
	entries, _ := os.ReadDir(folder)
	for _, entry := range entries {
		rest, ours := strings.CutPrefix(strings.TrimSuffix(entry.Name(), after), name)
		m := copyName.FindStringSubmatch(rest)
		if !ours || m == nil || !strings.HasSuffix(entry.Name(), after) || !entry.Type().IsRegular() {
			continue
		}
		at, err := time.Parse(time.DateOnly, m[1])
		if m[2] != "" {
			at, err = time.Parse(momentForm, m[1]+m[2])
		}
		if nth, _ := strconv.Atoi(m[4]); err == nil {
			at = at.Add(time.Duration(nth)) // after those of the same second
			all = append(all, Copy{filepath.Join(folder, entry.Name()), at, byHand || m[2] != "" && m[3] == "", m[3]})
		}
	}
	return all
}

// tooOld returns those of the copies, latest first, that are to go. Of those made by hand none is.
func tooOld(copies []Copy) (gone []Copy) {
	days, weeks, months := map[string]bool{}, map[[2]int]bool{}, map[string]bool{}
	befores := 0
	for _, c := range copies {
		stays := c.ByHand
		if c.Before != "" {
			befores++
			stays = befores <= beforeKept
		}
		if c.daily() {
			year, week := c.At.ISOWeek()
			// A later copy stands already for its day, its week or its month, or there are enough later ones.
			stays = first(days, c.At.Format(time.DateOnly), daysKept)
			stays = first(weeks, [2]int{year, week}, weeksKept) || stays
			stays = first(months, c.At.Format("2006-01"), monthsKept) || stays
		}
		if !stays {
			gone = append(gone, c)
		}
	}
	return gone
}

// first reports whether a key is met for the first time, and is among so many.
func first[K comparable](met map[K]bool, key K, most int) bool {
	if met[key] || len(met) == most {
		return false
	}
	met[key] = true
	return true
}
