package progress

import (
	"bytes"
	"cmp"
	"encoding/binary"
	"errors"
	"os"
	"path/filepath"

	"sparetone/progress/whole"
)

// inspect looks at a file before SQLite may touch it, and makes an empty one if there is none. Its error is
// errTorn if SQLite may have it, but something written last is missing.
func inspect(path string) error {
	file, err := os.OpenFile(path, os.O_CREATE|os.O_RDWR, 0o600)
	if err != nil {
		return whole.Brief(err)
	}
	defer file.Close()
	about, err := file.Stat()
	if err != nil {
		return whole.Brief(err)
	}
	if !about.Mode().IsRegular() {
		return errors.New("this is not an ordinary file")
	}
	if about.Size() == 0 {
		if log, err := logOf(path); err != nil || len(log) > 0 {
			return cmp.Or(err, damaged("it is empty, but its log is not"))
		}
		whole.SyncFolder(filepath.Dir(path))
		return nil
	}
	if hasJournal(path) {
		return nil // SQLite makes it whole from what it was before
	}
	m, err := openImage(path, file, false)
	if err != nil {
		return err
	}
	return usable(m)
}

// usable says why a file is none that can be used. The error is errTorn if it can be used, but something
// written last is missing.
func usable(m *image) error {
	head := make([]byte, headerSize)
	n, _ := m.file.ReadAt(head, 0)
	if first := m.page(1); first != nil {
		n = copy(head, first)
	}
	if err := headerFault(head[:n]); err != nil {
		return err
	}
	if err := m.fault(); err != nil {
		return err
	}
	if m.log.torn {
		return errTorn
	}
	return nil
}

// hasJournal reports whether a program that was killed left a journal, from which SQLite will make a file what
// it was before. That is so while a file is being made.
func hasJournal(path string) bool {
	about, err := os.Stat(path + "-journal")
	return err == nil && about.Size() > 0
}

// headerFault says why a file is none of ours, by its first bytes.
func headerFault(head []byte) error {
	if len(head) < headerSize || !bytes.HasPrefix(head, magic) {
		return errors.New("this is not a progress file; it was left as it is")
	}
	if binary.BigEndian.Uint32(head[applicationIDAt:]) != applicationID {
		return errors.New("this belongs to another program; it was left as it is")
	}
	if v := int(binary.BigEndian.Uint32(head[userVersionAt:])); v > len(migrations) {
		return newer(v)
	}
	return nil
}
