/* SPDX-License-Identifier: MIT */
#ifndef TARN_BED_CONSTANTS_H
#define TARN_BED_CONSTANTS_H

/* Private: constants that several files of the wing share. */

#define DAY 86400.0		/* s */
#define YEAR 365.0		/* d, as areal rates are quoted */
#define GRAVITY 9.81		/* m/s2, as in the tables that we check with */
#define STONE 2650.0		/* kg/m3, quartz */

#endif
