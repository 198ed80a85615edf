package course

import (
	"bytes"
	"unicode/utf8"

	"github.com/pelletier/go-toml/v2/unstable"
)

// lessonText is the text of a lesson, and where its steps stand in it.
type lessonText struct {
	text  []byte
	steps []stepText
}

// stepText is where a step stands: offsets in bytes from the beginning of the text.
type stepText struct {
	at   int
	keys map[string]keyText
}

// keyText is where a key of a step stands, and the texts that are its value or in it.
type keyText struct {
	at     int
	values []valueText
}

// valueText is a text and where it stands.
type valueText struct {
	at   int
	text string
}

// unknownKey is a key that a lesson does not have.
type unknownKey struct {
	at   int
	name string
}

// layOutLesson finds the steps of a lesson and what is in them, up to where the text is no TOML: what is wrong there is
// for the decoder to say. It stops at the first key that a lesson does not have, which it returns; else that is nil.
func layOutLesson(text []byte) (lessonText, *unknownKey) {
	l := lessonText{text: text}
	p := unstable.Parser{}
	p.Reset(text)
	for p.NextExpression() {
		e := p.Expression()
		names := e.Key()
		names.Next()
		first := names.Node()
		switch {
		case e.Kind != unstable.KeyValue || len(l.steps) == 0:
			if string(first.Data) != "step" {
				return l, keyAt(first)
			}
			if e.Kind == unstable.KeyValue {
				if unknown := l.inline(e.Value()); unknown != nil {
					return l, unknown
				}
				continue
			}
			l.steps = append(l.steps, stepText{at: l.opens(int(first.Raw.Offset), e.Kind)})
			if names.Next() && keyForms[string(names.Node().Data)] == "" {
				return l, keyAt(names.Node())
			}
		default:
			if unknown := l.steps[len(l.steps)-1].add(e); unknown != nil {
				return l, unknown
			}
		}
	}
	return l, nil
}

// inline adds steps that are written as one value, step = [{…}, …].
func (l *lessonText) inline(value *unstable.Node) *unknownKey {
	for steps := value.Children(); value.Kind == unstable.Array && steps.Next(); {
		if steps.Node().Kind != unstable.InlineTable {
			continue
		}
		step := stepText{at: int(steps.Node().Raw.Offset)}
		for pairs := steps.Node().Children(); pairs.Next(); {
			if unknown := step.add(pairs.Node()); unknown != nil {
				return unknown
			}
		}
		l.steps = append(l.steps, step)
	}
	return nil
}

// opens is where the bracket stands that opens the header of a step, whose name begins at an offset.
func (l *lessonText) opens(name int, kind unstable.Kind) int {
	at := bytes.LastIndexByte(l.text[:name], '[')
	if kind == unstable.ArrayTable {
		at-- // there are two of them, with nothing between
	}
	return max(0, at)
}

// add adds a key with its value to a step. A key that a step does not have is returned instead.
func (s *stepText) add(pair *unstable.Node) *unknownKey {
	names := pair.Key()
	names.Next()
	key := names.Node()
	name := string(key.Data)
	if keyForms[name] == "" {
		return keyAt(key)
	}
	k := keyText{at: int(key.Raw.Offset)}
	if value := pair.Value(); value.Kind == unstable.String {
		k.values = []valueText{textAt(value)}
	} else if value.Kind == unstable.Array {
		for texts := value.Children(); texts.Next(); {
			if texts.Node().Kind == unstable.String {
				k.values = append(k.values, textAt(texts.Node()))
			}
		}
	}
	if s.keys == nil {
		s.keys = map[string]keyText{}
	}
	s.keys[name] = k
	return nil
}

func keyAt(key *unstable.Node) *unknownKey {
	return &unknownKey{int(key.Raw.Offset), string(key.Data)}
}

func textAt(value *unstable.Node) valueText {
	return valueText{int(value.Raw.Offset), string(value.Data)}
}

// find returns the line and column, in characters from 1, of a value of the n-th step from 0: of its key if the value is
// empty, of the step if it has no such key.
func (l lessonText) find(n int, key, value string) (row, col int) {
	if n >= len(l.steps) {
		return 1, 1
	}
	k, ok := l.steps[n].keys[key]
	if !ok {
		return l.position(l.steps[n].at)
	}
	for _, v := range k.values {
		if v.text == value && value != "" {
			return l.position(v.at)
		}
	}
	return l.position(k.at)
}

// position returns the line and column of an offset, in characters from 1.
func (l lessonText) position(at int) (row, col int) {
	before := l.text[:at]
	line := before[bytes.LastIndexByte(before, '\n')+1:]
	return bytes.Count(before, []byte("\n")) + 1, utf8.RuneCount(line) + 1
}

// keyForms is how each key of a step is written.
var keyForms = map[string]string{
	"id":       `id = "thirds", a text in straight double quotes`,
	"title":    `title = "The two thirds", a text in straight double quotes`,
	"chapter":  `chapter = "Major and minor", a text in straight double quotes`,
	"drill":    `drill = "interval-ear", a text in straight double quotes`,
	"asks":     `asks = ["M3", "m3"], texts in straight double quotes between brackets`,
	"rests-on": `rests-on = ["octave-and-fifth"], texts in straight double quotes between brackets`,
}
