package pages

import (
	"bytes"
	"database/sql"
	"encoding/binary"
	"fmt"
	"math"
	"math/rand/v2"
	"os"
	"path/filepath"
	"testing"

	"github.com/google/go-cmp/cmp"

	_ "modernc.org/sqlite"
)

// made makes a file with a table of rows and one without numbers, each with values of every kind and length, in pages of a size.
func made(t *testing.T, pageSize, rows int, journal string) (path string, db *sql.DB) {
	t.Helper()
	path = filepath.Join(t.TempDir(), "file.db")
	db, err := sql.Open("sqlite", path)
	if err != nil {
		t.Fatal(err)
	}
	db.SetMaxOpenConns(1)
	t.Cleanup(func() { db.Close() })
	do := func(query string, args ...any) {
		if _, err := db.Exec(query, args...); err != nil {
			t.Fatal(err)
		}
	}
	do(fmt.Sprintf("PRAGMA page_size = %d", pageSize))
	do("PRAGMA journal_mode = " + journal)
	do("PRAGMA wal_autocheckpoint = 0")
	do("PRAGMA synchronous = OFF")
	do("CREATE TABLE numbered (n INTEGER PRIMARY KEY, a, b, c)")
	do("CREATE TABLE keyed (k TEXT PRIMARY KEY, a, b) WITHOUT ROWID")
	rng := rand.New(rand.NewPCG(uint64(pageSize), uint64(rows)))
	edges := []int64{0, 1, -1, 127, 128, -128, -129, 32767, 32768, -32768, -32769, 1<<23 - 1, 1 << 23, -1 << 23, -1<<23 - 1, 1<<31 - 1, 1 << 31, -1 << 31, -1<<31 - 1,
		1<<47 - 1, 1 << 47, -1 << 47, -1<<47 - 1, math.MaxInt64, math.MinInt64}
	value := func() any {
		switch rng.IntN(6) {
		case 0:
			return nil
		case 1:
			return edges[rng.IntN(len(edges))]
		case 2:
			return rng.NormFloat64()
		case 3:
			return bytes.Repeat([]byte{byte(rng.IntN(256))}, rng.IntN(3*pageSize))
		case 4:
			return string(bytes.Repeat([]byte{byte('a' + rng.IntN(26))}, rng.IntN(3*pageSize)))
		}
		return fmt.Sprint(rng.IntN(1000))
	}
	n := int64(-3)
	for i := range rows {
		n += 1 + rng.Int64N(1<<rng.IntN(40))
		do("INSERT INTO numbered VALUES (?,?,?,?)", n, value(), value(), value())
		do("INSERT INTO keyed VALUES (?,?,?)", fmt.Sprintf("%d %s", i, bytes.Repeat([]byte("k"), rng.IntN(pageSize/2))), value(), value())
	}
	return path, db
}

// opened reads a file without SQLite.
func opened(t *testing.T, path string) *Image {
	t.Helper()
	file, err := os.Open(path)
	if err != nil {
		t.Fatal(err)
	}
	t.Cleanup(func() { file.Close() })
	m, err := Open(path, file, true)
	if err != nil {
		t.Fatal(err)
	}
	return m
}

// followed reads a tree from a page down, and returns its rows and the largest number an inner page knows of.
func followed(t *testing.T, m *Image, no uint32) (rows []Record, most int64) {
	t.Helper()
	p, ok := m.Tree(no)
	if !ok || !p.Whole {
		t.Fatalf("page %d: read %v, whole %v", no, ok, p.Whole)
	}
	rows, most = p.Records, p.Most
	for _, child := range p.Children {
		below, largest := followed(t, m, child)
		rows, most = append(rows, below...), max(most, largest)
	}
	return rows, most
}

// byName returns where the tables of a file begin.
func byName(t *testing.T, m *Image) map[string]uint32 {
	t.Helper()
	roots := map[string]uint32{}
	rows, _ := followed(t, m, 1)
	for _, r := range rows {
		roots[r.Values[1].(string)] = uint32(r.Values[3].(int64))
	}
	return roots
}

