package pdf

import _ "oxturn/layout/spend/intests"
