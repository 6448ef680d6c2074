package build

import _ "oxturn/layout/spend/intests"
