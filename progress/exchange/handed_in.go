package exchange

import (
	"encoding/json"
	"errors"
	"fmt"
	"io"
	"time"

	"sparetone/progress"
	"sparetone/progress/exported"
	"sparetone/progress/tables"
)

// A file that a student hands in is an export as JSON lines with one line before it, of the kind handed-in: who hands it in, when,
// what it holds, and what became of each lesson. Whoever takes it in passes over that line, for all it says can be counted again.

// HandedIn is the first line of a file that is handed in.
type HandedIn struct {
	Kind    string         `json:"kind"`   // handed-in
	Format  int            `json:"format"` // of this line: handedInFormat
	File    string         `json:"file"`   // id of the progress file
	Whose   string         `json:"whose,omitempty"`
	At      time.Time      `json:"at"`      // when it was written
	Tuning  string         `json:"tuning"`  // of the instrument that is set
	Since   string         `json:"since"`   // first practice day that it holds, such as 2026-03-04; "" if it holds no answer
	Days    int            `json:"days"`    // practice days that it holds
	Minutes float64        `json:"minutes"` // practised on them
	Answers int            `json:"answers"`
	Lessons []HandedLesson `json:"lessons"` // that were taken, the latest first

	TakenBack progress.TakenBack `json:"taken_back,omitzero"` // of what was played or sung; left out where nothing was, and by older programs
}

// HandedLesson is what became of a lesson.
type HandedLesson struct {
	ID      string  `json:"id"` // the same for all who took the same file
	Name    string  `json:"name"`
	From    string  `json:"from,omitempty"` // teacher
	Due     string  `json:"due,omitempty"`  // practice day, such as 2026-03-11
	Taken   string  `json:"taken"`          // practice day
	Things  int     `json:"things"`         // that it asks for on this instrument
	Done    int     `json:"done"`           // of these, answered right in a row too often for luck
	Days    int     `json:"days"`           // on which something was answered for it
	Minutes float64 `json:"minutes"`        // that its answers took
	Answers int     `json:"answers"`
}

// handedInKind is the kind of that line, and handedInFormat is the only format it has so far.
const (
	handedInKind   = "handed-in"
	handedInFormat = 1
)

// WriteHandedIn writes a file that is handed in. What of the first line can be counted in the progress file is counted here:
// of is asked for the tuning and the lessons only.
func WriteHandedIn(from tables.Reader, now time.Time, of HandedIn, w io.Writer) error {
	of, err := Counted(from, now, of)
	if err != nil {
		return err
	}
	enc := json.NewEncoder(w)
	enc.SetEscapeHTML(false)
	if err := enc.Encode(of); err != nil {
		return err
	}
	return WriteJSON(from, now, w)
}

// Counted fills in what the first line says of the progress file: whose it is, its days, minutes and answers. Practice before an
// answer counts from its session's beginning or the answer before it, but for what is longer than a pause for thought.
func Counted(from tables.Reader, now time.Time, of HandedIn) (HandedIn, error) {
	of.Kind, of.Format, of.At = handedInKind, handedInFormat, now.UTC().Truncate(time.Second)
	whose, err := tables.WhoseIs(from)
	if err != nil {
		return of, err
	}
	of.File, of.Whose = whose.ID, whose.Name
	if of.TakenBack, err = tables.TakenBack(from); err != nil {
		return of, err
	}
	sessions, err := tables.Sessions(from)
	if err != nil {
		return of, err
	}
	last := map[string]time.Time{}
	for _, s := range sessions {
		last[s.ID] = s.Began
	}
	days := map[progress.Day]bool{}
	first, took := progress.Day(0), time.Duration(0)
	lessons := map[string]*HandedLesson{}
	of.Lessons = append([]HandedLesson{}, of.Lessons...)
	for i := range of.Lessons {
		l := &of.Lessons[i]
		l.Days, l.Minutes, l.Answers = 0, 0, 0
		lessons[l.ID] = l
	}
	lessonDays, lessonTook := map[string]map[progress.Day]bool{}, map[string]time.Duration{}
	of.Answers = 0
	err = tables.Answers(from, func(k tables.AnswerRow) error {
		if of.Answers++; len(days) == 0 || k.Day < first {
			first = k.Day
		}
		days[k.Day] = true
		spent := k.Took
		if before, known := last[k.Session]; known {
			if since := k.At.Sub(before); since > spent {
				spent = since
			}
			last[k.Session] = k.At
		}
		spent = min(spent, LongestPause)
		took += spent
		if l := lessons[k.Lesson]; l != nil {
			if l.Answers++; lessonDays[l.ID] == nil {
				lessonDays[l.ID] = map[progress.Day]bool{}
			}
			lessonDays[l.ID][k.Day] = true
			lessonTook[l.ID] += spent
		}
		return nil
	})
	of.Days, of.Minutes = len(days), tenths(took)
	if of.Since = ""; of.Days > 0 {
		of.Since = first.Date().Format(time.DateOnly)
	}
	for id, l := range lessons {
		l.Days, l.Minutes = len(lessonDays[id]), tenths(lessonTook[id])
	}
	return of, err
}

// LongestPause is the longest time before an answer that counts as practice: whoever takes longer was away (from judgement).
const LongestPause = 3 * time.Minute

// tenths returns a time in minutes, to a tenth of one.
func tenths(d time.Duration) float64 { return float64(d.Round(6*time.Second)) / float64(time.Minute) }

// ReadHandedIn reads the first line of a file that was handed in. It has to be that; a plain export is none, and is false without
// an error.
func ReadHandedIn(line []byte) (of HandedIn, is bool, err error) {
	o, err := exported.ObjectOf(line)
	if err != nil {
		return of, false, nil
	}
	if kind, _ := o.Text("kind"); kind != handedInKind {
		return of, false, nil
	}
	if err := json.Unmarshal(line, &of); err != nil {
		field := (*json.UnmarshalTypeError)(nil)
		if errors.As(err, &field) {
			return of, true, fmt.Errorf("%s is not written as a file that is handed in has it", progress.Short(field.Field))
		}
		return of, true, errors.New("at is not a time such as 2026-03-04T18:30:00Z")
	}
	of.TakenBack = progress.ParseTakenBack(of.TakenBack.String()) // less than nothing is nothing
	if of.Format > handedInFormat {
		return of, true, fmt.Errorf("a newer sparetone wrote it (format %d, this one knows up to %d)", of.Format, handedInFormat)
	}
	return of, true, nil
}
