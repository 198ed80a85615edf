package main

import (
	"encoding/json"
	"io"
	"math/rand/v2"
	"os"
	"path/filepath"
	"runtime"
	"slices"
	"strings"
	"testing"
	"time"

	"sparetone/cmd/sparetone/command"
)

// wellFormed fails unless what a command printed as JSON is a row a line.
func wellFormed(t *testing.T, what, out string) {
	t.Helper()
	for d := json.NewDecoder(strings.NewReader(out)); ; {
		var row map[string]any
		if err := d.Decode(&row); err == io.EOF {
			return
		} else if err != nil {
			t.Fatalf("%s prints %q: %v", what, out, err)
		}
	}
}

// hostileCharts are what songs are damaged from.
var hostileCharts = []string{
	"title: Round the Pond\nkey: F\ntempo: 96\nmeter: 6/8\ncapo: 2\nstrum: D . D U . U\n\nVerse\n|: F | Dm Bb | 1. C7 :| 2. C7 F |\n",
	"pick: 4 (23) 1 h\n\n[C]Rain on the [Am7]roof, and [F]no one [G7]home\n| % | C/G |\n",
	"   Gm        Eb     Bb      F\nA kettle on, a candle lit, and I am here\n",
}

// A chart of anything is a song or is refused in a line, and each chord of it has its object.
func TestHostileSongs(t *testing.T) {
	h := hostile{rand.New(rand.NewPCG(8, 8))}
	dir := t.TempDir()
	made := filepath.Join(dir, "made.musicxml")
	if _, ended := tried(t, hostileCharts[0], "song", "-", "--musicxml", made); ended != command.Done {
		t.Fatalf("a song ended with %d", ended)
	}
	xml, err := os.ReadFile(made)
	if err != nil {
		t.Fatal(err)
	}
	counts := map[command.Status]int{}
	for n := range hostileFiles() {
		song, name := h.damaged([]byte(hostileCharts[n%len(hostileCharts)])), "song.txt"
		if n%5 == 0 {
			song, name = h.damaged(xml), "song.musicxml"
		}
		file := filepath.Join(dir, name)
		if err := os.WriteFile(file, song, 0o600); err != nil {
			t.Fatal(err)
		}
		args := []string{"song", file}
		if n%2 == 0 {
			args = append(args, "--json")
		}
		out, ended := tried(t, "", args...)
		if counts[ended]++; ended != command.Done && ended != command.InputWrong {
			t.Fatalf("%q ended with %d", song, ended)
		}
		if n%2 == 0 {
			wellFormed(t, "song", out)
		}
	}
	t.Logf("%d songs, %d refused", counts[command.Done], counts[command.InputWrong])
}

// A recording of anything is heard or refused in a line.
func TestHostileRecordings(t *testing.T) {
	h := hostile{rand.New(rand.NewPCG(9, 9))}
	dir := t.TempDir()
	good := filepath.Join(dir, "good.wav")
	if _, ended := tried(t, "", "play", "2010", "--out", good); ended != command.Done {
		t.Fatalf("a sound ended with %d", ended)
	}
	wav, err := os.ReadFile(good)
	if err != nil {
		t.Fatal(err)
	}
	wav = wav[:min(len(wav), 100000)]
	file := filepath.Join(dir, "take.wav")
	counts := map[command.Status]int{}
	for n := range hostileFiles() / 4 {
		damaged := h.damaged(wav)
		if n%2 == 0 { // what says what the samples are
			head := h.damaged(wav[:44])
			damaged = append(head, wav[44:]...)
		}
		if err := os.WriteFile(file, damaged, 0o600); err != nil {
			t.Fatal(err)
		}
		args, in := []string{"hear", file, "--json"}, ""
		if n%3 == 0 {
			args, in = []string{"hear", "-", "--json", "--rate", []string{"8000", "48000", "0", "x", "1e9", "-1"}[h.IntN(6)]}, string(damaged)
		}
		out, ended := tried(t, in, args...)
		if counts[ended]++; ended == command.Faulty {
			t.Fatalf("recording %d is called a fault", n)
		}
		wellFormed(t, "hear", out)
	}
	t.Logf("%d heard, %d refused, %d called wrongly", counts[command.Done], counts[command.InputWrong], counts[command.WrongCall])
}

// A class has a row for each file that can be read, and a line for each that cannot, whatever lies in its folder.
func TestHostileClasses(t *testing.T) {
	h := hostile{rand.New(rand.NewPCG(10, 10))}
	export, _, _ := called(t, "", "progress", "export", "--progress", practisedFile(t))
	counts := map[command.Status]int{}
	for range hostileFiles() / 10 {
		dir := t.TempDir()
		for i, name := range []string{"a.jsonl", "b.jsonl", "c.toml", h.fileName()} {
			file := []byte(export)
			if i >= h.IntN(4) {
				file = h.damaged(file)
			}
			if err := os.WriteFile(filepath.Join(dir, name), file, 0o600); err != nil {
				t.Fatal(err)
			}
		}
		out, ended := tried(t, "", "class", dir, "--json")
		counts[ended]++
		wellFormed(t, "class", out)
		if ended == command.Faulty {
			t.Fatalf("a class is called a fault: %s", out)
		}
	}
	t.Logf("%d classes, %d with files that are refused", counts[command.Done], counts[command.InputWrong])
}

