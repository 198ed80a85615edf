package rescue

import (
	"bytes"
	"cmp"
	"encoding/binary"
	"slices"

	"sparetone/progress/pages"
)

// salvage is what can still be read of a damaged file. Each table is followed from where the file says it
// begins. If something is amiss on the way, the pages that were not met are looked at for rows as well, and those
// that make no sense for the beginnings of answers.
type salvage struct {
	m       *pages.Image
	met     map[uint32]bool
	free    map[uint32]bool
	suspect []uint32                  // pages that could not be read whole
	rows    map[string][]pages.Record // by the name of the table or index
	broken  map[string]bool           // tables and indexes of which something could not be read
	most    int64                     // the largest number of an answer that is spoken of
}

// The indexes that SQLite makes by itself for the ids of answers and of items.
const (
	AnswerIDs = "sqlite_autoindex_answers_1"
	ItemIDs   = "sqlite_autoindex_items_1"
)

// isTable says of what is looked for whether it lies in a tree of a table; what has no numbers lies in one of an index.
var isTable = map[string]bool{
	"sqlite_schema": true, "answers": true, "items": true, "sessions": false, "songs": false, "settings": false, AnswerIDs: false, ItemIDs: false,
}

// salvaged reads what can be read of an image.
func salvaged(m *pages.Image) *salvage {
	s := &salvage{m: m, met: map[uint32]bool{}, free: map[uint32]bool{}, rows: map[string][]pages.Record{}, broken: map[string]bool{}}
	s.follow("sqlite_schema", 1)
	for _, row := range s.rows["sqlite_schema"] {
		if len(row.Values) < 4 {
			continue
		}
		name, named := row.Values[1].(string)
		root, rooted := row.Values[3].(int64)
		if named && rooted && root > 1 && root <= int64(m.Count()) {
			s.follow(name, uint32(root))
		}
	}
	for _, name := range []string{"answers", AnswerIDs, "items", "sessions", "settings"} {
		if s.rows[name] == nil {
			s.broken[name] = true // it may be empty, or not be found
		}
	}
	if len(s.broken) == 0 {
		return s
	}
	s.findFree()
	for no := uint32(2); no <= m.Count(); no++ {
		if s.met[no] || s.free[no] {
			continue
		}
		if p, ok := m.Tree(no); ok {
			for _, r := range p.Records {
				if name := LooksLike(p.Kind, r.Values); name != "" {
					s.rows[name] = append(s.rows[name], r)
				}
			}
			if p.Whole {
				continue
			}
		}
		s.suspect = append(s.suspect, no)
	}
	for _, no := range s.suspect {
		s.rows["answers"] = append(s.rows["answers"], carve(m, no)...)
	}
	return s
}

// follow reads a tree from its root down.
func (s *salvage) follow(name string, no uint32) {
	if s.met[no] {
		s.broken[name] = true
		return
	}
	p, ok := s.m.Tree(no)
	if ofTable, known := isTable[name]; known && ofTable != (p.Kind == pages.TableInterior || p.Kind == pages.TableLeaf) {
		ok = false // it is of another tree
	}
	if !ok {
		s.broken[name] = true
		if no != 1 {
			s.suspect = append(s.suspect, no)
			s.met[no] = true
		}
		return
	}
	s.met[no] = true
	if !p.Whole {
		s.broken[name] = true
		s.suspect = append(s.suspect, no)
	}
	s.rows[name] = append(s.rows[name], p.Records...)
	if name == "answers" {
		s.most = max(s.most, p.Most)
	}
	for _, child := range p.Children {
		s.follow(name, child)
	}
}

// findFree finds the pages that are not in use: what stands there was taken away on purpose.
func (s *salvage) findFree() {
	const firstFree = 32 // in the header
	head := s.m.Page(1)
	if head == nil {
		return
	}
	for trunk := binary.BigEndian.Uint32(head[firstFree:]); trunk > 1 && !s.free[trunk] && !s.met[trunk]; {
		page := s.m.Page(trunk)
		if page == nil {
			return
		}
		s.free[trunk] = true
		count := int(binary.BigEndian.Uint32(page[4:]))
		for i := range min(count, len(page)/4-2) {
			s.free[binary.BigEndian.Uint32(page[8+4*i:])] = true
		}
		trunk = binary.BigEndian.Uint32(page)
	}
}

