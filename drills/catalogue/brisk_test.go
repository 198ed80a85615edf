package catalogue

import _ "sparetone/brisk"
