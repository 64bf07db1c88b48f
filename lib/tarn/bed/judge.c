/* SPDX-License-Identifier: MIT */
#include "judge.h"
#include "rows.h"
#include "constants.h"
#include "firstorder.h"
#include "gravel.h"

#define SEWAGE_MOST 0.2		/* m/d, what sewage beds are given at most */
#define ALMOST (1 + 1e-9)	/* a bed sized for a target reaches it */

#define OUT struct tarn_bed_check
static const struct tarn_field check_rows[] = {
	TARN_OUT_NUMBER(OUT, area_m2, "area", "m2", "plan area"),
	TARN_OUT_NUMBER(OUT, depth_m, "depth", "m", "wet depth"),
	TARN_OUT_NUMBER(OUT, flow_m3s, "flow", "m3/s", "flow through it"),
	TARN_OUT_NUMBER(OUT, length_m, "length", "m", "from lip to far side"),
	TARN_OUT_NUMBER(OUT, width_m, "width", "m", "along the lip"),
	TARN_OUT_NUMBER(OUT, loading_m_d, "loading", "m/d", "surface loading"),
	TARN_OUT_NUMBER(OUT, loading_factor, "loading_factor", "-",
			"loading over the nearest range for its use"),
	TARN_OUT_NUMBER(OUT, sewage_factor, "sewage_factor", "-",
			"loading over the most that sewage beds are given"),
	TARN_OUT_NUMBER(OUT, surface_share, "surface_share", "-",
			"its area over the surface of the pond"),
	TARN_OUT_NUMBER(OUT, volume_share, "volume_share", "-",
			"its volume, stone and all, over that of the pond"),
	TARN_OUT_NUMBER(OUT, turnover_per_h, "turnover", "1/h",
			"pond volumes an hour, to the overflow level"),
	TARN_OUT_NUMBER(OUT, volume_m3, "volume", "m3", "stone and voids"),
	TARN_OUT_NUMBER(OUT, water_m3, "water", "m3", "in the voids"),
	TARN_OUT_NUMBER(OUT, mass_kg, "mass", "kg", "of the stone, dry"),
	TARN_OUT_NUMBER(OUT, surface_m2, "surface", "m2", "of the stone"),
	TARN_OUT_NUMBER(OUT, residence_s, "residence", "s",
			"time of the water in it"),
	TARN_OUT_NUMBER(OUT, velocity_ms, "velocity", "m/s",
			"flow over plan area"),
	TARN_OUT_NUMBER(OUT, pore_velocity_ms, "pore_velocity", "m/s",
			"speed in the voids"),
	TARN_OUT_NUMBER(OUT, reynolds, "reynolds", "-",
			"modified Reynolds number"),
	TARN_OUT_NUMBER(OUT, clean_m, "clean", "m", "head lost when clean"),
	TARN_OUT_NUMBER(OUT, clogged_m, "clogged", "m",
			"head lost when clogged"),
	TARN_OUT_NUMBER(OUT, lip_m, "lip", "m", "width of the lip taken"),
	TARN_OUT_NUMBER(OUT, rise_m, "rise", "m", "of the farthest water over "
			"that at the lip, when clogged"),
	TARN_OUT_NUMBER(OUT, rise_clear_m, "rise_clear", "m",
			"likewise, when clean"),
	TARN_OUT_NUMBER(OUT, trough_m, "trough", "m",
			"of both, what the trough takes"),
	TARN_OUT_NUMBER(OUT, head_needed_m, "head_needed", "m", "lost in the "
			"stone when clogged, on the way to the lip, over it"),
	TARN_OUT_NUMBER(OUT, k_m_d, "k_m_d", "m/d",
			"removal rate at the temperature of the water"),
	TARN_OUT_NUMBER(OUT, extrapolation, "extrapolation", "-",
			"loading over that at which the rate was measured"),
	TARN_OUT_NUMBER(OUT, pond_mgl, "pond", "mg/L",
			"ammonia nitrogen in the pond, steady"),
	TARN_OUT_NUMBER(OUT, pond_per_day, "pond_per_day", "1/d",
			"rate at which it gets there"),
	TARN_OUT_NUMBER(OUT, outlet_mgl, "outlet", "mg/L",
			"concentration after one pass"),
	TARN_OUT_NUMBER(OUT, oxygen_out_mgl, "oxygen_out", "mg/L",
			"oxygen at the outlet"),
	TARN_OUT_NUMBER(OUT, oxygen_supply_g, "oxygen_supply_g", "g/d",
			"oxygen brought in"),
	TARN_OUT_NUMBER(OUT, oxygen_demand_g, "oxygen_demand_g", "g/d",
			"oxygen used"),
	TARN_OUT_NUMBER(OUT, bod_g_m2, "bod_g_m2", "g/m2/d",
			"BOD on its plan area"),
	TARN_OUT_NUMBER(OUT, solids_g_m2, "solids_g_m2", "g/m2/d",
			"solids on its plan area"),
	TARN_OUT_NUMBER(OUT, section_bod_g_m2, "section_bod_g_m2", "g/m2/d",
			"BOD on its cross-section"),
	TARN_OUT_CHOICE(OUT, flow_regime, "flow_regime", tn_flow_regimes,
			"kind of flow in the largest stone"),
	BED_FLAG_ROWS(OUT),
};

