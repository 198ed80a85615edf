package pages

import (
	"bytes"
	"encoding/binary"
	"errors"
	"io"
	"os"
	"time"

	"sparetone/progress"
	"sparetone/progress/whole"
)

// Image is a progress file as it lies on the disk, read without SQLite: the file, and its log over it. It
// takes no lock, writes nothing, and is there as well where nothing may be written and where SQLite finds a
// file too damaged.
type Image struct {
	File     io.ReaderAt
	Size     int64 // of the file alone, in bytes
	Log      pageLog
	PageSize int
}

// UsualPage is the size in bytes of the pages of the files this program makes.
const UsualPage = 4096

// Open reads a file and its log as they are at one moment; the whole of it is in memory if inMemory.
// Another program may write to them meanwhile, so what is not whole is looked at again, up to ten times in a
// fifth of a second.
func Open(path string, file *os.File, inMemory bool) (*Image, error) {
	for try := 0; ; try++ {
		m, settled, err := readImage(path, file, inMemory)
		if err != nil {
			return nil, whole.Brief(err)
		}
		if settled && (m.Fault() == nil && !m.Log.Torn || try >= 9) {
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
func readImage(path string, file *os.File, inMemory bool) (m *Image, settled bool, err error) {
	before, err := ReadLog(path)
	if err != nil {
		return nil, false, err
	}
	about, err := file.Stat()
	if err != nil {
		return nil, false, err
	}
	m = &Image{File: file, Size: about.Size()}
	if inMemory {
		all := make([]byte, m.Size)
		if _, err := file.ReadAt(all, 0); err != nil && err != io.EOF {
			return nil, false, err
		}
		m.File = bytes.NewReader(all)
	}
	m.PageSize = UsualPage
	head := make([]byte, HeaderSize)
	if _, err := m.File.ReadAt(head, 0); err == nil {
		m.PageSize = pageSizeIn(head)
	}
	log, err := ReadLog(path)
	if err != nil {
		return nil, false, err
	}
	m.Log = ParseLog(log, m.PageSize)
	return m, !inMemory || bytes.Equal(before[:min(len(before), LogHeader)], log[:min(len(log), LogHeader)]), nil
}

// pageSizeIn returns the size of a file's pages in bytes, by its header.
func pageSizeIn(head []byte) int {
	size := int(binary.BigEndian.Uint16(head[pageSizeAt:]))
	if size == 1 {
		size = 65536
	}
	if size < 512 || size&(size-1) != 0 {
		return UsualPage
	}
	return size
}

// Count returns how many pages there are.
func (m *Image) Count() uint32 {
	if m.Log.size > 0 {
		return m.Log.size
	}
	return uint32(m.Size / int64(m.PageSize))
}

// Page returns a page, counted from 1; nil if it is not there.
func (m *Image) Page(n uint32) []byte {
	if data := m.Log.pages[n]; data != nil {
		return data
	}
	return m.inFile(n)
}

func (m *Image) inFile(n uint32) []byte {
	from := (int64(n) - 1) * int64(m.PageSize)
	if n < 1 || from+int64(m.PageSize) > m.Size {
		return nil
	}
	page := make([]byte, m.PageSize)
	if _, err := m.File.ReadAt(page, from); err != nil {
		return nil
	}
	return page
}

// Fault returns why SQLite may not have the file: it would leave out, and then take away, what can still be
// read, or take pages for there that are not. What is only broken off at the end is not a fault; that is told
// by the log's torn.
func (m *Image) Fault() error {
	for n, data := range m.Log.lost {
		if !bytes.Equal(data, m.Page(n)) {
			return progress.Damaged("its log is broken in the middle")
		}
	}
	whole := m.Log.size
	if head := m.Page(1); whole == 0 && head != nil {
		whole = binary.BigEndian.Uint32(head[pagesAt:])
	}
	for n := uint32(m.Size/int64(m.PageSize)) + 1; n <= whole; n++ {
		if m.Log.pages[n] == nil {
			return progress.Damaged("it is cut short: %d bytes of %d", m.Size, int64(whole)*int64(m.PageSize))
		}
	}
	if m.Size > 0 && m.Page(1) == nil {
		return progress.Damaged("it is cut short: %d bytes", m.Size)
	}
	return nil
}

// RecoverLog lays over the image what its log still holds behind a broken place.
func (m *Image) RecoverLog() {
	for n, data := range m.Log.lost {
		m.Log.pages[n] = data
	}
	m.Log.size = max(m.Log.size, m.Log.lostTo)
	if m.Log.size > 0 {
		m.Log.size = max(m.Log.size, uint32(m.Size/int64(m.PageSize)))
	}
}

// Flat returns the whole as one file without a log, as SQLite takes it into memory.
func (m *Image) Flat() []byte {
	all := make([]byte, int(m.Count())*m.PageSize)
	for n := uint32(1); n <= m.Count(); n++ {
		copy(all[int(n-1)*m.PageSize:], m.Page(n))
	}
	if len(all) >= HeaderSize {
		all[18], all[19] = 1, 1 // it needs no log
	}
	return all
}
