package store

import (
	"fmt"
	"math/rand/v2"
	"path/filepath"
	"strings"
	"sync"
	"testing"
	"time"
	"unsafe"

	"sparetone/progress"

	"modernc.org/libc"
	sqlite3 "modernc.org/sqlite/lib"
)

// A layer below SQLite's calls of the file system. It passes everything on, and for files in one folder it can
// write down what is written and synced, in order, so that a power cut at any moment can be played: whatever was not
// synced by then may be missing, each write by itself and each sector of it. It can also refuse to write, as a full
// disk does.

// onDisk is something SQLite did to a file.
type onDisk struct {
	path string
	kind byte // w write, t truncate, s sync, d delete
	at   int64
	data []byte // of a write
}

// layer is the state of the layer. All zero, it only passes on.
var layer struct {
	sync.Mutex
	folder  string // what lies elsewhere is passed on
	done    []onDisk
	writes  int
	fullAt  int // the number of the write from which on there is no room; 0 if there is
	refused int
	names   map[uintptr]string
	real    map[uintptr]uintptr // the methods of an open file
	tables  map[uintptr]*sqlite3.Tsqlite3_io_methods
	vfs     sqlite3.Tsqlite3_vfs // as it was
}

// there returns what lies at an address of SQLite's, which the garbage collector neither moves nor frees.
func there[T any](at uintptr) *T { return *(**T)(unsafe.Pointer(&at)) }

// putLayer puts the layer under SQLite, once.
var putLayer = sync.OnceFunc(func() {
	vfs := sqlite3.Xsqlite3_vfs_find(libc.NewTLS(), 0)
	v := there[sqlite3.Tsqlite3_vfs](vfs)
	layer.names, layer.real, layer.tables = map[uintptr]string{}, map[uintptr]uintptr{}, map[uintptr]*sqlite3.Tsqlite3_io_methods{}
	layer.vfs = *v
	*(*func(*libc.TLS, uintptr, uintptr, uintptr, int32, uintptr) int32)(unsafe.Pointer(&v.FxOpen)) = layerOpen
	*(*func(*libc.TLS, uintptr, uintptr, int32) int32)(unsafe.Pointer(&v.FxDelete)) = layerDelete
})

// over puts the layer over the files of a folder for one test.
func over(t *testing.T, folder string) {
	putLayer()
	layer.Lock()
	defer layer.Unlock()
	layer.folder, layer.done, layer.writes, layer.fullAt, layer.refused = folder, nil, 0, 0, 0
	t.Cleanup(func() {
		layer.Lock()
		defer layer.Unlock()
		layer.folder, layer.done, layer.fullAt = "", nil, 0
	})
}

func layerOpen(tls *libc.TLS, vfs, name, file uintptr, flags int32, out uintptr) int32 {
	open := layer.vfs.FxOpen
	rc := (*(*func(*libc.TLS, uintptr, uintptr, uintptr, int32, uintptr) int32)(unsafe.Pointer(&struct{ uintptr }{open})))(tls, vfs, name, file, flags, out)
	if rc != 0 || name == 0 {
		return rc
	}
	layer.Lock()
	defer layer.Unlock()
	f := there[sqlite3.Tsqlite3_file](file)
	real := f.FpMethods
	if layer.tables[real] == nil {
		table := *there[sqlite3.Tsqlite3_io_methods](real)
		*(*func(*libc.TLS, uintptr, uintptr, int32, int64) int32)(unsafe.Pointer(&table.FxWrite)) = layerWrite
		*(*func(*libc.TLS, uintptr, int64) int32)(unsafe.Pointer(&table.FxTruncate)) = layerTruncate
		*(*func(*libc.TLS, uintptr, int32) int32)(unsafe.Pointer(&table.FxSync)) = layerSync
		*(*func(*libc.TLS, uintptr) int32)(unsafe.Pointer(&table.FxClose)) = layerClose
		layer.tables[real] = &table
	}
	layer.names[file], layer.real[file] = libc.GoString(name), real
	f.FpMethods = uintptr(unsafe.Pointer(layer.tables[real]))
	return rc
}

