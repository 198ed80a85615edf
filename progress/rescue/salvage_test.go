package rescue

import (
	"bytes"
	"encoding/binary"
	"fmt"
	"slices"
	"testing"

	"sparetone/progress/pages"

	"github.com/google/go-cmp/cmp"
)

func TestTypesOfValues(t *testing.T) {
	for want, v := range map[byte]any{'i': int64(1), 'f': 1.5, 's': "x", 'b': []byte("x"), '0': nil} {
		if got := typeOf(v); got != want {
			t.Errorf("%#v is %c, want %c", v, got, want)
		}
	}
}

// with returns a row with another value in one place.
func with(row []any, i int, v any) []any {
	row = slices.Clone(row)
	row[i] = v
	return row
}

// A row is known by the kind of its page, by how many values it has and by their types.
func TestWhatARowLooksLike(t *testing.T) {
	id := bytes.Repeat([]byte{1}, 16)
	n, f := int64(1), 10.5
	answer := append([]any{nil, id}, make([]any, 14)...)
	item := []any{nil, "spell/major", "spell"}
	song := []any{"kept-1", "blues", n, "C7", "ukulele", n, "C7=0001", "strum", "", n}
	session, setting := []any{"monday", n, n, f}, []any{"voice", "soft"}
	for _, c := range []struct {
		what string
		row  []any
		want string // in a leaf of a table with numbers
		keys string // in a page of an index, or of a table without numbers
	}{
		{"an answer", answer, "answers", ""},
		{"an answer of today", append(slices.Clone(answer), n, n, "", n, "", ""), "answers", ""},
		{"an answer without a voice", answer[:15], "", ""},
		{"an answer with its number", with(answer, 0, n), "", ""},
		{"an answer whose id is text", with(answer, 1, string(id)), "", ""},
		{"an answer with a short id", with(answer, 1, id[:15]), "", ""},
		{"an item", item, "items", ""},
		{"an item with its number", with(item, 0, n), "", ""},
		{"an item without a drill", with(item, 2, nil), "", ""},
		{"an item without an id", with(item, 1, nil), "", ""},
		{"an item and more", append(slices.Clone(item), nil), "", ""},
		{"the id of an answer", []any{id, n}, "", AnswerIDs},
		{"a short id of an answer", []any{id[1:], n}, "", ""},
		{"the id of an answer without its number", []any{id, nil}, "", ""},
		{"the id of an answer and more", []any{id, n, n}, "", ""},
		{"the id of an item", []any{"spell/major", n}, "", ItemIDs},
		{"the id of an item and a fraction", []any{"spell/major", f}, "", ""},
		{"the id of an item and more", []any{"spell/major", n, n}, "", ""},
		{"a song", song, "", "songs"},
		{"a song without a seal", song[:9], "", ""},
		{"a session", session, "", "sessions"},
		{"a session of whole minutes, as SQLite writes them", with(session, 3, n), "", "sessions"},
		{"a session that was never closed", with(session, 2, nil), "", "sessions"},
		{"a session of today", append(slices.Clone(session), n, ""), "", "sessions"},
		{"a session without a beginning", with(session, 1, nil), "", ""},
		{"a session without minutes", with(session, 3, nil), "", ""},
		{"a session that ended in words", with(session, 2, "late"), "", ""},
		{"a session without an id", with(session, 0, nil), "", ""},
		{"a session cut short", session[:3], "", ""},
		{"a setting", setting, "", "settings"},
		{"a setting under seal", append(slices.Clone(setting), n), "", "settings"},
		{"a setting without a seal", append(slices.Clone(setting), nil), "", "settings"},
		{"a setting under words", append(slices.Clone(setting), "x"), "", ""},
		{"a setting of nothing", with(setting, 1, nil), "", ""},
		{"a setting without a key", with(setting, 0, nil), "", ""},
		{"a setting and more", append(slices.Clone(setting), n, n), "", ""},
		{"a key alone", setting[:1], "", ""},
		{"nothing", nil, "", ""},
	} {
		for kind, want := range map[byte]string{pages.TableLeaf: c.want, pages.TableInterior: "", pages.IndexLeaf: c.keys, pages.IndexInterior: c.keys} {
			if got := LooksLike(kind, c.row); got != want {
				t.Errorf("%s on a page of kind %#x: %q, want %q", c.what, kind, got, want)
			}
		}
	}
	for i, v := range song {
		other := any("x")
		if _, text := v.(string); text {
			other = n
		}
		if got := LooksLike(pages.IndexLeaf, with(song, i, other)); got == "songs" {
			t.Errorf("a song with %#v in place %d", other, i)
		}
	}
}

