package membrane

import _ "oxturn/layout/spend/intests"
