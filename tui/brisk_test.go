package tui

import _ "sparetone/brisk"
