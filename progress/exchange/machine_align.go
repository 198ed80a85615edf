package exchange

import (
	"bytes"
	"database/sql"
	"errors"
	"fmt"
	"slices"
	"strings"
	"time"

	"sparetone/progress"
	"sparetone/progress/exported"
	"sparetone/progress/tables"
)

// AlignWishes say how a file is kept alike with those of other machines.
type AlignWishes struct {
	Place      string                          // where the progress file lies, so that a copy of it elsewhere is another machine
	Host       string                          // what the machine calls itself
	Carry      func(key string) progress.Carry // whether a setting goes to other machines
	JoinOthers bool                            // practice of other progress files is made the student's own; else it is refused (AnothersFile)
}

// Aligned is what came of it.
type Aligned struct {
	Files     []FileTaken    // what became of each file that was read, in their order
	Name      string         // of this machine's own file in the folder
	Own       []byte         // what is to be written to Name; nil if that lies there already, or there is nothing yet
	WentOn    bool           // the file was empty, and went on from Whose
	Whose     progress.Whose // zero unless WentOn
	TakenBack int            // imports that were taken back on another machine, and now here
}

// FileTaken is what became of a file of the folder.
type FileTaken struct {
	File     *MachineFile
	Answers  int   // added
	Sessions int   // added
	Own      bool  // this machine wrote it
	Copy     bool  // it has another name than its machine gave it
	Stale    bool  // what was taken in of its machine before was newer
	Joined   bool  // it is of another progress file, and is the student's own from now on
	Err      error // why nothing of it was taken in; nil if it was
}

// Align takes in what other machines know, and says what they are to be told. Whatever order files come in, and however
// often, the file comes to hold the same; what it holds that none of them has stays.
func Align(tx *sql.Tx, now time.Time, files []*MachineFile, wishes AlignWishes) (done Aligned, err error) {
	a := aligning{tx: tx, now: now, wishes: wishes, done: &done}
	if a.state, err = stateOf(tx); err != nil {
		return done, err
	}
	was, err := undoneIn(tx)
	if err != nil {
		return done, err
	}
	a.undone = map[string]bool{}
	for _, id := range was {
		a.undone[id] = true
	}
	joins := a.recognise(files)
	for _, step := range []func() error{a.sortOut, a.noteImports, func() error { return a.settings(joins) }, a.takeIn, a.mineAgain, a.tell} {
		if err := step(); err != nil {
			return done, err
		}
	}
	if a.state.Writing == 0 && len(a.good) == 0 { // there is nothing yet to be alike with
		return done, nil
	}
	return done, a.state.keep(tx)
}

// aligning is a file that is being kept alike with others.
type aligning struct {
	tx      *sql.Tx
	now     time.Time
	wishes  AlignWishes
	state   machineState
	undone  map[string]bool // imports that were taken back
	good    []*FileTaken    // files that are the student's own
	done    *Aligned
	intact  bool // its own file lies in the folder as it was written last
	between bool // answers came in between others, so that what is derived has to be made again
}

// recognise finds out which files this machine wrote itself, and whether it joins others for the first time.
func (a *aligning) recognise(files []*MachineFile) (joins bool) {
	joins = a.state.Machine == ""
	if joins || a.state.Place != a.wishes.Place {
		a.state.beAnother(a.wishes.Place)
	}
	a.done.Files = make([]FileTaken, len(files))
	foreign := false
	for i, f := range files {
		t := FileTaken{File: f, Own: f.head.Machine == a.state.Machine, Copy: f.Name != MachineName(f.head.Machine)}
		seen := a.state.Seen[f.head.Machine]
		if t.Own {
			known := slices.Contains(a.state.Marks, f.head.Mark)
			foreign = foreign || !known
			latest := known && f.head.Mark == a.state.Marks[len(a.state.Marks)-1]
			t.Stale = known && !latest
			a.intact = a.intact || latest && !t.Copy
		} else {
			t.Stale = f.head.Writing < seen.Writing
		}
		a.done.Files[i] = t
	}
	if foreign { // a copy of this progress file writes under the same id
		id := a.state.Machine
		a.state.beAnother(a.wishes.Place)
		a.intact = false
		for i := range a.done.Files {
			if t := &a.done.Files[i]; t.File.head.Machine == id {
				t.Own = false
			}
		}
	}
	return joins
}

// sortOut sorts out the files that are the student's own. An empty file goes on from those that lie there, if they are of one
// student.
func (a *aligning) sortOut() error {
	holds, err := a.holds()
	if err != nil {
		return err
	}
	if !holds {
		if err := a.goOn(); err != nil {
			return err
		}
	}
	// What a file takes back may be what made another the student's own.
	for taken := -1; taken != len(a.undone); {
		taken = len(a.undone)
		if err := a.findMine(); err != nil {
			return err
		}
		if err := a.takeBack(); err != nil {
			return err
		}
	}
	for i := range a.done.Files {
		switch t := &a.done.Files[i]; {
		case slices.Contains(a.good, t):
		case t.File.holds == 0: // nobody has practised there yet
		case a.wishes.JoinOthers:
			if err := a.join(t); err != nil {
				return err
			}
			a.good = append(a.good, t)
		default:
			t.Err = &AnothersFile{t.File.Whose(), t.File.answers}
		}
	}
	return nil
}

