//go:build linux

package main

import (
	"os"
	"os/exec"
	"path/filepath"
	"strconv"
	"syscall"
	"testing"
)

// BenchmarkClass looks at a class of so many students (SPARETONE_STUDENTS, 10 at first) of 20,000 answers each, with the program as it is
// built, and reports its time for a thousand of them, that of the processors, and the most memory it held.
func BenchmarkClass(b *testing.B) {
	students := 10
	if n, err := strconv.Atoi(os.Getenv("SPARETONE_STUDENTS")); err == nil {
		students = n
	}
	folder := b.TempDir()
	generateClass(b, folder, students, 20_000)
	program := binaryPath(b)
	var held int64
	var busy float64
	for b.Loop() {
		cmd := exec.Command(program, "class", folder, "--on", "2026-03-11", "--html", filepath.Join(b.TempDir(), "page.html"))
		if out, err := cmd.CombinedOutput(); err != nil {
			b.Fatalf("%v: %s", err, out)
		}
		held = max(held, cmd.ProcessState.SysUsage().(*syscall.Rusage).Maxrss)
		busy += (cmd.ProcessState.UserTime() + cmd.ProcessState.SystemTime()).Seconds()
	}
	b.ReportMetric(b.Elapsed().Seconds()/float64(b.N)*1000/float64(students), "s/1000-students")
	b.ReportMetric(busy/float64(b.N)*1000/float64(students), "cpu-s/1000-students")
	b.ReportMetric(float64(held)/1024, "MB-held")
}
