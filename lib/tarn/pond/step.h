/* SPDX-License-Identifier: MIT */
#ifndef TARN_POND_STEP_H
#define TARN_POND_STEP_H

#include <float.h>

#include "tarn/pond/basin.h"

/*
 * One day of the ledger: the only place where its physics stands.  The single
 * ledger and the study's arrays of ponds compile the same few functions, so
 * that both give the same bits.
 *
 * In those functions nothing branches on a number: a comparison picks one of
 * two values, which a compiler turns into vector code.  Parts that a pond does
 * not have are left out by constant arguments; they are written so that
 * leaving them out changes no bit (they add a zero).
 *
 * The state is volumes: a day costs one square root and no level.
 */

/* Without optimisation one function each, so that `make coverage` counts its
 * branches once and not once a loop. */
#if defined(__GNUC__) && defined(__OPTIMIZE__)
#define STEP_INLINE static inline __attribute__((always_inline))
#else
#define STEP_INLINE static inline
#endif

/*
 * What stays the same all year.  One list makes the struct here and the
 * arrays of the study.
 */
#define STEP_FIXED(X)                                                          \
	X(full_m3)	/* in the pond at the overflow */                       \
	X(trigger_m3)	/* -1: no top-up */                                    \
	X(target_m3)                                                           \
	X(intake_m3)	/* -1: none */                                         \
	X(supply_m3)	/* a day; STEP_NO_LIMIT */                             \
	X(seepage_m)	/* depth a day */                                      \
	X(seepage_m3)	/* fixed, a day */                                     \
	X(head_m3_m)	/* seepage a day per metre above the floor */          \
	X(bed_m3)	/* full bed */                                         \
	X(transit_m3)	/* in transit while the pump runs */                   \
	X(tank_m3)	/* capacity of the rain tank */                        \
	X(flush_mm)	/* first flush of the roof */                          \
	X(apron_m3_mm)	/* apron that goes by curve number; else 0 */          \
	X(apron_s_mm)	/* its S, TR-55 */

/* What changes with the month; volumes per mm of the day's weather. */
#define STEP_SEASON(X)                                                         \
	X(share)	/* of the day that the pump runs */                    \
	X(room_m3)	/* lip less what comes back when the pump stops */     \
	X(rain_m3_mm)	/* collecting area, and apron by coefficient */        \
	X(bed_rain_m3_mm)                                                      \
	X(rain_factor)                                                         \
	X(roof_m3_mm)                                                          \
	X(open_m_mm)	/* depth lost by the pond's water */                   \
	X(stream_m3_mm)                                                        \
	X(plant_m3_mm)	/* bed, per mm of grass reference */                   \
	X(splash_m3)

/* Finite, so that the loops of the study may be compiled without care for
 * infinities. */
#define STEP_NO_LIMIT DBL_MAX

#define STEP_MEMBER(name) double name;
struct step_fixed { STEP_FIXED(STEP_MEMBER) };
struct step_season { STEP_SEASON(STEP_MEMBER) };

/* A day's weather, and what is allowed on it. */
struct step_sky {
	double rain_mm, open_water_mm, grass_mm;
	double withdrawal_m3;
	/* most that may come, and beyond what a wish counts as refused: 0 or
	 * STEP_NO_LIMIT */
	double supply_m3, tank_m3, refused_m3;
};

struct step_state {
	double pond_m3, bed_m3, transit_m3, tank_m3;
	/* the single ledger's: what belongs to a volume, found last */
	double found_m3, level_m, area_m2;
	size_t segment;		/* of the basin */
};

/* What happened. */
struct step_flow {
	double running;		/* 1 or 0 */
	double overflow_m3;
	double wanted_m3;	/* losses of the pond, before they ran dry */
	double bed_m3;		/* loss of the bed with the pump off */
	double roof_m3, tank_spill_m3;
	double tank_m3, topup_m3, unmet_m3;
};

STEP_INLINE double step_least(double a, double b)
{
	return a < b ? a : b;
}

STEP_INLINE double step_most(double a, double b)
{
	return a > b ? a : b;
}

/* Runoff by curve number, mm; see tarn_runoff, which it equals. */
STEP_INLINE double step_runoff(double rain_mm, double s_mm)
{
	double left_mm = step_most(0, rain_mm - 0.2 * s_mm);

	return left_mm * left_mm / step_most(1e-300, rain_mm + 0.8 * s_mm);
}

/*
 * Morning: the pump starts or stops, the rain falls, what is too much leaves.
 *   runoff_m3   from an apron by curve number
 *   stops       0: all is full and the pump runs, today as well
 *   tank        0: no rain tank
 */
STEP_INLINE void step_morning(const struct step_fixed *p,
			      const struct step_season *m,
			      const struct step_sky *w, double runoff_m3,
			      int stops, int tank, struct step_state *s,
			      struct step_flow *f)
{
	double room_m3 = m->room_m3, bed_rain_m3 = 0, full_m3;

