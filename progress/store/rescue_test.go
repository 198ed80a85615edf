package store

import (
	"bytes"
	"database/sql"
	"fmt"
	"math/rand/v2"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"sparetone/progress/pages"
	"sparetone/progress/rescue"
	"sparetone/progress/tables"
)

// answersOf returns the exported lines of a file's answers, by their ids.
func answersOf(t *testing.T, f *File) map[string]string {
	t.Helper()
	all := map[string]string{}
	if err := tables.Answers(f.db, func(k tables.AnswerRow) error {
		k.N, k.Under, k.Import = 0, sql.NullInt64{}, "" // these are the file's
		all[fmt.Sprintf("%x", k.ID)] = fmt.Sprintf("%+v", k)
		return nil
	}); err != nil {
		t.Fatal(err)
	}
	return all
}

// big returns the bytes of a file with some 2,500 answers, in trees of three levels, and its answers.
func big(t *testing.T) (file []byte, all map[string]string) {
	t.Helper()
	path := filepath.Join(t.TempDir(), "progress.db")
	tenYears(t, path, 2500)
	f := openAt(t, path, evening)
	all = answersOf(t, f)
	if err := f.Close(); err != nil {
		t.Fatal(err)
	}
	file, err := os.ReadFile(path)
	if err != nil {
		t.Fatal(err)
	}
	return file, all
}

// rescuedFrom rescues a damaged file and checks that whatever it says is right.
func rescuedFrom(t *testing.T, what string, file, log []byte, all map[string]string) (got rescue.Rescued, ok bool) {
	t.Helper()
	path := filepath.Join(t.TempDir(), "progress.db")
	write(t, path, file)
	if log != nil {
		write(t, path+"-wal", log)
	}
	to := path + ".new"
	got, err := Rescue(path, to, clockAt(evening))
	if err != nil {
		return got, false
	}
	f := openAt(t, to, evening)
	defer f.Close()
	is := answersOf(t, f)
	for id, line := range is {
		if all[id] != line {
			t.Errorf("%s: made up or changed:\n%s\n%s", what, line, all[id])
		}
	}
	if len(is) != got.Answers {
		t.Errorf("%s: %d answers, said %d", what, len(is), got.Answers)
	}
	sound(t, f, got.Answers)
	if now, err := os.ReadFile(path); err != nil || !bytes.Equal(now, file) {
		t.Errorf("%s: the damaged file was changed, %v", what, err)
	}
	return got, true
}

func TestRescueReadsASoundFileWhole(t *testing.T) {
	t.Parallel()
	file, all := big(t)
	if got, ok := rescuedFrom(t, "a sound file", file, nil, all); !ok || got.Answers != len(all) || got.Lost != 0 || got.AtLeast || got.Sessions != 0 {
		t.Errorf("%+v of %d", got, len(all))
	}
	file, log := logged(t, 30, 20)
	path := filepath.Join(t.TempDir(), "progress.db")
	write(t, path, file)
	write(t, path+"-wal", log)
	f := openAt(t, path, evening)
	all = answersOf(t, f)
	if got, ok := rescuedFrom(t, "with a log", file, log, all); !ok || got.Answers != 50 || got.Lost != 0 || got.Sessions != 2 {
		t.Errorf("%+v of %d", got, len(all))
	}
	log[pages.LogHeader+30*(pages.FrameHeader+pages.UsualPage)+pages.FrameHeader+7] ^= 1
	if got, ok := rescuedFrom(t, "with a broken log", file, log, all); !ok || got.Answers < 49 {
		t.Errorf("%+v of %d", got, len(all))
	}
}

// pagesOf lists the pages of a tree, by its name.
func pagesOf(file []byte, name string) (all []uint32) {
	m := &pages.Image{File: bytes.NewReader(file), Size: int64(len(file)), PageSize: pages.UsualPage}
	for no := uint32(2); no <= m.Count(); no++ {
		if p, ok := m.Tree(no); ok && len(p.Records) > 0 && rescue.LooksLike(p.Kind, p.Records[0].Values) == name {
			all = append(all, no)
		}
	}
	return all
}

func zeroed(file []byte, page uint32) []byte {
	file = bytes.Clone(file)
	clear(file[(page-1)*pages.UsualPage : page*pages.UsualPage])
	return file
}

