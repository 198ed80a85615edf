package synth

import _ "unsafe" // for go:linkname

// otoContextCreated is how oto remembers that a program may have one context only, even after the device
// that it was for has gone. Forgetting it is the only way to open a device that has come back.
//
//go:linkname otoContextCreated github.com/ebitengine/oto/v3.contextCreated
var otoContextCreated bool
