package exported

import (
	"bytes"
	"encoding/csv"
	"errors"
	"fmt"
	"regexp"
	"strconv"
	"strings"
	"time"
	"unicode/utf8"

	"sparetone/progress"
)

// A spreadsheet that opens a CSV file and saves it again takes cells for what they are not, and writes them otherwise. So
// cells of an export are guarded where they look like something else, and an import reads what has lost nothing and refuses
// the rest by name.
//
// A cell that begins like a formula (= + - @, also after a semicolon, where some spreadsheets begin a new cell) would be
// worked out; one that looks like a number or a date (0003, 3/4, 1E5) would be rounded or turned around. Such a cell gets an
// apostrophe in front, which makes it a text; reading takes it away again. A text that has apostrophes there itself gets one
// more, so that every text comes back as it was.

// formula is how a cell begins that may be worked out: after any spaces, in ASCII or in the wide forms that some
// spreadsheets take for the same.
const formula = `[\p{Z}]*[=+\-@＝＋－＠]`

var (
	asFormula    = regexp.MustCompile(`^'*` + formula)
	asNumber     = regexp.MustCompile(`^'*[\p{Z}\d.,:/+\-eE%$€£]*\d[\p{Z}\d.,:/+\-eE%$€£]*$`)
	innerFormula = regexp.MustCompile(`(;[\p{Z}]*)('*` + formula + `)`)
	innerGuarded = regexp.MustCompile(`(;[\p{Z}]*)'('*` + formula + `)`)
)

const guard = "'"

// guarded returns a text as a cell that a spreadsheet leaves alone.
func guarded(text string) string {
	text = innerFormula.ReplaceAllString(text, "$1"+guard+"$2")
	if asFormula.MatchString(text) || asNumber.MatchString(text) {
		return guard + text
	}
	return text
}

// unguarded returns the text of a cell.
func unguarded(cell string) string {
	if rest, begins := strings.CutPrefix(cell, guard); begins && (asFormula.MatchString(rest) || asNumber.MatchString(rest)) {
		cell = rest
	}
	return innerGuarded.ReplaceAllString(cell, "$1$2")
}

// exactDigits is how many digits of a number spreadsheets hold: those of a 64-bit floating-point number.
const exactDigits = 15

// rounded reports whether a whole number has more digits than a spreadsheet holds, and only noughts where it holds none.
func rounded(digits string) bool {
	return len(digits) > exactDigits && strings.Trim(digits[exactDigits:], "0") == ""
}

// Cell returns what a column holds as a cell.
func (c column) Cell(value string) string {
	switch c.Form {
	case OfText:
		return guarded(value)
	case OfLongNumber:
		if rounded(value) {
			return guard + value // it is exact
		}
	}
	return value
}

// lostDigits is how a spreadsheet writes a number that is too long for a cell.
var lostDigits = regexp.MustCompile(`^[+-]?\d+([.,]\d+)?[eE][+-]?\d+$`)

// advice is what to do about a cell that has lost something.
const advice = "export again, and have the spreadsheet take every column for text"

// fromCell returns what a cell of a column says. What a spreadsheet has made of it is read if nothing is lost by that.
func (c column) fromCell(cell string) (string, error) {
	if !utf8.ValidString(cell) {
		return "", fmt.Errorf("%s is not in UTF-8: save the file as CSV in UTF-8", c.Name)
	}
	number := c.Form == OfNumber || c.Form == OfLongNumber
	if number {
		cell = strings.TrimSpace(cell)
	}
	if (number || c.Name == "id" || c.Name == "session") && lostDigits.MatchString(cell) {
		return "", fmt.Errorf("%s is %s, as a spreadsheet writes a number that is too long for it, and has lost digits: %s", c.Name, progress.Short(cell), advice)
	}
	if number {
		return c.wholeOf(cell)
	}
	return unguarded(cell), nil
}

// How spreadsheets write whole numbers, by the habits of a country: with noughts after the point, and in groups of three.
var (
	withNoughts = regexp.MustCompile(`^(\d+)[.,]0+$`)
	inGroups    = regexp.MustCompile(`^\d{1,3}((?:\.\d{3})+|(?:,\d{3})+|(?:['’\p{Z}]\d{3})+)([.,]0+)?$`)
)

