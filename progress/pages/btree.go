package pages

import (
	"encoding/binary"
	"math"
)

// Pages of an SQLite file, read without SQLite, which stops at the first that is damaged. Here a page that makes
// no sense is passed over, and so is a cell of a page. Source: the SQLite file format, sections 1.6 and 2.1,
// https://www.sqlite.org/fileformat2.html.

// The kinds of pages of a tree, by their first byte.
const (
	IndexInterior = 0x02
	TableInterior = 0x05
	IndexLeaf     = 0x0a
	TableLeaf     = 0x0d
)

// Record is a row, or an entry of an index.
type Record struct {
	N      int64 // of a row of a table with numbers
	Values []any // nil, int64, float64, string or []byte
}

// treePage is what a page of a tree holds.
type treePage struct {
	Kind     byte
	Records  []Record
	Children []uint32
	Most     int64 // the largest number that an inner page of a table knows of
	Whole    bool  // every cell could be read
}

// Tree reads a page as one of a tree; false if it is none.
func (m *Image) Tree(no uint32) (p treePage, ok bool) {
	data := m.Page(no)
	if data == nil {
		return p, false
	}
	at := 0
	if no == 1 {
		at = HeaderSize
	}
	p.Kind, p.Whole = data[at], true
	cells, first := int(binary.BigEndian.Uint16(data[at+3:])), at+8
	switch p.Kind {
	case IndexInterior, TableInterior:
		p.Children = append(p.Children, binary.BigEndian.Uint32(data[at+8:]))
		first += 4
	case IndexLeaf, TableLeaf:
	default:
		return p, false
	}
	if first+2*cells > len(data) {
		return p, false
	}
	for i := range cells {
		cell := int(binary.BigEndian.Uint16(data[first+2*i:]))
		if cell < first+2*cells || !m.cell(&p, data, cell) {
			p.Whole = false
		}
	}
	return p, true
}

// cell reads a cell of a page, and reports whether it could be.
func (m *Image) cell(p *treePage, data []byte, at int) bool {
	if p.Kind == IndexInterior || p.Kind == TableInterior {
		if at+4 > len(data) {
			return false
		}
		p.Children = append(p.Children, binary.BigEndian.Uint32(data[at:]))
		at += 4
	}
	if p.Kind == TableInterior {
		key, _, ok := Varint(data, at)
		p.Most = max(p.Most, key)
		return ok
	}
	r, ok := m.Record(data, at, p.Kind == TableLeaf)
	if ok {
		p.Records = append(p.Records, r)
	}
	return ok
}

// Record reads a cell with a row in it.
func (m *Image) Record(data []byte, at int, numbered bool) (r Record, ok bool) {
	size, at, ok := Varint(data, at)
	if !ok || size < 1 || size > math.MaxInt32 {
		return r, false
	}
	if numbered {
		if r.N, at, ok = Varint(data, at); !ok {
			return r, false
		}
	}
	payload, ok := m.payload(data, at, int(size), numbered)
	if !ok {
		return r, false
	}
	r.Values, ok = values(payload)
	return r, ok
}

// payload gathers the bytes of a row, which may go on in other pages.
func (m *Image) payload(data []byte, at, size int, numbered bool) ([]byte, bool) {
	most := (m.PageSize-12)*64/255 - 23
	if numbered {
		most = m.PageSize - 35
	}
	here := size
	if size > most {
		least := (m.PageSize-12)*32/255 - 23
		here = least + (size-least)%(m.PageSize-4)
		if here > most {
			here = least
		}
	}
	if at+here > len(data) {
		return nil, false
	}
	if here == size {
		return data[at : at+size], true
	}
	if at+here+4 > len(data) {
		return nil, false
	}
	all := append([]byte(nil), data[at:at+here]...)
	for next := binary.BigEndian.Uint32(data[at+here:]); len(all) < size; {
		page := m.Page(next)
		if page == nil {
			return nil, false
		}
		all = append(all, page[4:min(len(page), 4+size-len(all))]...)
		next = binary.BigEndian.Uint32(page)
	}
	return all, true
}

// values takes a row apart.
func values(payload []byte) (all []any, ok bool) {
	head, at, ok := Varint(payload, 0)
	if !ok || head < 1 || head > int64(len(payload)) {
		return nil, false
	}
	for body := int(head); at < int(head); {
		var kind int64
		if kind, at, ok = Varint(payload, at); !ok || at > int(head) {
			return nil, false
		}
		size := int64(0)
		switch {
		case kind >= 12:
			size = (kind - 12) / 2
		case kind >= 10 || kind < 0:
			return nil, false
		default:
			size = int64([]int{0, 1, 2, 3, 4, 6, 8, 8, 0, 0}[kind])
		}
		if int64(body)+size > int64(len(payload)) {
			return nil, false
		}
		field := payload[body : body+int(size)]
		body += int(size)
		all = append(all, value(kind, field))
		if at == int(head) && body != len(payload) {
			return nil, false
		}
	}
	return all, true
}

// value reads a field by the number of its kind.
func value(kind int64, field []byte) any {
	switch {
	case kind == 0:
		return nil
	case kind == 7:
		return math.Float64frombits(binary.BigEndian.Uint64(field))
	case kind >= 12 && kind%2 == 0:
		return field
	case kind >= 12:
		return string(field)
	case kind >= 8:
		return kind - 8
	}
	n := int64(0)
	for i, b := range field {
		if i == 0 {
			n = int64(int8(b))
			continue
		}
		n = n<<8 | int64(b)
	}
	return n
}

// Varint reads a number of one to nine bytes, and returns where it ends.
func Varint(data []byte, at int) (n int64, end int, ok bool) {
	for i := range 9 {
		if at+i >= len(data) {
			return 0, at, false
		}
		b := data[at+i]
		if i == 8 {
			return n<<8 | int64(b), at + 9, true
		}
		n = n<<7 | int64(b&0x7f)
		if b < 0x80 {
			return n, at + i + 1, true
		}
	}
	return 0, at, false
}
