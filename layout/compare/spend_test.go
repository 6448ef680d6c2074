package compare

import _ "oxturn/layout/spend/intests"
