package main

import (
	"context"
	"math"
	"os"
	"path/filepath"
	"strings"
	"testing"
	"testing/synctest"
	"time"

	"sparetone/cmd/sparetone/command"
	"sparetone/cmd/sparetone/lookup"
	"sparetone/synth"
	"sparetone/synth/capture"
)

// takes is a microphone before which something is played each time it is opened, one after another, and then nothing.
type takes struct {
	each [][]float64
	n    int
}

func (*takes) Name() string { return "the microphone" }

func (k *takes) Open(ctx context.Context) (capture.Source, error) {
	line := capture.NewLine(float64(synth.SampleRate))
	source, err := line.Open(ctx)
	if k.n < len(k.each) {
		line.Put(k.each[k.n])
		k.n++
	}
	return source, err
}

// before puts a microphone in the place of the machine's for a test.
func before(t *testing.T, o capture.Opener) {
	was := lookup.Microphone
	t.Cleanup(func() { lookup.Microphone = was })
	lookup.Microphone = func() capture.Opener { return o }
}

// takeOf is what play plays of a shape, with half a second before it and a second and a half behind, in the hiss of a quiet room.
func takeOf(t *testing.T, args ...string) []float64 {
	t.Helper()
	wav := filepath.Join(t.TempDir(), "take.wav")
	if _, errs, ended := called(t, "", append([]string{"play", "--out", wav}, args...)...); ended != command.Done {
		t.Fatal(errs)
	}
	file, err := os.Open(wav)
	if err != nil {
		t.Fatal(err)
	}
	defer file.Close()
	s, err := capture.ReadWAV(file)
	if err != nil {
		t.Fatal(err)
	}
	out := make([]float64, int(s.Rate/2))
	block := make([]float64, 4096)
	for {
		n, err := s.Read(block)
		if err != nil {
			break
		}
		out = append(out, block[:n]...)
	}
	out = append(out, make([]float64, int(1.5*s.Rate))...)
	for i := range out {
		out[i] += 1e-5 * float64(i*7919%13-6)
	}
	return out
}

// What is played before the microphone is heard as a recording is.
func TestHearMicrophone(t *testing.T) {
	take := takeOf(t, "0003", "--how", "pick", "--tempo", "240")
	synctest.Test(t, func(t *testing.T) {
		before(t, &takes{each: [][]float64{take}})
		out, errs, ended := called(t, "", "hear", "--for", "1.4", "--expect", "0003", "--order", "4231", "--json")
		rows := objects[lookup.HeardRow](t, out)
		if ended != command.Done || errs != "The microphone opens.\nListening.\n" && errs != "Listening.\n" || len(rows) != 1 || rows[0].Verdict != "right" || rows[0].Names[0] != "C" || math.Abs(rows[0].At-0.5) > 0.1 {
			t.Errorf("ended %d with %s%s", ended, out, errs)
		}
	})
}

// A microphone that goes and comes back is heard on, and the times go on.
func TestHearMicrophoneThatGoes(t *testing.T) {
	take := takeOf(t, "0003", "--how", "pick", "--tempo", "240")
	synctest.Test(t, func(t *testing.T) { // on a busy machine it would be back before it is known to be gone
		line := capture.NewLine(float64(synth.SampleRate))
		before(t, line)
		go func() {
			time.Sleep(200 * time.Millisecond)
			line.Put(take)
			time.Sleep(200 * time.Millisecond)
			line.Fail(&capture.Fault{Kind: capture.Gone})
			line.Fail(nil)
			time.Sleep(1200 * time.Millisecond)
			line.Put(take)
		}()
		out, errs, ended := called(t, "", "hear", "--for", "2.6", "--expect", "0003", "--order", "4231", "--json")
		rows := objects[lookup.HeardRow](t, out)
		if long := float64(len(take)) / float64(synth.SampleRate); ended != command.Done || !strings.Contains(errs, "Not listening: the microphone is gone. It tries again.\n") || len(rows) != 2 || math.Abs(rows[1].At-rows[0].At-long) > 0.1 {
			t.Errorf("ended %d with %s%s", ended, out, errs)
		}
	})
}

