package exchange

import (
	"bytes"
	"compress/gzip"
	"crypto/sha256"
	"encoding/hex"
	"errors"
	"strings"
	"testing"
)

// machineOf packs lines as a machine's file, with their sum.
func machineOf(t *testing.T, lines ...string) []byte {
	t.Helper()
	all := strings.Join(lines, "\n") + "\n"
	sum := sha256.Sum256([]byte(all))
	return zipped(t, all+`{"kind":"end","sha256":"`+hex.EncodeToString(sum[:])+"\"}\n")
}

func zipped(t *testing.T, text string) []byte {
	t.Helper()
	var out bytes.Buffer
	w := gzip.NewWriter(&out)
	if _, err := w.Write([]byte(text)); err != nil {
		t.Fatal(err)
	}
	if err := w.Close(); err != nil {
		t.Fatal(err)
	}
	return out.Bytes()
}

// head is the first line of a machine's file with one thing changed.
func head(old, new string) string {
	return strings.Replace(`{"kind":"machine","format":1,"machine":"M1","host":"desk","file":"F1","whose":"Ann","writing":3,"mark":"K1"}`, old, new, 1)
}

// A machine's file is read as it was written; what it says is held to what it may say.
func TestMachineFiles(t *testing.T) {
	f, err := ReadMachine("x", machineOf(t, head("", ""),
		`{"kind":"import","id":"I1","n":0,"from":"a.jsonl","at":5,"copy":"","closed":{"s":7},"mine":["F2"],"fit":0}`,
		`{"kind":"undone","id":"I2"}`, `{"kind":"setting","key":"hand","is":"left","at":8,"by":"M2"}`, `{"kind":"later"}`, `{"kind":"session"}`, `{"kind":"song"}`, `{"kind":"answer"}`))
	if err != nil {
		t.Fatal(err)
	}
	id, host := f.Machine()
	if id != "M1" || host != "desk" || f.Whose().ID != "F1" || f.Whose().Name != "Ann" || f.head.Writing != 3 || f.head.Mark != "K1" || f.answers != 1 || f.holds != 3 {
		t.Errorf("%+v", f)
	}
	if i := f.imports[0]; len(f.imports) != 1 || i.id != "I1" || i.From != "a.jsonl" || i.At != 5 || i.Closed["s"] != 7 || i.Mine[0] != "F2" {
		t.Errorf("%+v", i)
	}
	if len(f.undone) != 1 || f.undone[0] != "I2" || f.chosen["hand"] != (chosen{"left", 8, "M2"}) {
		t.Errorf("%+v", f)
	}
	long := strings.Repeat("x", 101)
	for says, lines := range map[string][]string{
		"a newer sparetone wrote it (format 2, this one knows up to 1); it was left alone": {head(`"format":1`, `"format":2`)},
		`it has an id that is none, ""`:             {head(`"M1"`, `""`)},
		`it has an id that is none, "../M1"`:        {head(`"M1"`, `"../M1"`)},
		`it has an id that is none, "a\\b"`:         {head(`"M1"`, `"a\\b"`)},
		`it has an id that is none, "F[2J"`:         {head(`"F1"`, `"F\u001b[2J"`)},
		`it has an id that is none, "` + long[:79]:  {head(`"K1"`, `"`+long+`"`)},
		`it has an id that is none, "a/b"`:          {head("", ""), `{"kind":"undone","id":"a/b"}`},
		`it has an id that is none, "c/d"`:          {head("", ""), `{"kind":"import","id":"c/d"}`},
		`it has an id that is none, "e/f"`:          {head("", ""), `{"kind":"import","id":"i","mine":["e/f"]}`},
		"it has a name that is none":                {head(`"Ann"`, `"A\u0007"`)},
		"it has a name that is none ":               {head(`"Ann"`, `"`+long+`"`)},
		"it has a name that is none  ":              {head(`"desk"`, `"d\u0007"`)},
		`it has a setting that is none, ""`:         {head("", ""), `{"kind":"setting","key":""}`},
		`it has a setting that is none, "a"`:        {head("", ""), `{"kind":"setting","key":"a","is":"\u0007"}`},
		"a line of the kind machine cannot be read": {`{"kind":"machine","format":"x"}`},
		"a line of the kind undone cannot be read":  {head("", ""), `{"kind":"undone","id":1}`},
		"a line of the kind import cannot be read":  {head("", ""), `{"kind":"import","id":1}`},
		"a line of the kind setting cannot be read": {head("", ""), `{"kind":"setting","key":1}`},
		"it has a line of more than 1048576 bytes":  {head("", ""), strings.Repeat("x", 1<<20)},
	} {
		if _, err := ReadMachine("x", machineOf(t, lines...)); err == nil || !strings.HasPrefix(err.Error(), strings.TrimSpace(says)) {
			t.Errorf("%q: %v, want %s", lines[len(lines)-1][:min(80, len(lines[len(lines)-1]))], err, says)
		}
	}
	whole := machineOf(t, head("", ""))
	for what, c := range map[string]struct {
		bytes []byte
		want  error
	}{
		"empty":                     {nil, ErrTorn},
		"text":                      {[]byte("strings to buy"), ErrNoMachine},
		"another gzip":              {zipped(t, "strings\n"), ErrNoMachine},
		"begins with another kind":  {machineOf(t, `{"kind":"undone","id":"x"}`), ErrNoMachine},
		"no end":                    {zipped(t, head("", "")+"\n"), ErrTorn},
		"no line break at its end":  {zipped(t, head("", "")), ErrTorn},
		"another sum":               {zipped(t, head("", "")+"\n"+`{"kind":"end","sha256":"00"}`+"\n"), ErrTorn},
		"something behind its end":  {append(bytes.Clone(whole), 0), ErrTorn},
		"a line behind its end":     {machineOf(t, head("", ""), `{"kind":"end","sha256":"00"}`), ErrTorn},
		"its head of gzip is short": {whole[:5], ErrTorn},
	} {
		if _, err := ReadMachine("x", c.bytes); !errors.Is(err, c.want) {
			t.Errorf("%s: %v, want %v", what, err, c.want)
		}
	}
}