// wholeOf returns the digits of a whole number that a spreadsheet may have written otherwise; what is none is returned as it
// is.
func (c column) wholeOf(cell string) (string, error) {
	if rest, exact := strings.CutPrefix(cell, guard); exact {
		return rest, nil
	}
	if m := inGroups.FindStringSubmatch(cell); m != nil {
		groups, noughts := m[1], m[2]
		if groups == ".000" || groups == ",000" {
			first, _, _ := strings.Cut(cell, groups[:1])
			return "", fmt.Errorf("%s is %s, which may be %s or %s000: %s", c.Name, cell, first, first, advice)
		}
		if noughts == "" || noughts[0] != groups[0] {
			return strings.Map(digit, strings.TrimSuffix(cell, noughts)), nil
		}
	}
	if m := withNoughts.FindStringSubmatch(cell); m != nil {
		return m[1], nil
	}
	return cell, nil
}

// digit leaves out what is no digit.
func digit(r rune) rune {
	if r < '0' || r > '9' {
		return -1
	}
	return r
}

// dateParts takes a date apart that a spreadsheet has written by the habits of a country.
var dateParts = regexp.MustCompile(`^(\d{1,4})[./-](\d{1,2})[./-](\d{1,4})\.?$`)

// dayOf returns a practice day as an export has it, where a spreadsheet has written it otherwise. Which of the numbers is
// the day and which the month is told by the time of the answer, since the two lie within days; what cannot be told is
// returned as it is.
func dayOf(day, at string) string {
	moment, err := time.Parse(time.RFC3339, at)
	m := dateParts.FindStringSubmatch(strings.TrimSpace(day))
	if err != nil || m == nil {
		return day
	}
	var n [3]int
	for i := range n {
		n[i], _ = strconv.Atoi(m[i+1])
	}
	for _, date := range [][3]int{{n[0], n[1], n[2]}, {n[2], n[1], n[0]}, {n[2], n[0], n[1]}} { // year, month, day
		if date[0] < 100 {
			date[0] += moment.UTC().Year() / 100 * 100
		}
		is := time.Date(date[0], time.Month(date[1]), date[2], 12, 0, 0, 0, time.UTC)
		if int(is.Month()) != date[1] || is.Day() != date[2] {
			continue // there is no such date
		}
		if away := progress.DayOf(is) - progress.DayOf(moment.UTC()); away >= -mostAway && away <= mostAway {
			return is.Format(time.DateOnly)
		}
	}
	return day
}

// separators are what may stand between the cells of a row; the first is that of an export.
const separators = ",;\t"

// SeparatorLine is a line that some spreadsheets put first, to say what stands between the cells.
var SeparatorLine = regexp.MustCompile(`^"?sep=.?"?$`)

// cells takes a row apart.
func cells(line []byte, separator rune) ([]string, error) {
	r := csv.NewReader(bytes.NewReader(line))
	r.Comma, r.FieldsPerRecord = separator, -1
	return r.Read()
}

// namesOf reads the names of columns, and finds out what stands between the cells: whatever makes most of them columns of an
// export.
func namesOf(line []byte) (names []string, separator rune) {
	most := 0
	for _, s := range separators {
		all, err := cells(line, s)
		if err != nil {
			continue
		}
		known := 0
		for i, name := range all {
			all[i] = strings.TrimSpace(name)
			if _, is := ColumnNamed(all[i]); is {
				known++
			}
		}
		if known > most {
			names, separator, most = all, s, known
		}
	}
	return names, separator
}

// ErrUTF16 is the error of a file in an encoding that some spreadsheets call Unicode text.
var ErrUTF16 = BadExport{errors.New("this is text in UTF-16: save it in UTF-8")}

// UTF16Marks are what begins a text in UTF-16.
var UTF16Marks = [][]byte{{0xff, 0xfe}, {0xfe, 0xff}}

// Cell returns a text as a cell of CSV that a spreadsheet leaves alone, as those of an export are.
func Cell(text string) string { return guarded(text) }