TARN_FIELDS(tarn_bed_check_fields, "bed", check_rows);

static void shape(const struct tarn_sizing *in, struct tarn_bed_check *c)
{
	double side = sqrt(in->area_m2);

	if (!isnan(in->width_m))
		c->length_m = in->area_m2 / in->width_m;
	else
		c->length_m = fmin(side, isnan(in->length_m) ? side
							     : in->length_m);
	c->width_m = in->area_m2 / c->length_m;
	if (c->length_m > in->length_m * ALMOST ||
	    in->area_m2 > in->max_area_m2 * ALMOST)
		c->flags |= TARN_BED_DOES_NOT_FIT;
}

/* Factor to the nearest range of loadings for pond-like water. */
static double pond_factor(double loading_m_d)
{
	const struct tarn_loading_range *r = tn_bed_nearest_range(loading_m_d);

	return tarn_loading_factor(loading_m_d, r->lo_m_d, r->hi_m_d);
}

static void loading(const struct tarn_sizing *in, struct tarn_bed_check *c)
{
	size_t count;
	const struct tarn_bed_kind *kinds =
		tarn_bed_kinds(&count);

	c->loading_m_d = tarn_bed_loading(in->flow_m3s, in->area_m2);
	c->sewage_factor = c->loading_m_d / SEWAGE_MOST;
	if (in->kind > 0)
		c->loading_factor = tarn_loading_factor(
			c->loading_m_d, kinds[in->kind - 1].lo_m_d,
			kinds[in->kind - 1].hi_m_d);
	else
		c->loading_factor = pond_factor(c->loading_m_d);
	if (c->loading_factor > ALMOST || c->loading_factor < 1 / ALMOST)
		c->flags |= TARN_BED_LOADING_OUTSIDE;
	c->turnover_per_h = tarn_turnover_per_h(in->flow_m3s,
						in->pond_volume_m3);
	c->surface_share = in->area_m2 / in->pond_area_m2;
}

static void content(const struct tarn_sizing *in, const struct stone *stone,
		    double scale, struct tarn_bed_check *c)
{
	double per_m2 = in->area_m2 * scale;

	c->depth_m = stone->depth_m * scale;
	c->volume_m3 = stone->depth_m * per_m2;
	c->water_m3 = stone->voids_m * per_m2;
	c->mass_kg = stone->mass_kg * per_m2;
	c->surface_m2 = stone->surface * per_m2;
	c->volume_share = c->volume_m3 / in->pond_volume_m3;
	c->residence_s = c->water_m3 / in->flow_m3s;
	c->flags |= TARN_BED_CLEAN_OUT;
	if (!stone->chamber && in->direction == TARN_BED_UPFLOW)
		c->flags |= TARN_BED_NO_CHAMBER;
}

