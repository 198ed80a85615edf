package pages

import _ "sparetone/brisk"
