package say

import (
	"strconv"
	"strings"

	"sparetone/theory"
)

// Words are words of our own, such as the label of a row in a table.
type Words string

func (w Words) print(p *printer) { p.write(string(w)) }

// Typed is what a person typed. It is printed between quotation marks, without control characters and cut short, and
// said as it is.
type Typed string

func (t Typed) print(p *printer) { p.foreign(strconv.QuoteToGraphic(theory.Clip(string(t)))) }

// Foreign is text from elsewhere, such as the title in a lesson. It is printed without control characters, and said as it
// is.
type Foreign string

func (f Foreign) print(p *printer) { p.foreign(theory.Clean(string(f))) }

// capital is a fact that begins with a capital letter.
type capital struct{ of Fact }

func (c capital) print(p *printer) {
	p.large = true
	c.of.print(p)
	p.large = false
}

// Ended is a fact with a full stop after it, if it does not end with one already.
func Ended(of Fact) Fact { return ended{of} }

type ended struct{ of Fact }

func (e ended) print(p *printer) {
	p.write(strings.TrimRight(p.apart(e.of), "."))
	p.write(".")
}

// A is a fact after its article: a minor, an augmented.
func A(of Fact) Fact { return article{of} }

type article struct{ of Fact }

// vowels are the letters before which the article is "an". No word of ours after an article begins with a silent h, and
// u is said as in unison.
const vowels = "aeioAEIO"

func (a article) print(p *printer) {
	word := p.apart(a.of)
	if word != "" && strings.IndexByte(vowels, word[0]) >= 0 {
		p.write("an ")
	} else {
		p.write("a ")
	}
	p.write(word)
}
