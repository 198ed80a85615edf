//go:build !unix

package main

import "time"

var testsBegan = time.Now()

// processorTime is how long this process has run, where its share of the processors is not known.
func processorTime() time.Duration { return time.Since(testsBegan) }
