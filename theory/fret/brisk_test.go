package fret_test

import _ "sparetone/brisk"