// methods returns the methods below the layer, and notes what is done if that is wanted.
func methods(file uintptr, note func(path string) (refuse bool)) (m *sqlite3.Tsqlite3_io_methods, refuse bool) {
	layer.Lock()
	defer layer.Unlock()
	path := layer.names[file]
	if layer.folder != "" && strings.HasPrefix(path, layer.folder+string(filepath.Separator)) {
		refuse = note(path)
	}
	return there[sqlite3.Tsqlite3_io_methods](layer.real[file]), refuse
}

func layerWrite(tls *libc.TLS, file, from uintptr, n int32, at int64) int32 {
	m, refuse := methods(file, func(path string) bool {
		layer.writes++
		if layer.fullAt > 0 && layer.writes >= layer.fullAt {
			layer.refused++
			return true
		}
		layer.done = append(layer.done, onDisk{path, 'w', at, append([]byte(nil), unsafe.Slice(there[byte](from), n)...)})
		return false
	})
	if refuse {
		return sqlite3.SQLITE_FULL
	}
	return (*(*func(*libc.TLS, uintptr, uintptr, int32, int64) int32)(unsafe.Pointer(&struct{ uintptr }{m.FxWrite})))(tls, file, from, n, at)
}

func layerTruncate(tls *libc.TLS, file uintptr, to int64) int32 {
	m, _ := methods(file, func(path string) bool {
		layer.done = append(layer.done, onDisk{path, 't', to, nil})
		return false
	})
	return (*(*func(*libc.TLS, uintptr, int64) int32)(unsafe.Pointer(&struct{ uintptr }{m.FxTruncate})))(tls, file, to)
}

func layerSync(tls *libc.TLS, file uintptr, flags int32) int32 {
	m, _ := methods(file, func(path string) bool {
		layer.done = append(layer.done, onDisk{path, 's', 0, nil})
		return false
	})
	return (*(*func(*libc.TLS, uintptr, int32) int32)(unsafe.Pointer(&struct{ uintptr }{m.FxSync})))(tls, file, flags)
}

func layerClose(tls *libc.TLS, file uintptr) int32 {
	m, _ := methods(file, func(string) bool { return false })
	there[sqlite3.Tsqlite3_file](file).FpMethods = uintptr(unsafe.Pointer(m))
	rc := (*(*func(*libc.TLS, uintptr) int32)(unsafe.Pointer(&struct{ uintptr }{m.FxClose})))(tls, file)
	layer.Lock()
	defer layer.Unlock()
	delete(layer.names, file)
	delete(layer.real, file)
	return rc
}

func layerDelete(tls *libc.TLS, vfs, name uintptr, syncFolder int32) int32 {
	rc := (*(*func(*libc.TLS, uintptr, uintptr, int32) int32)(unsafe.Pointer(&struct{ uintptr }{layer.vfs.FxDelete})))(tls, vfs, name, syncFolder)
	layer.Lock()
	defer layer.Unlock()
	if path := libc.GoString(name); layer.folder != "" && strings.HasPrefix(path, layer.folder+string(filepath.Separator)) {
		layer.done = append(layer.done, onDisk{path, 'd', 0, nil})
	}
	return rc
}

// cutFile is a file as a power cut leaves it.
type cutFile struct {
	bytes   []byte
	there   bool
	named   bool // its name is on the disk
	pending []onDisk
}

func (f *cutFile) apply(o onDisk) {
	switch o.kind {
	case 'w':
		f.there = true
		if grow := int(o.at) + len(o.data) - len(f.bytes); grow > 0 {
			f.bytes = append(f.bytes, make([]byte, grow)...)
		}
		copy(f.bytes[o.at:], o.data)
	case 't':
		if int(o.at) < len(f.bytes) {
			f.bytes = f.bytes[:o.at]
		}
	case 'd':
		f.bytes, f.there, f.named = nil, false, false
	}
}

// settle brings all that waits for the disk to it.
func (f *cutFile) settle() {
	for _, p := range f.pending {
		f.apply(p)
	}
	f.pending = nil
}

