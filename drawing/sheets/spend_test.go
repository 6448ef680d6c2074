package sheets

import _ "oxturn/layout/spend/intests"
