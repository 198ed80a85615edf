package exchange

import (
	"bufio"
	"bytes"
	"compress/gzip"
	"crypto/sha256"
	"encoding/hex"
	"encoding/json"
	"errors"
	"fmt"
	"hash"
	"io"
	"strings"

	"sparetone/progress"
	"sparetone/progress/exported"
	"sparetone/progress/tables"
)

// A student's machines are kept alike through a folder that something carries between them. Each machine keeps one file
// there, which no other writes, and reads those of the others. A file holds all that its machine knows and not only what was
// answered on it, so it makes no difference which file arrives when, how often, or whether one in between never does. It is
// gzip (RFC 1952) of JSON lines:
//
//	machine   first: which machine, whose practice, the how manieth writing
//	import    an import that is there, as progress undo knows it
//	undone    an import or answer that was taken back: it, or what came with it, is nowhere any more
//	setting   that belongs to the student, and when it was chosen
//	session   as in an export, with the import it came with
//	song      as in an export, with the import it came with, each time it was kept that is not done with
//	answer    as in an export, with the import it came with
//	end       last: the SHA-256 of all lines before
//
// What is only half there, or put together of two writings, has another sum. Kinds of lines that are not known are passed
// over. An answer is known by its id and belongs to the import it came with, if to any; the same answer may have come to two
// machines by two imports, and is there as long as one of these is (an observed-remove set: Shapiro and others, Conflict-free
// replicated data types, 2011).

// machineFormat is the version of such files. A later one is refused by its number.
const machineFormat = 1

// What a machine's file is called: these, with the machine's id in between.
const (
	MachinePrefix = "sparetone-"
	MachineSuffix = ".jsonl.gz"
)

// MachineName is what the file of a machine is called.
func MachineName(id string) string { return MachinePrefix + id + MachineSuffix }

// The limits of a machine's file in bytes: as it lies there, unpacked, and of a line.
const (
	LargestMachine  = 256 << 20
	largestUnpacked = 4 << 30
	longestCarried  = 1 << 20
)

// machineLine begins a file.
type machineLine struct {
	Kind    string `json:"kind"` // machine
	Format  int    `json:"format"`
	Machine string `json:"machine"` // its id, random
	Host    string `json:"host"`    // what the machine calls itself
	exported.Owner
	Writing int    `json:"writing"` // how many times it was written
	Mark    string `json:"mark"`    // of this writing, random: by it a machine knows its own
}

// carriedImport is the note of an import.
type carriedImport struct {
	Kind string `json:"kind"` // import
	ID   string `json:"id"`
	note
}

// carriedUndone is an import that was taken back.
type carriedUndone struct {
	Kind string `json:"kind"` // undone
	ID   string `json:"id"`
}

// carriedSetting is a setting with when it was chosen.
type carriedSetting struct {
	Kind string `json:"kind"` // setting
	Key  string `json:"key"`
	chosen
}

// carriedSession, carriedSong and carriedAnswer are what an export has, and the import it came with.
type carriedSession struct {
	exported.Session
	Import string `json:"import,omitempty"`
}

type carriedSong struct {
	exported.Song
	Import string `json:"import,omitempty"`
}

type carriedAnswer struct {
	exported.Answer
	Import string `json:"import,omitempty"`
}

// endLine ends a file.
type endLine struct {
	Kind   string `json:"kind"`   // end
	SHA256 string `json:"sha256"` // of all lines before, in hexadecimal digits
}

// machineWriter writes a machine's file, line by line.
type machineWriter struct {
	zip *gzip.Writer
	sum hash.Hash
	to  *json.Encoder
}

func newMachineWriter(w io.Writer) *machineWriter {
	m := &machineWriter{zip: gzip.NewWriter(w), sum: sha256.New()}
	m.to = json.NewEncoder(io.MultiWriter(m.zip, m.sum))
	m.to.SetEscapeHTML(false)
	return m
}

func (m *machineWriter) line(l any) error { return m.to.Encode(l) }

func (m *machineWriter) end() error {
	return errors.Join(m.line(endLine{"end", hex.EncodeToString(m.sum.Sum(nil))}), m.zip.Close())
}

// The errors of a file in the folder that cannot be taken in now.
var (
	ErrTorn      = errors.New("it is not whole, as if it were carried over only in part; it is taken in once it is whole")
	ErrNoMachine = errors.New("this is no file of a machine's practice; it was left alone")
)

// MachineFile is a file of the folder that was read and is whole.
type MachineFile struct {
	Name    string // in the folder
	packed  []byte
	head    machineLine
	imports []noteOf
	undone  []string
	chosen  map[string]chosen
	answers int
	holds   int // sessions, songs and answers
}

