package sheet

import (
	"fmt"
	"io"
	"strings"
	"time"

	"codeberg.org/go-fonts/dejavu/dejavusans"
	"codeberg.org/go-fonts/dejavu/dejavusansbold"
	"codeberg.org/go-fonts/dejavu/dejavusansmono"
	"codeberg.org/go-fonts/dejavu/dejavusansmonobold"
	"codeberg.org/go-pdf/fpdf"

	"sparetone/theory"
	"sparetone/theory/song/arrange"
)

// Printable reports as an error which characters of a sheet the fonts of a PDF do not have.
func Printable(a arrange.Arrangement, o Options) error {
	return printable(newSheet(a, o).pages())
}

// printable reports as an error which characters of pages the fonts of a PDF do not have.
func printable(pages []picture) error {
	if missing := missingGlyphs(pages); missing != "" {
		return fmt.Errorf("the fonts of the PDF have no signs for %s: write SVG or HTML, for which your own fonts are used", theory.Clip(missing))
	}
	return nil
}

// PDF draws a sheet as PDF, with the fonts in it: DejaVu, which has the signs of music and many alphabets. The error is that of
// Printable or of writing.
func PDF(w io.Writer, a arrange.Arrangement, o Options) error {
	if err := Printable(a, o); err != nil {
		return err
	}
	s := newSheet(a, o)
	return writePDF(w, s.pages(), o.paper(), s.title, s.inWords())
}

// writePDF writes pages as a PDF, with what it is called and what it shows in words.
func writePDF(w io.Writer, pages []picture, paper Paper, title, inWords string) error {
	size := fpdf.SizeType{Wd: paper.Width, Ht: paper.Height}
	pdf := fpdf.NewCustom(&fpdf.InitType{OrientationStr: "P", UnitStr: "pt", Size: size})
	pdf.SetMargins(0, 0, 0)
	pdf.SetAutoPageBreak(false, 0)
	pdf.SetTitle(title, true)
	pdf.SetSubject(inWords, true)
	pdf.SetLang("en")
	never := time.Unix(0, 0).UTC() // when it was made is nobody's business
	pdf.SetCreationDate(never)
	pdf.SetModificationDate(never)
	pdf.SetCatalogSort(true)
	for _, f := range []struct {
		family, style string
		data          []byte
	}{{"sans", "", dejavusans.TTF}, {"sans", "B", dejavusansbold.TTF}, {"mono", "", dejavusansmono.TTF}, {"mono", "B", dejavusansmonobold.TTF}} {
		pdf.AddUTF8FontFromBytes(f.family, f.style, f.data)
	}
	for _, p := range pages {
		pdf.AddPageFormat("P", size)
		for _, m := range p.marks {
			drawPDF(pdf, m)
		}
	}
	return pdf.Output(w)
}

// drawPDF draws a mark on a page of a PDF.
func drawPDF(pdf *fpdf.Fpdf, m mark) {
	pdf.SetDrawColor(0, 0, 0)
	pdf.SetFillColor(0, 0, 0)
	switch m.kind {
	case line:
		pdf.SetLineWidth(m.width)
		pdf.Line(m.x, m.y, m.x2, m.y2)
	case circle:
		pdf.SetLineWidth(m.width)
		pdf.Circle(m.x, m.y, m.r, "D")
	case disc:
		pdf.Circle(m.x, m.y, m.r, "F")
	case text:
		family, style := "sans", ""
		if m.mono {
			family = "mono"
		}
		if m.bold {
			style = "B"
		}
		pdf.SetFont(family, style, m.size)
		grey := 0
		if m.white {
			grey = 255
		}
		pdf.SetTextColor(grey, grey, grey)
		x := m.x
		switch width := pdf.GetStringWidth(m.text); m.anchor {
		case middle:
			x -= width / 2
		case end:
			x -= width
		}
		pdf.Text(x, m.y, m.text)
	}
}

// missingGlyphs returns the characters of pages that the fonts do not have.
func missingGlyphs(pages []picture) string {
	fonts := map[[2]bool]map[rune]bool{}
	var out strings.Builder
	for _, p := range pages {
		for _, m := range p.marks {
			style := [2]bool{m.mono, m.bold}
			if fonts[style] == nil {
				fonts[style] = glyphs(style)
			}
			for _, r := range m.text {
				if !fonts[style][r] && !strings.ContainsRune(out.String(), r) {
					out.WriteRune(r)
				}
			}
		}
	}
	return out.String()
}
