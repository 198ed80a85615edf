package sheet

import _ "sparetone/brisk"
