package tube

import _ "oxturn/layout/spend/intests"
