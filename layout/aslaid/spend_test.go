package aslaid

import _ "oxturn/layout/spend/intests"