// LooksLike names the table or index that a row seems to be of; "" if it is none that is kept.
func LooksLike(kind byte, v []any) string {
	is := func(i int, types ...byte) bool { return i < len(v) && bytes.IndexByte(types, typeOf(v[i])) >= 0 }
	switch kind {
	case pages.TableLeaf:
		switch {
		case len(v) >= 16 && is(0, '0') && is(1, 'b') && len(v[1].([]byte)) == 16:
			return "answers"
		case len(v) == 3 && is(0, '0') && is(1, 's') && is(2, 's'):
			return "items"
		}
	case pages.IndexLeaf, pages.IndexInterior:
		switch {
		case len(v) == 2 && is(0, 'b') && is(1, 'i') && len(v[0].([]byte)) == 16:
			return AnswerIDs
		case len(v) == 2 && is(0, 's') && is(1, 'i'):
			return ItemIDs
		case len(v) == 10 && is(0, 's') && is(1, 's') && is(2, 'i') && is(3, 's') && is(4, 's') && is(5, 'i') && is(6, 's') && is(7, 's') && is(8, 's') && is(9, 'i'):
			return "songs"
		case len(v) >= 4 && is(0, 's') && is(1, 'i') && is(2, 'i', '0') && is(3, 'i', 'f'):
			return "sessions"
		case len(v) >= 2 && len(v) <= 3 && is(0, 's') && is(1, 's') && (len(v) == 2 || is(2, 'i', '0')):
			return "settings"
		}
	}
	return ""
}

func typeOf(v any) byte {
	switch v.(type) {
	case int64:
		return 'i'
	case float64:
		return 'f'
	case string:
		return 's'
	case []byte:
		return 'b'
	}
	return '0'
}

// answerBegins is how the kinds of an answer's first two fields are written: no value, for the number is kept
// elsewhere, and 16 bytes.
var answerBegins = []byte{0x00, 0x2c}

// carve looks for answers at every place of a page.
func carve(m *pages.Image, no uint32) (found []pages.Record) {
	data := m.Page(no)
	for at := 0; data != nil; {
		i := bytes.Index(data[at:], answerBegins)
		if i < 0 {
			return found
		}
		at += i + 1
		head := at - 2 // the length of the list of kinds stands before it, one byte
		for from := head - 2; from >= max(0, head-18); from-- {
			size, next, ok := pages.Varint(data, from)
			if !ok || size < 17 || next >= head {
				continue
			}
			if _, end, ok := pages.Varint(data, next); !ok || end != head {
				continue
			}
			if r, ok := m.Record(data, from, true); ok && LooksLike(pages.TableLeaf, r.Values) == "answers" {
				found = append(found, r)
				break
			}
		}
	}
	return found
}

// answers returns what seems to be an answer each, in their order.
func (s *salvage) answers() []pages.Record {
	all := slices.Clone(s.rows["answers"])
	slices.SortStableFunc(all, func(a, b pages.Record) int { return cmp.Compare(a.N, b.N) })
	return all
}

// total returns how many answers the file seems to have held; if so much is broken that there may have been more,
// least is true.
func (s *salvage) total() (answers int, least bool) {
	numbers, ids := map[int64]bool{}, map[string]bool{}
	most := s.most
	for _, r := range s.rows["answers"] {
		if LooksLike(pages.TableLeaf, r.Values) == "answers" {
			numbers[r.N], ids[string(r.Values[1].([]byte))] = true, true
			most = max(most, r.N)
		}
	}
	entries := s.rows[AnswerIDs]
	if s.broken[AnswerIDs] && !s.broken["answers"] {
		entries = nil // what it says beyond the answers themselves is made up by the damage
	}
	for _, r := range entries {
		if LooksLike(pages.IndexLeaf, r.Values) == AnswerIDs {
			n, id := r.Values[1].(int64), string(r.Values[0].([]byte))
			if !ids[id] && !numbers[n] { // an answer is known by either; the other may have turned
				numbers[n], ids[id] = true, true
				most = max(most, n)
			}
		}
	}
	least = s.broken["answers"] && (s.broken[AnswerIDs] || s.rows[AnswerIDs] == nil)
	const wild = 1000
	if least && most < 2*int64(len(ids))+wild { // a larger one is made up by the damage
		return max(int(most), len(ids)), true
	}
	return len(ids), least
}
