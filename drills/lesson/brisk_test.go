package lesson

import _ "sparetone/brisk"
