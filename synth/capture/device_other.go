//go:build !unix && !windows

package capture

import "context"

// openDevice opens the machine's microphone.
func openDevice(context.Context) (Source, error) { return nil, &Fault{Kind: NoServer} }
