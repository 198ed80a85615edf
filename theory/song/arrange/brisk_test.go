package arrange

import _ "sparetone/brisk"
