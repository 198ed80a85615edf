package tables

import (
	"database/sql"
	"encoding/binary"
	"fmt"
	"hash/crc32"
	"math"
)

// SQLite notices damage to how a file is built, but not to what is written in it: a bit that turns in the
// text of an answer is read as another text. So every row that cannot be made again carries a seal, a sum
// over what it says (CRC-32C, which catches every change of up to 32 bits in a row and all but one in four
// billion of the others; Castagnoli, Bräuer and Herrmann, IEEE Transactions on Communications 41(6), 1993).
// Rows of files older than the seals have none until the file is next opened for practice.

// sealed is the step that adds the seals. AddSeals fills them in.
const sealed = `
ALTER TABLE answers ADD COLUMN seal INTEGER;
ALTER TABLE sessions ADD COLUMN seal INTEGER;
ALTER TABLE settings ADD COLUMN seal INTEGER;`

var castagnoli = crc32.MakeTable(crc32.Castagnoli)

// SealOf returns the sum over the fields of a row. A field at its zero value does not count, so one that is
// added to the end later leaves the seals of earlier rows as they are.
func SealOf(fields ...any) int64 {
	var all []byte
	for i, field := range fields {
		var value []byte
		switch v := field.(type) {
		case string:
			value = []byte(v)
		case int64:
			if v != 0 {
				value = binary.BigEndian.AppendUint64(nil, uint64(v))
			}
		case float64:
			if v != 0 {
				value = binary.BigEndian.AppendUint64(nil, math.Float64bits(v))
			}
		default:
			panic(fmt.Sprintf("a field of the type %T has no seal", field))
		}
		if len(value) > 0 {
			all = binary.AppendUvarint(all, uint64(i))
			all = binary.AppendUvarint(all, uint64(len(value)))
			all = append(all, value...)
		}
	}
	return int64(crc32.Checksum(all, castagnoli))
}

// Broken reports whether a row is no longer what was sealed.
func Broken(seal sql.NullInt64, sum int64) bool { return seal.Valid && seal.Int64 != sum }
