package session

import _ "sparetone/brisk"
