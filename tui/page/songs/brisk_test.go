package songs

import _ "sparetone/brisk"
