package paper

import _ "sparetone/brisk"
