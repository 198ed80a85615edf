package pages

import (
	"encoding/binary"
	"errors"
	"os"
)

// The write-ahead log of a file holds whole pages, a commit after the other; each frame carries a checksum
// over all frames before it. SQLite takes a log as far as it is whole and says nothing of the rest, which is
// right after a power cut and wrong if a bit of the middle has turned. Here the rest is looked at too: each
// frame's checksum follows from the one that is written in the frame before it, so those behind a broken one
// can still be told from rubbish. Source: the SQLite file format, section 4,
// https://www.sqlite.org/fileformat2.html.

const (
	LogHeader   = 32 // bytes
	FrameHeader = 24 // bytes
	logMagic    = 0x377f0682
)

// pageLog is what a log holds.
type pageLog struct {
	All    []byte
	pages  map[uint32][]byte // what SQLite takes: the latest of each page, up to the last whole commit
	size   uint32            // of the file in pages after that; 0 if there was no commit
	lost   map[uint32][]byte // what it does not take, though it was whole: of commits behind a broken frame
	lostTo uint32            // as size, of these
	Torn   bool              // it ends in something that was begun and is not whole
}

// frame is a page in a log.
type frame struct {
	page, commit uint32
	data         []byte
}

// ParseLog takes a log apart. One that is empty holds nothing.
func ParseLog(log []byte, pageSize int) pageLog {
	l := pageLog{All: log, pages: map[uint32][]byte{}, lost: map[uint32][]byte{}}
	if len(log) == 0 {
		return l
	}
	if len(log) < LogHeader {
		l.Torn = true
		return l
	}
	u32 := func(at int) uint32 { return binary.BigEndian.Uint32(log[at:]) }
	var order binary.ByteOrder = binary.LittleEndian
	if u32(0) == logMagic|1 {
		order = binary.BigEndian
	}
	s0, s1 := logSum(order, 0, 0, log[:24])
	whole := u32(0)&^1 == logMagic && u32(24) == s0 && u32(28) == s1 && int(u32(8)) == pageSize
	salt0, salt1 := u32(16), u32(20)
	if !whole {
		if len(log) < LogHeader+FrameHeader+pageSize {
			l.Torn = true
			return l
		}
		salt0, salt1 = u32(LogHeader+8), u32(LogHeader+12) // of the first frame
	}
	var waiting []frame // for their commit
	known := whole      // the checksum before this frame is known
	header := whole
	spoiled := false // a frame of this commit is broken
	for at := LogHeader; at < len(log); at += FrameHeader + pageSize {
		if at+FrameHeader+pageSize > len(log) {
			// A kill may leave a frame's header without its page.
			if rest := len(log) - at; rest != FrameHeader && (rest < 16 || u32(at+8) == salt0 || u32(at+12) == salt1) {
				l.Torn = true
			}
			break
		}
		if u32(at+8) != salt0 && u32(at+12) != salt1 {
			if whole {
				break // from here on it is what an earlier log left behind
			}
			continue
		}
		data := log[at+FrameHeader : at+FrameHeader+pageSize]
		if known {
			s0, s1 = logSum(order, s0, s1, log[at:at+8])
			s0, s1 = logSum(order, s0, s1, data)
		}
		good := known && s0 == u32(at+16) && s1 == u32(at+20) && u32(at+8) == salt0 && u32(at+12) == salt1
		s0, s1, known = u32(at+16), u32(at+20), true
		if !good {
			// Nothing behind it is taken by SQLite. The commit that it belongs to is not whole, which is what a power
			// cut does to the last one; where the header is broken, that is all that is wrong with the first frame.
			whole, l.Torn, waiting, spoiled = false, true, nil, header
		}
		if spoiled {
			spoiled = u32(at+4) == 0
			continue
		}
		if !good {
			continue
		}
		waiting = append(waiting, frame{u32(at), u32(at + 4), data})
		if u32(at+4) == 0 {
			continue
		}
		pages, size := l.pages, &l.size
		if !whole {
			pages, size = l.lost, &l.lostTo
		}
		for _, f := range waiting {
			pages[f.page] = f.data
		}
		*size, waiting = u32(at+4), nil
	}
	return l
}

// logSum carries the checksum of a log on over more bytes, of which there are a multiple of 8.
func logSum(order binary.ByteOrder, s0, s1 uint32, over []byte) (uint32, uint32) {
	for ; len(over) >= 8; over = over[8:] {
		s0 += order.Uint32(over) + s1
		s1 += order.Uint32(over[4:]) + s0
	}
	return s0, s1
}

// ErrTorn is what is said of a log that ends in something broken off.
var ErrTorn = errors.New("the log of the progress file is broken off; the last answer before that may be missing")

// ReadLog reads the log beside a file; there need be none.
func ReadLog(path string) ([]byte, error) {
	log, err := os.ReadFile(path + "-wal")
	if errors.Is(err, os.ErrNotExist) {
		return nil, nil
	}
	return log, err
}