// settleDeletion brings it to the disk that the file was deleted, if it was; what was written to a new one of that
// name still waits.
func (f *cutFile) settleDeletion() {
	for i := len(f.pending) - 1; i >= 0; i-- {
		if f.pending[i].kind == 'd' {
			f.apply(f.pending[i])
			f.pending = f.pending[i+1:]
			return
		}
	}
}

// sector is what a disk writes whole, in bytes.
const sector = 512

// powerCut plays what was done up to a moment and returns the files as they may be then. With noSyncs the disk lies:
// it says that it has synced, and has not.
func powerCut(done []onDisk, rng *rand.Rand, noSyncs bool) map[string]*cutFile {
	files := map[string]*cutFile{}
	for _, o := range done {
		f := files[o.path]
		if f == nil {
			f = &cutFile{}
			files[o.path] = f
		}
		switch {
		case o.kind != 's':
			f.pending = append(f.pending, o)
		case noSyncs:
		case !f.named && (strings.HasSuffix(o.path, "-wal") || strings.HasSuffix(o.path, "-journal")):
			// With the first sync of a new log SQLite syncs its folder (unixSync in os_unix.c), in which others were deleted.
			for _, other := range files {
				other.settleDeletion()
			}
			f.settle()
			f.named = true
		default:
			f.settle()
		}
	}
	for _, f := range files {
		for _, o := range f.pending {
			if o.kind == 'd' && rng.IntN(2) == 0 {
				break // it is still there; what was written to a new one is not to be found
			}
			switch {
			case o.kind == 'd':
				f.apply(o)
			case rng.IntN(2) == 0: // it never came to the disk
			case o.kind == 'w' && rng.IntN(3) == 0: // some of its sectors did
				for from := 0; from < len(o.data); from += sector {
					if rng.IntN(2) == 0 {
						f.apply(onDisk{o.path, 'w', o.at + int64(from), o.data[from:min(len(o.data), from+sector)]})
					}
				}
			default:
				f.apply(o)
			}
		}
	}
	return files
}

// acked is an answer that was acknowledged, and what had been done on the disk by then.
type acked struct {
	seed uint64
	done int
}

// practisedOverLayer practises in a few sittings, and returns all that was done on the disk.
func practisedOverLayer(t *testing.T, path string, sittings, each int) (done []onDisk, said []acked) {
	t.Helper()
	over(t, filepath.Dir(path))
	for s := range sittings {
		f, err := Open(path, clockAt(evening.Add(time.Duration(s)*time.Minute)))
		if err != nil {
			t.Fatal(err)
		}
		f.aside.Wait() // the day's copy is no part of this
		if err := f.Begin(progress.Session{ID: fmt.Sprint("s", s), Began: evening, Minutes: 10 * time.Minute}); err != nil {
			t.Fatal(err)
		}
		for i := range each {
			seed := uint64(s*each + i)
			a := progress.Answer{Session: fmt.Sprint("s", s), Item: fmt.Sprintf("d/%d/u", i%9), Drill: "d", Seed: seed, At: evening, Question: "which?", Result: progress.Result(1 + i%3), Took: time.Second}
			if err := f.Record(a); err != nil {
				t.Fatal(err)
			}
			layer.Lock()
			said = append(said, acked{seed, len(layer.done)})
			layer.Unlock()
		}
		if err := f.Close(); err != nil {
			t.Fatal(err)
		}
	}
	layer.Lock()
	defer layer.Unlock()
	return layer.done, said
}

// cutAt plays a power cut and returns how many acknowledged answers are missing afterwards.
func cutAt(t *testing.T, path string, done []onDisk, said []acked, moment int, rng *rand.Rand, noSyncs bool) (lost, kept int, err error) {
	t.Helper()
	folder := t.TempDir()
	to := filepath.Join(folder, filepath.Base(path))
	for name, f := range powerCut(done[:moment], rng, noSyncs) {
		if f.there && filepath.Dir(name) == filepath.Dir(path) {
			write(t, filepath.Join(folder, filepath.Base(name)), f.bytes)
		}
	}
	f, err := Open(to, clockAt(evening))
	if err != nil {
		return 0, 0, err
	}
	defer f.Close()
	has := seedsIn(t, f)
	for _, a := range said {
		if a.done > moment {
			break
		}
		kept++
		if has[a.seed] != 1 {
			lost++
		}
	}
	h, err := f.Check()
	if err == nil {
		err = h.Err()
	}
	return lost, kept, err
}