// findMine finds the files that are known to be the student's own: here, or by an import that one of them has.
func (a *aligning) findMine() error {
	a.good = nil
	mine := map[string]bool{}
	for found := -1; found != len(a.good); {
		found = len(a.good)
		for i := range a.done.Files {
			t := &a.done.Files[i]
			if slices.Contains(a.good, t) {
				continue
			}
			is, err := tables.IsMine(a.tx, t.File.head.File)
			if err != nil {
				return err
			}
			if !is && !mine[t.File.head.File] && !t.Own {
				continue
			}
			a.good = append(a.good, t)
			for _, n := range t.File.imports {
				for _, id := range n.Mine {
					mine[id] = mine[id] || !a.undone[n.id]
				}
			}
		}
	}
	return nil
}

// ErrSeveral is the error of an empty progress file that could go on from several students.
var ErrSeveral = errors.New("the folder holds the practice of several students, and this progress file none yet")

// goOn makes an empty file go on from the student whose files lie in the folder.
func (a *aligning) goOn() error {
	var students []progress.Whose
	for _, t := range a.done.Files {
		if w := t.File.Whose(); t.File.holds > 0 && !slices.ContainsFunc(students, func(met progress.Whose) bool { return met.ID == w.ID }) {
			students = append(students, w)
		}
	}
	is, err := tables.WhoseIs(a.tx)
	if err != nil || slices.ContainsFunc(students, func(w progress.Whose) bool { return w.ID == is.ID }) {
		return err
	}
	if is.Name != "" {
		students = slices.DeleteFunc(students, func(w progress.Whose) bool { return w.Name != "" && w.Name != is.Name })
	}
	if len(students) > 1 && !a.joined(students) {
		return fmt.Errorf("%w: %s; name yours with sparetone progress name", ErrSeveral, named(students))
	}
	if len(students) == 0 {
		return nil
	}
	a.done.WentOn, a.done.Whose = true, students[0]
	return tables.KeepSetting(a.tx, tables.IdKey, students[0].ID) // the name comes with the settings
}

// holds reports whether there is any practice here.
func (a *aligning) holds() (any bool, err error) {
	err = a.tx.QueryRow("SELECT EXISTS (SELECT 1 FROM answers) OR EXISTS (SELECT 1 FROM sessions) OR EXISTS (SELECT 1 FROM songs)").Scan(&any)
	return any, err
}

// joined reports whether one of some students has said of all others that they are the same. That one comes first then.
func (a *aligning) joined(students []progress.Whose) bool {
	mine := map[string]map[string]bool{}
	for _, w := range students {
		mine[w.ID] = map[string]bool{w.ID: true}
	}
	for _, t := range a.done.Files {
		for _, n := range t.File.imports {
			for _, id := range n.Mine {
				if of := mine[t.File.head.File]; of != nil {
					of[id] = true
				}
			}
		}
	}
	for i, w := range students {
		if !slices.ContainsFunc(students, func(other progress.Whose) bool { return !mine[w.ID][other.ID] }) {
			students[0], students[i] = students[i], students[0]
			return true
		}
	}
	return false
}

// named lists students by name.
func named(students []progress.Whose) string {
	var names []string
	for _, w := range students {
		names = append(names, progress.Short(w.String()))
	}
	slices.Sort(names)
	return strings.Join(names, ", ")
}

// join makes the practice of another progress file the student's own. It counts as an import, which undo takes back.
func (a *aligning) join(t *FileTaken) error {
	id := t.File.head.File
	if is, err := tables.IsMine(a.tx, id); err != nil || is {
		return err
	}
	t.Joined = true
	n := note{From: progress.Tidy(t.File.Name), At: a.now.UnixMilli(), Closed: map[string]int64{}, Mine: []string{id}}
	if err := tables.SetOrClear(a.tx, tables.MineKey+id, t.File.Whose().String()); err != nil {
		return err
	}
	return n.keep(a.tx, progress.NewID())
}

// mineAgain makes those progress files the student's own that an import says are.
func (a *aligning) mineAgain() error {
	notes, err := notesIn(a.tx)
	if err != nil {
		return err
	}
	for _, n := range notes {
		for _, id := range n.Mine {
			is, err := tables.IsMine(a.tx, id)
			if err == nil && !is {
				err = tables.KeepSetting(a.tx, tables.MineKey+id, id)
			}
			if err != nil {
				return err
			}
		}
	}
	return nil
}

// tell says what this machine's file is to hold, where that is not what lies there. As long as there is nothing to tell,
// there is no file.
func (a *aligning) tell() error {
	k, err := keptIn(a.tx, a.state)
	if err != nil {
		return err
	}
	stamp, err := k.stamp(a.tx)
	if err != nil {
		return err
	}
	holds, err := a.holds()
	if err != nil {
		return err
	}
	a.done.Name = MachineName(a.state.Machine)
	if a.intact && a.state.Stamp == stamp || !holds && len(k.undone) == 0 {
		return nil
	}
	a.state.Writing++
	a.state.Stamp = stamp
	a.state.Marks = append(a.state.Marks, progress.NewID())
	a.state.Marks = a.state.Marks[max(0, len(a.state.Marks)-marksKept):]
	var out bytes.Buffer
	err = k.write(a.tx, machineLine{"machine", machineFormat, a.state.Machine, progress.Tidy(a.wishes.Host), exported.Owner{File: k.whose.ID, Whose: k.whose.Name}, a.state.Writing, a.state.Marks[len(a.state.Marks)-1]}, newMachineWriter(&out))
	a.done.Own = out.Bytes()
	return err
}
