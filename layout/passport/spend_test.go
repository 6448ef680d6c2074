package passport

import _ "oxturn/layout/spend/intests"
