package refit

import _ "oxturn/layout/spend/intests"
