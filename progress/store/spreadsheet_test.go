package store

import (
	"bytes"
	"encoding/csv"
	"regexp"
	"strings"
	"testing"

	"sparetone/progress"
	"sparetone/progress/exported"
)

// hostileAnswers fills a file with answers of which every text would be a formula, a number or a date.
func hostileAnswers(t *testing.T) *File {
	t.Helper()
	f := inMemory(t, later)
	texts := []string{"=HYPERLINK(\"x\")", "+1", "-1", "@x", "'=1", "0003", "1/2", ";=1", "a;+b", "\"=1\"", ",=1", "' '"}
	for i, text := range texts {
		a := progress.Answer{Session: text, Item: "=d/" + text, Drill: "=d", Seed: uint64(i), At: evening, Question: text, Given: text, Expected: text, TakenFor: "=d/" + texts[(i+1)%len(texts)], Result: progress.Wrong, Voice: text}
		if err := f.Record(a); err != nil {
			t.Fatal(err)
		}
	}
	return f
}

// No cell of an export begins like a formula, whichever of the separators a spreadsheet takes; and all of it comes back.
func TestExportedCellsAreHarmless(t *testing.T) {
	f := hostileAnswers(t)
	asJSON, asCSV := bothExports(t, f)
	rows, err := csv.NewReader(strings.NewReader(asCSV)).ReadAll()
	if err != nil {
		t.Fatal(err)
	}
	for _, row := range rows {
		for i, cell := range row {
			if strings.HasPrefix(cell, "=") || strings.HasPrefix(cell, "+") || strings.HasPrefix(cell, "-") || strings.HasPrefix(cell, "@") {
				t.Errorf("%s is %q", rows[0][i], cell)
			}
		}
	}
	if regexp.MustCompile(`;[=+\-@]`).MatchString(asCSV) {
		t.Error("a formula after a semicolon")
	}
	g := inMemory(t, later)
	if _, err := g.Import(strings.NewReader(asCSV), anything); err != nil {
		t.Fatal(err)
	}
	if again, _ := bothExports(t, g); again != asJSON {
		t.Error("it came back as something else")
	}
}

// rewritten is an export as a spreadsheet writes it: parted by another separator, every cell changed.
func rewritten(t *testing.T, asCSV string, separator rune, change func(column, cell string) string) string {
	t.Helper()
	rows, err := csv.NewReader(strings.NewReader(asCSV)).ReadAll()
	if err != nil {
		t.Fatal(err)
	}
	var out bytes.Buffer
	w := csv.NewWriter(&out)
	w.Comma, w.UseCRLF = separator, true
	names := append([]string(nil), rows[0]...)
	for n, row := range rows {
		for i := range row {
			if n > 0 {
				row[i] = change(names[i], row[i])
			}
		}
		if err := w.Write(row); err != nil {
			t.Fatal(err)
		}
	}
	w.Flush()
	return out.String()
}

