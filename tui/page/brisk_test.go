package page

import _ "sparetone/brisk"
