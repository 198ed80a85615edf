package sheet

import (
	"encoding/binary"

	"codeberg.org/go-fonts/dejavu/dejavusans"
	"codeberg.org/go-fonts/dejavu/dejavusansbold"
	"codeberg.org/go-fonts/dejavu/dejavusansmono"
	"codeberg.org/go-fonts/dejavu/dejavusansmonobold"
)

// fontData are the fonts, by whether they are of equal width and whether they are bold.
var fontData = map[[2]bool][]byte{
	{false, false}: dejavusans.TTF, {false, true}: dejavusansbold.TTF, {true, false}: dejavusansmono.TTF, {true, true}: dejavusansmonobold.TTF,
}

// glyphs returns the characters of the first 65,536 that a font has, by the table cmap of its file, in the format 4 (OpenType
// 1.9, ISO/IEC 14496-22). The fonts are ours, so that their tables are where they say.
func glyphs(style [2]bool) map[rune]bool {
	font := fontData[style]
	u16 := func(at int) int { return int(binary.BigEndian.Uint16(font[at:])) }
	u32 := func(at int) int { return int(binary.BigEndian.Uint32(font[at:])) }
	has := map[rune]bool{}
	for n := range u16(4) {
		record := 12 + 16*n
		if string(font[record:record+4]) != "cmap" {
			continue
		}
		table := u32(record + 8)
		for i := range u16(table + 2) {
			sub := table + u32(table+4+8*i+4)
			if u16(sub) == 4 {
				addSegments(has, u16, sub)
			}
		}
	}
	return has
}

// addSegments adds the characters of a table of the format 4 that have a glyph.
func addSegments(has map[rune]bool, u16 func(int) int, at int) {
	twice := u16(at + 6)
	ends := at + 14
	starts := ends + twice + 2
	deltas := starts + twice
	offsets := deltas + twice
	for s := 0; s < twice; s += 2 {
		for c := u16(starts + s); c <= u16(ends+s) && c < 0xFFFF; c++ {
			glyph := c + u16(deltas+s)
			if offset := u16(offsets + s); offset != 0 {
				glyph = u16(offsets + s + offset + 2*(c-u16(starts+s)))
			}
			if glyph&0xFFFF != 0 {
				has[rune(c)] = true
			}
		}
	}
}
