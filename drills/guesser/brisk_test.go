package guesser

import _ "sparetone/brisk"