// What is lost is what stood in the page that was damaged, and it is counted.
func TestWhatAPageTakesWithIt(t *testing.T) {
	t.Parallel()
	file, all := big(t)
	answers := pagesOf(file, "answers")
	middle := answers[len(answers)/2]
	here := &pages.Image{File: bytes.NewReader(file), Size: int64(len(file)), PageSize: pages.UsualPage}
	p, _ := here.Tree(middle)
	aPage := len(p.Records)
	header := bytes.Clone(file)
	clear(header[(middle-1)*pages.UsualPage : (middle-1)*pages.UsualPage+8])
	var root uint32
	for no := uint32(2); no <= here.Count(); no++ {
		if p, ok := here.Tree(no); ok && p.Kind == pages.TableInterior {
			root = no
			break
		}
	}
	// The root of an index in the place of a page of answers: what hangs from it is no answer.
	misplaced := bytes.Clone(file)
	for no := uint32(2); no <= here.Count(); no++ {
		if p, ok := here.Tree(no); ok && p.Kind == pages.IndexInterior && rescue.LooksLike(p.Kind, p.Records[0].Values) == rescue.AnswerIDs {
			copy(misplaced[(middle-1)*pages.UsualPage:middle*pages.UsualPage], here.Page(no))
			break
		}
	}
	first := bytes.Clone(file)
	clear(first[:pages.UsualPage])
	for _, c := range []struct {
		what string
		file []byte
		lost int
	}{
		{"a page of answers", zeroed(file, middle), aPage},
		{"the header of a page of answers", header, 0},
		{"a page of the index of answers", zeroed(file, pagesOf(file, rescue.AnswerIDs)[0]), 0},
		{"a page of the index of items", zeroed(file, pagesOf(file, rescue.ItemIDs)[0]), 0},
		{"the inner page of the answers", zeroed(file, root), 0},
		{"the first page", first, 0},
		{"an index in the place of a page of answers", misplaced, aPage},
	} {
		got, ok := rescuedFrom(t, c.what, c.file, nil, all)
		if !ok || got.Answers != len(all)-c.lost || got.Lost != c.lost {
			t.Errorf("%s: %+v of %d, want %d lost", c.what, got, len(all), c.lost)
		}
	}
}

// An answer of which a letter has turned is not passed off as what was written.
func TestRescueTakesNoAnswerThatHasChanged(t *testing.T) {
	t.Parallel()
	file, all := big(t)
	at := bytes.Index(file[len(file)/2:], []byte("majorsoft")) + len(file)/2 // expected and voice; there is no gap
	if at < len(file)/2 {
		at = bytes.Index(file[len(file)/2:], []byte("major")) + len(file)/2
	}
	file[at] = 'M'
	if got, ok := rescuedFrom(t, "a letter", file, nil, all); !ok || got.Answers != len(all)-1 || got.Lost != 1 {
		t.Errorf("%+v of %d", got, len(all))
	}
}

// Where the list of items is damaged, its index says what answers were of.
func TestRescueReadsItemsFromTheirIndex(t *testing.T) {
	t.Parallel()
	file, all := big(t)
	path := filepath.Join(t.TempDir(), "sound.db")
	write(t, path, file)
	f := openAt(t, path, evening)
	defer f.Close()
	var items []string // id and drill, as they lie side by side in the table and nowhere else
	rows, err := f.db.Query("SELECT id || drill FROM items WHERE drill <> ''")
	if err != nil {
		t.Fatal(err)
	}
	defer rows.Close()
	for rows.Next() {
		var row string
		if err := rows.Scan(&row); err != nil {
			t.Fatal(err)
		}
		items = append(items, row)
	}
	changed := 0
	for _, row := range items {
		changed += bytes.Count(file, []byte(row))
		file = bytes.ReplaceAll(file, []byte(row), []byte(strings.Replace(row, "/", "|", 1)))
	}
	if len(items) == 0 || changed < len(items) {
		t.Fatalf("%d of %d items were changed", changed, len(items))
	}
	if got, ok := rescuedFrom(t, "all items", file, nil, all); !ok || got.Answers != len(all) || got.Lost != 0 {
		t.Errorf("%+v of %d", got, len(all))
	}
}

func TestRescueOfWhatHoldsNothing(t *testing.T) {
	for what, bytes := range map[string][]byte{"rubbish": bytes.Repeat([]byte("rubbish "), 10000), "nothing": nil, "another program's file": foreign(t)} {
		path := filepath.Join(t.TempDir(), "progress.db")
		write(t, path, bytes)
		if _, err := Rescue(path, path+".new", clockAt(evening)); err == nil || strings.Contains(err.Error(), "\n") {
			t.Errorf("%s: %v", what, err)
		}
		if lies := beside(t, filepath.Dir(path)); lies != "progress.db" {
			t.Errorf("%s: there lies %s", what, lies)
		}
	}
	path := filepath.Join(t.TempDir(), "progress.db")
	write(t, path, soundBytes(t))
	write(t, path+".new", []byte("a letter"))
	if _, err := Rescue(path, path+".new", clockAt(evening)); err == nil {
		t.Error("written over a letter")
	}
}

// damage is a way in which a file comes to harm.
type damage struct {
	what string
	do   func(rng *rand.Rand, file, log []byte) (newFile, newLog []byte)
}