// fileName is a name that a file may have here.
func (h hostile) fileName() string {
	name := strings.Map(func(r rune) rune {
		if r == '/' || r == 0 {
			return '_'
		}
		return r
	}, h.line())
	return "d" + name[:min(len(name), 60)] + ".jsonl"
}

// What other machines leave in a folder that is kept alike is taken in whole or said in a line; what one has oneself stays.
func TestHostileMachines(t *testing.T) {
	h := hostile{rand.New(rand.NewPCG(11, 11))}
	one, two := practisedFile(t), filepath.Join(t.TempDir(), "two.db")
	shared := t.TempDir()
	if _, ended := tried(t, "", "progress", "sync", shared, "--progress", one); ended != command.Done {
		t.Fatalf("sync ended with %d", ended)
	}
	first, err := filepath.Glob(filepath.Join(shared, "*"))
	if err != nil || len(first) != 1 {
		t.Fatalf("a machine leaves %v: %v", first, err)
	}
	good, err := os.ReadFile(first[0])
	if err != nil {
		t.Fatal(err)
	}
	if _, ended := tried(t, "", "progress", "sync", shared, "--as-mine", "--progress", two); ended != command.Done {
		t.Fatalf("the other's ended with %d", ended)
	}
	answers := func() (n int) {
		out, ended := tried(t, "", "progress", "export", "--json", "--progress", two)
		if ended != command.Done {
			t.Fatalf("an export ended with %d", ended)
		}
		return strings.Count(out, `"item"`)
	}
	before := answers()
	counts := map[command.Status]int{}
	for n := range hostileFiles() / 2 {
		if err := os.WriteFile(first[0], h.damaged(good), 0o600); err != nil {
			t.Fatal(err)
		}
		out, ended := tried(t, "", "progress", "sync", "--json", "--progress", two)
		counts[ended]++
		wellFormed(t, "sync", out)
		if n%100 == 0 || ended == command.Faulty {
			if _, sound := tried(t, "", "progress", "check", "--progress", two); sound != command.Done || answers() < before {
				t.Fatalf("after %d the file ends with %d and has %d answers of %d", n, sound, answers(), before)
			}
		}
	}
	t.Logf("%v; %d answers", counts, answers())
}

// A lesson of anything is checked in a line or more, each with its place, as practice would refuse it.
func TestHostileChecks(t *testing.T) {
	h := hostile{rand.New(rand.NewPCG(12, 12))}
	lesson := filepath.Join(t.TempDir(), "l.toml")
	good := []byte("name = \"Pond\"\nfrom = \"Ida\"\ndue = \"2026-03-09\"\nminutes = 10\ntuning = \"ukulele\"\nkey = \"F\"\nchords = [\"F\", \"Dm7\", \"Bb\"]\nshapes = [\"2010>0010\"]\n" +
		"songs = [\"| F | Dm |\"]\n\n[[step]]\nid = \"colours\"\ndrill = \"added-ear\"\nasks = [\"added-ninth\"]\n")
	if err := os.WriteFile(lesson, good, 0o600); err != nil {
		t.Fatal(err)
	}
	if _, ended := tried(t, "", "lesson", "check", lesson); ended != command.Done {
		t.Fatalf("a good lesson's check ended with %d", ended)
	}
	counts := map[command.Status]int{}
	for range hostileFiles() {
		if err := os.WriteFile(lesson, h.damaged(good), 0o600); err != nil {
			t.Fatal(err)
		}
		_, ended := tried(t, "", "lesson", "check", lesson)
		if counts[ended]++; !slices.Contains([]command.Status{command.Done, command.InputWrong}, ended) {
			t.Fatalf("a lesson's check ended with %d", ended)
		}
	}
	t.Logf("%d lessons, %d refused", counts[command.Done], counts[command.InputWrong])
}

// What practice had running ends with it.
func TestPracticeLeavesNothingRunning(t *testing.T) {
	file := filepath.Join(t.TempDir(), "p.db")
	before := 0
	for n := range 6 {
		if _, ended := tried(t, "1\nleave\n", "practice", "--plain", "--silent", "--progress", file); ended != command.Done {
			t.Fatalf("practice ended with %d", ended)
		}
		if n == 0 {
			before = runtime.NumGoroutine()
		}
	}
	for until := time.Now().Add(3 * time.Second); runtime.NumGoroutine() > before+1; time.Sleep(20 * time.Millisecond) {
		if time.Now().After(until) {
			t.Fatalf("%d goroutines after one practice, %d after six", before, runtime.NumGoroutine())
		}
	}
}
