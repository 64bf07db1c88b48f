/* SPDX-License-Identifier: MIT */
#include <string.h>

#include "web.h"

/*
 * Lists of a description: web_entry(section), web_set(section, ...) for its
 * fields, web_entry_add(section), for one entry after the other.
 */

static int is(const char *a, const char *b)
{
	return strcmp(a, b) == 0;
}

WEB(web_entry) void web_entry(const char *section);
WEB(web_entry) void web_entry(const char *section)
{
	if (is(section, "layer"))
		web.layer = tarn_layer_default();
	else if (is(section, "corner"))
		web.corner = tarn_yard_corner_default();
	else if (is(section, "pipes"))
		web.pipe = tarn_pipe_run_default();
	else if (is(section, "falls"))
		web.fall = tarn_fall_default();
	else
		web.catchment = tarn_works_default().catchment[0];
}

/* Adds *entry to a list of 'count', if there is room for it. */
static int add(const char *name, void *list, int *count, int most,
	       const void *entry, size_t bytes)
{
	if (*count >= most)
		return web_mistake("%s must be a list of 1 to %d entries", name,
				   most);
	memcpy((char *)list + (size_t)*count * bytes, entry, bytes);
	++*count;
	return 1;
}

WEB(web_entry_add) int web_entry_add(const char *section);
WEB(web_entry_add) int web_entry_add(const char *section)
{
	struct tarn_works *w = &web.works;
	int corners = (int)web.yard.count;

	if (is(section, "corner")) {
		if (!add("yard.corners", web.corners, &corners,
			 TARN_YARD_CORNERS, &web.corner, sizeof web.corner))
			return 0;
		web.yard.count = (size_t)corners;
		return 1;
	}
	if (is(section, "layer"))
		return add("bed.layers", web.layers, &web.layer_count,
			   WEB_LAYERS_MAX, &web.layer, sizeof web.layer);
	if (is(section, "pipes"))
		return add(section, w->run, &w->runs, TARN_RUNS_MAX, &web.pipe,
			   sizeof web.pipe);
	if (is(section, "falls"))
		return add(section, w->fall, &w->falls, TARN_FALLS_MAX,
			   &web.fall, sizeof web.fall);
	return add(section, w->catchment, &w->catchments, TARN_CATCHMENTS_MAX,
		   &web.catchment, sizeof web.catchment);
}

/* Fittings of the pipe that is being set. */
WEB(web_fitting) int web_fitting(const char *name, double count);
WEB(web_fitting) int web_fitting(const char *name, double count)
{
	struct tarn_pipe_fitting *f = &web.pipe.fitting[web.pipe.fittings];

	if (web.pipe.fittings == TARN_RUN_FITTINGS_MAX)
		return web_mistake("pipes.fittings takes at most %d kinds",
				   TARN_RUN_FITTINGS_MAX);
	f->kind = tarn_fitting_find(name);
	if (f->kind < 0)
		return web_mistake("pipes.fittings: there is none named '%s'; "
				   "docs/pond.md lists them", name);
	f->count = count;
	web.pipe.fittings++;
	return 1;
}

/* One more point of the pump's curve. */
WEB(web_curve) int web_curve(double flow_m3s, double head_m);
WEB(web_curve) int web_curve(double flow_m3s, double head_m)
{
	struct tarn_works *w = &web.works;

	if (w->curve_points == TARN_CURVE_MAX)
		return web_mistake("pump.curve takes at most %d points",
				   TARN_CURVE_MAX);
	w->curve_flow_m3s[w->curve_points] = flow_m3s;
	w->curve_head_m[w->curve_points++] = head_m;
	return 1;
}
