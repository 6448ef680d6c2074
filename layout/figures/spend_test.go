package figures

import _ "oxturn/layout/spend/intests"
