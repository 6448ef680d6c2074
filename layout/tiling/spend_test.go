package tiling

import _ "oxturn/layout/spend/intests"
