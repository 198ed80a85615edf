package practice

import _ "sparetone/brisk"