// asked asks SQLite for the rows of a table, each as text.
func asked(t *testing.T, db *sql.DB, query string) map[string]bool {
	t.Helper()
	rows, err := db.Query(query)
	if err != nil {
		t.Fatal(err)
	}
	defer rows.Close()
	all := map[string]bool{}
	columns, _ := rows.Columns()
	for rows.Next() {
		values, into := make([]any, len(columns)), make([]any, len(columns))
		for i := range values {
			into[i] = &values[i]
		}
		if err := rows.Scan(into...); err != nil {
			t.Fatal(err)
		}
		all[fmt.Sprintf("%#v", values)] = true
	}
	return all
}

func sameRows(t *testing.T, m *Image, db *sql.DB) {
	t.Helper()
	roots := byName(t, m)
	numbered, most := followed(t, m, roots["numbered"])
	got := map[string]bool{}
	var largest int64
	for _, r := range numbered {
		got[fmt.Sprintf("%#v", append([]any{r.N}, r.Values[1:]...))] = true
		largest = max(largest, r.N)
	}
	if diff := cmp.Diff(asked(t, db, "SELECT * FROM numbered"), got); diff != "" {
		t.Errorf("numbered: %.2000s", diff)
	}
	if most == 0 || most > largest {
		t.Errorf("inner pages know of %d, the largest is %d", most, largest)
	}
	keyed, _ := followed(t, m, roots["keyed"])
	got = map[string]bool{}
	for _, r := range keyed {
		got[fmt.Sprintf("%#v", r.Values)] = true
	}
	if diff := cmp.Diff(asked(t, db, "SELECT * FROM keyed"), got); diff != "" {
		t.Errorf("keyed: %.2000s", diff)
	}
}

// What is read without SQLite is what SQLite reads, in the file, in its log, and in both.
func TestRowsAreThoseOfSQLite(t *testing.T) {
	for _, pageSize := range []int{512, 1024, 4096, 65536} {
		for _, journal := range []string{"DELETE", "WAL"} {
			t.Run(fmt.Sprint(journal, " ", pageSize), func(t *testing.T) {
				rows := 120
				if pageSize >= 4096 {
					rows = 40
				}
				path, db := made(t, pageSize, rows, journal)
				m := opened(t, path)
				if m.PageSize != pageSize {
					t.Errorf("pages of %d bytes", m.PageSize)
				}
				if err := m.Fault(); err != nil || m.Log.Torn {
					t.Errorf("fault %v, torn %v", err, m.Log.Torn)
				}
				sameRows(t, m, db)
				if journal == "WAL" {
					if _, err := db.Exec("PRAGMA wal_checkpoint(TRUNCATE)"); err != nil {
						t.Fatal(err)
					}
					if _, err := db.Exec("UPDATE numbered SET a = 'later' WHERE n % 7 = 0"); err != nil {
						t.Fatal(err)
					}
					sameRows(t, opened(t, path), db)
				}
			})
		}
	}
}

// A file and its log, laid into one, are a file that SQLite takes and finds whole.
func TestFlatIsAFile(t *testing.T) {
	path, db := made(t, 1024, 60, "WAL")
	m := opened(t, path)
	flat := filepath.Join(t.TempDir(), "flat.db")
	if err := os.WriteFile(flat, m.Flat(), 0o600); err != nil {
		t.Fatal(err)
	}
	again, err := sql.Open("sqlite", flat)
	if err != nil {
		t.Fatal(err)
	}
	defer again.Close()
	var says string
	if err := again.QueryRow("PRAGMA integrity_check").Scan(&says); err != nil || says != "ok" {
		t.Errorf("%s, %v", says, err)
	}
	for _, table := range []string{"numbered", "keyed"} {
		if diff := cmp.Diff(asked(t, db, "SELECT * FROM "+table), asked(t, again, "SELECT * FROM "+table)); diff != "" {
			t.Errorf("%s: %.500s", table, diff)
		}
	}
}

