package tables

import _ "sparetone/brisk"
