package exported

import (
	"encoding/json"
	"fmt"
	"strconv"
	"strings"

	"sparetone/progress"
)

// Columns are the columns of a CSV export.
var Columns = []column{
	textColumn("id", func(l *Answer) *string { return &l.ID }),
	textColumn("session", func(l *Answer) *string { return &l.Session }),
	textColumn("item", func(l *Answer) *string { return &l.Item }),
	textColumn("drill", func(l *Answer) *string { return &l.Drill }),
	numberColumn("seed", func(l *Answer) *uint64 { return &l.Seed }),
	textColumn("at", func(l *Answer) *string { return &l.At }),
	dateColumn("day", func(l *Answer) *string { return &l.Day }),
	textColumn("question", func(l *Answer) *string { return &l.Question }),
	textColumn("given", func(l *Answer) *string { return &l.Given }),
	textColumn("expected", func(l *Answer) *string { return &l.Expected }),
	textColumn("taken_for", func(l *Answer) *string { return &l.TakenFor }),
	textColumn("result", func(l *Answer) *string { return &l.Result }),
	numberColumn("took_ms", func(l *Answer) *int64 { return &l.TookMS }),
	numberColumn("replays", func(l *Answer) *int { return &l.Replays }),
	numberColumn("hints", func(l *Answer) *int { return &l.Hints }),
	textColumn("voice", func(l *Answer) *string { return &l.Voice }),
	laterOn(numberColumn("choices", func(l *Answer) *int { return &l.Choices })),
	laterOn(numberColumn("rung", func(l *Answer) *int { return &l.Rung })),
	laterOn(textColumn("lesson", func(l *Answer) *string { return &l.Lesson })),
	laterOn(textColumn("step", func(l *Answer) *string { return &l.Step })),
	laterOn(numberColumn("played", func(l *Answer) *int { return &l.Played })),
	laterOn(textColumn("offered", func(l *Answer) *string { return &l.Offered })),
	laterOn(numberColumn("chosen", func(l *Answer) *int { return &l.Chosen })),
	laterOn(textColumn("file", func(l *Answer) *string { return &l.File })),
	laterOn(textColumn("whose", func(l *Answer) *string { return &l.Whose })),
	laterOn(flagColumn("doubted", func(l *Answer) *bool { return &l.Doubted }, func(l *Answer) *bool { return &l.Judged })),
}

// column is a field of an answer: a column of CSV, and a field of a JSON object.
type column struct {
	Name  string
	Form  form
	Get   func(*Answer) string
	set   func(*Answer, string) error
	Later bool // exports of earlier versions have no such column
}

// form is what kind of value a field has.
type form int

const (
	OfText       form = iota // text
	ofDate                   // text, which in CSV is not guarded: it is read however a spreadsheet writes it
	OfNumber                 // a whole number
	OfLongNumber             // a whole number of 64 bits, in JSON as text
	OfFlag                   // true or false
)

// ColumnNamed returns the column of a name.
func ColumnNamed(name string) (column, bool) {
	for _, c := range Columns {
		if c.Name == name {
			return c, true
		}
	}
	return column{}, false
}

func laterOn(c column) column {
	c.Later = true
	return c
}

func textColumn(name string, of func(*Answer) *string) column {
	return column{
		Name: name,
		Get:  func(l *Answer) string { return *of(l) },
		set:  func(l *Answer, s string) error { *of(l) = s; return nil },
	}
}

func dateColumn(name string, of func(*Answer) *string) column {
	c := textColumn(name, of)
	c.Form = ofDate
	return c
}

func numberColumn[N int | int64 | uint64](name string, of func(*Answer) *N) column {
	bits := strconv.IntSize - 1
	_, long := any(N(0)).(uint64)
	if long {
		bits = 64
	}
	c := column{
		Name: name,
		Form: OfNumber,
		Get:  func(l *Answer) string { return fmt.Sprint(*of(l)) },
		set: func(l *Answer, s string) error {
			if n, err := strconv.ParseUint(s, 10, bits); err == nil && (s[0] != '0' || len(s) == 1) {
				*of(l) = N(n) // as nearly all are
				return nil
			}
			if strings.Trim(s, "-0123456789") != "" || json.Unmarshal([]byte(s), of(l)) != nil {
				return fmt.Errorf("%s is a whole number that fits, not %q", name, progress.Short(s))
			}
			return nil
		},
	}
	if long {
		c.Form = OfLongNumber
	}
	return c
}

// flagColumn is a column of what is so or is not. A spreadsheet may have put it in the words of a country: then it says nothing.
func flagColumn(name string, of func(*Answer) *bool, said func(*Answer) *bool) column {
	return column{
		Name: name,
		Form: OfFlag,
		Get:  func(l *Answer) string { return strconv.FormatBool(*of(l)) },
		set: func(l *Answer, s string) error {
			*of(l), *said(l) = strings.EqualFold(s, "true"), strings.EqualFold(s, "true") || strings.EqualFold(s, "false")
			return nil
		},
	}
}