// A log that is broken off anywhere is read as SQLite reads it: up to the last commit that is whole.
func TestALogThatIsBrokenOff(t *testing.T) {
	path, db := made(t, 512, 12, "WAL")
	log, err := os.ReadFile(path + "-wal")
	if err != nil {
		t.Fatal(err)
	}
	file, err := os.ReadFile(path)
	if err != nil {
		t.Fatal(err)
	}
	db.Close()
	rng := rand.New(rand.NewPCG(1, 1))
	for range 40 {
		cut := rng.IntN(len(log) + 1)
		if cut%5 == 0 { // also where a frame ends
			cut = LogHeader + (cut / (FrameHeader + 512) * (FrameHeader + 512))
		}
		short := filepath.Join(t.TempDir(), "short.db")
		for name, is := range map[string][]byte{short: file, short + "-wal": log[:cut]} {
			if err := os.WriteFile(name, is, 0o600); err != nil {
				t.Fatal(err)
			}
		}
		l := ParseLog(log[:cut], 512)
		m := &Image{File: bytes.NewReader(file), Size: int64(len(file)), PageSize: 512, Log: l}
		again, err := sql.Open("sqlite", short)
		if err != nil {
			t.Fatal(err)
		}
		var pages uint32
		if err := again.QueryRow("PRAGMA page_count").Scan(&pages); err != nil {
			t.Fatal(err)
		}
		again.Close()
		if m.Count() != pages {
			t.Errorf("cut at %d of %d: %d pages, SQLite has %d", cut, len(log), m.Count(), pages)
		}
		frames, rest := (cut-LogHeader)/(FrameHeader+512), (cut-LogHeader)%(FrameHeader+512)
		if torn := cut > 0 && (cut < LogHeader || rest != 0 && rest != FrameHeader); l.Torn != torn {
			t.Errorf("cut at %d (%d frames and %d bytes): torn %v", cut, frames, rest, l.Torn)
		}
		if len(l.lost) > 0 {
			t.Errorf("cut at %d: %d pages are said to be lost", cut, len(l.lost))
		}
	}
}

// A bit that has turned in a log loses what is behind it for SQLite, and not for us: all but the commit that the bit is of.
func TestALogWithABrokenMiddle(t *testing.T) {
	path, db := made(t, 512, 12, "WAL")
	m := opened(t, path)
	defer db.Close()
	log := bytes.Clone(m.Log.All)
	const frame = FrameHeader + 512
	frames := (len(log) - LogHeader) / frame
	commit := func(i int) uint32 { return binary.BigEndian.Uint32(log[LogHeader+i*frame+4:]) }
	for _, broken := range []int{0, frames / 3, frames / 2, frames - 1} {
		bad := bytes.Clone(log)
		bad[LogHeader+broken*frame+FrameHeader+100] ^= 4
		l := ParseLog(bad, 512)
		if !l.Torn {
			t.Errorf("frame %d: not torn", broken)
		}
		taken, lost := map[uint32]bool{}, map[uint32]bool{}
		var open []uint32
		behind, spoiled := false, false
		for i := range frames {
			if i == broken {
				behind, spoiled = true, true
			}
			open = append(open, binary.BigEndian.Uint32(log[LogHeader+i*frame:]))
			if commit(i) == 0 {
				continue
			}
			for _, page := range open {
				switch {
				case !behind:
					taken[page] = true
				case !spoiled:
					lost[page] = true
				}
			}
			open, spoiled = nil, false
		}
		for name, is := range map[string]struct {
			want map[uint32]bool
			got  map[uint32][]byte
		}{"taken": {taken, l.pages}, "lost": {lost, l.lost}} {
			if len(is.want) != len(is.got) {
				t.Errorf("frame %d of %d: %s %d pages, want %d", broken, frames, name, len(is.got), len(is.want))
			}
			for page := range is.want {
				if is.got[page] == nil {
					t.Errorf("frame %d: page %d is not %s", broken, page, name)
				}
			}
		}
		image := &Image{File: m.File, Size: m.Size, PageSize: 512, Log: l}
		fault := image.Fault()
		image.RecoverLog()
		if broken < frames-1 && (fault == nil || image.Count() != m.Count()) {
			t.Errorf("frame %d: fault %v, %d pages of %d after", broken, fault, image.Count(), m.Count())
		}
	}
}

