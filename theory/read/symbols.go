package read

import (
	"sync"

	"sparetone/theory"
)

// kindBySymbol finds a kind by a symbol of the table.
var kindBySymbol = sync.OnceValue(func() map[string]*theory.Kind {
	m := map[string]*theory.Kind{}
	for _, k := range theory.Kinds() {
		for _, symbol := range k.Symbols {
			m[symbol] = k
		}
	}
	return m
})