// What a spreadsheet has rewritten is read as long as nothing is lost by it.
func TestWhatASpreadsheetRewroteIsRead(t *testing.T) {
	f := inMemory(t, later)
	practised(t, f, 0, 5, 20, 1)
	asJSON, asCSV := bothExports(t, f)
	sessions := strings.Join(linesWith(asJSON, `"kind":"session"`), "")
	same := func(_, cell string) string { return cell }
	day := func(form string) func(column, cell string) string {
		return func(column, cell string) string {
			if column != "day" {
				return cell
			}
			return strings.NewReplacer("YYYY", cell[:4], "YY", cell[2:4], "MM", cell[5:7], "M", strings.TrimPrefix(cell[5:7], "0"), "DD", cell[8:], "D", strings.TrimPrefix(cell[8:], "0")).Replace(form)
		}
	}
	number := func(write func(digits string) string) func(column, cell string) string {
		return func(column, cell string) string {
			if column != "took_ms" && column != "replays" && column != "choices" && column != "rung" {
				return cell
			}
			return write(cell)
		}
	}
	thousands := func(mark string) func(string) string {
		return func(digits string) string {
			if n := len(digits) - 3; n > 0 && digits[n:] != "000" {
				return digits[:n] + mark + digits[n:]
			}
			return digits
		}
	}
	for what, csv := range map[string]string{
		"as it was":                       rewritten(t, asCSV, ',', same),
		"semicolons":                      rewritten(t, asCSV, ';', same),
		"tabs":                            rewritten(t, asCSV, '\t', same),
		"a byte-order mark":               "\ufeff" + rewritten(t, asCSV, ';', same),
		"a line that names the separator": "sep=;\n" + rewritten(t, asCSV, ';', same),
		"empty rows at the end":           rewritten(t, asCSV, ';', same) + strings.Repeat(";", len(exported.Columns)-1) + "\r\n",
		"an empty column at the end":      strings.ReplaceAll(rewritten(t, asCSV, ';', same), "\r\n", ";\r\n"),
		"every cell in quotes":            regexp.MustCompile(`(?m)[^;\r\n]+`).ReplaceAllString(strings.ReplaceAll(rewritten(t, asCSV, ';', same), `"`, ""), `"$0"`),
		"decimal commas":                  rewritten(t, asCSV, ';', number(func(d string) string { return d + ",00" })),
		"decimal points":                  rewritten(t, asCSV, ',', number(func(d string) string { return d + ".0" })),
		"points between thousands":        rewritten(t, asCSV, ';', number(thousands("."))),
		"commas between thousands":        rewritten(t, asCSV, ';', number(thousands(","))),
		"thin spaces between thousands":   rewritten(t, asCSV, ';', number(thousands("\u202f"))),
		"both":                            rewritten(t, asCSV, ';', number(func(d string) string { return thousands(".")(d) + ",0" })),
		"day first":                       rewritten(t, asCSV, ';', day("DD.MM.YYYY")),
		"month first":                     rewritten(t, asCSV, ',', day("M/D/YYYY")),
		"short year":                      rewritten(t, asCSV, ',', day("M/D/YY")),
		"year first":                      rewritten(t, asCSV, ',', day("YYYY/MM/DD")),
		"apostrophes taken away":          rewritten(t, asCSV, ',', func(_, cell string) string { return strings.TrimPrefix(cell, "'") }),
	} {
		g := inMemory(t, later)
		if what == "every cell in quotes" { // quotes within texts were left out
			if got, err := g.Import(strings.NewReader(csv), anything); err != nil || got.Added != 100 {
				t.Errorf("%s: %+v, %v", what, got, err)
			}
			continue
		}
		if got, err := g.Import(strings.NewReader(csv), anything); err != nil || got.Added != 100 {
			t.Errorf("%s: %+v, %v", what, got, err)
			continue
		}
		if _, err := g.Import(strings.NewReader(sessions), anything); err != nil {
			t.Fatal(err)
		}
		if again, _ := bothExports(t, g); again != asJSON {
			t.Errorf("%s: it came back as something else", what)
		}
	}
}

// linesWith returns the lines that hold a text.
func linesWith(all, text string) (lines []string) {
	for line := range strings.Lines(all) {
		if strings.Contains(line, text) {
			lines = append(lines, line)
		}
	}
	return lines
}