// ReadMachine reads a file of the folder. The error is ErrTorn, ErrNoMachine, or says what is wrong with one that is whole.
func ReadMachine(name string, packed []byte) (*MachineFile, error) {
	f := &MachineFile{Name: name, packed: packed, chosen: map[string]chosen{}}
	sum, first, ended := sha256.New(), true, ""
	err := f.lines(func(line []byte) error {
		if ended != "" {
			return ErrTorn
		}
		kind := kindOf(line)
		if first && kind != "machine" {
			return ErrNoMachine
		}
		first = false
		if kind == "end" {
			var l endLine
			if json.Unmarshal(line, &l) != nil || l.SHA256 != hex.EncodeToString(sum.Sum(nil)) {
				return ErrTorn
			}
			ended = l.SHA256
			return nil
		}
		sum.Write(line)
		return f.read(kind, line)
	})
	switch {
	case err != nil:
		return nil, err
	case ended == "":
		return nil, ErrTorn
	}
	return f, f.valid()
}

// kindOf is the kind of a line, which comes first in it.
func kindOf(line []byte) string {
	rest, ours := bytes.CutPrefix(line, []byte(`{"kind":"`))
	kind, _, closed := bytes.Cut(rest, []byte(`"`))
	if !ours || !closed {
		return ""
	}
	return string(kind)
}

// read notes what a line says, but for sessions, songs and answers, which are only counted.
func (f *MachineFile) read(kind string, line []byte) (err error) {
	switch kind {
	case "machine":
		err = json.Unmarshal(line, &f.head)
	case "import":
		var l carriedImport
		err = json.Unmarshal(line, &l)
		f.imports = append(f.imports, noteOf{l.ID, l.note})
	case "undone":
		var l carriedUndone
		err = json.Unmarshal(line, &l)
		f.undone = append(f.undone, l.ID)
	case "setting":
		var l carriedSetting
		err = json.Unmarshal(line, &l)
		f.chosen[l.Key] = l.chosen
	case "answer":
		f.answers++
		f.holds++
	case "session", "song":
		f.holds++
	}
	if err != nil { // then its sum is wrong as well, or somebody else wrote it
		return fmt.Errorf("a line of the kind %s cannot be read", kind)
	}
	return nil
}

// valid says what is wrong with a file that is whole.
func (f *MachineFile) valid() error {
	h := f.head
	if h.Format > machineFormat {
		return fmt.Errorf("a newer sparetone wrote it (format %d, this one knows up to %d); it was left alone", h.Format, machineFormat)
	}
	ids := []string{h.Machine, h.File, h.Mark}
	for _, i := range f.imports {
		ids = append(append(ids, i.id), i.Mine...)
	}
	ids = append(ids, f.undone...)
	for _, id := range ids {
		if id == "" || len(id) > tables.LongestName || progress.Tidy(id) != id || strings.ContainsAny(id, `/\`) {
			return fmt.Errorf("it has an id that is none, %q", progress.Short(id))
		}
	}
	if len(h.Whose) > tables.LongestName || progress.Tidy(h.Whose) != h.Whose || progress.Tidy(h.Host) != h.Host {
		return errors.New("it has a name that is none")
	}
	for key, c := range f.chosen {
		if key == "" || progress.Tidy(key) != key || progress.Tidy(c.Is) != c.Is {
			return fmt.Errorf("it has a setting that is none, %q", progress.Short(key))
		}
	}
	return nil
}

// lines shows every line to see, in turn, with its line break.
func (f *MachineFile) lines(see func(line []byte) error) error {
	from := bytes.NewReader(f.packed)
	zip, err := gzip.NewReader(from)
	if err != nil {
		if len(bytes.Trim(f.packed, "\x00")) > 0 && !bytes.HasPrefix(f.packed, []byte{0x1f, 0x8b}) {
			return ErrNoMachine
		}
		return ErrTorn
	}
	zip.Multistream(false)
	in := bufio.NewReaderSize(io.LimitReader(zip, largestUnpacked), longestCarried)
	for {
		line, err := in.ReadSlice('\n')
		switch {
		case err == io.EOF && len(line) == 0 && from.Len() == 0:
			return nil
		case errors.Is(err, bufio.ErrBufferFull):
			return fmt.Errorf("it has a line of more than %d bytes", longestCarried)
		case err != nil:
			return ErrTorn
		}
		if err := see(line); err != nil {
			return err
		}
	}
}

// Whose returns whose practice a file holds.
func (f *MachineFile) Whose() progress.Whose {
	return progress.Whose{ID: f.head.File, Name: f.head.Whose}
}

// Machine returns the id of the machine that wrote it, and what that machine calls itself.
func (f *MachineFile) Machine() (id, host string) { return f.head.Machine, f.head.Host }
