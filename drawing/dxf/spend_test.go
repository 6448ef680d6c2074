package dxf_test

import _ "oxturn/layout/spend/intests"
