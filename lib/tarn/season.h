/* SPDX-License-Identifier: MIT */
#ifndef TARN_SEASON_H
#define TARN_SEASON_H

/*
 * season: what a ledger says of a usual year.  Typical weeks and months, dry
 * years, the days that a pond lasts by itself.
 * Part of the wing pond.
 *
 * A week goes with the month of its Thursday, as an ISO 8601 week goes with
 * the year of its Thursday.
 */

#include "tarn/pond.h"

#ifdef __cplusplus
extern "C" {
#endif

#define TARN_SEASON_WEEKS 52	/* the 53rd comes once in six years */

/* Years that a dry year (P90) needs to be told at all, and not to be rough;
 * whole years of weather for the bounds of a normal week.  Our own. */
#define TARN_SEASON_YEARS_LEAST 3
#define TARN_SEASON_YEARS_ENOUGH 10
#define TARN_SEASON_DAYS_ENOUGH (3 * 365)

/* A week of the year, over the years: its whole weeks. */
struct tarn_season_week {
	int week;		/* 1 .. 52 */
	char about[6];		/* "MM-DD", tarn_week_about */
	struct tarn_spread topup_m3, drop_mm;
};

/* A month of the year, over the years. */
struct tarn_season_month {
	int month;		/* 1 .. 12 */
	size_t whole;		/* whole months in the ledger */
	struct tarn_flows flows;	/* mean of these; 0 without any; unmet:
					   the largest */
	double drop_mm;		/* likewise */
	double a_week_m3;	/* top-up: a week's share of whole months, or
				   without any the mean of the whole weeks;
				   NaN without these */
	struct tarn_flows daily;	/* mean of all its days, whole month or
					   not */
	struct tarn_spread weeks_topup_m3, weeks_drop_mm;	/* whole ones */
};

struct tarn_season {
	size_t days;		/* that the ledger has */
	double years;		/* days / 365.25 */
	double a_week_m3, a_year_m3;	/* mean top-up */
	size_t whole_years;
	struct tarn_spread year_topup_m3;	/* of whole years */
	struct tarn_spread year_peak_m3;	/* of these, each one's largest
						   ISO week, as a study's
						   TARN_Q_WEEK_P50, _P90 */
	int has_dry_year;	/* whole_years >= TARN_SEASON_YEARS_LEAST */
	int few_years;		/* whole_years < TARN_SEASON_YEARS_ENOUGH */
	int few_days;		/* days < TARN_SEASON_DAYS_ENOUGH */
	int peak_month;		/* whole months that take most a day; 0: none
				   takes any */
	int months, weeks;	/* entries of these lists */
	struct tarn_season_month month[12];	/* those that occur */
	struct tarn_season_week week[TARN_SEASON_WEEKS];	/* likewise */
};

/* Works out a ledger's season.  Errors: TARN_ENOMEM. */
TARN_API enum tarn_status tarn_season(struct tarn_season *out,
				      const struct tarn_alloc *alloc,
				      const struct tarn_ledger *ledger,
				      struct tarn_error *err);
TARN_API extern const struct tarn_fields tarn_season_fields,
	tarn_season_week_fields, tarn_season_month_fields;

/* ---- absence ------------------------------------------------------------ */

#define TARN_ABSENCE_LEAST 30	/* days of weather to say anything; our own */
#define TARN_ABSENCE_HORIZON 120	/* days; a longer time is no worry;
					   our own */

/* How long a pond lasts by itself, by the month of leaving; days, HUGE_VAL or
 * above the horizon where it lasts longer. */
struct tarn_absence_month {
	int month;		/* 1 .. 12 */
	double worst;		/* of every start whose answer is known */
	double p10, p50;	/* of the starts with the horizon's days of
				   weather after them, none left out, so that those near the
				   end do not bend the figures; NaN: none */
	size_t starts;		/* how many these are */
};
struct tarn_absence {
	int horizon;		/* the shorter of TARN_ABSENCE_HORIZON and half
				   the weather */
	int months;		/* 0: under TARN_ABSENCE_LEAST days */
	struct tarn_absence_month month[12];
};

/*
 * From the days of tarn_pond_endurance, -1 where they are not known,
 * TARN_ENDURANCE_LEFT_OUT where a day is left out.
 *
 *   days       until the level falls under the intake, for a start on
 *              first_day, on the next day ...
 * Errors: TARN_ENOMEM.
 */
TARN_API enum tarn_status tarn_absence(struct tarn_absence *out,
				       const struct tarn_alloc *alloc,
				       const long *days, size_t count,
				       long first_day, struct tarn_error *err);
TARN_API extern const struct tarn_fields tarn_absence_fields,
	tarn_absence_month_fields;

#ifdef __cplusplus
}
#endif
#endif
