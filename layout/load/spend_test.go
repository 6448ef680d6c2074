package load

import _ "oxturn/layout/spend/intests"