static void flow_law(const struct tarn_sizing *in, const struct stone *stone,
		     struct tarn_bed_check *c)
{
	c->reynolds = in->density_kgm3 * c->velocity_ms * stone->largest_m /
		      in->viscosity_pas;
	if (isnan(c->reynolds))
		return;
	c->flow_regime = (int)tn_flow_regime_of(c->reynolds,
						stone->largest_voids);
	if (c->flow_regime != TARN_FLOW_LINEAR)
		c->flags |= TARN_BED_NO_DARCY;
	if (c->flow_regime == TARN_FLOW_BEYOND)
		c->flags |= TARN_BED_BEYOND_ERGUN;
}

/* The trough's arm from its closed end to the lip, and its flow. */
static double trough(const struct tarn_sizing *in,
		     const struct tarn_bed_check *c)
{
	double arms = in->lip_place == TARN_LIP_MIDDLE ? 2 : 1;

	if (isnan(in->trough_width_m))
		return 0;
	return tarn_trough_rise_m(in->flow_m3s / arms, in->trough_width_m,
				  c->width_m / arms, in->trough_depth_m +
				  in->lip_head_m);
}

/* The farthest place from a lip, clean, over the water at it.  What comes up
 * runs through the uppermost layer, what comes from the far side through all. */
static double way_to(const struct tarn_sizing *in, const struct stone *stone,
		     double scale, const struct tarn_bed_check *c, double lip_m)
{
	int far = in->direction == TARN_BED_HORIZONTAL;
	struct tarn_resistance all = { stone->linear / stone->depth_m,
				       stone->quadratic / stone->depth_m };
	struct tarn_lip way = {
		.width_m = c->width_m, .length_m = c->length_m,
		.lip_m = lip_m, .place = in->lip_place,
		.layer_m = far ? c->depth_m : stone->top_m * scale,
		.flow_m3s = in->flow_m3s, .from_far = far,
		.stone = far ? all : stone->top,
	};

	return tarn_lip_rise_m(&way);
}

/* With a trough all of the lip's side is open. */
static void outlet(const struct tarn_sizing *in, const struct stone *stone,
		   double scale, struct tarn_bed_check *c)
{
	double clear;

	c->lip_m = isnan(in->lip_m) ? c->width_m : fmin(in->lip_m, c->width_m);
	clear = way_to(in, stone, scale, c, isnan(in->trough_width_m)
		       ? c->lip_m : c->width_m);
	c->trough_m = trough(in, c);
	c->rise_clear_m = clear + c->trough_m;
	c->rise_m = clear * in->clogging + c->trough_m;
	c->head_needed_m = c->rise_m + in->lip_head_m;
	if (in->direction == TARN_BED_UPFLOW)
		c->head_needed_m += c->clogged_m;
}

static void hydraulics(const struct tarn_sizing *in,
		       const struct stone *stone, double scale,
		       struct tarn_bed_check *c)
{
	double way = scale, v;	/* over the resistances of 'stone' */

	if (in->direction == TARN_BED_HORIZONTAL) {
		c->velocity_ms = in->flow_m3s / (c->width_m * c->depth_m);
		way = c->length_m / stone->depth_m;
	} else {
		c->velocity_ms = in->flow_m3s / in->area_m2;
	}
	v = c->velocity_ms;
	c->pore_velocity_ms = v * stone->depth_m / stone->voids_m;
	flow_law(in, stone, c);
	c->clean_m = (stone->linear + stone->quadratic * v) * v * way;
	c->clogged_m = c->clean_m * in->clogging;
	outlet(in, stone, scale, c);
	if (c->head_needed_m > in->available_head_m)
		c->flags |= TARN_BED_HEAD_SHORT;
	if (c->rise_m + in->lip_head_m > in->cover_m)
		c->flags |= TARN_BED_WATER_ON_GRAVEL;
}