// How many answers there were is what the answers and their index know together.
func TestHowManyAnswersThereWere(t *testing.T) {
	id := func(n int64) []byte { return fmt.Appendf(nil, "answer %09d", n) }
	ids := func(numbers ...int64) (all []pages.Record) {
		for _, n := range numbers {
			all = append(all, pages.Record{Values: []any{id(n), n}})
		}
		return all
	}
	var three []pages.Record
	for n := range int64(3) {
		three = append(three, pages.Record{N: n + 1, Values: append([]any{nil, id(n + 1)}, make([]any, 14)...)})
	}
	none := pages.Record{N: 99, Values: []any{nil, "not an answer"}}
	for _, c := range []struct {
		what           string
		answers, index []pages.Record
		broken         []string
		most           int64
		want           int
		least          bool
	}{
		{"all is there", three, ids(1, 2, 3), nil, 2, 3, false},
		{"an answer was found twice", append(three[:3:3], three[1]), ids(1, 2, 3), nil, 2, 3, false},
		{"a row that is no answer", append(three[:3:3], none), ids(1, 2, 3), nil, 2, 3, false},
		{"two that only the index knows", three, ids(1, 2, 3, 4, 5), []string{"answers"}, 0, 5, false},
		{"an entry with another number", three, []pages.Record{{Values: []any{id(2), int64(77)}}}, []string{"answers"}, 0, 3, false},
		{"an entry with another id", three, []pages.Record{{Values: []any{id(77), int64(2)}}}, []string{"answers"}, 0, 3, false},
		{"an entry that is none", three, []pages.Record{{Values: []any{"spell/major", int64(8)}}}, []string{"answers"}, 0, 3, false},
		{"a broken index beside whole answers", three, ids(1, 2, 3, 4), []string{AnswerIDs}, 0, 3, false},
		{"both broken", three, ids(1, 2, 4), []string{"answers", AnswerIDs}, 0, 4, true},
		{"both broken, and the index knows a larger number", three, ids(1, 2, 40), []string{"answers", AnswerIDs}, 0, 40, true},
		{"no index beside broken answers", three, nil, []string{"answers"}, 0, 3, true},
		{"a larger number that is spoken of", three, nil, []string{"answers"}, 40, 40, true},
		{"the largest number that is believed", three, nil, []string{"answers"}, 1005, 1005, true},
		{"a number that the damage made up", three, nil, []string{"answers"}, 1006, 3, true},
		{"a smaller number than there are answers", append(three[:3:3], pages.Record{N: 3, Values: append([]any{nil, id(9)}, make([]any, 14)...)}), nil, []string{"answers"}, 2, 4, true},
		{"a larger number where the index is whole", three, ids(1, 2, 3), []string{"answers"}, 40, 3, false},
	} {
		s := &salvage{rows: map[string][]pages.Record{"answers": c.answers, AnswerIDs: c.index}, broken: map[string]bool{}, most: c.most}
		for _, name := range c.broken {
			s.broken[name] = true
		}
		if got, least := s.total(); got != c.want || least != c.least {
			t.Errorf("%s: %d, %v; want %d, %v", c.what, got, least, c.want, c.least)
		}
	}
}

// An item's index speaks where the table is silent, and the other way round.
func TestNamesOfItems(t *testing.T) {
	s := &salvage{rows: map[string][]pages.Record{
		"items": {{N: 1, Values: []any{nil, "spell/majxr", "spell"}}, {N: 2, Values: []any{nil, "spell/minor", ""}}, {N: 4, Values: []any{"none"}}},
		ItemIDs: {{Values: []any{"spell/major", int64(1)}}, {Values: []any{"tell/sus4/ukulele", int64(3)}}, {Values: []any{int64(9), int64(9)}}},
	}}
	names, others := s.items()
	if diff := cmp.Diff(map[int64]itemName{1: {"spell/majxr", "spell"}, 2: {"spell/minor", ""}}, names, cmp.AllowUnexported(itemName{})); diff != "" {
		t.Error(diff)
	}
	if diff := cmp.Diff(map[int64]itemName{1: {"spell/major", "spell"}, 2: {"spell/minor", ""}, 3: {"tell/sus4/ukulele", "tell"}}, others, cmp.AllowUnexported(itemName{})); diff != "" {
		t.Error(diff)
	}
}

