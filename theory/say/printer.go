package say

import (
	"strings"
	"unicode"
	"unicode/utf8"
)

// face is what a text is printed for.
type face int

const (
	screen face = iota
	aloud
	sheet
)

// printer writes facts for one face.
type printer struct {
	face  face
	large bool // the next letter is written large
	b     strings.Builder
}

// write adds words as they are.
func (p *printer) write(s string) {
	if s == "" {
		return
	}
	if p.large {
		first, size := utf8.DecodeRuneInString(s)
		p.b.WriteRune(unicode.ToUpper(first))
		s, p.large = s[size:], false
	}
	p.b.WriteString(s)
}

// either adds what is read, or what is said where the text is said aloud.
func (p *printer) either(read, said string) {
	if p.face == aloud {
		read = said
	}
	p.write(read)
}

// foreign adds what is not our own wording: on a sheet its signs are escaped.
func (p *printer) foreign(s string) {
	if p.face == sheet {
		s = markdown.Replace(s)
	}
	p.write(s)
}

// markdown escapes what means something inside a line of Markdown.
var markdown = strings.NewReplacer(`\`, `\\`, "`", "\\`", "*", `\*`, "_", `\_`, "[", `\[`, "]", `\]`, "<", `\<`, "#", `\#`)

// apart prints a fact by itself.
func (p *printer) apart(f Fact) string {
	alone := printer{face: p.face}
	f.print(&alone)
	return alone.b.String()
}

// Fact is something a sentence says: a value of this package that its printers know how to write.
type Fact interface{ print(p *printer) }