// SPARETONE_CUTS=500 go test -run PowerCuts -v ./progress/store
func TestPowerCuts(t *testing.T) {
	cuts := fromEnvironment(t, "SPARETONE_CUTS", 25)
	path := filepath.Join(t.TempDir(), "progress.db")
	done, said := practisedOverLayer(t, path, 3, 100+cuts/3) // long enough that logs are copied into the file
	rng := rand.New(rand.NewPCG(1, 2))
	answers := 0
	for n := range cuts {
		moment := rng.IntN(len(done)) + 1
		lost, kept, err := cutAt(t, path, done, said, moment, rng, false)
		if lost > 0 || err != nil {
			t.Errorf("cut %d, after %d of %d deeds on the disk: %d of %d acknowledged answers are lost, %v", n, moment, len(done), lost, kept, err)
		}
		answers += kept
	}
	if answers < cuts*20 {
		t.Errorf("%d answers had been acknowledged before %d cuts: this shows little", answers, cuts)
	}
	t.Logf("%d cuts in %d deeds on the disk, %d answers acknowledged before them, none lost", cuts, len(done), answers)
	// The same where the disk only says that it has synced: something has to be lost, or this shows nothing.
	harmed := 0
	for range 10 {
		if lost, _, err := cutAt(t, path, done, said, len(done)/2, rng, true); lost > 0 || err != nil {
			harmed++
		}
	}
	if harmed == 0 {
		t.Error("nothing is lost on a disk that never syncs")
	}
}

// The disk is full from a write on, whichever it is: it is told, and once there is room again nothing is missing.
func TestNoRoomAtEachWrite(t *testing.T) {
	good := soundBytes(t) // 120 answers
	told, unsaid := 0, 0
	for at := 1; ; at++ {
		folder := t.TempDir()
		path := filepath.Join(folder, "progress.db")
		write(t, path, good)
		over(t, folder)
		layer.Lock()
		layer.fullAt = at
		layer.Unlock()
		room := func() (refused int) {
			layer.Lock()
			defer layer.Unlock()
			layer.fullAt = 0
			return layer.refused
		}
		what := fmt.Sprintf("no room from write %d on", at)
		when := evening.AddDate(0, 0, 20)
		f, err := Open(path, clockAt(when)) // makes the day's copy
		said := err != nil
		given := 0
		if err == nil {
			f.aside.Wait()
			for i := range 4 {
				given++
				if err := f.Record(progress.Answer{Item: "d/t/u", Drill: "d", Seed: uint64(i), At: when, Result: progress.Right, Took: time.Second}); err != nil {
					said = true
					if n, why := f.AtRisk(); n == 0 || why == nil || !strings.Contains(why.Error(), "the disk is full") {
						t.Errorf("%s: %d answers at risk, %v", what, n, why)
					}
				}
			}
			said = f.Follow() != nil || said
		} else if !strings.Contains(err.Error(), "the disk is full") {
			t.Errorf("%s: %v", what, err)
		}
		refused := room()
		if f != nil {
			if n, why := f.AtRisk(); n != 0 || why != nil {
				t.Errorf("%s: with room again %d answers are at risk, %v", what, n, why)
			}
			said = f.Close() != nil || said
		}
		switch {
		case refused > 0 && said:
			told++
		case refused > 0:
			unsaid++
			t.Errorf("%s: it was not told", what)
		}
		g := openAt(t, path, when)
		sound(t, g, 120+given)
		g.Close()
		for _, c := range CopiesOf(path) {
			if err := prove(c.Path, 120); err != nil {
				t.Errorf("%s: a copy: %v", what, err)
			}
		}
		if refused == 0 {
			break
		}
	}
	if told < 10 {
		t.Errorf("only %d writes were refused", told)
	}
	t.Logf("%d writes refused in turn, told each time but %d", told+unsaid, unsaid)
}