static void treatment(const struct tarn_sizing *in, struct tarn_bed_check *c)
{
	double remaining, clearance;

	if (isnan(in->k_m_yr))
		return;
	c->k_m_d = tn_rate_at(in->k_m_yr, in->theta, in->temp_c) / YEAR;
	remaining = tn_treatment_remaining(c->k_m_d / c->loading_m_d,
					   in->tanks_in_series);
	clearance = in->flow_m3s * DAY * (1 - remaining);
	if (clearance > 0)
		c->pond_mgl = in->background_mgl + in->ammonia_g / clearance;
	c->pond_per_day = clearance / in->pond_volume_m3;
	c->outlet_mgl = in->background_mgl +
			(in->inlet_mgl - in->background_mgl) * remaining;
	c->extrapolation = tarn_loading_factor(c->loading_m_d, in->k_low_m_d,
					       in->k_high_m_d);
	if (isnan(c->extrapolation))
		c->flags |= TARN_BED_RATE_UNPLACED;
	else if (c->extrapolation != 1)
		c->flags |= TARN_BED_EXTRAPOLATED;
	if (c->pond_mgl > in->pond_target_mgl * ALMOST ||
	    c->outlet_mgl > in->target_mgl * ALMOST ||
	    (clearance <= 0 && in->ammonia_g > 0 &&
	     !isnan(in->pond_target_mgl)))
		c->flags |= TARN_BED_TARGET_MISSED;
	if (in->flow_m3s * DAY * (in->pond_target_mgl - in->background_mgl) <
	    in->ammonia_g)
		c->flags |= TARN_BED_FLOW_SHORT;
}

static void breath(const struct tarn_sizing *in, struct tarn_bed_check *c)
{
	struct tarn_oxygen o = tarn_oxygen_default();
	struct tarn_oxygen_result r;

	if (isnan(in->ammonia_g) && isnan(in->bod_g))
		return;
	o.flow_m3s = in->flow_m3s;
	o.inlet_mgl = in->oxygen_mgl;
	o.temp_c = in->temp_c;
	o.elevation_m = in->elevation_m;
	o.ammonia_g = isnan(in->ammonia_g) ? 0 : in->ammonia_g;
	o.bod_g = isnan(in->bod_g) ? 0 : in->bod_g;
	if (tarn_oxygen(&o, &r, NULL) != TARN_OK)
		return;
	c->oxygen_out_mgl = r.outlet_mgl;
	c->oxygen_supply_g = r.supply_g;
	c->oxygen_demand_g = r.demand_g;
	c->flags |= r.flags;
}

static void burden(const struct tarn_sizing *in, struct tarn_bed_check *c)
{
	c->bod_g_m2 = in->bod_g / in->area_m2;
	c->solids_g_m2 = in->solids_g / in->area_m2;
	if (in->direction == TARN_BED_HORIZONTAL)
		c->section_bod_g_m2 = in->bod_g / (c->width_m * c->depth_m);
	if (c->bod_g_m2 > in->bod_limit * ALMOST ||
	    c->solids_g_m2 > in->solids_limit * ALMOST)
		c->flags |= TARN_BED_AREA_OVERLOAD;
	if (c->section_bod_g_m2 > in->section_limit * ALMOST)
		c->flags |= TARN_BED_SECTION_OVERLOAD;
}

void tn_bed_judge(const struct tarn_sizing *in, const struct stone *stone,
		  double scale, struct tarn_bed_check *out)
{
	struct tarn_bed_check c = {
		.area_m2 = in->area_m2, .flow_m3s = in->flow_m3s,
		.flow_regime = -1,
		.k_m_d = TARN_NAN, .extrapolation = TARN_NAN,
		.pond_mgl = TARN_NAN, .pond_per_day = TARN_NAN,
		.outlet_mgl = TARN_NAN, .oxygen_out_mgl = TARN_NAN,
		.oxygen_supply_g = TARN_NAN, .oxygen_demand_g = TARN_NAN,
		.section_bod_g_m2 = TARN_NAN,
	};

	shape(in, &c);
	loading(in, &c);
	content(in, stone, scale, &c);
	hydraulics(in, stone, scale, &c);
	treatment(in, &c);
	breath(in, &c);
	burden(in, &c);
	*out = c;
}