func TestHearWithoutMicrophone(t *testing.T) {
	line := capture.NewLine(8000)
	line.Fail(&capture.Fault{Kind: capture.NoServer})
	before(t, line)
	for _, args := range [][]string{{"hear"}, {"hear", "--learn", filepath.Join(t.TempDir(), "new")}} {
		out, errs, ended := called(t, "", args...)
		if ended != command.Faulty || out != "" || !strings.HasSuffix(errs, "there is no microphone that opens\n") {
			t.Errorf("%v: ended %d with %s%s", args, ended, out, errs)
		}
	}
}

// Shapes are recorded as they are played, the table says how they are heard, and what is there is not asked for again.
func TestHearLearns(t *testing.T) {
	folder := filepath.Join(t.TempDir(), "mine")
	struck := takeOf(t, "2010", "--how", "strum")
	plucked := takeOf(t, "2020", "--how", "pick", "--tempo", "240") // a finger is wrong
	before(t, &takes{each: [][]float64{struck, plucked}})
	out, errs, ended := called(t, "", "hear", "--learn", folder, "--expect", "2010", "--json")
	rows := objects[lookup.LearntRow](t, out)
	if ended != command.Done || len(rows) != 2 || rows[0].How != "struck" || rows[0].Wrong != 0 || rows[0].Name != "F" || rows[0].Right+rows[0].Unsure != 4 || rows[0].Cents == nil || math.Abs(*rows[0].Cents) > 10 {
		t.Fatalf("ended %d with %s%s", ended, out, errs)
	}
	if !strings.Contains(errs, "1 of 1: F, 2010. Now strike all strings once, and let them ring.\n") || !strings.Contains(errs, "pluck the strings one after another, from string 4") {
		t.Errorf("it asks with %s", errs)
	}
	if r := rows[1]; r.How != "plucked" || r.WAV != "2010-plucked.wav" || r.Verdict == "right" {
		t.Errorf("a wrong finger: %+v", r)
	}
	again, errs, ended := called(t, "", "hear", "--learn", folder, "--expect", "2010", "--json")
	if ended != command.Done || errs != "" || again != out {
		t.Errorf("the second time it ended %d with %s%s; want %s", ended, again, errs, out)
	}
	table, _, _ := called(t, "", "hear", "--learn", folder, "--expect", "2010")
	if !strings.Contains(table, "8 strings: ") || !strings.Contains(table, "The recordings lie in "+folder) || len(strings.Split(table, "\n")) != 5 {
		t.Errorf("the table is %s", table)
	}
	if info, err := os.Stat(filepath.Join(folder, "2010-struck.wav")); err != nil || info.Mode().Perm()&0o077 != 0 && os.PathSeparator == '/' {
		t.Errorf("others may read the recording: %v, %v", info, err)
	}
}

func TestHearingIsChecked(t *testing.T) {
	for want, args := range map[string][]string{
		"--for: -1 seconds; it must be 0 to 86400":                                                  {"--for", "-1"},
		"--for: it is for the microphone; a recording is heard to its end":                          {"x.wav", "--for", "3"},
		"--learn: it records what the microphone hears, and takes no recording":                     {"x.wav", "--learn", "x"},
		"--learn: it asks for each shape by itself; leave out --for and --order":                    {"--learn", "x", "--order", "4321"},
		"--learn: name a folder to record to":                                                       {"--learn", ""},
		"--rate: it is for raw samples from -; the microphone says itself how many it has a second": {"--rate", "8000"},
		"sparetone hear hears one recording at a time":                                              {"a.wav", "b.wav"},
	} {
		if out, errs, ended := called(t, "", append([]string{"hear"}, args...)...); ended != command.WrongCall || out != "" || !strings.Contains(errs, want) {
			t.Errorf("%v ended %d with %s%s; want %s", args, ended, out, errs, want)
		}
	}
}