var damages = []damage{
	{"a bit", func(rng *rand.Rand, file, log []byte) ([]byte, []byte) {
		file[rng.IntN(len(file))] ^= 1 << rng.IntN(8)
		return file, log
	}},
	{"a few bytes", func(rng *rand.Rand, file, log []byte) ([]byte, []byte) {
		for range 20 {
			file[rng.IntN(len(file))] = byte(rng.Uint32())
		}
		return file, log
	}},
	{"a page of nothing", func(rng *rand.Rand, file, log []byte) ([]byte, []byte) {
		return zeroed(file, uint32(1+rng.IntN(len(file)/pages.UsualPage))), log
	}},
	{"a sector of rubbish", func(rng *rand.Rand, file, log []byte) ([]byte, []byte) {
		at := rng.IntN(len(file)/512) * 512
		for i := range 512 {
			file[at+i] = byte(rng.Uint32())
		}
		return file, log
	}},
	{"a page in another's place", func(rng *rand.Rand, file, log []byte) ([]byte, []byte) {
		from, to := rng.IntN(len(file)/pages.UsualPage)*pages.UsualPage, rng.IntN(len(file)/pages.UsualPage)*pages.UsualPage
		copy(file[to:to+pages.UsualPage], file[from:from+pages.UsualPage])
		return file, log
	}},
	{"cut short", func(rng *rand.Rand, file, log []byte) ([]byte, []byte) {
		return file[:len(file)/4+rng.IntN(3*len(file)/4)], log
	}},
	{"a bit in the log", func(rng *rand.Rand, file, log []byte) ([]byte, []byte) {
		log[rng.IntN(len(log))] ^= 1 << rng.IntN(8)
		return file, log
	}},
	{"a page of the log", func(rng *rand.Rand, file, log []byte) ([]byte, []byte) {
		at := rng.IntN(len(log) - pages.UsualPage)
		clear(log[at : at+pages.UsualPage])
		return file, log
	}},
	{"the log broken off", func(rng *rand.Rand, file, log []byte) ([]byte, []byte) {
		return file, log[:1+rng.IntN(len(log)-1)]
	}},
}

// Every copy that was damaged, and no longer says what it did, is told of, when it is opened and by Check alike;
// what is rescued of it is counted.
//
//	SPARETONE_DAMAGED=1000 go test -run EveryDamage -v ./progress/store
func TestEveryDamageIsTold(t *testing.T) {
	t.Parallel()
	copies, answers := fromEnvironment(t, "SPARETONE_DAMAGED", 18), 600
	if copies > 100 {
		answers = 2500
	}
	path := filepath.Join(t.TempDir(), "progress.db")
	tenYears(t, path, answers)
	f := openAt(t, path, evening)
	practised(t, f, 0, 2, 20, 1) // some in the log
	file, err := os.ReadFile(path)
	if err != nil {
		t.Fatal(err)
	}
	log, err := os.ReadFile(path + "-wal")
	if err != nil {
		t.Fatal(err)
	}
	all := answersOf(t, f)
	want, _ := bothExports(t, f)
	type tally struct{ copies, told, harmless, cutAtCommit, answers, rescued, nothing, miscounted int }
	tallies := map[string]*tally{}
	for n := range copies {
		d := damages[n%len(damages)]
		rng := rand.New(rand.NewPCG(uint64(n), 7))
		file, log := d.do(rng, bytes.Clone(file), bytes.Clone(log))
		what := fmt.Sprintf("copy %d, %s", n, d.what)
		s := tallies[d.what]
		if s == nil {
			s = &tally{}
			tallies[d.what] = s
		}
		s.copies++
		s.answers += len(all)

		folder := t.TempDir()
		path := filepath.Join(folder, "progress.db")
		write(t, path, file)
		write(t, path+"-wal", log)
		toRead, readErr := OpenToRead(path, clockAt(evening))
		says := ""
		if readErr == nil {
			says, _ = bothExports(t, toRead)
			readErr = toRead.Close()
		}
		g, err := Open(path, clockAt(evening))
		if err == nil {
			h, wrong := g.Check()
			if wrong == nil {
				wrong = h.Err()
			}
			if err = g.Close(); wrong != nil {
				err = wrong
			}
		}
		switch {
		case (err == nil) != (readErr == nil):
			t.Errorf("%s: to read %v, to write %v", what, readErr, err)
		case err != nil:
			s.told++
			if strings.Contains(err.Error(), "\n\n") {
				t.Errorf("%s: %v", what, err)
			}
		case says == want:
			s.harmless++
		case d.what == "the log broken off" && (len(log)-pages.LogHeader)%(pages.FrameHeader+pages.UsualPage) == 0:
			s.cutAtCommit++
		default:
			// What a log no longer has that ends where a commit ends, or in one that was never finished, nobody can know.
			if l := pages.ParseLog(log, pages.UsualPage); d.what == "the log broken off" && !l.Torn {
				s.cutAtCommit++
				break
			}
			t.Errorf("%s: not told", what)
		}
		got, ok := rescuedFrom(t, what, file, log, all)
		if !ok {
			s.nothing++
		}
		s.rescued += got.Answers
		if got.Answers+got.Lost != len(all) && !got.AtLeast {
			s.miscounted++
			t.Errorf("%s: %+v of %d", what, got, len(all))
		}
	}
	for _, d := range damages {
		if s := tallies[d.what]; s != nil {
			t.Logf("%-26s %4d copies: %d told, %d harmless, %d logs cut where a commit ends; %d of %d answers rescued, nothing of %d copies, %d miscounted",
				d.what, s.copies, s.told, s.harmless, s.cutAtCommit, s.rescued, s.answers, s.nothing, s.miscounted)
		}
	}
}
