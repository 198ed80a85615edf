package store

import _ "sparetone/brisk"
