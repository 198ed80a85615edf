package progress

import (
	"bytes"
	"encoding/binary"
	"errors"
	"io"
	"os"
	"time"

	"sparetone/progress/whole"
)

// image is a progress file as it lies on the disk, read without SQLite: the file, and its log over it. It
// takes no lock, writes nothing, and is there as well where nothing may be written and where SQLite finds a
// file too damaged.
type image struct {
	file     io.ReaderAt
	size     int64 // of the file alone, in bytes
	log      pageLog
	pageSize int
}

// usualPage is the size in bytes of the pages of the files this program makes.
const usualPage = 4096

// openImage reads a file and its log as they are at one moment; the whole of it is in memory if inMemory.
// Another program may write to them meanwhile, so what is not whole is looked at again, up to ten times in a
// fifth of a second.
func openImage(path string, file *os.File, inMemory bool) (*image, error) {
	for try := 0; ; try++ {
		m, settled, err := readImage(path, file, inMemory)
		if err != nil {
			return nil, whole.Brief(err)
		}
		if settled && (m.fault() == nil && !m.log.torn || try >= 9) {
			return m, nil
		}
		if try == 99 {
			return nil, errors.New("another program writes to it all the time")
		}
		time.Sleep(20 * time.Millisecond)
	}
}

// readImage reads the file, and then its log. Whatever is copied from the log into the file while that is read is in the
// log that is read after it, unless the log has begun anew meanwhile: then the image is not settled, and may be of two
// moments. A log that begins anew has another header (SQLite file format, section 4.1: its salts).
func readImage(path string, file *os.File, inMemory bool) (m *image, settled bool, err error) {
	before, err := logOf(path)
	if err != nil {
		return nil, false, err
	}
	about, err := file.Stat()
	if err != nil {
		return nil, false, err
	}
	m = &image{file: file, size: about.Size()}
	if inMemory {
		all := make([]byte, m.size)
		if _, err := file.ReadAt(all, 0); err != nil && err != io.EOF {
			return nil, false, err
		}
		m.file = bytes.NewReader(all)
	}
	m.pageSize = usualPage
	head := make([]byte, headerSize)
	if _, err := m.file.ReadAt(head, 0); err == nil {
		m.pageSize = pageSizeIn(head)
	}
	log, err := logOf(path)
	if err != nil {
		return nil, false, err
	}
	m.log = readLog(log, m.pageSize)
	return m, !inMemory || bytes.Equal(before[:min(len(before), logHeader)], log[:min(len(log), logHeader)]), nil
}

// pageSizeIn returns the size of a file's pages in bytes, by its header.
func pageSizeIn(head []byte) int {
	size := int(binary.BigEndian.Uint16(head[pageSizeAt:]))
	if size == 1 {
		size = 65536
	}
	if size < 512 || size&(size-1) != 0 {
		return usualPage
	}
	return size
}

// pages returns how many pages there are.
func (m *image) pages() uint32 {
	if m.log.size > 0 {
		return m.log.size
	}
	return uint32(m.size / int64(m.pageSize))
}

// page returns a page, counted from 1; nil if it is not there.
func (m *image) page(n uint32) []byte {
	if data := m.log.pages[n]; data != nil {
		return data
	}
	return m.inFile(n)
}

func (m *image) inFile(n uint32) []byte {
	from := (int64(n) - 1) * int64(m.pageSize)
	if n < 1 || from+int64(m.pageSize) > m.size {
		return nil
	}
	page := make([]byte, m.pageSize)
	if _, err := m.file.ReadAt(page, from); err != nil {
		return nil
	}
	return page
}

// fault returns why SQLite may not have the file: it would leave out, and then take away, what can still be
// read, or take pages for there that are not. What is only broken off at the end is not a fault; that is told
// by the log's torn.
func (m *image) fault() error {
	for n, data := range m.log.lost {
		if !bytes.Equal(data, m.page(n)) {
			return damaged("its log is broken in the middle")
		}
	}
	whole := m.log.size
	if head := m.page(1); whole == 0 && head != nil {
		whole = binary.BigEndian.Uint32(head[pagesAt:])
	}
	for n := uint32(m.size/int64(m.pageSize)) + 1; n <= whole; n++ {
		if m.log.pages[n] == nil {
			return damaged("it is cut short: %d bytes of %d", m.size, int64(whole)*int64(m.pageSize))
		}
	}
	if m.size > 0 && m.page(1) == nil {
		return damaged("it is cut short: %d bytes", m.size)
	}
	return nil
}

// recoverLog lays over the image what its log still holds behind a broken place.
func (m *image) recoverLog() {
	for n, data := range m.log.lost {
		m.log.pages[n] = data
	}
	m.log.size = max(m.log.size, m.log.lostTo)
	if m.log.size > 0 {
		m.log.size = max(m.log.size, uint32(m.size/int64(m.pageSize)))
	}
}

// flat returns the whole as one file without a log, as SQLite takes it into memory.
func (m *image) flat() []byte {
	all := make([]byte, int(m.pages())*m.pageSize)
	for n := uint32(1); n <= m.pages(); n++ {
		copy(all[int(n-1)*m.pageSize:], m.page(n))
	}
	if len(all) >= headerSize {
		all[18], all[19] = 1, 1 // it needs no log
	}
	return all
}
