/* SPDX-License-Identifier: MIT */
#include <stdlib.h>

#include "web.h"

/* ---- layers ------------------------------------------------------------ */

/* Before another list of layers. */
WEB(web_layers_clear) void web_layers_clear(void);
WEB(web_layers_clear) void web_layers_clear(void)
{
	web.layer_count = 0;
}

/* Layers tell the water of the described bed up to its lip, 'cover_m' under
 * their top; as the Lua module has it. */
WEB(web_layers_use) int web_layers_use(double cover_m);
WEB(web_layers_use) int web_layers_use(double cover_m)
{
	struct tarn_bed_store *bed = &web.pond.bed;
	struct tarn_layers in = tarn_layers_default();
	struct tarn_layers_result sum;

	if (!isnan(bed->depth_m) || !isnan(bed->porosity))
		return web_mistake("bed.%s is given beside bed.layers: leave "
				   "it out, the layers tell it",
				   isnan(bed->depth_m) ? "porosity" : "depth");
	in.layer = web.layers;
	in.count = (size_t)web.layer_count;
	in.area_m2 = bed->area_m2 > 0 ? bed->area_m2 : 1;
	if (tarn_layers(&in, NULL, &sum, web_error()) != TARN_OK)
		return web_fail(NULL);
	if (cover_m >= sum.depth_m)
		return web_mistake("bed.cover of %g m leaves no water in "
				   "layers of %g m", cover_m, sum.depth_m);
	in.lip_m = sum.depth_m - cover_m;
	if (tarn_layers(&in, NULL, &sum, web_error()) != TARN_OK)
		return web_fail(NULL);
	if (isnan(bed->volume_m3) && bed->area_m2 > 0)
		bed->volume_m3 = sum.water_m3;
	return 1;
}

/* The whole list on that area, what stands dry included; NULL if it fails. */
WEB(web_stack) const struct tarn_layers_result *web_stack(double area_m2);
WEB(web_stack) const struct tarn_layers_result *web_stack(double area_m2)
{
	static struct tarn_layers_result sum;
	struct tarn_layers in = tarn_layers_default();

	in.layer = web.layers;
	in.count = (size_t)web.layer_count;
	in.area_m2 = area_m2;
	if (tarn_layers(&in, NULL, &sum, web_error()) == TARN_OK)
		return &sum;
	web_fail(NULL);
	return NULL;
}

/* ---- sizing ------------------------------------------------------------ */

/* What fish put into the water: web_waste(), web_set("waste", ...),
 * web_waste_result(); NULL if it fails. */
WEB(web_waste) void web_waste(void);
WEB(web_waste) void web_waste(void)
{
	web.waste = tarn_waste_default();
}

WEB(web_waste_result) const struct tarn_waste_result *web_waste_result(void);
WEB(web_waste_result) const struct tarn_waste_result *web_waste_result(void)
{
	static struct tarn_waste_result result;

	if (tarn_waste(&web.waste, &result, web_error()) == TARN_OK)
		return &result;
	web_fail(NULL);
	return NULL;
}

/* web_size_begin(), web_set("size", ...), web_size(). */

/* Water's density and viscosity are those at 'temp_c'. */
WEB(web_size_begin) void web_size_begin(double temp_c);
WEB(web_size_begin) void web_size_begin(double temp_c)
{
	struct tarn_water water = tarn_water(temp_c);

	web.sizing = tarn_sizing_default();
	web.sizing.temp_c = temp_c;
	web.sizing.density_kgm3 = water.density_kgm3;
	web.sizing.viscosity_pas = water.viscosity_pas;
}

/* Takes a published removal rate, by its index. */
WEB(web_size_rate) int web_size_rate(size_t i);
WEB(web_size_rate) int web_size_rate(size_t i)
{
	size_t count;
	const struct tarn_rate *all = tarn_rates(&count);

	if (i >= count)
		return web_mistake("there is no such rate");
	tarn_sizing_use(&web.sizing, &all[i]);
	return 1;
}

