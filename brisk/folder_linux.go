package brisk

import (
	"os"
	"syscall"
)

// memoryFolder is where Linux keeps files in memory that any program may write
// (Filesystem Hierarchy Standard 3.0 does not name it; the C library's shm_open does).
const memoryFolder = "/dev/shm"

// enough is how much must be free in a folder, in bytes: many times what the tests of any room leave there. A container
// often has 64 MB.
const enough = 4 << 30

// roomy reports whether files can be made in a folder, run from it, and have room there.
func roomy(folder string) bool {
	const noExec = 8 // MS_NOEXEC of mount(2)
	var s syscall.Statfs_t
	if syscall.Statfs(folder, &s) != nil || s.Flags&noExec != 0 || s.Bavail*uint64(s.Bsize) < enough {
		return false
	}
	probe, err := os.MkdirTemp(folder, "probe")
	return err == nil && os.Remove(probe) == nil
}
