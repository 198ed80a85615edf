package exported

import (
	"encoding/json"
	"errors"
	"fmt"
	"time"

	"sparetone/progress"
	"sparetone/progress/clock"
	"sparetone/progress/tables"
)

// mostAmiss is how far a time may lie outside the times of its session: as far as a time zone that was set wrong, or a clock
// that was put right in the midst of it, explains.
const mostAmiss = 24 * time.Hour

// Session is a session as it is exported.
type Session struct {
	Kind string `json:"kind"` // session
	ID   string `json:"id"`
	Owner
	Began   time.Time  `json:"began"`
	Ended   *time.Time `json:"ended,omitempty"`
	Minutes float64    `json:"minutes"` // asked for
	Doubted bool       `json:"doubted,omitempty"`
}

// Session reads a session, and whether the export says that its times cannot be true.
func (o Object) Session() (s tables.SessionRow, doubted bool, err error) {
	for _, field := range []string{"id", "began", "minutes"} {
		if o[field] == nil {
			return s, doubted, missing(field)
		}
	}
	if s.Id, err = o.Text("id"); err != nil {
		return s, doubted, err
	}
	if s.Id == "" || progress.Tidy(s.Id) != s.Id {
		return s, doubted, fmt.Errorf("id is a line of 1 to %d bytes, without control characters", progress.LongestText)
	}
	if s.Began, err = o.moment("began"); err != nil {
		return s, doubted, err
	}
	if raw, there := o["ended"]; there && string(raw) != "null" {
		s.Ended.Valid = true
		if s.Ended.Int64, err = o.moment("ended"); err != nil {
			return s, doubted, err
		}
	}
	if raw, there := o["doubted"]; there {
		text, err := column{Name: "doubted", Form: OfFlag}.fromJSON(raw)
		if err != nil {
			return s, doubted, err
		}
		doubted = text == "true"
	}
	if !doubted && EndsBeforeItBegan(s) {
		return s, doubted, fmt.Errorf("ended is %s, and that is before it began, %s", UTC(s.Ended.Int64), UTC(s.Began))
	}
	if json.Unmarshal(o["minutes"], &s.Minutes) != nil || string(o["minutes"]) == "null" || !(s.Minutes >= 0 && s.Minutes <= 24*60) {
		return s, doubted, errors.New("minutes is a number without quotes, from 0 to 1440, which is a day")
	}
	return s, doubted, nil
}

// moment reads a time, in milliseconds since 1970.
func (o Object) moment(field string) (int64, error) {
	text, err := o.Text(field)
	if err != nil {
		return 0, err
	}
	at, err := time.Parse(time.RFC3339, text)
	if err != nil {
		return 0, fmt.Errorf("%s is a time such as 2026-03-04T18:30:00.000Z, not %q", field, progress.Short(text))
	}
	return clock.Writable(at).UnixMilli(), nil
}

// UTC writes a time in milliseconds since 1970.
func UTC(ms int64) string { return time.UnixMilli(ms).UTC().Format(TimeForm) }

// EndsBeforeItBegan reports whether a session ended before it began, by more than a wrong clock explains that is not doubted.
func EndsBeforeItBegan(s tables.SessionRow) bool {
	return s.Ended.Valid && s.Ended.Int64 < s.Began-mostAmiss.Milliseconds()
}

// Outside says that a time lies outside a session, by more than a wrong clock explains; it is empty if it does not, or if the
// session's own times cannot be true.
func Outside(s tables.SessionRow, at int64) string {
	amiss := mostAmiss.Milliseconds()
	switch {
	case EndsBeforeItBegan(s) || !clock.Dated(time.UnixMilli(s.Began)):
		return ""
	case at < s.Began-amiss:
		return fmt.Sprintf("more than a day before its session began, %s", UTC(s.Began))
	case s.Ended.Valid && at > s.Ended.Int64+amiss:
		return fmt.Sprintf("more than a day after its session ended, %s", UTC(s.Ended.Int64))
	}
	return ""
}
