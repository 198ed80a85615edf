package lesson

import (
	"bytes"
	"strings"
	"unicode/utf8"

	"github.com/pelletier/go-toml/v2/unstable"
)

// value is a value of a lesson's field, and where it stands.
type value struct {
	at   int // offset in bytes
	size int // of how it is written, in bytes
	kind unstable.Kind
	text string  // of what is no list
	list []value // of a list
}

// layout is where the fields of a lesson stand: what is above its first step.
type layout struct {
	text   []byte
	keys   map[string]int // offset of each key
	values map[string]value
	wrong  *fault // what is wrong with how the fields are written; nil if nothing is
	steps  bool   // there are steps
	ends   int    // where the line ends on which the last field does
}

// layOut finds the fields of a lesson, and takes them out of its text: what is left are the steps, each where it was. It stops where
// the text is no TOML, which is for the reader of the steps to say.
func layOut(text []byte) (l layout, steps []byte) {
	l = layout{text: text, keys: map[string]int{}, values: map[string]value{}}
	steps = bytes.Clone(text)
	p := unstable.Parser{}
	p.Reset(text)
	begins := -1 // where a field begins that is not taken out yet
	for p.NextExpression() {
		e := p.Expression()
		names := e.Key()
		names.Next()
		key := names.Node()
		name, at := string(key.Data), int(key.Raw.Offset)
		if begins >= 0 {
			blank(steps[begins:lineOf(text, at)])
			begins = -1
		}
		_, ours := fields[name]
		switch {
		case e.Kind != unstable.KeyValue || l.steps || name == "step":
			l.steps = l.steps || name == "step"
			if e.Kind == unstable.KeyValue && name != "step" && ours && !ofSteps[name] {
				l.fault(at, sayAboveSteps(name))
				return l, steps
			}
			continue
		case !ours:
			l.fault(at, sayUnknownField(name))
			return l, steps
		case names.Next():
			l.fault(at, sayForm(name))
			return l, steps
		}
		if _, twice := l.keys[name]; twice {
			l.fault(at, sayTwice(name))
			return l, steps
		}
		l.keys[name], l.values[name] = at, valueOf(e.Value(), at)
		l.ends = endOf(text, l.values[name])
		begins = lineOf(text, at)
	}
	if begins >= 0 && p.Error() == nil {
		blank(steps[begins:])
	} else if begins >= 0 { // what cannot be read follows it
		blank(steps[begins:l.ends])
	}
	return l, steps
}

// ofSteps are the names of fields that a step has as well.
var ofSteps = map[string]bool{}

func (l *layout) fault(at int, says string) { l.wrong = &fault{at, says} }

// fault is what is wrong, and where.
type fault struct {
	at   int
	says string
}

// valueOf returns a value; of a list it is not known where that stands, but for its key.
func valueOf(node *unstable.Node, key int) value {
	v := value{at: key, kind: node.Kind, text: string(node.Data)}
	if node.Raw.Length > 0 {
		v.at, v.size = int(node.Raw.Offset), int(node.Raw.Length)
	}
	if node.Kind == unstable.Array {
		for all := node.Children(); all.Next(); {
			if all.Node().Kind != unstable.Comment {
				v.list = append(v.list, valueOf(all.Node(), key))
			}
		}
	}
	return v
}

// endOf returns where the line ends on which a value does.
func endOf(text []byte, v value) int {
	last, close := v, ""
	if v.kind == unstable.Array {
		close = "]"
		if len(v.list) > 0 {
			last = v.list[len(v.list)-1]
		}
	}
	at := min(len(text), last.at+last.size)
	if i := bytes.Index(text[at:], []byte(close)); i >= 0 {
		at += i
	}
	if i := bytes.IndexByte(text[at:], '\n'); i >= 0 {
		return at + i
	}
	return len(text)
}

// lineOf returns where the line begins in which something stands.
func lineOf(text []byte, at int) int { return bytes.LastIndexByte(text[:at], '\n') + 1 }

// blank writes spaces over all but the ends of lines.
func blank(text []byte) {
	for i, c := range text {
		if c != '\n' && c != '\r' {
			text[i] = ' '
		}
	}
}

// position returns the line and column of an offset, in characters from 1.
func position(text []byte, at int) (row, col int) {
	before := text[:min(at, len(text))]
	line := before[bytes.LastIndexByte(before, '\n')+1:]
	return bytes.Count(before, []byte("\n")) + 1, utf8.RuneCount(line) + 1
}

// within returns where in a value a part of its text stands: only in one without escapes can that be told.
func (v value) within(text []byte, part string) int {
	raw := text[v.at:min(len(text), v.at+len(v.text)+2)]
	if i := strings.Index(string(raw), part); i > 0 {
		return v.at + i
	}
	return v.at
}
