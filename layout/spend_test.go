package layout

import _ "oxturn/layout/spend/intests"