	f->running = 1;
	if (stops) {
		double need_m3 = p->bed_m3 - s->bed_m3 + p->transit_m3 -
				 s->transit_m3;
		int on = (m->share > 0) & (need_m3 <= s->pond_m3);

		f->running = on ? 1 : 0;
		s->pond_m3 += on ? -need_m3 : s->transit_m3;
		s->bed_m3 = on ? p->bed_m3 : s->bed_m3;
		s->transit_m3 = on ? p->transit_m3 : 0;
		room_m3 = on ? room_m3 : p->full_m3;
		bed_rain_m3 = step_least(w->rain_mm * m->bed_rain_m3_mm,
					 p->bed_m3 - s->bed_m3);
		s->bed_m3 += bed_rain_m3;
	}
	full_m3 = s->pond_m3 +
		  (w->rain_mm * m->rain_m3_mm - bed_rain_m3 + runoff_m3);
	s->pond_m3 = step_least(full_m3, room_m3);
	f->overflow_m3 = full_m3 - s->pond_m3;
	if (tank) {
		f->roof_m3 = step_most(0, w->rain_mm * m->rain_factor -
					  p->flush_mm) * m->roof_m3_mm;
		f->tank_spill_m3 = step_most(0, s->tank_m3 + f->roof_m3 -
						p->tank_m3);
		s->tank_m3 += f->roof_m3 - f->tank_spill_m3;
	}
}

/*
 * Evening: the losses.  Water that is not there is not lost.
 *   area_m2   of the pond's water, from its volume after the morning
 *   head_m3   seepage that goes by the level
 */
STEP_INLINE void step_evening(const struct step_fixed *p,
			      const struct step_season *m,
			      const struct step_sky *w, double area_m2,
			      double head_m3, int stops, struct step_state *s,
			      struct step_flow *f)
{
	double plant_m3 = w->grass_mm * m->plant_m3_mm;
	double upper_m3 = w->open_water_mm * m->stream_m3_mm + plant_m3 +
			  m->splash_m3;

	f->wanted_m3 = area_m2 * (w->open_water_mm * m->open_m_mm +
				  p->seepage_m) + upper_m3 * f->running +
		       (p->seepage_m3 + w->withdrawal_m3) + head_m3;
	s->pond_m3 = step_most(0, s->pond_m3 - f->wanted_m3);
	if (stops) {
		f->bed_m3 = f->running > 0 ? 0
					   : step_least(plant_m3, s->bed_m3);
		s->bed_m3 -= f->bed_m3;
	}
}

/* Top-up that trigger and target ask for. */
STEP_INLINE double step_wish(const struct step_fixed *p,
			     const struct step_state *s)
{
	return s->pond_m3 < p->trigger_m3 ? p->target_m3 - s->pond_m3 : 0;
}

/* Top-up, from the rain tank first. */
STEP_INLINE void step_refill(const struct step_fixed *p,
			     const struct step_sky *w, double wish_m3, int tank,
			     struct step_state *s, struct step_flow *f)
{
	double rest_m3 = wish_m3;

	if (tank) {
		f->tank_m3 = step_least(step_least(wish_m3, s->tank_m3),
					w->tank_m3);
		s->tank_m3 -= f->tank_m3;
		s->pond_m3 += f->tank_m3;
		rest_m3 -= f->tank_m3;
	}
	f->topup_m3 = step_least(step_least(rest_m3, p->supply_m3),
				 w->supply_m3);
	f->unmet_m3 = rest_m3 - f->topup_m3;
	s->pond_m3 += f->topup_m3;
}

/* ---- the single ledger --------------------------------------------------- */

/* A description worked out once for a run. */
struct step_pond {
	const struct tarn_pond *pond;
	struct step_fixed fixed;
	struct step_season season[12];
	double collecting_m2;
	double stream_m2;	/* wetted area x factor, at 24 h */
};

/* A day's orders; the weather is in 'sky'. */
struct step_day {
	struct step_sky sky;
	int month;		/* 0 .. 11 */
	double pump_share;	/* hours / 24 */
	double topup_m3;	/* NaN: by trigger and target */
	int supply_open, tank_open;
};

/* Checks a pond and works it out.  Errors: TARN_EARG. */
enum tarn_status tn_step_prepare(struct step_pond *out,
				 const struct tarn_pond *pond,
				 struct tarn_error *err);

/* Rain and evaporation of a prepared pond times a factor, by month. */
void tn_step_scale(struct step_pond *p, const double rain[12],
		   const double evaporation[12]);

/* Level on the first morning, checked against the basin. */
enum tarn_status tn_step_start(const struct tarn_pond *p,
			       const struct tarn_run *run, double *level_m,
			       struct tarn_error *err);

/* tarn_forcing_check, and that no day is left out: for those who go by the
 * index of a day.  Errors: TARN_EARG. */
enum tarn_status tn_forcing_whole(const struct tarn_forcing *f,
				  struct tarn_error *err);

STEP_INLINE int step_left_out(const struct tarn_forcing *f, size_t i)
{
	return f->left_out && f->left_out[i];
}

/* State on the first morning. */
void tn_step_begin(const struct step_pond *p, const struct tarn_run *run,
		   double level_m, struct step_state *s);

/* Weather and the description's orders of a day. */
void tn_step_order(const struct step_pond *p,
		   const struct tarn_forcing *forcing,
		   size_t at, struct step_day *d);

/* Takes the state through a day; adds to nothing, fills 'out' but for its
 * weather. */
void tn_step_take(const struct step_pond *p, const struct step_day *d,
		  struct step_state *s, struct tarn_ledger_day *out);

#endif