/* The layers that were added, instead of one stone. */
WEB(web_size_layers) void web_size_layers(void);
WEB(web_size_layers) void web_size_layers(void)
{
	web.sizing.layer = web.layers;
	web.sizing.layer_count = (size_t)web.layer_count;
}

WEB(web_size) const struct tarn_sizing_result *web_size(void);
WEB(web_size) const struct tarn_sizing_result *web_size(void)
{
	if (tarn_sizing(&web.sizing, &web.sized, web_error()) == TARN_OK)
		return &web.sized;
	web_fail(NULL);
	return NULL;
}

/* Checks of every area x depth at a flow, depth fastest.  Borrowed; NULL if
 * it fails. */
WEB(web_tradeoff) const struct tarn_bed_check *
web_tradeoff(const double *areas, size_t area_count, const double *depths,
	     size_t depth_count, double flow_m3s);
WEB(web_tradeoff) const struct tarn_bed_check *
web_tradeoff(const double *areas, size_t area_count, const double *depths,
	     size_t depth_count, double flow_m3s)
{
	struct tarn_tradeoff axes = { areas, depths, &flow_m3s, area_count,
				      depth_count, 1 };

	if (!web_room(&web.cells, area_count * depth_count *
				  sizeof *web.cells))
		return NULL;
	if (tarn_tradeoff(&web.sizing, &axes, web.cells, web_error()) ==
	    TARN_OK)
		return web.cells;
	web_fail(NULL);
	return NULL;
}

/* The largest bed in the described yard; NULL if it fails. */
WEB(web_yard_fit) const struct tarn_fit *web_yard_fit(void);
WEB(web_yard_fit) const struct tarn_fit *web_yard_fit(void)
{
	static struct tarn_fit fit;

	if (tarn_yard_fit(&web.yard, &fit, web_error()) == TARN_OK)
		return &fit;
	web_fail(NULL);
	return NULL;
}

/* ---- tables ------------------------------------------------------------ */

WEB(web_refusals) unsigned web_refusals(void);
WEB(web_refusals) unsigned web_refusals(void)
{
	return TARN_BED_REFUSALS;
}

/* Sentence of the flag of that bit (0 ..); NULL beyond the last. */
WEB(web_flag_text) const char *web_flag_text(unsigned bit);
WEB(web_flag_text) const char *web_flag_text(unsigned bit)
{
	size_t count;
	const struct tarn_flag *all = tarn_bed_flags(&count);

	for (size_t i = 0; bit < 32 && i < count; i++)
		if (all[i].bit == 1u << bit)
			return all[i].text;
	return NULL;
}

/* what: 0 name, 1 meaning, 2 evidence; NULL beyond the last. */
WEB(web_size_rule) const char *web_size_rule(int rule, int what);
WEB(web_size_rule) const char *web_size_rule(int rule, int what)
{
	const struct tarn_size_rule_info *info;

	if (rule < 0 || rule >= TARN_SIZE_RULES)
		return NULL;
	info = tarn_size_rule_info((enum tarn_size_rule)rule);
	return what == 0 ? info->name : what == 1 ? info->meaning
		: tarn_evidence_text(info->evidence);
}

WEB(web_regime) const struct tarn_loading_regime *web_regime(size_t i);
WEB(web_regime) const struct tarn_loading_regime *web_regime(size_t i)
{
	size_t count;
	const struct tarn_loading_regime *all = tarn_loading_regimes(&count);

	return i < count ? &all[i] : NULL;
}

WEB(web_rate) const struct tarn_rate *web_rate(size_t i);
WEB(web_rate) const struct tarn_rate *web_rate(size_t i)
{
	size_t count;
	const struct tarn_rate *all = tarn_rates(&count);

	return i < count ? &all[i] : NULL;
}

WEB(web_evidence) const char *web_evidence(int evidence);
WEB(web_evidence) const char *web_evidence(int evidence)
{
	return tarn_evidence_text((enum tarn_evidence)evidence);
}
