package pages

// Where the header of an SQLite file says what it is; all numbers big-endian. Source: the SQLite
// file format, section 1.3, https://www.sqlite.org/fileformat2.html.
const (
	HeaderSize      = 100
	pageSizeAt      = 16
	pagesAt         = 28
	UserVersionAt   = 60
	ApplicationIDAt = 68
)

var Magic = []byte("SQLite format 3\x00")
