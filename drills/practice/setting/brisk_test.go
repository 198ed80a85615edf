package setting

import _ "sparetone/brisk"
