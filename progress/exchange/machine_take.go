package exchange

import (
	"bytes"
	"database/sql"
	"encoding/hex"
	"errors"
	"fmt"
	"maps"
	"slices"
	"strings"
	"time"

	"sparetone/progress"
	"sparetone/progress/clock"
	"sparetone/progress/tables"
)

// Alike says how a file is kept alike with those of other machines.
type Alike struct {
	Place string                          // where the progress file lies, so that a copy of it elsewhere is another machine
	Host  string                          // what the machine calls itself
	Carry func(key string) progress.Carry // whether a setting goes to other machines
	Other bool                            // also the practice of another progress file, as the student's own
}

// Aligned is what came of it.
type Aligned struct {
	Files []FileTaken // what became of each file that was read, in their order
	Name  string      // what its own file is called in the folder
	Own   []byte      // what is to be written there; nil if that lies there already, or there is nothing yet
	Goes  bool        // the file was empty, and goes on from Whose
	Whose progress.Whose
	Gone  int // imports that were taken back on another machine, and now here
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
func Align(tx *sql.Tx, now time.Time, files []*MachineFile, how Alike) (done Aligned, err error) {
	a := aligning{tx: tx, now: now, how: how, done: &done}
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
	for _, step := range []func() error{a.choose, a.noteImports, func() error { return a.settings(joins) }, a.takeIn, a.mineAgain, a.tell} {
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
	how     Alike
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
	if joins || a.state.Place != a.how.Place {
		a.state.beAnother(a.how.Place)
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
		a.state.beAnother(a.how.Place)
		a.intact = false
		for i := range a.done.Files {
			if t := &a.done.Files[i]; t.File.head.Machine == id {
				t.Own = false
			}
		}
	}
	return joins
}

// choose sorts out the files that are the student's own. An empty file goes on from those that lie there, if they are of one
// student.
func (a *aligning) choose() error {
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
		case a.how.Other:
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
	a.done.Goes, a.done.Whose = true, students[0]
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

// takeBack takes back here what was taken back elsewhere, or came back with an older copy of this file.
func (a *aligning) takeBack() error {
	for _, t := range a.good {
		for _, id := range t.File.undone {
			if a.undone[id] {
				continue
			}
			a.undone[id] = true
			if err := tables.KeepSetting(a.tx, undoneKey+id, "yes"); err != nil {
				return err
			}
		}
	}
	notes, err := notesIn(a.tx)
	if err != nil {
		return err
	}
	for _, n := range notes {
		if !a.undone[n.id] {
			continue
		}
		if err := n.takeBack(a.tx); err != nil {
			return err
		}
		a.done.Gone++
	}
	return nil
}

// noteImports takes over the notes of imports that other machines have.
func (a *aligning) noteImports() error {
	notes, err := notesIn(a.tx)
	if err != nil {
		return err
	}
	met := map[string]bool{}
	for _, n := range notes {
		met[n.id] = true
	}
	var came []noteOf
	for _, t := range a.good {
		for _, n := range t.File.imports {
			if !met[n.id] && !a.undone[n.id] {
				met[n.id] = true
				came = append(came, n)
			}
		}
	}
	slices.SortFunc(came, func(n, m noteOf) int { return compareNotes(m, n) }) // the earliest first
	for _, n := range came {
		n.note.Copy, n.note.Was = "", nil // whose this file is does not depend on it
		if err := n.note.keep(a.tx, n.id); err != nil {
			return err
		}
	}
	return nil
}

// settings makes out which value of each setting holds.
func (a *aligning) settings(joins bool) error {
	own, err := tables.Setting(a.tx, tables.IdKey)
	if err != nil {
		return err
	}
	carry := func(key string) progress.Carry {
		if key == tables.NameKey {
			return progress.Newest
		}
		return a.how.Carry(key)
	}
	err = tables.Each(a.tx, "SELECT key, value FROM settings", nil, func(row *sql.Rows) error {
		var key, value string
		err := row.Scan(&key, &value)
		if was, known := a.state.Chosen[key]; carry(key) != progress.Stays && !(known && was.Is == value) {
			c := chosen{value, max(a.now.UnixMilli(), was.At+1), a.state.Machine}
			switch {
			case carry(key) == progress.Once:
				c = chosen{Is: value}
			case joins && len(a.good) > 0:
				c.At = 0 // whatever others have chosen holds
			}
			a.state.Chosen[key] = c
		}
		return err
	})
	if err != nil {
		return err
	}
	for key, was := range a.state.Chosen { // what was taken away
		is, err := tables.Setting(a.tx, key)
		if err != nil {
			return err
		}
		if is == "" && was.Is != "" && carry(key) == progress.Newest {
			a.state.Chosen[key] = chosen{"", max(a.now.UnixMilli(), was.At+1), a.state.Machine}
		}
	}
	for _, t := range a.good {
		for _, key := range slices.Sorted(maps.Keys(t.File.chosen)) {
			c, was := t.File.chosen[key], a.state.Chosen[key]
			if carry(key) == progress.Stays || key == tables.NameKey && t.File.head.File != own || !c.since(was) {
				continue
			}
			a.state.Chosen[key] = c
			if err := tables.SetOrClear(a.tx, key, c.Is); err != nil {
				return err
			}
		}
	}
	return nil
}

// takeIn adds the sessions, songs and answers that others have and that are not here.
func (a *aligning) takeIn() error {
	known, err := whenGiven(a.tx)
	if err != nil {
		return err
	}
	notes, err := notesIn(a.tx)
	if err != nil {
		return err
	}
	own, err := tables.Setting(a.tx, tables.IdKey)
	if err != nil {
		return err
	}
	for _, t := range a.good {
		seen := seenFile{t.File.head.Mark, t.File.head.Writing, len(a.undone)}
		if a.state.Seen[t.File.head.Machine] == seen || t.Own && !t.Copy && !t.Stale {
			continue
		}
		tag := "" // that answers have which were given there
		if t.File.head.File != own {
			for _, n := range notes {
				if slices.Contains(n.Mine, t.File.head.File) {
					tag = n.id
				}
			}
		}
		if err := a.takeFile(t, tag, known); err != nil {
			return err
		}
		if t.Err == nil && !t.Own && seen.Writing >= a.state.Seen[t.File.head.Machine].Writing {
			a.state.Seen[t.File.head.Machine] = seen
		}
	}
	if !a.between {
		return nil
	}
	return tables.Rebuild(a.tx)
}

// whenGiven returns when each answer was given, by its id, in milliseconds since 1970.
func whenGiven(from tables.Reader) (map[[16]byte]int64, error) {
	known := map[[16]byte]int64{}
	return known, tables.Each(from, "SELECT id, at FROM answers", nil, func(row *sql.Rows) error {
		var id []byte
		var at int64
		if err := row.Scan(&id, &at); err != nil {
			return err
		}
		if len(id) != 16 {
			return progress.Damaged("an answer has the id %s", hex.EncodeToString(id))
		}
		known[[16]byte(id)] = at
		return nil
	})
}

// takeFile takes in the sessions, songs and answers of a file, all of them or, where one is at fault, none. Answers that were given
// there get a tag.
func (a *aligning) takeFile(t *FileTaken, tag string, known map[[16]byte]int64) error {
	if _, err := a.tx.Exec("SAVEPOINT one_file"); err != nil {
		return err
	}
	f := takingFile{aligning: a, tag: tag, known: known}
	err := f.all(t)
	if err == nil {
		err = f.add()
	}
	if err == nil {
		t.Answers = len(f.fresh)
		_, err = a.tx.Exec("RELEASE one_file")
		return err
	}
	if tables.IsOfSQLite(err) {
		return err
	}
	for _, k := range f.fresh {
		delete(known, k.ID)
	}
	t.Sessions, t.Err = 0, fmt.Errorf("%w; nothing of it was taken in", err)
	_, err = a.tx.Exec("ROLLBACK TO one_file; RELEASE one_file")
	return err
}

// takingFile is a file whose sessions, songs and answers are taken in.
type takingFile struct {
	*aligning
	tag   string
	known map[[16]byte]int64
	came  []clock.Arrival // its history; what is new has no number yet
	fresh []tables.AnswerRow
}

func (f *takingFile) all(t *FileTaken) (err error) {
	return t.File.lines(func(line []byte) error {
		switch kindOf(line) {
		case "session":
			return f.session(t, line)
		case "song":
			return f.song(line)
		case "answer":
			return f.answer(line)
		}
		return nil
	})
}

// mostBehind is how many answers are added one by one at most: what is derived from more is sooner made again.
const mostBehind = 1000

// add adds the answers that are new. Where they all come after those that are here, as after practice on one machine and then the
// other, that is quick.
func (f *takingFile) add() error {
	var last, latest int64
	if err := f.tx.QueryRow("SELECT coalesce(max(n), 0), coalesce(max(at), 0) FROM answers").Scan(&last, &latest); err != nil || len(f.fresh) == 0 {
		return err
	}
	behind := len(f.fresh) <= mostBehind && !f.between
	for _, k := range f.fresh {
		at := k.At.UnixMilli()
		behind = behind && at > latest
		latest = at
	}
	if behind {
		for _, k := range f.fresh {
			if err := tables.Keep(f.tx, k); err != nil {
				return err
			}
		}
		return nil
	}
	f.between = true
	insert, err := f.tx.Prepare(tables.InsertAnswer)
	if err != nil {
		return err
	}
	defer insert.Close()
	numbers := map[[16]byte]int64{}
	items := newNaming(f.tx)
	for _, k := range f.fresh {
		if err := items.name(k.Answer); err != nil {
			return err
		}
		done, err := insert.Exec(k.Row(items.names)...)
		if err != nil {
			return err
		}
		if numbers[k.ID], err = done.LastInsertId(); err != nil {
			return err
		}
	}
	for i, c := range f.came {
		f.came[i].N = numbers[c.Id]
	}
	return tables.Interleave(f.tx, last, f.came, f.now)
}

// tagOf is the import that something belongs to here which belongs to an import there; there is none where that was taken back.
func (f *takingFile) tagOf(there string) (tag string, alive bool) {
	if there == "" {
		there = f.tag
	}
	return there, !f.undone[there]
}

// session takes in a session. Of two times at which one ended the later holds.
func (f *takingFile) session(t *FileTaken, line []byte) error {
	o, err := objectOf(bytes.TrimSpace(line))
	if err != nil {
		return err
	}
	s, _, err := o.session()
	if err != nil {
		return fmt.Errorf("session: %w", err)
	}
	by, err := o.text("import")
	if err != nil {
		return err
	}
	tag, alive := f.tagOf(by)
	if !alive {
		return nil
	}
	s.By = tag
	var is tables.SessionRow
	if err := tables.SessionRows(f.tx, "WHERE id = ?", []any{s.Id}, func(row tables.SessionRow) error { is = row; return nil }); err != nil {
		return err
	}
	switch {
	case is.Id == "":
		t.Sessions++
		_, err = f.tx.Exec("INSERT INTO sessions (id, began, ended, minutes, seal, import) VALUES (?, ?, ?, ?, ?, ?)", s.Id, s.Began, s.Ended, s.Minutes, s.Sum(), s.By)
	case s.Ended.Valid && (!is.Ended.Valid || is.Ended.Int64 < s.Ended.Int64):
		_, err = f.tx.Exec("UPDATE sessions SET ended = ? WHERE id = ?", s.Ended, s.Id)
		err = errors.Join(err, tables.SealSessions(f.tx, "WHERE id = ?", s.Id))
	}
	return err
}

// song takes in a song as it was kept at one moment, unless it was kept later by the student: of what was kept before that nothing
// is needed any more.
func (f *takingFile) song(line []byte) error {
	o, err := objectOf(bytes.TrimSpace(line))
	if err != nil {
		return err
	}
	s, err := o.song()
	if err != nil {
		return fmt.Errorf("song: %w", err)
	}
	by, err := o.text("import")
	if err != nil {
		return err
	}
	tag, alive := f.tagOf(by)
	row := tables.NewSongRow(s, tag)
	var later bool
	err = f.tx.QueryRow("SELECT EXISTS (SELECT 1 FROM songs WHERE song = ?1 AND import = '' AND (at, id) >= (?2, ?3))", s.Song, row.At, s.ID).Scan(&later)
	if err != nil || later || !alive {
		return err
	}
	if _, err := row.Add(f.tx); err != nil || tag != "" {
		return err
	}
	_, err = f.tx.Exec("DELETE FROM songs WHERE song = ?1 AND (at, id) < (?2, ?3)", s.Song, row.At, s.ID)
	return err
}

// answerID begins a line with an answer; the id follows.
const answerID = `{"kind":"answer","id":"`

// answer notes an answer that is new, unless it came with what was taken back.
func (f *takingFile) answer(line []byte) error {
	var id [16]byte
	if rest, ours := bytes.CutPrefix(line, []byte(answerID)); ours && len(rest) > 32 {
		if _, err := hex.Decode(id[:], rest[:32]); err == nil {
			if at, here := f.known[id]; here {
				f.came = append(f.came, clock.Arrival{At: at, Id: id})
				return nil
			}
		}
	}
	o, err := objectOf(bytes.TrimSpace(line))
	if err != nil {
		return err
	}
	l, err := o.answer()
	if err != nil {
		return fmt.Errorf("answer: %w", err)
	}
	k, err := l.kept()
	if err != nil {
		return fmt.Errorf("answer: %w", err)
	}
	by, err := o.text("import")
	if err != nil {
		return err
	}
	tag, alive := f.tagOf(by)
	_, here := f.known[k.ID] // as where a file has it twice
	if !alive || here {
		return nil
	}
	k.Import = tag
	f.known[k.ID] = k.At.UnixMilli()
	f.came = append(f.came, clock.Arrival{At: k.At.UnixMilli(), Id: k.ID})
	f.fresh = append(f.fresh, k)
	return nil
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
	err = k.write(a.tx, machineLine{"machine", machineFormat, a.state.Machine, progress.Tidy(a.how.Host), whoseLine{k.whose.ID, k.whose.Name}, a.state.Writing, a.state.Marks[len(a.state.Marks)-1]}, newMachineWriter(&out))
	a.done.Own = out.Bytes()
	return err
}
