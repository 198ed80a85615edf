package songwork

import _ "sparetone/brisk"
