package papers

import _ "sparetone/brisk"