// What has lost something is refused by line and field, with what to do.
func TestWhatASpreadsheetLostIsRefusedByName(t *testing.T) {
	f := inMemory(t, later)
	practised(t, f, 0, 1, 20, 1)
	_, asCSV := bothExports(t, f)
	only := func(name string, change func(cell string) string) string {
		return rewritten(t, asCSV, ';', func(column, cell string) string {
			if column == name {
				return change(cell)
			}
			return cell
		})
	}
	always := func(value string) func(string) string { return func(string) string { return value } }
	for _, c := range []struct{ csv, says string }{
		{only("seed", always("1.24E+19")), "line 2: seed is 1.24E+19, as a spreadsheet writes a number that is too long for it, and has lost digits: export again, and "},
		{only("seed", always("1,24E+19")), "line 2: seed is 1,24E+19, as"},
		{only("id", always("1.2E+31")), "line 2: id is 1.2E+31, as"},
		{only("session", always("2E+25")), "line 2: session is 2E+25, as"},
		{only("took_ms", always("3E+03")), "line 2: took_ms is 3E+03, as"},
		{only("seed", func(cell string) string { return cell[:15] + strings.Repeat("0", len(cell)-15) }), "line 2: seed ends in noughts, as in every row, for a spreadsheet holds 15 digits, and has lost the others: export again"},
		{only("took_ms", always("3.000")), "line 2: took_ms is 3.000, which may be 3 or 3000: export again"},
		{only("took_ms", always("3,000")), "line 2: took_ms is 3,000, which may be 3 or 3000: export again"},
		{only("took_ms", always("3,5")), `line 2: took_ms is a whole number that fits, not "3,5"`},
		{only("took_ms", always("1,23,000")), `line 2: took_ms is a whole number that fits, not "1,23,000"`},
		{only("at", always("04/03/2026 23:30")), `line 2: at is a time such as 2026-03-04T18:30:00.000Z, not "04/03/2026 23:30"`},
		{only("day", always("17 March")), `line 2: day is a date such as 2026-03-04, not "17 March"`},
		{only("day", always("9/9/2026")), `line 2: day is a date such as 2026-03-04, not "9/9/2026"`},
		{only("day", always("31/2/2026")), `line 2: day is a date such as 2026-03-04, not "31/2/2026"`},
		{"\xff\xfei\x00d\x00,\x00", "this is text in UTF-16: save it in UTF-8"},
		{"\xfe\xff\x00i\x00d\x00,", "this is text in UTF-16: save it in UTF-8"},
		{strings.ReplaceAll(asCSV, "“", "\x93"), "line 2: question is not in UTF-8: save the file as CSV in UTF-8"},
		{strings.ReplaceAll(asCSV, ",", "|"), "line 1: this is no export of answers"},
	} {
		g := inMemory(t, later)
		if _, err := g.Import(strings.NewReader(c.csv), anything); err == nil || !strings.HasPrefix(err.Error(), c.says) {
			t.Errorf("%v, want %s", err, c.says)
		}
		sound(t, g, 0)
	}
}

// A seed that looks rounded by chance is known to be exact.
func TestSeedsThatLookRounded(t *testing.T) {
	f := inMemory(t, later)
	seeds := []uint64{12340000000000000000, 1234567890123450000, 5, 123456789012345, 1000000000000000000}
	for _, seed := range seeds {
		if err := f.Record(progress.Answer{Item: "d/t/u", Drill: "d", Seed: seed, At: evening, Result: progress.Right}); err != nil {
			t.Fatal(err)
		}
	}
	asJSON, asCSV := bothExports(t, f)
	if !strings.Contains(asCSV, ",'12340000000000000000,") || !strings.Contains(asCSV, ",123456789012345,") {
		t.Error(asCSV)
	}
	for _, export := range []string{asCSV, strings.ReplaceAll(asCSV, "'", "")} {
		g := inMemory(t, later)
		_, err := g.Import(strings.NewReader(export), anything)
		if export == asCSV {
			if again, _ := bothExports(t, g); err != nil || again != asJSON {
				t.Errorf("%v: it came back as something else", err)
			}
		} else if err == nil || !strings.HasPrefix(err.Error(), "line 2: seed ends in noughts") {
			t.Error(err)
		}
	}
	// Where one of the long ones is exact, none was rounded.
	if err := f.Record(progress.Answer{Item: "d/t/u", Drill: "d", Seed: 1234567890123456789, At: evening, Result: progress.Right}); err != nil {
		t.Fatal(err)
	}
	_, asCSV = bothExports(t, f)
	if got, err := inMemory(t, later).Import(strings.NewReader(strings.ReplaceAll(asCSV, "'", "")), anything); err != nil || got.Added != 6 {
		t.Error(got, err)
	}
}
