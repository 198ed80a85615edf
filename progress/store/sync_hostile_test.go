package store

import (
	"bytes"
	"compress/gzip"
	"crypto/sha256"
	"encoding/hex"
	"path/filepath"
	"strings"
	"testing"
)

// rewrittenMachine returns a machine's file with its lines changed and its sum right again, as somebody might write it who means
// harm, or a program that is at fault.
func rewrittenMachine(t *testing.T, packed []byte, change func(lines []string) []string) []byte {
	t.Helper()
	in, err := gzip.NewReader(bytes.NewReader(packed))
	if err != nil {
		t.Fatal(err)
	}
	var text bytes.Buffer
	if _, err := text.ReadFrom(in); err != nil {
		t.Fatal(err)
	}
	lines := strings.SplitAfter(strings.TrimSuffix(text.String(), "\n"), "\n")
	all := strings.Join(change(lines[:len(lines)-1]), "")
	sum := sha256.Sum256([]byte(all))
	var out bytes.Buffer
	w := gzip.NewWriter(&out)
	_, err = w.Write([]byte(all + `{"kind":"end","sha256":"` + hex.EncodeToString(sum[:]) + "\"}\n"))
	if err := w.Close(); err != nil {
		t.Fatal(err)
	}
	if err != nil {
		t.Fatal(err)
	}
	return out.Bytes()
}

// A file with a line at fault is refused with what is wrong, none of it is kept, and the others are taken in.
func TestAFileAtFaultIsRefusedWhole(t *testing.T) {
	desk, lap, third := newMachine(t, "desk"), newMachine(t, "lap"), newMachine(t, "third")
	practised(t, desk.File, 0, 1, 6, 1)
	desk.quietly(t)
	carry(t, desk, lap)
	lap.quietly(t)
	practised(t, lap.File, 1, 1, 5, 2)
	lap.quietly(t)
	carry(t, desk, third)
	whole := readWhole(t, filepath.Join(lap.folder, lap.name))
	at := filepath.Join(third.folder, lap.name)
	for says, replace := range map[string][2]string{
		"answer: result is right, partly or wrong":      {`"result":"`, `"result":"x`},
		"answer: drill is \"d":                          {`"drill":"d`, `"drill":"dx`},
		"answer: seed is a whole number":                {`"seed":"`, `"seed":"x`},
		"answer: took_ms is":                            {`"took_ms":`, `"took_ms":-`},
		"session: minutes is a number":                  {`"minutes":`, `"minutes":-`},
		"session: began is a time":                      {`"began":"`, `"began":"x`},
		"day is 1999-01-01, and that is not the practi": {`"day":"2026-`, `"day":"1999-01-01","was":"`},
	} {
		write(t, at, rewrittenMachine(t, whole, func(lines []string) []string {
			last := lines[len(lines)-1] // an answer that is new
			if strings.HasPrefix(says, "session") {
				for i, line := range lines {
					if strings.HasPrefix(line, `{"kind":"session"`) {
						lines[i] = strings.Replace(line, replace[0], replace[1], 1)
					}
				}
				return lines
			}
			return append(lines[:len(lines)-1], strings.Replace(last, replace[0], replace[1], 1))
		}))
		done := third.synced(t, false)
		var refused string
		for _, f := range done.Files {
			if f.Err != nil {
				refused = f.File.Name + ": " + f.Err.Error()
				if f.Answers+f.Sessions != 0 {
					t.Errorf("%+v", f)
				}
			}
		}
		if !strings.HasPrefix(refused, lap.name+": "+says) && !strings.Contains(refused, says) || !strings.HasSuffix(refused, "; nothing of it was taken in") {
			t.Errorf("%s: %q", says, refused)
		}
		sound(t, third.File, 6)
	}
	// An answer that is there twice, and one that is written otherwise, count once.
	write(t, at, rewrittenMachine(t, whole, func(lines []string) []string {
		last := lines[len(lines)-1]
		known := lines[len(lines)-7]
		return append(lines, last, strings.Replace(last, `{"kind":"answer",`, `{"kind":"answer", `, 1), strings.Replace(known, `{"kind":"answer",`, `{"kind":"answer", `, 1))
	}))
	done := third.synced(t, false)
	for _, f := range done.Files {
		if f.Err != nil || f.File.Name == lap.name && f.Answers != 5 {
			t.Errorf("%+v", f)
		}
	}
	sound(t, third.File, 11)
}