// A log that has begun anew holds what an earlier one left behind; that counts for nothing, for us as for SQLite.
func TestALogThatHasBegunAnew(t *testing.T) {
	path, db := made(t, 512, 30, "WAL")
	for _, do := range []string{"PRAGMA wal_checkpoint(RESTART)", "UPDATE numbered SET a = 'later' WHERE n % 7 = 0"} {
		if _, err := db.Exec(do); err != nil {
			t.Fatal(err)
		}
	}
	m := opened(t, path)
	salts := map[string]bool{}
	for at := LogHeader; at+FrameHeader+512 <= len(m.Log.All); at += FrameHeader + 512 {
		salts[string(m.Log.All[at+8:at+16])] = true
	}
	if len(salts) != 2 {
		t.Fatalf("%d kinds of frames in the log", len(salts))
	}
	if m.Log.Torn || len(m.Log.lost) > 0 {
		t.Errorf("torn %v, %d pages lost", m.Log.Torn, len(m.Log.lost))
	}
	sameRows(t, m, db)
}

// Where the header of a log is broken SQLite takes nothing of it; its commits can still be told, but for the first frame's.
func TestALogWithABrokenHeader(t *testing.T) {
	path, _ := made(t, 512, 12, "WAL")
	log := bytes.Clone(opened(t, path).Log.All)
	whole := ParseLog(log, 512)
	log[20] ^= 1
	l := ParseLog(log, 512)
	if !l.Torn || len(l.pages) > 0 || l.size != 0 {
		t.Errorf("torn %v, %d pages taken", l.Torn, len(l.pages))
	}
	if l.lostTo != whole.size || len(l.lost) < len(whole.pages)-3 {
		t.Errorf("%d pages of %d, to %d of %d", len(l.lost), len(whole.pages), l.lostTo, whole.size)
	}
	if short := ParseLog(log[:LogHeader+FrameHeader+511], 512); !short.Torn || len(short.lost) > 0 {
		t.Errorf("without a frame: %+v", short)
	}
}

// A log that cannot be read is an error, and none is fine.
func TestALogThatCannotBeRead(t *testing.T) {
	path, db := made(t, 512, 3, "DELETE")
	db.Close()
	opened(t, path)
	if err := os.Mkdir(path+"-wal", 0o700); err != nil {
		t.Fatal(err)
	}
	file, err := os.Open(path)
	if err != nil {
		t.Fatal(err)
	}
	defer file.Close()
	if _, err := Open(path, file, true); err == nil {
		t.Error("no error")
	}
}

// A file that is cut short, or whose header is none, says so by its pages.
func TestImagesThatAreCutShort(t *testing.T) {
	path, db := made(t, 1024, 20, "DELETE")
	db.Close()
	file, err := os.ReadFile(path)
	if err != nil {
		t.Fatal(err)
	}
	for _, c := range []struct {
		bytes int
		want  string
	}{
		{len(file), ""}, {0, ""},
		{len(file) - 1, fmt.Sprintf("it is cut short: %d bytes of %d", len(file)-1, len(file))},
		{len(file) - 1024, fmt.Sprintf("it is cut short: %d bytes of %d", len(file)-1024, len(file))},
		{1000, "it is cut short: 1000 bytes"},
	} {
		short := filepath.Join(t.TempDir(), "short.db")
		if err := os.WriteFile(short, file[:c.bytes], 0o600); err != nil {
			t.Fatal(err)
		}
		m := opened(t, short)
		err := m.Fault()
		if c.want == "" && err != nil || c.want != "" && (err == nil || !bytes.Contains([]byte(err.Error()), []byte(c.want))) {
			t.Errorf("%d bytes: %v, want %s", c.bytes, err, c.want)
		}
		if m.Page(0) != nil || m.Page(m.Count()+1) != nil {
			t.Errorf("%d bytes: a page outside of it", c.bytes)
		}
	}
}

