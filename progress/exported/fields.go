package exported

import (
	"bytes"
	"encoding/json"
	"errors"
	"fmt"
	"strings"
	"unicode/utf8"

	"sparetone/progress"
)

// Object is a JSON object of an export by its fields, each as it is written.
type Object map[string]json.RawMessage

// ObjectOf reads a line that holds one JSON object.
func ObjectOf(line []byte) (Object, error) {
	if !json.Valid(line) {
		return nil, errors.New("this is not a whole JSON object")
	}
	dec := json.NewDecoder(bytes.NewReader(line))
	if begins, err := dec.Token(); err != nil || begins != json.Delim('{') {
		return nil, errors.New("this is not a whole JSON object")
	}
	o := Object{}
	for dec.More() {
		name, err := dec.Token()
		if err != nil {
			return nil, errors.New("this is not a whole JSON object")
		}
		var is json.RawMessage
		if err := dec.Decode(&is); err != nil {
			return nil, errors.New("this is not a whole JSON object")
		}
		field := name.(string) // since the object is valid
		if _, twice := o[field]; twice {
			return nil, thereTwice(field)
		}
		o[field] = is
	}
	return o, nil
}

func thereTwice(field string) error { return fmt.Errorf("%s is there twice", progress.Short(field)) }

func missing(field string) error { return fmt.Errorf("%s is missing; every export has it", field) }

// fromJSON returns what a field of an object says, as text.
func (c column) fromJSON(raw json.RawMessage) (string, error) {
	if !utf8.Valid(raw) {
		return "", fmt.Errorf("%s is not in UTF-8", c.Name)
	}
	var text string
	quoted := raw[0] == '"' && json.Unmarshal(raw, &text) == nil
	switch {
	case c.Form == OfFlag && (string(raw) == "true" || string(raw) == "false"):
		return string(raw), nil
	case c.Form == OfFlag:
		return "", fmt.Errorf("%s is true or false, without quotes", c.Name)
	case c.Form == OfNumber && (raw[0] == '-' || raw[0] >= '0' && raw[0] <= '9'):
		return string(raw), nil
	case c.Form == OfNumber:
		return "", fmt.Errorf("%s is a whole number that fits, without quotes", c.Name)
	case c.Form == OfLongNumber && !quoted:
		return "", fmt.Errorf(`%s is a whole number in double quotes, such as "17"`, c.Name)
	case !quoted:
		return "", fmt.Errorf("%s is a text in double quotes", c.Name)
	}
	return text, nil
}

// Text returns a field that is text; "" if it is not there.
func (o Object) Text(field string) (string, error) {
	if o[field] == nil {
		return "", nil
	}
	return column{Name: field}.fromJSON(o[field])
}

// Answer reads an answer. All fields have to be there that an export of any version has.
func (o Object) Answer() (l Answer, err error) {
	var lacks error
	for _, c := range Columns {
		switch raw, there := o[c.Name]; {
		case there:
			text, err := c.fromJSON(raw)
			if err == nil {
				err = c.set(&l, text)
			}
			if err != nil {
				return l, err
			}
		case !c.Later && lacks == nil:
			lacks = missing(c.Name)
		}
	}
	return l, lacks
}

// Table is a CSV file, as far as it was read.
type Table struct {
	columns   []column
	separator rune
	rounded   int  // the first row, by its line, with a long number that looks like a rounded one; 0 if there is none
	exact     bool // there is a long number that does not
}

// TableOf reads the names of columns.
func TableOf(line []byte) (t Table, err error) {
	var names []string
	names, t.separator = namesOf(line)
	if names == nil {
		return t, ErrNoExport
	}
	met := map[string]bool{}
	for _, name := range names {
		c, known := ColumnNamed(name)
		if known && met[name] {
			return t, thereTwice(name)
		}
		if !known { // passed over
			c.set = func(*Answer, string) error { return nil }
		}
		met[name] = true
		t.columns = append(t.columns, c)
	}
	for _, c := range Columns {
		if !met[c.Name] && !c.Later {
			return t, missing(c.Name)
		}
	}
	return t, nil
}

// Answer reads an answer from a row. No text that is kept has a line break in it, so a row is a line. A row of which every
// cell is empty is none, and there is no answer.
func (t *Table) Answer(line []byte, n int) (l Answer, is bool, err error) {
	row, err := cells(line, t.separator)
	if err != nil || len(row) != len(t.columns) {
		return l, false, fmt.Errorf("not a row of %d columns", len(t.columns))
	}
	if strings.Join(row, "") == "" {
		return l, false, nil
	}
	for i, c := range t.columns {
		text := ""
		if c.Name != "" {
			t.note(c, row[i], n)
			if text, err = c.fromCell(row[i]); err != nil {
				return l, false, err
			}
		}
		if err := c.set(&l, text); err != nil {
			return l, false, err
		}
	}
	l.Day = dayOf(l.Day, l.At)
	return l, true, nil
}

// note notes whether a long number looks like a rounded one.
func (t *Table) note(c column, cell string, n int) {
	switch cell = strings.TrimSpace(cell); {
	case c.Form != OfLongNumber || len(cell) <= exactDigits:
	case !rounded(cell):
		t.exact = true
	case t.rounded == 0:
		t.rounded = n
	}
}

// Fault says what is wrong with a file as a whole. A number that only looks like a rounded one is written so by chance; if all
// of them do, a spreadsheet has rounded them.
func (t *Table) Fault() error {
	if t.rounded > 0 && !t.exact {
		return LineError{t.rounded, fmt.Errorf("seed ends in noughts, as in every row, for a spreadsheet holds %d digits, and has lost the others: %s", exactDigits, advice)}
	}
	return nil
}