// A tree that runs in a circle, or into another tree, is followed once and called broken.
func TestTreesThatRunAstray(t *testing.T) {
	from := practised(t, 40)
	sound := bytesOf(t, from)
	answers, items := root(t, from, "answers"), root(t, from, "items")
	for _, c := range []struct {
		what  string
		child uint32 // of the root of the answers, its last
		broke []string
	}{
		{"to itself", answers, []string{"answers"}},
		{"to another table", items, []string{"answers", "items"}}, // whichever comes first has it
		{"to a page that is not there", 100000, []string{"answers"}},
		{"to an index", root(t, from, AnswerIDs), []string{"answers", AnswerIDs}},
	} {
		file := bytes.Clone(sound)
		binary.BigEndian.PutUint32(page(file, answers)[8:], c.child) // SQLite file format, section 1.6: the right-most child
		s := salvaged(imageOf(file))
		broke := 0
		for name := range s.broken {
			if !slices.Contains(c.broke, name) {
				t.Errorf("%s: %s is broken", c.what, name)
			}
			broke++
		}
		if broke == 0 {
			t.Errorf("%s: not noticed", c.what)
		}
		if got := len(s.answers()); got < 40 {
			t.Errorf("%s: %d answers", c.what, got)
		}
	}
	if s := salvaged(imageOf(sound)); len(s.broken)+len(s.suspect) > 0 || s.most < 30 || s.most > 40 {
		t.Errorf("a sound file: broken %v, suspect %v, answers up to %d", s.broken, s.suspect, s.most)
	}
}

// The list of what there is may be damaged too: a name or a place that is none is passed over.
func TestAListOfTablesThatMakesNoSense(t *testing.T) {
	from := practised(t, 3)
	for _, harm := range []string{
		"UPDATE sqlite_schema SET rootpage = 1 WHERE name = 'sessions'",
		"UPDATE sqlite_schema SET rootpage = 0 WHERE name = 'sessions'",
		"UPDATE sqlite_schema SET rootpage = 1000000 WHERE name = 'sessions'",
		"UPDATE sqlite_schema SET rootpage = 'x' WHERE name = 'sessions'",
		"UPDATE sqlite_schema SET name = NULL WHERE name = 'sessions'",
	} {
		_, err := from.Exec("PRAGMA writable_schema = ON; SAVEPOINT sound; " + harm)
		must(t, err)
		s := salvaged(imageOf(bytesOf(t, from)))
		if !s.broken["sessions"] || len(s.rows["sessions"]) != 1 {
			t.Errorf("%s: broken %v, %d sessions", harm, s.broken, len(s.rows["sessions"]))
		}
		_, err = from.Exec("ROLLBACK TO sound; RELEASE sound")
		must(t, err)
	}
}

// A list of free pages that makes no sense ends, and frees nothing that is in use.
func TestFreePagesThatMakeNoSense(t *testing.T) {
	file := make([]byte, 6*pageSize)
	put := func(no uint32, at int, v uint32) { binary.BigEndian.PutUint32(page(file, no)[at:], v) }
	put(1, 32, 2) // the first trunk
	put(2, 0, 4)  // the next
	put(2, 4, 2)
	put(2, 8, 3)
	put(2, 12, 6)
	put(4, 0, 2) // back to the first
	put(4, 4, 1<<31-1)
	for _, c := range []struct {
		what string
		met  map[uint32]bool
		want []uint32
	}{
		{"in a circle", nil, []uint32{0, 2, 3, 4, 6}}, // the second trunk counts all its places, which hold nothing
		{"into a page in use", map[uint32]bool{4: true}, []uint32{2, 3, 6}},
		{"from a page in use", map[uint32]bool{2: true}, nil},
	} {
		s := &salvage{m: imageOf(file), met: c.met, free: map[uint32]bool{}}
		s.findFree()
		var got []uint32
		for no := range s.free {
			got = append(got, no)
		}
		slices.Sort(got)
		if !slices.Equal(got, c.want) {
			t.Errorf("%s: %v, want %v", c.what, got, c.want)
		}
	}
	put(2, 0, 7) // a trunk that is not there
	s := &salvage{m: imageOf(file), free: map[uint32]bool{}}
	if s.findFree(); len(s.free) != 3 || s.free[7] {
		t.Errorf("%v", s.free)
	}
	s = &salvage{m: imageOf(nil), free: map[uint32]bool{}}
	if s.findFree(); len(s.free) != 0 {
		t.Errorf("%v", s.free)
	}
}

// On a page whose head is gone every answer is found by how it begins.
func TestAnswersAreCarvedOutOfAPage(t *testing.T) {
	file := bytesOf(t, practised(t, 12))
	no := leaves(file, "answers")[1]
	p, _ := imageOf(file).Tree(no)
	clear(page(file, no)[:8+2*len(p.Records)])
	found := carve(imageOf(file), no)
	slices.SortFunc(found, func(a, b pages.Record) int { return int(a.N - b.N) })
	if diff := cmp.Diff(p.Records, found); diff != "" || len(found) < 2 {
		t.Errorf("%d answers: %s", len(found), diff)
	}
	if found := carve(imageOf(file), 10000); found != nil {
		t.Errorf("on a page that is not there: %v", found)
	}
	copy(page(file, no), bytes.Repeat(answerBegins, pageSize/2))
	if found := carve(imageOf(file), no); found != nil {
		t.Errorf("where beginnings lead to nothing: %v", found)
	}
}