// The size of pages is what the header says; one that cannot be is the usual one.
func TestPageSizes(t *testing.T) {
	for says, want := range map[uint16]int{1: 65536, 512: 512, 4096: 4096, 32768: 32768, 256: UsualPage, 0: UsualPage, 3000: UsualPage} {
		head := make([]byte, HeaderSize)
		binary.BigEndian.PutUint16(head[16:], says)
		if got := pageSizeIn(head); got != want {
			t.Errorf("%d: %d, want %d", says, got, want)
		}
	}
}

// Numbers of one to nine bytes, as SQLite writes them (SQLite file format, section 1.6).
func TestVarints(t *testing.T) {
	for _, c := range []struct {
		bytes []byte
		n     int64
		end   int
		ok    bool
	}{
		{[]byte{0x00}, 0, 1, true}, {[]byte{0x7f}, 127, 1, true}, {[]byte{0x81, 0x00}, 128, 2, true}, {[]byte{0x81, 0x80, 0x00}, 1 << 14, 3, true},
		{bytes.Repeat([]byte{0xff}, 9), -1, 9, true}, {append(bytes.Repeat([]byte{0x80}, 8), 0x05), 5, 9, true}, {bytes.Repeat([]byte{0xff}, 8), 0, 0, false}, {nil, 0, 0, false},
	} {
		if n, end, ok := Varint(c.bytes, 0); n != c.n && c.ok || end != c.end || ok != c.ok {
			t.Errorf("% x: %d, %d, %v", c.bytes, n, end, ok)
		}
		if n, end, ok := Varint(append([]byte{9, 9}, c.bytes...), 2); c.ok && (n != c.n || end != c.end+2 || !ok) {
			t.Errorf("% x behind two: %d, %d, %v", c.bytes, n, end, ok)
		}
	}
}

// Whatever bytes a page holds, reading it ends, and what is read lies within the page.
func TestPagesThatMakeNoSense(t *testing.T) {
	path, db := made(t, 512, 40, "DELETE")
	db.Close()
	file, err := os.ReadFile(path)
	if err != nil {
		t.Fatal(err)
	}
	rng := rand.New(rand.NewPCG(7, 7))
	for range 300 {
		bad := bytes.Clone(file)
		for range 1 + rng.IntN(40) {
			bad[100+rng.IntN(len(bad)-100)] = byte(rng.IntN(256))
		}
		m := &Image{File: bytes.NewReader(bad), Size: int64(len(bad)), PageSize: 512}
		for no := range m.Count() + 2 {
			m.Tree(no)
		}
	}
	head := []byte{TableLeaf, 0, 0, 0, 1, 0, 0, 0}
	for _, c := range []struct {
		what  string
		page  []byte
		whole bool
	}{
		{"more cells than there is room for", []byte{TableLeaf, 0, 0, 0xff, 0xff, 0, 0, 0}, false},
		{"a cell within the head", append(head, 0, 1), false},
		{"a cell behind the page", append(head, 2, 0), false},
		{"a row of no bytes", append(head, 0, 10, 0, 1), false},
		{"a list of kinds longer than the row", append(head, 0, 10, 2, 1, 10, 9), false},
		{"a kind that is none", append(head, 0, 10, 2, 1, 2, 10), false},
		{"a value longer than the row", append(head, 0, 10, 2, 1, 2, 6), false},
		{"a row longer than its values", append(head, 0, 10, 3, 1, 2, 9, 0), false},
		{"the number one", append(head, 0, 10, 2, 1, 2, 9), true},
	} {
		data := make([]byte, 1024)
		copy(data[512:], c.page)
		m := &Image{File: bytes.NewReader(data), Size: 1024, PageSize: 512}
		p, ok := m.Tree(2)
		if (ok && p.Whole) != c.whole {
			t.Errorf("%s: %v, %+v", c.what, ok, p)
		}
		if c.whole && (len(p.Records) != 1 || p.Records[0].N != 1 || p.Records[0].Values[0] != int64(1)) {
			t.Errorf("%s: %+v", c.what, p.Records)
		}
	}
}
